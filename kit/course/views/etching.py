"""Lesson 09 on the screen."""

from __future__ import annotations

import html
from typing import Any

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.basics.typed import MM_PER_INCH
from kit.course.lessons import etching
from kit.course.lessons import etching_questions as asked
from kit.course.lessons.carbon import CALLED
from kit.course.lessons.scene import Scene
from kit.course.views.base import State, View
from kit.course.views.check import CheckYourself
from kit.course.views.parts import in_a_row
from kit.course.views.predict import Explain, Predict
from kit.course.views.settings import Pick, declared
from kit.course.views.stations import Stations
from kit.course.views.upload import Upload
from kit.metal.bite import bitten, words
from kit.metal.coupons import LARGEST, Coupon, parsed

STATIONS = {
    "1 Look": ("distance", "wear", "since"),
    "2 Etch": ("minutes", "strength", "grit", "polished"),
    "3 Steels": ("first", "second"),
}
FEET = tuple(MM_PER_INCH * inches for inches in range(10, 119))


class EtchingView(View):
    """An etched face, near and from afar; three stations."""

    job = etching.Job
    settings = (
        declared(etching.Job, "distance", "length", 50, inch_stops=FEET),
        declared(etching.Job, "wear", "percent", 5),
        Pick(key="since", label="Since then", options=etching.SINCE),
        declared(etching.Job, "minutes", "minutes", 1),
        Pick(key="strength", label="Etchant", options=etching.STRENGTHS, start=1),
        Pick(
            key="grit",
            label="Finish before",
            options=tuple(f"P{grit}" for grit in etching.GRITS),
            start=etching.GRITS.index(800),
        ),
        Pick(key="polished", label="High spots", options=("as they came out", "polished")),
        Pick(key="first", label="Steel A", options=CALLED),
        Pick(key="second", label="Steel B", options=CALLED, start=1),
    )

    def __init__(self) -> None:
        self.readings: tuple[Coupon, ...] = ()
        super().__init__()
        self.station = Stations(self, STATIONS)
        self.note = widgets.HTML()
        self.upload = Upload("Your own coupons (.json)", ".json", LARGEST, self._coupons)
        row = in_a_row(self.upload)
        self.children = [*self.children, row, self.note]
        self.refresh(moving=False)

    def scene(self, **state: Any) -> Scene:
        """Etch and step back."""
        return etching.scene(**state, readings=self.readings)

    def refresh(self, *, moving: bool, changed: str = "") -> None:
        """Draw the present state, and say what in it is measured and what is guessed."""
        super().refresh(moving=moving, changed=changed)
        if hasattr(self, "note"):
            job = etching.Job(**self.state)
            told = words(bitten(job.names, job.etch, self.readings))
            self.note.value = f'<p class="kit-fine">{html.escape(told)}</p>'

    def _coupons(self) -> None:
        """Take an uploaded file of coupons, or say in one sentence why not."""
        try:
            self.readings = parsed(self.upload.given().content)
        except KitError as refused:
            self.say(str(refused), refused=True)
            return
        self.refresh(moving=False)
        self.say(f"{len(self.readings)} readings of your own go before our guesses.")

    def remark(self, changed: str, state: State) -> str:
        """Say what wear, cleaning and distance do."""
        return etching.remark(changed, state)


def lesson() -> tuple[Predict, EtchingView, Explain, CheckYourself]:
    """Give the four parts of the lesson, ready to be shown one below another."""
    view = EtchingView()
    predict = Predict(asked.question(), view, asked.FILM)
    checks = CheckYourself(asked.STEEP, asked.WALK)
    return predict, view, predict.explain, checks

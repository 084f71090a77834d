"""Measure a photograph by pointing at it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import ipywidgets as widgets
import numpy as np

from kit.basics.errors import KitError
from kit.basics.typed import parse_angle, parse_length
from kit.course.lessons.measured_photo import Measured
from kit.course.views.controls import Choice, Looks, Picture, Says, button, in_a_row, spoken
from kit.course.views.upload import Upload
from kit.metal import etch
from kit.section.picture import encode
from kit.section.surface import shown_at
from kit.section.trace import see
from kit.shop.patterns import pattern
from kit.shop.photograph import MOST_BYTES, Photograph, opened

DOING = ("count bands along a line", "set the scale by two marks", "a bank card's corners")
MARKS = (2, 2, 4)  # places to click: a line's, a scale's, a card's


def example() -> Photograph:
    """Make a picture to begin with: a face that the kit forged, without a scale."""
    known = pattern("random")
    billet = known.forge()
    face = shown_at(billet, known.shown, 900, 360)
    light = see(billet, face, etch.tones(billet.source.steels)).tone
    return Photograph(np.asarray(light, np.float32))


class MeasuringView(widgets.VBox):
    """A photograph, what to do with the marks on it, and one sentence with the result."""

    def __init__(self) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.measured = Measured(example())
        self.picture = Picture()
        self.picture.on_msg(self._heard)
        self.upload = Upload("Open a photograph", "image/*", MOST_BYTES, self._uploaded)
        self.doing = Choice("Marks are for", list(DOING), value=0)
        self.doing.observe(lambda _change: self._show(), names="value")
        wide = {"style": {"description_width": "11em"}, "layout": {"width": "22em"}}
        self.length = widgets.Text(
            description="Between the marks", placeholder="50 mm", **wide
        )
        self.angle = widgets.Text(
            description="Cut angle, if known", placeholder="30", **wide
        )
        self.do_button = button("Measure", self.do, "kit-main")
        self.clear_button = button("Clear marks", self.clear)
        row = in_a_row(self.do_button, self.clear_button, self.upload)
        self.says = Says()
        self.looks = Looks(self._show)
        self.children = [
            self.picture,
            self.says,
            self.doing,
            self.length,
            self.angle,
            row,
            self.looks,
        ]
        self.say("Point at two places on the picture: click, or arrow keys and Enter.")
        self._show()

    def say(self, words: str, *, refused: bool = False) -> None:
        """Write one sentence, which screen readers read out."""
        self.says.value = spoken(words, refused=refused)

    def mark(self, across: float, down: float) -> None:
        """Put a mark where somebody pointed, as shares 0 … 1 of the picture."""
        place = self.measured.at(across, down)
        if place is None:
            self.say("There is no photograph at that place.", refused=True)
            return
        self.measured = self.measured.marked(place, MARKS[self.doing.value])
        self._show()
        self.say(f"Mark {len(self.measured.marks)} of {MARKS[self.doing.value]}.")

    def do(self, _button: Any = None) -> None:
        """Do what the marks are for."""
        self._try((self._count, self._scale, self._card)[self.doing.value])

    def clear(self, _button: Any = None) -> None:
        """Take all marks off."""
        self.measured = Measured(self.measured.photo)
        self._show()
        self.say("No marks.")

    def rehearse(self) -> None:
        """Set a scale, count, and press everything once without marks."""
        for doing in (2, 1, 0):
            self.doing.value = doing
            self.do()
        self.doing.value = 1
        for place in ((0.1, 0.5), (0.6, 0.5)):
            self.mark(*place)
        self.length.value = "40 mm"
        self.do()
        self.doing.value = 0
        for place in ((0.1, 0.5), (0.6, 0.5), (0.99, 0.99)):
            self.mark(*place)
        self.do()
        self.clear()

    def _count(self) -> str:
        text = self.angle.value.strip()
        angle = parse_angle(text) if text else None
        return self.measured.found(angle, self.looks.units)

    def _scale(self) -> str:
        mm = parse_length(self.length.value, unit=self.looks.units.unit)
        self.measured = self.measured.scaled(mm)
        return "The scale is set. Now mark a line to count along."

    def _card(self) -> str:
        self.measured = self.measured.square_on()
        return "The picture is turned square on, and its scale is set by the card."

    def _try(self, work: Callable[[], str]) -> None:
        try:
            told = work()
        except KitError as refused:
            self.say(str(refused), refused=True)
            return
        self._show()
        self.say(told)

    def _uploaded(self) -> None:
        self._try(self._open)

    def _open(self) -> str:
        name, content = self.upload.given()
        self.measured = Measured(opened(content, name))
        return "The photograph is open. Set its scale first, by two marks or by a card."

    def _heard(self, _widget: Any, message: dict, _buffers: Any) -> None:
        if message.get("event") == "point":
            self.mark(float(message["x"]), float(message["y"]))

    def _show(self) -> None:
        self.looks.dress(self)
        self.picture.frame = encode(self.measured.drawn(**self.looks.paper))
        self.picture.alt = self.measured.alt(self.looks.units)

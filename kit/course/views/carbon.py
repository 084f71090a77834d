"""Lesson 08 on the screen."""

from __future__ import annotations

import html
from typing import Any

import ipywidgets as widgets

from kit.course.lessons import carbon
from kit.course.lessons import carbon_questions as asked
from kit.course.lessons.carbon_ideas import ELEMENTS
from kit.course.lessons.scene import Scene
from kit.course.views.base import State, View
from kit.course.views.check import CheckYourself
from kit.course.views.predict import Explain, Predict
from kit.course.views.settings import Pick, declared
from kit.course.views.stations import Stations
from kit.metal.diffusion import DISAGREE

STATIONS = {
    "1 Fire": ("layer", "celsius", "minutes"),
    "2 Steels": ("first", "second"),
    "3 Show": ("element", "activity"),
}
LAYERS = (
    *(0.02, 0.03, 0.04, 0.05, 0.06, 0.08, 0.1, 0.125, 0.15, 0.2, 0.25),
    *(0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.25, 1.5, 2.0),
)
STEELS = tuple(
    {"1018": "mild 1018", "nickel 200": "nickel"}.get(s, s) for s in carbon.STEELS
)


class CarbonView(View):
    """Six layers in the fire: what walks, what stands; three stations."""

    job = carbon.Job
    settings = (
        declared(carbon.Job, "layer", "length", 0.01, all_stops=LAYERS),
        declared(carbon.Job, "celsius", "temperature", 10),
        declared(carbon.Job, "minutes", "minutes", 1),
        Pick(key="first", label="Steel A", options=STEELS),
        Pick(key="second", label="Steel B", options=STEELS, start=1),
        Pick(
            key="element",
            label="Beside carbon",
            options=tuple(carbon.NAMES[name].lower() for name in ELEMENTS),
        ),
        Pick(
            key="activity",
            label="Carbon evens out",
            options=("its per cent", "its activity"),
        ),
    )

    def __init__(self) -> None:
        super().__init__()
        self.station = Stations(self, STATIONS)
        note = widgets.HTML(f'<p class="kit-fine">{html.escape(DISAGREE)}</p>')
        self.children = [*self.children, note]

    def scene(self, **state: Any) -> Scene:
        """Hold the layers hot."""
        return carbon.scene(**state)

    def remark(self, changed: str, state: State) -> str:
        """Say what the square, the same steel twice and activity do."""
        return carbon.remark(changed, state)


def lesson() -> tuple[Predict, CarbonView, Explain, CheckYourself]:
    """Give the four parts of the lesson, ready to be shown one below another."""
    view = CarbonView()
    predict = Predict(asked.question(), view, asked.FILM)
    checks = CheckYourself(asked.THICKER, asked.SQUARE, asked.LOWER)
    return predict, view, predict.explain, checks

"""Lesson 03 on the screen."""

from __future__ import annotations

import html
from typing import Any

import ipywidgets as widgets

from kit.basics.typed import MM_PER_INCH
from kit.course.lessons import draw
from kit.course.lessons import draw_questions as asked
from kit.course.lessons.scene import Scene
from kit.course.views.base import State, View
from kit.course.views.check import CheckYourself
from kit.course.views.predict import Explain, Predict
from kit.course.views.settings import declared
from kit.course.views.stations import Stations

STATIONS = {
    "1 Billet": ("length", "width", "start"),
    "2 Draw out": ("thickness", "spread", "loss"),
}
QUARTERS = tuple(MM_PER_INCH * quarter / 4 for quarter in range(8, 64))
EIGHTHS = tuple(MM_PER_INCH * eighth / 8 for eighth in range(1, 32))


class DrawView(View):
    """A billet that is drawn out, seen from the side: two stations."""

    job = draw.Job
    settings = (
        declared(draw.Job, "thickness", "length", 0.5),
        declared(draw.Job, "spread", "percent", 5),
        declared(draw.Job, "loss", "percent", 1),
        declared(draw.Job, "length", "length", 1, inch_stops=QUARTERS),
        declared(draw.Job, "width", "length", 1, inch_stops=EIGHTHS),
        declared(draw.Job, "start", "length", 1, inch_stops=EIGHTHS),
    )

    def __init__(self) -> None:
        super().__init__()
        self.station = Stations(self, STATIONS)
        self.station.value = 1  # the billet is there: the next thing is to draw it out
        words = html.escape(draw.PLACEHOLDER)
        note = widgets.HTML(f'<p class="kit-fine">{words}</p>')
        self.children = [*self.children, note]

    def scene(self, **state: Any) -> Scene:
        """Draw the bar from the side, before and after."""
        return draw.scene(**state)

    def remark(self, changed: str, state: State) -> str:
        """Say what nothing, spreading, upsetting and losing do."""
        return draw.remark(changed, state)


def lesson() -> tuple[Predict, DrawView, Explain, CheckYourself]:
    """Give the four parts of the lesson, ready to be shown one below another."""
    view = DrawView()
    predict = Predict(asked.question(), view, asked.FILM)
    checks = CheckYourself(asked.BAR_LENGTH, asked.DOT_RATIO, asked.LINE_ANGLE)
    return predict, view, predict.explain, checks

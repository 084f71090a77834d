"""Lesson 10 on the screen."""

from __future__ import annotations

import html
from typing import Any

import ipywidgets as widgets

from kit.basics.typed import MM_PER_INCH
from kit.course.lessons import plan
from kit.course.lessons import plan_questions as asked
from kit.course.lessons.scene import Scene
from kit.course.views.base import State, View
from kit.course.views.check import CheckYourself
from kit.course.views.predict import Explain, Predict
from kit.course.views.settings import Setting, declared
from kit.course.views.stations import Stations
from kit.shop.work import PLACEHOLDER

STATIONS = {
    "1 Rack": ("pieces_a", "pieces_b", "thick_a", "thick_b"),
    "2 Bar wanted": ("length", "width", "thickness"),
    "3 Forge": ("cycles", "draw_to", "weld_scale", "forge_scale"),
    "4 Saw and grind": ("clean_up", "crop", "kerf", "grind"),
}
THOUSANDTHS = tuple(MM_PER_INCH * thousandth / 1000 for thousandth in range(80))
SIXTY_FOURTHS = tuple(MM_PER_INCH * part / 64 for part in range(64))
EIGHTHS = tuple(MM_PER_INCH * eighth / 8 for eighth in range(1, 640))
# step, and where the slider stops in inch mode
STEPS = {
    "pieces_a": (1, ()),
    "pieces_b": (1, ()),
    "thick_a": (0.025, ()),
    "thick_b": (0.0125, ()),
    "length": (1, EIGHTHS),
    "width": (0.1, EIGHTHS),
    "thickness": (0.1, SIXTY_FOURTHS),
    "cycles": (1, ()),
    "draw_to": (0.5, ()),
    "weld_scale": (0.01, THOUSANDTHS),
    "forge_scale": (0.01, THOUSANDTHS),
    "clean_up": (0.05, SIXTY_FOURTHS),
    "crop": (0.5, SIXTY_FOURTHS),
    "kerf": (0.1, SIXTY_FOURTHS),
    "grind": (0.05, SIXTY_FOURTHS),
}


def _setting(key: str) -> Setting:
    field = plan.Job.model_fields[key]
    kind = "length" if (field.json_schema_extra or {}).get("unit") else "count"
    step, inch_stops = STEPS[key]
    return declared(plan.Job, key, kind, step, inch_stops=inch_stops)


class PlanView(View):
    """From the rack to the bar: a staircase of weight, four stations."""

    job = plan.Job
    settings = tuple(map(_setting, STEPS))

    def __init__(self) -> None:
        super().__init__()
        self.station = Stations(self, STATIONS)
        note = widgets.HTML(f'<p class="kit-fine">{html.escape(PLACEHOLDER)}</p>')
        self.children = [*self.children, note]

    def scene(self, **state: Any) -> Scene:
        """Plan one bar."""
        return plan.scene(**state)

    def remark(self, changed: str, state: State) -> str:
        """Say which loss costs most."""
        return plan.remark(changed, state, self.units)


def lesson() -> tuple[Predict, PlanView, Explain, CheckYourself]:
    """Give the four parts of the lesson, ready to be shown one below another."""
    view = PlanView()
    predict = Predict(asked.question(), view, asked.FILM)
    checks = CheckYourself(asked.SHORT_BAR, asked.VOLUME_ONLY)
    return predict, view, predict.explain, checks

"""Lesson 02 on the screen: a button lets its fold slider go as far as the legend."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from kit.course.lessons.base import Lesson
from kit.course.views.base import View
from kit.course.views.controls import button


class FoldView(View):
    """The view of lesson 02, and the legend's button."""

    def __init__(self, lesson: type[Lesson]) -> None:
        super().__init__(lesson)
        self.legend_button = button("Try the legend: 20 folds", self.legend)
        self.buttons.children = [*self.buttons.children, self.legend_button]

    def legend(self, _button: Any = None) -> None:
        """Let the fold slider go on to 20, where layers are a few atoms thick."""
        self.settings = tuple(
            replace(setting, all_stops=()) if setting.key == "folds" else setting
            for setting in self.settings
        )
        self._new_look()
        self.say("The fold slider now goes to 20. Watch the thickness of one layer.")

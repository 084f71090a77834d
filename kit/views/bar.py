"""The bar above every view: units, light, size of type, undo and reset."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import ipywidgets as widgets

from kit.units import Units
from kit.views.controls import Choice
from kit.views.parts import button


class Bar(widgets.Box):
    """What is the same in all views.

    Parameters
    ----------
    changed : callable
        Called, without arguments, when units, light or type were changed.
    undo, reset : callable
        What the two buttons do.
    """

    def __init__(
        self,
        changed: Callable[[], None],
        undo: Callable[[Any], None],
        reset: Callable[[Any], None],
    ) -> None:
        self.unit_choice = Choice("Lengths in", [unit.value for unit in Units], value=0)
        self.light_choice = Choice("Light", ["indoors", "sunlight"], value=0)
        self.type_choice = Choice("Type", ["normal", "big"], value=0)
        self.choices = (self.unit_choice, self.light_choice, self.type_choice)
        for choice in self.choices:
            choice.observe(lambda _change: changed(), names="value")
        tools = widgets.Box(
            [
                button("Undo step (U)", undo, "kit-undo"),
                button("Reset (R)", reset, "kit-reset"),
            ]
        )
        tools.add_class("kit-row-of-buttons")
        tools.add_class("kit-tools")
        super().__init__([*self.choices, tools])
        self.add_class("kit-bar")

    @property
    def units(self) -> Units:
        """How lengths are shown."""
        return list(Units)[self.unit_choice.value]

    @property
    def sunlit(self) -> bool:
        """White paper and black ink, for outdoors."""
        return self.light_choice.value == 1

    @property
    def big(self) -> bool:
        """Big type, for a table."""
        return self.type_choice.value == 1

"""The bar below every view: units, light and size of type."""

from __future__ import annotations

from collections.abc import Callable

import ipywidgets as widgets
import traitlets

from kit.basics.units import Units
from kit.course.views.controls import Choice


class Bar(widgets.Box):
    """What is the same in all views.

    Parameters
    ----------
    changed : callable
        Called, without arguments, when units, light or type were changed.
    """

    def __init__(self, changed: Callable[[], None]) -> None:
        self.unit_choice = Choice("Lengths in", [unit.value for unit in Units], value=0)
        self.light_choice = Choice("Light", ["indoors", "sunlight"], value=0)
        self.type_choice = Choice("Type", ["normal", "big"], value=0)
        self.choices = (self.unit_choice, self.light_choice, self.type_choice)
        for choice in self.choices:
            choice.observe(lambda _change: changed(), names="value")
        super().__init__(list(self.choices))
        self.add_class("kit-bar")

    def follow(self, other: Bar) -> None:
        """Keep the same units, light and type as another bar on the same page."""
        for own, its in zip(self.choices, other.choices, strict=True):
            traitlets.link((its, "value"), (own, "value"))

    def dress(self, page: widgets.Widget) -> None:
        """Give a page the look that is chosen: sunlight, big type."""
        for name, on in (("kit-sunlight", self.sunlit), ("kit-big", self.big)):
            (page.add_class if on else page.remove_class)(name)

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

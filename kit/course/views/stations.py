"""Stations in the anvil's working order: never more than four controls at a time."""

from __future__ import annotations

from typing import Any

import ipywidgets as widgets

from kit.course.views.controls import Choice


class Stations(Choice):
    """Shows the controls of one station of a view at a time.

    Parameters
    ----------
    view : View
        It gets the choice above its controls.
    stations : dict
        From a station's name to the keys of its controls.
    """

    def __init__(self, view: Any, stations: dict[str, tuple[str, ...]]) -> None:
        super().__init__("Station", list(stations), value=0)
        self._view, self._keys = view, list(stations.values())
        self._above = widgets.HTML(
            '<p class="kit-fine">Its slider is below the picture.</p>'
        )
        self.observe(self._go, names="value")
        place = view.children.index(view.panel)
        view.children = [*view.children[:place], self, *view.children[place:]]
        self._go()

    def _go(self, _change: Any = None) -> None:
        """Lay out the controls of the chosen station."""
        view = self._view
        asked = [view.controls[key] for key in self._keys[self.value]]
        rest = [one for one in asked if one is not view.main]
        view.panel.children = rest or [self._above]
        view.show_cue()
        if "kit-refused" in view.says.value:  # it spoke of a control left behind
            view.say(view.shown.says or view.shown.invites)

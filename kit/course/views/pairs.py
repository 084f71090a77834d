"""What any two steels do together: one steel chosen, a row for each of the others."""

from typing import Any

import ipywidgets as widgets

from kit.course.views.controls import Choice
from kit.course.views.said import Says, Text, how_known, small_print, table
from kit.forge.steels import GRADES, steel
from kit.metal.dangers import LEARN
from kit.metal.etch import TONES
from kit.metal.hardening import HARDENABLE, TEMPERED, WINDOW
from kit.metal.pairs import HEADINGS, pair, row

NOTE = (
    "15N20 is a trade word; its standard name is 75Ni8. Nickel is UNS N02200. "
    "Contrast is illustrative, as stacked and once carbon has evened out. A pair without a "
    "warning is not thereby safe: fire, flux and dust are dangerous with every steel. "
    f"{LEARN}"
)


class PairTable(widgets.VBox):
    """A table of pairs, and the reasons of the one that is asked about."""

    def __init__(self) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.names = list(GRADES)
        self.first = Choice("Steel", self.names, value=self.names.index("1084"))
        self.second = Choice("With", self.names, value=self.names.index("15N20"))
        self.table, self.says, self.known = Text(), Says(), Text()
        for choice in (self.first, self.second):
            choice.observe(self._show, names="value")
        note = Text(small_print(NOTE))
        self.children = [self.first, self.second, self.says, self.known, self.table, note]
        self._show()

    def rehearse(self) -> None:
        """Choose every steel once in both places."""
        for choice in (self.first, self.second):
            for place in range(len(self.names)):
                choice.value = place

    def _show(self, _change: Any = None) -> None:
        one, other = (self.names[choice.value] for choice in (self.first, self.second))
        self.says.tell(self._told(one, other))
        known = (HARDENABLE, WINDOW, TEMPERED, TONES)
        claims = (*map(steel, dict.fromkeys((one, other))), *known)
        self.known.value = how_known((*claims, *pair(one, other).reasons))
        rows = [row(pair(one, name)) for name in self.names if name != one]
        named, chosen = f"{one} with each of the others", str(pair(one, other))
        told = table(HEADINGS, rows, named, chosen)
        self.table.value = f'<div class="kit-table">{told}</div>'

    def _told(self, one: str, other: str) -> str:
        if one == other:
            return f"{one} with itself: one steel, no pattern but faint weld lines."
        two = pair(one, other)
        return "\n".join([two.hardening.sentence, *(f"{why}" for why in two.reasons)])

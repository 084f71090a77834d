"""A plan made from the bars one has: what to saw from which, with room to tick it off."""

from __future__ import annotations

from kit.basics.claim import known
from kit.basics.errors import KitError
from kit.classroom.paper.kinds import Asked, Kind
from kit.classroom.paper.page import Page
from kit.classroom.paper.table import BOX, Table
from kit.classroom.paper.told import weighed
from kit.shop.plan import Plan
from kit.shop.plan_told import from_the_rack, told
from kit.shop.rack import planned_from
from kit.shop.work import SHOP_LOSSES

LINES = 14  # to write bars on, where no rack was given; ours


def racked(asked: Asked) -> list[Page]:
    """Say whether the rack reaches, then what to saw and what is left of it.

    Without bars the sheet is a form: the rack, to be written down at its own place.

    Raises
    ------
    KitError
        Bars for a recipe: only a plan says how many pieces of which steel.
    """
    given, bars, units = asked.about, asked.rack, asked.units

    def turn(title: str = "From my rack, continued") -> Page:
        return asked.page(title)

    pages = [turn("From my rack" if bars else "My rack")]
    if not bars:
        form = Table(
            ("Bars", "Steel", "T × W × L", "Price of one"), (20, 50, 80, 40), 10, 13
        )
        form.rows = [("", "", "", "")] * LINES
        return form.run(pages, turn)
    if not isinstance(given, Plan):
        msg = "A rack's sheet is of a plan: give its line, or the class's plan."
        raise KitError(msg)
    made = planned_from(given, bars, units)
    for words in told(made, units):
        pages[-1].write(words)
    rests = (*weighed(made.plan.billet), SHOP_LOSSES)
    pages[-1].write(f"{known('Weights and losses', rests)}.", size=10)
    sawn, left = from_the_rack(made, units)
    for heading, rows in (("Saw", sawn), ("Left on the rack", left)):
        if rows:
            table = Table((heading, "Done"), (174, 16), 9.5)
            table.rows = [(row, BOX) for row in rows]
            pages[-1].y += 5
            table.run(pages, turn)
    return pages


PRINTS = (Kind("rack", "a plan from your own bars, or a form for them", racked, "bar"),)

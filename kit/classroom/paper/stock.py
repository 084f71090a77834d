"""The stock that one bar needs: which bars of the rack to saw, how long, with losses."""

from __future__ import annotations

from kit.basics.claim import known
from kit.basics.units import format_cut_length, format_length
from kit.classroom.paper.card import lost_in_words
from kit.classroom.paper.kinds import Asked, Kind
from kit.classroom.paper.page import LIVE, Page
from kit.classroom.paper.table import BOX, Table
from kit.classroom.paper.told import size_in_words, weighed
from kit.course.anvil.needed import to_saw
from kit.metal.cautions import NEVER
from kit.shop.losses import weight
from kit.shop.plan import Plan, cut_list, in_words, section_in_words
from kit.shop.work import SHOP_LOSSES, Losses

MODEL = (
    "Reckoned backwards through every step: scale, ground faces, crops and saw cuts are "
    "made up for by longer pieces. Sections are those on the screen."
)
LEFT_OUT = "Left out: burrs, a bad weld, tapered ends, what sticks to the saw."


def stock(asked: Asked) -> list[Page]:
    """Give the pieces, the bars to saw them from, and what is lost on the way.

    Raises
    ------
    KitError
        A piece that no bar of the rack gives.
    """
    given, units = asked.about, asked.units
    if isinstance(given, Plan):  # it has its own reckoning, and its own losses
        name, size, ready = "the class's bar", given.wanted, given.grams_out
        losses, sawn = given.losses, cut_list(given)
    else:
        name, size, ready = given.name, given.billet.size, weight(given.billet)
        losses, sawn = Losses(), to_saw(given.billet)
    told = size_in_words(size.thickness, size.width, size.length, units)
    grams = sum(one.grams for one in sawn)

    def turn(title: str = "Stock, continued") -> Page:
        return asked.page(title)

    first = turn(f"Stock for {name[:30]}")
    first.write(f"For a bar of {told}, {ready:,.0f} g, ground clean.")
    rests = (*weighed(given.billet), SHOP_LOSSES)
    saw = f"Saw {grams:,.0f} g of steel: {ready / grams:.0%} of it comes out"
    first.write(f"{known(saw, rests)}.")
    first.write(f"{MODEL} {LEFT_OUT}", size=10)
    first.write(lost_in_words(losses, units), size=10)
    first.y += 3
    counts: dict[tuple, int] = {}
    for one in sawn:
        key = (one.rack.steel, one.rack.thickness, one.rack.width, one.length)
        counts[key] = counts.get(key, 0) + one.pieces
    stacked = Table(("Pieces", "Steel", "T × W", "Cut to"), (22, 48, 70, 50), 10)
    for (steel, thick, wide, long), count in counts.items():
        section = section_in_words(thick, wide, units)
        cut = format_cut_length(long, units)
        stacked.rows.append((f"{count} ×", steel, section, cut))
    stock_length = format_length(sawn[0].rack.length, units)
    from_bars = Table((f"Saw from bars {stock_length} long", "Done"), (174, 16), 9.5)
    from_bars.rows = [(in_words(one, units), BOX) for one in sawn]
    pages = [first]
    for table in (stacked, from_bars):
        table.run(pages, turn)
        pages[-1].y += 5
    if pages[-1].y + pages[-1].tall(NEVER, size=10) > LIVE[1]:
        pages.append(turn())
    pages[-1].write(NEVER, size=10)
    pages[-1].foot("Lengths are rounded up, never down.")
    return pages


PRINTS = (Kind("stock", "the stock one bar needs, losses included", stock, "bar"),)

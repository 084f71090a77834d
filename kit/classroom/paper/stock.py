"""The stock that one bar needs, losses included: bars to buy, or those one has."""

from collections import Counter
from collections.abc import Iterable

from kit.basics.claim import known
from kit.basics.errors import KitError
from kit.basics.units import Units, format_cut_length, format_length
from kit.classroom.paper import operations
from kit.classroom.paper.blade_lines import EXAMPLE
from kit.classroom.paper.card import lost_in_words
from kit.classroom.paper.kinds import PLAN, Asked, Kind
from kit.classroom.paper.page import LIVE, Page
from kit.classroom.paper.table import BOX, Table
from kit.classroom.paper.told import bought_in_words, size_in_words, weighed
from kit.course.anvil.needed import to_saw
from kit.forge.stack import DEMO_OUTER
from kit.metal.cautions import NEVER
from kit.shop.losses import weight
from kit.shop.plan import Plan
from kit.shop.plan_told import from_the_rack, told
from kit.shop.sawing import Sawn, cut_list, in_words, section_in_words
from kit.shop.work import SHOP_LOSSES, Losses

MODEL = (
    "Reckoned backwards through every step: scale, ground faces, crops and saw cuts are "
    "made up for by longer pieces. Sections are those on the screen."
)
LINES = 13  # to write bars on, where no rack was given; ours
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
    sides = size_in_words(size.thickness, size.width, size.length, units)
    grams = sum(one.grams for one in sawn)

    def turn(title: str = "Stock, continued") -> Page:
        return asked.page(title)

    first = turn(f"Stock for {name[:30]}")
    first.write(f"For a bar of {sides}, {ready:,.0f} g, ground clean.")
    if missed := operations.not_taken(operations.of_any(given, units)):
        first.write(missed, bold=True)
    rests = (*weighed(given.billet), SHOP_LOSSES)
    saw = f"Saw {grams:,.0f} g of steel: {ready / grams:.0%} of it comes out"
    first.write(f"{known(saw, rests)}.")
    first.write(f"{MODEL} {LEFT_OUT}", size=10)
    first.write(lost_in_words(losses, units), size=10)
    first.y += 3
    stock_length = format_length(sawn[0].rack.length, units)
    from_bars = Table((f"Saw from bars {stock_length} long", "Done"), (174, 16), 9.5)
    from_bars.rows = [(in_words(one, units), BOX) for one in sawn]
    pages = [first]
    for table in (_pieces(sawn, units), from_bars):
        table.run(pages, turn)
        pages[-1].y += 5
    if pages[-1].y + pages[-1].tall(NEVER, size=10) > LIVE[1]:
        pages.append(turn())
    pages[-1].write(NEVER, size=10)
    pages[-1].foot("Lengths are rounded up, never down.")
    return pages


def _pieces(sawn: Iterable[Sawn], units: Units) -> Table:
    """List the pieces of the stack, like ones together."""
    counts: Counter[tuple[str, float, float, float]] = Counter()
    for one in sawn:
        key = (one.rack.steel, one.rack.thickness, one.rack.width, one.length)
        counts[key] += one.pieces
    table = Table(("Pieces", "Steel", "T × W", "Cut to"), (22, 48, 70, 50), 10)
    for (steel, thick, wide, long), count in counts.items():
        section = section_in_words(thick, wide, units)
        table.rows.append((f"{count} ×", steel, section, format_cut_length(long, units)))
    return table


def racked(asked: Asked) -> list[Page]:
    """Say whether the rack reaches, then what to saw and what is left of it.

    Without bars the sheet is a form: the rack, to be written down at its own place.

    Raises
    ------
    KitError
        Bars for a recipe: only a plan says how many pieces of which steel. A bar, but
        no rack.
    """
    bars, units = asked.rack, asked.units

    def turn(title: str = "From my rack, continued") -> Page:
        return asked.page(title)

    pages = [turn("From my rack" if bars else "My rack")]
    if not bars and asked.recipe != PLAN:
        msg = "Without a rack the sheet is a form, of no bar: give your rack's file, too."
        raise KitError(msg)
    if not bars:
        form = Table(
            ("Bars", "Steel", "T × W × L", "Price of one"), (25, 50, 75, 40), 10, 13
        )
        size = bought_in_words(DEMO_OUTER.thickness, 38.1, 1000, units)
        example = (f"{EXAMPLE}: 2", DEMO_OUTER.steel, size, "9.50")
        form.rows = [example, *[("",) * 4] * LINES]
        return form.run(pages, turn)
    made = asked.racked
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


PRINTS = (
    Kind("stock", "the stock one bar needs, losses included", stock, "bar"),
    Kind("rack", "a plan from your own bars, or a form for them", racked, "bar", ("rack",)),
)

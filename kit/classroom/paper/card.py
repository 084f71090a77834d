"""The recipe card: two sides that a smith can forge from, and load again.

On the second side it goes step by step; a sheet beside it says what to wear and mind.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from kit.basics.claim import known
from kit.basics.told import counted, in_units
from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units, format_cut_length, format_weight
from kit.classroom import kit_version
from kit.classroom.paper import operations
from kit.classroom.paper.code import side_of, square_code
from kit.classroom.paper.kinds import Asked, Kind
from kit.classroom.paper.operations import Operation
from kit.classroom.paper.page import LIVE, Page
from kit.classroom.paper.table import BOX, Table
from kit.classroom.paper.to_scale import Goal, StackEnd, goal
from kit.classroom.paper.told import (
    ETCHING,
    KINDS,
    LOCAL,
    bars_in_words,
    bought_in_words,
    etching,
    hardening,
    letters,
    size_in_words,
    stacks,
    weighed,
)
from kit.course.lessons.scene import FORGED
from kit.forge.billet import Billet
from kit.metal.dangers import LEARN, Danger
from kit.metal.hardening import TEMPERED, WINDOW
from kit.metal.transformation import STARTS
from kit.metal.working_heat import check_advised
from kit.shop import plan_line
from kit.shop.plan import Plan
from kit.shop.plan_told import enough, flush, from_the_rack, in_money, layers_in_words
from kit.shop.recipes import shorthand
from kit.shop.recipes.recipe import VERSION, Recipe
from kit.shop.sawing import cut_list, in_words
from kit.shop.work import PLACEHOLDER, SHOP_LOSSES, Losses

SIZES = (12, 11, 10, 9, 8)  # points: the largest that fits is taken
PICTURE = (LIVE[0], 38.0)  # mm
MARKED = 24.0  # mm, the room for the maker's mark
CUTS = LIVE[0] - 103 - MARKED - 3  # mm
FEWER = (4, 2, 0)  # lines of them, ours, where not all find room
NO_RACK = (
    "Losses are not included: add scale, crops, kerfs and grinding of your own (the page "
    "'From the rack to the bar' reckons them)."
)

DROPPED = "The line leaves out that a weld did not take: the recipe's file keeps it."


@dataclass(frozen=True)
class Card:
    """What a card tells, whether it is of a plan or of a recipe."""

    name: str
    billet: Billet
    line: str
    facts: list[str]
    cuts: list[str]
    rows: list[Operation]
    losses: str
    sheet: str = "stock"  # the kind of paper that has all cuts

    @property
    def open(self) -> str:
        """Which welds did not take, in a sentence; nothing where all did."""
        return operations.not_taken(self.rows)

    def short(self, most: int) -> Card:
        """Give a card with fewer cuts, and where the others stand."""
        more = counted(len(self.cuts) - most, "line")
        rest = f"{more} more: see the sheet '{self.sheet}'."
        return replace(self, cuts=[*self.cuts[:most], rest])


def card(asked: Asked) -> list[Page]:
    """Give the card's two sides and what to mind; more, if there are many steps.

    A plan has a rack and losses, and is made from the bars one has if they are given; a
    recipe has none, and its card leaves them out.
    Temperatures are in °C and °F, whatever the units.

    Raises
    ------
    KitError
        If a step is hotter than a steel of it may be worked; a recipe with a rack.
    """
    given, units = asked.about, asked.units
    check_advised(given.billet)
    if asked.rack:
        made = _of_rack(asked)
    elif isinstance(given, Plan):
        made = _of_shop(given, units)
    else:
        made = _of(given, units)
    return [_front(asked, made), *_steps_side(asked, made)]


def _of_shop(plan: Plan, units: Units) -> Card:
    """Tell a plan from bars as they are sold."""
    return _of_plan(plan, units, [in_words(sawn, units) for sawn in cut_list(plan)])


def _of_plan(plan: Plan, units: Units, cuts: list[str]) -> Card:
    size = size_in_words(
        plan.wanted.thickness, plan.wanted.width, plan.wanted.length, units
    )
    cut = format_cut_length(plan.start_length, units)
    return Card(
        name="a planned bar",
        billet=plan.billet,
        line=plan_line.to_line(plan),
        facts=[
            f"Finished size, T × W × L: {size}",
            known(layers_in_words(plan, units).removesuffix("."), (FORGED,)),
            known(
                in_units(f"{plan.grams_in:,.0f} g in, {plan.grams_out:,.0f} g out", units),
                (*weighed(plan.billet), SHOP_LOSSES),
            ),
            f"Cut every piece {cut} long.",
        ],
        cuts=cuts,
        rows=operations.of_plan(plan),
        losses=lost_in_words(plan.losses, units),
    )


def _of_rack(asked: Asked) -> Card:
    """Tell a plan that is made from the bars one has: first whether they are enough."""
    made = asked.racked
    cuts, _left = from_the_rack(made, asked.units)
    told = _of_plan(made.plan, asked.units, cuts)
    more = filter(None, (flush(made.plan, asked.units), in_money(made)))
    facts = [*enough(made, asked.units), *told.facts, *more]
    return replace(told, name="a bar from my rack", facts=facts, sheet="rack")


def lost_in_words(losses: Losses, units: Units) -> str:
    """List what the shop loses; placeholders are called so."""
    parts = []
    for key, value in losses.model_dump().items():
        field = Losses.model_fields[key]
        long = (field.json_schema_extra or {}).get("unit") == "mm"
        inch = long and units is not Units.MM
        shown = f"{value / MM_PER_INCH:.3f} in" if inch else f"{value:g}{' mm' * long}"
        parts.append(f"{field.title.lower()} {shown}")
    told = f"{', '.join(parts).capitalize()}."
    return f"{told} {PLACEHOLDER}" if losses == Losses() else told


def _of(recipe: Recipe, units: Units) -> Card:
    billet = recipe.billet
    facts = [f"Finished size, T × W × L: {size_in_words(*reversed(billet.size), units)}"]
    if billet.tally.even:
        facts.append(known(_counts(billet), (FORGED,)))
    facts += [recipe.note] if recipe.note else []
    facts += [f"Source: {recipe.source}"] if recipe.source else []
    return Card(
        name=recipe.name,
        billet=billet,
        line=shorthand.short_line(billet),
        facts=facts,
        cuts=_bars(billet, units),
        rows=operations.of_any(recipe, units),
        losses=NO_RACK,
    )


def _counts(billet: Billet) -> str:
    return f"{counted(billet.layers, 'layer')}, {counted(billet.bands, 'band')}"


def _bars(billet: Billet, units: Units) -> list[str]:
    """Say which bars are needed, where there is no rack to cut them from."""
    counts: dict[tuple, int] = {}
    for stack, times in stacks(billet).items():
        for layer in stack.layers:
            key = (layer.steel, layer.thickness, stack.width, stack.length)
            counts[key] = counts.get(key, 0) + times
    return [
        f"{times} × {name}, {bought_in_words(thick, wide, long, units)}"
        for (name, thick, wide, long), times in counts.items()
    ]


def _front(asked: Asked, made: Card) -> Page:
    """Draw the first side with the largest letters that fit, if need be with fewer cuts."""
    seen = goal(made.billet, PICTURE, made.name, units=asked.units, found=asked.found)
    fewer = [made.short(most) for most in FEWER if most < len(made.cuts)]
    tried = [*((made, size) for size in SIZES), *((one, SIZES[-1]) for one in fewer)]
    for one, size in tried:
        page = _drawn(asked, one, seen, size)
        if page.y <= LIVE[1]:
            break
    page.foot(LEARN)
    return page


def _drawn(asked: Asked, made: Card, seen: Goal, size: float) -> Page:
    page, units, side = Page(asked.paper), asked.units, side_of(made.line)
    room = LIVE[0] - side - 2
    page.head(f"Recipe card: {made.name}", room=room)
    page.y += 1.5
    if made.open:
        page.write(made.open, width=room, size=max(10, size), bold=True)
    for fact in made.facts:
        page.write(fact, width=room, size=max(10, size))
    if side:
        square_code(page, made.line, (LIVE[0] - side + 2, -2))
    page.y = max(page.y, side - 4) + 2
    foot = page.picture(seen.image, (0, page.y), seen.width)
    page.ruler((0, foot), seen.width, inch=units is not Units.MM)
    page.y = page.write(seen.says, (0, foot + 4.2), size=9) + 2
    page.makers_mark((LIVE[0] - MARKED, page.y), MARKED, asked.mark)
    _stack_and_cuts(page, made, units, size)
    for title, words, rests in (
        ("Losses", made.losses, (SHOP_LOSSES,) if made.losses != NO_RACK else ()),
        ("Hardening", hardening(made.billet), HARDENED),
        ("Etch", etching(), (ETCHING,)),
    ):
        page.write(known(title, rests) if rests else title, size=size, bold=True)
        page.write(words, size=size)
        page.y += 1.2
    _reload(page, made, size)
    return page


def _stack_and_cuts(page: Page, made: Card, units: Units, size: float) -> None:
    top = page.y
    stack, times = next(iter(stacks(made.billet).items()))
    words = bars_in_words(stack, units)
    which = "Stack" if times == 1 else f"Stack, one of {times}"
    page.write(which, (0, top), size=size, bold=True)
    low = StackEnd(stack, words).draw(page, (0, top + 8), (45, 48))
    page.write("To cut", (98, top), size=size, bold=True)
    y = top + 7
    for cut in made.cuts:
        page.box((98, y + 0.6), (3, 3))
        y = page.write(cut, (103, y), CUTS, size=size) + 1.5
    if made.losses != NO_RACK:
        y = page.write("Lengths are rounded up, never down.", (98, y), CUTS + 5, size=size)
    page.y = max(low, y) + 2


def _reload(page: Page, made: Card, size: float) -> None:
    """Write the line that brings the card back, and what made it."""
    top = page.y + 1
    page.write(
        "To load this card again, type or scan:", (2, top + 1.5), size=size, bold=True
    )
    line = made.line or shorthand.NO_LINE
    y = page.write(line, (2, top + 2.5 + size / 2), LIVE[0] - 4, size=min(size, 10))
    if made.open and made.line:
        y = page.write(DROPPED, (2, y + 0.5), LIVE[0] - 4, size=min(size, 10), bold=True)
    chance = operations.seeds(made.billet)
    seeded = "seeds " + ", ".join(map(str, chance)) if chance else "nothing left to chance"
    said = f"Kit {kit_version()}, recipe format {VERSION}; {seeded}."
    y = page.write(said, (2, y + 0.5), size=8)
    page.box((0, top), (LIVE[0], y - top + 1))
    page.y = y + 2


# How the hardening is known.
HARDENED = (WINDOW, STARTS, TEMPERED)
HEATS, UNKNOWN = 3, "–"  # the column of heats, and what stands there
UNEVEN = "Layers –: from there on they are not as many everywhere in the bar."
COLUMNS = {  # and their widths, mm
    "": 7,
    "Do": 30,
    "T × W × L": 49,
    "Heats": 36,
    "Mass": 15,
    "Layers": 16,
    "Measured": 24,
    "Wear": 13,
}
COLUMNS_WITHOUT_HEATS = {  # mm, as above
    "": 7,
    "Do": 49,
    "T × W × L": 58,
    "Mass": 17,
    "Layers": 16,
    "Measured": 30,
    "Wear": 13,
}
FEW = 13  # steps: so many leave room for larger letters


def _steps_side(asked: Asked, made: Card) -> list[Page]:
    """Give a card's second side: every step with a box to write in, and what to wear."""
    rows = made.rows
    few = len(rows) <= FEW
    title = f"{made.name[0].upper()}{made.name[1:]}"
    sizes = _sizes(rows, asked.units)
    left = [_line(row, size, asked.units) for row, size in zip(rows, sizes, strict=True)]
    columns = COLUMNS
    if all(row[HEATS] == UNKNOWN for row in left):
        columns = COLUMNS_WITHOUT_HEATS
        left = [(*row[:HEATS], *row[HEATS + 1 :]) for row in left]

    def turn() -> Page:
        page = asked.page(f"{title}: step by step")
        said = "Sizes and weights are as they should be after each step"
        page.write(known(said, weighed(made.billet)), size=10)
        if any(row.layers is None for row in rows):
            page.write(UNEVEN, size=10)
        return page

    size, least = (10, 9) if few else (8.5, 7.4)
    steps = Table(tuple(columns), tuple(columns.values()), size, least, rows=left)
    return [*steps.run([], turn), _mind(asked, title)]


def _mind(asked: Asked, title: str) -> Page:
    """List what can hurt at each work, and who decides."""
    page = asked.page(f"{title}: what to wear and mind")
    mind = Table(("Wear", "At", "Mind", "Who decides"), (12, 34, 104, 40), size=8.5)
    known: dict[Danger, str] = {}
    for kind in KINDS:
        for danger in kind.dangers:
            known[danger] = f"{known.get(danger, '')} {kind.letter}".strip()
    mind.rows = [
        (letters, danger.name.capitalize(), danger.says, danger.decides)
        for danger, letters in known.items()
    ]
    mind.draw(page)
    page.foot(LOCAL)
    return page


def _sizes(rows: Sequence[Operation], units: Units) -> list[str]:
    """Tell the sizes; in decimals, if fractions of an inch would hide what a step does."""
    told, fine = (
        [size_in_words(*reversed(row.size), to) for row in rows]
        for to in (units, units.fine)
    )
    both = zip(pairwise(told), pairwise(fine), strict=True)
    hidden = any(one == other and exact != after for (one, other), (exact, after) in both)
    return fine if hidden else told


def _line(row: Operation, size: str, units: Units) -> Sequence[str]:
    weighs = format_weight(row.grams, units)
    layers = UNKNOWN if row.layers is None else f"{row.layers:,}"
    first = (row.number, row.told, size, row.heat, weighs, layers)
    return (*first, BOX, letters(row.done_at))


PRINTS = (Kind("card", "a recipe card that loads again", card, "bar", ("mark", "rack")),)

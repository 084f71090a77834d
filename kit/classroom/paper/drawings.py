"""Drawings to lay steel on: the bar at each step, where to mark, dimple and groove."""

import math

from kit.basics.claim import marks
from kit.basics.errors import KitError
from kit.basics.units import Units, format_length
from kit.classroom.paper import operations
from kit.classroom.paper.blade_lines import EXAMPLE, blade_lines, titled
from kit.classroom.paper.kinds import Asked, Kind
from kit.classroom.paper.operations import Operation
from kit.classroom.paper.page import BODY, HAIR, MEASURED, Page, Place
from kit.classroom.paper.to_scale import StackEnd, in_words, scale_for
from kit.classroom.paper.told import bars_in_words
from kit.course.lessons.scene import FORGED
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Stack
from kit.forge.steps import Size, Step, Twist
from kit.forge.steps.dents import ROWS
from kit.forge.steps.groove import Groove
from kit.forge.steps.hollows import Hollows
from kit.shop.plan import Plan
from kit.shop.recipes.recipe import Recipe

CELL = (59.0, 52.0)  # mm: room for one section, with its words
SECTION = (55.0, 36.0)
USUAL_TURN = 44.0  # mm
USUAL_DIMPLE = (8.0, 9.0)  # mm across, and apart
USUAL_LADDER = 12.0  # mm apart
BAR = (168.0, 16.0)  # mm: the bar that marks are drawn on
QUARTERS = ("1/4", "1/2", "3/4", "1")


def drawings(asked: Asked) -> list[Page]:
    """Give the bar at each step, and marks for what the recipe twists or presses.

    Nothing is drawn that it does not have; see `examples`.
    """
    given = asked.about
    billet = given.billet
    rows = operations.of_any(given, asked.units)
    steps = _steps(billet)
    turned = next((step for step in steps if isinstance(step, Twist)), None)
    rungs = next((step for step in steps if isinstance(step, Groove)), None)
    hollows = (step for step in steps if isinstance(step, Hollows))
    sunk = next((step for step in hollows if not isinstance(step, Groove)), None)
    pages = [_stack(asked, given, operations.not_taken(rows)), *_sections(asked, rows)]
    if turned:
        pages.append(_twist(asked, turned.turn_length, (turned.hand,)))
    if sunk or rungs:
        dimple = (sunk.across, sunk.spacing) if sunk else None
        pages.append(_marks(asked, dimple, rungs.spacing if rungs else 0))
    return pages


def examples(asked: Asked) -> list[Page]:
    """Give marks as they are usual, and two blades: of no plan, and they say so."""
    return [
        _twist(asked, USUAL_TURN, ("right", "left"), EXAMPLE),
        _marks(asked, USUAL_DIMPLE, USUAL_LADDER, EXAMPLE),
        *blade_lines(asked),
    ]


def _steps(billet: Billet) -> list[Step]:
    """Give all steps, those of a bundle's bars too."""
    bars = billet.source.bars if isinstance(billet.source, Bundle) else ()
    return [*billet.steps, *(step for bar in bars for step in _steps(bar))]


def _stack(asked: Asked, given: Plan | Recipe, missed: str) -> Page:
    page, units = asked.page("The stack, from its end", scaled=True), asked.units
    source = given.billet
    while isinstance(source.source, Bundle):
        source = source.source.bars[0]
    stack: Stack = source.source
    if missed:
        page.write(missed, bold=True)
    size = [format_length(side, units) for side in (stack.thickness, stack.width)]
    page.write(f"{size[0]} high, {size[1]} wide; {len(stack.layers)} bars. Lay them on it.")
    words = bars_in_words(stack, units)
    page.y = StackEnd(stack, words).draw(page, (0, page.y + 4), (120, 62)) + 5
    _pieces(page, given, stack, units)
    return page


def _pieces(page: Page, plan: Plan | Recipe, stack: Stack, units: Units) -> None:
    """Draw the bars of the stack from above, as they are sawn."""
    scale = scale_for(stack.length, stack.width, (176, MEASURED - page.y - 16))
    long = format_length(stack.length, units)
    told = "Saw every piece to this length" if isinstance(plan, Plan) else "One bar"
    page.write(f"{told}: {long}. From above, {in_words(scale)}.", size=BODY)
    page.box((0, page.y + 2), (stack.length * scale, stack.width * scale))


def _grouped(rows: list[Operation]) -> list[tuple[Size, list[int]]]:
    """Put steps together that leave the bar with one section."""
    groups: dict[tuple, tuple[Size, list[int]]] = {}
    for number, row in enumerate(rows):
        key = (round(row.size.width, 1), round(row.size.thickness, 1), row.size.round)
        groups.setdefault(key, (row.size, []))[1].append(number)
    return list(groups.values())


def _sections(asked: Asked, rows: list[Operation]) -> list[Page]:
    """Draw each section that the bar has on the way, as many to a page as it holds."""
    pages: list[Page] = []
    groups = _grouped(rows)
    across, down = int(178 // CELL[0]), int(158 // CELL[1])
    for start in range(0, len(groups), across * down):
        page = asked.page("The bar at each step, sawn across", scaled=True)
        page.write(
            "Hold the end of the bar against its drawing: does it fill it? "
            f"Its sizes are {marks((FORGED,))}."
        )
        top = page.y + 3
        for place, (size, which) in enumerate(groups[start : start + across * down]):
            at = (place % across * CELL[0], top + place // across * CELL[1])
            _section(page, at, size, _named(rows, which), asked.units)
        pages.append(page)
    return pages


def _named(rows: list[Operation], which: list[int]) -> str:
    """Say after which steps the bar has a section: "after draw out (2, 7), crop (3, 8)"."""
    named: dict[str, list[str]] = {}
    for number in which:
        named.setdefault(rows[number].work, []).append(rows[number].number)
    told = (f"{work} ({', '.join(dict.fromkeys(at))})" for work, at in named.items())
    return f"after {', '.join(told)}"


def _section(page: Page, at: Place, size: Size, told: str, units: Units) -> None:
    scale = scale_for(size.width, size.thickness, SECTION)
    wide, tall = size.width * scale, size.thickness * scale
    if size.round:
        middle = (at[0] + wide / 2, at[1] + tall / 2)
        page.shape(_ring(middle, wide / 2, tall / 2))
    else:
        page.box(at, (wide, tall))
    sides = [format_length(side, units) for side in (size.thickness, size.width)]
    more = "" if scale == 1 else f", {in_words(scale)}"
    y = page.write(f"{' × '.join(sides)}{more}", (at[0], at[1] + tall + 1), CELL[0] - 3,
            size=9, bold=True)  # fmt: skip
    page.write(told, (at[0], y), CELL[0] - 3, size=8)


def _ring(middle: Place, wide: float, tall: float) -> list[Place]:
    turn = [2 * math.pi * part / 72 for part in range(72)]
    return [
        (middle[0] + wide * math.cos(one), middle[1] + tall * math.sin(one)) for one in turn
    ]


def _twist(asked: Asked, turn: float, hands: tuple[str, ...], example: str = "") -> Page:
    """Draw a bar with a mark at each quarter turn, and the line chalked along it."""
    title = titled("Twist marks, a quarter turn each", example)
    page, units = asked.page(title, scaled=True), asked.units
    page.write(
        f"One turn in {format_length(turn, units)}. Chalk a straight line "
        "along the bar before you twist. Afterwards lay the bar beside the marks: at each "
        "the line has come a quarter further round. Where it lags the bar was colder, "
        "where it has run ahead hotter (common practice, no source). The bar drawn is "
        f"{format_length(BAR[0], units)} long: lay yours on again where the last whole "
        "turn ended."
    )
    y = page.y + 5
    for hand in hands:
        page.write(f"{hand} hand", (0, y), size=11, bold=True)
        _twisted(page, y + 7, turn, 1 if hand == "right" else -1)
        y += 46
    return page


def _twisted(page: Page, y: float, turn: float, side: int) -> None:
    long, across = BAR
    page.box((0, y), (long, across))
    steps = 400
    run: list[Place] = []
    for part in range(steps + 1):
        x = long * part / steps
        angle = 2 * math.pi * x / turn
        if math.cos(angle) >= 0:  # on the side that is seen
            run.append((x, y + across / 2 * (1 + side * math.sin(angle))))
            continue
        if len(run) > 1:
            page.line(*run, width=0.8)
        run = []
    if len(run) > 1:
        page.line(*run, width=0.8)
    quarter, number = turn / 4, 0
    while number * quarter <= long + 1e-9:
        x = number * quarter
        page.line((x, y + across), (x, y + across + 6), width=HAIR)
        if quarter >= 5 or not number % 4:
            turns, part = divmod(number, 4)
            words = QUARTERS[part - 1] if part else str(turns)
            page.write(words, (x - 1, y + across + 7), 20, size=8)
        number += 1


def _marks(
    asked: Asked, dimple: tuple[float, float] | None, rung: float, example: str = ""
) -> Page:
    """Draw the grid of dimples (across, apart), the rungs of a ladder, or both; mm."""
    what = [name for name, has in (("sink hollows", dimple), ("cut rungs", rung)) if has]
    title = titled(f"Where to {', where to '.join(what)}", example)
    page, units = asked.page(title, scaled=True), asked.units
    if dimple:
        _dimples(page, *dimple, units)
    if rung:
        page.write(
            f"Rungs: {format_length(rung, units)} apart. Full lines on the upper face, "
            "dashed ones on the lower, halfway between."
        )
        _ladder(page, page.y + 3, rung)
    return page


def _dimples(page: Page, across: float, pitch: float, units: Units) -> None:
    row = pitch * ROWS
    page.write(
        f"Dimples: {format_length(pitch, units)} from middle to middle, rows "
        f"{format_length(row, units)} apart, each row half a step on. Prick through the "
        "crosses."
    )
    top = page.y + 4
    rows = int(62 // row)
    for down in range(rows):
        x = pitch / 2 + (down % 2) * pitch / 2
        while x + across / 2 <= 176:
            _dimple(page, (x, top + across / 2 + down * row), across / 2)
            x += pitch
    page.y = top + across + (rows - 1) * row + 5


def _dimple(page: Page, at: Place, radius: float) -> None:
    x, y = at
    page.shape(_ring(at, radius, radius), width=HAIR)
    page.line((x - 1, y), (x + 1, y), width=HAIR)
    page.line((x, y - 1), (x, y + 1), width=HAIR)


def _ladder(page: Page, y: float, rung: float) -> None:
    long, tall = 168.0, 38.1
    if y + tall > MEASURED + 2:
        msg = "Dimples and rungs do not fit on one page: take hollows closer together."
        raise KitError(msg)
    page.box((0, y), (long, tall))
    x = rung / 2
    while x < long:
        page.line((x, y - 2), (x, y + tall + 2))
        if x + rung / 2 < long:
            below = x + rung / 2
            page.line((below, y), (below, y + tall), width=HAIR, dash=True)
        x += rung


PRINTS = (
    Kind(
        "drawings",
        "a bar at each step, and its own twist marks, dimples, rungs: true size",
        drawings,
        "bar",
    ),
    Kind(
        "examples",
        "twist marks, dimples, rungs and blades as they are usual, of no plan: true size",
        examples,
    ),
)

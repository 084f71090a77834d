"""Drawings to lay steel on: the bar at each step, where to mark, dimple and groove."""

from __future__ import annotations

import math

from kit.basics.errors import KitError
from kit.basics.units import Units, format_length
from kit.classroom.paper import operations
from kit.classroom.paper.blade_lines import blade_lines
from kit.classroom.paper.kinds import Asked, Kind
from kit.classroom.paper.operations import Operation
from kit.classroom.paper.page import BODY, HAIR, MEASURED, Page, Place
from kit.classroom.paper.to_scale import StackEnd, in_words, scale_for
from kit.classroom.paper.told import bars_in_words
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Stack
from kit.forge.steps import Size, Twist
from kit.forge.steps.dents import ROWS
from kit.forge.steps.groove import Groove
from kit.forge.steps.hollows import Hollows
from kit.shop.plan import Plan
from kit.shop.recipes.recipe import Recipe

Given = Plan | Recipe
CELL = (59.0, 52.0)  # mm: room for one section, with its words
SECTION = (55.0, 36.0)
USUAL_TURN = 44.0  # mm
USUAL_DIMPLE = (8.0, 9.0)  # mm across, and apart
USUAL_LADDER = 12.0  # mm apart
BAR = (168.0, 16.0)  # mm: the bar that marks are drawn on
QUARTERS = ("1/4", "1/2", "3/4", "1")


def drawings(given: Given, paper: str = "A4", units: Units = Units.MM) -> list[Page]:
    """Give the bar at each step, and the marks for what the recipe twists or presses.

    A plan ends with a plain bar, of which anything may be made: it gets usual marks.
    """
    billet = given.billet
    rows = (
        operations.of_plan(given)
        if isinstance(given, Plan)
        else operations.of_billet(billet, units)
    )
    usual = isinstance(given, Plan)
    turned, pressed = _first(billet, Twist), _first(billet, Hollows)
    pages = [_stack(given, paper, units), *_sections(rows, paper, units)]
    if turned or usual:
        pages.append(_twist(turned, paper, units))
    if pressed or usual:
        pages.append(_marks(pressed, paper, units))
    return pages


def _first(billet: Billet, kind: type) -> object | None:
    """Find the first step of a kind, in a bundle's bars too."""
    bars = billet.source.bars if isinstance(billet.source, Bundle) else ()
    inside = (_first(bar, kind) for bar in bars)
    here = (step for step in billet.steps if isinstance(step, kind))
    return next((step for step in (*here, *inside) if step is not None), None)


def _stack(given: Given, paper: str, units: Units) -> Page:
    page = Page(paper, "The stack, from its end", scaled=True, units=units)
    source = given.billet
    while isinstance(source.source, Bundle):
        source = source.source.bars[0]
    stack: Stack = source.source
    size = [format_length(side, units) for side in (stack.thickness, stack.width)]
    page.write(f"{size[0]} high, {size[1]} wide; {len(stack.layers)} bars. Lay them on it.")
    words = bars_in_words(stack, units)
    page.y = StackEnd(stack, words).draw(page, (0, page.y + 4), (120, 62)) + 5
    _pieces(page, given, stack, units)
    return page


def _pieces(page: Page, plan: Given, stack: Stack, units: Units) -> None:
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


def _sections(rows: list[Operation], paper: str, units: Units) -> list[Page]:
    """Draw each section that the bar has on the way, as many to a page as it holds."""
    pages: list[Page] = []
    groups = _grouped(rows)
    across, down = int(178 // CELL[0]), int(158 // CELL[1])
    for start in range(0, len(groups), across * down):
        page = Page(paper, "The bar at each step, sawn across", scaled=True, units=units)
        page.write("Hold the end of the bar against its drawing: does it fill it?")
        top = page.y + 3
        for place, (size, which) in enumerate(groups[start : start + across * down]):
            at = (place % across * CELL[0], top + place // across * CELL[1])
            _section(page, at, size, _named(rows, which), units)
        pages.append(page)
    return pages


def _named(rows: list[Operation], which: list[int]) -> str:
    """Say after which steps the bar has a section: "after draw out (2, 7), crop (3, 8)"."""
    named: dict[str, list[str]] = {}
    for number in which:
        named.setdefault(rows[number].work, []).append(str(number + 1))
    told = (f"{work} ({', '.join(numbers)})" for work, numbers in named.items())
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


def _twist(step: Twist | None, paper: str, units: Units) -> Page:
    """Draw a bar with a mark at each quarter turn, and the line chalked along it."""
    turn = step.turn_length if step else USUAL_TURN
    hand = step.hand if step else "right"
    page = Page(paper, "Twist marks, a quarter turn each", scaled=True, units=units)
    page.write(
        f"One turn in {format_length(turn, units)}. Chalk a straight line "
        "along the bar before you twist. Afterwards lay the bar beside the marks: at each "
        "the line has come a quarter further round. Where it lags the bar was colder, "
        "where it has run ahead hotter (common practice, no source). The bar drawn is "
        f"{format_length(BAR[0], units)} long: lay yours on again where the last whole "
        "turn ended."
    )
    y = page.y + 5
    for name, side in (("right", 1), ("left", -1)):
        told = f"{name} hand" + " (the recipe's)" * (step is not None and name == hand)
        page.write(told, (0, y), size=11, bold=name == hand)
        _twisted(page, y + 7, turn, side)
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


def _marks(step: Hollows | None, paper: str, units: Units) -> Page:
    """Draw the grid of dimples and the rungs of a ladder."""
    grooved = isinstance(step, Groove)
    dimpled = step is not None and not grooved
    across, pitch = (step.across, step.spacing) if dimpled else USUAL_DIMPLE
    rung = step.spacing if grooved else USUAL_LADDER
    page = Page(
        paper, "Where to sink hollows, where to cut rungs", scaled=True, units=units
    )
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
    y = top + across + (rows - 1) * row + 5
    y = page.write(
        f"Rungs: {format_length(rung, units)} apart. Full lines on the upper face, "
        "dashed ones on the lower, halfway between.",
        (0, y),
    )
    _ladder(page, y + 3, rung)
    return page


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


def _asked_for(asked: Asked) -> list[Page]:
    about = asked.about
    laid = drawings(about, asked.paper, asked.units)
    if not isinstance(about, Plan):  # a recipe has its own pages only
        return laid
    return [*laid, *blade_lines(asked.paper, asked.units)]


PRINTS = (
    Kind(
        "drawings", "bar, twist marks, dimples, rungs, blades: true size", _asked_for, "bar"
    ),
)

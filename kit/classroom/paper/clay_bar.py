"""A bar's clay twin: what to roll, how high, in which order, and wedges to cut along."""

import math

from PIL import Image

from kit.basics.claim import with_marks
from kit.basics.units import Units, format_length, format_measured, format_weight
from kit.classroom.paper import operations
from kit.classroom.paper.kinds import Asked, Kind
from kit.classroom.paper.page import BODY, HAIR, LIVE, MEASURED, Page
from kit.classroom.paper.table import BOX as TICK
from kit.classroom.paper.table import Table
from kit.classroom.paper.to_scale import DOT, in_words, scale_for
from kit.classroom.paper.told import size_in_words
from kit.course.anvil.brick import HOW, ROLLED, Brick, Row, Sheets
from kit.course.anvil.clay import DENSITY, THINNEST, tones
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.section.picture import Sheet
from kit.section.surface import Plane
from kit.section.trace import see
from kit.shop.recipes.recipe import Recipe

CELL = (30.0, 22.0)  # mm: the room for the end after a step
IN_A_ROW = 6
STICK = 60.0  # mm of a guide stick that are drawn
WEDGES = (15, 25, 30)  # degrees, of lesson 01's cuts
WEDGE = 45.0  # mm, their foot
MISLEADS = (
    "Where clay misleads: it smears where steel would not and sticks to the tools. It "
    "loses no scale, and nothing walks in it. Look at it by cutting with a wire, not by "
    "etching."
)


def clay_bar(asked: Asked) -> list[Page]:
    """Sheets to roll, their order, every step with the clay's size; sticks and wedges.

    Raises
    ------
    KitError
        A bar that is too large in any scale.
    """
    given, units = asked.about, asked.units
    brick = Brick(given.billet)
    name = given.name if isinstance(given, Recipe) else "the class's bar"

    def turn(title: str) -> Page:
        return asked.page(f"In clay: {title}")

    pages = [turn(name[:30])]
    if missed := operations.not_taken(operations.of_any(given, units)):
        pages[0].write(missed, bold=True)
    _what(pages[0], brick, units)
    _sheets(brick, units).run(pages, lambda: turn("more sheets"))
    rows = brick.rows(units)
    first = 0
    while first < len(rows):
        if pages[-1].y + CELL[1] + 16 > LIVE[1]:
            pages.append(turn("its end after every step"))
        first = _ends(pages[-1], brick, rows, first)
    pages += _steps(rows, units).run([], lambda: turn("step by step"))
    if pages[-1].y + 24 > LIVE[1]:
        pages.append(turn("what it cannot do"))
    pages[-1].y += 3
    pages[-1].write(_limit(rows), size=10)
    pages[-1].write(MISLEADS, size=10)
    return [*pages, _guides(asked, brick, rows)]


def _what(page: Page, brick: Brick, units: Units) -> None:
    """Say how much of which clay, and in which order the sheets lie."""
    grams: dict[str, float] = {}
    for one in brick.sheets:
        grams[one.clay] = grams.get(one.clay, 0.0) + one.grams
    needed = ", ".join(f"{weight:.0f} g of {clay}" for clay, weight in grams.items())
    page.write(with_marks(f"You need {needed}, at {DENSITY} g/cm³; weigh a lump of yours."))
    share = "" if brick.share == 1 else f", and {_share(brick.share)} of its length is made"
    page.write(
        f"In clay it is {_told(brick.scale)}{share}. So its stack fits a lunch "
        "box, and the longest bar a kitchen board."
    )
    if min(one.thickness for one in brick.sheets) < ROLLED:
        least = format_length(ROLLED, units)
        page.write(
            f"Mind: a sheet thinner than {least} tears easily when it is rolled. Chill it "
            "on baking paper (common practice, no source)."
        )
    page.y += 2
    for part in brick.parts:
        if isinstance(part.history.source, Stack):
            which = f"Bar {part.name}, of which you need {part.times}. "
            page.write(which * bool(part.name) + brick.order(part, units), size=11)
    page.y += 2


def _sheets(brick: Brick, units: Units) -> Table:
    def row(one: Sheets) -> tuple[str, ...]:
        size = size_in_words(one.thickness, one.width, one.length, units)
        return (f"{one.count} ×", one.clay, size, format_weight(one.grams, units), TICK)

    table = Table(
        ("Roll", "Clay", "Sheets, T × W × L", "Together", "Done"), (18, 50, 72, 28, 22), 10
    )
    table.rows = [row(one) for one in brick.sheets]
    return table


def _ends(page: Page, brick: Brick, rows: list[Row], first: int) -> int:
    """Draw the ends after some steps, all at one scale; give which comes next."""
    wide = max(row.size.width for row in rows)
    tall = max(row.size.thickness for row in rows)
    drawn = scale_for(wide, tall, (CELL[0] - 3, CELL[1] - 6))
    page.write(f"Its end after every step, {in_words(drawn)}", (0, page.y + 4), size=9)
    page.y += 10
    while first < len(rows) and page.y + CELL[1] <= LIVE[1]:
        for place, row in enumerate(rows[first : first + IN_A_ROW]):
            left = place * (CELL[0] + 2)
            image = _end(row.bar, brick, DOT / (brick.scale * drawn))
            page.write(row.number, (left, page.y), size=9)
            foot = page.picture(image, (left, page.y + 5), image.width * DOT)
            size = (image.width * DOT, foot - page.y - 5)
            page.box((left, page.y + 5), size, width=HAIR)
        first += IN_A_ROW
        page.y += CELL[1] + 2
    return first


def _end(billet: Billet, brick: Brick, pixel: float) -> Image.Image:
    size = billet.size
    columns, rows = (max(2, round(side / pixel)) for side in (size.width, size.thickness))
    sawn = (size.length * 0.4, 0.0, 0.0)
    plane = Plane.facing(size, "end", sawn, (columns, rows), pixel)
    sheet = Sheet(columns, rows, sunlit=True)
    sheet.steel(see(billet, plane, tones(brick.billet.source.steels)), (0, 0))
    return sheet.image


def _steps(rows: list[Row], units: Units) -> Table:
    def row(one: Row) -> tuple[str, ...]:
        size = size_in_words(*reversed(one.size), units)
        if one.size.round and one.size.even:
            thick, long = (
                format_length(side, units) for side in (one.size.thickness, one.size.length)
            )
            size = f"{thick} round × {long}"
        layer = "smears" if one.smears else format_measured(one.layer, units)
        part = f"Bar {one.part}. " if one.part else ""
        return (one.number, part + one.told, one.how, size, f"{one.layers:,}", layer, TICK)

    table = Table(
        ("", "Do", "How, in clay", "Then T × W × L", "Layers", "A layer", ""),
        (7, 52, 46, 44, 14, 19, 8),
        9,
    )
    table.rows = [row(one) for one in rows]
    return table


def _limit(rows: list[Row]) -> str:
    """Say from where on clay cannot follow."""
    thin = next((row.number for row in rows if row.smears), None)
    least = f"{THINNEST:g} mm (common practice, no source)"
    if thin is None:
        return f"No layer gets thinner than {least}: clay can follow this bar to its end."
    return (
        f"From step {thin} on layers are thinner than {least}: there they smear. Stop "
        "before it and cut; the screen goes on from there."
    )


def _guides(asked: Asked, brick: Brick, rows: list[Row]) -> Page:
    """Draw guide sticks for the rolling pin, as many as fit, and wedges to cut along."""
    page = asked.page("In clay: guide sticks and wedges, life size", scaled=True)
    page.write("The pin runs on two sticks as high as the clay is to be. From the side:")
    rolled = {row.size.thickness for row in rows if row.how == HOW["draw out"]}
    x, y, foot = 0.0, page.y + 3, MEASURED - WEDGE - 5
    for high in sorted({one.thickness for one in brick.sheets} | rolled):
        if y + high > foot:
            x, y = x + STICK + 32, page.y + 3
        if x + STICK > LIVE[0] or y + high > foot:
            break
        page.box((x, y), (STICK, high), fill="#DDDDDD")
        told = format_length(high, asked.units)
        page.write(told, at=(x + STICK + 3, y + high / 2 - 2), size=10)
        y += high + 4
    page.write("Wedges to cut along (fold a card, or trace):", (0, foot), bold=True)
    for number, angle in enumerate(WEDGES):
        left, low = 5.0 + 60 * number, foot + 37
        rise = WEDGE * math.tan(math.radians(angle))
        page.shape([(left, low), (left + WEDGE, low), (left + WEDGE, low - rise)])
        page.write(f"{angle}°", at=(left + 22, low + 1), size=BODY)
    return page


def _told(scale: float) -> str:
    if scale == 1:
        return "as thick and wide as on the screen"
    if scale > 1:
        return f"{scale:g} times as thick and wide as on the screen"
    return f"1 : {1 / scale:.3g}, thickness and width,"


def _share(share: float) -> str:
    """Write a share as a fraction."""
    return {1 / 2: "half", 1 / 3: "a third", 3 / 4: "three quarters"}.get(
        share, f"1/{1 / share:.0f}"
    )


PRINTS = (
    Kind("clay", "a bar in clay: sheets, steps, guide sticks, wedges", clay_bar, "bar"),
)

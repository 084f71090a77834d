"""Small sheets: vote cards, an eye chart, a care card, a clay template."""

from __future__ import annotations

import math

from kit.basics.claim import known
from kit.basics.told import counted
from kit.basics.units import Units, format_length
from kit.classroom.paper.kinds import Asked, Kind
from kit.classroom.paper.page import BODY, HAIR, LIVE, MEASURED, POINT, Page
from kit.metal.eye import ONE_MINUTE
from kit.shop.clay import ClayTwin

# mm, widths of lines; 0.087 mm is one arc-minute at 300 mm.
CHART = (0.05, 0.07, 0.087, 0.1, 0.12, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.7, 1.0, 1.4, 2.0)
TALL = 6.5  # mm, of a row of the chart
WEDGES = (15, 25, 30)  # degrees, of lesson 01's cuts


def vote_cards(asked: Asked) -> list[Page]:
    """Four cards, A to D, a letter and a shape each, to be held up and read from 5 m.

    Letters of 75 mm are a fifteenth of what an eye of 20/20 needs at 5 m, 7.3 mm, so
    that they are read at a glance.
    """
    page = asked.page()
    half = (LIVE[0] / 2, LIVE[1] / 2)
    shapes = (0, 3, 4, 6)  # corners: a ring, a triangle, a square, a hexagon
    for number, letter in enumerate("ABCD"):
        left, top = half[0] * (number % 2), half[1] * (number // 2)
        page.box((left, top), half, width=HAIR)
        middle = (left + half[0] / 2, top + half[1] / 2)
        at = (middle[0], middle[1] - 12)
        page.letter(letter, at, 75 / 0.73 / POINT, bold=True, ha="center", va="center")
        page.signed((left + 4, top + half[1] - 16))
        foot = left, top + half[1]
        page.ruler(foot, half[0], inch=asked.units is not Units.MM, side=-1)
        corners = shapes[number] or 60
        turn = math.pi / corners if corners == 4 else 0
        page.shape(
            [
                (
                    middle[0] + 14 * math.sin(turn + 2 * math.pi * corner / corners),
                    middle[1] + 45 - 14 * math.cos(turn + 2 * math.pi * corner / corners),
                )
                for corner in range(corners)
            ],
            width=2.5,
        )
    page.foot("Cut along the lines. Letter and shape say the same thing.")
    return [page]


def eye_chart(asked: Asked) -> list[Page]:
    """Pairs of lines from 0.05 to 2 mm, to measure how fine your own eye resolves.

    A printer of 600 dots an inch makes dots of 0.042 mm: its two finest rows may be
    grey on paper, whoever looks.
    """
    page = asked.page("How fine a line can your eye resolve?", scaled=True)
    page.write(
        "Hold the sheet 300 mm away, as you look at a knife; measure it. Cover "
        "one eye and go down to the finest row whose lines you still see apart. Its number "
        "is the eye limit to put into lesson 09; most people see rows down to about "
        f"0.09 mm at 300 mm, {known('one arc-minute', (ONE_MINUTE,))}. Wear the glasses "
        "you read with."
    )
    y = page.y + 5
    for width in reversed(CHART):
        page.write(f"{width:g} mm", at=(0, y + 1), size=10)
        x, lines = 28.0, []
        while x + width <= 92:
            lines.append(((x, y), (width, TALL)))
            x += 2 * width
        down = y
        while down + width <= y + TALL:
            lines.append(((104, down), (56, width)))
            down += 2 * width
        page.squares(lines)
        y += 9
    page.foot("Line and gap are of the same width. Very fine rows depend on the printer.")
    return [page]


def clay_template(asked: Asked) -> list[Page]:
    """Sheets to lay clay on, guide-stick heights, wedges to cut along, what to buy."""
    twin, units = ClayTwin(), asked.units
    page = asked.page("Clay twin: what to roll, how high, where to cut", scaled=True)
    one, other = twin.grams
    page.write(
        f"{twin.sheets} sheets of {format_length(twin.width, units)} × "
        f"{format_length(twin.length, units)}, {format_length(twin.sheet, units)} thick: "
        f"{twin.volume:.1f} cm³, about {one:.0f} g of one colour and {other:.0f} g of the "
        "other (1.8 g/cm³, from memory: weigh a lump of yours)."
    )
    y = _in_order(page, twin, _life_size(page, twin, units), units)
    _wedges(page, y + 4)
    page.write(
        "Where clay misleads: it smears where steel would not, loses no scale, and nothing "
        f"walks in it. More than {twin.folds_that_survive} folds of these sheets tear "
        "(common practice, no source).",
        at=(95, MEASURED + 6),
        width=65,
        size=10,
    )
    return [page]


def _life_size(page: Page, twin: ClayTwin, units: Units) -> float:
    """Draw a sheet and the guide sticks; give where they end."""
    top = page.y + 4
    page.box((0, top), (twin.length, twin.width))
    page.write("one sheet, life size", at=(4, top + 4), size=10)
    page.write("Guide sticks, life size from the side:", at=(95, top), size=10)
    y = top + 8
    for sticks in sorted({height.sticks for height in twin.heights}):
        page.box((95, y), (60, sticks), fill="#DDDDDD")
        page.write(format_length(sticks, units), at=(158, y + sticks / 2 - 2), size=10)
        y += sticks + 4
    return max(y, top + twin.width) + 6


def _in_order(page: Page, twin: ClayTwin, y: float, units: Units) -> float:
    """List what is rolled and folded; give where the list ends."""
    page.write("In order:", at=(0, y), bold=True)
    y += 7
    for number, height in enumerate(twin.heights):
        if number == 1:
            stacked = (
                f"stack all {twin.sheets}, the colours in turn, and press them together"
            )
            page.write(stacked, at=(0, y), size=11)
            y += 5.5
        done = f"{height.doing}: {format_length(height.sticks, units)} high, "
        page.write(done + counted(height.layers, "layer"), at=(0, y), size=11)
        y += 5.5
    return y


def _wedges(page: Page, y: float) -> None:
    """Draw the wedges to cut along."""
    page.write("Wedges to cut along (fold a card, or trace):", at=(0, y), bold=True)
    for number, angle in enumerate(WEDGES):
        left, foot = 5.0 + 60 * number, y + 32.5
        rise = 45 * math.tan(math.radians(angle))
        page.shape([(left, foot), (left + 45, foot), (left + 45, foot - rise)])
        page.write(f"{angle}°", at=(left + 22, foot + 1), size=BODY)


PRINTS = (
    Kind("votes", "cards A to D to hold up", vote_cards),
    Kind("eye-chart", "how fine a line can your eye resolve?", eye_chart),
    Kind("clay", "the clay twin: sheets, guide sticks, wedges", clay_template),
)

"""Small sheets: vote cards to hold up, and an eye chart."""

import math

from kit.basics.claim import known
from kit.basics.units import Units
from kit.classroom.paper.kinds import Asked, Kind
from kit.classroom.paper.page import HAIR, LIVE, POINT, Page
from kit.metal.eye import ONE_MINUTE

# mm, widths of lines; 0.087 mm is one arc-minute at 300 mm.
CHART = (0.05, 0.07, 0.087, 0.1, 0.12, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.7, 1.0, 1.4, 2.0)
TALL = 6.5  # mm, of a row of the chart


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
        "is the eye limit to put into lesson 09; a good eye resolves rows down to about "
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


PRINTS = (
    Kind("votes", "cards A to D to hold up", vote_cards),
    Kind("eye-chart", "how fine a line can your eye resolve?", eye_chart),
)

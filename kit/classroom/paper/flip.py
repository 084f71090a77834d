"""A flip-book: the face of a twisted bar in 24 depths, on two sheets to cut and staple."""

from kit.basics.units import Units, format_length
from kit.classroom.paper.kinds import Asked, Kind
from kit.classroom.paper.page import HAIR, LIVE, Page
from kit.classroom.paper.to_scale import DOT
from kit.forge.billet import Billet
from kit.metal import etch
from kit.section.picture import STEEL, Sheet
from kit.section.surface import Plane
from kit.shop.patterns import twisted

DEPTHS = 24  # two sheets of twelve leaves
ACROSS, DOWN = 2, 6  # leaves on a sheet
TOP = 5.0  # mm, of the ruler above them
LEAF = (LIVE[0] / ACROSS, (LIVE[1] - TOP) / DOWN)  # mm
BOUND = 22.0  # mm at the left, for the staples
SHOWN = (LEAF[0] - BOUND - 2, LEAF[1] - 6)  # mm
TURNS = 0.5  # an inch


def flip_book(asked: Asked) -> list[Page]:
    """Give two sheets; the first leaf is the skin of the bar, the last its axis."""
    bar = twisted(TURNS, 0)
    pages = []
    depths = depths_of(bar)
    for sheet in range(DEPTHS // (ACROSS * DOWN)):
        page = asked.page()
        page.ruler((0, 0), LIVE[0], inch=asked.units is not Units.MM)
        for place in range(ACROSS * DOWN):
            number = sheet * ACROSS * DOWN + place
            _leaf(page, place, number, bar, depths[number], asked.units)
        page.foot(
            "Cut on the lines, stack with leaf 1 on top, staple at the left, flick. "
            f"{scale_of(bar):.2g} times true size; tones illustrative. Mind the staples."
        )
        pages.append(page)
    return pages


def depths_of(bar: Billet) -> list[float]:
    """Give even steps from the skin to the axis, mm ground off."""
    most = bar.size.thickness / 2
    return [most * number / (DEPTHS - 1) for number in range(DEPTHS)]


def scale_of(bar: Billet) -> float:
    """Say how many times larger than life the leaves are: the width just fits."""
    return SHOWN[1] / bar.size.width


def _leaf(
    page: Page, place: int, number: int, bar: Billet, depth: float, units: Units
) -> None:
    left, top = place % ACROSS * LEAF[0], TOP + place // ACROSS * LEAF[1]
    page.box((left, top), LEAF, width=HAIR)
    page.write(str(number + 1), (left + 3, top + 3), 16, size=14, bold=True)
    page.write(format_length(round(depth, 2), units), (left + 3, top + 12), 18, size=9)
    page.write("ground off", (left + 3, top + 16.5), 18, size=7)
    corner = (left + BOUND, top + 3)
    image = seen(bar, depth)
    page.picture(image, corner, SHOWN[0])
    page.box(corner, SHOWN, width=HAIR)


def seen(bar: Billet, depth: float) -> object:
    """Draw the face so deep under the skin, mm, as large as a leaf shows it."""
    columns, rows = (round(side / DOT) for side in SHOWN)
    pixel = DOT / scale_of(bar)
    # a thousandth inside the skin, or the topmost face would lie in the air
    height = max(0.0, bar.size.thickness / 2 - depth - 1e-3)
    middle = (bar.size.length / 2, 0.0, height)
    plane = Plane.facing(bar, "face", middle, (columns, rows), pixel)
    sheet = Sheet(columns, rows, sunlit=True, look=STEEL)
    sheet.steel(etch.seen(bar, plane), (0, 0), plane)
    return sheet.image


PRINTS = (Kind("flip-book", "a twisted bar in 24 depths", flip_book),)

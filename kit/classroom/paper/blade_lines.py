"""A blade with the lines that its layers will draw: side at true size, section × 5."""

import numpy as np

from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units, format_length
from kit.classroom.paper.kinds import Asked
from kit.classroom.paper.page import HAIR, Page, Place, width_of
from kit.classroom.paper.to_scale import DOT
from kit.course.lessons.san_mai import SanMaiLesson
from kit.course.lessons.san_mai_drawing import SAWN
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.metal import etch
from kit.section.blade import Blade, Section
from kit.section.grind import BladeGrind
from kit.section.outline import Outline
from kit.section.picture import STEEL, Sheet

TIMES = 5  # a section is drawn so many times larger
LAYERED = 40  # layers in the example's bar, so that the lines can be told apart


EXAMPLE = "Example"


def titled(title: str, example: str) -> str:
    """Give a sheet its title, marked as an example if it is one."""
    return f"{example}: {title[0].lower()}{title[1:]}" if example else title


def blade_lines(asked: Asked) -> list[Page]:
    """Give two pages: a blade of flat layers, and a clad one from both sides."""
    return [_layered(asked), _clad(asked)]


def heights(grind: BladeGrind, depths: np.ndarray, along: float) -> np.ndarray:
    """Find how high above the lowest point each depth comes to the ground side, mm.

    Parameters
    ----------
    grind : BladeGrind
    depths : array
        From the middle plane of the blade, mm.
    along : float
        From the heel, mm.

    Returns
    -------
    array
        NaN where a depth is not met on that side.
    """
    low, high = (
        float(line(np.full(1, along)).above[0])
        for line in (grind.outline.edge, grind.outline.spine)
    )
    above = np.linspace(low, high, 2000)
    half = grind.half(np.full(2000, along), above)
    rising = np.maximum.accumulate(half)
    found = np.interp(depths, rising, above)
    missed = (depths < rising[0]) | (depths > rising[-1] - 1e-9)
    return np.where(missed, np.nan, found)


def _layered(asked: Asked) -> Page:
    grind = BladeGrind(outline=Outline(length=150, height=30), spine=4, edge=0.4)
    stack = Stack.alternate(
        "1084", "15N20", pieces=LAYERED, thickness=4 / LAYERED, length=170, width=32
    )
    billet = Billet(source=stack)
    title = titled("A blade of flat layers, where its lines will run", EXAMPLE)
    page, units = asked.page(title, scaled=True), asked.units
    page.write(
        f"{LAYERED} layers, {4 / LAYERED:g} mm each, under flat bevels; edge 0.4 mm thick "
        f"before sharpening. Side: true size. Section: {TIMES} times larger. Tones "
        "illustrative."
    )
    top = page.y + 4
    _side(page, (0, top), billet, grind, "right")
    page.write("Right side, true size", (0, top + 31), size=9)
    _section(page, (150, top + 40), billet, grind, 60.0)
    steps = np.arange(1, LAYERED // 2) * 4 / LAYERED
    met = heights(grind, steps, 60.0)
    told = met[~np.isnan(met)]
    gap = format_length(float(np.diff(told).mean()), units)
    page.write(
        f"At {format_length(60, units)} from the heel {len(told)} borders between layers "
        f"come out on each side, {gap} apart. The rule beside this has a mark where each "
        "will be: lay it on the blade there, edge on 0.",
        (0, top + 40),
        84,
    )
    _rule(page, (110, top + 40), told, units)
    return page


def _rule(page: Page, at: Place, marks: np.ndarray, units: Units) -> None:
    """Draw a rule standing up from the edge, true size, a mark to each line."""
    step = 5.0 if units is Units.MM else MM_PER_INCH / 4
    tall = 30.0
    foot = at[1] + tall
    page.line((at[0], at[1]), (at[0], foot))
    for number in range(int(tall / step) + 1):
        up = number * step
        told = f"{up:g}" if units is Units.MM else format_length(up, units).split(" in")[0]
        page.line((at[0] - 3, foot - up), (at[0], foot - up), width=HAIR)
        page.write(told, (at[0] - 3 - width_of(told, 8) - 1, foot - up - 1.6), 12, size=8)
    for up in marks:
        page.line((at[0], foot - up), (at[0] + 6, foot - up), width=HAIR)
    page.write(units.unit, (at[0] - 9, foot + 2), 12, size=8)
    page.write("lines", (at[0] + 1, foot + 2), 12, size=8)


def _side(page: Page, at: Place, billet: Billet, grind: BladeGrind, side: str) -> None:
    """Lay the etched side on the page and draw its outline; the heel is at `at`."""
    outline = grind.outline
    columns, rows = round(outline.length / DOT), round(outline.height / DOT)
    view = Blade(
        grind=grind, size=billet.size, side=side, columns=columns, rows=rows, pixel=DOT
    )
    sheet = Sheet(columns, rows, sunlit=True, look=STEEL)
    sheet.steel(etch.seen(billet, view), (0, 0), view)
    page.picture(sheet.image, at, columns * DOT)
    outlined(page, at, outline, side)


def outlined(page: Page, at: Place, outline: Outline, side: str) -> None:
    """Draw a blade's outline, true size; `at` is its upper left corner."""
    along = np.linspace(0, outline.length, 300)
    edge, spine = outline.edge(along).above, outline.spine(along).above
    x = at[0] + (along if side == "right" else outline.length - along)
    foot = at[1] + outline.height
    places = [*zip(x, foot - edge, strict=True)]
    places += [*zip(x[::-1], foot - spine[::-1], strict=True)]
    page.shape(places, width=HAIR)


def _section(
    page: Page, at: Place, billet: Billet, grind: BladeGrind, along: float
) -> None:
    """Draw the blade sawn across, several times larger; `at`: top of its middle."""
    outline, dot = grind.outline, DOT / TIMES
    columns = round((grind.spine + 0.2) / dot)
    rows = round(outline.height / dot)
    view = Section(
        grind=grind, size=billet.size, at=along, columns=columns, rows=rows, pixel=dot
    )
    sheet = Sheet(columns, rows, sunlit=True)
    sheet.steel(etch.seen(billet, view), (0, 0))
    left = at[0] - columns * DOT / 2
    page.picture(sheet.image, (left, at[1]), columns * DOT)
    above = np.linspace(
        float(outline.edge(np.full(1, along)).above[0]), outline.height, 100
    )
    half = TIMES * grind.half(np.full(100, along), above)
    y = at[1] + TIMES * (outline.height - above)
    right = list(zip(at[0] + half, y, strict=True))
    page.shape([*right, *zip(at[0] - half[::-1], y[::-1], strict=True)], width=HAIR)
    page.write(f"Section, × {TIMES}", (at[0] - 12, at[1] - 5), 30, size=9)


def _clad(asked: Asked) -> Page:
    job = SanMaiLesson()
    title = titled("A clad blade, the core's line on both sides", EXAMPLE)
    page, units = asked.page(title, scaled=True), asked.units
    core, most = (format_length(one, units) for one in (job.forged_core, job.permissible))
    page.write(
        f"Core {core} after forging, in the middle; it may lie at most {most} off. "
        "Dashed: where the core's line will run. Full: the blade. True size; lay your "
        "blade on it."
    )
    y = page.y + 6
    for side in ("left", "right"):
        y = _clad_side(page, (0, y), job, side, units) + 7
    return page


def _clad_side(page: Page, at: Place, job: SanMaiLesson, side: str, units: Units) -> float:
    outline = job.blade.grind.outline
    outlined(page, at, outline, side)
    line = job.lines[side]
    shown = line.near < line.high - 1e-6
    along, up = line.along[shown], line.near[shown]
    edge = outline.edge(along).above
    x = at[0] + (along if side == "right" else outline.length - along)
    y = at[1] + outline.height - edge - up
    page.line(*zip(x, y, strict=True), width=0.5, dash=True)
    sawn = at[0] + (SAWN if side == "right" else outline.length - SAWN)
    foot = at[1] + outline.height
    page.line((sawn, foot + 1), (sawn, foot + 4), width=HAIR)
    here = float(np.interp(SAWN, line.along, line.near))
    told = f"{side.capitalize()} side: {format_length(here, units)} above the edge, at |"
    page.write(told, (0, foot + 5), size=10)
    return foot + 10

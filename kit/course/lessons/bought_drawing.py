"""A bar you bought, drawn and in words: four states, the edge larger, how thick to buy.

Grinding, scale and the bevel take the blade down towards the bar's middle plane: a bar
too thin has no spine in it, and the thicker it is, the deeper lies the edge below the
pattern that was seen on its face.
"""

import math
from typing import Any

import numpy as np
from PIL import Image

from kit.basics.told import counted, listed, one_way
from kit.basics.units import MM_PER_INCH, Units, format_length, format_temperature, or_under
from kit.course.lessons.bevels_drawing import outline
from kit.course.lessons.scene import FORGED, Number, Panel
from kit.forge.billet import Billet
from kit.metal.bath import BITES
from kit.metal.bite import BITE, Etch, bitten
from kit.metal.etch import TONES
from kit.metal.hardening import TEMPERED, WINDOW
from kit.metal.transformation import STARTS
from kit.metal.working_heat import SCALE
from kit.section.blade import Blade, Section
from kit.section.picture import QUIET, Sheet
from kit.section.surface import Plane, fitting
from kit.section.trace import Face, see
from kit.shop.bought import AS_BOUGHT, DEEP, FLAT, LADDER, OTHER, RAINDROP, TWIST
from kit.shop.patterns import NAMED

SHEET = 1000, 500  # pixels
COLUMNS, HIGH = 490, 136  # of each state
LEFT, RIGHT, FIRST, SECOND = 5, 505, 34, 194  # where the states stand
EDGE_AT, EDGE, FINE = (5, 346), (700, 126), 0.06  # and mm a pixel
TILE, TILE_PIXEL = (200, 126), 0.1  # pixels; mm
SECTION_AT, SECTION = (760, 346), (220, 126)
SEEN_LONG = 176.0  # mm of the bar
# How bright bare steel is, ground, and grey from the fire: illustrative, as in lesson 06.
BARE, GREY = 0.6, 0.25
AS_SOLD = Etch(wear=30)  # etched in the usual way and handled since: illustrative
UP_AT, UP_ROWS = tuple(range(-26, 14, 5)), 1500  # mm from the bar's middle; places: ours
HAIR = 1e-4  # mm: just inside the skin


def tones(billet: Billet, etch: Etch) -> dict[str, float]:
    """Give the tone of each steel of a bar after an etch: illustrative."""
    steels = tuple(dict.fromkeys(billet.source.steels))
    return {name: found.tone for name, found in bitten(steels, etch).items()}


def drawn(sheet: Sheet, job: Any, units: Units) -> tuple[Panel, Panel]:
    """Draw all; give the bar as it was sold and the blade as it was etched."""
    billet, pixel = job.bar, SEEN_LONG / COLUMNS
    rows = min(HIGH, int(billet.size.width / pixel) + 2)
    view = Blade(grind=job.grind, size=billet.size, columns=COLUMNS, rows=rows, pixel=pixel)
    bar = _bar(sheet, job, view, units)
    etched = see(billet, view, tones(job.bar, job.etch))
    bare = {
        (RIGHT, FIRST): ("Ground: bright and bare", etched.plain(BARE)),
        (LEFT, SECOND): ("Hardened and tempered", etched.plain(GREY)),
        (RIGHT, SECOND): ("Etched again", etched),
    }
    for at, (words, face) in bare.items():
        sheet.above(at, words)
        sheet.blade(face, at, view)
    sheet.scale_bar((RIGHT + COLUMNS - 125, FIRST - 12), pixel, units, most=115)
    _edge(sheet, job, units)
    _sawn(sheet, job, units)
    return bar, Panel(billet, view, (RIGHT, SECOND), etched)


def _bar(sheet: Sheet, job: Any, view: Blade, units: Units) -> Panel:
    """Draw the bar's face and, on it, the outline that will be cut."""
    billet, at = job.bar, (LEFT, FIRST)
    face = face_of(billet, view.columns, view.rows, view.pixel)
    thick = format_length(job.thickness, units)
    sheet.above((LEFT, FIRST), f"Bought, {thick} thick")
    seen = see(billet, face, tones(billet, AS_SOLD))
    sheet.steel(seen, at, face)
    outline(sheet, view, at)
    return Panel(billet, face, at, seen)


def face_of(billet: Billet, columns: int, rows: int, pixel: float) -> Plane:
    """Look down on the middle of a bar's face; pixel in mm."""
    centre = (billet.size.length / 2, 0.0, billet.size.thickness / 2 - HAIR)
    return Plane.facing(billet, "face", centre, (columns, rows), pixel)


def _edge(sheet: Sheet, job: Any, units: Units) -> None:
    """Draw the lowest part of the etched blade larger: what is left there counts."""
    (left, top), (columns, rows) = EDGE_AT, EDGE
    low = -job.height / 2 + 0.46 * rows * FINE
    middle = job.bar.size.length / 2 - 5
    view = Blade(
        grind=job.grind,
        size=job.bar.size,
        centre=(middle, low),
        columns=columns,
        rows=rows,
        pixel=FINE,
    )
    sheet.above((left, top), "Its edge, larger: edge down")
    seen: Face = see(job.bar, view, tones(job.bar, job.etch))
    sheet.steel(seen, (left, top), view)
    sheet.scale_bar((left + columns - 125, top - 12), FINE, units, most=115)


def expected_edge(job: Any, *, whole: bool) -> Image.Image:
    """Draw the lowest part of a blade, or what is expected there: the bar's whole face."""
    columns, rows = TILE
    sheet = Sheet(columns, rows)
    view: Blade | Plane = face_of(job.bar, columns, rows, TILE_PIXEL)
    if not whole:
        centre = (job.bar.size.length / 2 - 5, -job.height / 2 + 0.46 * rows * TILE_PIXEL)
        view = Blade(
            grind=job.grind,
            size=job.bar.size,
            centre=centre,
            columns=columns,
            rows=rows,
            pixel=TILE_PIXEL,
        )
    sheet.steel(see(job.bar, view, tones(job.bar, job.etch)), (0, 0), view)
    return sheet.image


def met_up(job: Any) -> float:
    """Count the layers that a line up the finished bevel meets: the mean of many places."""
    up, met = job.grind.height, []
    greys = {name: number / len(job.steels) for number, name in enumerate(job.steels)}
    for aside in UP_AT:
        middle = job.bar.size.length / 2 + aside, (up - job.height) / 2
        line = Blade(
            grind=job.grind, size=job.bar.size, centre=middle, columns=1, rows=UP_ROWS,
            pixel=fitting(up / UP_ROWS),
        )  # fmt: skip
        steel = see(job.bar, line, greys, pixels="point").tone[:, 0]
        met.append(np.count_nonzero(np.diff(steel)))
    return float(np.mean(met))


def _sawn(sheet: Sheet, job: Any, units: Units) -> None:
    """Draw the blade sawn across, ground on both sides out of the dashed bar."""
    (left, top), (columns, rows) = SECTION_AT, SECTION
    pixel = max((job.height + 2) / rows, job.thickness / (columns - 12))
    view = Section(
        grind=job.grind, size=job.bar.size, at=60, columns=columns, rows=rows, pixel=pixel
    )
    sheet.above((left - 20, top), "Sawn; dashed: the bar")
    sheet.steel(see(job.bar, view, tones(job.bar, job.etch)), (left, top), view)
    for side in (-1, 1):
        x = left + columns / 2 + side * job.thickness / 2 / pixel
        sheet.dashes((x, top), (x, top + rows), ink=QUIET)
    sheet.scale_bar((left + 150, top + rows + 12), pixel, units, most=70)


LEAST, MOST = 2.5, 12.0  # mm: the thinnest and the thickest bar on the slider
THICK = tuple(round(LEAST + 0.1 * step, 1) for step in range(200))  # mm, tried for a core
PARTS = {LADDER: "rung", RAINDROP: "drop"}
# What fewer than one layer can draw: a line around it, and no band.
AT_MOST = {LADDER: "a stripe", RAINDROP: "a spot"}
FOLLOWED = "every layer followed on the solid, along and through the bar"
UP = f"a line up the bevel, followed on the solid: the mean at {len(UP_AT)} places"
LEAST_MET = 0.501  # of a core's line on a bevel, the mean of many places: ours
UNKNOWN = "How deep a pattern goes, no face tells."


def advice(job: Any, units: Units) -> str:
    """Say between what thicknesses to buy, what this one keeps, and what is not known.

    Parameters
    ----------
    job : BoughtLesson
    units : Units
    """
    return one_way(lambda units: f"{_range(job, units)} {UNKNOWN}", units)


def bounds(job: Any, units: Units) -> tuple[float, float]:
    """Give the thinnest and the thickest bar to buy, mm, as one would ask for it.

    In tenths of a millimetre or 1/32 in, both rounded so that they keep what they say.
    """
    step = 0.1 if units is Units.MM else MM_PER_INCH / 32
    least = math.ceil(round(job.least / step, 6)) * step
    most = job.most
    return least, most if math.isinf(most) else math.floor(round(most / step, 6)) * step


def _range(job: Any, units: Units) -> str:
    least, most = bounds(job, units)
    low, here = format_length(least, units), format_length(job.thickness, units)
    if most < least and job.cored:
        return f"Buy {low} or more for the spine: so little bevel meets no layer."
    if most < least:
        high, part = format_length(most, units), PARTS[job.made]
        return (
            f"No bar has both: the spine needs {low}, above {high} a {part} is at most "
            f"{AT_MOST[job.made]}."
        )
    high = "or more" if most > MOST else f"to {format_length(most, units)}"
    return f"Buy {low} {high}: at {here} {_here(job, units)}."


def _here(job: Any, units: Units) -> str:
    """Say what the chosen bar gives."""
    if job.thickness < job.least - 1e-9:
        return f"only {format_length(job.back, units)} is left for the spine"
    left = job.left
    if job.made == TWIST:
        return "the twist is there at the edge, for it runs to the middle"
    if job.made == OTHER and not job.cored:
        share = f"{100 * job.kept:.0f} % of" if job.kept < 1 else "all"
        return f"the edge keeps {share} the face's bands"
    if job.cored:
        least = 1 if job.made == FLAT else LEAST_MET
        met = counted(round(left), "layer") if left >= least else "no layer"
        return f"a bevel meets {met}"
    part = PARTS[job.made]
    if left < 1:
        return f"a {part} is at most {AT_MOST[job.made]} at the edge"
    return f"the edge keeps {left:.1f} of a {part}'s {job.shown:g} layers"


def numbers(job: Any, units: Units) -> tuple[Number, ...]:
    """Give what is gone, left and met, and what fire and bath do."""
    crossed = job.crossed
    relief, contrast = job.relief
    celsius, fahrenheit = (format_temperature(job.celsius, unit) for unit in "CF")
    spacing = format_length(crossed.spacing, units.fine) if crossed.lines else "none"
    off = format_length(job.off, units)
    lines = [UP, f"= {crossed.lines:.1f}"]
    if job.made == FLAT:
        lines = [
            f"layer = {job.thickness:g} mm / {job.layers:g} = {job.layer:.3f} mm",
            "lines = (spine - edge) / 2 / layer",
            f"= {crossed.lines:.1f}",
        ]
    elif job.cored:
        lines = [FOLLOWED, f"from the edge's skin to the spine's = {crossed.lines:.1f}"]
    bath = f"bath {job.etch.strength}, otherwise as usual (lesson 09)"
    return (
        Number("Gone from each flat", off, _off_working(job), (FORGED, SCALE)),
        _left(job),
        Number(
            "Layers met on a bevel; mean spacing", f"{crossed.lines:.0f}; {spacing}", lines
        ),
        Number(
            f"At {celsius} ({fahrenheit})",
            job.hardening,
            _window_working(job),
            (WINDOW, STARTS, TEMPERED),
        ),
        Number(
            "Etched relief, contrast (illustrative)",
            f"{or_under(f'{relief:.1f} µm', relief / 1000, units)}, {contrast:.2f}",
            [f"{job.minutes:g} min, {bath}" if job.minutes else "not etched"],
            (TONES, BITE, BITES),
        ),
    )


def _left(job: Any) -> Number:
    """Give what is left of the pattern at the edge."""
    left = job.left
    name = "Left of the pattern at the edge"
    if job.made == TWIST:
        return Number(name, "all of it", ["a twist goes to the middle of the bar"])
    if job.made == OTHER:
        return Number(name, *_followed(job), (NAMED,))
    if job.made == FLAT:
        working = [
            "layers that a bevel meets = (spine - edge) / 2 / layer",
            f"= ({job.back:g} mm - {job.edge:g} mm) / 2 / {job.layer:.4g} mm",
            f"= {left:.1f}",
        ]
        return Number(name, f"{left:.1f} layers", working)
    working = [
        f"on the face {DEEP:g} x {job.layers:g} = {job.shown:g} layers",
        "evenly fewer to the middle: x finished edge / bar",
        f"= {job.shown:g} x {job.finished:.3f} mm / {job.thickness:g} mm",
        f"should it fade with the square of the depth: lost above {job.steep:.2f} mm",
        f"= {left:.2f}",
    ]
    return Number(name, f"{left:.1f} of {job.shown:g} layers", working, (FORGED, AS_BOUGHT))


def _followed(job: Any) -> tuple[str, list[str]]:
    """Give what is left of a pattern that was followed on the solid, and how."""
    if job.cored:
        lines = [FOLLOWED, "layers met between the edge's skin and the spine's"]
        return f"{job.left:.1f} layers", [*lines, f"= {job.left:.1f}"]
    kept = f"{100 * job.kept:.0f} %"
    lines = [FOLLOWED, "bands along the edge's skin / bands along the face", f"= {kept}"]
    if job.kept >= 1:
        return "all of the bands", [*lines, "as many as on the face, or more"]
    return f"{kept} of the bands", lines


def _off_working(job: Any) -> list[str]:
    return [
        f"scale: bare, in air, {job.hot:g} min at {job.celsius:g} °C (lesson 08)",
        "(bar - spine) / 2 + scale of the hardening heat",
        f"= ({job.thickness:g} mm - {job.back:g} mm) / 2 + {job.scale:.3f} mm",
        f"= {job.off:.3f} mm",
    ]


def _window_working(job: Any) -> list[str]:
    low, high = (format_temperature(heat, "C") for heat in job.heats)
    return [
        f"{listed(job.steels)}, carbon evened out: a window from their Ac1 (lesson 08)",
        f"{low} to {high}",
        job.hardening,
    ]

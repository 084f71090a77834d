"""Lesson 09: the etch develops it, the eye limits it."""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np

from kit.basics.declare import quantity
from kit.basics.units import Units, format_length
from kit.course.lessons import drawing
from kit.course.lessons.carbon import STEELS
from kit.course.lessons.eye_ideas import BANDS
from kit.course.lessons.job import Job as Base
from kit.course.lessons.scene import Number, Panel, Scene
from kit.course.lessons.written import how_unlike
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import Hammer, QuarterTurn
from kit.metal.bite import GRAIN, Between, Bitten, Etch, between, bitten
from kit.metal.colour import contrast_ratio
from kit.metal.coupons import Coupon
from kit.metal.eye import EYE, SPREAD, seen_from
from kit.section.picture import ACCENT, GHOST, INK, QUIET, Sheet, to_srgb
from kit.section.surface import Plane
from kit.section.trace import Face, see

STRENGTHS = ("weak", "usual", "strong")
GRITS = tuple(GRAIN)
SINCE = ("nothing", "cleaned, etched again", "0.3 mm ground off, etched again")
GROUND = 0.3  # mm
WIDE = 24.0  # mm of face that a strip shows
TIMES = 100  # how many times too high the relief is drawn
SECTION = (40, 70, 330, 250)  # left, top, width, height
SHOWN = 6  # bands in the section
MM = 70.0  # pixels a mm along the section
STRIPS = (420, 58, 540, 92)  # left, top of the first, width, height
APART = 118


class Job(Base):
    """Two steels, an etch, what became of it, and where the reader stands."""

    first: int = quantity(
        "Steel A", "place in the list", low=0, high=len(STEELS) - 1, default=0
    )
    second: int = quantity(
        "Steel B", "place in the list", low=0, high=len(STEELS) - 1, default=1
    )
    minutes: float = quantity(
        "Etch time", "in the bath", low=0, high=30, unit="min", default=10
    )
    strength: int = quantity("Etchant", "place in the list", low=0, high=2, default=1)
    grit: int = quantity(
        "Finish before",
        "place in the list",
        low=0,
        high=len(GRITS) - 1,
        default=GRITS.index(800),
    )
    polished: int = quantity("High spots", "0 left, 1 polished", low=0, high=1, default=0)
    wear: float = quantity(
        "Wear", "0 fresh, 100 rubbed flat", low=0, high=100, unit="%", default=0
    )
    since: int = quantity("Since then", "place in the list", low=0, high=2, default=0)
    distance: float = quantity(
        "Seen from", "the eye's distance", low=250, high=3000, unit="mm", default=300
    )

    @property
    def names(self) -> tuple[str, str]:
        """The two grades."""
        return STEELS[self.first], STEELS[self.second]

    @property
    def etch(self) -> Etch:
        """The etch as it is to be seen: etched again, no wear is left."""
        made = Etch(
            minutes=self.minutes,
            strength=STRENGTHS[self.strength],
            grit=GRITS[self.grit],
            polished=bool(self.polished),
            wear=self.wear,
        )
        return made.again() if self.since else made

    @property
    def depth(self) -> float:
        """How deep below the first face the present one lies, mm."""
        return GROUND if self.since == 2 else 0.0


def face(job: Job, band: float, columns: int, rows: int) -> tuple[Billet, Plane]:
    """Cut a face on which bands of a width run up the picture, a little wavy."""
    pieces = max(2, round(WIDE / band))
    stack = Stack.alternate(
        "1084", "15N20", pieces=pieces, thickness=band, length=60, width=20
    )
    names = job.names
    layers = [
        layer.model_copy(update={"steel": names[number % 2]})
        for number, layer in enumerate(stack.layers)
    ]
    stack = Stack(layers=layers, length=60, width=20)
    bar = Billet(source=stack).then(
        Hammer(depth=min(2.0, stack.thickness / 12), spacing=14, seed=5), QuarterTurn()
    )
    pixel = WIDE / columns
    # turned on edge, the layers run up the picture; what is ground off lies behind
    plane = Plane(
        size=bar.size,
        centre=(30.0, 0.0, bar.size.thickness / 2 - 1.0 - job.depth),
        right=(0.0, 1.0, 0.0),
        up=(1.0, 0.0, 0.0),
        columns=columns,
        rows=rows,
        pixel=pixel,
    )
    return bar, plane


def scene(
    *,
    units: Units = Units.MM,
    sunlit: bool = False,
    readings: tuple[Coupon, ...] = (),
    **settings: float,
) -> Scene:
    """Etch, wear, step back: the relief in section, three faces as they are seen.

    `settings` are those of `Job`; what is left out stands as it is there. `readings` of
    somebody's own coupons go before our guesses.
    """
    job = Job.asked(settings, units)
    found = bitten(job.names, job.etch, readings)
    sheet = Sheet(drawing.COLUMNS, drawing.ROWS, sunlit=sunlit)
    panels: tuple[Panel, ...] = _draw(sheet, job, found, units)
    both = between(*job.names, job.etch, readings)
    return Scene(
        image=sheet.image,
        alt=_alt(job, both, panels, units),
        numbers=_numbers(job, found, both, units),
        panels=panels,
    )


def seen(job: Job, both: Between) -> list[float]:
    """List the bands that an eye still sees from there, mm: wide enough, unlike enough."""
    dark, bright = (
        both.unresolved * (1 - both.contrast),
        both.unresolved * (1 + both.contrast),
    )
    ratio = float(contrast_ratio(dark, bright))
    return [band for band in BANDS if EYE.sees(band, job.distance, ratio)]


def _numbers(
    job: Job, found: dict[str, Bitten], both: Between, units: Units
) -> tuple[Number, ...]:
    one, other = (found[name] for name in job.names)
    return (
        Number(
            "Relief (illustrative)",
            f"{both.relief:.1f} µm",
            [
                "relief = difference of what the two steels lost, less what is worn",
                f"{job.names[0]} {one.depth:.1f} µm, {job.names[1]} {other.depth:.1f} µm",
                f"= {both.relief:.1f} µm",
            ],
        ),
        Number(
            "Contrast (illustrative)",
            f"{both.contrast:.2f}",
            [
                "contrast = (bright - dark) / (bright + dark)",
                f"tones {one.tone:.2f} and {other.tone:.2f} of the light",
                f"= {both.contrast:.2f}; to the eye {how_unlike(one.tone, other.tone)}",
            ],
        ),
        *_eyesight(job, both, units),
        Number(
            "Tone where unsplit (illustrative)",
            f"{both.unresolved:.2f}",
            [
                "the mean of the two tones: what the eye makes of lines it can not split",
                f"= ({one.tone:.2f} + {other.tone:.2f}) / 2 = {both.unresolved:.2f}",
            ],
        ),
    )


def _eyesight(job: Job, both: Between, units: Units) -> tuple[Number, Number]:
    limit, left = EYE.finest(job.distance), seen(job, both)
    return (
        Number(
            f"Eye limit from {format_length(job.distance, units)}",
            format_length(limit, units),
            [
                "one arc-minute: limit = distance × tan(1/60°)",
                f"= {job.distance:g} mm × 0.000291",
                f"= {limit:.3f} mm",
            ],
        ),
        Number(
            "Bands still seen",
            ", ".join(f"{band:g}" for band in left) + " mm" if left else "none",
            [f"as wide as {limit:.3f} mm or wider, and not alike in tone"],
        ),
    )


def _alt(job: Job, both: Between, panels: tuple[Panel, ...], units: Units) -> str:
    one, other = job.names
    fine, middle, wide = (panel.shows for panel in panels)
    pair = f"{one} and {other} in turn" if one != other else f"{one} alone"
    worn = f", {job.wear:g} percent worn" if job.wear and not job.since else ""
    since = f", {SINCE[job.since]}" if job.since else ""
    return (
        f"On the left the etched face in section, its height drawn "
        f"{TIMES} times too large: {pair}, a step of "
        f"{both.relief:.1f} micrometres after {job.minutes:g} minutes in the "
        f"{STRENGTHS[job.strength]} bath{worn}{since}. On the right three faces with "
        f"layers of 0.3, 0.8 and 2 mm as an eye sees them from "
        f"{format_length(job.distance, units)}. The first shows {fine}; the second "
        f"{middle}; the third {wide}."
    )


def remark(changed: str, state: dict[str, float]) -> str:
    """Say what a change of one control did, where that is the point of it."""
    job = Job(**state)
    both = between(*job.names, job.etch)
    if job.first == job.second:
        return "One steel: nothing to tell apart, whatever the acid does."
    if changed == "distance":
        return "" if seen(job, both) else ONE_GREY
    if changed in {"first", "second"}:
        return ALIKE if both.contrast < 0.15 else ""
    return _faded(changed, job)


ONE_GREY = "From here it is all one grey: the eye averages what it can not split."
ALIKE = "These two etch nearly alike: without nickel or chromium there is little to see."
BOOK = "The ink wears, the book does not: the layers are still there."


def _faded(changed: str, job: Job) -> str:
    """Say what time, wear and cleaning did to the face."""
    if changed == "since" and job.since:
        deeper = " Deeper in, their lines lie a little elsewhere." if job.since == 2 else ""
        return BOOK + deeper
    if changed == "wear" and job.wear >= 95 and not job.since:
        return "Rubbed flat and bare: nearly one silver grey. Clean it and etch it again."
    if changed == "minutes" and not job.minutes:
        return "Not etched: ground steel, silver all over. The pattern is there, unseen."
    return ""


def _draw(
    sheet: Sheet, job: Job, found: Mapping[str, Bitten], units: Units
) -> tuple[Panel, ...]:
    """Draw both parts; give the faces, so that they can be asked about."""
    section(sheet, job, found)
    away = format_length(job.distance, units)
    sheet.text(f"The face, as seen from {away}", (STRIPS[0], 12), size=18)
    panels = []
    for number, band in enumerate(BANDS):
        panels.append(_strip(sheet, job, found, band, number, units))
    return tuple(panels)


def section(sheet: Sheet, job: Job, found: Mapping[str, Bitten]) -> None:
    """Draw steps between the steels, far too high, with the first ground face above."""
    left, top, wide, high = SECTION
    sheet.text("In section", (left, 12), size=18)
    words = f"height x {TIMES}: far too high"
    sheet.text(words, (left + wide, 14), size=15, ink=ACCENT, anchor="ra")
    each = wide / SHOWN
    scale = MM * TIMES / 1000  # pixels a µm
    worn = 1 - job.etch.wear / 100
    greatest = max(part.depth for part in found.values())
    for number in range(SHOWN):
        name = job.names[number % 2]
        part = found[name]
        # wear takes the high steel down to the low one
        depth = greatest - (greatest - part.depth) * worn
        y = top + min(depth * scale, high - 20)
        x = left + number * each
        grey = int(to_srgb(np.array([part.tone]))[0])
        fill = f"#{grey:02x}{grey:02x}{grey:02x}"
        sheet.box((x, y), (x + each, top + high), fill=fill, ink=INK)
    sheet.dashes((left - 14, top), (left + wide + 14, top), ink=ACCENT, width=2)
    sheet.text("ground face, before", (left, top - 22), size=15, ink=ACCENT)
    words = " and ".join(dict.fromkeys(job.names))
    sheet.text(words + " in turn", (left, top + high + 8), size=15, ink=QUIET)
    sheet.text("greys: bare tone of each", (left, top + high + 30), size=15, ink=QUIET)


def _strip(
    sheet: Sheet,
    job: Job,
    found: Mapping[str, Bitten],
    band: float,
    number: int,
    units: Units,
) -> Panel:
    """Draw one face as it is seen from afar."""
    left, top, wide, high = STRIPS
    place = (left, top + APART * number)
    bar, plane = face(job, band, wide, high)
    tones = {name: part.tone for name, part in found.items()}
    bare = see(bar, plane, tones)
    blurred = seen_from(bare.tone, job.distance, plane.pixel)
    far = Face(blurred, np.ones_like(blurred), np.ones_like(blurred))
    sheet.steel(far, place)
    sheet.box(place, (left + wide, place[1] + high), ink=GHOST)
    sheet.text(f"bands of {format_length(band, units)}", (left, place[1] - 20), size=15)
    if number == len(BANDS) - 1:
        sheet.scale_bar((left + wide - 140, place[1] + high + 24), plane.pixel, units)
    return Panel.drawn(bar, plane, place, far._replace(cover=_inner(job, plane)))


def _inner(job: Job, plane: Plane) -> np.ndarray:
    """Leave out both ends, where blurring counts a band double: no eye sees that."""
    margin = math.ceil(3 * SPREAD * EYE.finest(job.distance) / plane.pixel)
    inner = np.zeros((plane.rows, plane.columns))
    inner[:, margin:-margin] = 1
    return inner


def far_tile(still: int) -> Sheet:
    """Draw three small blades as somebody expects them from afar: a tile."""
    sheet = Sheet(200, 150)
    for number, band in enumerate(BANDS):
        y = 12 + 44 * number
        kept = number >= len(BANDS) - still
        x, width = 12.0, max(2.0, band * 8)
        sheet.box((12, y), (150, y + 34), fill="#8c8c8c", ink=INK)
        dark = True
        while kept and x < 149:
            right = min(150.0, x + width)
            sheet.box(
                (x, y), (right, y + 34), fill="#303030" if dark else "#dedede", ink=None
            )
            x, dark = right, not dark
        sheet.box((12, y), (150, y + 34), ink=INK)
        sheet.text(f"{band:g} mm", (155, y + 17), size=14, anchor="lm")
    return sheet

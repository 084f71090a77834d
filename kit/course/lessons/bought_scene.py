"""Lesson 11, a bar you bought, on one sheet: as bought, and the blade out of it."""

from __future__ import annotations

from typing import Any

from kit.basics.units import Units, format_length, format_temperature
from kit.course.lessons.bought import AS_SOLD, Job, tones
from kit.course.lessons.scene import Number, Panel, Scene
from kit.metal.bite import ILLUSTRATIVE
from kit.section.blade import Blade, Section, Spine
from kit.section.picture import QUIET, Sheet
from kit.section.surface import Plane
from kit.section.trace import see
from kit.shop.bought import BOUGHT, FLAT

COLUMNS, ROWS = 1000, 480
BAR = (20, 34, 720, 140)  # left, top, columns, most rows
BLADE = (20, 236, 720, 190)
SECTION = (800, 60, 180, 330)
HAIR = 1e-4  # mm: just inside the skin


def scene(*, units: Units = Units.MM, sunlit: bool = False, **settings: Any) -> Scene:
    """Grind a bought bar to a blade, harden, temper, clean and etch it; show both faces.

    Raises
    ------
    KitError
        What can not be ground; see `Job.check`.
    """
    job = Job.asked(settings, units)
    sheet = Sheet(COLUMNS, ROWS, sunlit=sunlit)
    panels = _bar(sheet, job, units), _blade(sheet, job, units)
    _section(sheet, job, units)
    return Scene(
        image=sheet.image,
        alt=_alt(job, *panels, units),
        numbers=_numbers(job, units),
        says=ILLUSTRATIVE,
        panels=panels,
    )


def _bar(sheet: Sheet, job: Job, units: Units) -> Panel:
    left, top, columns, most = BAR
    billet = job.bar
    length, width, thickness = billet.size
    pixel = max(150 / columns, width / most)
    rows = min(most, int(width / pixel) + 2)
    face = Plane(
        size=billet.size,
        centre=(length / 2, 0.0, thickness / 2 - HAIR),
        right=(1.0, 0.0, 0.0),
        up=(0.0, 1.0, 0.0),
        columns=columns,
        rows=rows,
        pixel=pixel,
    )
    thick = format_length(job.thickness, units)
    sheet.text(f"As you bought it: {BOUGHT[job.bought]}, {thick} thick", (left, 6), size=18)
    seen = see(billet, face, tones(AS_SOLD))
    sheet.steel(seen, (left, top))
    sheet.scale_bar((left + columns - 120, top - 10), pixel, units, most=115)
    return Panel.drawn(billet, face, (left, top), seen)


def _blade(sheet: Sheet, job: Job, units: Units) -> Panel:
    left, top, columns, most = BLADE
    billet, own = job.bar, tones(job.etch)
    view = Blade.fitted(job.grind, billet.size, columns, most)
    words = "The blade: ground, hardened, tempered, cleaned, etched"
    sheet.text(words, (left, top - 30), size=18)
    seen = see(billet, view, own)
    sheet.steel(seen, (left, top))
    spine = Spine(
        grind=job.grind, size=billet.size, columns=columns, rows=40, pixel=view.pixel
    )
    below = top + view.rows + 4
    sheet.text("its spine", (left, below), size=15, ink=QUIET)
    sheet.steel(see(billet, spine, own), (left, below + 16))
    sheet.scale_bar((left + columns - 120, top - 12), view.pixel, units, most=115)
    return Panel.drawn(billet, view, (left, top), seen)


def _section(sheet: Sheet, job: Job, units: Units) -> None:
    left, top, columns, rows = SECTION
    pixel = max(job.height / (rows - 12), job.thickness / (columns - 12))
    view = Section(
        grind=job.grind, size=job.bar.size, at=60, columns=columns, rows=rows, pixel=pixel
    )
    sheet.text("Sawn across", (left, 6), size=18)
    sheet.text("dashed: the bar", (left, 28), size=16, ink=QUIET)
    sheet.steel(see(job.bar, view, tones(job.etch)), (left, top))
    half = job.thickness / 2 / pixel
    middle = left + columns / 2
    for side in (-half, half):
        edge = middle + side
        sheet.dashes((edge, top + 4), (edge, top + rows - 4), ink=QUIET)
    sheet.scale_bar((left, top + rows + 40), pixel, units, most=110)


def _numbers(job: Job, units: Units) -> tuple[Number, ...]:
    crossed = job.grind.crossed(job.layer)
    relief, contrast = job.relief
    heat = (
        f"{format_temperature(job.celsius, 'C')} ({format_temperature(job.celsius, 'F')})"
    )
    spacing = format_length(crossed.spacing, units) if crossed.lines else "none"
    scaled = [f"bare, in air, {job.hot:g} min at {job.celsius:g} °C (lesson 08)"]
    lines = [
        "lines = (spine - edge) / 2 / layer",
        f"layer = {job.thickness:g} / {job.layers:g} = {job.layer:.3f} mm",
        f"= {crossed.lines:.1f}",
    ]
    etched = (
        f"{job.minutes:g} min, bath {job.etch.strength}, otherwise as usual (lesson 09)"
    )
    return (
        Number("Gone from each flat", format_length(job.off, units), _off_working(job)),
        Number(
            "Scale in the hardening heat, each face",
            format_length(job.scale, units),
            [*scaled, f"= {job.scale:.4f} mm"],
        ),
        Number(
            "Layers met on a bevel; mean spacing",
            f"{crossed.lines:.0f}; {spacing}",
            lines,
        ),
        Number(f"At {heat}", job.hardening, _window_working(job)),
        Number(
            "Etched relief, contrast (illustrative)",
            f"{relief:.1f} µm, {contrast:.2f}",
            [etched],
        ),
    )


def _off_working(job: Job) -> list[str]:
    return [
        "(bar - spine) / 2 + scale of the hardening heat",
        f"= ({job.thickness:g} - {job.spine:g}) / 2 + {job.scale:.3f} mm",
        f"= {job.off:.3f} mm",
    ]


def _window_working(job: Job) -> list[str]:
    heats = job.heats
    if heats is None:
        return [job.hardening]
    low, high = (format_temperature(heat, "C") for heat in heats)
    return [
        "1084 and 15N20, carbon evened out: a window from both steels' Ac1 (lesson 08)",
        f"{low} to {high}",
        job.hardening,
    ]


def _alt(job: Job, bar: Panel, blade: Panel, units: Units) -> str:
    lines = job.grind.crossed(job.layer).lines
    name = BOUGHT[job.bought]
    bought = f"bar of {name}" if job.bought == FLAT else f"{name} bar"
    off = format_length(job.off, units)
    return (
        f"Above, a bought {bought}, {format_length(job.thickness, units)} thick: it "
        f"shows {bar.shows}. Below, the blade out of it, hardened and tempered, "
        f"{off} gone from each flat, etched {job.minutes:g} minutes: it shows "
        f"{blade.shows}. A bevel cuts {lines:.0f} layers. Its spine lies below it, and "
        f"beside them the blade is sawn across."
    )


def remark(changed: str, state: dict[str, Any]) -> str:
    """Say what a change of one control did, where that is the point of it."""
    job = Job(**state)
    if changed in ("celsius", "hot"):
        return (
            f"Hardening: {job.hardening}. Scale takes a little off every face; "
            "tempering takes none."
        )
    if changed == "minutes" and job.minutes == 0:
        return "Ground and not etched, both steels are bright: the pattern waits inside."
    if changed in ("spine", "edge", "kind") and job.bought == FLAT:
        return "Flat layers show only where the grind slants through them."
    if changed == "spine":
        return "The deeper you grind, the less it is like the bar you saw: another cut."
    if changed == "bought":
        return "A seller's name for a pattern says how it was cut, not what lies below it."
    return ""

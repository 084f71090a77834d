"""The etched step, from the side. Rates are illustrative: nobody has published them."""

from __future__ import annotations

from collections.abc import Sequence

from kit.course.lessons.scene import Scene
from kit.course.questions.card import Measures
from kit.forge.steels import steel
from kit.metal.bite import rate
from kit.section.picture import ACCENT, INK, QUIET, Sheet

WIDE = 1000
DARK, BRIGHT = "#2B2B2B", "#E8E8E8"
LAYER = 0.05  # mm
BARS, ACROSS = 7, 42  # layers drawn, pixels each
PIXEL = LAYER / ACROSS  # mm
HIGHER = 10  # times as high as wide


def rates() -> tuple[float, float]:
    """Give how fast the dark and the bright steel are eaten, mm a minute."""
    dark, bright = (rate(steel(name)) / 1000 for name in ("1084", "15N20"))
    return dark, bright


def step_after(minutes: float) -> float:
    """Give the step between the steels after a time in the bath, mm."""
    dark, bright = rates()
    return (dark - bright) * minutes


def growing(times: Sequence[float], measures: Measures) -> Scene:
    """Draw the surface from the side after some times, heights exaggerated."""
    sheet = Sheet(WIDE, 376, sunlit=measures.sunlit)
    step = (WIDE - 40) / len(times)
    top = 110
    for number, minutes in enumerate(times):
        left = 20 + number * step
        sheet.text(f"{minutes:g} min", (left, 10), size=20)
        told = measures.fine(step_after(minutes)) if minutes else "flat"
        sheet.text(f"step: {told}", (left, 36), size=19, ink=QUIET)
        sheet.dashes((left, top), (left + BARS * ACROSS, top), ink=ACCENT, width=2)
        for bar in range(BARS):
            level = top + HIGHER * rates()[1 - bar % 2] * minutes / PIXEL
            corner = (left + ACROSS * bar, level)
            fill = DARK if bar % 2 else BRIGHT
            sheet.box(corner, (left + ACROSS * (bar + 1), 320), fill=fill, ink=INK)
    sheet.text("dashes: the face before the bath", (20, 352), size=18, ink=ACCENT)
    words = f"Heights are drawn {HIGHER} times too large. Rates are illustrative."
    sheet.text(words, (980, 352), size=18, anchor="ra", ink=QUIET)
    each = ", ".join(
        f"after {minutes:g} minutes {measures.fine(step_after(minutes))}"
        for minutes in times
        if minutes
    )
    alt = (
        "Upright layers, dark and bright in turn, from the side. Flat at first; in the "
        f"bath both are eaten, the dark ones faster, so the bright ones stand proud: "
        f"{each}. Heights are exaggerated {HIGHER} times."
    )
    return Scene(image=sheet.image, alt=alt, numbers=())

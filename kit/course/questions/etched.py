"""Cards 11, 13 and 34: what the acid does, whether it lasts, and hard steel in it.

Rates are illustrative: we found no source.
"""

from collections.abc import Sequence
from functools import cache

from kit.course.lessons.bevels import BevelsLesson
from kit.course.lessons.scene import Scene
from kit.course.questions import faces, sketches
from kit.course.questions.buying import UNHARDENED, hardness
from kit.course.questions.card import Measures, Values, cards_of
from kit.forge.steels import steel
from kit.metal.bath import BITES
from kit.metal.bite import BITE, ILLUSTRATIVE, rate
from kit.metal.dangers import ETCHANT, OIL, SPENT, UNTEMPERED
from kit.metal.etch import TONES
from kit.metal.hardening import QUENCHED
from kit.metal.reported import BACK_AGAIN, DARKER, UNDERCUT
from kit.section.picture import ACCENT, INK, QUIET, Sheet

WIDE = 1000  # pixels
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
    sheet = Sheet(WIDE, 376, **measures.paper)
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


MINUTES = 10.0  # in the bath, illustrative


@cache
def _bitten() -> Values:
    dark, bright = rates()
    step = step_after(MINUTES)
    return {
        "dark": 1000 * dark,
        "bright": 1000 * bright,
        "minutes": MINUTES,
        "step": step,
        "micrometres": 1000 * step,
    }


@cache
def _again() -> Values:
    layer = BevelsLesson().layer
    dark, _bright = rates()
    lost = dark * MINUTES
    return {
        "dark": 1000 * dark,
        "minutes": MINUTES,
        "lost": lost,
        "micrometres": 1000 * lost,
        "layer": layer,
        "layer_micrometres": 1000 * layer,
        "share": 100 * lost / layer,
    }


def _worn(measures: Measures) -> Scene:
    lost = rates()[0] * MINUTES
    return faces.worn_and_back(faces.bar(0.5, 50.0), 4.0, lost, measures)


@cache
def _line() -> Values:
    return hardness(steel("1084").nominal["C"])


card = cards_of(__file__)
CARDS = (
    card(
        11,
        values=_bitten,
        by_hand={"step": (0.8e-3 - 0.3e-3) * 10, "micrometres": 5},
        picture=lambda measures: growing((0.0, MINUTES / 2, MINUTES), measures),
        mark=ILLUSTRATIVE,
        dangers=(ETCHANT, SPENT),
        claims=(BITE, BITES, TONES, UNDERCUT),
    ),
    card(
        13,
        values=_again,
        by_hand={"micrometres": 0.8 * 10, "share": 100 * 8 / 50},
        picture=_worn,
        mark=ILLUSTRATIVE,
        dangers=(ETCHANT, SPENT),
        claims=(BITE, BITES, BACK_AGAIN),
    ),
    card(
        34,
        values=_line,
        by_hand={"carbon": 0.84, "soft": 25},
        picture=sketches.hard_edge,
        claims=(DARKER, TONES, BITE, QUENCHED, UNHARDENED),
        dangers=(ETCHANT, OIL, UNTEMPERED),
    ),
)

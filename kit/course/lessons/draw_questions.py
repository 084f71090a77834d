"""What lesson 03 asks: the prediction, the checks, and the move that answers."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from kit.course.check import Check
from kit.course.lesson import Question, Reason
from kit.course.lessons.draw import Job
from kit.course.lessons.draw_ideas import (
    ADDED,
    ANGLE_DIVIDED,
    ANGLE_DIVIDED_TWICE,
    BOTH_WAYS,
    DIFFERENCE,
    INVERTED,
    LENGTH,
    LINE,
    LINE_ONE_WAY,
    LINE_UNCHANGED,
    LOSS_ADDED,
    NO_LOSS,
    NOT_MOVED,
    ONE_WAY,
    SHRUNK,
    STEEPER,
    UNCHANGED,
    angle_working,
    dot_working,
    length_working,
)
from kit.course.lessons.draw_marks import DOT, Marks, ink
from kit.metal import etch
from kit.section.picture import Sheet
from kit.section.surface import Plane
from kit.section.trace import see

if TYPE_CHECKING:
    from PIL import Image

TILE_PIXEL = 0.12  # mm


def dot_shape(ratio: float) -> tuple[float, float]:
    """Give the length and height, mm, of a dot that somebody expects.

    Below one it stayed round and shrank by so much. Otherwise it keeps its area, as a
    dot on the side does while the width is held.
    """
    if ratio < 1:
        return DOT * ratio, DOT * ratio
    return DOT * math.sqrt(ratio), DOT / math.sqrt(ratio)


def tile(ratio: float) -> tuple[Image.Image, str]:
    """Draw the dot on the drawn-out bar that somebody with this idea expects."""
    billet = Job().billet
    size, middle = billet.size, billet.size.length / 2
    plane = Plane(
        size=size,
        centre=(middle, -size.width / 2, 0.0),  # tiles are cropped at both ends
        right=(1.0, 0.0, 0.0),
        up=(0.0, 0.0, 1.0),
        columns=200,
        rows=150,
        pixel=TILE_PIXEL,
    )
    long, high = dot_shape(ratio)
    around = np.linspace(0, 2 * math.pi, 73)
    x, z = middle + long / 2 * np.cos(around), high / 2 * np.sin(around)
    sheet = Sheet(200, 150)
    sheet.steel(see(billet, plane, etch.tones(billet.source.steels)), (0, 0))
    ink(sheet, plane, (0, 0), Marks(((x, z, z),)))
    return sheet.image, f"A flat-layered bar; the dot {_words(ratio)}."


def _words(ratio: float) -> str:
    if ratio < 1:
        return "still round, but smaller"
    return "unchanged" if ratio == 1 else f"{ratio:.1f} times as long as high"


def _show(ratio: float) -> str:
    if ratio < 1:
        return "smaller dot"
    return "unchanged" if ratio == 1 else f"{ratio:.1f} : 1"


def question() -> Question:
    """Ask what becomes of a round dot when 32 mm are drawn out to 12 mm."""
    return Question(
        ask=(
            "The billet is 32 mm thick. A round dot of 5 mm is marked on its side. Now it "
            "is drawn out to 12 mm, its width held. Which dot do you expect?"
        ),
        given={"T": 32.0, "t": 12.0, "W": 38.0, "w": 38.0},
        tiles=(SHRUNK, ONE_WAY, BOTH_WAYS, UNCHANGED),
        right=BOTH_WAYS,
        show=_show,
        draw=tile,
        observed=(
            "The dot is now 13.3 mm long and 1.88 mm high: 7.1 to 1. The line lies at 8.0° "
            "instead of 45°."
        ),
        reasons=(
            Reason(
                "The bar became longer by 2.67 and thinner by 2.67; so did the dot.",
                True,
                "Yes. Both at once: 2.67 × 2.67 is 7.1. The steel that left the thickness "
                "is in the length; none was made.",
            ),
            Reason(
                "The hammer presses the steel together, so everything in it gets smaller.",
                False,
                "Hot steel is not a sponge: its volume stays. Look at the length, and at "
                "the area of the dot. Is it smaller?",
            ),
            Reason(
                "Only the skin is stretched; the inside stays as it was.",
                False,
                "Look at the layers: the middle ones have become as thin as the outer "
                "ones. In this model all of the bar takes part.",
            ),
        ),
    )


# The move that answers the question: the billet is drawn out, heat by heat, and loses
# scale as it goes.
FILM = [
    {
        "length": 150.0,
        "width": 38.0,
        "start": 32.0,
        "thickness": 22 + 10 * math.cos(math.pi * frame / 15),
        "spread": 0.0,
        "loss": float(round(8 * frame / 15)),
    }
    for frame in range(16)
]

HOMEWORK = {"L": 160.0, "W": 40.0, "T": 36.0, "w": 40.0, "t": 12.0, "loss": 10.0}
OTHER = {"L": 120.0, "W": 30.0, "T": 24.0, "w": 30.0, "t": 6.0, "loss": 5.0}

BAR_LENGTH = Check(
    ask=(
        "A billet of 160 × 40 × 36 mm is drawn out to 12 mm thick, 40 mm wide. Scale and "
        "trimming take 10 %. How long is the bar?"
    ),
    given=HOMEWORK,
    right=LENGTH,
    slips=(NO_LOSS, LOSS_ADDED, INVERTED, NOT_MOVED, DIFFERENCE),
    kind="length",
    prompt="How many times thinner does it get? What must the length do, and what is lost?",
    working=length_working,
    other=OTHER,
    tips=(
        "Set 160, 40, 36 mm at station 1 and 12 mm, 0 %, 10 % at station 2. Then choose.",
        "Set the same and read the ruler under the bar. 5 % is near enough.",
        "Length × width × thickness stays; then take the loss off. 2 % is near enough.",
    ),
)

DOT_RATIO = Check(
    ask=(
        "The same billet had a round dot on its side. How many times as long as high is "
        "the dot now? (A whole number.)"
    ),
    given=HOMEWORK,
    right=BOTH_WAYS,
    slips=(ONE_WAY, ADDED, UNCHANGED),
    kind="count",
    prompt="How many times longer did the dot get? And how many times thinner?",
    working=dot_working,
    other=OTHER,
    tips=(
        "Set the same in the picture above and look at the dot from close by. Then choose.",
        "Hold a ruler to the dot's close-up: its length, then its height. Divide.",
        "Find what happens along the bar, and what happens through it. Put them together.",
    ),
)

LINE_ANGLE = Check(
    ask=(
        "A line at 45° is marked on the side of another billet, which is drawn out from 32 "
        "to 16 mm, its width held. At what angle does the line lie now?"
    ),
    given={"T": 32.0, "t": 16.0, "W": 38.0, "w": 38.0},
    right=LINE,
    slips=(LINE_ONE_WAY, ANGLE_DIVIDED, LINE_UNCHANGED, ANGLE_DIVIDED_TWICE, STEEPER),
    kind="angle",
    prompt="The line goes across and up. How far does each of the two become?",
    working=angle_working,
    other={"T": 24.0, "t": 16.0, "W": 38.0, "w": 38.0},
    tips=(
        "Set 32 mm at station 1, 16 mm and no spread at station 2. Then choose.",
        "Set the same and hold a protractor to the picture. Half a degree is near enough.",
        "Its slope is rise over run. Half a degree is near enough.",
    ),
)

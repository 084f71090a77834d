"""What lesson 06 asks: the prediction, the checks, and the move that answers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from kit.course.check import Check
from kit.course.lesson import Question, Reason
from kit.course.lessons import bevels_ideas as ideas
from kit.course.lessons.bevels import BEFORE, BESIDE, BLADE, RICASSO, Job
from kit.course.lessons.bevels_drawing import lit_blade
from kit.section.blade import Blade
from kit.section.picture import Sheet
from kit.shop.bought import bar

if TYPE_CHECKING:
    from PIL import Image

TILE = (220, 165)
_MARGIN = 1.5  # mm, above and below the blade


def tile(lines: float) -> tuple[Image.Image, str]:
    """Draw the blade that somebody who expects this many lines expects.

    The kit's own blade, in layers so thick that its bevel crosses that many; for no
    lines, the face of the bar.
    """
    job = Job() if lines else Job(edge=4.0)
    layers = round(lines * job.spine / job.depth) if lines else job.layers
    billet = bar(layers, job.bought, job.spine, job.height + BESIDE)
    pixel = (job.height + 2 * _MARGIN) / TILE[1]
    heel = (billet.size.length - job.grind.outline.length) / 2
    view = Blade(
        grind=job.grind,
        size=billet.size,
        centre=(heel + RICASSO / 2 + 0.4 * TILE[0] * pixel, 0.0),
        columns=TILE[0],
        rows=TILE[1],
        pixel=pixel,
    )
    sheet = Sheet(*TILE)
    sheet.steel(lit_blade(billet, view, job.share).face, (0, 0))
    shown = _shown(lines)
    return sheet.image, f"Part of a blade with its ricasso; on its side {shown}."


def _shown(lines: float) -> str:
    if not lines:
        return "plain, like the bar's face"
    apart = Job().grind.bevel_length / lines
    count = "lines" if apart < 0.1 else f"{lines:.0f} lines"
    return f"{count}, {apart:.2f} mm apart"


def question() -> Question:
    """Ask for the side of a blade ground from 80 flat layers in 4.0 mm."""
    return Question(
        ask=(
            "A bar, 4.0 mm thick, of 80 flat layers of 0.05 mm. Its face is one layer: "
            "plain. Both sides are ground flat, from the spine down to an edge 0.4 mm "
            "thick, 30 mm below. Etched, what does one side of the blade show?"
        ),
        given=Job().given,
        tiles=(ideas.LIKE_FACE, ideas.LIKE_SPINE, ideas.LINES, ideas.BOTH_SIDES),
        right=ideas.LINES,
        show=_shown,
        draw=tile,
        observed=(
            "36 lines on this side, dark and bright ones together, 0.83 mm apart: 16.7 "
            "times wider than the layers."
        ),
        reasons=(
            Reason(
                "The bevel cuts the layers at a very shallow angle and so spreads them.",
                True,
                "Yes. It goes 1.8 mm deep in 30 mm: lesson 01, with a cut at 3.4°.",
            ),
            Reason(
                "Grinding pulls the layers along and makes them wider.",
                False,
                "Grinding moves nothing. Look at the spine: they are as thin as ever.",
            ),
            Reason(
                "The layers are thicker near the edge.",
                False,
                "Look at the section: each layer is as thick at the edge as at the spine.",
            ),
        ),
    )


# The move that answers: the bar, the outline cut from it, and the wheel going down.
_START = {"shown": BLADE, "layers": 80, "spine": 4.0, "height": 30.0, "forged": 0.0}
_START |= {"bought": 0, "kind": 0, "taper": 0.0}
_EDGES = (4.0, 3.6, 3.2, 2.8, 2.4, 2.0, 1.6, 1.2, 0.8, 0.4)
FILM = [
    {**_START, "shown": BEFORE, "edge": 4.0},
    *({**_START, "edge": edge} for edge in _EDGES),
]

_ASKED = {"S": 5.0, "E": 0.5, "B": 36.0, "t": 0.06}
_OTHER = {"S": 6.0, "E": 1.0, "B": 40.0, "t": 0.08}

LINE_COUNT = Check(
    ask=(
        "A blade is 5.0 mm thick at the spine and 0.5 mm at the edge, ground flat over "
        "36 mm on both sides. Its layers are 0.06 mm thick. How many whole lines, dark and "
        "bright together, does one side show?"
    ),
    given=_ASKED,
    right=ideas.WHOLE,
    slips=(ideas.WHOLE_BOTH, ideas.WHOLE_SPINE, ideas.WHOLE_NO_EDGE, ideas.ROUNDED_UP),
    kind="count",
    prompt="How deep does the wheel go into this one side, at the edge?",
    working=ideas.whole_lines_working,
    other=_OTHER,
    tips=(
        "Set the same blade in the picture above, type 83 layers, and choose.",
        "Count the lines from spine to edge in the picture; a part of a line is none.",
        "Half of what spine and edge differ by, over the layer.",
    ),
)

LINE_SPACING = Check(
    ask="The same blade: how far apart are its lines, along the bevel?",
    given=_ASKED,
    right=ideas.SPACING,
    slips=(ideas.HALF_SPACING, ideas.NO_EDGE, ideas.AS_IN_BAR),
    kind="length",
    prompt="How long is the bevel, and how many lines share it?",
    working=ideas.spacing_working,
    other=_OTHER,
    tips=(
        "Set the same blade in the picture above, and choose.",
        "Measure five lines, dark and bright, in loupe c (10 mm wide), and divide.",
        "The bevel's length over the lines on it; do not round them first.",
    ),
)

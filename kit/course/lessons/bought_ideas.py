"""What a thicker bar leaves of its pattern at the edge of a blade, right and wrong.

Given: `shown`, layers of a drop on the bar's face; in mm `edge`, before it is sharpened,
`first`, a bar, and `thick`, a thicker one. The number of an idea is the layers of a drop
that are left at the edge. The checks are given a bar's `layers` and, in mm, the `scale`
that the fire takes off each side of an edge; or the `spine` of a blade, and the `skin`
that is ground off either face of its bar.
"""

from kit.course.check import Check
from kit.course.lesson import Given, Reason, ideas_of

_idea = ideas_of("06")


def _left(given: Given, thick: float) -> float:
    return given["shown"] * given["edge"] / thick


FADES = _idea(
    "RIGHT",
    "ask how far below the face the edge lies",
    lambda given: _left(given, given["thick"]),
)
STAYS_AS_IT_WAS = _idea(
    "STAYS_AS_IT_WAS",
    "think the edge shows the same, whatever the bar it lies in",
    lambda given: _left(given, given["first"]),
    "Draw both bars from the end, the same blade in their middle. How deep is its edge?",
)
MORE_WITH_MORE = _idea(
    "MORE_WITH_MORE",
    "let the pattern grow with the steel",
    lambda given: _left(given, given["first"]) * given["thick"] / given["first"],
    "More steel is ground away, too. From where is it taken?",
)
AS_ON_THE_FACE = _idea(
    "AS_ON_THE_FACE",
    "expect the bar's own face at the edge",
    lambda given: given["shown"],
    "That face is the first thing that is ground off. What lies below it?",
)

REASONS = (
    Reason(
        "A drop fades towards the middle of the bar, and there the edge lies.",
        True,
        "Yes. The edge stays where it is, by the middle; the face moves away from it.",
    ),
    Reason(
        "A thicker bar has thicker layers, so more of them are left.",
        False,
        "They are thicker, and so fewer of them fit into the same edge.",
    ),
    Reason(
        "A drop goes through the bar like a hole.",
        False,
        "It fades from layer to layer, down to none by the middle: there begin the drops "
        "of the other face.",
    ),
)


def _least(given: Given) -> float:
    return given["spine"] + 2 * given["skin"]


LEAST = _idea("RIGHT", "add to the spine what goes off both faces", _least)
ONE_FACE = _idea(
    "ONE_FACE",
    "grind one face alone",
    lambda given: given["spine"] + given["skin"],
    "A blade has two sides. What becomes of the other one's skin?",
)
NO_SKIN = _idea(
    "NO_SKIN",
    "buy the bar as thick as the spine",
    lambda given: given["spine"],
    "How thick is it when both faces are clean and flat?",
)
TAKEN_OFF = _idea(
    "TAKEN_OFF",
    "take away what is ground off, instead of adding it",
    lambda given: given["spine"] - 2 * given["skin"],
    "That is left of a bar as thick as the spine. What must be there before?",
)


def _least_working(given: Given) -> list[str]:
    spine, skin = given["spine"], given["skin"]
    return [
        "bar = spine + what goes off one face + off the other",
        f"= {spine:g} mm + 2 × {skin:g} mm",
        f"= {_least(given):.2g} mm",
    ]


def _finished(given: Given) -> float:
    return given["edge"] - 2 * given["scale"]


def _most(given: Given) -> float:
    return given["shown"] * _finished(given)


MOST = _idea("RIGHT", "let the drop fade evenly, to one layer at the finished edge", _most)
ALL_LAYERS = _idea(
    "ALL_LAYERS",
    "let a drop go through all layers of the bar",
    lambda given: given["layers"] * _finished(given),
    "On the face a drop is cut through some of them. Through how many?",
)
HALF_EDGE = _idea(
    "HALF_EDGE",
    "measure the edge from the middle, and the bar right through",
    lambda given: given["shown"] * _finished(given) / 2,
    "To the face is half a bar. Compare half with half, or whole with whole.",
)
NO_SCALE = _idea(
    "NO_SCALE",
    "leave out the scale of the hardening heat",
    lambda given: given["shown"] * given["edge"],
    "How thick is the edge without the scale of the hardening heat, off both sides?",
)
NONE_LOST = _idea(
    "NONE_LOST",
    "ask for the whole drop at the edge",
    _finished,
    "One layer is enough here. How thin a share of the drop is that?",
)


def _most_working(given: Given) -> list[str]:
    shown, edge, scale = given["shown"], given["edge"], given["scale"]
    finished = _finished(given)
    return [
        f"finished edge = {edge:g} mm - 2 × {scale:g} mm = {finished:.3g} mm",
        f"{shown:g} layers in the whole thickness, 1 in the edge: evenly fewer",
        f"thickness / edge = {shown:g} / 1",
        f"thickness = {shown:g} × {finished:.3g} mm",
        f"= {_most(given):.3g} mm",
    ]


LEAST_BAR = Check(
    ask=(
        "A blade shall be 3.5 mm thick at the spine. Off each face of a bought bar 0.4 mm "
        "is ground, till it is clean and flat. How thick must the bar be, at least?"
    ),
    given={"spine": 3.5, "skin": 0.4},
    right=LEAST,
    slips=(ONE_FACE, NO_SKIN, TAKEN_OFF),
    kind="length",
    prompt="Begin with the blade, and lay back on it what was ground away.",
    working=_least_working,
    other={"spine": 5.0, "skin": 0.3},
    tips=(
        "Set 3.5 mm and 0.4 mm in the picture above: below what bar is it too thin?",
        "Draw the spine 35 mm wide, and what was ground off, 4 mm, at either side.",
        "The spine, and twice what goes off a face.",
    ),
)

MOST_BAR = Check(
    ask=(
        "A raindrop bar of 40 layers: on its face each drop is cut through 12 of them, in "
        "its middle through none, and evenly fewer between. The blade's edge lies in the "
        "middle, 0.6 mm thick; then the scale of the hardening heat takes 0.015 mm off "
        "each side. How thick may the bar be, at most, for one layer of each drop to be "
        "left at the edge?"
    ),
    given={"shown": 12.0, "layers": 40.0, "edge": 0.6, "scale": 0.015},
    right=MOST,
    slips=(ALL_LAYERS, HALF_EDGE, NO_SCALE, NONE_LOST),
    kind="length",
    prompt="What share of the way from the middle to the face is the edge's own skin?",
    working=_most_working,
    other={"shown": 9.0, "layers": 30.0, "edge": 0.5, "scale": 0.02},
    tips=(
        "Set 40 layers and 0.6 mm in the picture above: up to what bar does it say Buy?",
        "Draw a wedge, 12 lines high at the face, none in the middle. Where is it 1 high?",
        "Bar over finished edge is as 12 layers over 1.",
    ),
)

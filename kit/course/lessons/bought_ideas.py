"""What a thicker bar leaves of its pattern at the edge of a blade, right and wrong.

Given: `shown`, layers of a drop on the bar's face; in mm `edge`, before it is sharpened,
`first`, a bar, and `thick`, a thicker one. The number of an idea is the layers of a drop
that are left at the edge.
"""

from __future__ import annotations

from kit.course.lesson import Given, Reason, ideas_of

_idea = ideas_of("06")


def _left(given: Given, thick: float) -> float:
    return given["shown"] * given["edge"] / thick


FADES = _idea(
    "RIGHT",
    "ask how far below the face the edge lies",
    lambda given: _left(given, given["thick"]),
    "",
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

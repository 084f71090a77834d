"""What a thicker bar leaves of its pattern at the edge of a blade, right and wrong.

Given: `shown`, layers of a drop on the bar's face; in mm `edge`, before it is sharpened,
`first`, a bar, and `thick`, a thicker one. The number of an idea is the layers of a drop
that are left at the edge. The checks are given a bar's `layers` and, in mm, the `scale`
that the fire takes off each side of an edge; or the `spine` of a blade, and the `skin`
that is ground off either face of its bar.
"""

from kit.course.lesson import Given
from kit.course.worded import Worded

TOLD = Worded(__file__, "06")


def _left(given: Given, thick: float) -> float:
    return given["shown"] * given["edge"] / thick


FADES = TOLD.idea("FADES", lambda given: _left(given, given["thick"]))
STAYS_AS_IT_WAS = TOLD.idea("STAYS_AS_IT_WAS", lambda given: _left(given, given["first"]))
MORE_WITH_MORE = TOLD.idea(
    "MORE_WITH_MORE",
    lambda given: _left(given, given["first"]) * given["thick"] / given["first"],
)
AS_ON_THE_FACE = TOLD.idea("AS_ON_THE_FACE", lambda given: given["shown"])


def _least(given: Given) -> float:
    return given["spine"] + 2 * given["skin"]


LEAST = TOLD.idea("LEAST", _least)
ONE_FACE = TOLD.idea("ONE_FACE", lambda given: given["spine"] + given["skin"])
NO_SKIN = TOLD.idea("NO_SKIN", lambda given: given["spine"])
TAKEN_OFF = TOLD.idea("TAKEN_OFF", lambda given: given["spine"] - 2 * given["skin"])


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


MOST = TOLD.idea("MOST", _most)
ALL_LAYERS = TOLD.idea("ALL_LAYERS", lambda given: given["layers"] * _finished(given))
HALF_EDGE = TOLD.idea("HALF_EDGE", lambda given: given["shown"] * _finished(given) / 2)
NO_SCALE = TOLD.idea("NO_SCALE", lambda given: given["shown"] * given["edge"])
NONE_LOST = TOLD.idea("NONE_LOST", _finished)


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


LEAST_BAR = TOLD.check(
    "LEAST_BAR",
    given={"spine": 3.5, "skin": 0.4},
    right=LEAST,
    slips=(ONE_FACE, NO_SKIN, TAKEN_OFF),
    kind="length",
    working=_least_working,
    other={"spine": 5.0, "skin": 0.3},
)

MOST_BAR = TOLD.check(
    "MOST_BAR",
    given={"shown": 12.0, "layers": 40.0, "edge": 0.6, "scale": 0.015},
    right=MOST,
    slips=(ALL_LAYERS, HALF_EDGE, NO_SCALE, NONE_LOST),
    kind="length",
    working=_most_working,
    other={"shown": 9.0, "layers": 30.0, "edge": 0.5, "scale": 0.02},
)

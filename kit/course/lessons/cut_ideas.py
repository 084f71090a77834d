"""Ways of working out a band width, right and wrong.

Given: t, the layer's thickness in mm, and a, the cut's angle to the layers in degrees.
"""

from __future__ import annotations

import math

from kit.course.lesson import Given, Idea


def working(given: Given) -> list[str]:
    """Work the band width out, line by line, in mm."""
    t, a = given["t"], given["a"]
    sine = math.sin(math.radians(a))
    return [
        "band width = layer / sin(angle)",
        f"= {t:g} mm / sin({a:g}°)",
        f"= {t:g} mm / {sine:.3f}",
        f"= {t / sine:.3g} mm",
    ]


def _sine(given: Given) -> float:
    return math.sin(math.radians(given["a"]))


SPREAD = Idea(
    code="RIGHT",
    name="divide the layer by the sine of the angle",
    formula=lambda given: given["t"] / _sine(given),
    hint="",
    lesson="01",
)
NO_CHANGE = Idea(
    code="NO_CHANGE",
    name="take the layer's own thickness, as if every cut were square",
    formula=lambda given: given["t"],
    hint="How far must a saw travel to get through one layer, if it goes in on a slant?",
    lesson="01",
    vote="01-60-degrees",
)
COS_FOR_SIN = Idea(
    code="COS_FOR_SIN",
    name="divide by the cosine of the angle instead of the sine",
    formula=lambda given: given["t"] / math.cos(math.radians(given["a"])),
    hint=(
        "That would leave the bands nearly unchanged for a flat cut. Try it on the "
        "slider: is it so? The angle is measured from the layers."
    ),
    lesson="01",
    vote="01-60-degrees",
)
MULTIPLIED = Idea(
    code="MULTIPLIED",
    name="multiply by the sine instead of dividing",
    formula=lambda given: given["t"] * _sine(given),
    hint="Could a band on a cut ever be narrower than the layer is thick?",
    lesson="01",
    vote="01-60-degrees",
)
TAN_FOR_SIN = Idea(
    code="TAN_FOR_SIN",
    name="use tan for sin: that measures along the layers, not along the cut",
    formula=lambda given: given["t"] / math.tan(math.radians(given["a"])),
    hint="Which side of the triangle does the saw run along?",
    lesson="01",
    vote="01-60-degrees",
)
RADIANS = Idea(
    code="RADIANS",
    name="leave the calculator on radians",
    formula=lambda given: given["t"] / abs(math.sin(given["a"])),
    hint="Set it to degrees and press the same keys.",
    lesson="01",
)

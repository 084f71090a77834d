"""Ways of thinking about what the eye still splits, right and wrong.

Given: layer, thickness in mm; limit, the finest width in mm the eye splits there; band,
width of a band in mm; distance in mm. A prediction expects how many of three bands (0.3,
0.8 and 2.0 mm) stay visible from afar, the widest first.
"""

from __future__ import annotations

import math

from kit.course.lesson import Given, ideas_of
from kit.metal.eye import EYE

_idea = ideas_of("09")
BANDS = (0.3, 0.8, 2.0)  # mm
FAR = 3000.0  # mm


def still_seen(given: Given) -> int:
    """Count the bands that are at least as wide as the eye's limit."""
    limit = EYE.finest(given["distance"])
    return sum(band >= limit for band in BANDS)


def steepest(given: Given) -> float:
    """Give the steepest cut at which layers still show, degrees to the layers."""
    return math.degrees(math.asin(min(1.0, given["layer"] / given["limit"])))


def farthest(given: Given) -> float:
    """Give the distance from which bands still show, mm."""
    return EYE.farthest(given["band"])


def steepest_working(given: Given) -> list[str]:
    """Work the cut out, line by line."""
    share = given["layer"] / given["limit"]
    sine = f"{given['layer']:.4g} / {given['limit']:.4f} = {share:.3f}"
    return [
        "a cut at an angle shows a layer as wide as layer / sin(angle)",
        f"that must reach {given['limit']:.4f} mm: sin(angle) = {sine}",
        f"angle = {steepest(given):.1f}°",
    ]


def farthest_working(given: Given) -> list[str]:
    """Work the distance out, line by line."""
    return [
        "one arc-minute is 0.087 mm at 300 mm, and grows with the distance",
        f"distance = 300 mm × {given['band']:g} / 0.0873",
        f"= {farthest(given):.0f} mm",
    ]


ONLY_WIDE = _idea("ONLY_WIDE", "reckon with one arc-minute", still_seen, "")
ALL = _idea(
    "ALL",
    "trust the etch: what is there can be seen",
    lambda _given: 3,
    "Walk back from a newspaper. The letters are still there.",
    "Which of three coupons keeps its pattern across the room?",
)
TWO = _idea(
    "TWO",
    "take the limit of near by for the limit of afar",
    lambda _given: 2,
    "What is the finest you split at arm's length? And ten times as far away?",
    "Which of three coupons keeps its pattern across the room?",
)
NONE = _idea(
    "NONE",
    "expect patterns to vanish as soon as one steps back",
    lambda _given: 0,
    "One arc-minute is a good millimetre at four metres. Is 2.0 mm finer than that?",
)
STEEPEST = _idea("STEEPEST", "widen the layer to the eye's limit", steepest, "")
STEEP_COMPLEMENT = _idea(
    "COMPLEMENT",
    "measure the angle from the square cut instead of from the layers",
    lambda given: 90 - steepest(given),
    "Is a cut that shows fine layers nearly flat, or nearly square?",
)
SHARE_OF_90 = _idea(
    "LINEAR",
    "take that share of the right angle",
    lambda given: 90 * given["layer"] / given["limit"],
    "Width grows with 1 / sin(angle), not evenly with the angle.",
)
THE_BEVEL = _idea(
    "THE_BEVEL",
    "give the angle of a usual bevel",
    lambda _given: 3.4,
    "At 3.4° they show well, 0.21 mm wide. How much steeper before they run together?",
)
FARTHEST = _idea("FARTHEST", "let the limit grow with the distance", farthest, "")
UPSIDE_DOWN = _idea(
    "UPSIDE_DOWN",
    "divide the wrong way round",
    lambda given: 300 * EYE.finest(300) / given["band"],
    "Are wider bands seen from nearer or from farther away?",
)
ARM = _idea(
    "ARM",
    "stay at the distance of reading",
    lambda _given: 300.0,
    "At 300 mm bands a ninth as wide are still seen.",
)

"""Ways of thinking about what the eye still resolves, right and wrong, and the checks.

Given: layer, thickness in mm; limit, the finest width in mm the eye resolves there; band,
width of a band in mm; distance in mm. A prediction expects how many of three bands (0.3,
0.8 and 2.0 mm) stay visible from afar, the widest first.
"""

from __future__ import annotations

import math

from kit.basics.units import format_away
from kit.course.check import Check
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
    sine = f"{given['layer']:.4g} mm / {given['limit']:.4f} mm = {share:.3f}"
    return [
        "a cut at an angle shows a layer as wide as layer / sin(angle)",
        f"that must reach {given['limit']:.4f} mm: sin(angle) = {sine}",
        f"angle = {steepest(given):.1f}°",
    ]


def farthest_working(given: Given) -> list[str]:
    """Work the distance out, line by line."""
    return [
        "one arc-minute is 0.087 mm at 300 mm, and grows with the distance",
        f"distance = 300 mm × {given['band']:g} mm / 0.08727 mm",
        f"= {farthest(given):.0f} mm = {format_away(farthest(given))}",
    ]


ONLY_WIDE = _idea("ONLY_WIDE", "reckon with one arc-minute", still_seen, "")
ALL = _idea(
    "ALL",
    "trust the etch: what is there can be seen",
    lambda _given: 3,
    "Walk back from a newspaper. The letters are still there.",
)
TWO = _idea(
    "TWO",
    "take the limit of near by for the limit of afar",
    lambda _given: 2,
    "What is the finest you resolve at arm's length? And ten times as far away?",
)
NONE = _idea(
    "NONE",
    "expect patterns to vanish as soon as one steps back",
    lambda _given: 0,
    "One arc-minute is 1.2 mm at 4 m. Is 2.0 mm finer than that?",
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

FINE = {"layer": 4.0 / 320, "limit": EYE.finest(300)}
COARSE = {"layer": 4.0 / 80, "limit": EYE.finest(300)}

STEEP = Check(
    ask=(
        "320 layers in a blade 4.0 mm thick, seen from 300 mm, where a good eye resolves "
        "0.0873 mm. What is the steepest cut, in degrees to the layers, that still shows "
        "them?"
    ),
    given=FINE,
    right=STEEPEST,
    slips=(THE_BEVEL, STEEP_COMPLEMENT, SHARE_OF_90),
    kind="angle",
    prompt="How thick is a layer, and how wide must the cut make it?",
    working=steepest_working,
    other=COARSE,
    tips=(
        "In lesson 01 a cut at 8° spreads seven times. Is that enough here? Then choose.",
        "In lesson 01 tilt the cut until the ruler shows bands seven layers wide.",
        "layer / sin(angle) = 0.0873 mm. An answer within half a degree counts.",
    ),
)
WALK = Check(
    ask="Bands of 0.8 mm: from how far away does a good eye still see them?",
    given={"band": 0.8},
    right=FARTHEST,
    slips=(UPSIDE_DOWN, ARM),
    kind="length, away",
    prompt="0.087 mm is the limit at 300 mm. How many times as wide are these?",
    working=farthest_working,
    other={"band": 0.5},
    tips=(
        "Step back in the picture until 0.8 mm is no longer among the bands seen.",
        "Do the same and read the distance. An answer within 5 % counts.",
        "distance = band / tan(1/60°). An answer within 2 % counts, in metres or feet too.",
    ),
)

"""Ways of thinking about what the eye still resolves; the checks; what lesson 09 says.

Given: layer, thickness in mm; limit, the finest width in mm the eye resolves there; band,
width of a band in mm; distance in mm. A prediction expects how many of three bands (0.3,
0.8 and 2.0 mm) stay visible from afar, the widest first.

What a step comes to, and how unlike two tones are, is illustrative: see `kit.metal.bite`.
"""

import math
from collections.abc import Mapping
from itertools import pairwise
from typing import Protocol

from kit.basics.told import counted, listed
from kit.basics.units import format_away, rounded
from kit.course.check import Check
from kit.course.lesson import Given, ideas_of
from kit.metal.bite import Between, Bitten, Etch, between, bitten
from kit.metal.colour import contrast_ratio
from kit.metal.eye import EYE, LEAST_CONTRAST

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
        f"= {rounded(farthest(given))} mm = {format_away(farthest(given))}",
    ]


ONLY_WIDE = _idea("ONLY_WIDE", "reckon with one arc-minute", still_seen)
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
STEEPEST = _idea("STEEPEST", "widen the layer to the eye's limit", steepest)
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
FARTHEST = _idea("FARTHEST", "let the limit grow with the distance", farthest)
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


_GROUND, RUBBED, ETCHED, POLISHED = range(4)
FINISHES = (
    "ground silver",
    "etched, rubbed bright",
    "etched",
    "etched, high spots polished",
)
LIGHTS = ("all round", "a low lamp")
# Less contrast of the usual etch than this is little to see. Ours.
LITTLE = 0.15
# Twice the time: the step doubles, and the tones gain less than a third. Ours.
LONG, GAINED = 1.8, 1.33
ONE_STEEL = "One steel: nothing to tell apart but faint weld lines, whatever the acid does."
ONE_GREY = "From here it is all one grey: the eye averages what it cannot resolve."
ALIKE = "These two etch nearly alike: without nickel or chromium there is little to see."
SILVER = "Ground silver: the layers are there, and too alike in tone to be told apart."
DULL = "Worn, or too alike from the bath: no tone to be told from another."
IN_VAIN = "Silver all over: in this light no step shows. Take the low lamp."
TOO_THIN = "The low lamp lights every step, too thin a line for the eye: step nearer."
NO_BATH = "Ground silver met no bath: choose a finish that is etched."
BOOK = "The ink wears, the book does not: the layers are still there."


class Treated(Protocol):
    """What of the lesson was done to the steel, and the light it lies in."""

    names: tuple[str, ...]
    etch: Etch
    finish: int
    light: int
    minutes: float
    wear: float
    since: int


def finished(face: Treated, step: str, tones: str) -> str:
    """Say what a finish leaves; `step` and `tones` in words."""
    return (
        f"Ground silver: {tones} (illustrative). The layers are there, unseen.",
        f"Rubbed bright: {step} stays, and {tones} (illustrative). See it in a low lamp.",
        f"Etched {counted(face.minutes, 'minute')}: {step}, {tones} (illustrative).",
        f"High spots polished: {step}, {tones} (illustrative).",
    )[face.finish]


def lit(face: Treated) -> str:
    """Say what the light shows."""
    if not face.light:
        return "Light from all round: what tells the layers apart is their tone alone."
    if not face.finish:
        return "A low lamp on the left: ground flat, there is no step that it could light."
    return "A low lamp on the left: steps towards it shine, steps away from it are dark."


def told_apart(names: tuple[str, ...]) -> str:
    """Say how unlike metals are, freshly etched as usual."""
    usual, found = between(names, Etch()), bitten(names, Etch())
    if usual.contrast < LITTLE:
        return ALIKE
    if len(found) == 2:
        pair = " and ".join(found)
        return f"{pair}: etched, a contrast of {usual.contrast:.2f} (illustrative)."
    bright = sorted(found, key=lambda name: -found[name].tone)
    like = [
        f"{one} and {other}"
        for one, other in pairwise(bright)
        if contrast_ratio(found[one].tone, found[other].tone) < LEAST_CONTRAST
    ]
    alike = f" Hardly told apart: {', '.join(like)}." * bool(like)
    return f"From bright to dark: {listed(bright)} (illustrative).{alike}"


def kept(face: Treated, tones: str) -> str:
    """Say what care brought back."""
    if not face.since:
        return f"Left as it is, worn {face.wear:g} %: {tones} (illustrative)."
    return BOOK + " Deeper in, their lines lie a little elsewhere." * (face.since == 2)


def worn(face: Treated, both: Between) -> str:
    """Say what wear took."""
    if face.since:
        return f"Worn {face.wear:g} %, but etched again since: no wear is left to see."
    if not face.wear:
        return "Fresh: nothing is rubbed off the high spots."
    if face.wear >= 95:
        return "Rubbed flat and bare: nearly one silver grey. Clean it and etch it again."
    fresh = between(face.names, face.etch.again())
    return f"Worn: contrast {both.contrast:.2f}, fresh it was {fresh.contrast:.2f}."


def bathed(face: Treated, both: Between, step: str) -> str:
    """Say whether so long a bath parted the tones, or only dug deeper."""
    if not face.minutes:
        return "Not etched: ground steel, silver all over. The pattern is there, unseen."
    half = face.etch.model_copy(update={"minutes": face.minutes / 2})
    before = between(face.names, half)
    if both.relief > LONG * before.relief and both.contrast < GAINED * before.contrast:
        return (
            f"Twice as long has hardly parted the tones, and dug twice as deep: {step} "
            "(illustrative)."
        )
    return f"Etched {counted(face.minutes, 'minute')}: {step} (illustrative)."


def unseen(face: Treated, found: Mapping[str, Bitten], limit: float) -> str:
    """Say why no band is seen: finer than `limit` mm, too alike, or in the wrong light."""
    if max(BANDS) < limit:
        return ONE_GREY
    if len(found) == 1:
        return ONE_STEEL
    if not face.etch.minutes:
        return SILVER
    steps = len({one.depth for one in found.values()}) > 1 and face.etch.wear < 100
    if face.finish == RUBBED and steps:
        return TOO_THIN if face.light else IN_VAIN
    return DULL

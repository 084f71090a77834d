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
from kit.course.lesson import Given
from kit.course.worded import Worded
from kit.metal.bite import Between, Bitten, Etch, between, bitten
from kit.metal.colour import contrast_ratio
from kit.metal.eye import EYE, LEAST_CONTRAST

TOLD = Worded(__file__, "09")
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


ONLY_WIDE = TOLD.idea("ONLY_WIDE", still_seen)
ALL = TOLD.idea("ALL", lambda _given: 3)
TWO = TOLD.idea("TWO", lambda _given: 2)
NONE = TOLD.idea("NONE", lambda _given: 0)
STEEPEST = TOLD.idea("STEEPEST", steepest)
STEEP_COMPLEMENT = TOLD.idea("STEEP_COMPLEMENT", lambda given: 90 - steepest(given))
SHARE_OF_90 = TOLD.idea("SHARE_OF_90", lambda given: 90 * given["layer"] / given["limit"])
THE_BEVEL = TOLD.idea("THE_BEVEL", lambda _given: 3.4)
FARTHEST = TOLD.idea("FARTHEST", farthest)
UPSIDE_DOWN = TOLD.idea("UPSIDE_DOWN", lambda given: 300 * EYE.finest(300) / given["band"])
ARM = TOLD.idea("ARM", lambda _given: 300.0)

FINE = {"layer": 4.0 / 320, "limit": EYE.finest(300)}
COARSE = {"layer": 4.0 / 80, "limit": EYE.finest(300)}

STEEP = TOLD.check(
    "STEEP",
    given=FINE,
    right=STEEPEST,
    slips=(THE_BEVEL, STEEP_COMPLEMENT, SHARE_OF_90),
    kind="angle",
    working=steepest_working,
    other=COARSE,
)
WALK = TOLD.check(
    "WALK",
    given={"band": 0.8},
    right=FARTHEST,
    slips=(UPSIDE_DOWN, ARM),
    kind="length, away",
    working=farthest_working,
    other={"band": 0.5},
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

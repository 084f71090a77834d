"""How wide a band is on a photograph, how sure that is, or why it cannot be said.

The interval holds what the lines differ by (Student's t), what the scale may be off by,
and the tilt: each as 95 cases of 100, together as independent errors are (root of the sum
of squares: JCGM 100:2008, section 5.1.2).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from kit.basics.told import counted
from kit.basics.units import Units, format_length
from kit.shop.photograph import Photograph, Point
from kit.shop.scale import SURE, Scale
from kit.shop.stereology import estimate, true_spacing
from kit.shop.stripes import Bands, Box, across, mean_width

# What can be trusted; ours.
LEAST_PAIRS = 2  # whole pairs of bands on a line
UNLIKE = 0.25  # of the mean: lines that differ by more do not see the same bands
ODD = 1.8  # usual pairs of bands: so wide, one has lost a band; like on like is 1.5
EVEN = 0.15  # of the usual: where half of the pairs are within it, they are even
LINES = 7  # side by side, if nobody says how many
SPARE = 3  # one line in so many may be left out
STRAY = 5.0  # times what half the lines are off, as a standard deviation; at least
STRAYS = 0.01  # of the mean: a line that is so far off the others is one of those
TOO_WIDE = 0.02  # half the interval as a share: more is said, and doubted
CLOSE = 0.06  # of a line's length: without box or card, lines lie so near to it

# What puts a width off, and what helps.
UNSURE = {
    "spread": (
        "the lines differ",
        "Lay the line across more bands, or where they are cleaner.",
    ),
    "scale": ("the scale may be off", "Set the scale by marks farther apart."),
    "tilt": (
        "the tilt is not known well",
        "Set the scale where the line runs, or lay a bank card on the face.",
    ),
}


@dataclass(frozen=True)
class Width:
    """What several lines across a face say of its bands.

    Parameters
    ----------
    lines : tuple of Bands
        As they were counted, in the pixels of the given picture.
    trusted : tuple of Bands
        Those that the mean is of: one in three may be left out.
    mean : float
        Width of a band along them, mm; pixels without a scale.
    spread, scale, tilt : float
        What each may put it off by in 95 cases of 100, as shares of the mean.
    refused : str
        Why nothing can be said, in a sentence; empty if it can.
    scaled : bool
        Whether there is a scale.
    """

    lines: tuple[Bands, ...]
    trusted: tuple[Bands, ...] = ()
    mean: float = math.nan
    spread: float = math.nan
    scale: float = 0.0
    tilt: float = 0.0
    refused: str = ""
    scaled: bool = False

    @property
    def middle(self) -> Bands:
        """The line pointed at, or the trusted one beside it."""
        return min(self.trusted or self.lines, key=lambda line: abs(line.aside))

    @property
    def within(self) -> float:
        """Half of the interval, as the mean is."""
        return self.mean * math.hypot(self.spread, self.scale, self.tilt)

    @property
    def most(self) -> tuple[str, str]:
        """What makes the interval as wide as it is, and what helps."""
        return UNSURE[max(UNSURE, key=lambda part: getattr(self, part))]

    @property
    def doubt(self) -> str:
        """Why it is not to be trusted, in a sentence; empty if it is."""
        if self.refused or not self.within > TOO_WIDE * self.mean:
            return self.refused
        why, help_ = self.most
        return f"That is too unsure to build on: {why}. {help_}"

    def told(self, units: Units, angle: float | None = None) -> list[str]:
        """Say it in sentences: the count, the width, how sure, what makes it unsure.

        Parameters
        ----------
        units : Units
        angle : float, optional
            Between the face and the layers, degrees: then the layers' thickness, too.
        """
        told = [f"{counted(self.middle.count, 'band')} along the middle line."]
        if self.refused:
            return [*told * (not self.middle.doubt), self.refused]
        if left := len(self.lines) - len(self.trusted):
            told.append(f"{counted(left, 'line')} left out, for other bands than the rest.")
        if not self.scaled:
            told.append(f"A band is {self.mean:.1f} pixels wide: give a scale for lengths.")
            return [*told, self.doubt] if self.doubt else told
        why, _ = self.most
        mean, within = (format_length(part, units) for part in (self.mean, self.within))
        share = f"{100 * self.within / self.mean:.1f} %"
        told.append(
            f"A band is {mean} wide, within {share} ({within}) in 95 cases of 100, most "
            f"of it since {why} ({counted(len(self.trusted), 'line')}; Student's t)."
        )
        if angle is not None:
            true = format_length(true_spacing(self.mean, angle), units)
            told.append(f"Cut at {angle:g}°, a layer is {true} thick.")
        return [*told, self.doubt] if self.doubt else told


def band_width(
    photo: Photograph,
    start: Point,
    end: Point,
    *,
    scale: Scale | None = None,
    box: Box | None = None,
    lines: int = LINES,
) -> Width:
    """Measure how wide a band is between two places of the given picture.

    Parameters
    ----------
    photo : Photograph
    start, end : (column, row)
        Of the middle line.
    scale : Scale, optional
        Left out, the width is in pixels.
    box : (left, top, right, bottom), optional
        Around the steel: no line leaves it. Left out, or with a scale of two marks, all
        lie close to the one that was pointed at.
    lines : int
        How many, 2 … 30.

    Raises
    ------
    KitError
        If the line is shorter than 20 pixels, leaves the picture, or misses the box.
    """
    # two marks do not show a tilt: what lies away from the line is seen nearer or farther
    wide = box and (scale is None or scale.card)
    aside = math.inf if wide else CLOSE * math.dist(start, end)
    found = tuple(across(photo, start, end, lines, box, aside))
    good, refused = _trusted(found, scale)
    if refused:
        return Width(found, refused=refused)
    mean, within, _ = estimate(_widths(good, scale))
    width = Width(found, good, mean, within / mean, scaled=scale is not None)
    if scale is None:
        return replace(width, mean=mean / photo.kept)
    longer = max(photo.light.shape)
    off = scale.off(longer)
    width = replace(width, mean=mean * (1 + scale.lifted(longer)), scale=off)
    if not scale.card:
        first, *_, last = width.middle.places
        return replace(width, tilt=scale.tilted(tuple(first), tuple(last), longer))
    # what a pixel at a corner does here, beyond what it does to the size of the card
    moved = [float(np.mean(_widths(good, other))) / mean - 1 for other in scale.moved()]
    whole = SURE * math.sqrt(sum(one**2 for one in moved))
    return replace(width, tilt=math.sqrt(max(0.0, whole**2 - scale.clicked**2)))


def boxed(corner: Point, opposite: Point) -> Box:
    """Give the box between two opposite corners, in any order."""
    (left, right), (top, bottom) = map(sorted, zip(corner, opposite, strict=True))
    return left, top, right, bottom


def _fault(line: Bands, scale: Scale | None) -> str:
    """Say why one line cannot be trusted; empty if it can."""
    pairs = (len(line.edges) - 1) // 2
    if line.doubt:
        return line.doubt
    if pairs < LEAST_PAIRS:
        return (
            f"I cannot decide: a line meets {counted(pairs, 'whole pair')} of a dark and a "
            f"bright band, and it takes {LEAST_PAIRS}. Lay it across more bands."
        )
    if _odd(_along(line, scale)):
        return (
            "I cannot decide: most bands are even, and some stand out, as if one were "
            "lost or found twice. See where edges are drawn, and lay the line beside it."
        )
    return ""


def _trusted(lines: Sequence[Bands], scale: Scale | None) -> tuple[tuple[Bands, ...], str]:
    """Give the lines that can be trusted, or why nothing can be said."""
    faults = [_fault(line, scale) for line in lines]
    spare = len(lines) // SPARE  # that may meet a scratch or a spot
    good = tuple(line for line, fault in zip(lines, faults, strict=True) if not fault)
    spare -= len(lines) - len(good)
    if spare < 0:
        return (), next(filter(None, faults))
    if len(good) < 2:
        return (), "I cannot decide: there is room for one line only. Draw a larger box."
    widths = np.array(_widths(good, scale))
    aside = np.abs(widths - np.median(widths))
    # the median of what they are off, as a standard deviation: Rousseeuw & Croux, as in
    # stripes.py
    far = aside > max(STRAY * float(np.median(aside)) / 0.6745, STRAYS * widths.mean())
    if 0 < far.sum() <= spare:
        good = tuple(line for line, out in zip(good, far, strict=True) if not out)
        widths = widths[~far]
    if np.ptp(widths) > UNLIKE * widths.mean():
        unit = " mm" if scale else " pixels"
        return (), (
            "I cannot decide: the lines disagree, they find bands from "
            f"{min(widths):.3g} to {max(widths):.3g}{unit}. Draw the box around clean "
            "steel."
        )
    return good, ""


def _along(line: Bands, scale: Scale | None) -> np.ndarray:
    """Give how far along a line its edges are: mm, pixels without a scale."""
    if scale is None:
        return line.edges
    places = scale.ground(line.places)
    return np.hypot(*(places - places[0]).T)


def _widths(lines: Sequence[Bands], scale: Scale | None) -> list[float]:
    return [mean_width(_along(line, scale)) for line in lines]


def _odd(edges: np.ndarray) -> bool:
    """Say whether a pair of bands stands out where the others are even."""
    pairs = edges[2:] - edges[:-2]
    usual = float(np.median(pairs))
    if np.median(np.abs(pairs / usual - 1)) > EVEN:
        return False
    return bool(np.max(pairs) > ODD * usual or np.min(pairs) < usual / ODD)

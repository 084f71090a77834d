"""What an eye can resolve: how fine a line, from how far; and a picture seen from afar.

A good eye in good light resolves one minute of arc, the sixtieth of a degree. That is
20/20: the strokes of the letters on a sight chart (National Research Council, Emergent
Techniques for Assessment of Visual Performance, 1985). Many see worse and some better:
measure yours with the printed chart, `python -m kit paper eye-chart`.

Seen from afar, the eye is taken as a lens that is a little out of focus: every point
becomes a round Gaussian spot. Its width follows from the finest lines the eye resolves.
Black and white bars of just that width must come out as even as makes no difference: as a
ripple of 1 % of their mean, which is about the least that any eye finds in any stripes
(the best is a little below 1 %: Campbell & Robson 1968, from memory). So whoever looks at
the blurred picture from near by misses in it just what an eye that far away misses on the
steel. Bars of width w are a wave of length 2w whose strength is 4/π of theirs, and finer
waves that vanish sooner. A Gaussian of width s leaves exp(-2(πs/2w)²) of it. So

    4/π exp(-2(πs/2w)²) = 1 %        s = w/π √(2 ln(4/(π 1 %))) = 0.99 w.

Leaves out: how crisp a real eye sees bands well above its limit, dim light, glare,
glasses, the colours' own limits.
"""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from kit.basics.claim import Claim, Kind
from kit.basics.declare import Declared, quantity
from kit.basics.errors import KitError

ONE_MINUTE = Claim(
    says="A good eye in good light resolves one minute of arc.",
    kind=Kind.PUBLISHED,
    source="National Research Council, Emergent Techniques for Assessment of Visual "
    "Performance, 1985: 20/20 is one minute of arc",
    seen=True,
    unit="mm, at 300 mm",
    within="a good eye in good light; measure yours with the printed chart",
    holds=("EYE_300",),
    told=(
        "an? (good )?eye (can )?resolves?",
        "one (minute of arc|arc-minute)",
        "finer than (an|the|a good) eye",
        "too fine (to see|for a good eye)",
        "Many of us see worse",
        "eye still tells",
        "the eye resolves six times",
        "1 is a good eye",
    ),
)
SAME_TO_THE_EYE = Claim(
    says="What leaves a ripple of one per cent of the mean is even to any eye: "
    "finer lines are an even grey.",
    kind=Kind.MEMORY,
    source="Campbell & Robson, Journal of Physiology 197 (1968) 551",
    unit="part of the mean; so wide a Gaussian, in widths of a line",
    holds=("RIPPLE", "SPREAD"),
    told=("[Ee]ye averages", "even grey", "all one grey"),
)
COUNTED_AS_SEEN = Claim(
    says="Less contrast than 1.5 we do not count as seen.",
    kind=Kind.OURS,
    unit="ratio of brightness, as WCAG 2.1 has it",
    holds=("LEAST_CONTRAST",),
    told=("contrast of 1.5",),
)
LEAST_CONTRAST = 1.5


class Eye(Declared):
    """One reader's eye.

    Examples
    --------
    >>> round(EYE.finest(500), 3)
    0.145
    """

    arc_minutes: float = quantity(
        "Finest angle",
        "that the eye can resolve, in minutes of arc; 1 is a good eye",
        low=0.3,
        high=10,
        unit="minutes of arc",
        default=1,
    )

    def finest(self, distance: float) -> float:
        """Give the smallest width that can be resolved from a distance; both in mm."""
        _check(distance=distance)
        return distance * self._slope

    def farthest(self, width: float) -> float:
        """Give the greatest distance from which a width can be resolved; both in mm."""
        _check(width=width)
        return width / self._slope

    def sees(self, width: float, distance: float, contrast: float) -> bool:
        """Tell whether lines can be seen: wide enough, and different enough in tone.

        Parameters
        ----------
        width, distance : float
            Of a line and from the eye, mm.
        contrast : float
            `kit.metal.colour.contrast_ratio` of the tones, 1 … 21. Less than 1.5
            does not count: our choice, no source.
        """
        if not 1 <= contrast <= 21:
            msg = f"A contrast ratio must be from 1 to 21. Given: {contrast:g}."
            raise KitError(msg)
        _check(width=width)
        return bool(width >= self.finest(distance) and contrast >= LEAST_CONTRAST)

    @property
    def _slope(self) -> float:
        return math.tan(math.radians(self.arc_minutes / 60))


def _check(**lengths: float) -> None:
    for name, length in lengths.items():
        if not 0 < length < math.inf:
            msg = f"The {name} must be more than 0 mm. Given: {length:g} mm."
            raise KitError(msg)


EYE = Eye()
EYE_300 = EYE.finest(300)


RIPPLE = 0.01  # what is left of black and white bars at the limit
SPREAD = math.sqrt(2 * math.log(4 / (math.pi * RIPPLE))) / math.pi  # of a line's width

# How finely it is reckoned; ours.
_REACH = 5  # widths of the Gaussian; what lies outside is less than one part in a million
_BLOCK = 64  # rows that are worked at a time


def seen_from(
    linear: np.ndarray, distance: float, pixel: float, eye: Eye = EYE
) -> np.ndarray:
    """Blur a picture to what an eye can resolve from a distance.

    Parameters
    ----------
    linear : array, shape (rows, columns) or (rows, columns, 3)
        Linear light. Never screen levels: their mean is not what an eye sees.
    distance : float
        From the eye to the steel, mm.
    pixel : float
        What one pixel covers on the steel, mm.

    Returns
    -------
    array
        Of the same shape, float32 if it was that, else float64. The mean is kept.
        Beyond its edges the picture is taken to go on as in a mirror, so a stripe that
        ends there counts double: give it the steel on its paper, with some margin.

    Examples
    --------
    >>> bars = np.repeat([[0.0, 1.0] * 20], 40, axis=0)  # of 0.5 mm
    >>> seen_from(bars, distance=3000, pixel=0.5)[20, 18:22]
    array([0.5, 0.5, 0.5, 0.5])
    """
    if not 0 < pixel < math.inf:
        msg = f"A pixel must cover more than 0 mm. Given: {pixel:g} mm."
        raise KitError(msg)
    return blurred(linear, SPREAD * eye.finest(distance) / pixel)


def blurred(linear: np.ndarray, width: float) -> np.ndarray:
    """Blur a picture by a Gaussian of a standard deviation `width`, in pixels."""
    picture = np.asarray(linear)
    if picture.dtype != np.float32:
        picture = picture.astype(np.float64)
    if picture.ndim == 3:
        return np.stack([blurred(part, width) for part in np.moveaxis(picture, 2, 0)], 2)
    upright = _down(picture, width)
    return np.ascontiguousarray(_down(upright.T, width).T)


def _down(picture: np.ndarray, width: float) -> np.ndarray:
    """Blur along the first axis, some rows at a time: each takes only what it reaches."""
    rows = len(picture)
    weights = _weights(rows, float(width), picture.dtype.str)
    reach = math.ceil(_REACH * width)
    out = np.empty_like(picture)
    for first in range(0, rows, _BLOCK):
        last = min(first + _BLOCK, rows)
        near = slice(max(0, first - reach), min(rows, last + reach))
        np.matmul(weights[first:last, near], picture[near], out=out[first:last])
    return out


@lru_cache(maxsize=2)
def _weights(count: int, width: float, dtype: str) -> np.ndarray:
    """Say how much each of `count` pixels in a row gets from each other.

    The row and its mirror image make a ring, round which the Gaussian is wound. Every
    pixel gets 1 in all and gives 1 in all, so the mean stays.
    """
    reach = math.ceil(_REACH * width)
    away = np.arange(-reach, reach + 1)
    bell = np.exp(-((away / width) ** 2) / 2) if width else np.ones(1)
    ring = np.bincount(away % (2 * count), bell / bell.sum(), 2 * count)
    # each row begins one place further round the ring, and once more in the mirror
    rows = np.lib.stride_tricks.sliding_window_view(np.tile(ring, 2), count)
    weights = rows[count + 1 : 2 * count + 1, ::-1] + rows[1 : count + 1]
    weights = weights.astype(dtype)
    weights.setflags(write=False)
    return weights

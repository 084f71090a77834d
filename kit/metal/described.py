"""A face in words, from the face that is drawn: plain, bands and how they run, chevrons.

Nothing is known here of how the bar was made: only tones are measured, so that words
cannot disagree with the picture. Directions are those of the structure tensor: Bigun and
Granlund, "Optimal orientation detection of linear symmetry", ICCV 1987.
"""

import math
from typing import NamedTuple

import numpy as np

from kit.section.half import apart
from kit.section.trace import Face

# The limits are ours, tried on drawn stripes, chevrons, rings, plain steel and noise.
LEAST_CONTRAST = 0.03  # of full light, from dark to bright: less is one tone
STRAIGHT = 0.85  # how alike directions are, 0 … 1: straight lines
ALL_WAYS = 0.3  # less: no direction is met more often than others
SIDED = 0.15  # how much each half of chevrons slants, 0 … 1
LEAST = 12  # pixels of steel: less has no lines to look at
TILE = 12  # pixels: within so many a line hardly bends
LOCAL = 0.5  # how alike directions are in a tile, if there are lines in it
LEVEL = 4.0  # degrees: nearer is along, or straight up
FINEST = 2.9  # pixels, from a band to the next: finer ones run together, uncounted
CLEAR = 0.25  # of the contrast: a band is so far beyond the middle tone

Half = tuple[slice, slice]


class Described(NamedTuple):
    """What a face shows.

    Attributes
    ----------
    kind : str
        "plain", "lines", "bent", "chevrons", "rings" or "speckled".
    degrees : float
        How lines run: 0 from left to right, 90 up, more than 0 rising to the right; of
        chevrons how much both their sides slant.
    bands : int
        Dark and bright ones on a line square to them through the middle; 0 if plain, or
        too fine to be counted.
    apart : float
        From a band to the next along that line, mm; 0 if there are none.
    """

    kind: str
    degrees: float = 0.0
    bands: int = 0
    apart: float = 0.0

    def __str__(self) -> str:
        """Write it to finish the sentence "It shows …"."""
        slant = f"{abs(self.degrees):.0f} degrees"
        fine = "bands" if self.bands else "fine bands"
        count = "dark and bright bands" if self.bands > 1 else fine
        if self.bands > 1 and not LEVEL < abs(self.degrees) < 90 - LEVEL:
            count = f"{self.bands} {count}"  # slanting, the line does not meet them all
        return {
            "plain": "one even tone, without bands",
            "lines": f"{count} running {_way(self.degrees)}",
            "bent": f"bent lines, on the whole running {_way(self.degrees)}",
            "chevrons": f"chevrons: lines slanting {slant} that meet on a seam",
            "rings": "rings and swirls",
            "speckled": "specks, without lines",
        }[self.kind]


def described(tone: np.ndarray, cover: np.ndarray, pixel: float) -> Described:
    """Say what a face shows.

    Parameters
    ----------
    tone, cover : array (rows, columns), 0 … 1
        As of `kit.section.trace.Face`.
    pixel : float
        Width of a pixel, mm.
    """
    steel = np.broadcast_to(cover, tone.shape) > 0.99
    rows, columns = (np.flatnonzero(steel.any(axis)) for axis in (1, 0))
    if min(len(rows), len(columns)) < LEAST:
        return Described("plain")
    box = slice(rows[0], rows[-1] + 1), slice(columns[0], columns[-1] + 1)
    tone, steel = tone[box].astype(np.float32), steel[box]
    low, high = _ends(tone[steel][::7])
    if high - low < LEAST_CONTRAST:
        return Described("plain")
    turned, strength = _turns(tone, steel)
    kind, degrees = _kind(turned, strength)
    bands, apart = 0, 0.0
    if kind in ("lines", "bent"):
        bands, apart = _counted(tone, steel, degrees, (low, high), pixel)
    return Described(kind, degrees, bands, apart)


def counts(layers: int, bands: int) -> str:
    """Write how many layers and bands a bar has: never "1 bands"."""
    return " and ".join(
        f"one {name}" if many == 1 else f"{many:,} {name}s"
        for many, name in ((layers, "layer"), (bands, "band"))
    )


def of(face: Face, pixel: float) -> Described:
    """Say what a traced face shows; `pixel` is the width of a pixel, mm.

    While a picture moves, by the pixels that were seen.
    """
    step = apart(*face.tone.shape)
    tone, cover = (part[::step, ::step] for part in (face.tone, face.cover))
    return described(tone, cover, step * pixel)


def _ends(tones: np.ndarray) -> tuple[float, float]:
    """Give the dark and the bright end, the first and last hundredth left out.

    As `np.percentile` has it, straight between two; that takes twice as long.
    """
    place = (len(tones) - 1) * np.array((0.01, 0.99))
    below = place.astype(int)
    sorted_there = np.partition(tones, (*below, *(below + 1)))
    low, high = sorted_there[below], sorted_there[below + 1]
    return tuple((low + (high - low) * (place - below)).tolist())


def _turns(tone: np.ndarray, steel: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Give, for each pixel, twice the direction of its gradient, times its strength."""
    smooth, inside = tone, steel
    for _ in range(4):  # a sharp edge on square pixels has steps; blurred it has none
        smooth = smooth[:-1] + smooth[1:]
        smooth = smooth[:, :-1] + smooth[:, 1:]
    smooth /= 4**4  # of so many pixels each
    for _ in range(3):  # beside nothing there is no edge of a band
        inside = inside[:-2] & inside[1:-1] & inside[2:]
        inside = inside[:, :-2] & inside[:, 1:-1] & inside[:, 2:]
    down = (smooth[2:, 1:-1] - smooth[:-2, 1:-1]) * inside
    right = (smooth[1:-1, 2:] - smooth[1:-1, :-2]) * inside
    turned = np.empty(down.shape, np.complex64)
    across, along = right * right, down * down
    turned.real, turned.imag = across - along, -2 * right * down
    return turned, across + along


def _alike(turned: np.ndarray, strength: np.ndarray) -> complex:
    """Sum directions up: the size says how alike they are, 0 … 1."""
    total = float(strength.sum())
    return complex(turned.sum()) / total if total > 0 else 0j


def _kind(turned: np.ndarray, strength: np.ndarray) -> tuple[str, float]:
    whole = _alike(turned, strength)
    degrees = way_of(whole)
    if abs(whole) >= STRAIGHT:
        return "lines", degrees
    if slant := _mirrored(turned, strength):
        return "chevrons", slant
    if _in_tiles(turned, strength) < LOCAL:
        return "speckled", degrees
    return ("rings" if abs(whole) < ALL_WAYS else "bent"), degrees


def way_of(turned: complex) -> float:
    """Give the direction of lines whose gradients point so, -90 … 90 degrees."""
    across = math.degrees(math.atan2(turned.imag, turned.real)) / 2
    return across - 90 if across > 0 else across + 90


def _mirrored(turned: np.ndarray, strength: np.ndarray) -> float:
    """Give the slant of lines that are mirrored at the middle, or 0."""
    rows, columns = (length // 2 for length in turned.shape)
    every = slice(None)
    halves: tuple[tuple[Half, Half], ...] = (
        ((slice(rows), every), (slice(rows, None), every)),
        ((every, slice(columns)), (every, slice(columns, None))),
    )
    for pair in halves:
        one, other = (_alike(turned[half], strength[half]) for half in pair)
        sides = way_of(one), way_of(other)
        slants = min(abs(one.imag), abs(other.imag)) > SIDED
        if slants and sides[0] * sides[1] < 0 and abs(sum(sides)) < 2 * LEVEL:
            return (abs(sides[0]) + abs(sides[1])) / 2
    return 0.0


def _in_tiles(turned: np.ndarray, strength: np.ndarray) -> float:
    """Say how alike directions are within tiles, weighed by how much they show."""
    rows, columns = (np.arange(0, length, TILE) for length in turned.shape)
    total = np.add.reduceat(np.add.reduceat(turned, rows, 0), columns, 1)
    return float(np.abs(total).sum() / max(strength.sum(), 1e-30))


def _counted(
    tone: np.ndarray,
    steel: np.ndarray,
    degrees: float,
    ends: tuple[float, float],
    pixel: float,
) -> tuple[int, float]:
    """Count bands on a line through the middle, square to them; and how far apart."""
    rows, columns = tone.shape
    reach = np.arange(-math.hypot(rows, columns) / 2, math.hypot(rows, columns) / 2, 0.5)
    across = math.radians(degrees + 90)
    row = np.rint((rows - 1) / 2 - reach * math.sin(across)).astype(int)
    column = np.rint((columns - 1) / 2 + reach * math.cos(across)).astype(int)
    there = (row >= 0) & (row < rows) & (column >= 0) & (column < columns)
    row, column = row[there], column[there]
    line = tone[row, column][steel[row, column]]
    middle, clear = sum(ends) / 2, CLEAR * (ends[1] - ends[0])
    sides = np.sign(line - middle)[np.abs(line - middle) > clear]
    bands = int(np.count_nonzero(np.diff(sides))) + 1 if len(sides) else 0
    if len(line) / 2 < FINEST * bands or not bands:
        return 0, 0.0
    return bands, len(line) / 2 * pixel / bands


def _way(degrees: float) -> str:
    """Write a direction."""
    if abs(degrees) <= LEVEL:
        return "from left to right"
    if abs(degrees) >= 90 - LEVEL:
        return "up and down"
    return f"{abs(degrees):.0f} degrees up to the {'right' if degrees > 0 else 'left'}"

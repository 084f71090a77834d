"""Count bands along lines drawn across a face.

An edge is where the line of light is halfway from dark to bright, whatever the lamp does.
Of several lines side by side none leaves a box around the steel.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from kit.basics.errors import KitError
from kit.metal.colour import from_srgb
from kit.section.picture import to_srgb
from kit.shop.photograph import Photograph, Point, strip

# What counts as a band; ours, tried on drawn stripes.
HYSTERESIS = 0.15  # of the way to dark or bright: less than this up and down is no band
FOR_SURE = 0.35  # the same, before the width of the bands is known
SMOOTH = 0.12  # of a pair of bands is averaged against grain
MOST_SMOOTH = 13  # places; more would blur the edges of few bands
LEAST_HALF = 0.25  # of the usual from halfway to dark or bright: less is no contrast
WIDEST = 1.3  # usual pairs of bands: within so much there is a dark and a bright one


def _levelled(light: np.ndarray) -> np.ndarray:
    """Take out uneven light: -1 where it is dark, 1 where bright.

    An edge is halfway between the dark and the bright beside it, however wide they are:
    not at the mean of the light, which lies nearer to the wider band.
    """
    # a lamp that doubles the light moves the dark as far as the bright, or nearly
    profile = np.sqrt(np.maximum(light, 0))
    period = _period(profile)
    smooth = min(round(SMOOTH * period), MOST_SMOOTH) | 1
    aside, half = _sides(_running_mean(profile, smooth), period)
    return aside / np.maximum(half, 1e-12)


def _sides(profile: np.ndarray, period: float) -> tuple[np.ndarray, np.ndarray]:
    """Give how far the light is from halfway between dark and bright, and that half."""
    window = min(max(3, round(WIDEST * period)), profile.size)
    bright, dark = _filled(profile, window), -_filled(-profile, window)
    half = (bright - dark) / 2
    # within a very wide band there is no other: there goes what holds beside it
    places, clear = np.arange(profile.size), half >= LEAST_HALF * half.max()
    middle, half = (
        np.interp(places, places[clear], part[clear])
        for part in ((bright + dark) / 2, half)
    )
    return profile - middle, half


def _filled(values: np.ndarray, window: int) -> np.ndarray:
    """Fill up all valleys that are narrower than a window; the rest stays as it is.

    The lowest of the maxima of all windows that hold a place and lie within the line
    (closing: Serra, Image Analysis and Mathematical Morphology, 1982).
    """
    beyond = np.full(window - 1, np.inf)
    tops = np.concatenate([beyond, _highest(values, window), beyond])
    return -_highest(-tops, window)


def _highest(values: np.ndarray, window: int) -> np.ndarray:
    """Give the maximum of every window, as fast for wide ones as for narrow ones.

    From maxima that run from both ends of blocks as long as the window (van Herk, Pattern
    Recognition Letters 13 (1992) 517).
    """
    size = values.size
    blocks = np.full((-(-size // window), window), -np.inf)
    blocks.flat[:size] = values
    ahead = np.maximum.accumulate(blocks, axis=1).ravel()
    back = np.maximum.accumulate(blocks[:, ::-1], axis=1)[:, ::-1].ravel()
    return np.maximum(back[: size - window + 1], ahead[window - 1 : size])


def _period(profile: np.ndarray) -> float:
    """Find the usual distance from bright band to bright band, in places.

    From how often the light goes from dark to bright: tried with wide and narrow windows
    until the window fits what it finds.
    """
    period = len(profile) / 2
    for _ in range(12):
        aside, half = _sides(profile, period)
        count = len(_crossings(aside, FOR_SURE * float(half.max())))
        found = 2 * len(profile) / max(count, 1)
        if found > 0.8 * period:
            break
        period = max(found, 3.0)
    return min(period, len(profile) / 2)


def _running_mean(values: np.ndarray, window: int) -> np.ndarray:
    """Mean over a window; towards the ends over what there is of it."""
    half = window // 2
    sums = np.concatenate([[0.0], np.cumsum(values, dtype=float)])
    first = np.maximum(np.arange(values.size) - half, 0)
    last = np.minimum(np.arange(values.size) + half + 1, values.size)
    return (sums[last] - sums[first]) / (last - first)


def _crossings(level: np.ndarray, reach: float) -> np.ndarray:
    """Find where the level changes sides for good: beyond `reach` on the other side."""
    sure = np.where(level > reach, 1, np.where(level < -reach, -1, 0))
    places = np.flatnonzero(sure)
    if places.size < 2:
        return np.empty(0)
    sides = sure[places]
    turns = np.flatnonzero(sides[1:] != sides[:-1])
    # from the last place that is sure, the next where it passes the middle that way
    ways = (_falls(level * way, places[turns]) for way in (1, -1))
    step = np.where(sides[turns] > 0, *ways)
    return step + level[step] / (level[step] - level[step + 1])


def _falls(level: np.ndarray, first: np.ndarray) -> np.ndarray:
    """Give for each place the next from which the level falls to 0 or below it."""
    falls = np.flatnonzero((level[:-1] > 0) & (level[1:] <= 0))
    falls = np.append(falls, level.size)  # none: nobody asks
    return falls[np.searchsorted(falls, first)]


# How finely it is looked at; ours.
FINE = 0.5  # pixels between the places on a line
LEAST_BAND = 3.0  # pixels: narrower, dark and bright run into each other
LEAST_SWING = 5.0  # times the noise: below, grain makes bands of its own
LEAST_LINE = 20  # pixels
# Linear light: within a shade of the end of what greys there are.
WHITE, BLACK = 0.985, 1e-4
BLOWN = 1.0  # usual pairs of bands: so far without any shade, bands may be hidden


@dataclass(frozen=True)
class Bands:
    """What a line across a face met.

    Parameters
    ----------
    start, end : (column, row)
        Of the line, pixels.
    edges : array
        Where one band gives way to the next, pixels along the line.
    swing : float
        From dark to bright, linear light, once the uneven light is taken out.
    noise : float
        Grain of the picture, linear light; at least one of the 255 shades it can have.
    blown : float
        The longest stretch without any shade, white or black, pixels.
    aside : float
        Pixels beside the line that was pointed at.
    """

    start: Point
    end: Point
    edges: np.ndarray
    swing: float
    noise: float
    blown: float
    aside: float = 0.0

    @property
    def length(self) -> float:
        """Of the line, pixels."""
        return math.dist(self.start, self.end)

    @property
    def places(self) -> np.ndarray:
        """Column and row of every edge."""
        start, end = np.array(self.start), np.array(self.end)
        return start + self.edges[:, None] / self.length * (end - start)

    @property
    def count(self) -> int:
        """Bands met, those at the ends counted in."""
        return len(self.edges) + 1 if len(self.edges) else 0

    @property
    def width(self) -> float:
        """Mean width of a band along the line, pixels; nan without a whole pair.

        A dark and a bright band may be of unequal width: only pairs of them are measured.
        """
        return mean_width(self.edges)

    @property
    def doubt(self) -> str:
        """Why the count cannot be trusted, in a sentence; empty if it can."""
        if self.swing < LEAST_SWING * self.noise:
            return (
                "I cannot decide: dark and bright differ no more than the grain of the "
                "picture, or a shade of grey. Etch deeper, or photograph in softer light."
            )
        if not math.isnan(self.width) and self.width < LEAST_BAND:
            return (
                f"I cannot decide: a band is about {self.width:.1f} pixels wide, and it "
                f"takes {LEAST_BAND:g}. Photograph from nearer."
            )
        if math.isnan(self.width):
            return "I cannot decide: the line crosses no dark and bright band as a whole."
        if self.blown > BLOWN * 2 * self.width:
            return (
                "I cannot decide: a part of the line is blown out, white or black without "
                "any shade. Photograph in softer light, or lay the line beside it."
            )
        return ""


def mean_width(edges: np.ndarray) -> float:
    """Mean width of a band from whole pairs of a dark and a bright one; nan without one."""
    inner = len(edges) - 1
    if inner < 2:
        return math.nan
    whole = inner - inner % 2  # as many dark bands as bright ones
    return float(np.mean(edges[whole:] - edges[: inner + 1 - whole])) / whole


def along(photo: Photograph, start: Point, end: Point) -> Bands:
    """Count the bands along a line between two places (column, row).

    Nine lines side by side are averaged against grain; an edge counts where the light
    passes halfway between the dark and the bright beside it, and goes on by a seventh of
    the way. Bands cut off by an end of the line to less than 3 pixels may be missed, and
    a lamp that changes within a band or two is taken for bands.

    Raises
    ------
    KitError
        If the line is shorter than 20 pixels, or leaves the picture.
    """
    rows, columns = photo.light.shape
    inside = all(-1 <= x <= columns and -1 <= y <= rows for x, y in (start, end))
    if math.dist(start, end) < LEAST_LINE or not inside:
        msg = (
            f"A line to count along must be at least {LEAST_LINE} pixels long and lie in "
            f"the picture of {columns} × {rows}. Given: {_shown(start)} to {_shown(end)}."
        )
        raise KitError(msg)
    lines = strip(photo, start, end, FINE)
    profile = lines.mean(axis=0)
    noise = max(_grain(lines), _shade(float(profile.mean())))
    level = _levelled(profile)
    edges = _crossings(level, HYSTERESIS) * FINE
    swing = _mean(profile[level > 0]) - _mean(profile[level < 0])
    return Bands(start, end, edges, swing, noise, FINE * _longest(profile))


def _longest(profile: np.ndarray) -> int:
    """Give the longest run of places that are white or black without any shade."""
    flat = np.flatnonzero(np.diff(np.pad((profile >= WHITE) | (profile <= BLACK), 1)))
    return int(np.max(flat[1::2] - flat[::2], initial=0))


def _shown(point: Point) -> str:
    return f"({point[0]:.0f}, {point[1]:.0f})"


def _grain(lines: np.ndarray) -> float:
    """Grain left in the mean of lines side by side: what neighbours do not share.

    The median of absolute differences over 0.6745 is the standard deviation of normal
    noise (Rousseeuw & Croux, J. Am. Stat. Assoc. 88 (1993) 1273).
    """
    bent = lines[:-2] - 2 * lines[1:-1] + lines[2:]  # straight edges fall out
    single = float(np.median(np.abs(bent))) / 0.6745 / math.sqrt(6)
    return single / math.sqrt(len(lines))


def _mean(values: np.ndarray) -> float:
    return float(values.mean()) if values.size else 0.0


def _shade(light: float) -> float:
    """Give how far two neighbouring greys of a picture are apart, linear light."""
    grey = min(int(to_srgb(np.array(light))), 254)
    darker, brighter = from_srgb(np.array([grey, grey + 1]))
    return float(brighter - darker)


Box = tuple[float, float, float, float]
SPREAD = 0.75  # of the room to either side; ours


def across(
    photo: Photograph,
    start: Point,
    end: Point,
    lines: int,
    box: Box | None = None,
    aside: float = math.inf,
) -> list[Bands]:
    """Count along several lines, side by side.

    Parameters
    ----------
    photo : Photograph
    start, end : (column, row)
        The middle line.
    lines : int
        How many, 2 … 30; spread over three quarters of what lies beside the line.
    box : (left, top, right, bottom), optional
        No line leaves it; left out, the whole picture.
    aside : float
        Pixels to either side, at most.

    Raises
    ------
    KitError
        If the line has no length, or is too short inside the box.
    """
    rows, columns = photo.light.shape
    if math.dist(start, end) < 1:
        msg = "A line needs two different ends."
        raise KitError(msg)
    walls = (0, 0, columns - 1, rows - 1)
    if box:
        walls = (*np.maximum(box[:2], 0), *np.minimum(box[2:], walls[2:]))
        start, end = _clipped(start, end, walls) or (start, start)
        if math.dist(start, end) < LEAST_LINE:
            msg = (
                f"A line must run at least {LEAST_LINE} pixels inside the box around the "
                f"steel. Given: {math.dist(start, end):.0f} pixels of it."
            )
            raise KitError(msg)
    length = math.dist(start, end)
    side = (-(end[1] - start[1]) / length, (end[0] - start[0]) / length)
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    reach = [
        sign * min(SPREAD * _room(middle, (sign * side[0], sign * side[1]), walls), aside)
        for sign in (-1, 1)
    ]
    found = []
    asides = np.linspace(*reach, lines)
    asides[np.argmin(np.abs(asides))] = 0.0  # the line itself is always one of them
    for far in asides:
        moved = [(x + far * side[0], y + far * side[1]) for x, y in (start, end)]
        inside = _clipped(*moved, walls) if far else (start, end)
        if inside and math.dist(*inside) >= LEAST_LINE:
            found.append(replace(along(photo, *inside), aside=float(far)))
    return found


def _clipped(start: Point, end: Point, box: Box) -> tuple[Point, Point] | None:
    """Give the part of a line that lies in a box (Liang & Barsky, 1984)."""
    first, last = 0.0, 1.0
    for axis in (0, 1):
        step = end[axis] - start[axis]
        for sign, wall in ((-1, box[axis]), (1, box[axis + 2])):
            speed, room = sign * step, sign * (wall - start[axis])
            if speed > 0:
                last = min(last, room / speed)
            elif speed < 0:
                first = max(first, room / speed)
            elif room < 0:
                return None
    if first >= last:
        return None
    run = (end[0] - start[0], end[1] - start[1])
    one, other = (
        (start[0] + share * run[0], start[1] + share * run[1]) for share in (first, last)
    )
    return one, other


def _room(place: Point, step: Point, walls: Box) -> float:
    """Say how far a place inside some walls can move that way before it meets one."""
    rooms = [
        (walls[axis + 2 * (step[axis] > 0)] - place[axis]) / step[axis]
        for axis in (0, 1)
        if abs(step[axis]) > 1e-9
    ]
    return max(0.0, min(rooms))

"""Open welds: the black hairlines they show, and how often they are met.

An open weld is a thin layer of nothing in the bar as it was just after that weld; all
later steps carry it along as they carry every layer. So the engine draws it.
"""

from collections.abc import Iterable

import numpy as np

from kit.forge.billet import Billet
from kit.forge.flaw import SLACK, Flaw, inside_patch, since
from kit.forge.steps import Points
from kit.section.trace import BAND_PIXELS, Face, Surface, by_bands, see, share_inside

GAP = {"steel": 0.0, "gap": 1.0}  # tones that show only what is open
SAMPLES = 64  # along a line, for each time the bar lies on itself

Place = tuple[float, float, float]


def hair_lines(billet: Billet, surface: Surface, flaws: Iterable[Flaw]) -> np.ndarray:
    """Say how much of each pixel is the black line of an open weld, 0 … 1.

    Parameters
    ----------
    billet : Billet
    surface : Plane, Block or Blade
        As for `see`.
    flaws : several Flaw

    Raises
    ------
    KitError
        A flaw in a step that is no weld, or a patch that is not in the bar.
    """
    sound = np.ones((surface.rows, surface.columns), np.float32)
    for flaw in flaws:
        sound *= 1 - _line(billet, surface, flaw)
    return 1 - sound


def _line(billet: Billet, surface: Surface, flaw: Flaw) -> np.ndarray:
    later = since(billet, flaw)

    def over(points: Points) -> np.ndarray:
        along, across = inside_patch(later, flaw, later.undo(points))
        return share_inside(along) * share_inside(across)

    return np.clip(see(later, surface, GAP).tone, 0, 1) * by_bands(surface, over)


def darkened(face: Face, lines: np.ndarray) -> Face:
    """Draw hairlines black into a face that `see` gave: no light comes out of a gap."""
    return face._replace(light=(face.light * (1 - lines)).astype(face.tone.dtype))


def crossings(billet: Billet, flaw: Flaw, start: Place, end: Place) -> list[float]:
    """Follow a straight line through the bar; give where it meets the flaw, mm from start.

    The line is looked at in at least 4096 places; two crossings between neighbouring
    places are missed.
    """
    later = since(billet, flaw)
    thickness = later.source.thickness
    count = max(4096, SAMPLES * later.layers) + 1
    length = float(np.linalg.norm(np.subtract(end, start)))
    met: list[float] = []
    for first in range(0, count - 1, BAND_PIXELS):
        share = np.arange(first, min(first + BAND_PIXELS + 1, count)) / (count - 1)
        line = tuple(a + (b - a) * share for a, b in zip(start, end, strict=True))
        before = later.undo(line)
        off = before[2] - later.source.height
        above = off > 0
        near = np.abs(np.diff(off)) < thickness / 2  # else a jump to the next piece
        patch = np.minimum(*inside_patch(later, flaw, before)) >= 0
        here = patch & _in_bar(later, line)
        at = np.flatnonzero((above[1:] != above[:-1]) & near & here[1:] & here[:-1])
        exact = at + off[at] / (off[at] - off[at + 1])
        met += [float(place) for place in (first + exact) / (count - 1) * length]
    return met


def times(billet: Billet, flaw: Flaw) -> int:
    """Count how often the flaw is met straight through the bar, where its middle lies.

    A weld open along its whole length is doubled by each later fold. A short patch is
    not: it stays in the one leaf it lies in, unless a fold or a cut goes through it.
    """
    later = since(billet, flaw)
    middle = tuple(np.array([part]) for part in (flaw.x, flaw.y, later.source.height))
    x, y, _ = (float(part[0]) for part in later.do(middle))
    half = later.size.thickness / 2
    return len(crossings(billet, flaw, (x, y, -half), (x, y, half)))


def _in_bar(later: Billet, points: Points) -> np.ndarray:
    middle, half = later.size.length / 2, later.size.width / 2
    along = np.abs(points[0] - middle) <= middle + SLACK
    return along & (np.abs(points[1]) <= half + SLACK)

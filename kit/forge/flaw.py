"""A weld that did not take: where it was, and the bar with nothing but that gap in it."""

from __future__ import annotations

import numpy as np

from kit.basics.declare import Declared, quantity
from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.stack import Source, Stack
from kit.forge.steps import Pieces, Points, Tally

MOST_NAMED = 12  # steps that one sentence can list
SLACK = 1e-6  # mm, for roundings
FAR = 1e6  # mm: no end
NEAR = 1e-5  # mm, for slopes
SPOTS = 8  # along and across a patch


class Flaw(Declared):
    """A patch that stayed open in one weld, as it lay just after that weld.

    Numbers are mm in the bar as it was at that moment. The opening is the gap in the
    finished bar, square to the weld and typical of the patch; like a layer it looks
    wider on a slanting cut. No measured opening was found: illustrative.

    Leaves out: that a gap may close, spread or blister under later blows; scale in it.

    Examples
    --------
    >>> Flaw(interface=4, x=75, y=0, long=30, wide=10).opening
    0.05
    """

    step: int = quantity(
        "Step", "the fold, or cut and stack, that failed; 0 is the first stack",
        low=0, high=200, default=0,
    )  # fmt: skip
    interface: int = quantity(
        "Interface", "which of its welds, 1 the lowest", low=1, high=999, default=1
    )
    x: float = quantity("Place along", "middle of the patch", low=0, high=1e5, unit="mm")
    y: float = quantity(
        "Place across", "from the bar's axis", low=-500, high=500, unit="mm", default=0
    )
    long: float = quantity("Length of the patch", "", low=0.01, high=1e5, unit="mm")
    wide: float = quantity("Width of the patch", "", low=0.01, high=1000, unit="mm")
    opening: float = quantity(
        "Opening", "of the gap in the finished bar", low=0.001, high=1, unit="mm",
        default=0.05,
    )  # fmt: skip

    @classmethod
    def whole(cls, billet: Billet, *, step: int = 0, interface: int = 1) -> Flaw:
        """Leave a weld open from end to end and from side to side."""
        cls(step=step, x=0, long=1, wide=1)  # refuses a step that is no number
        length, width, _ = billet.sizes[min(step, len(billet))]
        return cls(step=step, interface=interface, x=length / 2, long=length, wide=width)


class Gapped(Source):
    """A bar just after a weld, all steel but for the gap.

    `share` is the height of the weld, `gap` its opening, both of the thickness.
    """

    length: float
    width: float
    thickness: float
    share: float
    gap: float

    @property
    def edges(self) -> np.ndarray:
        """Where steel, gap and steel begin and end, as shares of the thickness."""
        half = self.gap / 2
        return np.clip([0.0, self.share - half, self.share + half, 1.0], 0, 1)

    @property
    def steels(self) -> tuple[str, ...]:
        """Below the gap, the gap, above it."""
        return "steel", "gap", "steel"

    @property
    def tally(self) -> Tally:
        """One bar, however many layers it had."""
        return Tally(Pieces.one("steel", self.thickness))

    @property
    def height(self) -> float:
        """Where the weld lies, mm above the axis."""
        return (self.share - 0.5) * self.thickness


def since(billet: Billet, flaw: Flaw) -> Billet:
    """Give the bar with the gap, as one piece, and what was done to it since the weld."""
    heights = _welds(billet, flaw.step)
    if flaw.interface > len(heights):
        msg = (
            f"Interface must be a whole number from 1 to {len(heights)} in step "
            f"{flaw.step}. Given: {flaw.interface}."
        )
        raise KitError(msg)
    size = billet.sizes[flaw.step]
    ends = flaw.x - flaw.long / 2, size.length - flaw.x - flaw.long / 2
    sides = size.width / 2 - abs(flaw.y) - flaw.wide / 2
    if min(*ends, sides) < -SLACK:
        msg = (
            f"The patch must lie in the bar, {size.length:.4g} × {size.width:.4g} mm at "
            f"that weld. Given: {flaw.long:.4g} × {flaw.wide:.4g} mm, its middle "
            f"{flaw.x:.4g} mm along and {flaw.y:.4g} mm off the axis."
        )
        raise KitError(msg)
    bar = Gapped(**size._asdict(), share=heights[flaw.interface - 1], gap=0)
    later = Billet(source=bar, steps=billet.steps[flaw.step :])
    gap = flaw.opening * _squeeze(later, flaw) / size.thickness
    return Billet(source=bar.model_copy(update={"gap": gap}), steps=later.steps)


def _squeeze(later: Billet, flaw: Flaw) -> float:
    """Say how many mm of the bar at the weld lie in a mm of the finished one.

    Square to the weld, at spots all over the patch; the median, since a spot may lie
    where a fold or a cut goes through.
    """
    share = (np.arange(SPOTS) + 0.5137) / SPOTS - 0.5
    x, y = np.meshgrid(flaw.x + flaw.long * share, flaw.y + flaw.wide * share)
    place = later.do((x, y, np.full_like(x, later.source.height)))
    square = np.zeros_like(x)
    for axis in range(3):
        before, behind = (
            later.undo(tuple(p + way * NEAR * (i == axis) for i, p in enumerate(place)))
            for way in (1, -1)
        )
        square += ((before[2] - behind[2]) / (2 * NEAR)) ** 2
    return float(np.median(np.sqrt(square)))


def _welds(billet: Billet, step: int) -> list[float]:
    """Give the heights of the welds made in a step, as shares of the thickness."""
    if step == 0 and isinstance(billet.source, Stack):
        return [float(edge) for edge in billet.source.edges[1:-1]]
    welds = [number for number, made in enumerate(billet.steps, 1) if made.leaves > 1]
    if step in welds:
        leaves = billet.steps[step - 1].leaves
        return [leaf / leaves for leaf in range(1, leaves)]
    places = [0, *welds] if isinstance(billet.source, Stack) else welds
    known = ", ".join(map(str, places[:MOST_NAMED])) or "none"
    msg = (
        f"A flaw must lie in the first stack (step 0), a fold or a cut and "
        f"stack; here those are: {known}. Given: step {step}."
    )
    raise KitError(msg)


def inside_patch(later: Billet, flaw: Flaw, before: Points) -> tuple:
    """Give how far points are inside the patch, along and across, mm.

    Parameters
    ----------
    later : Billet
        From `since`.
    flaw : Flaw
    before : Points
        In the bar as it was just after the weld.
    """

    def inside(place: np.ndarray, middle: float, half: float, ends: tuple) -> np.ndarray:
        # a patch up to the bar's end has none there: blows push metal past it
        low = FAR if middle - half <= ends[0] + SLACK else half
        high = FAR if middle + half >= ends[1] - SLACK else half
        return np.minimum(place - middle + low, middle - place + high) + SLACK

    side = later.source.width / 2
    return (
        inside(before[0], flaw.x, flaw.long / 2, (0, later.source.length)),
        inside(before[1], flaw.y, flaw.wide / 2, (-side, side)),
    )

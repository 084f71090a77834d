"""A bought bar that was etched before: as it comes, freshly ground, etched again.

The face that comes out of the second bath lies deeper in the bar than the first. So the
pattern is the same and its lines are not: they are where the layers lie at that depth.
Each face is taken as flat; that after a bath as the mean depth of its steels lower.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple

from kit.basics.errors import KitError
from kit.forge.steps import Grind
from kit.metal.etch.bite import Etch, bitten
from kit.section.surface import Plane
from kit.section.trace import Face, see

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from kit.forge.billet import Billet
    from kit.metal.etch.coupons import Coupon

MICROMETRES = 1000  # in a millimetre
NAMES = ("as bought", "freshly ground", "etched again")


class State(NamedTuple):
    """One state of the top face.

    Attributes
    ----------
    name : str
        One of `NAMES`.
    billet : Billet
        The bar in that state; ground for the second and third.
    tones : mapping of str to float
        Of each steel, linear light: illustrative, unless read on coupons.
    face : Face
        The top face, seen square on.
    """

    name: Literal["as bought", "freshly ground", "etched again"]
    billet: Billet
    tones: Mapping[str, float]
    face: Face


def states(
    billet: Billet,
    off: float,
    etch: Etch,
    readings: Iterable[Coupon] = (),
    *,
    columns: int = 400,
    rows: int = 100,
    pixel: float = 0.2,
) -> tuple[State, State, State]:
    """Grind the etched top of a bar and etch it again.

    Parameters
    ----------
    billet : Billet
        Square, as bought: with the grinding that made its pattern.
    off : float
        Ground off the top, mm, 0 … 100; at least the relief, or the pattern stays on.
    etch : Etch
        Both times; the wear counts for the face as bought.
    readings : iterable of Coupon, optional
        See `bitten`.
    columns, rows, pixel : int, int, float
        Of each face, in pixels, and mm a pixel. What lies beyond the bar is not covered.

    Raises
    ------
    KitError
        If less than the relief is ground off, too little of the bar would be left, or
        the bar is round.
    """
    names, readings = tuple(billet.source.steels), tuple(readings)
    before = etch.again().model_copy(update={"minutes": 0})
    bought, bare, again = (
        bitten(names, each, readings) for each in (etch, before, etch.again())
    )
    depths = [each.depth for each in again.values()]
    _check(off, (max(depths) - min(depths)) * (1 - etch.wear / 100) / MICROMETRES)
    tones = (
        {name: each.tone for name, each in found.items()} for found in (bought, bare, again)
    )
    bite = sum(depths) / len(depths) / MICROMETRES
    bars = billet, *(billet.then(Grind(top=top)) for top in (off, off + bite))
    first, second, third = (
        State(name, bar, own, see(bar, _top(bar, columns, rows, pixel), own))
        for name, bar, own in zip(NAMES, bars, tones, strict=True)
    )
    return first, second, third


def _check(off: float, relief: float) -> None:
    if not off >= relief:
        msg = (
            f"At least {relief:.3f} mm must be ground off, or the old relief stays. "
            f"Given: {off:g} mm."
        )
        raise KitError(msg)


def _top(billet: Billet, columns: int, rows: int, pixel: float) -> Plane:
    """Look down on the top, the bar's length to the right."""
    size = billet.size
    return Plane(
        size=size,
        centre=(size.length / 2, 0.0, size.thickness / 2),
        right=(1.0, 0.0, 0.0),
        up=(0.0, 1.0, 0.0),
        columns=columns,
        rows=rows,
        pixel=pixel,
    )

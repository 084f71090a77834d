"""What to saw from which bar of the rack: pieces, kerfs, off-cuts, weights."""

from __future__ import annotations

import math
from typing import NamedTuple

from kit.basics.errors import KitError
from kit.basics.units import (
    Units,
    format_cut_length,
    format_length,
    format_stock,
    parse_length,
)
from kit.forge.steels import steel
from kit.shop.planning.plan import Plan
from kit.shop.planning.rack import Rack


class Sawn(NamedTuple):
    """One bar of the rack and what is sawn from it."""

    rack: Rack
    pieces: int
    length: float  # of each piece, mm
    kerf: float  # of each cut, mm
    offcut: float  # mm

    @property
    def grams(self) -> float:
        """Weight of the pieces, without kerfs, grams."""
        volume = self.pieces * self.length * self.rack.width * self.rack.thickness
        return volume * steel(self.rack.steel).density / 1000


def cut_list(plan: Plan, kerf: float | None = None) -> list[Sawn]:
    """Share the pieces of a plan out over whole stock bars.

    A piece that ends exactly at the end of the bar needs no cut there.

    Parameters
    ----------
    plan : Plan
    kerf : float, optional
        Width of a saw cut, mm; left out, the plan's.

    Raises
    ------
    KitError
        If a piece is longer than the bars are sold.
    """
    each, cut = plan.start_length, plan.losses.kerf if kerf is None else kerf
    bars = []
    for rack, count in ((plan.outer, plan.outer_pieces), (plan.inner, plan.inner_pieces)):
        if each > rack.length:
            msg = (
                f"Pieces of {each} mm can not be cut from bars {rack.length:g} mm long. "
                "Take more pieces, or a longer bar."
            )
            raise KitError(msg)
        most = math.floor((rack.length + cut) / (each + cut) + 1e-9)
        for done in range(0, count, most):
            here = min(count - done, most)
            used = here * each + min(here * cut, rack.length - here * each)
            bars.append(Sawn(rack, here, each, cut, rack.length - used))
    return bars


def in_words(sawn: Sawn, units: Units = Units.MM) -> str:
    """Say one line of the cut list; inches are rounded up to 1/32, never down.

    Examples
    --------
    >>> from kit.shop.planning.compare import example
    >>> in_words(cut_list(example())[0])
    '1084, 3.17 mm × 38.1 mm: 6 × 102 mm = 612 mm, 6 saw cuts of 2.0 mm, 376 mm left; 581 g'
    """
    rack = sawn.rack
    long = format_cut_length(sawn.length, units)
    each = max(sawn.length, parse_length(long))  # as it is sawn: rounded up
    total = format_cut_length(each * sawn.pieces, units)
    thick, wide = (format_stock(part, units) for part in (rack.thickness, rack.width))
    kerf = format_length(sawn.kerf, units)
    left = format_length(max(0.0, sawn.offcut - sawn.pieces * (each - sawn.length)), units)
    cuts = sawn.pieces if sawn.offcut > 0 else sawn.pieces - 1
    return (
        f"{rack.steel}, {thick} × {wide}: {sawn.pieces} × {long} = {total}, "
        f"{cuts} saw cuts of {kerf}, {left} left; {sawn.grams:.0f} g"
    )

"""What is sawn from which bar of the rack: pieces, saw cuts, offcuts, weights."""

import math
from functools import partial
from typing import NamedTuple

from kit.basics.errors import KitError
from kit.basics.told import counted, one_way
from kit.basics.typed import parse_length
from kit.basics.units import (
    Units,
    format_cut_length,
    format_length,
    format_stock,
    format_weight,
)
from kit.forge.steels import steel
from kit.shop.plan import Plan
from kit.shop.work import Rack

EXACT = 1e-6  # mm, ours: a bar that ends with its last piece needs no cut there


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


def cut_list(plan: Plan) -> list[Sawn]:
    """Share the pieces of a plan out over whole stock bars.

    Raises
    ------
    KitError
        If a piece is longer than the bars are sold.
    """
    each, cut = plan.start_length, plan.losses.kerf
    return [s for rack, count in plan.stock for s in shared_out(rack, count, each, cut)]


def shared_out(rack: Rack, count: int, each: int, cut: float) -> list[Sawn]:
    """Share some pieces, `each` mm long, out over whole bars; every cut so wide in mm.

    Raises
    ------
    KitError
        If a piece is longer than the bars are sold.
    """
    if each > rack.length:
        msg = (
            f"Pieces of {each} mm cannot be cut from bars {rack.length:g} mm long. "
            "Take more pieces, or a longer bar."
        )
        raise KitError(msg)
    bars = []
    while count:
        bars.append(sawn_from(rack, count, each, cut))
        count -= bars[-1].pieces
    return bars


def fitting(rack: Rack, each: float, cut: float) -> int:
    """Say how many pieces fit into one bar, with a cut between two of them; as above."""
    return math.floor((rack.length + cut) / (each + cut) + 1e-9)


def sawn_from(rack: Rack, count: int, each: float, cut: float) -> Sawn | None:
    """Saw at most `count` pieces from one bar, as above; None if it is too short for one.

    A piece that ends exactly at the end of the bar needs no cut there.
    """
    here = min(count, fitting(rack, each, cut))
    if here < 1:
        return None
    used = here * each + min(here * cut, rack.length - here * each)
    return Sawn(rack, here, each, cut, rack.length - used)


def in_words(sawn: Sawn, units: Units = Units.MM) -> str:
    """Say one line of the cut list; inches are rounded up to 1/32, never down.

    The section is a sentence of its own: stock of 0.070 in is no fraction, its cuts are.

    Examples
    --------
    >>> from kit.shop.plan import example
    >>> in_words(cut_list(example())[0])
    '1084, 3.18 mm × 38.1 mm. 6 × 102 mm = 612 mm, 6 saw cuts of 2.0 mm, 376 mm left; 581 g'
    """
    return one_way(partial(_sawn_in_words, sawn), units)


def section_in_words(thickness: float, width: float, units: Units) -> str:
    """Write T × W of a bought bar, mm, as it is sold.

    Examples
    --------
    >>> section_in_words(1.5875, 40, Units.INCH_FRACTION)
    '0.063 in × 1.575 in'
    """
    sides = (thickness, width)
    return one_way(lambda to: " × ".join(format_stock(one, to) for one in sides), units)


def _sawn_in_words(sawn: Sawn, units: Units) -> str:
    rack = sawn.rack
    long = format_cut_length(sawn.length, units)
    each = max(sawn.length, parse_length(long))  # as it is sawn: rounded up
    total = format_cut_length(each * sawn.pieces, units)
    kerf = format_length(sawn.kerf, units)
    left = format_length(max(0.0, sawn.offcut - sawn.pieces * (each - sawn.length)), units)
    spare = rack.length - sawn.pieces * sawn.length - (sawn.pieces - 1) * sawn.kerf
    cuts = sawn.pieces if spare > EXACT else sawn.pieces - 1
    return (
        f"{rack.steel}, {section_in_words(rack.thickness, rack.width, units)}. "
        f"{sawn.pieces} × {long} = {total}, "
        f"{counted(cuts, 'saw cut')} of {kerf}, {left} left; {format_weight(sawn.grams)}"
    )

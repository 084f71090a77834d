"""The stock that a bar of one's own needs: which bars to saw, and how long, with losses.

Reckoned backwards through the history. Sections are those on the screen; what is lost of
the steel is made up for by longer pieces.
"""

import math
from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from kit.course.anvil.acts import Act, Laid
from kit.course.anvil.history import History
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.steps import Place, Size
from kit.shop.sawing import Sawn, shared_out
from kit.shop.work import Losses, Rack

SAME = 1e-6  # share of a section: a bar that is sawn shorter keeps it


class Pieces(NamedTuple):
    """Some like pieces to saw, mm; exact, not yet rounded up."""

    steel: str
    thickness: float
    width: float
    count: int
    length: float

    @property
    def start_length(self) -> int:
        """The length to cut: up to whole millimetres."""
        return math.ceil(self.length - 1e-9)


def needed(billet: Billet, losses: Losses | None = None) -> tuple[Pieces, ...]:
    """Give the pieces from which a bar comes out as long as on the screen.

    Parameters
    ----------
    billet : Billet
    losses : Losses, optional
        Left out, the kit's placeholders.
    """
    losses = losses or Losses()
    size = billet.size
    thicker = 1 + 2 * losses.grind / size.thickness
    length = (size.length + 2 * losses.crop) * thicker
    counts: Counter[tuple] = Counter()
    for one in _before(billet, length, losses, 1, last=True):
        counts[one.steel, one.thickness, one.width, one.length] += one.count
    return tuple(Pieces(*key[:3], count, key[3]) for key, count in counts.items())


def to_saw(billet: Billet) -> list[Sawn]:
    """Share the pieces out over whole bars of the rack, with the usual losses.

    Raises
    ------
    KitError
        A piece that no bar of the rack gives.
    """
    losses, sawn = Losses(), []
    for one in needed(billet, losses):
        rack = Rack(steel=one.steel, thickness=one.thickness, width=one.width)
        sawn += shared_out(rack, one.count, one.start_length, losses.kerf)
    return sawn


def _before(
    billet: Billet, length: float, losses: Losses, times: int, *, last: bool
) -> Iterator[Pieces]:
    """Give what one bar that is to come out so long, mm, is stacked of."""
    history = History.of(billet)
    last_hot = max((at for at, act in enumerate(history.acts, 1) if _fire(act)), default=0)
    for at in range(len(history.acts), 0, -1):
        act = history.acts[at - 1]
        heats = losses.last_heats if last and at == last_hot else losses.forge_heats
        sizes = history.stages[at - 1].size, history.stages[at].size
        length = _length_before(act, *sizes, length, losses, heats)
    source, first = history.source, history.stages[0].size
    length = _welded(first, length, losses)
    if isinstance(source, Bundle):
        for bar, count in Counter(source.bars).items():
            own = _cleaned(bar.size, length, losses)
            yield from _before(bar, own, losses, times * count, last=False)
        return
    for layer in source.layers:
        yield Pieces(layer.steel, layer.thickness, source.width, times, length)


def _length_before(
    act: Act, before: Size, after: Size, length: float, losses: Losses, heats: int
) -> float:
    """Give how long the bar must be before an act to be so long after it, mm."""
    pieces = act.pieces if isinstance(act, Laid) else act.leaves
    if pieces > 1 or isinstance(act, Laid):
        length = _welded(after, length, losses)
    if isinstance(act, Laid):
        length = pieces * length + (pieces - 1) * losses.kerf
        return _cleaned(before, length, losses)
    alike = abs(_section(before) - _section(after)) <= SAME * _section(before)
    if alike and not pieces > 1:  # sawn shorter, or turned, or nothing
        length += before.length - after.length
    else:
        length *= before.length / after.length
    if pieces > 1:
        if Place.SAW in act.done_at:
            length += (pieces - 1) * losses.kerf
        return _cleaned(before, length, losses)
    return _scaled(before, length, losses.forge_scale * heats) if _fire(act) else length


def _fire(act: Act) -> bool:
    return Place.FIRE in act.done_at


def _section(size: Size) -> float:
    return size.volume / size.length


def _scaled(size: Size, length: float, off: float) -> float:
    """Give how long a bar is before so much burns off all its faces, mm each."""
    around = math.pi / 2 if size.round else 2.0
    skin = around * (size.width + size.thickness) * length + 2 * _section(size)
    return length + skin * off / _section(size)


def _welded(size: Size, length: float, losses: Losses) -> float:
    """Give how long a pile is before its weld, whose heats burn scale off it."""
    return _scaled(size, length, losses.weld_scale * losses.weld_heats)


def _cleaned(size: Size, length: float, losses: Losses) -> float:
    """Give how long a bar is before its faces are ground for a weld and its ends cropped.

    What is ground off is made up for by a bar forged as much thicker.
    """
    thicker = 1 + 2 * losses.clean_up / size.thickness
    return (length + 2 * losses.crop) * thicker

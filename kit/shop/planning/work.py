"""One piece of work on the way from the rack to the bar, forwards and backwards."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from kit.forge.steps.base import Size
from kit.metal.working_heat import hottest

# °C, common practice, no source; lower where a steel's working limit is.
HEAT = {"weld": 1150, "draw out": 1050}


def heat_of(name: str, steels: Iterable[str]) -> float:
    """Say how hot a piece of work is done, °C: never above the limit of its steels."""
    return min(HEAT[name], hottest(steels))


class Section(NamedTuple):
    """Width and thickness of a bar, mm."""

    width: float
    thickness: float


@dataclass(frozen=True, kw_only=True)
class Work:
    """A piece of work whose section before and after is known; the length follows.

    Length after = length before × `stretch` - `shorter`, so it can be undone exactly.

    Parameters
    ----------
    name, reason : str
        What is done, as the card says it; and where the steel went.
    before, after : Section
        The bar's, mm.
    stretch : float
        How much longer it is for its thinner section, or shorter when it is stacked.
    shorter : float
        Taken off the length, after it was stretched, mm.
    heats, celsius : int, float
        How often it is in the fire, and how hot.
    pieces : int
        Into how many pieces it was cut to be stacked.
    """

    name: str
    reason: str
    before: Section
    after: Section
    stretch: float = 1
    shorter: float = 0
    heats: int = 0
    celsius: float = 20
    pieces: int = 1

    def length_after(self, length: float) -> float:
        """Length of the bar afterwards, mm."""
        return length * self.stretch - self.shorter

    def length_before(self, length: float) -> float:
        """Length of the bar before, mm."""
        return (length + self.shorter) / self.stretch

    def sizes(self, length: float) -> tuple[Size, Size]:
        """Give the bar before and after, from its length before."""
        return Size(length, *self.before), Size(self.length_after(length), *self.after)


def scaled(
    section: Section, name: str, per_face: float, heats: int, celsius: float
) -> Work:
    """Burn a little off all six faces at every heat."""
    off = 2 * per_face * heats
    return Work(
        name=name,
        reason="scale",
        before=section,
        after=Section(section.width - off, section.thickness - off),
        shorter=off,
        heats=heats,
        celsius=celsius,
    )


def drawn(section: Section, to: Section) -> Work:
    """Draw out to another section; nothing is lost by the hammer itself."""
    area, new = section.width * section.thickness, to.width * to.thickness
    return Work(
        name="to size",
        reason="moved, not lost",
        before=section,
        after=to,
        stretch=area / new,
    )


def cropped(section: Section, crop: float) -> Work:
    """Saw the ragged ends off."""
    return Work(
        name="crop", reason="crops", before=section, after=section, shorter=2 * crop
    )


def cleaned(section: Section, off: float, name: str, reason: str) -> Work:
    """Grind both wide faces."""
    after = section._replace(thickness=section.thickness - 2 * off)
    return Work(name=name, reason=reason, before=section, after=after)


def halved(section: Section, kerf: float) -> Work:
    """Saw across in two and lay one half on the other."""
    return Work(
        name="cut and stack",
        reason="saw cuts",
        before=section,
        after=section._replace(thickness=2 * section.thickness),
        stretch=0.5,
        shorter=kerf / 2,
        pieces=2,
    )

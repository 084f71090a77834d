"""What is bought and wanted, what a shop loses on the way, and one piece of work.

Scale, ground welds, crops, saw cuts, the last grind: the values given when nothing else is
said are placeholders (common practice, no source). Weigh your own billets and put your own
in, see weighed_losses.py. A piece of work can be reckoned forwards and backwards.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from pydantic import field_validator

from kit.basics.claim import Claim, Kind
from kit.basics.declare import Declared, quantity
from kit.basics.errors import KitError
from kit.basics.units import SOLD
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steels import steel
from kit.forge.steps.base import Place, Size
from kit.metal.working_heat import hottest


def stock_sizes(some: Iterable[float], apart: float = SOLD) -> list[float]:
    """Give every size of bought steel once, the least first: more than so far apart, mm.

    Examples
    --------
    >>> stock_sizes([3.175, 3.0, 2.9972, 3.0])
    [2.9972, 3.175]
    """
    found: list[float] = []
    for one in sorted(some):
        if not found or one - found[-1] > apart:
            found.append(one)
    return found


class Rack(Declared):
    """A bar on the rack: what is bought."""

    steel: str
    thickness: float = quantity("Thickness", "of the bar", low=0.1, high=25, unit="mm")
    width: float = quantity("Width", "of the bar", low=5, high=150, unit="mm")
    length: float = quantity(
        "Stock length", "as it is sold", low=50, high=6000, unit="mm", default=1000
    )

    @field_validator("steel")
    @classmethod
    def _known(cls, name: str) -> str:
        return steel(name).name


class Wanted(Declared):
    """The bar that is to come out, ground clean."""

    length: float = quantity("Length", "of the bar wanted", low=20, high=2000, unit="mm")
    width: float = quantity("Width", "of the bar wanted", low=5, high=150, unit="mm")
    thickness: float = quantity(
        "Thickness", "of the bar wanted", low=0.5, high=50, unit="mm"
    )


SHOP_LOSSES = Claim(
    says="Scale, ground welds, crops, saw cuts and the last grind take what makers usually "
    "reckon with: placeholders, until you weigh your own billets.",
    kind=Kind.PRACTICE,
    holds=("PLACEHOLDER",),
    told=(
        "fold (also )?costs",
        "heat that burns steel",
        "[Rr]eally scale falls",
        "real billet shrinks",
        "smith crops that end",
        "careful smith crops",
        "planner begins with",
        "much of it goes",
        "[Rr]eally it depends on fire",
        "welding heats cost",
        "Most would be saved on",
        "crops cost most",
        "Scale is (less than half|the same on)",
        "Scale, a face and heat",
        "[Pp]laceholders? (until|losses)|(are|shop) placeholders?",
        "weigh your own",
        "Shops differ by",
    ),
)
PLACEHOLDER = (
    "The losses are placeholders (common practice, no source). Weigh a billet of your own "
    "before and after each heat and put your losses in."
)


class Losses(Declared):
    """What every operation takes away. Lengths in mm.

    Scale is lost from all six faces at every heat, before the bar is drawn out.
    """

    weld_scale: float = quantity(
        "Scale at welding heat",
        "per face and heat",
        low=0,
        high=0.3,
        unit="mm",
        default=0.08,
    )
    weld_heats: int = quantity(
        "Heats for a weld", "to set it and to finish it", low=1, high=6, default=2
    )
    forge_scale: float = quantity(
        "Scale at forging heat",
        "per face and heat",
        low=0,
        high=0.15,
        unit="mm",
        default=0.03,
    )
    forge_heats: int = quantity(
        "Heats to draw out", "each time before stacking", low=1, high=12, default=2
    )
    last_heats: int = quantity(
        "Heats for the last drawing", "to the finished thickness", low=1, high=12, default=3
    )
    clean_up: float = quantity(
        "Clean-up",
        "ground off each face before it is stacked",
        low=0,
        high=1,
        unit="mm",
        default=0.25,
    )
    crop: float = quantity(
        "Crop", "cut off each end before stacking", low=0, high=20, unit="mm", default=6
    )
    kerf: float = quantity(
        "Saw cut", "width of every cut", low=0, high=4, unit="mm", default=2
    )
    grind: float = quantity(
        "Final grind", "off each side of the bar", low=0, high=2, unit="mm", default=0.5
    )


HEATS = Claim(
    says="A weld is set as hot as plain steel may be worked, and drawn out a little "
    "colder.",
    kind=Kind.PRACTICE,
    unit="°C",
    within="never above the working limit of the steels",
    holds=("HEAT",),
    told=("^Welding about", ": welded at"),
)
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
    done_at : tuple of Place
        What a smith must be protected from.
    pieces : int
        Into how many pieces it was cut to be stacked.
    """

    name: str
    reason: str
    before: Section
    after: Section
    done_at: tuple[Place, ...]
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
        """Give the bar before and after, from its length before, mm."""
        return Size(length, *self.before), Size(self.length_after(length), *self.after)


def scaled(
    section: Section, name: str, per_face: float, heats: int, celsius: float
) -> Work:
    """Burn a little off all six faces, mm each, at every heat, °C."""
    off = 2 * per_face * heats
    return Work(
        name=name,
        reason="scale",
        done_at=(Place.FIRE,),
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
        name="draw to size",
        reason="moved, not lost",
        done_at=(Place.FIRE,),
        before=section,
        after=to,
        stretch=area / new,
    )


def cropped(section: Section, crop: float) -> Work:
    """Saw the ragged ends off."""
    return Work(
        name="crop",
        reason="crops",
        done_at=(Place.SAW,),
        before=section,
        after=section,
        shorter=2 * crop,
    )


def cleaned(section: Section, off: float, name: str, reason: str) -> Work:
    """Grind both wide faces."""
    after = section._replace(thickness=section.thickness - 2 * off)
    ground = (Place.GRINDER,)
    return Work(name=name, reason=reason, done_at=ground, before=section, after=after)


def halved(section: Section, kerf: float) -> Work:
    """Saw across in two, the cut so wide in mm, and lay one half on the other."""
    return Work(
        name="cut and stack",
        reason="saw cuts",
        done_at=(Place.SAW,),
        before=section,
        after=section._replace(thickness=2 * section.thickness),
        stretch=0.5,
        shorter=kerf / 2,
        pieces=2,
    )


def welds_made(billet: Billet) -> int:
    """Count the welds a smith makes: in the stack, by folds, by cutting and stacking."""
    source = billet.source
    if isinstance(source, Stack):
        first = len(source.layers) - 1
    else:
        first = len(source.bars) - 1 + sum(map(welds_made, source.bars))
    return first + sum(step.leaves - 1 for step in billet.steps)


def all_sound(billet: Billet, each: float) -> float:
    """Give the chance that every weld took, if each takes with a chance of `each`.

    Raises
    ------
    KitError
        A chance that is not from 0 to 1.
    """
    if isinstance(each, bool) or not isinstance(each, (int, float)) or not 0 <= each <= 1:
        msg = f"The chance of one weld must be from 0 to 1. Given: {str(each)[:40]}."
        raise KitError(msg)
    return each ** welds_made(billet)

"""How deep the acid bites each steel, what tone that leaves, and what wear undoes.

ILLUSTRATIVE throughout, but for the grain of the paper: no source was found for the rate
of carbon steel in still, cold, thin ferric chloride, nor for how bright etched layers are.
One set of made-up numbers is chosen so that 1084 on 15N20, 10 minutes in the usual bath
after P800, comes to a relief of 5 µm, a contrast of 0.58 and a mean tone of 0.22.

The tones of `kit.metal.etch` are those of a face wholly etched and rubbed clean. On the
way there the ground, silvery face turns into it bit by bit, and a dark film grows over
both steels. Polishing takes the film off where the steel stands high; rubbing bright,
with a soft wheel that reaches down every step, off both. Scratches mix in some of the
room's light. Wear brings the ground face back.

Leaves out: pickets and blobs, oxide colours, unevenness, heat treatment.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import exp
from types import MappingProxyType
from typing import Literal

from pydantic import Field

from kit.basics.claim import Claim, Kind
from kit.basics.declare import Declared, quantity
from kit.forge.steels import Grade, steel
from kit.metal.bath import FRESH, Strength
from kit.metal.colour import michelson
from kit.metal.coupons import MEASURED, Coupon, latest
from kit.metal.etch import guard, held, reflectance

Grit = Literal[220, 240, 280, 320, 360, 400, 500, 600, 800, 1000, 1200, 1500, 2000]

GRAINS = Claim(
    says="The number of a sanding paper tells its median grain.",
    kind=Kind.PUBLISHED,
    source="FEPA 43-1 and ISO 6344-3 (P220 by sieve), read on printed charts of the papers",
    unit="µm",
    within="P220 to P2000",
    holds=("GRAIN",),
)
GRAIN = MappingProxyType(
    {
        220: 68.0,
        240: 58.5,
        280: 52.2,
        320: 46.2,
        360: 40.5,
        400: 35.0,
        500: 30.2,
        600: 25.8,
        800: 21.8,
        1000: 18.3,
        1200: 15.3,
        1500: 12.6,
        2000: 10.3,
    }
)


# For the screen, beside depth, relief, contrast and tone.
ILLUSTRATIVE = (
    "Illustrative: we found no source for how fast steel dissolves in a cold, still, "
    "thin bath, nor for how bright it comes out. Rates, relief, contrast and tones are our "
    "guess; only their order follows what makers report. Measure a coupon of your own."
)

BITE = Claim(
    says="Plain steel is bitten fastest, and nickel holds the acid off; how fast, how "
    "dark, and what is rubbed off again, is our guess.",
    kind=Kind.OURS,
    source="illustrative; only the order follows what makers report",
    unit="µm a minute, minutes, µm, per cent, parts of the light",
    holds=(
        *("_RATE", "_SLOWEST", "_HALFWAY", "_GROUND", "_GROUND_NICKEL", "_MINUTES"),
        *("_FILM", "_RUB", "_SCRATCHED", "_ROOM"),
    ),
    told=(
        "eats both steels",
        "the kit makes up",
        "bites? two steels unlike",
        "how fast steel (dissolves|etches)",
        "acid did not draw it",
        "acid only shows",
        "Rates are illustrative",
        "How deep the etch goes",
    ),
)
RUBBED = Claim(
    says="A soft wheel makes an etched face silver again all over and leaves its steps.",
    kind=Kind.PRACTICE,
    source="no source; that it rounds no step is a simplification",
    told=("Rubbing bright is taken",),
)
_RATE = 0.8  # µm a minute, plain steel, usual bath, 20 °C
_SLOWEST = 0.1  # part of it that pure nickel tends to
_HALFWAY = 0.88  # per cent of nickel that goes half the way there

_GROUND, _GROUND_NICKEL = 0.5, 0.03  # tone of ground steel, and what nickel adds
_MINUTES = 7.8  # after which all but 1/e of the way to the etched tone is gone
_FILM = 0.68  # of the light that the full film takes
_RUB = 1.0  # µm below the highest steel that a polishing block reaches
_SCRATCHED = 0.3  # part of a P220 face that throws back the room
_ROOM = 0.2  # the room's tone


class Etch(Declared):
    """One etch: how a face was prepared, bitten, rubbed and worn since."""

    minutes: float = quantity(
        "Etch time", "in the bath", low=0, high=30, unit="min", default=10
    )
    strength: Strength = Field(
        "usual", title="Etchant", description="weak, usual or strong"
    )
    grit: Grit = Field(
        800,
        title="Grit before etching",
        description="one of P " + ", ".join(map(str, GRAIN)),
    )
    polished: bool = Field(
        default=False, title="Polish the high spots", description="true or false"
    )
    bright: bool = Field(default=False, title="Rub it bright", description="true or false")
    wear: float = quantity(
        "Wear", "0 fresh, 100 rubbed flat", low=0, high=100, unit="%", default=0
    )

    def again(self) -> Etch:
        """Clean the worn face, finish it as before, etch it as before."""
        return self.model_copy(update={"wear": 0})

    @property
    def bites(self) -> float:
        """How long the usual bath takes to bite as deep, minutes."""
        return FRESH[self.strength] * self.minutes

    @property
    def scratched(self) -> float:
        """The share of the face that lies in scratches, 0 … 1."""
        return _SCRATCHED * GRAIN[self.grit] / GRAIN[220]


@dataclass(frozen=True, kw_only=True)
class Bitten:
    """What an etch made of one steel.

    Attributes
    ----------
    depth : float
        µm below the ground face, before any wear.
    tone : float
        Reflectance, linear light, 0 … 1.
    measured : tuple of str
        Which of "depth" and "tone" a coupon stands behind.
    """

    depth: float
    tone: float
    measured: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Between:
    """Steels side by side, in equal shares.

    Attributes
    ----------
    relief : float
        Step between the highest and the lowest, µm.
    contrast : float
        Of the brightest and the darkest tone, half the difference against the mean,
        0 … 1 (Michelson).
    unresolved : float
        The tone they make where the eye cannot resolve them, linear light.
    """

    relief: float
    contrast: float
    unresolved: float


def bitten(
    names: Iterable[str], etch: Etch, readings: Iterable[Coupon] = ()
) -> Mapping[str, Bitten]:
    """Etch steels that lie in one face.

    Parameters
    ----------
    names : iterable of str
        Steels; `KitError` for one that the rack does not know.
    etch : Etch
    readings : iterable of Coupon, optional
        Measured on coupons. Of a steel read in this bath, the newest reading replaces
        the guess. It is scaled by time as the guess would be; finish and polish of a
        measured tone are the coupon's own.
    """
    grades = {name: steel(name) for name in names}
    found = {name: latest(readings, grade, etch.strength) for name, grade in grades.items()}
    depths = {name: _depth(grade, etch, found[name][0]) for name, grade in grades.items()}
    highest = min(depths.values(), default=0.0)
    return {
        name: Bitten(
            depth=depth,
            tone=_tone(grades[name], etch, depth - highest, found[name][1]),
            measured=tuple(
                what
                for what, coupon in zip(("depth", "tone"), found[name], strict=True)
                if coupon
            ),
        )
        for name, depth in depths.items()
    }


def between(names: Iterable[str], etch: Etch, readings: Iterable[Coupon] = ()) -> Between:
    """Compare steels side by side after an etch and its wear; takes the same as `bitten`.

    Examples
    --------
    >>> seen = between(("1084", "15N20"), Etch())
    >>> round(seen.relief, 1), round(seen.contrast, 2), round(seen.unresolved, 2)
    (5.0, 0.58, 0.22)
    """
    found = bitten(names, etch, readings).values()
    depths, tones = [one.depth for one in found], [one.tone for one in found]
    return Between(
        relief=(max(depths) - min(depths)) * (1 - etch.wear / 100),
        contrast=float(michelson(max(tones), min(tones))),
        unresolved=sum(tones) / len(tones),
    )


def words(found: Mapping[str, Bitten]) -> str:
    """Say for the screen what of it was measured, and that the rest is our guess."""
    own = [
        f"{name}: {' and '.join(each.measured)} {MEASURED}."
        for name, each in found.items()
        if each.measured
    ]
    whole = all(len(each.measured) == 2 for each in found.values())
    return " ".join(own if found and whole else [*own, ILLUSTRATIVE])


def rate(grade: Grade) -> float:
    """Give µm a minute in the usual bath at 20 °C: illustrative."""
    slowed = float(guard(grade.nominal)) / _HALFWAY
    return _RATE * (_SLOWEST + (1 - _SLOWEST) / (1 + slowed))


def ground(grade: Grade) -> float:
    """Give the tone of a freshly ground face, linear light: illustrative."""
    return _GROUND + _GROUND_NICKEL * float(held(grade.nominal))


def _depth(grade: Grade, etch: Etch, coupon: Coupon | None) -> float:
    if coupon is None:
        return rate(grade) * etch.bites
    return coupon.relief_um / coupon.minutes * etch.minutes


def _tone(grade: Grade, etch: Etch, below: float, coupon: Coupon | None) -> float:
    """Give the tone of a steel that lies so many µm below the highest one."""
    clean = ground(grade)
    bare = _scratched(clean, etch)
    if etch.bright:
        return bare
    way = _way(etch.bites)
    if coupon is None:
        film = _FILM * way
        if etch.polished:
            film *= 1 - exp(-below / _RUB)
        fresh = (clean + (reflectance(grade) - clean) * way) * (1 - film)
        fresh = _scratched(fresh, etch)
    else:
        full = _way(FRESH[etch.strength] * coupon.minutes)
        fresh = bare + (coupon.reflectance - bare) * min(1.0, way / full)
    return fresh + (bare - fresh) * etch.wear / 100


def _scratched(tone: float, etch: Etch) -> float:
    """Let the scratches of a face throw back the room."""
    return tone + (_ROOM - tone) * etch.scratched


def _way(minutes: float) -> float:
    """Say how far a face is on its way from ground to etched, 0 … 1."""
    return 1 - exp(-minutes / _MINUTES)

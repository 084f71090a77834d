"""How bright each steel stands in the etched pattern: a first, illustrative answer.

Ferric chloride bites plain steel and leaves it dark; nickel and chromium hold it off.
We found no source for how bright etched layers are, so the *order* of the tones follows
what makers report (common practice, no source) and the tones themselves are ours. Steel
whose contents the fire has moved gets its tone by what is where: `Diffused`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from functools import cache, lru_cache

import numpy as np

from kit.basics.claim import Claim, Kind
from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.steels import Grade, steel
from kit.metal.cells import cells
from kit.metal.soak import Soak, bars_of, check_heats
from kit.metal.transformation import EUTECTOID_CARBON
from kit.section.trace import Face, Surface, see

# For the screen, beside every etched picture.
ILLUSTRATIVE = (
    "Illustrative tones: which steel etches bright or dark follows what makers report; "
    "how bright is our guess, for we found no source. "
    "An etched coupon of your own steels is better. Of a bar whose heats are told, borders "
    "are as soft as lesson 08 works out; of any other they are drawn sharp."
)

TONES = Claim(
    says="Etched, nickel and chromium keep a steel bright, manganese and carbon turn it "
    "dark; how bright is our guess.",
    kind=Kind.OURS,
    source="illustrative; which steel is brighter follows what makers report",
    unit="part of the light, weight per cent",
    within="ferric chloride, lightly polished, soft steel",
    holds=("_BARE", "_CARBON", "_MANGANESE", "_BRIGHTEST", "_HALFWAY", "_CHROMIUM"),
    told=(
        "because of nickel",
        "slows the acid",
        "little to do with hardness",
        "That is nickel",
        "acid bites it less",
        "[Tt]he etch goes by nickel",
        "what the etch tells apart",
        "[Oo]ne etches dark",
        "(is darker|order).*makers report",
        "pattern is nickel",
        "bright lines are nickel",
        "without nickel or chromium",
        "how bright (a steel|etched|it comes out)",
        "tones know nothing of hardening",
        "[Tt]ones are illustrative",
        "how grey it etches",
        "sheets show as bright lines",
        "They say nothing of hardness",
        "etch nearly alike",
        "etches bright or dark",
        "[Tt]ones(,| and).*illustrative",
        "[Tt]ones illustrative",
        "each steel looks",
    ),
)
# All illustrative. Linear light, 0 black to 1 white; contents in weight per cent.
_BARE = 0.56  # iron without carbon or manganese
_CARBON = 0.33  # each 0.33 % of carbon, up to the eutectoid, leaves a 1/e part
_MANGANESE = 0.90  # so does each 0.90 % of manganese
_BRIGHTEST = 0.88  # what nickel tends to
_HALFWAY = 0.75  # per cent of nickel that goes half the way there
_CHROMIUM = 0.1  # nickel that one part of chromium is worth


@cache
def reflectance(grade: Grade) -> float:
    """Say how much light a steel throws back, freshly etched and lightly polished.

    Parameters
    ----------
    grade : Grade
        From `kit.forge.steels.steel`. Carbon as delivered: long hot, thin layers share it.

    Returns
    -------
    float
        Reflectance in linear light, 0 (black) to 1 (white): illustrative. It rises
        with nickel and chromium, falls with manganese and with carbon up to 0.76 %.

    Examples
    --------
    >>> round(reflectance(steel("1084")), 3), round(reflectance(steel("15N20")), 2)
    (0.024, 0.78)
    """
    return float(tone_of(grade.nominal))


def tone_of(contents: Mapping[str, np.ndarray | float]) -> np.ndarray:
    """Say the same of steel by its contents, as after the fire has moved them.

    Parameters
    ----------
    contents : mapping of str to array or float
        By element (C, Mn, Ni, Cr; others count for nothing), weight per cent, 0 … 100,
        of any shapes that fit each other. What is missing is 0.

    Returns
    -------
    array
        Reflectance in linear light, 0 … 1: illustrative.

    Examples
    --------
    >>> tone_of({"C": np.array([0.84, 0.75]), "Ni": np.array([0.0, 2.0])}).round(2)
    array([0.06, 0.78])
    """
    carbon, manganese = (np.asarray(contents.get(name, 0.0)) for name in ("C", "Mn"))
    # what is more sits in white carbide and darkens no further
    carbon = np.minimum(carbon, EUTECTOID_CARBON)
    dark = _BARE * np.exp(-carbon / _CARBON - manganese / _MANGANESE)
    return dark + (_BRIGHTEST - dark) * held(contents)


def guard(contents: Mapping[str, np.ndarray | float]) -> np.ndarray:
    """Give the per cent of nickel that chromium and nickel together are worth."""
    nickel, chromium = (np.asarray(contents.get(name, 0.0)) for name in ("Ni", "Cr"))
    return nickel + _CHROMIUM * chromium


def held(contents: Mapping[str, np.ndarray | float]) -> np.ndarray:
    """Say how far nickel and chromium hold the acid off, 0 not to 1 wholly."""
    ratio = (guard(contents) / _HALFWAY) ** 2
    return ratio / (1 + ratio)


class Tones(dict[str, float]):
    """Tones by the names of steels; `see` asks it what the fire has made of them."""

    def after(self, billet: Billet) -> Tones | Diffused:
        """Give what is to be seen of a billet: of whole bars, if no heats are told.

        So it is, too, if a heat would melt a steel or leave it too cold to forge.
        """
        return Diffused(billet) if _bears_its_heats(billet) else self


@lru_cache(maxsize=16)
def _bears_its_heats(billet: Billet) -> bool:
    """Tell whether heats are told of a billet, and its steels are forged in all of them."""
    if not _heated(billet):
        return False
    with suppress(KitError):
        check_heats(billet)
        return True
    return False


def _heated(billet: Billet) -> bool:
    """Tell whether any heat is told of a billet, or of a bar in it."""
    bars = billet.source.bars_of_it()
    return any(step.heat for step in billet.steps) or any(map(_heated, bars))


def tones(names: Iterable[str]) -> Tones:
    """Look up the `reflectance` of each named steel.

    Raises `KitError` if there is a name the rack does not know.

    Examples
    --------
    >>> tones(["1084", "15N20"])
    {'1084': 0.0243, '15N20': 0.776}
    """
    return Tones({name: reflectance(steel(name)) for name in dict.fromkeys(names)})


def seen(billet: Billet, surface: Surface) -> Face:
    """See a surface of a billet in the `tones` that its steels etch in."""
    return see(billet, surface, tones(billet.source.steels))


@dataclass(frozen=True)
class Diffused:
    """Tones of what the heats of a billet have made of its bars: illustrative.

    For `kit.section.trace.see` in place of the tones of whole bars. Without heats in the
    billet it gives those same tones.

    Parameters
    ----------
    whole : Billet, optional
        Of a bundle, the billet that is looked at: its bars meet the later heats too,
        of which a bar by itself knows nothing.

    Examples
    --------
    >>> from kit import Billet, Stack
    >>> rack = Billet(source=Stack.alternate("1084", "15N20", pieces=3, thickness=2))
    >>> Diffused().cells(rack)[1].round(2)
    array([0.02, 0.78, 0.02])
    """

    whole: Billet | None = None

    def cells(self, billet: Billet) -> tuple[np.ndarray, np.ndarray]:
        """Give edges, 0 … 1 through one stack, and the tone between each two.

        Raises `KitError` as `kit.metal.cells.cells`.
        """
        bars = bars_of(self.whole) if self.whole else ()
        later = next((bar.later for bar in bars if bar.billet == billet), ())
        return _seen(billet, later)


@lru_cache(maxsize=16)  # a bar that is only looked at from elsewhere stays as it is
def _seen(billet: Billet, later: tuple[Soak, ...]) -> tuple[np.ndarray, np.ndarray]:
    cut = cells(billet, later)
    return cut.edges, tone_of(cut.contents)

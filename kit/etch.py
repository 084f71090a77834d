"""How bright each steel stands in the etched pattern: a first, illustrative answer.

Ferric chloride bites plain steel and leaves it dark; nickel and chromium hold it off.
Nobody has published how bright etched layers are, so the *order* of the tones follows
what makers report (common practice, no source) and the tones themselves are ours.
"""

from collections.abc import Iterable
from math import exp

from kit.steels import Grade, steel

# For the screen, beside every etched picture.
ILLUSTRATIVE = (
    "Illustrative tones: which steel etches bright or dark follows what makers report; "
    "how bright is our guess, for nobody has published it. "
    "An etched coupon of your own steels is better."
)

# All illustrative. Linear light, 0 black to 1 white; contents in weight per cent.
_BARE = 0.56  # iron without carbon or manganese
_CARBON = 0.33  # each 0.33 % of carbon, up to the eutectoid, leaves a 1/e part
_MANGANESE = 0.90  # so does each 0.90 % of manganese
_BRIGHTEST = 0.88  # what nickel tends to
_HALFWAY = 0.75  # per cent of nickel that goes half the way there
_CHROMIUM = 0.1  # nickel that one part of chromium is worth

# Above the eutectoid the extra carbon sits in white carbide and darkens no further.
# Callister & Rethwisch, Materials Science and Engineering, 9th ed., Fe-C diagram.
_EUTECTOID = 0.76


def reflectance(grade: Grade) -> float:
    """Say how much light a steel throws back, freshly etched and lightly polished.

    Parameters
    ----------
    grade : Grade
        From `kit.steels.steel`. Carbon as delivered: long hot, thin layers share it.

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
    content = grade.nominal.get
    carbon = min(content("C", 0.0), _EUTECTOID)
    dark = _BARE * exp(-carbon / _CARBON - content("Mn", 0.0) / _MANGANESE)
    guard = (content("Ni", 0.0) + _CHROMIUM * content("Cr", 0.0)) / _HALFWAY
    held = guard**2 / (1 + guard**2)
    return dark + (_BRIGHTEST - dark) * held


def tones(names: Iterable[str]) -> dict[str, float]:
    """Look up the `reflectance` of each named steel.

    Raises `KitError` if there is a name the rack does not know.

    Examples
    --------
    >>> tones(["1084", "15N20"])
    {'1084': 0.0243, '15N20': 0.776}
    """
    return {name: reflectance(steel(name)) for name in names}

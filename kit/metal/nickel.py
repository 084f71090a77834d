"""Which steels hold nickel, and what their owner, and whoever grinds them, is told.

Nickel is the usual cause of contact allergy. What counts for the skin is how much of it
comes off, which nobody can see in a composition; so every steel is told of that holds more
than gets into any steel by chance.
"""

from __future__ import annotations

from collections.abc import Iterable

from kit.forge.steels import Grade

# Per cent up to which nickel is nobody's wish but comes with the scrap: ASTM A29/A29M, on
# residual elements (from memory); the same figure is the limit of 52100 in A295, Table 1.
RESIDUAL = 0.25

SOURCE = (
    "Regulation (EC) 1907/2006, Annex XVII, entry 27 (nickel that comes off what is worn "
    "on the skin); how much comes off a blade: no source was found"
)

TELL = (
    "15N20 and other bright steels hold nickel: say so to whoever is sensitive or allergic "
    "to it, and to every buyer. Dust of nickel steel harms lungs."
)


def holds_nickel(grade: Grade) -> bool:
    """Say whether a grade's standard lets it hold more nickel than comes by chance.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> [holds_nickel(steel(name)) for name in ("15N20", "52100", "1084")]
    [True, False, False]
    """
    return grade.ranges.get("Ni", (0.0, 0.0))[1] > RESIDUAL


def to_the_owner(grades: Iterable[Grade]) -> str:
    """Say that a piece holds nickel, or nothing if it does not.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> to_the_owner([steel("1084"), steel("L6")])[:19]
    'It holds nickel (L6'
    """
    names = " and ".join(
        "nickel sheet" if grade.name.startswith("nickel") else grade.name
        for grade in dict.fromkeys(grades)
        if holds_nickel(grade)
    )
    if not names:
        return ""
    return (
        f"It holds nickel ({names}): not to be worn on the skin by anybody allergic to it; "
        "say so when you give it on."
    )

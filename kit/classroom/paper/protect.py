"""What to wear and to mind at each kind of work, for cards and plans.

Common practice, no source. It is a reminder, not a training: the rules of the place and
somebody qualified come first, and every page that uses it says so.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from kit.forge.steps import Place
from kit.metal.bath import CAUTIONS
from kit.metal.hardening import QUENCH_OIL


class Kind(NamedTuple):
    """A kind of work: its letter on the card, what it is, what protects."""

    letter: str
    name: str
    wear: str


KINDS = (
    Kind(
        "F",
        "fire, hammer, press",
        "Safety glasses, shaded as your rules say for looking into the fire; ear "
        "defenders; cotton, wool or leather, nothing that melts; leather boots. Keep out "
        "of the line of the press. Carbon monoxide: moving air, and an alarm. Tacks and "
        "handle: welding mask; no galvanised rod, no rebar. Fluoride flux: poison.",
    ),
    Kind(
        "S",
        "saw, cut-off",
        "Safety glasses, ear defenders, the work clamped; no gloves, loose sleeves or hair "
        "near a moving blade; ends are hot and sharp.",
    ),
    Kind(
        "G",
        "grinder",
        "Face shield over safety glasses, extraction or a fine-dust mask, ear defenders; "
        "no gloves at the belt. Dust of nickel can make skin and lungs allergic; that "
        "of stainless steel, chromium, too: lung cancer.",
    ),
    Kind(
        "Q",
        "quench, then temper",
        f"{QUENCH_OIL} Long sleeves, gloves, face shield; not alone. Temper at once: till "
        "then it can break in the hand.",
    ),
    Kind("A", "acid", CAUTIONS),
)
LOCAL = (
    "A reminder (common practice, no source), not a training. The rules of your shop and "
    "somebody qualified come first."
)


def letters(places: Iterable[Place]) -> str:
    """Give the letters of `KINDS` that work done at some places asks for; "–" for none.

    Examples
    --------
    >>> letters([Place.FIRE, Place.SAW]), letters([])
    ('F S', '–')
    """
    return " ".join(place.value for place in places) or "–"

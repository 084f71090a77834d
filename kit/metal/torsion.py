"""How tight a twist steel is reported to bear."""

import math

from kit.basics.claim import Claim, Kind
from kit.basics.declare import Declared
from kit.forge.steps import Size, Twist

TORN = Claim(
    says="Hot torsion tests report steel to fail at an equivalent strain, shear over root "
    "3, of about 3. A warning only: forging is not a torsion test.",
    kind=Kind.PUBLISHED,
    source="Metals 15(2) 219 (2025), abstract",
    seen=True,
    unit="strain",
    holds=("MOST_STRAIN",),
    told=("may tear the bar", "torsion tests .*report steel to fail"),
)
MOST_STRAIN = 3.0


def too_tight(across: float, turn_length: float) -> str:
    """Say that a twist strains a round bar's skin more than steel is reported to bear.

    The equivalent strain is shear over root 3, pi · across / turn length / √3.

    Parameters
    ----------
    across, turn_length : float
        How thick the bar is, and the length of one turn, mm.

    Returns
    -------
    str
        Two short sentences, or nothing.
    """
    strain = math.pi * across / turn_length / math.sqrt(3)
    if strain <= MOST_STRAIN:
        return ""
    return (
        "Take care: so tight a twist may tear the bar. It strains the skin by "
        f"{strain:.1f}; hot torsion tests (Metals 15, 219) report steel to fail at about "
        f"{MOST_STRAIN:g}."
    )


def tight(act: Declared, before: Size) -> str:
    """Say it of what is done to a bar of this size: of a twist, or nothing."""
    return too_tight(before.thickness, act.turn_length) if isinstance(act, Twist) else ""

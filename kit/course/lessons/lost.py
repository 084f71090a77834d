"""How much steel is gone so far, as one number with its working."""

from __future__ import annotations

from collections import Counter

from kit.course.lessons.scene import Number
from kit.forge.billet import Billet
from kit.forge.losses import lost, started, weight

LEAST = 1e-6  # mm³: below it is rounding


def steel_gone(billet: Billet, *, face: float = 0.0) -> Number:
    """Say how much of the steel was cut or ground away, step by step.

    Parameters
    ----------
    billet : Billet
    face : float
        What is ground off its face for the picture, as a share of the finished bar.
    """
    start = started(billet)
    taken: Counter[str] = Counter()
    for row in lost(billet):
        taken[row.how or row.step] += row.volume
    taken["ground off the face"] += (start - taken.total()) * face
    gone = taken.total()
    working = [
        f"{name}: {volume:,.0f} mm³ of {start:,.0f} mm³ = {100 * volume / start:.1f} %"
        for name, volume in taken.items()
        if volume > LEAST
    ]
    if not working:
        working = ["forging moves steel and takes none away (scale is not counted)"]
    share = f"{round(100 * gone / start, 1):g} %"
    if len(working) > 1:
        working.append(f"together = {share}")
    working.append(f"left: about {weight(billet) * (1 - face):,.0f} g")
    return Number("Steel cut or ground away so far", share, working)

"""My shop: losses found by weighing, instead of placeholders; kept in a small file."""

import json
from math import isfinite
from pathlib import Path

from kit.basics import files
from kit.basics.errors import KitError
from kit.forge.steps.base import Size
from kit.shop.plan import Plan
from kit.shop.work import Losses

MOST_BYTES = 20 * 1024  # ours
WHAT = "a file of losses"
FORMAT = "pattern-welding-kit losses"


def measured(plan: Plan, weights: dict[int, float], start: float | None = None) -> Losses:
    """Turn weights of a real billet into losses for each face and heat.

    Parameters
    ----------
    plan : Plan
        What was planned; its other losses stay.
    weights : dict
        Grams of the bar *after* the work of that number in `plan.works`, 0 the first.
        Only scale can be weighed in this way: "weld" and "draw out".
    start : float, optional
        Length that the pieces were cut to, mm; left out, as planned.

    Raises
    ------
    KitError
        If a weight cannot be that of this bar.
    """
    stages = plan.stages(start)
    found: dict[str, list[float]] = {"weld_scale": [], "forge_scale": []}
    for number, grams in weights.items():
        stage = stages[number]
        before = weights.get(number - 1, stage.grams_before)
        if not (isfinite(grams) and 0.5 * before < grams <= before):
            msg = (
                f"After '{stage.work.name}' the bar must weigh from {0.5 * before:.0f} to "
                f"{before:.0f} g. Given: {grams:g} g."
            )
            raise KitError(msg)
        kind = {"weld": "weld_scale", "draw out": "forge_scale"}.get(stage.work.name)
        if kind:
            lost = (before - grams) * 1000 / plan.density
            found[kind].append(_skin(stage.before, lost) / stage.work.heats)
    means = {kind: sum(some) / len(some) for kind, some in found.items() if some}
    return Losses(**{**plan.losses.model_dump(), **means})


def _skin(size: Size, lost: float) -> float:
    """Find the thickness of a skin over all six faces that has a volume, mm."""
    length, width, thickness = size
    skin = 0.0
    for _ in range(20):  # each turn the error falls by the skin's share of the bar
        left = (length - 2 * skin) * (width - 2 * skin)
        face = left + (length - 2 * skin + width) * thickness
        skin += (lost - (size.volume - left * (thickness - 2 * skin))) / (2 * face)
    return skin


def to_json(losses: Losses) -> str:
    """Write the losses of a shop as text."""
    values = {"format": FORMAT, "version": 1, **losses.model_dump()}
    return json.dumps(values, indent=1) + "\n"


def load(path: Path) -> Losses:
    """Read the losses of a shop.

    Raises
    ------
    KitError
        If the file is not one.
    """
    return from_json(files.text(path, WHAT, MOST_BYTES))


def from_json(text: str) -> Losses:
    """Read the losses of a shop from text.

    Raises
    ------
    KitError
        If it is none.
    """
    values = files.of_format(text, WHAT, FORMAT)
    values.pop("version", None)
    return Losses(**values)

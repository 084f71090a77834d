"""What can be done to a bar next, with what to begin with, and what must come first.

An act is a forging step of the registry, or *cut into pieces and lay together*. All is
read from what it declares, so a new step is here as soon as its file is.
"""

import math
from typing import Any

import numpy as np

from kit.basics.declare import allowed_range
from kit.basics.errors import KitError
from kit.course.anvil.laid import Laid
from kit.forge.billet import Billet
from kit.forge.steps import STEPS, DrawOut, Step

Act = Step | Laid

VERBS: dict[str, type[Act]] = dict(
    sorted({**STEPS, Laid.name: Laid}.items(), key=lambda named: named[1].order)
)
MOST_FIRST = 2  # acts that may have to come first


def name_of(act: Act) -> str:
    """Give the shop's word for an act."""
    return act.name if isinstance(act, Laid) else act.step


def done(act: Act, bar: Billet) -> Billet:
    """Give the bar after one more act.

    Raises
    ------
    KitError
        What this bar does not allow, in one sentence.
    """
    return act.done_to(bar) if isinstance(act, Laid) else bar.then(act)


def begun(name: str, bar: Billet) -> Act:
    """Give an act with the values that a smith would begin with on this bar.

    Raises
    ------
    KitError
        Where the bar allows none of them.
    """
    kind = VERBS[name]
    values = {
        key: _figures(value(bar.size)) if callable(value) else value
        for key, value in kind.usual.items()
        if key in kind.model_fields
    }
    for key, field in kind.model_fields.items():
        if field.is_required() and key not in values:  # of a step that says no usual value
            values[key] = _middle(field)
    return kind(**values)


def why_not(name: str, bar: Billet) -> str:
    """Say why a bar does not allow an act, or nothing where it does."""
    try:
        _changed(begun(name, bar), bar)
    except KitError as refused:
        return str(refused)
    return ""


def _changed(act: Act, bar: Billet) -> Billet:
    """Give the bar after an act; refuse one that does nothing to it."""
    after = done(act, bar)
    if _idle(act, bar, after):
        msg = f"This bar is already as '{name_of(act)}' leaves it."
        raise KitError(msg)
    return after


def _idle(act: Act, bar: Billet, after: Billet) -> bool:
    """Tell whether an act leaves a bar as it is."""
    alike = after.size == bar.size and after.size.round == bar.size.round
    if isinstance(act, Laid) or not alike:
        return False
    points = tuple(side * np.array([0.1, 0.3]) for side in bar.size)
    return bool(np.allclose(act.undo(points, bar.size), points))


def first(act: Act, bar: Billet) -> tuple[Act, ...]:
    """Find what must be done first so that this bar allows an act: the fewest.

    Returns
    -------
    tuple of Act
        None if it is allowed as it is, or if nothing simple helps.
    """
    if _after(act, bar):
        return ()
    tried: list[tuple[Billet, tuple[Act, ...]]] = [(bar, ())]
    for _ in range(MOST_FIRST):
        tried = [
            (after, (*before, one))
            for now, before in tried
            for one in _helpers(now)
            if (after := _after(one, now))
        ]
        for after, before in tried:
            if _after(act, after):
                return before
    return ()


def _after(act: Act, bar: Billet) -> Billet | None:
    """Give the bar after an act, or None where the bar does not allow it."""
    try:
        return _changed(act, bar)
    except KitError:
        return None


def _helpers(bar: Billet) -> list[Act]:
    """Give what makes a bar square, round or thinner, gentlest first."""
    side = _figures(math.sqrt(bar.size.width * bar.size.thickness))
    square = DrawOut(thickness=side, width=side)
    return [square, *(begun(name, bar) for name in ("round up", "square up", "draw out"))]


def _figures(value: float) -> float:
    """Give a length with three figures: nobody sets more."""
    return float(f"{value:.3g}")


def _middle(field: Any) -> Any:
    """Give a value between the ends of what a field allows."""
    low, high = allowed_range(field)
    return _figures((low + high) / 2)

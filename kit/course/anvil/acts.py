"""What can be done to a bar next, with what to begin with, and what must come first.

An act is a forging step of the registry, or `Laid`: a bundle of the bar so far. All is
read from what it declares, so a new step is here as soon as its file is.
"""

from __future__ import annotations

import math
from typing import Any, ClassVar, Literal

import numpy as np

from kit.basics.declare import Declared, allowed_range, quantity
from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.bundle import MOST_BARS, Bundle
from kit.forge.steps import STEPS, Crop, DrawOut, Place, QuarterTurn, Step, Twist

SAWN = 3  # decimals of a mm: nobody saws nearer, and the numbers stay short
Turn = Literal[
    "all alike",
    "every second turned over",
    "every second on edge",
    "every second of the other hand",
]


class Laid(Declared):
    """Saw the bar into equal pieces, lay them side by side or stacked, and weld them.

    Every second piece may lie turned over, or on edge, or be one that was twisted to the
    other hand: for that the bar was cut in two before the twist, and each half twisted
    its own way. Leaves out: saw kerf, ground faces, scale.

    Raises
    ------
    KitError
        From `done_to`: a round bar; pieces that would not lie flush; none twisted.
    """

    pieces: int = quantity(
        "Pieces", "equal lengths sawn from the bar", low=2, high=MOST_BARS, default=3
    )
    laid: Literal["side by side", "stacked"] = "side by side"
    turned: Turn = "all alike"

    name: ClassVar[str] = "cut into pieces and lay together"
    order: ClassVar[int] = 125
    takes: ClassVar[str] = ""
    done_at: ClassVar[tuple[Place, ...]] = (Place.FIRE, Place.SAW)
    says: ClassVar[str] = ", {pieces} of them, {laid}, {turned}"
    usual: ClassVar[dict] = {}

    def done_to(self, bar: Billet) -> Billet:
        """Give the bundle's billet, made of pieces of this bar."""
        other = self._other(bar)
        each = bar.size.length / self.pieces
        bars = []
        for piece in range(self.pieces):
            near = round(piece * each, SAWN)
            far = round(bar.size.length - near - each, SAWN)
            crop = Crop(near=near, far=max(0.0, far))
            bars.append((other if piece % 2 else bar).then(crop))
        if self.turned == "every second turned over":
            bars[1::2] = [one.then(QuarterTurn(quarters=2)) for one in bars[1::2]]
        elif self.turned == "every second on edge":
            bars[1::2] = [one.then(QuarterTurn()) for one in bars[1::2]]
        return Billet(source=Bundle(bars=tuple(bars), laid=self.laid))

    def _other(self, bar: Billet) -> Billet:
        """Give the bar twisted to the other hand, if that is asked for."""
        if self.turned != "every second of the other hand":
            return bar
        if not any(isinstance(step, Twist) for step in bar.steps):
            msg = (
                "A piece can be of the other hand only if the bar was twisted. It was not."
            )
            raise KitError(msg)
        return Billet(source=bar.source, steps=tuple(map(_mirrored, bar.steps)))

    @classmethod
    def of(cls, bundle: Bundle) -> tuple[Laid, Billet] | None:
        """Find the act, and the bar, that give just this bundle; None if none does."""
        first = bundle.bars[0]
        if not first.steps or not isinstance(first.steps[-1], Crop):
            return None
        bar = first[: len(first) - 1]
        for turned in Turn.__args__:
            act = cls(pieces=len(bundle.bars), laid=bundle.laid, turned=turned)
            try:
                if act.done_to(bar).source == bundle:
                    return act, bar
            except KitError:
                continue
        return None


def _mirrored(step: Step) -> Step:
    if not isinstance(step, Twist):
        return step
    hand = "left" if step.hand == "right" else "right"
    return step.model_copy(update={"hand": hand})


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

"""Cut the bar into pieces and lay them together: a bundle of the bar so far."""

from __future__ import annotations

from typing import ClassVar, Literal

from kit.basics.declare import Declared, quantity
from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.bundle import MOST_BARS, Bundle
from kit.forge.steps import Crop, Place, QuarterTurn, Step, Twist

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

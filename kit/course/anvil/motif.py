"""A stack as it is laid: some bars in an order, all of it so many times over."""

from __future__ import annotations

from dataclasses import dataclass, replace

from kit.basics.errors import KitError
from kit.forge.stack import MOST_PIECES, Layer, Stack

MOST_BARS = 16  # in a motif
MOST_METALS = 5


@dataclass(frozen=True)
class Motif:
    """Bars from the bottom up, laid so many times, and perhaps its first once more.

    Parameters
    ----------
    bars : tuple of Layer
        1 to 16; thickness in mm.
    times : int
        How often they are laid.
    closed : bool
        Whether the first bar is laid once more on top, so that both faces are alike.
    length, width : float
        Of every bar, mm.

    Raises
    ------
    KitError
        Too many bars, or metals, or fewer than two bars in all.
    """

    bars: tuple[Layer, ...]
    times: int = 1
    closed: bool = False
    length: float = 150.0
    width: float = 38.1

    def __post_init__(self) -> None:
        if not 1 <= len(self.bars) <= MOST_BARS:
            msg = f"Lay 1 to {MOST_BARS} bars, then repeat them. Given: {len(self.bars)}."
            raise KitError(msg)
        if len(self.metals) > MOST_METALS:
            msg = (
                f"A stack here has at most {MOST_METALS} metals. Given: {len(self.metals)}."
            )
            raise KitError(msg)
        most = (MOST_PIECES - self.closed) // len(self.bars)
        if not 1 <= self.times <= most:
            msg = f"These bars can be laid from 1 to {most} times. Given: {self.times}."
            raise KitError(msg)
        self.stack  # noqa: B018  (refuses what is none)

    @property
    def metals(self) -> list[str]:
        """The metals in it, in the order in which they were laid."""
        return list(dict.fromkeys(bar.steel for bar in self.bars))

    @property
    def stack(self) -> Stack:
        """The stack, bottom first."""
        layers = self.bars * self.times + self.bars[:1] * self.closed
        return Stack(layers=layers, length=self.length, width=self.width)

    @classmethod
    def of(cls, stack: Stack) -> Motif | None:
        """Find the shortest order that gives a stack; None if it is too long to show."""
        layers, size = stack.layers, {"length": stack.length, "width": stack.width}
        for long in range(1, min(MOST_BARS, len(layers)) + 1):
            times, over = divmod(len(layers), long)
            bars = layers[:long]
            if over <= 1 and layers == bars * times + bars[:1] * over:
                try:
                    return cls(bars, times, bool(over), **size)
                except KitError:
                    return None
        return None

    def put(self, place: int, bar: Layer) -> Motif:
        """Lay another bar in a place."""
        return replace(self, bars=(*self.bars[:place], bar, *self.bars[place + 1 :]))

    def added(self, bar: Layer) -> Motif:
        """Lay one bar more on top."""
        return replace(self, bars=(*self.bars, bar))

    def removed(self, place: int) -> Motif:
        """Take a bar away."""
        return replace(self, bars=self.bars[:place] + self.bars[place + 1 :])

    def moved(self, place: int, to: int) -> Motif:
        """Take a bar out and lay it in another place."""
        if not (0 <= place < len(self.bars) and 0 <= to < len(self.bars)):
            return self
        bars = list(self.bars)
        bars.insert(to, bars.pop(place))
        return replace(self, bars=tuple(bars))

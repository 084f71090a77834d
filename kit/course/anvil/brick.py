"""A bar's own clay twin: what to roll, how high, in which order, as large as a lunch box.

Every number is one of the bar's own history, times one scale.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from kit.basics.errors import KitError
from kit.basics.units import Units, format_measured
from kit.course.anvil.acts import Act, Laid, name_of
from kit.course.anvil.clay import DENSITY, THINNEST, clays
from kit.course.anvil.history import History
from kit.course.anvil.motif import Motif
from kit.course.anvil.sentence import spoken
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Stack
from kit.forge.steps import Size

# The smallest scale is taken, never under 1 if the box allows, at which every sheet can be
# rolled; then as much of the length as box and board allow.
SCALES = (1.0, 1.5, 2.0, 3.0, 3 / 4, 1 / 2, 1 / 3, 1 / 4, 1 / 5, 1 / 8, 1 / 10, 1 / 20)
SHARES = (1.0, 3 / 4, 1 / 2, 1 / 3, 1 / 4, 1 / 5, 1 / 8, 1 / 10, 1 / 20, 1 / 50, 1 / 100)
ROLLED = 1.5  # mm: a thinner sheet tears when it is rolled (common practice, no source)
BOX = (170.0, 110.0, 60.0)  # mm inside a lunch box, lid shut: our guess, measure yours
BOARD = 400.0  # mm that can be rolled out on a kitchen board: our guess
ALONG = ("length", "near", "far", "ends")  # what an act measures along the bar
# How a hand does in clay what the shop does in steel: common practice, no source.
HOW = {
    "draw out": "Roll between guide sticks, turn it often",
    "upset": "Push its ends together, press the sides flat",
    "fold": "Bend it over a stick, press from the fold outwards",
    "cut and stack": "Cut with a wire, press from the middle outwards",
    "hammer unevenly": "Press with a thumb here and there",
    "dent": "Press a ball in, then shave or roll flat",
    "groove": "Press a round stick in, then shave or roll flat",
    "drill": "Turn a straw in, then shave or roll flat",
    "round up": "Roll under a flat hand",
    "twist": "Chill it first; hold one end, turn the other",
    "square up": "Tap four sides on the board",
    "split": "Press a ruler's edge down through it",
    "four-way": "Cut squares with a wire, press them together",
    "crop": "Cut with a wire",
    "grind": "Chill it, shave with a wire",
    "grind round": "Chill it, shave with a wire",
    Laid.name: "Cut with a wire, wet no face, press together",
}
OTHER_HAND = "Before the twist cut it in two, and turn each half its own way"


class Sheets(NamedTuple):
    """Sheets of one clay and one size, mm."""

    clay: str
    count: int
    thickness: float
    width: float
    length: float

    @property
    def grams(self) -> float:
        """What they weigh together."""
        volume = self.count * self.thickness * self.width * self.length
        return volume / 1000 * DENSITY


class Row(NamedTuple):
    """One thing to do, and the clay bar after it, mm; a layer as it is on average.

    `number` is its step's, as the forge's history of its part has it.
    """

    number: str
    part: str
    told: str
    how: str
    bar: Billet
    size: Size
    layers: int
    layer: float

    @property
    def smears(self) -> bool:
        """Whether its layers are too thin for clay (common practice, no source)."""
        return self.layer < THINNEST


class Part(NamedTuple):
    """A bar with a history of its own, and how many of it are made."""

    name: str
    times: int
    history: History


@dataclass(frozen=True)
class Brick:
    """A bar's clay twin.

    Parameters
    ----------
    billet : Billet
    """

    billet: Billet

    @cached_property
    def parts(self) -> tuple[Part, ...]:
        """The bars to make one after another; the last is the whole."""
        return tuple(_parts(self.billet, "", 1))

    @cached_property
    def clays(self) -> dict[str, str]:
        """Each metal's clay."""
        return clays(steel for steel in self.billet.source.steels)

    @cached_property
    def scale(self) -> float:
        """How thick and wide the clay is, of the steel.

        Raises
        ------
        KitError
            If its stack is too large in any scale.
        """
        firsts = [part.history.stages[0].size for part in self.parts]
        wide = max(size.width for size in firsts)
        high = max(size.thickness for size in firsts)
        fits = [one for one in SCALES if wide * one <= BOX[1] and high * one <= BOX[2]]
        if not fits:
            msg = (
                f"Even at 1 : {1 / SCALES[-1]:g} this stack, {wide:.4g} × {high:.4g} mm, "
                "does not fit a lunch box. Take thinner bars."
            )
            raise KitError(msg)
        thinnest = min(
            layer.thickness
            for part in self.parts
            if isinstance(part.history.source, Stack)
            for layer in part.history.source.layers
        )
        rolled = [one for one in fits if one >= 1 and thinnest * one >= ROLLED]
        return rolled[0] if rolled else max(fits)

    @cached_property
    def share(self) -> float:
        """How much of the bar's length is made.

        Raises
        ------
        KitError
            If it is too long in any share.
        """
        stages = [stage for part in self.parts for stage in part.history.stages]
        longest = max(stage.size.length for stage in stages) * self.scale
        first = max(part.history.stages[0].size.length for part in self.parts) * self.scale
        for share in SHARES:
            if longest * share <= BOARD and first * share <= BOX[0]:
                return share
        msg = f"A bar of {longest:.4g} mm is too long for clay. Take a shorter stack."
        raise KitError(msg)

    def size(self, size: Size) -> Size:
        """Give the size in clay of a bar of such a size in steel, mm."""
        length, width, thickness = (side * self.scale for side in size)
        return type(size)(length * self.share, width, thickness)

    @cached_property
    def sheets(self) -> tuple[Sheets, ...]:
        """What to roll first, of every clay and size."""
        counts: Counter[tuple] = Counter()
        for part in self.parts:
            stack = part.history.source
            if isinstance(stack, Stack):
                for layer in stack.layers:
                    sides = (layer.thickness, stack.width, stack.length)
                    counts[(self.clays[layer.steel], *sides)] += part.times
        return tuple(
            Sheets(name, count, *reversed(self.size(Size(*reversed(sides)))))
            for (name, *sides), count in counts.items()
        )

    def order(self, part: Part, units: Units) -> str:
        """Say in which order the sheets of a part lie, bottom first."""
        stack = part.history.source
        motif = Motif.of(stack)
        bars = motif.bars if motif else stack.layers
        names = [
            f"{self.clays[bar.steel]} {format_measured(bar.thickness * self.scale, units)}"
            for bar in bars
        ]
        told = f"From the bottom up: {', '.join(names)}"
        if motif and motif.times > 1:
            told += f"; all that {motif.times} times"
        if motif and motif.closed:
            told += f"; then {names[0]} once more"
        return f"{told}."

    def rows(self, units: Units) -> list[Row]:
        """List what is done, in order; what was refused is left out."""
        return [row for part in self.parts for row in self._rows(part, units)]

    def _rows(self, part: Part, units: Units) -> Iterator[Row]:
        history = part.history
        for at, stage in enumerate(history.stages):
            if stage.refused:
                continue
            if at:
                act = history.acts[at - 1]
                words = spoken(self.scaled(act), units).removeprefix("Now ")
                how = _how(act)
            elif isinstance(history.source, Bundle):
                words, how = f"lay the bars {history.source.laid}.", HOW[Laid.name]
            else:
                words, how = "stack the sheets.", "Press from the middle outwards"
            bar = stage.bar
            layer = bar.across * self.scale / stage.tally.layers
            told = words[0].upper() + words[1:]
            size = self.size(stage.size)
            number, layers = f"{part.name}{at}", stage.tally.layers
            yield Row(number, part.name, told, how, bar, size, layers, layer)

    def scaled(self, act: Act) -> Act:
        """Give an act with its lengths as they are in clay; only to be told of."""
        fields = type(act).model_fields
        lengths = {
            key: value * self.scale * (self.share if key in ALONG else 1)
            for key, value in act
            if isinstance(value, (int, float))
            and (fields[key].json_schema_extra or {}).get("unit") == "mm"
        }
        return act.model_copy(update=lengths | {"heat": None})  # clay needs no fire


def _how(act: Act) -> str:
    how = HOW.get(name_of(act), "")
    if isinstance(act, Laid) and act.turned == "every second of the other hand":
        return f"{OTHER_HAND}. {how}"
    return how


def _parts(billet: Billet, name: str, times: int) -> Iterator[Part]:
    """Give the unlike bars that a bundle is laid of, inner ones first, then the whole."""
    history = History.of(billet)
    if isinstance(history.source, Bundle):
        for place, (bar, count) in enumerate(Counter(history.source.bars).items()):
            yield from _parts(bar, f"{name}{chr(ord('A') + place)}", times * count)
    yield Part(name, times, history)

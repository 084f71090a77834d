"""A history at one common scale: a strip of its ends or faces, and a film of its acts."""

import math
import time
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise, takewhile
from typing import NamedTuple

from PIL import Image

from kit.basics.errors import KitError
from kit.basics.units import Units, format_length
from kit.course.anvil import clay, void
from kit.course.anvil.acts import Act, Laid, done
from kit.course.anvil.clay import tones as clay_tones
from kit.course.anvil.history import History, Stage
from kit.course.anvil.look import COLUMNS, ROWS
from kit.course.anvil.sentence import counts, short
from kit.forge.billet import Billet
from kit.forge.steps import Size, Twist
from kit.metal import etch
from kit.section.block import Block
from kit.section.half import half_as_fine, whole
from kit.section.picture import LAYERS, Sheet, encode
from kit.section.surface import Plane
from kit.section.trace import Surface, see

MOST = 60  # frames of a film on the page
GROWING = 8  # frames of one act, at most
LONG = 3.5  # of a bar's length that is shown, in its thickest
SHARE = 0.64  # of the picture's width that the solid has; the rest is the bar's end
HEAD, HEAD_WIDE = 0.12, 0.036  # of the height, of the width: its words, whichever is less
FADE = 8  # pictures from the bar back to the stack
STANDS, GROWS = 1000, 90  # ms on the page: a bar whose act is done, and one on its way
LEAST_TURNED = 0.05  # of a twist, in the first frame of it
CELL = (92, 56)  # columns and rows of the strip, for each act
MARGIN = 3


class Frame(NamedTuple):
    """The bar at one moment, the stage it goes to, and whether that is reached."""

    bar: Billet
    stage: int
    reached: bool


def frames(history: History, at: int, most: int = MOST, held: int = 1) -> Iterator[Frame]:
    """Give the bar from the stack to a stage, act by act.

    An act that can be done by halves grows evenly from nothing; a fold, and what is cut,
    is there at once. What is refused is passed over.

    Parameters
    ----------
    history : History
    at : int
        The last stage, 0 the stack.
    most : int
        Pictures; with more acts than fit, some are passed over, never the last.
    held : int
        Pictures that a bar stands still when its act is done.
    """
    stages = [n for n in range(at + 1) if not history.stages[n].refused]
    every = math.ceil(len(stages) * held / most)
    kept = stages[len(stages) - 1 :: -every][::-1]
    each = min(GROWING, most // len(kept) - held + 1)
    yield Frame(history.stages[kept[0]].bar, kept[0], reached=True)
    for before, stage in pairwise(kept):
        act, begun = history.acts[stage - 1], history.stages[before].bar
        for part in range(1, each):  # none where acts are passed over: each is 1
            half = partly(act, part / each, begun)
            if half is not None:
                yield Frame(half, stage, reached=False)
        yield Frame(history.stages[stage].bar, stage, reached=True)


def partly(act: Act, share: float, bar: Billet) -> Billet | None:
    """Give the bar with an act done to a share, 0 … 1; None where it is not by halves.

    What is nothing at 0, or as the bar is, grows; all else is as it will be.
    """
    if isinstance(act, Laid):
        return None
    if isinstance(act, Twist):  # nothing is one turn in an endless length
        values = {"turn_length": act.turn_length / max(share, LEAST_TURNED)}
    elif act.nothing is None:
        return None
    else:
        values = {}
        for key, value in act:
            nothing = _nothing(act, key, bar.size)
            if nothing is not None and isinstance(value, float) and value != nothing:
                values[key] = nothing + share * (value - nothing)
    if not values:
        return None
    try:
        return done(type(act)(**{**dict(act), **values}), bar)
    except KitError:
        return None


def _nothing(act: Act, key: str, size: Size) -> float | None:
    """Give the value with which a step does nothing; None for what is no strength."""
    fields = type(act).model_fields
    value = act.nothing.get(key)
    if callable(value):
        return value(size)
    if not act.nothing:  # left out, it does nothing
        value = fields[key].default
    return 0.0 if value == 0 else None


@dataclass(frozen=True)
class Playing:
    """Pictures of a bar being made: the solid and its end; it fades into the first again.

    A weld that did not take is a dark line, and named where it was made.

    Parameters
    ----------
    history : History
    at : int
        The stage it goes to.
    columns, rows : int
        Size in pixels, even; left out, that of the page's picture.
    most, held : int
        As for `frames`.
    units : Units
    as_clay : bool
        The metals as clay.
    sunlit : bool
        Black on white.
    look : str
        "layers" or "steel".
    """

    history: History
    at: int
    columns: int = COLUMNS
    rows: int = ROWS
    most: int = MOST
    held: int = 1
    units: Units = Units.MM
    as_clay: bool = False
    sunlit: bool = False
    look: str = LAYERS

    @cached_property
    def frames(self) -> list[Frame]:
        """The bar at every moment."""
        return list(frames(self.history, self.at, self.most, self.held))

    def __len__(self) -> int:
        return sum(self.held if frame.reached else 1 for frame in self.frames) + FADE

    def __iter__(self) -> Iterator[Image.Image]:
        """Draw them one by one."""
        first = None
        for frame in self.frames:
            image = self.drawn(frame)
            first = first or image
            for _ in range(self.held if frame.reached else 1):
                yield image
        for part in range(1, FADE + 1):  # the last is the first, to the bit
            yield Image.blend(image, first, part / FADE)

    def played(self) -> Iterator[tuple[bytes, int]]:
        """Give each moment as the page shows it, and for how many ms."""
        for frame in self.frames:
            with whole() if frame.reached else half_as_fine():
                image = self.drawn(frame)
            moving = not frame.reached
            yield encode(image, moving=moving), GROWS if moving else STANDS

    def drawn(self, frame: Frame) -> Image.Image:
        """Draw one moment."""
        paper = {"sunlit": self.sunlit, "letters": 1, "look": self.look}
        sheet = Sheet(self.columns, self.rows, **paper)
        head = round(min(self.rows * HEAD, self.columns * HEAD_WIDE))
        metals = clay_tones if self.as_clay else etch.tones
        tones = metals(self.history.source.steels)
        found = void.flaws(self.history, frame.stage)
        for surface, left in self._surfaces(frame.bar.size, head):
            seen = see(frame.bar, surface, tones)
            seen = void.marked(seen, frame.bar, surface, found)
            sheet.steel(seen, (left, head), None if self.as_clay else surface)
        stage = self.history.stages[frame.stage]
        size = round(head * 0.72)
        thick = format_length(frame.bar.size.thickness, self.units)
        title = f"{frame.stage}  {short(self.history, frame.stage)}"
        if frame.stage in self.history.missed:
            title += ": did not take"
        sheet.text(title, (size // 2, head // 2), size=size, anchor="lm")
        words = f"{counts(stage)}; {thick} thick"
        right = (self.columns - size // 2, head // 2)
        sheet.text(words, right, size=size, anchor="rm")
        if not self.as_clay:
            foot = (size // 2, self.rows - size // 2)
            sheet.text("Tones illustrative", foot, size=round(0.7 * size), anchor="lm")
        return sheet.image

    def _surfaces(self, size: Size, head: int) -> Iterator[tuple[Surface, int]]:
        """Give the solid and the end, and where they stand."""
        wide, rows = round(self.columns * SHARE), self.rows - head
        shown = (max(0.0, size.length - self._window), size.length)
        span = shown if shown[0] else None
        block = Block(size=size, span=span, columns=wide, rows=rows, pixel=self._pixel)
        yield block, 0
        centre, shape = (size.length * 0.4, 0.0, 0.0), (self.columns - wide, rows)
        yield Plane.facing(size, "end", centre, shape, self._end_pixel), wide

    @cached_property
    def _sizes(self) -> list[Size]:
        return [frame.bar.size for frame in self.frames]

    @cached_property
    def _window(self) -> float:
        """So much of a bar's length is shown, mm."""
        return LONG * max(max(size.width, size.thickness) for size in self._sizes)

    @cached_property
    def _pixel(self) -> float:
        """The mm a pixel with which the largest of the bars fits."""
        wide, rows = round(self.columns * SHARE), round(self.rows * 0.88)
        return max(
            Block.fitted(
                size._replace(length=min(size.length, self._window)), wide, rows
            ).pixel
            for size in self._sizes
        )

    @cached_property
    def _end_pixel(self) -> float:
        columns, rows = self.columns * (1 - SHARE), self.rows * 0.88
        wide = max(size.width for size in self._sizes) / columns
        return 1.08 * max(wide, max(size.thickness for size in self._sizes) / rows)


def scale(history: History) -> float:
    """Give the mm a pixel with which the largest end of a history fits its cell."""
    wide = max(stage.size.width for stage in history.stages)
    high = max(stage.size.thickness for stage in history.stages)
    return max(wide / (CELL[0] - 2 * MARGIN), high / (CELL[1] - 2 * MARGIN))


class Row:
    """All stages side by side on white, drawn some at a time; the n-th cell is the n-th.

    Attributes
    ----------
    history : History, optional
        Whose stages they are.
    """

    def __init__(self) -> None:
        self.history: History | None = None
        self._drawn_as: tuple = ()
        self._cells: list[Image.Image] = []

    def begin(
        self, history: History, *, faces: bool = False, as_clay: bool = False
    ) -> None:
        """Take up another history: what is drawn of the same acts, in the same way, stays.

        Parameters
        ----------
        history : History
        faces : bool
            The top faces, from above, not the ends.
        as_clay : bool
            The metals as clay.
        """
        before, drawn_as = self.history, (history.source, scale(history), faces, as_clay)
        same = 0
        if before is not None and drawn_as == self._drawn_as:
            both = zip(before.acts, history.acts, strict=False)
            same = 1 + sum(1 for _ in takewhile(lambda acts: acts[0] == acts[1], both))
        self._cells, self._drawn_as, self.history = self._cells[:same], drawn_as, history

    def draw(self, seconds: float = math.inf) -> bool:
        """Draw on for some seconds, a cell at least; tell whether the row is whole."""
        source, pixel, faces, as_clay = self._drawn_as
        tones = (clay if as_clay else etch).tones(source.steels)
        end = time.monotonic() + seconds
        for stage in self.history.stages[len(self._cells) :]:
            if stage.refused:
                self._cells.append(self._cells[-1])
                continue
            sheet = Sheet(*CELL, sunlit=True)
            sheet.steel(see(stage.bar, _surface(stage, pixel, faces=faces), tones), (0, 0))
            self._cells.append(sheet.image)
            if time.monotonic() > end:
                break
        return len(self._cells) == len(self.history.stages)

    @property
    def image(self) -> Image.Image:
        """What is drawn of it."""
        columns, rows = CELL
        whole = Sheet(columns * len(self._cells), rows, sunlit=True).image
        for place, cell in enumerate(self._cells):
            whole.paste(cell, (place * columns, 0))
        return whole


def _surface(stage: Stage, pixel: float, *, faces: bool) -> Plane:
    size = stage.size
    shown, height = ("face", size.thickness / 2 - 1e-3) if faces else ("end", 0.0)
    return Plane.facing(size, shown, (size.length * 0.4, 0.0, height), CELL, pixel)

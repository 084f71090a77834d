"""The pictures of a film: a forging step by step, or one bar ground deeper and deeper.

Every film is a loop: after its last picture the first can come again without a jump.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from kit.basics.errors import KitError
from kit.basics.units import Units, format_length
from kit.metal import etch
from kit.section.block import Block
from kit.section.picture import Sheet
from kit.section.surface import Plane
from kit.section.trace import see

if TYPE_CHECKING:
    from PIL import Image

    from kit.forge.billet import Billet

TITLE = 34  # pixels at the top for the words, on a picture 540 pixels high
MOST_FRAMES = 2000


@dataclass(frozen=True)
class Film:
    """Pictures to be made one after another.

    Parameters
    ----------
    billet : Billet
    columns, rows : int
        Size in pixels; both even, as films must be.
    hold, fade : int
        Pictures that a stage stands still, and that it takes to turn into the next.
    units : Units
        Of the sizes in the titles.
    """

    billet: Billet
    columns: int = 960
    rows: int = 540
    hold: int = 14
    fade: int = 10
    units: Units = Units.MM

    def __post_init__(self) -> None:
        """Refuse a film that no player shows."""
        for name, size in (("wide", self.columns), ("high", self.rows)):
            if not (64 <= size <= 3840 and size % 2 == 0):
                msg = (
                    f"A film must be an even number of pixels {name}, from 64 to 3840. "
                    f"Given: {size}."
                )
                raise KitError(msg)
        if len(self) > MOST_FRAMES:
            msg = (
                f"A film can have at most {MOST_FRAMES} pictures. Given: "
                f"{len(self)}, for {len(self.stages)} stages."
            )
            raise KitError(msg)

    @property
    def stages(self) -> list[Billet]:
        """The bar as stacked and after every step."""
        return [self.billet[:count] for count in range(len(self.billet) + 1)]

    def __len__(self) -> int:
        return len(self.stages) * (self.hold + self.fade) + 1

    def __iter__(self) -> Iterator[Image.Image]:
        """Make the pictures; the last is the same as the first."""
        from PIL import Image  # noqa: PLC0415  (keeps the core's import quick)

        first = now = self._still(0)
        count = len(self.stages)
        for stage in range(count):
            coming = first if stage == count - 1 else self._still(stage + 1)
            for _ in range(self.hold):
                yield now
            for step in range(1, self.fade + 1):
                share = step / (self.fade + 1)
                yield Image.blend(now, coming, 0.5 - 0.5 * math.cos(math.pi * share))
            now = coming
        yield first

    def _still(self, stage: int) -> Image.Image:
        """Draw one stage as a solid, with its name and its numbers."""
        bar = self.stages[stage]
        sheet = Sheet(self.columns, self.rows)
        top = round(self.rows * TITLE / 540)
        block = Block.fitted(bar.size, self.columns, self.rows - 2 * top)
        sheet.steel(see(bar, block, etch.tones(bar.source.steels)), (0, top))
        name = self.billet.steps[stage - 1].step if stage else "stack"
        letters = round(top * 0.62)
        sheet.text(f"{stage}  {name}", (top // 2, top // 2), size=letters, anchor="lm")
        size = " by ".join(format_length(side, self.units) for side in bar.size)
        words = f"{size};  {bar.layers:,} layers"
        sheet.text(words, (self.columns - top // 2, top // 2), size=letters, anchor="rm")
        foot = self.rows - top // 2
        sheet.text(
            "Tones illustrative", (top // 2, foot), size=letters // 2 + 4, anchor="lm"
        )
        return sheet.image


@dataclass(frozen=True)
class Grinding:
    """A bar ground from its face to its middle and back: faces at every depth.

    Parameters
    ----------
    billet : Billet
    columns, rows : int
        Size in pixels, even.
    count : int
        Pictures until it begins anew.
    """

    billet: Billet
    columns: int = 960
    rows: int = 540
    count: int = 120

    def __len__(self) -> int:
        return self.count + 1

    def __iter__(self) -> Iterator[Image.Image]:
        """Make the pictures; the last is the same as the first."""
        tones = etch.tones(self.billet.source.steels)
        length, width, thickness = self.billet.size
        pixel = 1.04 * max(min(length, 120.0) / self.columns, width / self.rows)
        for number in range(len(self)):
            turned = 2 * math.pi * (number % self.count) / self.count
            share = 0.5 + 0.5 * math.cos(turned)  # 1 at the face, 0 in the middle
            face = Plane(
                size=self.billet.size,
                centre=(length / 2, 0.0, (thickness / 2 - 1e-3) * share),
                right=(1.0, 0.0, 0.0),
                up=(0.0, 1.0, 0.0),
                columns=self.columns,
                rows=self.rows,
                pixel=pixel,
            )
            sheet = Sheet(self.columns, self.rows)
            sheet.steel(see(self.billet, face, tones), (0, 0))
            yield sheet.image

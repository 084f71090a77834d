"""The bar of one stage, looked at: its end, side or face, a slant, a bevel, the solid."""

import math
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from typing import Any, ClassVar

from kit.basics.told import counted, listed
from kit.basics.units import Units, format_length
from kit.course.anvil import clay, void
from kit.course.anvil.run_out import tick
from kit.course.anvil.sentence import Gap, alike, filled, sizes
from kit.course.anvil.void import Flaws
from kit.course.lessons.scene import Panel, Scene
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import Size
from kit.metal import etch
from kit.section.block import Block
from kit.section.picture import GHOST, INK, Sheet
from kit.section.surface import (
    Plane,
    cut,
    cut_normal,
    face_depth,
    fitting,
    shown_at,
    told_place,
)
from kit.section.trace import Face, Surface, Tones, see
from kit.section.welds import darkened
from kit.shop.recipes.talk import Looked

COLUMNS, ROWS = 1000, 218  # pixels
FINE = " Its layers are finer than this picture can show, and run together into grey."
OUT = " Where the gap of an open weld runs out, its edge bears {}."
MAIN = (12, 34, 640, 180)  # left, top, columns, rows
SOLID = (676, 34, 312, 180)
BAR = 120  # pixels of a scale bar, at most
LEAST_MARKED = 10  # pixels of a bar's end that bears marks
LONGEST = 90.0  # mm of a face that is shown
WHOLE_OR_PART = ("The bar", "Part of the bar")


class Look(Looked):
    """How a bar is looked at: what is drawn of it, and in words."""

    templates: ClassVar[dict[str, str]] = {
        "face": ", ground {ground} down",
        "slant": ", sawn at {angle}",
        "bevel": ", ground at {bevel}",
    }

    @property
    def says(self) -> str:
        """How the sentence goes on after "Look at its end"."""
        return self.templates.get(self.kind, "")

    def parts(self, bar: Billet) -> list[str | Gap]:
        """Give the rest of the sentence, words and gaps in turn, as this bar is shown."""
        round_face = self.kind == "face" and bar.size.round
        no_flat = " (a round bar has no flat at 0)" if round_face else ""
        depths = {
            "low": face_depth(bar),
            "high": face_depth(bar, bar.size.thickness),
            "value": self.depth(bar),
        }
        return [
            replace(part, **depths)
            if isinstance(part, Gap) and part.key == "ground"
            else part
            for part in filled(self, self.says + no_flat)
        ]

    def plane(self, bar: Billet, columns: int, rows: int) -> Plane | Block:
        """Give the surface that is looked at, as large as fits."""
        size = bar.size
        if self.kind == "solid":
            return Block.fitted(size, columns, rows, span=_near_end(bar))
        if self.kind == "slant":
            long = min(self.long(size), LONGEST)
            pixel = fitting(1.05 * long / columns, 1.05 * size.width / rows)
            plane = cut(size, angle=self.angle, columns=columns, rows=rows, pixel=pixel)
            return replace(
                plane, right=plane.up, up=(0.0, -1.0, 0.0)
            )  # lying, as it is long
        if self.kind == "bevel":
            lean = math.radians(self.bevel)
            high = min(size.width / math.cos(lean), size.thickness / math.sin(lean))
            long = min(LONGEST, size.length)
            pixel = fitting(1.05 * long / columns, 1.05 * high / rows)
            plane = Plane(
                size=size,
                centre=(0.0, 0.0, 0.0),
                right=(1.0, 0.0, 0.0),
                up=(0.0, math.cos(lean), math.sin(lean)),
                columns=columns,
                rows=rows,
                pixel=pixel,
            )
        else:
            plane = shown_at(bar, self.kind, columns, rows, ground=self.ground)
        if self.kind == "end":
            return plane
        _x, y, top = plane.centre
        return replace(plane, centre=told_place((_middle(plane), y, top)))

    def long(self, size: Size) -> float:
        """Give how long the cut is from edge to edge, or from end to end of the bar, mm."""
        if self.kind != "slant":
            return size.length
        lean = math.radians(self.angle)
        return min(size.thickness / math.sin(lean), size.length / math.cos(lean))

    def partial(self, bar: Billet) -> bool:
        """Tell whether only a part of it is shown, the rest beyond the frame."""
        if self.kind == "end":
            return False
        if self.kind == "solid":
            return _near_end(bar)[0] > 0
        plane = self.plane(bar, *MAIN[2:])
        return self.long(bar.size) > plane.columns * plane.pixel

    def depth(self, bar: Billet) -> float:
        """Give how deep the face lies, mm; in a round bar not at the very skin."""
        return face_depth(bar, self.ground)


def scene(
    bar: Billet,
    look: Look,
    /,
    units: Units = Units.MM,
    *,
    as_clay: bool = False,
    found: Flaws = ((),),
    **paper: Any,
) -> Scene:
    """Draw a bar: what is looked at, and the solid beside it.

    Parameters
    ----------
    bar : Billet
    look : Look
    units : Units
    as_clay : bool
        The metals as clay; on the end of a stack each bar bears its chisel marks.
    found : sequence of sequence of Flaw
        Its welds that did not take, from `void.flaws`.
    **paper
        As `Sheet` has it: sunlit, letters, look; clay is no steel.
    """
    steels = dict.fromkeys(bar.source.steels)
    tones = (clay if as_clay else etch).tones(steels)
    twins = "" if as_clay else alike(steels)
    called = clay.clays(steels) if as_clay else {one: one for one in steels}
    sheet = Sheet(COLUMNS, ROWS, **paper)
    left, top, columns, rows = MAIN
    surface = look.plane(bar, columns, rows)
    sheet.above((left, top), title(look, bar, units))
    sheet.scale_bar((left + columns - BAR - 6, top - 8), surface.pixel, units, most=BAR)

    def traced(surface: Surface) -> Face:
        return void.marked(see(bar, surface, tones), bar, surface, found)

    panel, ticks = _looked_at(sheet, bar, surface, tones, found, as_clay=as_clay)
    if as_clay and look.kind == "end" and _bears_its_bars(bar):
        _marks(sheet, bar, surface)
    panels, fine = [panel], FINE if _run_together(panel, tones) else ""
    if look.kind != "solid":
        panels.append(_solid(sheet, bar, look, traced, units, as_clay=as_clay))
    return Scene(
        image=sheet.image,
        alt=_alt(bar, look, panel, units, list(called.values())) + ticks + twins + fine,
        numbers=(),
        says=fine.strip(),
        panels=tuple(panels),
        clays=called if as_clay else {},
    )


def _looked_at(
    sheet: Sheet,
    bar: Billet,
    surface: Surface,
    tones: Tones,
    found: Flaws,
    *,
    as_clay: bool,
) -> tuple[Panel, str]:
    """Draw what is looked at, ticks where open welds run out; give it, and tell of them."""
    left, top, columns, rows = MAIN
    seen, dark = see(bar, surface, tones), None
    if any(found):
        dark = void.lines(bar, surface, found)
        seen = darkened(seen, dark)
    sheet.steel(seen, (left, top), None if as_clay else surface)
    sheet.box((left, top), (left + columns, top + rows), ink=GHOST)
    ticks = 0 if dark is None else tick(sheet, seen.cover, dark, (left, top))
    told = OUT.format(counted(ticks, "pointed mark")) if ticks else ""
    return Panel(bar, surface, (left, top), seen), told


def _run_together(panel: Panel, tones: Tones) -> bool:
    """Say whether layers are finer than pixels, and none has one metal's tone alone."""
    shown = panel.face.tone[panel.face.cover > 0.5]
    low, high = min(tones.values()), max(tones.values())
    room = 0.05 * (high - low)
    if not shown.size or panel.billet.mean_layer >= panel.surface.pixel:
        return False
    return bool(low + room < shown.min() and shown.max() < high - room)


def title(look: Look, bar: Billet, units: Units) -> str:
    """Say what is looked at, as it stands above the picture."""
    ends = bar.size.length / math.cos(math.radians(look.angle))
    out = look.kind == "slant" and look.long(bar.size) == ends
    way = "from end to end" if out else "on the slant"
    whole, part = {
        "face": ("Its face", "Part of its face"),
        "slant": (f"Sawn {way}", f"Part of a cut {way}"),
        "bevel": ("A bevel", "Part of a bevel"),
        "end": ("Its end", ""),
        "side": ("Its side, cut through the middle", "Part of its side, cut in the middle"),
        "solid": WHOLE_OR_PART,
    }[look.kind]
    more = {
        "face": f", {format_length(look.depth(bar), units)} ground off",
        "slant": f", {look.angle:g}° to its length",
        "bevel": f" ground at {look.bevel:g}°",
    }
    return (part if look.partial(bar) else whole) + more.get(look.kind, "")


def _alt(bar: Billet, look: Look, seen: Panel, units: Units, metals: list[str]) -> str:
    layers = f"{counted(bar.layers, 'layer')} of {listed(metals)}"
    done = f"after {counted(len(bar), 'step')}" if len(bar) else "as it was stacked"
    return (
        f"A bar {done}, {sizes(bar.size, units)}: {layers}. "
        f"{title(look, bar, units)}: {seen.shows}."
    )


def _bears_its_bars(bar: Billet) -> bool:
    """Tell whether the end still shows each bar of the stack, lying as it was laid."""
    flat = isinstance(bar.source, Stack) and bar.level == len(bar)
    return flat and bar.layers == len(bar.source.layers)


def _marks(sheet: Sheet, bar: Billet, surface: Plane) -> None:
    """Strike the cold chisel's strokes into the end of each bar that is thick enough."""
    left, top, columns, rows = MAIN
    middle = left + columns / 2, top + rows / 2
    names = list(clay.clays(bar.source.steels))
    start = middle[0] - bar.size.width / 2 / surface.pixel + 10
    places = middle[1] - (bar.source.edges - 0.5) * bar.size.thickness / surface.pixel
    for steel, (low, high) in zip(bar.source.steels, pairwise(places), strict=True):
        if low - high < LEAST_MARKED:
            continue
        ink = "#FFFFFF" if clay.tones(names)[steel] < 0.2 else INK
        for stroke in range(names.index(steel) + 1):
            x = start + 7 * stroke
            sheet.line([(x, low - 3), (x + 2, high + 3)], ink=ink, width=2)


def _solid(
    sheet: Sheet,
    bar: Billet,
    look: Look,
    traced: Callable[[Surface], Face],
    units: Units,
    *,
    as_clay: bool,
) -> Panel:
    """Draw the bar as it lies on the bench, sawn where it is looked at."""
    left, top, columns, rows = SOLID
    sawn = None
    if look.kind == "slant":
        sawn = cut_normal(look.angle), (bar.size.length / 2, 0.0, 0.0)
    span = _near_end(bar, middle=sawn is not None)
    block = Block.fitted(bar.size, columns, rows, cut=sawn, span=span)
    part = span[1] - span[0] < bar.size.length
    sheet.above((left, top), WHOLE_OR_PART[int(part)])
    sheet.steel(traced(block), (left, top), None if as_clay else block)
    sheet.scale_bar((left + columns - BAR - 6, top - 8), block.pixel, units, most=BAR)
    return Panel(bar, block, (left, top))


def _middle(plane: Plane) -> float:
    """Say where along a bar its frame lies, mm: on all of it, or filled by a part of it."""
    long, wide = plane.size.length, plane.columns * plane.pixel
    return long / 2 if wide >= long else max(0.4 * long, wide / 2)


def _near_end(bar: Billet, *, middle: bool = False) -> tuple[float, float]:
    """Choose so much of a long bar that its end can still be seen."""
    size = bar.size
    shown = min(size.length, 3.5 * max(size.width, size.thickness))
    low = (size.length - shown) / 2 if middle else size.length - shown
    return low, low + shown

"""A plan from one's own rack, drawn: the stack from its end, and every bar to saw."""

from collections import Counter
from itertools import groupby, pairwise
from typing import Any

from kit.basics.told import counted, listed, one_way
from kit.basics.units import Units, format_cut_length, format_length, format_stock
from kit.course.lessons.plan_drawing import tone
from kit.course.lessons.scene import Scene
from kit.section.picture import QUIET, Sheet
from kit.shop.from_rack import FromRack
from kit.shop.sawing import Sawn

STACK = (72, 78, 290, 230)  # left, top, width, height
BARS = (420, 44, 560)  # left, top, width; pixels, ours as below
RULER = 16  # from the left
TITLE = 8  # from the top
BAR = 20  # pixels, how high a bar to saw is drawn
MOST = 12  # rows of bars, ours

_Rows = list[tuple[tuple[Sawn, bool], int]]  # a bar sawn, whether it lacks; how many such


def drawn(made: FromRack, units: Units, **paper: Any) -> Scene:
    """Draw what a rack gives for a plan; thicknesses in the stack are true to each other.

    Parameters
    ----------
    made : FromRack
    units : Units
    **paper
        As the reader chose, for `Sheet`.
    """
    like = Counter((sawn, False) for sawn in made.sawn)
    for bar, count in made.missing:
        like[Sawn(bar, count, made.each, made.plan.losses.kerf, 0), True] += 1
    rows = list(like.items())
    pitch = BAR + 2 * Sheet(1, 1, **paper).row
    shown = rows[: MOST if len(rows) <= MOST else MOST - 1]
    high = max(STACK[1] + STACK[3] + 3 * pitch // 2, BARS[1] + pitch * (len(shown) + 1))
    sheet = Sheet(1000, high, **paper)
    _stack(sheet, made, units)
    _bars(sheet, shown, units)
    if more := len(rows) - len(shown):
        place = BARS[0], BARS[1] + pitch * len(shown)
        sheet.text(f"and {counted(more, 'more bar')}: see the list below", place)
    return Scene(image=sheet.image, alt=_alt(made, rows, units), numbers=())


def _stack(sheet: Sheet, made: FromRack, units: Units) -> None:
    left, top, wide, high = STACK
    stack = made.plan.billet.source
    scale = min(wide / stack.width, high / stack.thickness)
    right, y = left + stack.width * scale, top + stack.thickness * scale
    sheet.text("The stack, from its end", (RULER, TITLE), size=18)
    sheet.ruler((RULER, y), y - top, 1 / scale, units)
    foot = y
    for layer in stack.layers:
        over = y - layer.thickness * scale
        sheet.box((left, over), (right, y), fill=tone(layer.steel))
        y = over
    words = f"{format_length(stack.thickness, units)} thick"
    sheet.text(words, (left, foot + 8), size=16)
    sheet.text("tones illustrative", (left, foot + 8 + sheet.row), ink=QUIET)


def _bars(sheet: Sheet, rows: _Rows, units: Units) -> None:
    left, top, wide = BARS
    sheet.text("What to saw", (left, TITLE), size=18)
    longest = max((s.rack.length for (s, lacks), _ in rows if not lacks), default=0)
    needed = max((s.pieces * (s.length + s.kerf) for (s, _), _ in rows), default=0)
    scale = wide / max(longest, needed, 1)
    pitch = BAR + 2 * sheet.row
    for at, ((sawn, lacks), count) in enumerate(rows):
        y = top + at * pitch
        sheet.text(_row(sawn, count, units, lacks=lacks), (left, y))
        y += sheet.row + 3
        if not lacks:
            end = left + sawn.rack.length * scale
            sheet.box((left, y), (end, y + BAR), fill=sheet.page)
        for piece in range(sawn.pieces):
            x = left + piece * (sawn.length + sawn.kerf) * scale
            corners = (x, y), (x + sawn.length * scale, y + BAR)
            if lacks:
                _dashed(sheet, *corners)
            else:
                sheet.box(*corners, fill=tone(sawn.rack.steel))


def _dashed(sheet: Sheet, corner: tuple, opposite: tuple) -> None:
    """Outline what is not there."""
    (x, y), (right, low) = corner, opposite
    round_it = [(x, y), (right, y), (right, low), (x, low), (x, y)]
    for start, end in pairwise(round_it):
        sheet.dashes(start, end)


def _row(sawn: Sawn, count: int, units: Units, *, lacks: bool) -> str:
    def say(units: Units) -> str:
        thick = f"{sawn.rack.steel}, {format_stock(sawn.rack.thickness, units)}"
        long = format_cut_length(sawn.length, units)
        if lacks:
            pieces = counted(sawn.pieces, "piece")
            return f"missing: {pieces} of {thick}. Each {long} long"
        bars = f"{counted(count, 'bar')} of {format_length(sawn.rack.length, units)}"
        each = " each" if count > 1 else ""
        return f"{thick}. {bars}, {sawn.pieces} × {long}{each}"

    return one_way(say, units)


def _alt(made: FromRack, rows: _Rows, units: Units) -> str:
    """Say the picture: the stack from below, then the bars."""
    stack = made.plan.billet.source

    def layers(units: Units) -> str:
        told = [f"{one.steel} {format_stock(one.thickness, units)}" for one in stack.layers]
        runs = ((words, len(list(run))) for words, run in groupby(told))
        return listed(f"{many} × {words}" if many > 1 else words for words, many in runs)

    thick, wide = (format_length(side, units) for side in (stack.thickness, stack.width))
    bars = "; ".join(_row(s, many, units, lacks=lacks) for (s, lacks), many in rows)
    return (
        f"The end of a stack {thick} thick and {wide} wide; from below: "
        f"{one_way(layers, units)}. To saw: {bars}."
    )

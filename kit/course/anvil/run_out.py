"""Where the gap of an open weld runs out at a picture's edge, and a mark beside it there.

Between two dark layers, as a mirror fold leaves them, nobody sees a black line. So a tick
that is no steel stands beside the steel and points at its end.
"""

from typing import NamedTuple

import numpy as np

from kit.section.picture import ACCENT, Sheet

# Ours, tried on folded, twisted and pressed bars.
LEAST, SHARE = 0.02, 0.3  # of black: what belongs to a line; of the blackest in the picture
DEEP = 3  # pixels within the edge in which a line is looked for
WIDEST = 40  # pixels along an edge: what is longer runs beside it and not out
APART = 14  # pixels between two ticks
LONG, HALF = 10, 5  # pixels of a tick, in a picture a thousand wide
WORDS = "open weld"
CLEAR = 0.78  # of a picture's width: above it on the right stands its scale bar
ROOM = 5.6  # times the height of its letters is the room that these words need


class Out(NamedTuple):
    """A place where a line runs out, pixels, and which way the steel lies from there."""

    x: float
    y: float
    right: int
    down: int


def run_outs(cover: np.ndarray, dark: np.ndarray) -> list[Out]:
    """Find where the lines of open welds meet the edge of the steel.

    Parameters
    ----------
    cover, dark : array
        How much of each pixel is steel, and how much is a gap's black line, 0 … 1.
    """
    if not dark.any():
        return []
    steel = cover > 0.5
    black = steel & (dark > max(LEAST, SHARE * float(dark[steel].max(initial=0))))
    found: list[Out] = []
    for right, down in ((1, 0), (-1, 0), (0, 1), (0, -1)):
        one, line = (part.T if down else part for part in (steel, black))
        flip = right + down < 0
        one, line = (part[:, ::-1] if flip else part for part in (one, line))
        last = one.shape[1] - 1
        edge = one.argmax(axis=1)
        within = np.minimum(edge[:, None] + np.arange(DEEP), last)
        met = np.flatnonzero(one.any(axis=1) & np.take_along_axis(line, within, 1).any(1))
        for run in np.split(met, np.flatnonzero(np.diff(met) > 2) + 1):
            if not len(run) or len(run) > WIDEST:
                continue
            along, deep = float(run.mean()) + 0.5, float(edge[run[len(run) // 2]])
            deep = last + 1 - deep if flip else deep
            x, y = (along, deep) if down else (deep, along)
            if all(np.hypot(x - there.x, y - there.y) >= APART for there in found):
                found.append(Out(x, y, right, down))
    return found


def tick(
    sheet: Sheet,
    cover: np.ndarray,
    dark: np.ndarray,
    at: tuple[int, int],
    size: float = 1.0,
) -> int:
    """Set a tick beside each place where an open weld runs out, and once its name.

    Parameters
    ----------
    sheet : Sheet
    cover, dark : array
        As for `run_outs`.
    at : (int, int)
        Where the picture's upper left corner lies on the sheet.
    size : float
        How many times larger than on a picture a thousand pixels wide.

    Returns
    -------
    int
        How many were drawn: where words stand there is none.
    """
    found = run_outs(cover, dark)
    drawn = []
    for out in found:
        points = _pointed(out, at, size, sheet.image.size)
        across, down = zip(*points, strict=True)
        if len(found) < 2 or sheet.free(min(across), min(down), max(across), max(down)):
            sheet.shape(points, fill=ACCENT)
            drawn.append(out)
    drawn.sort(key=lambda out: out.right)  # the words stand best at the right edge
    off = LONG * size + 6
    if drawn and not any(_named(sheet, out, cover, at, off) for out in drawn):
        _key(sheet, cover, at, size)
    return len(drawn)


def _pointed(
    out: Out, at: tuple[int, int], size: float, room: tuple[int, int]
) -> list[tuple[float, float]]:
    """Give the corners of a tick, its point beside the steel; shorter at a sheet's end."""
    x, y = out.x + at[0] - 2 * out.right, out.y + at[1] - 2 * out.down
    back = x - LONG * size * out.right, y - LONG * size * out.down
    back = tuple(min(max(0.0, one), most - 1) for one, most in zip(back, room, strict=True))
    wide, high = HALF * size * out.down, HALF * size * out.right
    return [(x, y), *((back[0] + way * wide, back[1] + way * high) for way in (1, -1))]


def _named(
    sheet: Sheet, out: Out, cover: np.ndarray, at: tuple[int, int], off: float
) -> bool:
    """Write the words behind a tick at a side, or beside one above, if there is room."""
    rows, columns = cover.shape
    wide, high = ROOM * sheet.letters, sheet.letters
    if out.down < 0:
        return False
    if out.down:
        left, low = out.x + off, at[1] - 2 - high // 4  # as `Sheet.above` writes
        box = (left + at[0], low - high, left + at[0] + wide, low)
        if left + wide > CLEAR * columns or low < high or not sheet.free(*box):
            return False
        sheet.text(WORDS, (box[0], low), size=high, anchor="ls", ink=ACCENT)
        return True
    near = out.x - off * out.right
    left, right = sorted((near, near - wide * out.right))
    if left < 0 or right > columns or not high / 2 < out.y < rows - high / 2:
        return False
    box = cover[int(out.y - high / 2) : int(out.y + high / 2) + 1, int(left) : int(right)]
    if (box > LEAST).any():
        return False
    place, anchor = (near + at[0], out.y + at[1]), "rm" if out.right > 0 else "lm"
    sheet.text(WORDS, place, size=high, anchor=anchor, ink=ACCENT)
    return True


def _key(sheet: Sheet, cover: np.ndarray, at: tuple[int, int], size: float) -> None:
    """Write a tick and its name in a lower corner of the picture that holds no steel."""
    rows, columns = cover.shape
    wide, high = round(2 * LONG * size + ROOM * sheet.letters), 2 * sheet.letters
    for left in (columns - wide, 0):
        if left >= 0 and not (cover[-high:, left : left + wide] > LEAST).any():
            x, y = at[0] + left + LONG * size, at[1] + rows - high / 2
            tall, half = LONG * size / 2, HALF * size
            corners = [(x, y - tall), (x - half, y + tall), (x + half, y + tall)]
            sheet.shape(corners, fill=ACCENT)
            place = x + LONG * size, y
            sheet.text(WORDS, place, size=sheet.letters, anchor="lm", ink=ACCENT)
            return

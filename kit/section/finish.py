"""How etched steel catches a raking lamp: relief, sanding and sheen.

Ferric chloride eats the dark steel a few micrometres down and leaves it matt; the
bright steel stands proud and keeps some of its polish. A flat tone cannot show that.
Here every pixel leans a little: by the shape of the blade, by the step from bright to
dark, by the fine scratches of the last sanding. The lamp does the rest.

It makes no pattern: where there is only one steel, every history looks alike. On a flat
face the light is 1 on average, and the tones draw a little together, for even black
steel mirrors some of the room.

All numbers are illustrative: how deep makers etch and how smooth they sand is common
practice without a source, and the steps are drawn many times too steep so that the eye
can see them.
"""

import math
from functools import lru_cache

import numpy as np

from kit.basics.declare import Declared, quantity
from kit.section.half import thinned
from kit.section.trace import Face, Surface

_SCRATCH = 0.12  # how strongly the sanding shows
_WIDTHS = tuple(2.0**power for power in range(-6, 0))  # of scratches, mm
_STRIPES = 4  # for each width
_LONG = 60  # a scratch is so many times longer than wide
_GRIT = 0.07  # how strongly the bitten surface is mottled, pixel by pixel
_PIECE = 1024  # pixels of a solid, until its scratches run back; a power of two
_TILE = 256  # pixels, until the mottling comes round again


@lru_cache(maxsize=8)  # five faces of one blade, and what else stays where it is
def scratches(
    rows: int, columns: int, pixel: float, middle: tuple[float, float]
) -> np.ndarray:
    """Scratch the steel from left to right: brighter (+) and darker (-) streaks.

    Widths double from one set of scratches to the next; those finer than a pixel do
    not show. Each set is a sum of a few stripes, strong here and weak there.
    """
    across = _lines(rows, -pixel, float(middle[1]), along=False)
    return across.T @ _lines(columns, pixel, float(middle[0]), along=True)


def scratches_at(along: np.ndarray, across: np.ndarray, pixel: float) -> np.ndarray:
    """Scratch the faces of a solid: mm along the sanding and across it at every pixel."""
    columns, rows = (np.rint(part / pixel).astype(np.int32) for part in (along, across))
    # there and back over one piece of steel: so it ends nowhere
    columns, rows = (np.abs((part & (2 * _PIECE - 1)) - _PIECE) for part in (columns, rows))
    return scratches(_PIECE + 1, _PIECE + 1, pixel, (0.0, 0.0))[rows, columns]


@lru_cache(maxsize=64)  # most of a picture that moves stays where it is
def _lines(count: int, pixel: float, middle: float, *, along: bool) -> np.ndarray:
    """Draw the sets' random lines on one side of a picture, along or across the streaks."""
    place = middle + pixel * (np.arange(count) - (count - 1) / 2)
    lines = [np.zeros((1, count))]
    for number, width in enumerate(_WIDTHS):
        strength = min(1.0, 2 * width / abs(pixel) - 1)
        if strength > 0 and along:
            lines.append(_noise(place / (_LONG * width), number + len(_WIDTHS)))
        elif strength > 0:
            lines.append(strength * _noise(place / width, number))
    every = np.concatenate(lines)
    if not along:
        every *= _SCRATCH / math.sqrt(max(len(every) - 1, 1))
    return every.astype(np.float32)


def _noise(place: np.ndarray, number: int) -> np.ndarray:
    """Draw a few smooth random lines, -1 … 1, that turn at every whole number."""
    before = np.floor(place)
    share = place - before
    share *= share * (3 - 2 * share)
    first = before.astype(np.int64) + 997 * number
    first = first + 89 * np.arange(_STRIPES)[:, None]
    chance = _chances()
    here, next_ = chance[first % len(chance)], chance[(first + 1) % len(chance)]
    return here + share * (next_ - here)


def grit(rows: int, columns: int, first: int = 0) -> np.ndarray:
    """Give the bitten surface a grain of a few pixels, the same in every picture."""
    tall = _grit_tile().take(np.arange(first, first + rows), 0, mode="wrap")
    return tall.take(np.arange(columns), 1, mode="wrap")


@lru_cache(maxsize=1)
def _grit_tile() -> np.ndarray:
    fine = _chances()[: _TILE**2].reshape(_TILE, _TILE)
    coarse = fine
    for axis in (0, 1):
        coarse = sum(np.roll(coarse, shift, axis) for shift in (-1, 0, 1))
    tile = fine + coarse
    return (tile * (_GRIT / tile.std())).astype(np.float32)


@lru_cache(maxsize=1)
def _chances() -> np.ndarray:
    """Draw numbers from -1 to 1, the same on every machine.

    By mixing the bits of 0, 1, 2 …: Wellons, Prospecting for Hash Functions (2018),
    lowbias32.
    """
    mixed = np.arange(_TILE**2, dtype=np.uint32)
    for shift, factor in ((16, 0x7FEB352D), (15, 0x846CA68B)):
        mixed = (mixed ^ (mixed >> np.uint32(shift))) * np.uint32(factor)
    return (mixed ^ (mixed >> np.uint32(16))) / 2.0**31 - 1


ILLUSTRATIVE = (
    "Steel as etched is illustrative, too: its steps are drawn far too steep, sanding and "
    "sheen are our choice, and oxide colours, stains and uneven etching are left out."
)

HAZE = 0.15  # share of its tone that a face owes to the room mirrored in it
SUN_HAZE = 0.0  # what is read in the sun mirrors none: there dark steel has to be dark
_ROOM = 0.3  # how bright that room is
_STEP = 0.4  # how far a wall between brightest and blackest steel leans, mm a mm
_WALL = 0.03  # how wide it is, mm, and never less than two pixels
WIDEST = 32  # pixels, half a wall under the strongest loupe
_CORNER = 0.4  # how far the broken edge of the steel leans
_LAMP = 0.7  # share of the light that comes from the lamp; the rest is from all round
_SHEEN = 0.75  # how much brighter white steel is where it mirrors the lamp
_ALONG, _ACROSS = 0.14, 0.6  # how far the mirroring spreads along the sanding, across it


class Lamp(Declared):
    """Where the lamp stands, by two angles and how near it is."""

    turned: float = quantity(
        "Lamp turned", "where it stands round the picture: 0 right, 90 above, 180 left",
        low=-180, high=360, unit="°", default=115,
    )  # fmt: skip
    raised: float = quantity(
        "Lamp raised", "above the steel: low rakes over it and shows every step",
        low=10, high=90, unit="°", default=30,
    )  # fmt: skip
    near: float = quantity(
        "Lamp near", "half of the picture's width against its distance; 0: all lit alike",
        low=0, high=1, default=0.5,
    )  # fmt: skip

    @property
    def towards(self) -> tuple[float, float]:
        """How far the lamp stands to the right and up for each unit of its height."""
        aside = 1 / math.tan(math.radians(self.raised))
        turned = math.radians(self.turned)
        return aside * math.cos(turned), aside * math.sin(turned)


def lit(  # noqa: PLR0913
    face: Face,
    *,
    pixel: float,
    middle: tuple[float, float] = (0.0, 0.0),
    grain: str | np.ndarray = "right",
    leans: tuple[np.ndarray | float, np.ndarray | float] = (0.0, 0.0),
    lamp: Lamp | None = None,
    mirrored: float = HAZE,
    band: tuple[int, int] | None = None,
) -> Face:
    """Shine a lamp on an etched face, or on a band of rows of it.

    Parameters
    ----------
    face : Face
        As `see` gives it.
    pixel : float
        Width of a pixel, mm.
    middle : (float, float)
        The middle of the picture, mm to the right and up, so that the scratches stay
        on the steel when the picture moves.
    grain : str or array
        Which way the sanding ran: "right", "up", or "" where none is drawn; or how much
        brighter it makes each pixel, where faces have each a way of their own.
    leans : (array or float, array or float)
        How steeply the surface rises towards the eye, to the right and up, mm a mm:
        for a blade ``blade.leans()``; a flat face or a block needs none.
    lamp : Lamp, optional
        Left out, a low lamp above the picture, to the left.
    mirrored : float
        Share of its tone that steel owes to the room mirrored in it, 0 … 1.
    band : (int, int), optional
        The first of these rows in the picture, and how many the picture has.

    Returns
    -------
    Face
        The same tone and cover under another light, which may exceed 1.
    """
    face = Face(*(part.astype(np.float32, copy=False) for part in face))
    rows, columns = face.tone.shape
    first, of_all = band or (0, rows)
    lamp = lamp or Lamp()
    right, up = lamp.towards
    across = np.linspace(-lamp.near, lamp.near, columns, dtype=np.float32)
    down = np.linspace(lamp.near, -lamp.near, of_all, dtype=np.float32)[:, None]
    down *= np.float32(of_all / columns)
    right, up = np.float32(right) - across, np.float32(up) - down
    lean_right, lean_up = _leaning(face, leans, pixel)
    light = _facing(lean_right, lean_up, right, up[first : first + rows])
    upright = isinstance(grain, str) and grain == "up"
    spread = (_ACROSS, _ALONG) if upright else (_ALONG, _ACROSS)
    shine = _sheen(lean_right, lean_up, right, up, first, spread)
    shine *= face.tone
    middle = middle[0], middle[1] + pixel * ((of_all - rows) / 2 - first)
    if isinstance(grain, np.ndarray):
        shine += grain
    elif upright:
        shine += scratches(columns, rows, pixel, middle[::-1]).T[::-1, ::-1]
    elif grain:
        shine += scratches(rows, columns, pixel, middle)
    shine += grit(rows, columns, first) * (1 - face.tone)
    shine += 1
    light *= shine
    light *= face.light
    tone = face.tone * np.float32(1 - mirrored)
    tone += np.float32(mirrored * _ROOM)
    return face._replace(tone=tone, light=light)


def etched(
    face: Face,
    surface: Surface,
    lamp: Lamp | None = None,
    *,
    sunlit: bool = False,
    first: int = 0,
) -> Face:
    """Shine the lamp on what was seen of a surface, whole or half as fine (half.py).

    Of a band of rows, `first` is where it begins in the picture.

    Examples
    --------
    >>> from kit import Billet, Stack, cut, see, tones
    >>> bar = Billet(source=Stack.alternate("1084", "15N20", pieces=9, thickness=4.0))
    >>> face = cut(bar, angle=30)
    >>> etched(see(bar, face, tones(bar.source.steels)), face).tone.shape
    (400, 400)
    """
    thin, last = thinned(surface), first + len(face.tone)
    how = {"middle": thin.middle, "leans": thin.leans(), "band": (first, thin.rows)}
    how["mirrored"] = SUN_HAZE if sunlit else HAZE
    grain = thin.grain or scratches_at(*thin.sanded(first, last), thin.pixel)
    return lit(face, pixel=thin.pixel, grain=grain, lamp=lamp, **how)


def _leaning(
    face: Face, leans: tuple[np.ndarray | float, np.ndarray | float], pixel: float
) -> tuple[np.ndarray, np.ndarray]:
    """Add the etched steps and the broken edge to the leaning of the surface."""
    wall = max(1, min(round(_WALL / pixel / 2), WIDEST))
    arms = {wall, (wall + 1) // 2}  # pixels to both sides: a wall with a rounded top
    height = face.tone * np.float32(_STEP / len(arms))
    height += face.cover * np.float32(_CORNER / len(arms))
    rows, columns = height.shape
    for axis, pixels in enumerate((rows, columns)):  # what lies beside goes on alike
        height = height.take(np.arange(-wall, pixels + wall), axis, mode="clip")
    right, up = (np.full((rows, columns), lean, np.float32) for lean in leans)
    for arm in arms:
        low, high = wall - arm, wall + arm
        inside = slice(wall, wall + rows), slice(wall, wall + columns)
        right += height[inside[0], high : high + columns]
        right -= height[inside[0], low : low + columns]
        up += height[low : low + rows, inside[1]]
        up -= height[high : high + rows, inside[1]]
    return right, up


def _facing(
    lean_right: np.ndarray, lean_up: np.ndarray, right: np.ndarray, up: np.ndarray
) -> np.ndarray:
    """Give the light on each pixel; 1 where it does not lean.

    Lambert's law for small leanings, against a flat face under the same lamp.
    """
    light = lean_right * -right
    light -= lean_up * up
    np.clip(light, -1, 1, out=light)
    light *= _LAMP
    light += 1
    return light


def _sheen(
    lean_right: np.ndarray,
    lean_up: np.ndarray,
    right: np.ndarray,
    up: np.ndarray,
    first: int,
    spread: tuple[float, float],
) -> np.ndarray:
    """Say how much each pixel mirrors the lamp, more (+) or less (-) than on average.

    A sanded face mirrors best where it looks halfway between lamp and eye; scratches
    along the blade spread that far across it and little along it; `spread` says how far
    to the right and up.
    """
    rows, columns = lean_right.shape
    lamp = right[columns // 2], up[len(up) // 2, 0]
    halfway = np.float32(1 / (1 + math.hypot(1, *lamp)))
    right, up = right * halfway, up * halfway
    here = up[first : first + rows]
    shine = _mirrored(lean_right + right, lean_up + here, spread)
    apart = max(8, columns // 128)
    shine -= _mirrored(right[::apart], up[::apart], spread).mean()
    shine *= _SHEEN
    return shine


def _mirrored(right: np.ndarray, up: np.ndarray, spread: tuple[float, float]) -> np.ndarray:
    """Give 1 for a perfect mirror, falling off as a pixel looks another way."""
    right, up = right * np.float32(1 / spread[0]), up * np.float32(1 / spread[1])
    right *= right
    up *= up
    off = right + up
    off += 1
    return np.reciprocal(off, out=off)

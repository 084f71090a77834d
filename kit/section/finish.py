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

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from kit.basics.declare import Declared, quantity
from kit.section.half import apart, thinned, whole
from kit.section.picture import INK
from kit.section.sanding import grit, scratches
from kit.section.trace import Face, see

if TYPE_CHECKING:
    from kit.forge.billet import Billet
    from kit.section.blade_view import BladeView
    from kit.section.picture import Sheet

ILLUSTRATIVE = (
    "Illustrative finish: the etched steps are drawn far too steep, and sanding and "
    "sheen are our choice."
)

_HAZE = 0.15  # share of its tone that a face owes to the room mirrored in it
_ROOM = 0.3  # how bright that room is
_STEP = 0.4  # how far a wall between brightest and blackest steel leans, mm a mm
_WALL = 0.03  # how wide it is, mm, and never less than two pixels
_WIDEST = 32  # pixels, half a wall under the strongest loupe
_CORNER = 0.4  # how far the broken edge of the steel leans
_LAMP = 0.7  # share of the light that comes from the lamp; the rest is from all round
_NEAR = 0.5  # half a picture's width against the lamp's distance
_SHEEN = 0.75  # how much brighter white steel is where it mirrors the lamp
_ALONG, _ACROSS = 0.14, 0.6  # how far the mirroring spreads along the sanding, across it
_SHADOW = 0.4  # how dark the shadow is beneath a blade that lies on paper
_HOVER = 5  # pixels that it falls aside


class Lamp(Declared):
    """Where the lamp stands, by two angles."""

    turned: float = quantity(
        "Lamp turned",
        "where it stands round the picture: 0 right, 90 above, 180 left",
        low=-180,
        high=360,
        unit="°",
        default=115,
    )
    raised: float = quantity(
        "Lamp raised",
        "above the steel: low rakes over it and shows every step",
        low=10,
        high=90,
        unit="°",
        default=30,
    )

    @property
    def towards(self) -> tuple[float, float]:
        """How far the lamp stands to the right and up for each unit of its height."""
        aside = 1 / math.tan(math.radians(self.raised))
        turned = math.radians(self.turned)
        return aside * math.cos(turned), aside * math.sin(turned)


def lit(
    face: Face,
    *,
    pixel: float,
    middle: tuple[float, float] = (0.0, 0.0),
    leans: tuple[np.ndarray | float, np.ndarray | float] = (0.0, 0.0),
    lamp: Lamp | None = None,
) -> Face:
    """Shine a lamp on an etched face.

    Parameters
    ----------
    face : Face
        As `see` gives it.
    pixel : float
        Width of a pixel, mm.
    middle : (float, float)
        The middle of the picture, mm to the right and up, so that the scratches stay
        on the steel when the picture moves.
    leans : (array or float, array or float)
        How steeply the surface rises towards the eye, to the right and up, mm a mm:
        for a blade ``blade.leans()``; a flat face or a block needs none.
    lamp : Lamp, optional
        Left out, a low lamp above the picture, to the left.

    Returns
    -------
    Face
        The same tone and cover under another light, which may exceed 1.
    """
    face = Face(*(part.astype(np.float32, copy=False) for part in face))
    rows, columns = face.tone.shape
    right, up = (lamp or Lamp()).towards
    across = np.linspace(-_NEAR, _NEAR, columns, dtype=np.float32)
    down = np.linspace(_NEAR, -_NEAR, rows, dtype=np.float32)[:, None] * (rows / columns)
    right, up = np.float32(right) - across, np.float32(up) - down
    lean_right, lean_up = _leaning(face, leans, pixel)
    light = _facing(lean_right, lean_up, right, up)
    shine = _sheen(lean_right, lean_up, right, up)
    shine *= face.tone
    shine += scratches(rows, columns, pixel, middle)
    shine += grit(rows, columns) * (1 - face.tone)
    shine += 1
    light *= shine
    light *= face.light
    tone = face.tone * np.float32(1 - _HAZE)
    tone += np.float32(_HAZE * _ROOM)
    return face._replace(tone=tone, light=light)


def finished(
    billet: Billet, blade: BladeView, tones: dict[str, float], *, lamp: Lamp | None = None
) -> Face:
    """See a blade of a billet, etched and under a lamp; as `see`, then `lit`.

    Examples
    --------
    >>> from kit import Billet, Stack, tones
    >>> from kit.section.blade import Blade
    >>> from kit.section.grind import BladeGrind
    >>> from kit.section.outline import Outline
    >>> bar = Billet(source=Stack.alternate("1084", "15N20", pieces=80, thickness=0.05))
    >>> knife = BladeGrind(outline=Outline(length=120, height=30), spine=4, edge=0.4)
    >>> blade = Blade.fitted(knife, bar.size, 640, 400)
    >>> finished(bar, blade, tones(bar.source.steels)).tone.shape == (blade.rows, 640)
    True
    """
    thin = thinned(blade)
    with whole():
        face = see(billet, thin, tones)
    where = {"pixel": thin.pixel, "middle": thin.middle, "leans": thin.leans()}
    return lit(face, **where, lamp=lamp).as_large_as(blade)


def lay(sheet: Sheet, face: Face, at: tuple[int, int], lamp: Lamp | None = None) -> None:
    """Lay a lit face on paper, its top left corner at `at`, with a soft shadow below.

    For what has an outline, as a whole blade; the shadow falls away from the lamp.
    """
    from PIL import Image, ImageFilter  # noqa: PLC0415  (keeps the core's import quick)

    reach, step = 3 * _HOVER, apart(*face.tone.shape)
    cover = np.pad((face.cover * (255 * _SHADOW)).astype(np.uint8), reach)
    shade = Image.fromarray(cover[::step, ::step])
    for blur in (_HOVER, _HOVER / 2):
        shade = shade.filter(ImageFilter.BoxBlur(blur / step))
    shade = shade.resize(cover.shape[::-1]) if step > 1 else shade
    right, up = (lamp or Lamp()).towards
    far = _HOVER / max(math.hypot(right, up), 1)
    left, top = at[0] - round(right * far), at[1] + round(up * far)
    sheet.image.paste(INK, (left - reach, top - reach), shade)
    sheet.steel(face, at)


def _leaning(
    face: Face, leans: tuple[np.ndarray | float, np.ndarray | float], pixel: float
) -> tuple[np.ndarray, np.ndarray]:
    """Add the etched steps and the broken edge to the leaning of the surface."""
    wall = max(1, min(round(_WALL / pixel / 2), _WIDEST))
    arms = {wall, (wall + 1) // 2}  # pixels to both sides: a wall with a rounded top
    height = face.tone * np.float32(_STEP / len(arms))
    height += face.cover * np.float32(_CORNER / len(arms))
    rows, columns = height.shape
    height = np.pad(height, wall, "edge")
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
    lean_right: np.ndarray, lean_up: np.ndarray, right: np.ndarray, up: np.ndarray
) -> np.ndarray:
    """Say how much each pixel mirrors the lamp, more (+) or less (-) than on average.

    A sanded face mirrors best where it looks halfway between lamp and eye; scratches
    along the blade spread that far across it and little along it.
    """
    rows, columns = lean_right.shape
    lamp = right[columns // 2], up[rows // 2, 0]
    halfway = np.float32(1 / (1 + math.hypot(1, *lamp)))
    right, up = right * halfway, up * halfway
    shine = _mirrored(lean_right + right, lean_up + up)
    shine -= _mirrored(right[::8], up[::8]).mean()
    shine *= _SHEEN
    return shine


def _mirrored(right: np.ndarray, up: np.ndarray) -> np.ndarray:
    """Give 1 for a perfect mirror, falling off as a pixel looks another way."""
    right, up = right * np.float32(1 / _ALONG), up * np.float32(1 / _ACROSS)
    right *= right
    up *= up
    off = right + up
    off += 1
    return np.reciprocal(off, out=off)

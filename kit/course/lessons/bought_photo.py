"""A photograph of a bought bar: the pattern of ours that it is most like.

As on the page *measure*: bands a millimetre along the bar and across it, and which way the
lines run. Every pattern that the page has, in several numbers of layers, is forged, its
face measured the same way, and the nearest is named. A face does not say what lies below
it, so the nearest is a beginning, not a finding.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache
from typing import Any, NamedTuple

import numpy as np
from PIL import Image

from kit.basics.errors import KitError
from kit.basics.units import Units, format_length
from kit.course.lessons.bevels_drawing import outline
from kit.course.lessons.bought_drawing import face_of
from kit.course.lessons.scene import Scene
from kit.metal import etch
from kit.section.blade import Blade
from kit.section.picture import ACCENT, Sheet
from kit.section.trace import Face
from kit.shop.bought import OTHER, SOLD, inside, made_as, sold
from kit.shop.photograph import Photograph, Point, sampled
from kit.shop.scale import mapped, projection
from kit.shop.stereology import line_angle
from kit.shop.stripes import Bands, across

# How much each thing counts, and where likeness ends, is our choice: tried on faces of
# our own, which is all that the tests show.
LAYERS = (20, 30, 40, 60, 80, 120)
LINES = 7
SEEN = (90.0, 26.0)  # mm of our faces
PIXEL = 0.04
THINNEST, WIDEST = 10.0, 500.0  # mm, a picture of a bar
_ORDER, _SLANT = 2.0, 6.0  # what direction counts for, against bands
_ACROSS = 0.5  # what bands across count for: a narrow bar has few
NARROWEST = 5.0  # pixels: narrower bands may be the grain of the picture
ALIKE, UNLIKE = 0.5, 1.0  # less is like one, more is like none of them
TALL = 200  # pixels: a face in the picture that compares two, at most
LEAST, MOST = 200, 2000  # columns of a squared face, pixels
_NONE = 0.02  # bands a mm: fewer than can be counted


class Looks(NamedTuple):
    """What is measured on a face.

    Attributes
    ----------
    along, across : float
        Bands a mm met along the bar, and across it.
    order : float
        Of the lines: 0 in all directions, 1 all one way.
    slant : float
        Of the lines against a line straight across the bar, degrees 0 … 90.
    """

    along: float
    across: float
    order: float
    slant: float

    def apart(self, other: Looks) -> float:
        """Say how unlike another face is: 0, alike."""
        ordered = min(self.order, other.order)
        return math.hypot(
            math.log(self.along / other.along),
            _ACROSS * math.log(self.across / other.across),
            _ORDER * (self.order - other.order),
            _SLANT * ordered * (self.slant - other.slant) / 90,
        )


class Like(NamedTuple):
    """The pattern that a photograph is nearest to.

    Attributes
    ----------
    bought, layers : int
        Index into `SOLD`, and how many layers; 0 for the pattern's own.
    apart : float
        How unlike they still are; see `Looks.apart`.
    looks : Looks
        Measured on the photograph.
    """

    bought: int
    layers: int
    apart: float
    looks: Looks


def nearest(photo: Photograph, thickness: float) -> Like:
    """Find which of the kit's bars looks most like a photograph.

    Parameters
    ----------
    photo : Photograph
        The bar's length from left to right, its scale set.
    thickness : float
        Of the bar, mm.

    Raises
    ------
    KitError
        Without a scale, or if no bands can be counted.
    """
    if photo.pixel is None:
        msg = "Say first how wide the picture is, in mm or inches: it has no scale."
        raise KitError(msg)
    looks = features(photo)
    if looks.along <= _NONE:
        raise KitError(_unseen(photo, looks))
    found = [
        Like(bought, layers, looks.apart(_ours(bought, layers, round(thickness, 1))), looks)
        for bought, layers in _compared()
    ]
    best = min(found, key=lambda like: like.apart)
    if best.apart > UNLIKE:
        msg = (
            "I cannot decide: that picture is like none of the kit's bars. Lay the bar "
            "from left to right, fill the picture with it, and give its true width."
        )
        raise KitError(msg)
    return best


def _compared() -> Iterator[tuple[int, int]]:
    """Give every pattern that shows on a face, in all numbers of layers it is made of."""
    for bought, name in enumerate(SOLD[1:], 1):  # flat layers show no bands at all
        if made_as(name) != OTHER:
            yield from ((bought, layers) for layers in LAYERS)
        elif not inside(name).plain:
            yield bought, 0


def squared(
    photo: Photograph, corners: list[Point], long: float, high: float
) -> Photograph:
    """Turn the face between four corners square on, its scale set.

    Parameters
    ----------
    photo : Photograph
    corners : list of (column, row)
        Of the bar's face, clockwise from its upper left.
    long, high : float
        Of the face between them, mm: along the bar and across it.

    Raises
    ------
    KitError
        If the corners make no such figure.
    """
    shown = max(math.dist(*corners[:2]), math.dist(*corners[2:]))
    pixel = max(long / min(max(shown, LEAST), MOST), high / MOST)
    columns, rows = (max(round(side / pixel), 1) for side in (long, high))
    face = [(-0.5, -0.5), (columns - 0.5, -0.5), (columns - 0.5, rows - 0.5)]
    matrix = projection([*face, (-0.5, rows - 0.5)], corners)
    across, down = np.meshgrid(np.arange(columns), np.arange(rows))
    light = sampled(photo.light, *mapped(matrix, (across, down)))
    return Photograph(light.astype(np.float32), pixel)


def marked(photo: Photograph, corners: list[Point], **paper: Any) -> Scene:
    """Draw an opened photograph, and the corners that are marked on it."""
    rows, columns = photo.light.shape
    step = max(columns / 1000, rows / 400)
    sheet = Sheet(round(columns / step), round(rows / step), **paper)
    sheet.steel(_shrunk(photo.light, sheet.image.height, sheet.image.width), (0, 0))
    places = [(column / step, row / step) for column, row in corners]
    if len(places) > 1:
        sheet.line(places + places[:1] * (len(places) == 4), ink=ACCENT, width=3)
    for number, (x, y) in enumerate(places, 1):
        sheet.box((x - 11, y - 11), (x + 11, y + 11), fill=sheet.page, ink=ACCENT, width=2)
        sheet.text(str(number), (x, y), anchor="mm", ink=ACCENT)
    alt = f"Your photograph; corners marked on it: {len(places)} of 4."
    return Scene(image=sheet.image, alt=alt, numbers=())


def beside(photo: Photograph, like: Like, job: Any, units: Units, **paper: Any) -> Scene:
    """Draw the photograph's face and, below it at one scale, the kit's nearest.

    On both lies the outline of the blade that is to be cut, as far as the face reaches.
    """
    rows, columns = photo.light.shape
    long, high = columns * photo.pixel, rows * photo.pixel
    pixel = max(long / 960, high / TALL)
    size = round(high / pixel), round(long / pixel)
    sheet = Sheet(1000, 2 * size[0] + 90, **paper)
    sheet.above((20, 34), "Your photograph's face; dashed: the blade")
    sheet.steel(_shrunk(photo.light, *size), (20, 34))
    name = SOLD[like.bought]
    billet = sold(name, like.layers, job.thickness, max(high, 10.0))
    face = face_of(billet, *size[::-1], pixel)
    top = 34 + size[0] + 40
    layers = f", {like.layers} layers" * bool(like.layers)
    sheet.above((20, top), f"The kit's {name}{layers}")
    sheet.steel(etch.seen(billet, face), (20, top), face)
    sheet.scale_bar((840, top - 12), pixel, units)
    blade = Blade(
        grind=job.grind, size=billet.size, columns=size[1], rows=size[0], pixel=pixel
    )
    for at in ((20, 34), (20, top)):
        outline(sheet, blade, at)
    alt = (
        f"Above, the face of your photograph, {format_length(long, units)} long. "
        f"Below, at the same scale, the face of the kit's {name}{layers}. "
        f"On both, dashed, {fits(long, high, job, units)}"
    )
    return Scene(image=sheet.image, alt=alt, numbers=())


def fits(long: float, high: float, job: Any, units: Units) -> str:
    """Say how a blade lies on a piece of a face, so long and high, mm."""
    shape = job.grind.outline
    if shape.length <= long and shape.height <= high:
        return "the outline of the whole blade."
    sides = (shape.length, long, "long"), (shape.height, high, "high")
    told = [
        f"{format_length(blade, units)} {way}, the piece {format_length(piece, units)}"
        for blade, piece, way in sides
        if blade > piece
    ]
    return f"a part of the blade's outline: it is {' and '.join(told)}."


def _shrunk(light: np.ndarray, rows: int, columns: int) -> Face:
    """Give a photograph as a face of another size, as it is."""
    picture = Image.fromarray(light.astype(np.float32))
    tone = np.asarray(picture.resize((columns, rows), Image.Resampling.BOX))
    whole = np.ones_like(tone)
    return Face(tone, whole, whole)


def features(photo: Photograph) -> Looks:
    """Measure a face: its bands both ways, and how its lines run in the middle."""
    rows, columns = photo.light.shape
    radius = 0.45 * min(rows, columns)
    try:
        lie = line_angle(photo, (columns / 2, rows / 2), radius)
    except KitError:  # in every direction, or a picture too small
        return Looks(*bands(photo), 0.0, 45.0)
    return Looks(*bands(photo), float(lie.order), abs(90 - abs(lie.degrees)))


def bands(photo: Photograph) -> tuple[float, float]:
    """Count bands a mm along the picture's rows and its columns; at least `_NONE`."""
    counts = []
    for lines in _counted(photo):
        sure = [line for line in lines if not line.doubt and line.width >= NARROWEST]
        per = [line.count / (line.length * photo.pixel) for line in sure]
        counts.append(max(float(np.mean(per)) if per else 0.0, _NONE))
    return counts[0], counts[1]


def _counted(photo: Photograph) -> list[list[Bands]]:
    """Count along lines that follow the picture's rows, and along some its columns."""
    rows, columns = photo.light.shape
    ends = (
        ((columns * 0.05, rows / 2), (columns * 0.95, rows / 2)),
        ((columns / 2, rows * 0.05), (columns / 2, rows * 0.95)),
    )
    try:
        return [across(photo, *line, LINES) for line in ends]
    except KitError:  # a picture too small to count in
        return [[], []]


def _unseen(photo: Photograph, looks: Looks) -> str:
    """Say why no bands are counted along a bar, and what to do next."""
    begins = "I cannot decide: no bands can be counted along that bar"
    if looks.across > _NONE:
        return f"{begins}, only across it. Turn the picture, so that the bar lies flat."
    lines = _counted(photo)[0]
    narrow = [line.width for line in lines if not line.doubt]
    if narrow:
        least, here = f"{NARROWEST:g}", float(np.median(narrow))
        shorter = here / NARROWEST * photo.light.shape[1] * photo.pixel
        return (
            f"{begins}: in the picture they are {here:.1f} pixels wide, and it takes "
            f"{least}. From nearer, photograph a piece {shorter:.0f} mm long or shorter."
        )
    doubts = [line.doubt for line in lines]
    if not doubts:
        return f"{begins}: the picture is too small. Choose one with more pixels."
    return max(doubts, key=doubts.count)


@lru_cache(maxsize=64)
def _ours(bought: int, layers: int, thickness: float) -> Looks:
    billet = sold(SOLD[bought], layers, thickness, 30.0)
    wide = min(SEEN[0], billet.size.length * 0.9), min(SEEN[1], billet.size.width * 0.9)
    face = face_of(billet, *(round(side / PIXEL) for side in wide), PIXEL)
    light = etch.seen(billet, face).tone
    return features(Photograph(light.astype(np.float32), PIXEL))

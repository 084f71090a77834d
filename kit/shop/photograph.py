"""A photograph of a face: opened in bounded memory, given a scale, turned square on.

What a stranger sends becomes greys, upright, no larger than is kept.
"""

from __future__ import annotations

import io
import math
import warnings
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image, ImageOps

from kit.basics.claim import Claim, Kind
from kit.basics.errors import KitError
from kit.basics.files import content
from kit.metal.colour import from_srgb

# How much is read; ours.
MOST_PIXELS = 50_000_000  # of any camera in a pocket
LARGEST = 3000  # pixels on the longer side that are kept: finer than any lens that is held
FORMATS = ("PNG", "JPEG", "GIF", "WEBP", "BMP", "TIFF")
ROOM = 190_000_000  # bytes that the pixels of a picture may take while it is decoded
# Bytes a pixel: as Pillow keeps it, and its grey beside it; found by weighing.
_BYTES = {
    "1": 2,
    "L": 2,
    "P": 2,
    "I;16": 7,
    "I;16B": 7,
    "I;16L": 7,
    "I": 14,
    "CMYK": 9,
    "RGBA": 7,
    "LA": 7,
}
_MORE = {"WEBP": 14, "TIFF": 4}  # what those decoders keep beside it
_COLOUR, _COEFFICIENTS, _CLEAR = 5, 6, 7


def grey_levels(content: bytes, name: str) -> np.ndarray:
    """Decode a picture.

    Parameters
    ----------
    content : bytes
        Of the file.
    name : str
        To call it in a sentence.

    Returns
    -------
    array (rows, columns)
        Grey levels, 0 … 255, as the screen shows them; the longer side at most `LARGEST`.

    Raises
    ------
    KitError
        If it is no picture, or one that would take too much memory.
    """
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return np.asarray(_decoded(content, name))
    except KitError:
        raise
    except Image.DecompressionBombError:
        msg = (
            f"A picture can have at most {_millions(MOST_PIXELS)} pixels. {name} has more."
        )
        raise KitError(msg) from None
    # a broken picture can fail in any part of any decoder
    except Exception:  # noqa: BLE001
        msg = f"I cannot read {name} as a picture. A PNG or a JPEG is best."
        raise KitError(msg) from None


def _decoded(content: bytes, name: str) -> Image.Image:
    with Image.open(io.BytesIO(content), formats=FORMATS) as image:
        whole = image.size
        kept = tuple(max(1, side * LARGEST // max(whole)) for side in whole)
        image.draft("L", kept)  # a JPEG can be decoded smaller, others not
        _check(image, whole)
        grey = _grey(image, name)
        grey.info.update(image.info)  # says which way up
    if (times := max(grey.size) // LARGEST) > 1:
        grey = grey.reduce(times)
    grey.thumbnail((LARGEST, LARGEST), Image.Resampling.BOX)
    return ImageOps.exif_transpose(grey)


def _check(image: Image.Image, whole: tuple[int, int]) -> None:
    """Refuse by what its head says, before a pixel is decoded."""
    pixels, drafted = whole[0] * whole[1], image.width * image.height
    needed = (_BYTES.get(image.mode, _COLOUR) + _MORE.get(image.format, 0)) * drafted
    if "transparency" in image.info:
        needed += _CLEAR * drafted
    if image.info.get("progressive"):  # all of a JPEG is kept until its last pass
        needed += _COEFFICIENTS * pixels
    if pixels > MOST_PIXELS or needed > ROOM:
        most = min(MOST_PIXELS, ROOM * pixels // needed)
        msg = (
            f"A picture of that kind can have at most {_millions(most)} pixels. Given: "
            f"{whole[0]} × {whole[1]}. Make it smaller, or save it as a plain JPEG."
        )
        raise KitError(msg)


def _grey(image: Image.Image, name: str) -> Image.Image:
    if image.mode.startswith("I"):  # 16 bits
        levels = np.clip(np.asarray(image), 0, 2**16 - 1)
        return Image.fromarray((levels >> 8).astype(np.uint8))
    if image.mode == "F":
        msg = f"A picture must have whole greys or colours. {name} holds other numbers."
        raise KitError(msg)
    if "transparency" in image.info:
        image = image.convert("RGBA")
    grey = image.convert("L")
    if "A" in image.getbands():  # what is clear lies on white paper
        paper = Image.new("L", image.size, 255)
        paper.paste(grey, mask=image.getchannel("A"))
        return paper
    return grey


def _millions(pixels: int) -> str:
    return f"{pixels // 1_000_000} million"


MOST_BYTES = 40_000_000  # ours
ROWS = 64  # that are turned square on at a time; ours
CARD_SIZE = Claim(
    says="A bank card has the size of its standard, so it gives a photograph its scale.",
    kind=Kind.PUBLISHED,
    source="ISO/IEC 7810:2019, format ID-1",
    unit="mm",
    holds=("BANK_CARD",),
)
BANK_CARD = (85.60, 53.98)

Point = tuple[float, float]


@dataclass(frozen=True)
class Photograph:
    """Light on a face.

    Parameters
    ----------
    light : array (rows, columns)
        Linear light, 0 … 1.
    pixel : float or None
        Width of a pixel, mm; None until a scale is set.
    """

    light: np.ndarray
    pixel: float | None = None

    def scaled(self, one: Point, other: Point, mm: float) -> Photograph:
        """Set the scale by two places (column, row) a known length apart.

        Raises
        ------
        KitError
            If the places are the same, or the length is none.
        """
        apart = math.dist(one, other)
        if not (math.isfinite(mm) and mm > 0 and apart >= 1):
            msg = (
                "A scale needs two places at least one pixel apart and the millimetres "
                f"between them. Given: {apart:.1f} pixels, {mm:g} mm."
            )
            raise KitError(msg)
        return replace(self, pixel=mm / apart)

    def square_on(
        self, corners: list[Point], size: tuple[float, float] = BANK_CARD
    ) -> Photograph:
        """Undo the perspective of a tilted photograph.

        Parameters
        ----------
        corners : list of four (column, row)
            Of something rectangular that lies on the face, clockwise from its upper
            left corner: a bank card, or the bar itself.
        size : (width, height)
            Of that rectangle, mm.

        Returns
        -------
        Photograph
            The whole picture as seen from straight above, with its scale set.

        Raises
        ------
        KitError
            If the corners are no four-sided figure that a rectangle can look like.
        """
        ground = [(0, 0), (size[0], 0), size, (0, size[1])]
        to_picture = _projection(ground, corners)
        to_ground = np.linalg.inv(to_picture)
        rows, columns = self.light.shape
        frame = [(0, 0), (columns - 1, 0), (columns - 1, rows - 1), (0, rows - 1)]
        depth = [to_ground[2] @ (*corner, 1) for corner in frame]
        if min(depth) * max(depth) <= 0 or min(map(abs, depth)) < 0.05 * max(
            map(abs, depth)
        ):
            msg = (
                "The picture is tilted too steeply to be turned square on. Photograph the "
                "face from above, and give the corners clockwise from the upper left."
            )
            raise KitError(msg)
        edges = np.array([_mapped(to_ground, corner) for corner in frame])
        low, high = edges.min(axis=0), edges.max(axis=0)
        middle = _mapped(to_picture, (size[0] / 2, size[1] / 2))
        beside = _mapped(to_picture, (size[0] / 2 + 0.5, size[1] / 2))
        pixel = max(0.5 / math.dist(middle, beside), float(max(high - low)) / LARGEST)
        across = np.arange(low[0], high[0], pixel)
        down = np.arange(low[1], high[1], pixel)
        light = np.empty((down.size, across.size), np.float32)
        for first in range(0, down.size, ROWS):
            rows = slice(first, first + ROWS)
            x, y = _mapped(to_picture, (across, down[rows, None]))
            light[rows] = sampled(self.light, x.astype(np.float32), y.astype(np.float32))
        return Photograph(light, pixel)


def opened(source: Path | bytes, name: str = "upload") -> Photograph:
    """Open a photograph from a file, or from what was uploaded under a name.

    Raises
    ------
    KitError
        If it is no picture, or too large.
    """
    if isinstance(source, Path):
        name, source = source.name, content(source, "a picture", MOST_BYTES)
    levels = grey_levels(source, f"'{name[:60]}'")
    return Photograph(from_srgb(np.arange(256)).astype(np.float32)[levels])


def sampled(light: np.ndarray, x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Read a picture between its pixels; beyond its edge the edge goes on."""
    rows, columns = light.shape
    x, y = np.clip(x, 0, columns - 1), np.clip(y, 0, rows - 1)
    left, top = x.astype(np.intp), y.astype(np.intp)
    right, bottom = np.minimum(left + 1, columns - 1), np.minimum(top + 1, rows - 1)
    across, down = x - left, y - top
    upper = light[top, left] * (1 - across) + light[top, right] * across
    lower = light[bottom, left] * (1 - across) + light[bottom, right] * across
    return upper * (1 - down) + lower * down


def _projection(ground: list[Point], picture: list[Point]) -> np.ndarray:
    """Find the 3 × 3 matrix that takes four places to four others.

    Hartley & Zisserman, Multiple View Geometry, 2nd ed., section 4.1: eight equations.
    """
    rows, right = [], []
    for (x, y), (u, v) in zip(ground, picture, strict=True):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        right += [u, v]
    turns = [_turn(picture, index) for index in range(4)]
    if min(turns) <= 0:
        msg = (
            "The four corners must make a four-sided figure without a dent, clockwise from "
            f"its upper left. Given: {[(round(x), round(y)) for x, y in picture]}."
        )
        raise KitError(msg)
    return np.append(np.linalg.solve(np.array(rows, float), right), 1).reshape(3, 3)


def _turn(points: list[Point], index: int) -> float:
    (a, b), (c, d), (e, f) = (points[(index + step) % 4] for step in range(3))
    return (c - a) * (f - d) - (d - b) * (e - c)


def _mapped(matrix: np.ndarray, point: tuple[Any, Any]) -> tuple[Any, Any]:
    """Take a place, or arrays of places, to where they are in the other picture."""
    x, y, w = (row[0] * point[0] + row[1] * point[1] + row[2] for row in matrix)
    return x / w, y / w

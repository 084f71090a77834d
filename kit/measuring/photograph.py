"""A photograph as an array of light: opened safely, levelled, turned square on."""

from __future__ import annotations

import io
import math
import warnings
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from PIL import Image, ImageOps

from kit.errors import KitError
from kit.sight.lightness import from_srgb

MOST_BYTES = 40_000_000
MOST_PIXELS = 50_000_000
LARGEST = 3000  # pixels on the longer side that are kept: finer than any lens that is held
FORMATS = ("PNG", "JPEG", "GIF", "WEBP", "BMP", "TIFF")
BANK_CARD = (85.60, 53.98)  # mm, ISO/IEC 7810:2019, format ID-1

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
        place = np.stack([*np.meshgrid(across, down), np.ones((down.size, across.size))])
        x, y, w = np.tensordot(to_picture, place, 1)
        return Photograph(sampled(self.light, x / w, y / w), pixel)


def opened(source: Path | bytes, name: str = "upload") -> Photograph:
    """Open a photograph from a file, or from what was uploaded under a name.

    Raises
    ------
    KitError
        If it is no picture, or too large.
    """
    if isinstance(source, bytes):
        name, size, stream = f"'{name[:60]}'", len(source), io.BytesIO(source)
    else:
        name, stream = f"'{source.name[:60]}'", source
        try:
            size = source.stat().st_size
        except OSError:
            msg = f"There is no picture {name} that can be read."
            raise KitError(msg) from None
    if size > MOST_BYTES:
        msg = (
            f"A picture can have at most {MOST_BYTES // 1_000_000} megabytes. "
            f"Given: {name} with {size / 1e6:.0f}."
        )
        raise KitError(msg)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            upright = _decoded(stream)
    except KitError:
        raise
    # a broken picture can fail in any part of any decoder
    except Exception:  # noqa: BLE001
        msg = f"I can not read {name} as a picture. A PNG or a JPEG is best."
        raise KitError(msg) from None
    upright.thumbnail((LARGEST, LARGEST), Image.Resampling.BOX)
    grey = np.asarray(upright.convert("L"))
    return Photograph(from_srgb(grey))


def _decoded(stream: Path | io.BytesIO) -> Image.Image:
    """Decode a picture of bounded size, the right way up, not larger than is kept."""
    with Image.open(stream, formats=FORMATS) as image:
        if image.width * image.height > MOST_PIXELS:
            msg = (
                f"A picture can have at most {MOST_PIXELS // 1_000_000} million "
                f"pixels. Given: {image.width} × {image.height}."
            )
            raise KitError(msg)
        image.draft("L", (LARGEST, LARGEST))
        return ImageOps.exif_transpose(image.convert("RGB"))


def sampled(light: np.ndarray, x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """Read a picture between its pixels; beyond its edge the edge goes on."""
    rows, columns = light.shape
    x, y = np.clip(x, 0, columns - 1.001), np.clip(y, 0, rows - 1.001)
    left, top = x.astype(np.intp), y.astype(np.intp)
    across, down = x - left, y - top
    upper = light[top, left] * (1 - across) + light[top, left + 1] * across
    lower = light[top + 1, left] * (1 - across) + light[top + 1, left + 1] * across
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


def _mapped(matrix: np.ndarray, point: Point) -> tuple[float, float]:
    x, y, w = matrix @ (*point, 1)
    return x / w, y / w

"""A photograph of a face: opened in bounded memory, read between its pixels.

What a stranger sends becomes greys, upright, no larger than is kept.
"""

import io
import math
import warnings
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from PIL import Image, ImageOps

from kit.basics.errors import KitError
from kit.basics.files import content
from kit.metal.colour import from_srgb

# How much is read; ours.
MOST_BYTES = 40_000_000
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


def grey_levels(source: Path | bytes, name: str = "upload") -> tuple[np.ndarray, float]:
    """Decode a picture from a file, or from what was uploaded under a name.

    Parameters
    ----------
    source : Path or bytes
    name : str
        To call an upload in a sentence.

    Returns
    -------
    levels : array (rows, columns)
        Grey levels, 0 … 255, as the screen shows them; the longer side at most `LARGEST`.
    kept : float
        How much smaller that is than the picture.

    Raises
    ------
    KitError
        If it is no picture, or one that would take too much memory.
    """
    if isinstance(source, Path):
        name, source = source.name, content(source, "a picture", MOST_BYTES)
    name = f"'{name[:60]}'"
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            grey, whole = _decoded(source, name)
            return np.asarray(grey), max(grey.size) / max(whole)
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


def _decoded(found: bytes, name: str) -> tuple[Image.Image, tuple[int, int]]:
    with Image.open(io.BytesIO(found), formats=FORMATS) as image:
        whole = image.size
        kept = tuple(max(1, side * LARGEST // max(whole)) for side in whole)
        image.draft("L", kept)  # a JPEG can be decoded smaller, others not
        _check(image, whole)
        grey = _grey(image, name)
        grey.info.update(image.info)  # says which way up
    if (times := max(grey.size) // LARGEST) > 1:
        grey = grey.reduce(times)
    grey.thumbnail((LARGEST, LARGEST), Image.Resampling.BOX)
    return ImageOps.exif_transpose(grey), whole


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


Point = tuple[float, float]


@dataclass(frozen=True)
class Photograph:
    """Light on a face.

    Parameters
    ----------
    light : array (rows, columns)
        Linear light, 0 … 1.
    pixel : float or None
        Width of a pixel, mm; None if nobody said how wide the picture is.
    kept : float
        Pixels that are kept of one of the picture that was given, across and down: 0 … 1.
    """

    light: np.ndarray
    pixel: float | None = None
    kept: float = 1.0

    def place(self, column: float, row: float) -> Point:
        """Find the place that has those numbers in the picture that was given."""
        return (column + 0.5) * self.kept - 0.5, (row + 0.5) * self.kept - 0.5


def opened(source: Path | bytes, name: str = "upload") -> Photograph:
    """Open a photograph, or refuse it, as `grey_levels` does."""
    levels, kept = grey_levels(source, name)
    return Photograph(from_srgb(np.arange(256)).astype(np.float32)[levels], kept=kept)


STRIP = 9  # lines side by side, a pixel apart, that are looked at as one; ours


def strip(photo: Photograph, start: Point, end: Point, fine: float) -> np.ndarray:
    """Read `STRIP` lines side by side, one a row, at places `fine` pixels apart."""
    length = math.dist(start, end)
    run = np.linspace(0, 1, round(length / fine) + 1)
    aside = (np.arange(STRIP) - STRIP // 2)[:, None] / length
    dx, dy = end[0] - start[0], end[1] - start[1]
    x, y = start[0] + run * dx - aside * dy, start[1] + run * dy + aside * dx
    return sampled(photo.light, x, y)


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

"""Decode a stranger's picture in bounded memory: greys, upright, no larger than is kept."""

from __future__ import annotations

import io
import warnings

import numpy as np
from PIL import Image, ImageOps

from kit.basics.errors import KitError

MOST_PIXELS = 50_000_000
LARGEST = 3000  # pixels on the longer side that are kept: finer than any lens that is held
FORMATS = ("PNG", "JPEG", "GIF", "WEBP", "BMP", "TIFF")
ROOM = 190_000_000  # bytes that the pixels of a picture may take while it is decoded
# Bytes a pixel: as Pillow keeps it, and its grey beside it; found by weighing.
_BYTES = {"1": 2, "L": 2, "P": 2, "I;16": 7, "I;16B": 7, "I;16L": 7, "I": 14, "CMYK": 9}
_MORE = {"WEBP": 14, "TIFF": 4}  # what those decoders keep beside it
_COLOUR, _COEFFICIENTS = 5, 6


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
        msg = f"I can not read {name} as a picture. A PNG or a JPEG is best."
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
    return image.convert("L")


def _millions(pixels: int) -> str:
    return f"{pixels // 1_000_000} million"

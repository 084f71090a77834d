"""Pictures that a stranger might hand in, and the ways the kit reads them.

``python photographs.py READER FOLDER`` reads each in turn and prints a line of JSON for it,
as `readers.py` does for other files.
"""

from __future__ import annotations

import io
import json
import struct
import sys
import zlib
from collections.abc import Callable, Iterator
from functools import lru_cache
from pathlib import Path

import numpy as np
from PIL import Image
from readers import asked, told

from kit.basics.errors import KitError
from kit.course.views.measuring import MeasuringView

MEGAPIXELS_50 = (8660, 5770)
Maker = Callable[[], bytes]


def _saved(image: Image.Image, kind: str, **more: object) -> bytes:
    stream = io.BytesIO()
    image.save(stream, kind, **more)
    return stream.getvalue()


def stripes(size: tuple[int, int], mode: str = "L") -> Image.Image:
    """Draw bands 40 pixels wide."""
    line = (np.arange(size[0]) // 40 % 2 * 160 + 40).astype(np.uint8)
    return Image.fromarray(np.tile(line, (size[1], 1))).convert(mode)


def _large(kind: str, size: tuple[int, int], mode: str, **more: object) -> Maker:
    return lambda: _saved(stripes(size, mode), kind, **more)


def _chunk(name: bytes, data: bytes) -> bytes:
    check = struct.pack(">I", zlib.crc32(name + data))
    return struct.pack(">I", len(data)) + name + data + check


def _png(wide: int, high: int, *chunks: bytes, bits: int = 8, kind: int = 0) -> bytes:
    """Write a PNG by hand (ISO/IEC 15948): what its head says need not be so."""
    head = struct.pack(">IIBBBBB", wide, high, bits, kind, 0, 0, 0)
    parts = (_chunk(b"IHDR", head), *chunks, _chunk(b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts)


def _bomb_of_text() -> bytes:
    packed = zlib.compress(bytes(400_000_000), 9)
    words = _chunk(b"zTXt", b"Comment\0\0" + packed)
    profile = _chunk(b"iCCP", b"icc\0\0" + packed)
    pixels = _chunk(b"IDAT", zlib.compress(bytes(41 * 40)))
    return _png(40, 40, words, profile, words, pixels)


def _sixteen_bits(size: tuple[int, int]) -> bytes:
    line = (np.arange(size[0]) // 40 % 2 * 40000 + 10000).astype(np.uint16)
    return _saved(Image.fromarray(np.tile(line, (size[1], 1))), "PNG", compress_level=1)


def _floats() -> bytes:
    values = np.full((90, 400), np.nan, np.float32)
    values[:, ::3] = np.inf
    return _saved(Image.fromarray(values), "TIFF")


def _turning_tiff() -> bytes:
    """Write a TIFF whose list of pages leads back to itself."""
    entry = struct.pack("<HHII", 256, 4, 1, 40)
    return b"II*\0" + struct.pack("<I", 8) + struct.pack("<H", 1) + entry + b"\x08\0\0\0"


def _film(frames: int) -> bytes:
    pictures = [stripes((1200, 900)).rotate(turn) for turn in range(frames)]
    return _saved(pictures[0], "GIF", save_all=True, append_images=pictures[1:])


def _turned(orientation: int, size: tuple[int, int]) -> bytes:
    tags = Image.Exif()
    tags[0x0112] = orientation
    return _saved(stripes(size, "RGB"), "JPEG", exif=tags)


def _refused() -> Iterator[tuple[str, Maker]]:
    yield "nothing", lambda: b""
    yield "text", lambda: b"not a picture\n" * 1000
    yield "a page with a script", lambda: b"<svg onload='alert(1)'><script/></svg>"
    yield (
        "a program in PostScript",
        lambda: b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n",
    )
    yield "zeros", lambda: bytes(30_000_000)
    yield "3600 million pixels", lambda: _png(60_000, 60_000, bits=1)
    yield "2 ** 31 - 1 square", lambda: _png(2**31 - 1, 2**31 - 1)
    yield "no width", lambda: _png(0, 40)
    yield "a head alone", lambda: _png(4000, 3000)
    yield "half a JPEG", lambda: _turned(1, (4000, 3000))[:20_000]
    yield "a bomb in its words", _bomb_of_text
    yield "numbers without end", _floats
    yield "pages in a ring", _turning_tiff
    yield "50 million in WebP", _large("WEBP", (16_000, 3100), "RGB", method=0)
    yield "50 million in TIFF", _large("TIFF", MEGAPIXELS_50, "RGB", compression="tiff_lzw")
    yield "50 million, progressive", _large("JPEG", MEGAPIXELS_50, "RGB", progressive=True)
    yield "50 million with colours", _large("PNG", MEGAPIXELS_50, "RGB", compress_level=1)


def _read() -> Iterator[tuple[str, Maker]]:
    yield "50 million in JPEG", _large("JPEG", MEGAPIXELS_50, "RGB")
    yield "50 million greys", _large("PNG", MEGAPIXELS_50, "L", compress_level=1)
    yield "16 bits", lambda: _sixteen_bits((6000, 4000))
    yield "four inks", _large("JPEG", (6000, 4000), "CMYK")
    yield "seen through", _large("PNG", (6000, 4000), "RGBA", compress_level=1)
    yield "two colours", _large("PNG", (6000, 4000), "1")
    yield "a palette", _large("GIF", (6000, 4000), "P")
    yield "a film", lambda: _film(40)
    yield "turned by its tag", lambda: _turned(6, (6000, 4000))
    yield "a tag that is none", lambda: _turned(99, (400, 300))
    yield "one pixel", _large("PNG", (1, 1), "L")
    yield "a thread upright", _large("PNG", (1, 100_000), "L")
    yield "a thread lying", _large("PNG", (100_000, 1), "L")
    yield "JPEG with a tail", lambda: _turned(1, (400, 300)) + b"<script>" * 1000


REFUSED, READ = dict(_refused()), dict(_read())


def make(folder: Path) -> None:
    """Write all pictures into a folder; whatever they are, they are called .jpg."""
    folder.mkdir()
    for number, maker in enumerate((REFUSED | READ).values()):
        (folder / f"{number}.jpg").write_bytes(maker())


@lru_cache(maxsize=1)
def _page() -> MeasuringView:
    return MeasuringView()


def _uploaded(path: Path) -> None:
    page = _page()
    page.upload.take(path.name, path.read_bytes())
    if "kit-refused" in page.says.value:
        words = page.says.value.split("<p>")[1].split("</p>")[0]
        raise KitError(words.replace("&#x27;", "'"))
    for place in ((0.1, 0.3), (0.3, 0.3)):
        page.mark(*place)
    page.do()


def _square_on(path: Path) -> None:
    told("measure", str(path), "--card", "10,10,300,12,290,190,11,180")


READERS: dict[str, Callable[[Path], object]] = {
    "measure": lambda path: told("measure", str(path)),
    "measure --card": _square_on,
    "the page": _uploaded,
}


def run(reader: str, folder: Path) -> None:
    """Read every picture; print a line for each."""
    for number, what in enumerate(REFUSED | READ):
        answer = {"what": what, **asked(READERS[reader], folder / f"{number}.jpg")}
        sys.stdout.write(json.dumps(answer) + "\n")
        sys.stdout.flush()


if __name__ == "__main__":
    run(sys.argv[1], Path(sys.argv[2]))

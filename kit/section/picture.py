"""From arrays to a picture: grey steel, ink, rulers, words, PNG and JPEG."""

import io
import math
from functools import lru_cache
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image, ImageColor, ImageDraw, ImageFilter, ImageFont
from PIL.PngImagePlugin import PngInfo

from kit.basics.letters import REGULAR
from kit.basics.told import kept, plain
from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units
from kit.section.finish import Lamp, etched
from kit.section.half import apart, filled_up
from kit.section.trace import Face, Surface

PAGE = "#FAF7F0"
INK = "#1A1A1A"
QUIET = "#5A5650"
ACCENT = "#0B5563"
GHOST = "#B9B3A6"
SUNLIT_PAGE = "#FFFFFF"
TONES = 4096  # of the table that turns light into greys of 8 bits
GAP = 4  # pixels between words
CLEAR = 3  # pixels between words and the left or right edge of their picture
SHADOW = 0.4  # how dark the shadow is beneath a blade that lies on paper; illustrative
HOVER = 5  # pixels that it falls aside
REACH = 3 * HOVER  # how far it may be seen beside the blade
LAYERS, STEEL = LOOKS = ("layers", "steel")  # how steel is shown: as it was laid, as etched
SEEN = "steel shown as"  # what an image says of itself
SEEN_AS = {LAYERS: "Drawn as flat layers.", STEEL: "Shown as etched steel, under a lamp."}
# How high words in pictures are at least, pixels of a picture 1000 wide: on a page of 800
# pixels those are 12 of the screen; the larger, on a page 1.5 m wide, are capitals of
# 13.1 mm, 15' of arc at 3 m (`tests/test_words_in_pictures.py`).
LETTERS, BIG_LETTERS = 18, 23


def to_srgb(linear: np.ndarray) -> np.ndarray:
    """Give the 8-bit grey that a screen needs to show a reflectance 0 … 1.

    Source: IEC 61966-2-1 (sRGB), the transfer function.

    Examples
    --------
    >>> to_srgb(np.array([0.0, 0.2140, 1.0]))
    array([  0, 127, 255], dtype=uint8)
    """
    index = np.clip(linear, 0, 1) * (TONES - 1)
    return _srgb_table()[(index + 0.5).astype(np.uint16)]


@lru_cache(maxsize=1)
def _srgb_table() -> np.ndarray:
    light = np.linspace(0, 1, TONES)
    root = 1.055 * np.power(light, 1 / 2.4) - 0.055
    grey = np.where(light <= 0.0031308, 12.92 * light, root)
    return np.round(255 * grey).astype(np.uint8)


class Sheet:
    """A drawing to put faces, lines and words on; measures are pixels.

    Parameters
    ----------
    columns, rows : int
        Size.
    sunlit : bool
        White paper, for reading outdoors.
    letters : int
        No words are written smaller.
    look : str
        "layers", flat tones as a diagram has them, or "steel", etched and under a lamp.

    Attributes
    ----------
    words : list
        Every place that has words: left, top, right, low.
    page : str
        The colour of its paper.
    """

    def __init__(
        self,
        columns: int,
        rows: int,
        *,
        sunlit: bool = False,
        letters: int = LETTERS,
        look: str = LAYERS,
    ) -> None:
        self.page = SUNLIT_PAGE if sunlit else PAGE
        self.image: Image.Image = Image.new("RGB", (columns, rows), self.page)
        self._draw = ImageDraw.Draw(self.image)
        self.letters, self.look, self.sunlit = letters, look, sunlit
        self.words: list[tuple[float, float, float, float]] = []

    def steel(
        self, face: Face, at: tuple[int, int], surface: Surface | None = None
    ) -> tuple:
        """Lay a traced face on the sheet, its top left corner at `at`.

        With the surface that it was seen on, in the look of the sheet; a face that is a
        diagram has none. What was pasted is given, to be laid over something once more.
        """
        shape, step = face.tone.shape, apart(*face.tone.shape)
        face = Face(*(part[::step, ::step] for part in face))
        if surface is not None:
            self.image.info[SEEN] = self.look
            if self.look == STEEL:
                face = etched(face, surface, sunlit=self.sunlit)
        mask = (face.cover * 255 + 0.5).astype(np.uint8)
        # where there is any: often a small part
        box = Image.fromarray(mask).getbbox() or (0, 0, 1, 1)
        left, top, right, low = box
        there = slice(top, low), slice(left, right)
        grey, mask = to_srgb(face.tone[there] * face.light[there]), mask[there]
        left, top, right, low = (step * side for side in box)
        shape = min(low, shape[0]) - top, min(right, shape[1]) - left
        steel = Image.merge("RGB", [Image.fromarray(filled_up(grey, *shape))] * 3)
        # steel all over is laid much faster
        mixed = None if mask.min() == 255 else Image.fromarray(filled_up(mask, *shape))
        laid = steel, (at[0] + left, at[1] + top), mixed
        self.image.paste(*laid)
        return laid

    def blade(self, face: Face, at: tuple[int, int], surface: Surface) -> tuple:
        """Lay what has an outline, as a whole blade, with a soft shadow below.

        The shadow falls away from the lamp.
        """
        cover = (face.cover * (255 * SHADOW)).astype(np.uint8)
        shade = _shadow(cover.tobytes(), cover.shape, apart(*face.tone.shape))
        right, up = Lamp().towards
        far = HOVER / max(math.hypot(right, up), 1)
        left, top = at[0] - round(right * far), at[1] + round(up * far)
        ink = Image.new("RGB", shade.size, INK)  # mixed in twice as fast as a colour
        self.image.paste(ink, (left - REACH, top - REACH), shade)
        return self.steel(face, at, surface)

    def text(
        self,
        words: str,
        at: tuple[float, float],
        *,
        size: int = 16,
        anchor: str = "la",
        ink: str = INK,
        gives_way: bool = False,
    ) -> None:
        """Write; `anchor` as Pillow has it: l, m, r and a (top), m, s (base line).

        Words that would touch the sheet's side, or leave it, are moved onto it. Words that
        give way are left out where others stand: every tick of an axis has its line, not
        each its number.
        """
        font = _font(max(size, self.letters))
        box = self._draw.textbbox(at, words, font=font, anchor=anchor)
        across = max(0, CLEAR - box[0]) + min(0, self.image.width - CLEAR - box[2])
        down = max(0, -box[1]) + min(0, self.image.height - box[3])
        left, top, right, low = (
            edge + shift for edge, shift in zip(box, 2 * (across, down), strict=True)
        )
        if gives_way and not self.free(left, top, right, low):
            return
        self.words.append((left, top, right, low))
        place = at[0] + across, at[1] + down
        self._draw.text(place, words, font=font, fill=ink, anchor=anchor)

    def free(self, left: float, top: float, right: float, low: float) -> bool:
        """Tell whether no words stand in a place."""
        return not any(
            left - GAP < one[2] and one[0] < right + GAP and top < one[3] and one[1] < low
            for one in self.words
        )

    def above(self, place: tuple[float, float], *lines: str) -> None:
        """Write lines right above a place, such as a picture's upper left corner."""
        left, low = place[0], place[1] - 2 - self.letters // 4  # clear of a letter's tail
        for number, words in enumerate(reversed(lines)):
            self.text(words, (left, low - self.row * number), size=18, anchor="ls")

    def lines(
        self,
        words: str,
        at: tuple[float, float],
        room: float,
        *,
        most: int = 9,
        **look: Any,
    ) -> None:
        """Write words in as many lines as the room asks for.

        Parameters
        ----------
        words : str
        at : (float, float)
            Upper left corner.
        room : float
            Width.
        most : int
            Lines; a longer text ends in dots.
        **look
            As `text` has it.
        """
        size = max(look.get("size", 16), self.letters)
        font, lines = _font(size), [""]
        for part in kept(" ".join(words.split())).split(" "):
            word = plain(part)
            longer = f"{lines[-1]} {word}".strip()
            if not lines[-1] or font.getlength(longer) <= room:
                lines[-1] = longer
            else:
                lines.append(word)
        if len(lines) > most:
            lines[most - 1] += " …"
        for number, line in enumerate(lines[:most]):
            self.text(line, (at[0], at[1] + self.row * number), **look)

    @property
    def row(self) -> int:
        """How far lines of words stand apart, pixels."""
        return round(1.15 * self.letters)

    def line(
        self, points: list[tuple[float, float]], *, ink: str = INK, width: int = 1
    ) -> None:
        """Draw a line through points."""
        self._draw.line(points, fill=ink, width=width)

    def dashes(
        self,
        start: tuple[float, float],
        end: tuple[float, float],
        *,
        ink: str = QUIET,
        width: int = 1,
        dash: float = 6,
    ) -> None:
        """Draw a dashed line."""
        (x, y), (far_x, far_y) = start, end
        across, down = far_x - x, far_y - y
        count = max(1, int(math.hypot(across, down) / dash) // 2 * 2 + 1)
        stops = [(x + across * i / count, y + down * i / count) for i in range(count + 1)]
        for index in range(0, count, 2):
            self.line([stops[index], stops[index + 1]], ink=ink, width=width)

    def box(
        self,
        corner: tuple[float, float],
        opposite: tuple[float, float],
        *,
        fill: str | None = None,
        ink: str | None = INK,
        width: int = 1,
    ) -> None:
        """Draw a rectangle."""
        self._draw.rectangle((*corner, *opposite), fill=fill, outline=ink, width=width)

    def shape(self, points: list[tuple[float, float]], *, fill: str) -> None:
        """Fill a polygon."""
        self._draw.polygon(points, fill=fill)

    def scale_bar(
        self, at: tuple[float, float], pixel: float, units: Units, *, most: float = 120
    ) -> None:
        """Lay a piece of a ruler down, of a round length, true for `pixel` mm a pixel.

        `at` is its left end, lower if its words would leave the sheet; at most `most` long.
        """
        length, words = _round_length(most * pixel, units)
        x, y = at[0], max(at[1], self.letters + 3)
        end = x + length / pixel
        foot, parts = y + 5, 10 if units is Units.MM else 8
        self.line([(x, foot), (end, foot)], width=2)
        for tick in range(parts + 1):
            place = x + tick * length / pixel / parts
            long = 11 if tick % parts == 0 else 7 if 2 * tick == parts else 4
            self.line([(place, foot - long), (place, foot)], width=1 + (long == 11))
        self.text(words, ((x + end) / 2, y - 8), anchor="ms")

    def ruler(
        self, at: tuple[float, float], height: float, pixel: float, units: Units
    ) -> None:
        """Draw a ruler standing up from `at`, its lower end, 0 below; a pixel in mm."""
        inch = units is not Units.MM
        step = MM_PER_INCH / 16 if inch else 1.0
        small, large, label = (4, 8, 16) if inch else (5, 10, 10)
        while step / pixel < 3:
            step, label = step * (2 if inch else 5), label // (2 if inch else 5) or 1
        x, bottom = at
        self.line([(x, bottom), (x, bottom - height)])
        top = bottom - height + 8  # of the figures: the unit stands above them
        for tick in range(int(height * pixel / step) + 1):
            y = bottom - tick * step / pixel
            long = 14 if tick % large == 0 else 9 if tick % small == 0 else 5
            self.line([(x, y), (x + long, y)])
            if tick % label == 0 and label * step / pixel > self.letters:
                shown = tick * step / (MM_PER_INCH if inch else 1)
                self.text(f"{shown:g}", (x + 17, y), size=15, anchor="lm")
                top = min(top, y)
        name = "in" if inch else "mm"
        self.text(name, (x + 17, top - self.row), size=15, anchor="lm")


def on_any_page(image: Image.Image) -> Image.Image:
    """Make a picture's own ground clear: a page may be cream, or white in the sun."""
    pixels = np.asarray(image.convert("RGBA")).copy()
    pixels[(pixels[..., :3] == ImageColor.getrgb(PAGE)).all(axis=-1), 3] = 0
    return Image.fromarray(pixels)


def seen_as(image: Image.Image) -> str:
    """Say how the steel in a picture is shown, after a blank; nothing if it shows none."""
    return f" {SEEN_AS[image.info[SEEN]]}" if SEEN in image.info else ""


def encode(image: Image.Image, *, moving: bool = False) -> bytes:
    """Turn a picture into bytes: clean PNG; while a slider moves, JPEG half as wide."""
    out = io.BytesIO()
    if moving:
        image.reduce(2).save(out, "JPEG", quality=90)
    else:
        image.save(out, "PNG", compress_level=1)
    return out.getvalue()


def save(image: Image.Image, path: Path, alt: str, *, pixel: float | None = None) -> None:
    """Write a PNG that carries its own description (PNG keyword Description).

    With `pixel`, mm on paper, it also says how large it is to be printed.
    """
    words = PngInfo()
    words.add_itxt("Description", alt)
    dpi = None if pixel is None else (MM_PER_INCH / pixel,) * 2
    image.save(path, "PNG", optimize=True, pnginfo=words, dpi=dpi)


@lru_cache(maxsize=4)  # a blade that is ground keeps its outline: two sides, two scales
def _shadow(cover: bytes, shape: tuple[int, int], step: int) -> Image.Image:
    """Blur what a blade covers, half as fine where `step` is 2, with a margin all round."""
    dark = np.pad(np.frombuffer(cover, np.uint8).reshape(shape), REACH)
    shade = Image.fromarray(dark[::step, ::step])
    for blur in (HOVER, HOVER / 2):
        shade = shade.filter(ImageFilter.BoxBlur(blur / step))
    return Image.fromarray(filled_up(np.asarray(shade), *dark.shape))


@lru_cache(maxsize=16)
def _font(size: int) -> ImageFont.FreeTypeFont:
    font = ImageFont.truetype(str(REGULAR), size)
    # most words of a picture stand there again in the next
    for asked in ("getmask2", "getbbox", "getlength"):
        setattr(font, asked, lru_cache(maxsize=512)(getattr(font, asked)))
    return font


def _round_length(most: float, units: Units) -> tuple[float, str]:
    """Find the longest round length up to `most` mm, and its name."""
    if units is Units.MM:
        choice = max(
            m * 10.0**e for e in range(-6, 4) for m in (1, 2, 5) if m * 10.0**e <= most
        )
        return choice, f"{choice:.6f}".rstrip("0").rstrip(".") + " mm"
    parts = [1 / 1000, 1 / 100, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 3, 6, 12]
    choice = max((p for p in parts if p * MM_PER_INCH <= most), default=1 / 1000)
    named = {0.0625: "1/16", 0.125: "1/8", 0.25: "1/4", 0.5: "1/2"}
    return choice * MM_PER_INCH, f"{named.get(choice, f'{choice:g}')} in"

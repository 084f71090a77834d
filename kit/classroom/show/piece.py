"""What the show page tells of one bar: faces to cut through, tiles, a question, a why.

Pictures are the engine's own: indoors a JPEG of etched steel; what is chosen from, and
all that is read in sunlight, a PNG of 16 greys, in layers. Sentences stand in the code in
English; `words/*.json` gives them in other languages, a file each. A language is added by
adding its file: the tests say what is missing from it.
"""

from __future__ import annotations

import io
import json
import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any, ClassVar

import numpy as np
from PIL import Image

from kit.basics.units import Units, format_length
from kit.course.anvil import void
from kit.forge.billet import Billet
from kit.forge.flaw import Flaw
from kit.metal import etch
from kit.section.block import Block
from kit.section.finish import Lamp, lit
from kit.section.picture import LAYERS, STEEL, Sheet, to_srgb
from kit.section.trace import Face, Surface
from kit.shop.recipes.talk import Cue

WORDS = Path(__file__).parent / "words"
ENGLISH = "en"
UNITS = {"mm": Units.MM, "inch": Units.INCH_FRACTION}


@lru_cache(maxsize=1)
def languages() -> dict[str, dict[str, Any]]:
    """Give every language of the page: its own name, its signs in numbers, its words.

    The keys are codes of ISO 639-1. "words" leads from an English sentence, with its
    {gaps}, to the same in the language; English has none.
    """
    english = {"name": "English", "decimal": ".", "thousands": ",", "words": {}}
    others = {
        file.stem: json.loads(file.read_text("utf-8"))
        for file in sorted(WORDS.glob("*.json"))
    }
    return {ENGLISH: english, **others}


@dataclass(frozen=True)
class Voice:
    """Says a sentence in a language and in units.

    Parameters
    ----------
    units : Units
    language : str
        A key of `languages`.

    Examples
    --------
    >>> Voice()("{off} off", off=Voice().length(4.02))
    '4.0 mm off'
    >>> Voice(language="de").length(4)
    '4,0 mm'
    """

    units: Units = Units.MM
    language: str = ENGLISH

    def __call__(self, english: str, **gaps: object) -> str:
        """Say a sentence, its {gaps} filled; `KeyError` if the language lacks it."""
        words = languages()[self.language]["words"]
        sentence = english if self.language == ENGLISH else words[english]
        return sentence.format(**gaps)

    def length(self, mm: float) -> str:
        """Write a length, given in mm, as short as it can be said across a table."""
        if self.units is Units.MM:
            return f"{self.number(mm, 1)} mm"
        inches = format_length(mm, self.units).removesuffix(" in")
        return self("{inches} in", inches=self._signs(inches))

    def number(self, value: float, places: int = 0) -> str:
        """Write a number with so many places after the point."""
        return self._signs(f"{value:,.{places}f}")

    def _signs(self, written: str) -> str:
        here = languages()[self.language]
        return written.translate({ord("."): here["decimal"], ord(","): here["thousands"]})


def voices() -> dict[str, dict[str, Voice]]:
    """Give a voice for every language and every units: [language][units]."""
    return {
        code: {name: Voice(units, code) for name, units in UNITS.items()}
        for code in languages()
    }


COLUMNS, ROWS = 1200, 375  # pixels of a face
TILE = (600, 188)  # pixels of a tile to choose
THEMES = ("indoor", "sunlight")
QUALITY = 4  # of a WebP, for each grey that a PNG has: 60 of 100, and less in need
GREYS = 15  # the sixteenth sign of the palette is clear: no steel there
CLEAR = 0.02  # less steel than this share of a pixel is none
SKIN = 0.7  # light on what was not ground, indoors: illustrative
EDGE = 250  # part of the picture's height that half an edge's line is wide
# Sunlight: 11.6 : 1 by the contrast ratio of WCAG 2.2, and no glare of pure white.
SUN_DARK, SUN_BRIGHT = 0x2B, 0xE8


def sunlit(tone: np.ndarray, steels: Iterable[str]) -> np.ndarray:
    """Give tones of steels, linear light, 0 … 1, as they are in sunlight; illustrative.

    The darkest and the brightest of the steels are as far apart as glass in the sun
    allows, and the rest lie between.

    Examples
    --------
    >>> steels = etch.tones(["1084", "15N20"])
    >>> sunlit(np.array([*steels.values()]), steels).round(4).tolist()
    [0.0242, 0.8070]
    """
    known = etch.tones(steels).values()
    dark, bright = (_linear(grey) for grey in (SUN_DARK, SUN_BRIGHT))
    wide = max(known) - min(known) or 1.0  # one steel alone is dark
    return dark + (bright - dark) * (tone - min(known)) / wide


def _linear(grey: int) -> float:
    """Give the reflectance that an 8-bit grey of a screen stands for (IEC 61966-2-1)."""
    share = grey / 255
    return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4


def seen(
    picture: Picture,
    theme: str,
    greys: int = GREYS,
    *,
    face: Face | None = None,
    ground_shows: bool = True,
    look: str = STEEL,
) -> bytes:
    """Draw a picture in a theme, as the bytes of a WebP or PNG.

    Steel is shown as etched steel indoors. As layers, and in the sun, where a glass pane
    shows no more, there are no gradients, which 15 greys would break into steps. If it is
    to show where a round bar was ground, what was not is dull indoors, and the edge is a
    dark line. `face` is what was traced of it, if it was.
    """
    billet, surface = picture.billet, picture.surface
    face = picture.face() if face is None else face
    light = np.ones((surface.rows, 1))
    if ground_shows and isinstance(surface, Block) and billet.size.round:
        light = _skin(surface, SKIN if theme == "indoor" else 1.0)
    face = face._replace(light=np.broadcast_to(light, face.tone.shape))
    if theme == "sunlight":
        tone = sunlit(face.tone, billet.source.steels)
        return png(face._replace(tone=tone), (SUN_DARK, SUN_BRIGHT), greys)
    if look == LAYERS:
        return png(face, greys=greys)
    sheet = Sheet(surface.columns, surface.rows, look=STEEL)
    if isinstance(surface, Block):  # it rolls: no end is brighter, no scratch lies still
        sheet.steel(lit(face, pixel=surface.pixel, grain="", lamp=Lamp(near=0)), (0, 0))
    else:
        sheet.steel(face, (0, 0), surface)
    whole = sheet.image.convert("L")
    if face.cover.min() < 1:
        whole.putalpha(Image.fromarray((face.cover * 255 + 0.5).astype(np.uint8)))
    out = io.BytesIO()
    whole.save(out, "WEBP", quality=QUALITY * greys)
    return out.getvalue()


def _skin(bar: Block, dull: float) -> np.ndarray:
    """Give the light on each row of a round bar seen from above, ground or not."""
    half = bar.size.thickness / 2
    height = bar.cut[1][2] if bar.cut else half
    chord = math.sqrt(max(half**2 - height**2, 0.0)) * bar.size.width / (2 * half)
    row = np.abs(np.arange(bar.rows) - (bar.rows - 1) / 2) * bar.pixel
    light = np.where(row < chord, 1.0, dull)
    if bar.cut:
        light[np.abs(row - chord) < bar.pixel * bar.rows / EDGE] = 0.0
    return light[:, None]


def png(face: Face, ends: tuple[int, int] = (0, 255), greys: int = GREYS) -> bytes:
    """Write a face as a PNG of a few greys, clear where there is no steel.

    Parameters
    ----------
    face : Face
    ends : (int, int)
        Darkest and brightest grey, 0 … 255.
    greys : int
        How many, 2 … 15.
    """
    low, high = ends
    grey = np.clip(to_srgb(face.tone * face.light).astype(float), low, high)
    index = np.round((grey - low) * ((greys - 1) / (high - low))).astype(np.uint8)
    index[face.cover < CLEAR] = greys
    image = Image.fromarray(index, "P")
    levels = [round(low + (high - low) * level / (greys - 1)) for level in range(greys)]
    image.putpalette([part for level in (*levels, 255) for part in (level,) * 3])
    out = io.BytesIO()
    image.save(out, "PNG", bits=4, transparency=greys, optimize=True)
    return out.getvalue()


STOPS = 9  # places of the slider
Said = Callable[["Voice"], str]


def phrase(english: str) -> Said:
    """Give what says a sentence without gaps."""
    return lambda voice: voice(english)


DAMASCUS = phrase("Damascus steel")


@dataclass(frozen=True, kw_only=True)
class Picture:
    """A face, what is said below it, and what it is in words.

    Parameters
    ----------
    billet : Billet
    surface : Plane or Block
    alt : callable
        From the voice to the picture in words.
    says : callable
        From the voice to a few words: "4.0 mm off"; a tile says nothing.
    found : tuple of tuple of Flaw
        Its welds that did not take, as `void.flaws` gives them.
    """

    billet: Billet
    surface: Surface
    alt: Said
    says: Said = lambda _voice: ""
    found: tuple[tuple[Flaw, ...], ...] = ()

    def face(self) -> Face:
        """Trace the bar, in the kit's own tones; for all themes and greys once will do."""
        face = etch.seen(self.billet, self.surface)
        return void.marked(face, self.billet, self.surface, self.found)


@dataclass(frozen=True, kw_only=True)
class Shown:
    """One bar of the show: what passers-by see of it, and its card.

    What is said is a callable, from the voice to words.

    Parameters
    ----------
    name : callable
    stops : tuple of Picture
        Its faces, from the first to the last; two at least.
    """

    # Shown from afar, 18 letters at most each: what it is, what is asked, what touch does.
    lines: ClassVar[tuple[Said, Said, Said]]
    name: Said
    stops: tuple[Picture, ...]


@dataclass(frozen=True, kw_only=True)
class Piece(Shown):
    """A bar that is asked about, from the question to the sentence; it has `STOPS` stops.

    At rest it is seen as it lies there, its first stop: that tells no answer.

    Parameters
    ----------
    question : callable
        At most 8 words.
    slider : callable
        What the slider does.
    asked : int
        The stop that the question is about: there the finger is stopped, by a mark.
    tiles : tuple of Picture
        Four, one for each idea.
    right : int
        Which tile is right.
    why : callable
        At most 18 words.
    number : callable
        One number.
    counts : callable
        What the number is, in a few words.
    """

    lines = (DAMASCUS, phrase("What lies inside?"), phrase("Touch to cut"))
    question: Said
    slider: Said
    asked: int
    tiles: tuple[Picture, ...]
    right: int
    why: Said
    number: Said
    counts: Said


@dataclass(frozen=True, kw_only=True)
class Talk(Shown):
    """A bar that its maker tells of: words at each stop, in one language.

    Parameters
    ----------
    cues : tuple of Cue
        One to a stop, in order.
    rest : Picture
        What is seen at rest: a bevel of the bar when it is done.
    """

    lines = (DAMASCUS, phrase("How was it made?"), phrase("Touch and look"))
    cues: tuple[Cue, ...]
    rest: Picture


def taken_off(off: float, untouched: str) -> Said:
    """Say how much was ground off, mm: "4.0 mm off"; of 0, what the untouched is."""
    if not off:
        return phrase(untouched)
    return lambda voice: voice("{off} off", off=voice.length(off))


def ground(voice: Voice, off: float) -> str:
    """Say for a longer sentence how much was ground off, mm."""
    if not off:
        return voice("not ground")
    return voice("with {off} ground off", off=voice.length(off))


def from_above(
    billet: Billet,
    height: float,
    *,
    size: tuple[int, int] = (COLUMNS, ROWS),
    long: float | None = None,
) -> Block:
    """Look down on a bar that was ground flat at a height above its axis.

    Parameters
    ----------
    billet : Billet
    height : float
        mm; at or above the bar's face nothing is ground off.
    size : (int, int)
        Pixels.
    long : float, optional
        How much of the bar's length fills the picture, mm; left out, as much as shows
        the whole width with a little room, or all there is.
    """
    length, width, thickness = billet.size
    if long is None:
        room = 1.03 if billet.size.round else 1.0
        long = min(length, width * room * size[0] / size[1])
    middle = length / 2
    off = height < thickness / 2 - 1e-6
    return Block(
        size=billet.size,
        cut=((0.0, 0.0, 1.0), (0.0, 0.0, height)) if off else None,
        span=(max(0.0, middle - long), min(length, middle + long)),
        turned=0.0,
        raised=89.99,
        columns=size[0],
        rows=size[1],
        pixel=long / size[0],
    )


def letter_height(distance: float, arc_minutes: float) -> float:
    """Give how high a letter must be to fill an angle from afar; mm.

    Parameters
    ----------
    distance : float
        From the reader, mm.
    arc_minutes : float
        1 … 600 minutes of arc; 20 is easy reading, 5 what a good eye just makes out.

    Examples
    --------
    >>> round(letter_height(3000, 20), 1)
    17.5
    """
    return 2 * distance * math.tan(math.radians(arc_minutes / 60) / 2)

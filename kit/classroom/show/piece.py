"""What the show page tells of one bar: faces to cut through, tiles, a question, a why."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from kit.classroom.show.draw import COLUMNS, ROWS
from kit.section.block import Block

if TYPE_CHECKING:
    from kit.classroom.show.voice import Voice
    from kit.forge.billet import Billet
    from kit.section.trace import Surface

STOPS = 9  # places of the slider
Said = Callable[["Voice"], str]


@dataclass(frozen=True, kw_only=True)
class Picture:
    """A face, what is said below it, and what it is in words.

    Parameters
    ----------
    billet : Billet
    surface : Plane or Block
    says : callable
        From the voice to a few words: "4.0 mm off".
    alt : callable
        From the voice to the picture in words.
    """

    billet: Billet
    surface: Surface
    says: Said
    alt: Said


@dataclass(frozen=True, kw_only=True)
class Piece:
    """One bar of the show, from the question to the sentence.

    What is said is a callable, from the voice to words.

    Parameters
    ----------
    name : callable
    lines : tuple of callable
        Shown from afar, in capitals, at most 18 letters each: as it is at first, as it
        is at last, and what a touch does.
    question : callable
        At most 8 words.
    slider : callable
        What the slider does.
    stops : tuple of Picture
        `STOPS` faces, from the first place of the slider to the last.
    asked : int
        The stop that the question is about.
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
    roll : int
        How many times the first face repeats along its length, so that it may roll on
        without end as the bar turns; 0: it can not.
    """

    name: Said
    lines: tuple[Said, Said, Said]
    question: Said
    slider: Said
    stops: tuple[Picture, ...]
    asked: int
    tiles: tuple[Picture, ...]
    right: int
    why: Said
    number: Said
    counts: Said
    roll: int = 0


def phrase(english: str) -> Said:
    """Give what says a sentence without gaps."""
    return lambda voice: voice(english)


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

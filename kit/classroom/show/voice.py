"""How the show page speaks: one language, one kind of units.

Sentences stand in the code in English; `words/*.json` gives them in other languages, a
file each. A language is added by adding its file: the tests say what is missing from it.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

from kit.basics.units import Units, format_length

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

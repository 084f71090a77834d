"""One question as a card: what is asked, believed and true, with a picture and a number.

The texts hold no numbers. They hold names in braces, ``{bevel:fine}``, which are filled
in from what the kit works out, in the units that the reader has chosen.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from string import Formatter
from typing import Any, NamedTuple

from kit.basics.claim import Claim, Kind
from kit.basics.told import one_way, roughly
from kit.basics.units import (
    Units,
    format_length,
    format_temperature,
    format_temperature_difference,
    in_figures,
    in_three,
    rounded,
)
from kit.course.lessons.scene import Number, Scene
from kit.course.worded import words_beside
from kit.metal.dangers import Danger
from kit.section.picture import LETTERS, STEEL

Values = Mapping[str, float]
_DECIMALS = re.compile(r"\.(\d)f")  # halves go away from zero, as everywhere

BELIEVED = Claim(
    says="That many think so is our guess: nobody was asked.",
    kind=Kind.OURS,
    source="what is told at tables and forges, as we remember it",
    told=("[Mm]any think",),
)
NO_SOURCE = "Common practice, no source: put your own numbers in."


class Measures(NamedTuple):
    """How the reader wants things shown.

    Attributes
    ----------
    units : Units
        For lengths.
    degrees : str
        For temperatures, "C" or "F".
    sunlit : bool
        White paper under the pictures.
    letters : int
        How high words in pictures are at least, pixels.
    look : str
        What steel is shown as.
    """

    units: Units = Units.MM
    degrees: str = "C"
    sunlit: bool = False
    letters: int = LETTERS
    look: str = STEEL

    @property
    def paper(self) -> dict[str, Any]:
        """What `Sheet` and a lesson's scene are told of it."""
        return {"sunlit": self.sunlit, "letters": self.letters, "look": self.look}

    def fine(self, mm: float) -> str:
        """Write a small length, never in coarse inch fractions.

        Examples
        --------
        >>> Measures().fine(0.0535), Measures(Units.INCH_FRACTION).fine(0.0535)
        ('0.0535 mm', '0.0021 in')
        """
        if self.units is Units.MM:
            return f"{in_three(mm)} mm"
        return format_length(mm, Units.INCH_DECIMAL)

    def rough(self, mm: float) -> str:
        """Write a small length of which only the size is known: one figure.

        Examples
        --------
        >>> Measures().rough(0.00156), Measures(Units.INCH_FRACTION).rough(0.00156)
        ('0.002 mm', '0.0001 in')
        """
        return self.fine(in_figures(mm, 1))

    def tenth(self, mm: float) -> str:
        """Write a length as a ruler tells it.

        Examples
        --------
        >>> Measures().tenth(7.111), Measures(Units.INCH_FRACTION).tenth(7.111)
        ('7.1 mm', '9/32 in')
        """
        if self.units is Units.MM:
            return f"{rounded(mm, 1)} mm"
        return format_length(mm, self.units)

    def write(self, value: float, kind: str) -> str:
        """Write a number of a kind: a length, a count, a temperature and so on.

        Parameters
        ----------
        value : float
            In mm, °C, degrees of an angle or per cent.
        kind : str
            "length", "fine" (small ones), "rough" (their size), "tenth" (by a ruler),
            "heat" (°C), "near" (after "about"), "rise" (a difference of them), "count",
            "round" (of two figures), "angle", "percent", or as Python's own format has it.

        Examples
        --------
        >>> Measures(degrees="F").write(1200, "heat"), Measures().write(2048, "count")
        ('2192 °F', '2,048')
        """
        writers: dict[str, Callable[[], str]] = {
            "length": lambda: format_length(value, self.units),
            "fine": lambda: self.fine(value),
            "rough": lambda: self.rough(value),
            "tenth": lambda: self.tenth(value),
            "heat": lambda: format_temperature(value, self.degrees),
            "near": lambda: roughly(value, self.degrees),
            "rise": lambda: format_temperature_difference(value, self.degrees),
            "count": lambda: f"{value:,.0f}",
            "round": lambda: f"{int(in_figures(value, 2)):,}",
            "angle": lambda: f"{rounded(value, 1)}°",
            "percent": lambda: f"{rounded(value)} %",
        }
        if writer := writers.get(kind):
            return writer()
        decimals = _DECIMALS.fullmatch(kind)
        return rounded(value, int(decimals[1])) if decimals else format(value, kind)


class _Filled(Formatter):
    """Fills the names in a text, each written as its kind asks."""

    def __init__(self, measures: Measures) -> None:
        self.measures = measures

    def format_field(self, value: Any, format_spec: str) -> str:
        """Write one number."""
        return self.measures.write(value, format_spec)


class Told(NamedTuple):
    """A card with all its numbers written out."""

    question: str
    belief: str
    answer: str
    breath: str
    number: Number
    mark: str


@dataclass(frozen=True, kw_only=True)
class Card:
    """A question that visitors and students ask, and all that helps to answer it.

    Parameters
    ----------
    number : int
        Its place among the cards; no other has it.
    question, belief, answer, breath : str
        What is asked; what many think, told kindly; what is true; and that in one or
        two sentences to say at a table.
    name, value, working : str, str, tuple of str
        The one number, and the lines of its working.
    values : callable
        Works out the numbers in the texts, by name; they do not depend on units.
    by_hand : mapping
        Some of the `values` again, worked out without the kit: plain arithmetic, or a
        handbook's formula with its source beside it. A law compares the two.
    shown : tuple of str
        What must then be read in the `value`, in mm and °C.
    picture : callable
        From `Measures` to a Scene.
    found_by : str
        Three words that a visitor might type; they must find this card first.
    keywords : str
        Short phrases under which people look for it, with commas between; what is said
        in several of them counts more.
    claims : tuple of Claim
        What the answer relies on, and how it is known: declared where its constant or
        sentence stands, in this folder or in the room it comes from.
    mark : str
        Where the number comes from, if the claims do not say it all; a text, too.
    dangers : tuple of Danger
        What the answer touches: fire, acid, dust, health.
    lesson : str
        Where to find out more: "02".
    part : str
        Of what part it is, if any: "weld". On a telephone it stands there.
    """

    number: int
    question: str
    belief: str
    answer: str
    breath: str
    name: str
    value: str
    working: tuple[str, ...]
    values: Callable[[], Values]
    by_hand: Values = field(compare=False)
    shown: tuple[str, ...]
    picture: Callable[[Measures], Scene]
    found_by: str
    keywords: str
    claims: tuple[Claim, ...] = ()
    mark: str = ""
    dangers: tuple[Danger, ...] = ()
    lesson: str
    part: str = ""

    def told(self, measures: Measures = Measures()) -> Told:  # noqa: B008  (frozen)
        """Fill all numbers in."""
        values = self.values()

        def tell(text: str) -> str:
            def filled(units: Units) -> str:
                reader = measures._replace(units=units)
                return _Filled(reader).vformat(text, (), values)

            return one_way(filled, measures.units)

        working = tell("\n".join(self.working)).split("\n")
        number = Number(tell(self.name), tell(self.value), working, self.claims)
        texts = (self.question, self.belief, self.answer, self.breath)
        mark = tell(self.mark) if self.mark else " ".join(one.how for one in self.claims)
        return Told(*(tell(text) for text in texts), number, mark)

    @property
    def cautions(self) -> list[tuple[str, str]]:
        """What to mind, each under its name."""
        return [(danger.name.capitalize(), str(danger)) for danger in self.dangers]

    @property
    def texts(self) -> tuple[str, ...]:
        """All that can be searched, best first, without the numbers."""
        keywords = f"{self.found_by}, {self.keywords}"
        parts = (self.question, keywords, self.belief, self.answer, self.breath)
        return tuple(_without_names(part) for part in parts)


def cards_of(module: str) -> Callable[..., Card]:
    """Give how the cards of a module are made: by number, with the words beside it."""
    words = words_beside(module)

    def card(number: int, **made: Any) -> Card:
        return Card(number=number, **words[str(number)], **made)

    return card


def _without_names(text: str) -> str:
    return " ".join(plain for plain, *_ in Formatter().parse(text))


@lru_cache(maxsize=64)
def drawn(card: Card, measures: Measures) -> Scene:
    """Draw a card's picture; kept, since a table goes back and forth between cards."""
    return card.picture(measures)

"""Sentences told in the reader's units: they are written in mm, as all is inside the kit.

A lesson writes its sentences, workings and refusals once, each length with its unit. At
the edge, before they are read, `in_units` puts every length in inches if the reader wants
inches: in a question and its working so exactly that what is reckoned comes out right.
"""

import math
import re
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager

from kit.basics.errors import KitError
from kit.basics.typed import MM_PER_INCH, POUND, parse_length
from kit.basics.units import (
    Units,
    format_away,
    format_length,
    format_temperature,
    format_weight,
    in_fahrenheit,
    in_three,
    rounded,
)

# Of a given length, the most that it may be rounded off by: a quarter of what an answer
# may be off, so that who reckons with it is right. In inches that is what a calliper shows,
# 0.001 in, from a tenth of an inch up, and a micrometer's 0.0001 in below.
GIVEN = 0.005
NO_BREAK = "\u00a0"
JOINER = "\u2060"  # a sign without width: no line breaks there (UAX 14, class WJ)
THE_VERY = 0.001  # so near is a fraction of an inch the very length
_DAY, _YEAR = 1440, 525_960  # minutes
# From how many minutes on each is said, and its size: 90 min, but 2 h.
_TIMES = (
    (2 * _YEAR, _YEAR, "years"),
    (2 * _DAY, _DAY, "days"),
    (120, 60, "h"),
    (1, 1, "min"),
    (0, 1 / 60, "s"),
)

_NUMBER = r"(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?(?:e-?\d+)?"
_BETWEEN = r"(?:, and |, | and | to | or | by | → )"
_TWO = rf"{_NUMBER} × {_NUMBER}(?= mm \([^()]* × [^()]* in\))"  # sides, as its inches say
_MANY = rf"{_NUMBER} × {_NUMBER} × {_NUMBER}|{_TWO}|{_NUMBER}(?:{_BETWEEN}{_NUMBER})*"
# In mm; a volume in mm³.
_SIZES = {"m": 1e3, "mm": 1.0, "µm": 1e-3, "nm": 1e-6, "mm³": 1.0, "cm³": 1e3}
_LENGTHS = re.compile(
    rf"(?<![\w./])(?P<numbers>{_MANY})"
    r"[ \u00a0](?P<unit>mm³|cm³|mm|µm|nm|m)(?![\w²³]|\)²)"
    r"(?: \((?P<inches>[^()]* (?:in|in³|ft))\)|, or (?P<or>[\d./ ]+ in))?"
)
_WEIGHTS = re.compile(
    rf"(?<![\w./])(?<!(?:oz|lb) \()(?P<grams>{_NUMBER})[ \u00a0](?:(?P<kilo>kg)|g|grams)\b"
    r"(?:/(?P<per>cm³|mm³))?(?: \((?P<pounds>[\d.]+ (?:oz|lb))\))?"
)
# Code is copied, and what stands in a tag is no text: both stay as they are.
_STAYS = r"<(code|pre)\b.*?</\1>|</?[a-z][^>]*>|`[^`]*`"
_UNITS = r"(?:[mcµn]?m[²³]?|in[²³]?|ft|k?g|lb|oz|°[CF]|min|h|s|wt%|%)(?![\w])|\d+/\d"
_PARTED = re.compile(rf"{_STAYS}|(?<=\d) (?={_UNITS})|(?<=\d)–(?=\d)", re.DOTALL)
_TOGETHER = {" ": NO_BREAK, "–": f"–{JOINER}"}
_SENTENCES = re.compile(r"(?<=[.!?]) ")
_FRACTION = re.compile(r"\d/\d+(?= in\b| × )")
_DECIMAL = re.compile(r"\d\.\d+(?= in\b| × )")
_IN_INCHES = re.compile(r"(?<![\w./])(?:\d+ )?[\d./]+(?= in\b)")


def listed(words: Iterable[str]) -> str:
    """Write words one after another: "one, two and three"."""
    *before, last = words
    return f"{', '.join(before)} and {last}" if before else last


def counted(many: float, name: str) -> str:
    """Write how many there are: never "1 bands".

    Examples
    --------
    >>> counted(1, "band"), counted(1024, "layer"), counted(2.5, "minute")
    ('1 band', '1,024 layers', '2.5 minutes')
    """
    number = f"{many:,}" if isinstance(many, int) else f"{many:g}"
    return f"{number} {name}{'s' if many != 1 else ''}"


def format_time(minutes: float, figures: int = 2) -> str:
    """Write a time as people say it: in seconds, minutes, hours, days or years.

    In so many figures, but whole ones are never rounded off. `minutes` is 0 or more; less
    raises `KitError`.

    Examples
    --------
    >>> [format_time(some) for some in (0.6, 3.72, 200, 78000, 9e6)]
    ['36 s', '3.7 min', '3.3 h', '54 days', '17 years']
    >>> format_time(310664, 3)
    '216 days'
    """
    if minutes < 0:
        msg = f"A time cannot be less than nothing. Given: {minutes:g} minutes."
        raise KitError(msg)
    size, name = next((size, name) for least, size, name in _TIMES if minutes >= least)
    number = minutes / size
    places = max(figures - len(str(int(number))), 0)
    return f"{float(rounded(number, places)):,.{places}f} {name}"


def roughly(celsius: float, unit: str = "C") -> str:
    """Write a temperature, in °C, that stands after "about": no finer in °F than in °C.

    Examples
    --------
    >>> roughly(1150), roughly(1150, "F"), roughly(176.7, "F")
    ('1150 °C', '2100 °F', '350 °F')
    """
    told = format_temperature(celsius, unit)
    if unit == "C" or celsius % 10:
        return told
    return f"{rounded(in_fahrenheit(celsius), -1)} °F"


def about(celsius: float) -> str:
    """Write a rough temperature in both scales, for a sentence.

    Examples
    --------
    >>> about(1150)
    'about 1150 °C (2100 °F)'
    """
    return f"about {roughly(celsius)} ({roughly(celsius, 'F')})"


def kept(words: str) -> str:
    r"""Keep each number of some words, or of HTML or Markdown, in one line with its unit.

    The one place for all that is shown: the space between becomes one at which no line
    breaks, and a range holds together at its dash. Inside the kit, and in what people
    copy, they are plain: see `plain`.

    Examples
    --------
    >>> kept("A bar 6 mm (15/64 in) thick, 2 1/2 in wide")
    'A bar 6\xa0mm (15/64\xa0in) thick, 2\xa01/2\xa0in wide'
    >>> kept("781–830 °C")
    '781–\u2060830\xa0°C'
    """
    return _PARTED.sub(lambda at: _TOGETHER.get(at[0], at[0]), words)


def plain(words: str) -> str:
    """Take out again what `kept` put in: words as they are set in print, or compared."""
    return words.replace(NO_BREAK, " ").replace(JOINER, "")


def said(mm: float, units: Units = Units.MM) -> str:
    """Write a given length in a question: in inches always as a decimal, and fine enough.

    What is reckoned with it must come out right: a fraction, or a thousandth of a thin
    layer, would be rounded by more than an answer may be off. No finer than that: it is
    somebody's to measure.

    Examples
    --------
    >>> said(14), said(14, Units.INCH_FRACTION), said(0.4, Units.INCH_DECIMAL)
    ('14.0 mm', '0.551 in', '0.0157 in')
    """
    text, figures = format_length(mm, units.fine), 4
    while units is not Units.MM and abs(parse_length(text) - mm) > GIVEN * abs(mm):
        text, figures = f"{rounded(mm / MM_PER_INCH, figures)} in", figures + 1
    return text


def in_units(words: str, units: Units) -> str:
    """Tell words that were written in mm, µm or nm in the reader's units.

    Numbers that share one unit are told one by one: a list, or the three sides of a bar.
    A fraction of an inch is written only where it is the very length, and no decimal
    stands in the same sentence. What gives inches in brackets keeps those alone. A weight
    keeps its grams beside its pounds.

    Parameters
    ----------
    words : str
        Each length in it with its unit, or sharing one: "4.2, 3.6 and 4.2 mm".
    units : Units

    Examples
    --------
    >>> in_units("Bars of 3.2 mm (1/8 in), 12.7 and 25.4 mm", Units.INCH_FRACTION)
    'Bars of 1/8 in, 1/2 in and 1 in'
    >>> in_units("It got 1.6 µm far.", Units.INCH_DECIMAL)
    'It got 0.000063 in far.'
    >>> in_units("581 g of 7.85 g/cm³", Units.INCH_DECIMAL)
    '1.28 lb (581 g) of 0.284 lb/in³'
    """
    if units is Units.MM:
        return words
    return " ".join(_sentence(one, units) for one in _SENTENCES.split(words))


def working_in_units(lines: list[str], units: Units) -> list[str]:
    """Tell the lines of a working in the reader's units: it is one sum, told one way."""
    return in_units("\n".join(lines), units).split("\n") if lines else []


def one_way(tell: Callable[[Units], str], units: Units) -> str:
    """Tell words so that inches are written in one way, and what differs differs.

    What somebody measures is a decimal, what is bought or marked out may be a fraction;
    words that would have both in a sentence, or two lengths as one fraction, are told in
    decimals throughout.

    Examples
    --------
    >>> one_way(lambda units: f"{format_length(50, units)} of 0.4 mm", Units.INCH_FRACTION)
    '1.969 in of 0.0157 in'
    >>> one_way(lambda units: f"{format_length(1.5, units)} of 1.6 mm", Units.INCH_FRACTION)
    '0.059 in of 0.063 in'
    """
    words = in_units(tell(units), units)
    if units is not Units.INCH_FRACTION:
        return words
    fine = in_units(tell(units.fine), units.fine)
    if any(map(_mixed, _SENTENCES.split(words))) or _lengths(words) < _lengths(fine):
        return fine
    return words


@contextmanager
def refusing_in(units: Units) -> Iterator[None]:
    """Let a refusal from deep inside the kit answer in the reader's units."""
    try:
        yield
    except KitError as refused:
        raise KitError(in_units(str(refused), units)) from None


def _grams(found: re.Match[str]) -> float:
    size = 1000 if found["kilo"] else 1
    return float(found["grams"].replace(",", "")) * size


def _weight(found: re.Match[str], units: Units, least: float) -> str:
    grams = _grams(found)
    if found["per"]:
        cubes = {"cm³": 10 / MM_PER_INCH, "mm³": 1 / MM_PER_INCH}[found["per"]]
        return f"{in_three(grams / POUND / cubes**3)} lb/in³"
    ours = f"{found['grams']} {found['kilo'] or 'g'}"
    return f"{found['pounds'] or format_weight(grams, units, least)} ({ours})"


def _sentence(words: str, units: Units) -> str:
    weights = [_grams(one) for one in _WEIGHTS.finditer(words) if not one["per"]]
    least = min(weights, default=math.inf)
    words = _WEIGHTS.sub(lambda found: _weight(found, units, least), words)
    told = _LENGTHS.sub(lambda found: _inches(found, units), words)
    if _mixed(told):
        return _LENGTHS.sub(lambda found: _inches(found, units.fine), words)
    return told


def _mixed(sentence: str) -> bool:
    return bool(_FRACTION.search(sentence) and _DECIMAL.search(sentence))


def _lengths(words: str) -> int:
    """Count the lengths in inches that differ."""
    return len(set(_IN_INCHES.findall(words)))


def _inches(found: re.Match[str], units: Units) -> str:
    inches = found["inches"] or found["or"]
    if inches and not (units is Units.INCH_DECIMAL and _FRACTION.search(inches)):
        return inches
    unit = found["unit"]

    def told(number: re.Match[str]) -> str:
        value = float(number[0].replace(",", "")) * _SIZES[unit]
        if unit.endswith("³"):
            return f"{in_three(value / MM_PER_INCH**3)} in³"
        if unit == "m":  # how far away somebody stands
            return format_away(value, units)
        return _length(value, units)

    return re.sub(_NUMBER, told, found["numbers"])


def _length(mm: float, units: Units) -> str:
    """Write a length so exactly that it may be reckoned with; a fraction if it is one."""
    fraction = format_length(mm, units)
    if mm == 0 or abs(parse_length(fraction) - mm) <= THE_VERY * mm:
        return fraction
    return said(mm, units)

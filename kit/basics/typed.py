"""Read what people type: lengths, angles, counts, times, temperatures.

Sources
-------
1 in = 25.4 mm exactly: international yard and pound agreement, 1959. Temperatures as
in NIST Special Publication 811 (2008), appendix B: t(°C) = (t(°F) - 32)/1.8, while a
*difference* of 1 °C is one of 1.8 °F. Absolute zero, 0 K, is -273.15 °C. A pound is
453.592 37 g, an ounce a sixteenth of it, exactly: the agreement of 1959 again.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Mapping
from fractions import Fraction

from kit.basics.errors import KitError

MM_PER_INCH = 25.4  # exact, see above
POUND = 453.59237  # g
LONGEST_TEXT = 40  # letters of a number, ours


def spellings(*rows: tuple[float, str]) -> dict[str, Fraction]:
    """Give every spelling the size of its unit."""
    # As decimals, exactly: 3/16 in is then 4.7625 mm and not 4.762499999999999.
    return {word: Fraction(str(size)) for size, words in rows for word in words.split()}


_LENGTHS = spellings(  # in mm
    (1e-6, "nm nanometre nanometres nanometer nanometers"),
    (1e-3, "μm um micron microns micrometre micrometres micrometer micrometers"),
    (1, "mm millimetre millimetres millimeter millimeters"),
    (10, "cm centimetre centimetres centimeter centimeters"),
    (1000, "m metre metres meter meters"),
    (MM_PER_INCH / 1000, "thou"),
    (12 * MM_PER_INCH, "ft foot feet"),
    (MM_PER_INCH, "in inch inches \" '' ′′ ”"),
)
_ANGLES = spellings(  # in degrees
    (1, "° deg degs degree degrees"), (180 / math.pi, "rad rads radian radians")
)
_TIMES = spellings(  # in minutes
    (1, "min mins minute minutes"),
    (60, "h hr hrs hour hours"),
    (1440, "d day days"),
    (525_960, "year years"),
)
_SECONDS = dict.fromkeys(("s", "sec", "secs", "second", "seconds"), Fraction(1, 60))

_QUANTITY = re.compile(
    r"""(?P<sign>[+-]?)\s*
    (?: (?:(?P<whole>\d+)[\s-]+)? (?P<top>\d+)\s*/\s*(?P<bottom>\d*[1-9]\d*)
      | (?P<decimal>(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[+-]?\d{1,2})?) )
    \s*(?P<unit>[^\d\s].*)?""",
    re.ASCII | re.VERBOSE | re.IGNORECASE,
)
_COUNT = re.compile(
    r"""(?P<digits>\d+|\d{1,3}(?P<mark>[ ,'_])\d{3}(?:(?P=mark)\d{3})*)
    (?:\.0*)?
    (?:\s*(?:layer|band|piece|bar|fold|line|ring|rung|star|turn)s?)?""",
    re.ASCII | re.VERBOSE | re.IGNORECASE,
)


class Inches(float):
    """A length in mm that was typed in inches; a refusal answers in inches, too."""

    said: str

    def __new__(cls, mm: float, said: str) -> Inches:
        """Keep what was typed beside the number."""
        made = super().__new__(cls, mm)
        made.said = said
        return made

    def __getnewargs__(self) -> tuple[float, str]:
        """Give what makes one again, for copies."""
        return float(self), self.said


def parse_length(text: object, unit: str = "mm") -> float:
    """Read a length as a smith would write it.

    Parameters
    ----------
    text : str or number
        At most 40 signs: ``4.73``, ``"4,73"``, ``"25 µm"``, ``"1.2 cm"``,
        ``"3/16 in"``, ``'1-1/2"'``, ``"5 thou"``, ``"10 ft"``. A comma is always a
        decimal mark.
    unit : str
        Unit of a number that has none. A fraction without one is always of an inch:
        nobody files 5/16 mm.

    Returns
    -------
    float
        Length in mm. Whether it may be zero or less is left to the caller.

    Raises
    ------
    KitError
        If the text is no such length.

    Examples
    --------
    >>> parse_length("3/16"), parse_length("4,73"), parse_length("0.5", unit="in")
    (4.7625, 4.73, 12.7)
    """
    number, spelling = _read_length(text, unit)
    mm = float(number * _LENGTHS[spelling])
    return mm if length_unit(text, unit) == "mm" else Inches(mm, str(text).strip())


def parse_lengths(words: str, count: int, what: str, unit: str = "mm") -> list[float]:
    """Read lengths with x between them; give them in mm.

    Such as 254x38.1x5, 10inx1.5inx3/16in, or 10 x 1 1/2 x 3/16 inch: a unit that only
    the last one has is that of all. `what` names them in a refusal.

    Examples
    --------
    >>> parse_lengths("2 x 1/2 in", 2, "A bar")
    [50.8, 12.7]
    """
    parts = re.split(r"\s*[x×]\s*", words.strip(), maxsplit=count)
    if len(parts) != count:
        msg = f"{what} must be {count} lengths with x between them. Given: {words[:40]!r}."
        raise KitError(msg)
    *others, last = found = [_match(_QUANTITY, part) for part in parts]
    if all(found) and last["unit"] and not any(other["unit"] for other in others):
        parts = [f"{part} {last['unit']}" for part in parts[:-1]] + parts[-1:]
    return [parse_length(part, unit=unit) for part in parts]


def length_unit(text: object, unit: str = "mm") -> str:
    """Say what a typed length is in: "mm", "in", or "/", a fraction of an inch.

    Examples
    --------
    >>> length_unit("3/16"), length_unit("5 thou"), length_unit("2 cm", "in")
    ('/', 'in', 'mm')
    """
    _, spelling = _read_length(text, unit)
    if _LENGTHS[spelling] not in (_LENGTHS[one] for one in ("in", "ft", "thou")):
        return "mm"
    return "/" if "/" in plain(str(text)) else "in"


def is_bare_fraction(text: object) -> bool:
    """Whether text is a fraction without a unit, which as a length is one of an inch.

    Examples
    --------
    >>> is_bare_fraction("1 5/16"), is_bare_fraction("5/16 mm"), is_bare_fraction("0.3")
    (True, False, False)
    """
    match = _match(_QUANTITY, text)
    return match is not None and match["decimal"] is None and match["unit"] is None


def parse_number(text: object, what: str = "a number") -> float:
    """Read a number that has no unit, such as 2.5 or 3/4: a share, or so many times.

    Raises `KitError`, naming `what` it should be, if the text is none.
    """
    hint = "a number without a unit, such as 2.5"
    number, _ = read_quantity(text, what, hint, {"": Fraction(1)}, "")
    return float(number)


def _read_length(text: object, unit: str) -> tuple[Fraction, str]:
    hint = "a number with or without a unit, such as 4.8, 4.8 mm or 3/16 in"
    fraction = "/" in plain(str(text)[:LONGEST_TEXT])
    return read_quantity(text, "a length", hint, _LENGTHS, "in" if fraction else unit)


def parse_angle(text: object) -> float:
    """Read an angle in degrees or radians and return degrees.

    A bare number is in degrees. Raises `KitError` if the text is no angle.

    Examples
    --------
    >>> parse_angle("30"), parse_angle("22,5°"), round(parse_angle("0.5 rad"), 2)
    (30.0, 22.5, 28.65)
    """
    hint = "degrees, such as 30 or 30°, or radians, such as 0.5 rad"
    number, spelling = read_quantity(text, "an angle", hint, _ANGLES, "deg")
    return float(number * _ANGLES[spelling])


def parse_count(text: object) -> int:
    """Read a whole number, zero or more, such as layers or folds.

    Thousands may be set off in threes by one kind of mark: space, comma, apostrophe
    or underscore, so ``"1,048"`` is one thousand and forty-eight. A point is a
    decimal mark: ``"7.0"`` is 7, while ``"7.5"`` and ``"1.048"`` are refused. A word
    such as "layers" may follow. Raises `KitError` for anything else.

    Examples
    --------
    >>> parse_count("1 048 576"), parse_count("1,048,576"), parse_count("97 bands")
    (1048576, 1048576, 97)
    """
    match = _match(_COUNT, text)
    if match is None:
        hint = "a whole number, such as 0, 7 or 1,024: only whole ones count"
        raise _refusal(text, "a count", hint)
    return int(re.sub(r"\D", "", match["digits"]))


def parse_minutes(text: object) -> float:
    """Read a time, minutes unless it says otherwise, and return minutes, 0 or more.

    Raises `KitError` if the text is no time.

    Examples
    --------
    >>> parse_minutes("14.9"), parse_minutes("30 s"), parse_minutes("1 1/2 h")
    (14.9, 0.5, 90.0)
    """
    hint = "minutes, such as 12.5, or 30 s, or 2 h"
    times = _TIMES | _SECONDS
    number, spelling = read_quantity(text, "a time", hint, times, "min")
    if number < 0:
        msg = f"A time cannot be less than nothing. Given: {shown(text)}."
        raise KitError(msg)
    return float(number * times[spelling])


def read_quantity(
    text: object,
    kind: str,
    hint: str,
    units: Mapping[str, Fraction],
    default: str,
    idle: str = "",
) -> tuple[Fraction, str]:
    """Split text into a number and the spelling of its unit, less the `idle` sign."""
    match = _match(_QUANTITY, text)
    if match is None:
        raise _refusal(text, kind, hint)
    named = "".join((match["unit"] or "").split()).rstrip(".").strip(idle or None)
    spelling = (named or default).casefold()
    if spelling not in units:
        raise _refusal(text, kind, hint)
    if match["decimal"]:
        size = Fraction(match["decimal"].replace(",", "."))
    else:
        part = Fraction(int(match["top"]), int(match["bottom"]))
        size = int(match["whole"] or 0) + part
    return (-size if match["sign"] == "-" else size), spelling


def _match(pattern: re.Pattern[str], text: object) -> re.Match[str] | None:
    given = str(text)
    return pattern.fullmatch(plain(given)) if len(given) <= LONGEST_TEXT else None


def plain(text: str) -> str:
    """Bring look-alike signs to one: ½ to 1/2, − and – to -, º to °, µ to μ."""
    # A space first, or 1½ would run together into 11/2.
    spaced = re.sub("([¼½¾⅐-⅞])", r" \1", text.replace("º", "°"))
    signs = str.maketrans({"⁄": "/", "−": "-", "–": "-", "’": "'"})
    return unicodedata.normalize("NFKC", spaced).translate(signs).strip()


def shown(text: object) -> str:
    """Quote what was typed, no longer than it may be."""
    given = str(text)
    return repr(given if len(given) <= LONGEST_TEXT else given[:LONGEST_TEXT] + "…")


def _refusal(text: object, kind: str, hint: str) -> KitError:
    return KitError(f"I cannot read {shown(text)} as {kind}. Give {hint}.")


ABSOLUTE_ZERO = -273.15  # °C
_DEGREES = spellings(  # how many make a difference of 1 °C
    (1, "c degc celsius"), (1.8, "f degf fahrenheit")
)


def parse_temperature(text: object, unit: str = "C") -> float:
    """Read a temperature (not a difference of two) in °C or °F and return °C.

    A bare number is in `unit`, ``"C"`` or ``"F"``. Raises `KitError` if the text is
    no temperature, or one below absolute zero, -273.15 °C.

    Examples
    --------
    >>> parse_temperature("1200 C"), round(parse_temperature("2150 °F"), 1)
    (1200.0, 1176.7)
    """
    number, size = _read_degrees(text, "a temperature", unit)
    celsius = float(number if size == 1 else (number - 32) / size)
    if celsius < ABSOLUTE_ZERO:
        msg = f"No temperature is below {ABSOLUTE_ZERO} °C. Given: {shown(text)}."
        raise KitError(msg)
    return celsius


def parse_temperature_difference(text: object, unit: str = "C") -> float:
    """Read a rise (or, negative, a fall) of temperature; return it in °C.

    A bare number is in `unit`. 1 °C is 1.8 °F; 32 has no place here. Raises
    `KitError` if the text is no such difference.

    Examples
    --------
    >>> parse_temperature_difference("54 °F")
    30.0
    """
    number, size = _read_degrees(text, "a temperature difference", unit)
    return float(number / size)


def _read_degrees(text: object, kind: str, unit: str) -> tuple[Fraction, Fraction]:
    hint = "degrees, such as 1150 C or 2100 F"
    number, spelling = read_quantity(text, kind, hint, _DEGREES, unit, idle="°")
    return number, _DEGREES[spelling]

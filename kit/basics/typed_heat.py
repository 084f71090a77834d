"""Read the temperatures that people type, and differences of two.

Sources
-------
As in NIST Special Publication 811 (2008), appendix B: t(°C) = (t(°F) - 32)/1.8, while a
*difference* of 1 °C is one of 1.8 °F. Absolute zero, 0 K, is -273.15 °C.
"""

from fractions import Fraction

from kit.basics.errors import KitError
from kit.basics.typed import read_quantity, shown, spellings

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

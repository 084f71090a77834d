"""The rack: the bars one has, as they are kept and typed.

It is kept in a small file and typed a line a bar, `2 * 1084: 3.175 x 38.1 x 900 mm @ 9.50`:
how many, the steel, thickness by width by length, and what one of them cost, if wanted.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from pathlib import Path

from kit.basics import files
from kit.basics.declare import quantity
from kit.basics.errors import KitError
from kit.basics.typed import (
    MM_PER_INCH,
    parse_length,
    parse_lengths,
    parse_number,
    plain,
    shown,
)
from kit.basics.units import Units, format_length, typed_in
from kit.shop.work import Rack

MOST_BYTES = 40 * 1024  # ours
MOST_LINES = 200  # ours
SAME = 1e-6  # mm, ours: sides nearer than this are one
MONEY = " $€£"  # signs that may stand beside a price
WHAT = "a rack of bars"
FORMAT = "pattern-welding-kit rack"
IN_MM = "2 * 1084: 3.175 x 38.1 x 1000 mm"
IN_INCHES = "2 * 1084: 1/8 x 1 1/2 x 36 in"
_INCHES = re.compile(r"""\d ?/ ?\d|["”′]|(?i:\b|\d)(?i:in|inch|inches|ft)\b""")
_LINE = re.compile(r"(?:(?P<count>\d{1,4})\s*[*x×]\s*)?(?P<steel>[^:@]+):(?P<sizes>[^@]+)"
                   r"(?:@(?P<price>.+))?")  # fmt: skip


class OnRack(Rack):
    """Some like bars on the rack."""

    count: int = quantity("Bars", "of this kind on the rack", low=1, high=500, default=1)
    price: float = quantity(
        "Price", "of one whole bar, in your money; 0 for not known", low=0, high=1e6,
        default=0,
    )  # fmt: skip

    @property
    def section(self) -> tuple[str, float, float]:
        """Its steel, thickness and width, mm: what can be sawn to like pieces."""
        return self.steel, self.thickness, self.width

    def shortened(self, length: float) -> OnRack:
        """Give what is left of one of them, so long, mm; it is worth its share."""
        values = {**self.model_dump(), "length": length, "count": 1}
        return OnRack(**{**values, "price": self.price * length / self.length})


def from_lines(text: str, unit: str = "mm") -> tuple[OnRack, ...]:
    """Read a rack as it is typed, a line a bar; bare numbers are in `unit`.

    Raises
    ------
    KitError
        One sentence about the first line that is no bar.

    Examples
    --------
    >>> from_lines("2 * 1084: 1/8 x 1 1/2 x 36 in @ 9.50")[0].length
    914.4
    """
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    _check(len(lines))
    return tuple(_bar(line, unit) for line in lines)


def units_of(text: str, unit: str = "mm") -> Units:
    """Give the units that a rack's lines were typed in; refuse as `from_lines` does.

    Examples
    --------
    >>> units_of("2 * 1084: 1/8 x 1 1/2 x 36 in").value
    'inch fractions'
    """
    lines = filter(None, map(str.strip, text.splitlines()))
    return typed_in(side for line in lines for side in _read(line, unit)[1])


def _bar(line: str, unit: str) -> OnRack:
    found, (thickness, width, length) = _read(line, unit)
    price = found["price"]
    return OnRack(
        steel=found["steel"].strip(), thickness=thickness, width=width, length=length,
        count=int(found["count"] or 1),
        price=parse_number(price.strip(MONEY), "a price") if price else 0,
    )  # fmt: skip


def _read(line: str, unit: str) -> tuple[re.Match[str], list[float]]:
    """Part a line, and read its thickness, width and length, mm."""
    found = _LINE.fullmatch(line[:200])
    if not found:
        inches = unit == "in" or _INCHES.search(plain(line[:200]))
        msg = (
            f"A bar of the rack is written as {IN_INCHES if inches else IN_MM}, and its "
            f"price, if wanted, after @. Given: {shown(line)}."
        )
        raise KitError(msg)
    return found, parse_lengths(found["sizes"], 3, "A bar of the rack", unit)


def to_lines(rack: Iterable[OnRack], units: Units = Units.MM) -> str:
    """Write a rack as it is typed, in millimetres or in inches.

    Examples
    --------
    >>> to_lines(from_lines("1084: 3 x 38 x 900"))
    '1 * 1084: 3 x 38 x 900 mm'
    >>> to_lines(from_lines("1084: 1/8 x 1 1/2 x 36 in @ 9.50"), Units.INCH_FRACTION)
    '1 * 1084: 1/8 x 1 1/2 x 36 in @ 9.5'
    """
    return "\n".join(
        f"{bar.count} * {bar.steel}: "
        f"{typed_sides((bar.thickness, bar.width, bar.length), units)}"
        f"{f' @ {bar.price:.12g}' if bar.price else ''}"
        for bar in rack
    )


def typed_sides(sides: Iterable[float], units: Units) -> str:
    """Write the sides of a bar, mm, as they are typed.

    Examples
    --------
    >>> typed_sides((254, 38.1, 5), Units.MM)
    '254 x 38.1 x 5 mm'
    """
    return f"{' x '.join(_side(one, units) for one in sides)} {units.unit}"


def _side(mm: float, units: Units) -> str:
    """Write a side so that it is read back the same: a fraction where it is one."""
    if units is Units.MM:
        return f"{mm:.12g}"
    fraction = format_length(mm, units).removesuffix(" in")
    same = abs(parse_length(fraction, "in") - mm) < SAME
    return fraction if same else f"{mm / MM_PER_INCH:.12g}"


def _check(many: int) -> None:
    if not 1 <= many <= MOST_LINES:
        msg = f"A rack has from 1 to {MOST_LINES} kinds of bars. Given: {many}."
        raise KitError(msg)


def to_json(rack: Iterable[OnRack]) -> str:
    """Write a rack as the text of its file."""
    bars = [bar.model_dump() for bar in rack]
    return json.dumps({"format": FORMAT, "version": 1, "bars": bars}, indent=1) + "\n"


def from_json(text: str) -> tuple[OnRack, ...]:
    """Read a rack from the text of its file.

    Raises
    ------
    KitError
        If it is none.
    """
    found = files.values(text, WHAT, FORMAT, 1)
    bars = found.pop("bars", None)
    if found or not isinstance(bars, list):
        msg = f"That is not {WHAT}: beside format and version it has a list of 'bars'."
        raise KitError(msg)
    _check(len(bars))
    return tuple(OnRack.model_validate(bar) for bar in bars)


def from_bytes(content: bytes) -> tuple[OnRack, ...]:
    """Read a rack that was handed over; refuse as `from_json` does."""
    return from_json(files.decoded(content, WHAT, MOST_BYTES))


def load(path: Path) -> tuple[OnRack, ...]:
    """Read the file of a rack; refuse as `from_json` does."""
    return from_json(files.text(path, WHAT, MOST_BYTES))

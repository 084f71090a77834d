"""The rack: the bars one has, and which of them a plan is sawn from.

It is kept in a small file and typed a line a bar, `2 * 1084: 3.175 x 38.1 x 900 mm @ 9.50`:
how many, the steel, thickness by width by length, and what one of them cost, if wanted.
"""

from __future__ import annotations

import itertools
import json
import re
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

from kit.basics import files
from kit.basics.declare import quantity
from kit.basics.errors import KitError
from kit.basics.typed import MM_PER_INCH, parse_length, parse_lengths, parse_number, shown
from kit.basics.units import Units, format_cut_length, format_length, typed_in
from kit.shop.plan import Plan, Sawn, sawn_from
from kit.shop.work import Rack

MOST_BYTES = 40 * 1024  # ours
MOST_LINES = 200  # ours
MOST_KINDS = 12  # of one steel, ours: every pair of two steels is planned
SHORTEST = 50.0  # mm, ours: what is shorter is scrap, not stock
SAME = 1e-6  # mm, ours: widths nearer than this are one
WHAT = "a rack of bars"
FORMAT = "pattern-welding-kit rack"
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


class FromRack(NamedTuple):
    """A plan made from what is there.

    Attributes
    ----------
    plan : Plan
        With the bars that were chosen.
    sawn : tuple of Sawn
        Which bars are sawn, and to what.
    left : tuple of OnRack
        What the rack holds afterwards.
    missing : tuple of (Rack, int)
        Bars of which pieces are missing, and how many.
    longest : int
        The longest piece of which there are enough, mm, rounded down; 0 for none.
    cost : float
        Of the steel used, saw cuts and scrap included, in the money of the prices.
    unpriced : tuple of str
        Steels used that have no price.
    """

    plan: Plan
    sawn: tuple[Sawn, ...]
    left: tuple[OnRack, ...]
    missing: tuple[tuple[Rack, int], ...]
    longest: int
    cost: float
    unpriced: tuple[str, ...]


def planned_from(plan: Plan, rack: Sequence[OnRack], units: Units = Units.MM) -> FromRack:
    """Choose bars of the plan's two steels: what lacks least, then what takes least steel.

    Both must be of one width. A steel that the rack lacks is missing, as thick as planned.
    Pieces are as long as they are marked out in these units: rounded up.

    Raises
    ------
    KitError
        If from no two bars the bar wanted can be forged.
    """
    names = plan.outer.steel, plan.inner.steel
    kinds = [_kinds(rack, name) for name in names]
    wide = sorted({kind[2] for some in kinds for kind in some}) or [plan.outer.width]
    tried: list[FromRack] = []
    refused = None
    for width in wide:
        pairs = [
            [one for one in some if abs(one[2] - width) < SAME]
            or [(bar.steel, bar.thickness, width)]
            for some, bar in zip(kinds, (plan.outer, plan.inner), strict=True)
        ]
        for pair in itertools.product(*pairs):
            made = _made(plan, [_longest(rack, one) for one in pair])
            if isinstance(made, KitError):
                refused = made
            else:
                tried.append(_sawn(made, rack, units))
    if refused and not tried:
        raise refused
    best = min(tried, key=lambda one: (sum(n for _, n in one.missing), one.plan.grams_in))
    if not best.missing:
        return best
    longest = _most(lambda each: not _shared(best.plan, rack, each)[2], best.longest)
    return best._replace(longest=longest)


def _made(plan: Plan, bars: Sequence[Rack]) -> Plan | KitError:
    try:
        return plan.made_of(*bars)
    except KitError as refused:
        return refused


def _kinds(rack: Sequence[OnRack], steel: str) -> list[tuple[str, float, float]]:
    """Give the sections of one steel, each once."""
    found = list(dict.fromkeys(bar.section for bar in rack if bar.steel == steel))
    if len(found) > MOST_KINDS:
        msg = (
            f"The kit chooses from at most {MOST_KINDS} sizes of one steel. Given: "
            f"{len(found)} of {steel}."
        )
        raise KitError(msg)
    return found


def _longest(rack: Sequence[OnRack], section: tuple[str, float, float]) -> Rack:
    """Give the longest bar of a section, or one as it is sold where there is none."""
    name, thickness, width = section
    lengths = [bar.length for bar in rack if bar.section == section]
    long = {"length": max(lengths)} if lengths else {}
    return Rack(steel=name, thickness=thickness, width=width, **long)


def _sawn(plan: Plan, rack: Sequence[OnRack], units: Units) -> FromRack:
    """Saw a plan's pieces from the rack; how long they could be is not sought yet."""
    each = parse_length(format_cut_length(plan.start_length, units))
    found, whole, missing = _shared(plan, rack, each)
    cost = sum((one.rack.price * (1 - _kept(one) / one.rack.length) for one in found), 0.0)
    unpriced = dict.fromkeys(one.rack.steel for one in found if not one.rack.price)
    return FromRack(
        plan, tuple(found), _counted(whole), tuple(missing), plan.start_length, cost,
        tuple(unpriced),
    )  # fmt: skip


def _shared(
    plan: Plan, rack: Sequence[OnRack], each: float
) -> tuple[list[Sawn], list[OnRack], list[tuple[Rack, int]]]:
    """Share pieces so long, mm, out over the rack, shortest bars first.

    Give what is sawn, what is left, and of which bars how many pieces are missing.
    """
    found, missing = [], []
    whole = [bar for bar in rack for _ in range(bar.count)]
    for bar, pieces in ((plan.outer, plan.outer_pieces), (plan.inner, plan.inner_pieces)):
        lacking = pieces
        section = bar.steel, bar.thickness, bar.width
        usable = (one for one in whole if one.section == section)
        for one in sorted(usable, key=lambda some: some.length):
            sawn = sawn_from(one, lacking, each, plan.losses.kerf)
            if sawn is None:
                continue
            lacking -= sawn.pieces
            whole.remove(one)
            if kept := _kept(sawn):
                whole.append(one.shortened(kept))
            found.append(sawn)
        if lacking:
            missing.append((bar, lacking))
    return found, whole, missing


def _kept(sawn: Sawn) -> float:
    """Give how much of a sawn bar goes back on the rack, mm."""
    return sawn.offcut if sawn.offcut >= SHORTEST else 0.0


def _most(holds: Callable[[int], bool], beyond: int) -> int:
    """Find the largest whole number below one that does not hold; 0 if none does."""
    low = 0
    while beyond - low > 1:
        middle = (low + beyond) // 2
        low, beyond = (middle, beyond) if holds(middle) else (low, middle)
    return low


def _counted(whole: Iterable[OnRack]) -> tuple[OnRack, ...]:
    """Put like bars together again, in the order of the rack's steels and sections."""
    counts: dict[OnRack, int] = {}
    for bar in whole:
        one = bar.model_copy(update={"count": 1})
        counts[one] = counts.get(one, 0) + 1
    bars = [bar.model_copy(update={"count": many}) for bar, many in counts.items()]
    return tuple(sorted(bars, key=lambda bar: (*bar.section, bar.length)))


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
        price=parse_number(price.strip(), "a price") if price else 0,
    )  # fmt: skip


def _read(line: str, unit: str) -> tuple[re.Match[str], list[float]]:
    """Part a line, and read its thickness, width and length, mm."""
    found = _LINE.fullmatch(line[:200])
    if not found:
        msg = (
            "A bar of the rack is written as 2 * 1084: 3.175 x 38.1 x 1000 mm, and its "
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
        f"{bar.count} * {bar.steel}: {_side(bar.thickness, units)} x "
        f"{_side(bar.width, units)} x {_side(bar.length, units)} {units.unit}"
        f"{f' @ {bar.price:.12g}' if bar.price else ''}"
        for bar in rack
    )


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

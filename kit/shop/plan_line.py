"""A plan as one line that can be printed, scanned and typed in again.

    plan 254x38.1x5: 6*(1084 3.175x38.1x1000), 5*(15N20 1.5875x38.1x1000)
    | cycles=3 draw_to=16 | weld_scale=0.08 … grind=0.5 ~ J7CR

The bar wanted, the pieces with the rack's bars (thickness, width, length; with + between
thicknesses of one steel), the work, and every loss, also those that were not changed: a
card printed today gives the same numbers when the placeholders have become other ones.
Numbers are written out in full, so nothing is rounded. The four signs at the end are the
check sum of a recipe's line.
"""

import re
from collections import Counter
from typing import Any

from kit.basics.errors import KitError
from kit.shop.plan import Plan
from kit.shop.recipes.shorthand import opened, sealed
from kit.shop.work import Losses, Rack, Wanted

MOST_PIECES = 16  # of a kind, ours: one more than a plan takes, which refuses then
NUMBER = r"(\d+(?:\.\d+)?(?:e-?\d{1,3})?)"
SIZES = f"{NUMBER}x{NUMBER}x{NUMBER}"
BAR = rf"([1-9]\d*)\*\(([A-Za-z0-9 .]*[A-Za-z0-9]) {SIZES}\)"
BARS = rf"{BAR}(?:\+{BAR})*"
VALUES = r"[a-z_]+=[\d.e-]+(?: [a-z_]+=[\d.e-]+)*"
LINE = re.compile(
    rf"plan (?P<wanted>{SIZES}): (?P<outer>{BARS}), (?P<inner>{BARS})"
    rf" \| (?P<work>{VALUES}) \| (?P<losses>{VALUES})"
)
HEAD = "plan "


def to_line(plan: Plan) -> str:
    """Write a plan as one line.

    Examples
    --------
    >>> from kit.shop.plan import example
    >>> line = to_line(example())
    >>> line[:69]
    'plan 254x38.1x5: 6*(1084 3.175x38.1x1000), 5*(15N20 1.5875x38.1x1000)'
    >>> from_line(line).start_length
    102
    """
    wanted = plan.wanted
    size = _sizes(wanted.length, wanted.width, wanted.thickness)
    outer, inner = (
        "+".join(_bar(pieces, rack) for rack, pieces in Counter(bars).items())
        for bars in plan.bars
    )
    work = f"cycles={plan.cycles} draw_to={_number(plan.draw_to)}"
    losses = plan.losses.model_dump().items()
    lost = " ".join(f"{name}={_number(value)}" for name, value in losses)
    return sealed(f"{HEAD}{size}: {outer}, {inner} | {work} | {lost}")


def from_line(line: str) -> Plan:
    """Read a line that `to_line` has written.

    Raises
    ------
    KitError
        In one sentence, if it is mistyped or impossible.
    """
    words = opened(line, "plan")
    found = LINE.fullmatch(words)
    if not found:
        msg = (
            "A plan's line must read 'plan LxWxT: pieces*(steel TxWxL), pieces*(steel "
            f"TxWxL) | work | losses'. Given: {words[:40]!r}."
        )
        raise KitError(msg)
    length, width, thickness = map(float, found["wanted"].split("x"))
    work, losses = map(_values, found.group("work", "losses"))
    if set(work) != {"cycles", "draw_to"}:
        given = found["work"][:40]
        msg = f"The work in a plan's line is cycles and draw_to. Given: {given!r}."
        raise KitError(msg)
    return Plan(
        **_bars("outer", found["outer"]),
        **_bars("inner", found["inner"]),
        wanted=Wanted(length=length, width=width, thickness=thickness),
        losses=Losses(**losses),
        **work,
    )


def is_line(words: str) -> bool:
    """Say whether words are meant as a plan's line rather than a recipe's."""
    return words.lstrip().startswith(HEAD) and "~" in words


def _sizes(*sizes: float) -> str:
    return "x".join(map(_number, sizes))


def _bar(pieces: int, rack: Rack) -> str:
    return f"{pieces}*({rack.steel} {_sizes(rack.thickness, rack.width, rack.length)})"


def _number(value: float) -> str:
    """Write the shortest number that reads back as the same."""
    return repr(value).removesuffix(".0")


def _bars(which: str, words: str) -> dict[str, Any]:
    """Read the bars of one steel: how many pieces, and from which bar each comes."""
    pieces, bars = 0, []
    for many, name, *sizes in re.findall(BAR, words):
        thickness, width, length = map(float, sizes)
        bar = Rack(steel=name, thickness=thickness, width=width, length=length)
        pieces += int(many[:6])
        bars += [bar] * min(int(many[:6]), MOST_PIECES)
    values = {"": bars[0], "_pieces": pieces, "_mixed": tuple(bars)}
    return {f"{which}{name}": value for name, value in values.items()}


def _values(words: str) -> dict[str, float]:
    """Read names and numbers; a name that comes twice is no plan's line."""
    values: dict[str, float] = {}
    for part in words.split():
        name, _, number = part.partition("=")
        if name in values or not re.fullmatch(NUMBER, number):
            msg = f"In a plan's line {name[:20]} is not one number. Given: {part[:40]!r}."
            raise KitError(msg)
        values[name] = float(number)
    return values

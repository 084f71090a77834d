"""A recipe as one line that can be printed, read aloud and typed in again.

    150x38.1: 1084 3.175, 15N20 1.5875, 1084 3.175 | fold | draw out thickness=16 ~ GYH4
    150x16: 17 bars of 1084 and 15N20 in 16 mm | round up | twist 1.5 turns/in ~ ZKMC

A run of bars that comes again is written once with how often; steps have their trade
name, the way they are done, and numbers that are not the usual; a bundle stands in
brackets. The four signs at the end are a check sum: a letter mistyped is noticed. What is
written reads back equal to the last figure; a number that would be long is said in the
shop's way where it has one.
"""

import re
import zlib
from decimal import Decimal

from kit.basics.errors import KitError
from kit.basics.typed import MM_PER_INCH
from kit.forge.billet import Billet, step_of
from kit.forge.bundle import Bundle
from kit.forge.stack import Stack
from kit.forge.steps import STEPS, Step
from kit.shop.recipes.recipe import MOST_LAYERS, OLD_NAMES, step_now

MOST_LETTERS = 6000  # ours: longer, nobody types it
ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # Crockford's base 32: no I, L, O, U
NO_LINE = "Too long for a line: keep the recipe's file."
KNOWN = sorted({*STEPS, *OLD_NAMES}, key=len, reverse=True)  # the longest first
LONGEST = 6  # signs of a number that reads well
HYPHENS = "‐‑–-"
LAID = {"side by side": "+", "stacked": "^"}


def to_line(billet: Billet) -> str:
    """Write a billet as one line.

    Examples
    --------
    >>> from kit.forge.steps import Fold
    >>> stack = Stack.alternate("1084", "15N20", pieces=7, thickness=3.0)
    >>> to_line(Billet(source=stack, steps=(Fold(),)))
    '150x38.1: 3*(1084 3, 15N20 3), 1084 3 | fold ~ 6QRJ'

    Raises
    ------
    KitError
        A forging too long for a line: `from_line` would not read it again.
    """
    line = sealed(_billet(billet))
    if len(line) > MOST_LETTERS:
        msg = (
            f"This forging is too long for a line: at most {MOST_LETTERS} letters, and it "
            f"would have {len(line)}. Keep it as a file."
        )
        raise KitError(msg)
    return line


def short_line(billet: Billet) -> str:
    """Give a forging's line, or no letter where it would be too long for one."""
    try:
        return to_line(billet)
    except KitError:
        return ""


def from_line(line: str) -> Billet:
    """Read a line that `to_line` has written.

    Raises
    ------
    KitError
        In one sentence, if it is mistyped or impossible.
    """
    return _Reader(opened(line, "recipe")).billet()


def sealed(words: str) -> str:
    """Put the check sum of four signs behind a line."""
    return f"{words} ~ {_sum(words)}"


def opened(line: str, what: str) -> str:
    """Give a line without its check sum, with single spaces.

    Raises
    ------
    KitError
        If the line is too long or not as `sealed` gave it; `what` names it.
    """
    if len(line) > MOST_LETTERS:
        msg = f"A {what}'s line has at most {MOST_LETTERS} letters. Given: {len(line)}."
        raise KitError(msg)
    words, mark, check = " ".join(line.split()).rstrip(".").rpartition(" ~ ")
    if not mark:
        msg = f"A {what}'s line ends with ~ and four letters. These are missing."
        raise KitError(msg)
    if check.strip().upper() != _sum(words):
        words = re.sub(rf"(?<=\w)[{HYPHENS}](?=\w)", "", words)  # in a steel's name
    if check.strip().upper() != _sum(words):
        msg = "A letter of that line is not as it was printed: the four at its end tell."
        raise KitError(msg)
    return words


def _billet(billet: Billet) -> str:
    steps = "".join(f" | {_written(step)}" for step in billet.steps)
    if isinstance(billet.source, Bundle):
        sign = f" {LAID[billet.source.laid]} "
        return f"[{sign.join(map(_billet, billet.source.bars))}]{steps}"
    stack = billet.source
    bars = [f"{layer.steel} {_number(layer.thickness)}" for layer in stack.layers]
    told = _alike(stack) or ", ".join(_runs(bars))
    return f"{_number(stack.length)}x{_number(stack.width)}: {told}{steps}"


def _number(value: float) -> str:
    """Write a number as short as it can be read back equal."""
    return f"{Decimal(repr(value)):f}".removesuffix(".0")


def _alike(stack: Stack) -> str:
    """Say equal bars in turn by how many fill which height, if one alone reads badly."""
    each, bars = stack.layers[0].thickness, len(stack.layers)
    height = round(each * bars, 6)
    plain = len(_number(each)) <= LONGEST
    if plain or {layer.thickness for layer in stack.layers} != {height / bars}:
        return ""
    names = [layer.steel for layer in stack.layers]
    for long in range(1, 5):
        if names == [names[place % long] for place in range(bars)]:
            return f"{bars} bars of {' and '.join(names[:long])} in {_number(height)} mm"
    return ""


def _runs(bars: list[str]) -> list[str]:
    """Write what comes again one after another once: 3*(1084 3, 15N20 3)."""
    done, place = [], 0
    while place < len(bars):
        best = (1, 1)
        for long in (1, 2, 3, 4):
            run, times = bars[place : place + long], 1
            while bars[place + times * long : place + (times + 1) * long] == run:
                times += 1
            if times > 1 and times * long > best[0] * best[1]:
                best = (long, times)
        long, times = best
        words = ", ".join(bars[place : place + long])
        done.append(f"{times}*({words})" if times > 1 else words)
        place += long * times
    return done


def _written(step: Step) -> str:
    values, heat = step.said, step.heat
    way = [values.pop("way")] if "way" in values else []
    parts = way + [_said(key, value) for key, value in values.items()]
    if heat:
        parts.append(f"@{_number(heat.celsius)}C/{_number(heat.minutes)}min")
    return " ".join([step.step, *parts])


def _said(key: str, value: object) -> str:
    if not isinstance(value, float):
        return f"{key}={str(value).replace(' ', '_')}"
    if key == "turn_length":
        turns = round(MM_PER_INCH / value, 6)
        if len(_number(turns)) < len(_number(value)) and MM_PER_INCH / turns == value:
            return f"{_number(turns)} turn{'' if turns == 1 else 's'}/in"
    return f"{key}={_number(value)}"


def _sum(line: str) -> str:
    left = zlib.crc32("".join(line.split()).casefold().encode())
    return "".join(ALPHABET[left >> 5 * place & 31] for place in (3, 2, 1, 0))


class _Reader:
    """Reads a line from left to right."""

    def __init__(self, line: str) -> None:
        self.line = line
        self.place = 0
        self.depth = 0
        self.bars = 0

    def billet(self) -> Billet:
        """Read all of it."""
        billet = self._one()
        if self.line[self.place :].strip():
            what = "a bar, a step or the end"
            raise self._lost(what)
        return billet

    def _one(self) -> Billet:
        source = self._bundle() if self._skip(r"\[") else self._stack()
        steps = []
        while self._skip(r"\|"):
            steps.append(self._step())
        return Billet(source=source, steps=tuple(steps))

    def _bundle(self) -> Bundle:
        self.depth += 1
        if self.depth > 4:
            msg = "Bundles in bundles go at most four deep."
            raise KitError(msg)
        bars, laid = [self._one()], "side by side"
        while found := self._skip(r"[+^]"):
            laid = next(name for name, sign in LAID.items() if sign == found.group())
            bars.append(self._one())
        self._need(r"\]", "a closing bracket")
        self.depth -= 1
        return Bundle(bars=tuple(bars), laid=laid)

    def _stack(self) -> Stack:
        size = self._need(r"(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?):", "length x width of a stack")
        length, width = map(float, size.groups())
        if told := self._skip(r"(\d{1,4}) bars of ([\w .]+) in (\d+(?:\.\d+)?) mm"):
            bars, height = int(told[1]), float(told[3])
            self._count(bars)
            names = told[2].split(" and ")
            layers = [
                {"steel": names[place % len(names)], "thickness": height / bars}
                for place in range(bars)
            ]
            return Stack(layers=tuple(layers), length=length, width=width)
        layers = []
        while True:
            times = self._skip(r"(\d{1,4})\*\(")
            run = [self._layer()]
            while times and self._skip(r","):
                run.append(self._layer())
            if times:
                self._need(r"\)", "a closing bracket")
            again = int(times.group(1)) if times else 1
            self._count(again * len(run))
            layers += run * again
            if not self._skip(r","):
                break
        return Stack(layers=tuple(layers), length=length, width=width)

    def _count(self, bars: int) -> None:
        """Refuse too many bars before they are made."""
        self.bars += bars
        if self.bars > MOST_LAYERS:
            msg = f"A recipe can have at most {MOST_LAYERS} bars in its stacks."
            raise KitError(msg)

    def _layer(self) -> dict:
        found = self._need(
            r"([A-Za-z0-9 .]*[A-Za-z0-9]) (\d+(?:\.\d+)?)(?![\w*])",
            "a steel and its thickness",
        )
        return {"steel": found.group(1), "thickness": float(found.group(2))}

    def _step(self) -> Step:
        name = self._need(r"[a-z]+(?:[ -][a-z]+)*(?![\w=])", "a step").group()
        known = (one for one in KNOWN if f"{name} ".startswith(f"{one} "))
        values: dict = {"step": next(known, name)}
        if way := name.removeprefix(values["step"]).strip():
            values["way"] = way
        if turns := self._skip(r"(\d{1,6}(?:\.\d{1,6})?) turns?/in"):
            values["turn_length"] = MM_PER_INCH / (float(turns[1]) or 1e-9)
        while found := self._skip(r"([a-z_]+)=([^\s|\]]+)"):
            values[found.group(1)] = _read(found.group(2))
        if heat := self._skip(r"@(\d+(?:\.\d+)?)C/(\d+(?:\.\d+)?)min"):
            values["heat"] = {"celsius": heat.group(1), "minutes": heat.group(2)}
        return step_of(step_now(values))

    def _skip(self, pattern: str) -> re.Match[str] | None:
        found = re.compile(rf"\s*(?:{pattern})").match(self.line, self.place)
        if found:
            self.place = found.end()
            return re.compile(pattern).match(found.group().strip())
        return None

    def _need(self, pattern: str, what: str) -> re.Match[str]:
        found = self._skip(pattern)
        if found is None:
            raise self._lost(what)
        return found

    def _lost(self, what: str) -> KitError:
        there = self.line[self.place : self.place + 20].strip() or "nothing"
        return KitError(f"In a recipe's line {what} is missing before {there!r}.")


def _read(text: str) -> float | int | str:
    if re.fullmatch(r"-?\d{1,12}", text):
        return int(text)
    if re.fullmatch(r"-?[\d.]+(e-?\d{1,3})?", text):
        try:
            return float(text)
        except ValueError:
            return text
    return text.replace("_", " ")

"""Which bars of a rack a plan is sawn from, what is left and missing, what it costs."""

import itertools
import math
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from typing import NamedTuple

from kit.basics.errors import KitError
from kit.basics.typed import parse_length
from kit.basics.units import SOLD, Units, format_cut_length
from kit.shop.plan import FLUSH, Plan
from kit.shop.rack import OnRack
from kit.shop.sawing import Sawn, fitting, sawn_from
from kit.shop.work import Rack, stock_sizes

MOST_KINDS = 12  # of one steel, ours: every pair of two steels is planned
SHORTEST = 50.0  # mm, ours: what is shorter is scrap, not stock
SAVED = 1 / 20  # of the price, ours: less is no reason to mix thicknesses

_Bars = tuple[tuple[Rack, ...], ...]  # of each steel, one a piece


class FromRack(NamedTuple):
    """A plan made from what is there.

    Attributes
    ----------
    plan : Plan
        With the bars that were chosen.
    each : float
        How long its pieces are as they are marked out, mm: rounded up.
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
    each: float
    sawn: tuple[Sawn, ...]
    left: tuple[OnRack, ...]
    missing: tuple[tuple[Rack, int], ...]
    longest: int
    cost: float
    unpriced: tuple[str, ...]


def planned_from(plan: Plan, rack: Sequence[OnRack], units: Units = Units.MM) -> FromRack:
    """Choose bars of the plan's two steels: what lacks least, then what costs least.

    What is up to `FLUSH` wider than the narrowest lies in the stack with it. Where not
    every bar has a price, or one lacks, least steel is chosen instead. Bars of one steel
    may be of several thicknesses where that makes the bar possible, or saves a twentieth
    (ours) for each further thickness. A steel that the rack lacks is missing, as thick as
    planned. Pieces are as long as they are marked out in these units: rounded up.

    Raises
    ------
    KitError
        If from no bars the bar wanted can be forged.
    """
    names = plan.outer.steel, plan.inner.steel
    for name in names:
        _check_kinds(rack, name)
    choosing = _Choosing(plan, rack, units)
    tried = [(made, rack) for made in choosing.of_every_width()]
    # who takes cheap bars first may grind more flush than who leaves them on the rack
    for part in _of_one_size(rack, names):
        tried += [(made, part) for made in _Choosing(plan, part, units).of_every_width()]
    if not tried:
        raise choosing.refused
    best, chosen = min(tried, key=lambda one: choosing.worth(one[0]))
    others = [bar for bar in rack if bar not in chosen]
    best = best._replace(left=_counted(_singly([*best.left, *others])))
    if not best.missing:
        return best
    longest = _most(lambda each: not _shared(best.plan, chosen, each)[2], best.longest)
    return best._replace(longest=longest)


class _Choosing:
    """Try bars of a rack for a plan, each choice once."""

    def __init__(self, plan: Plan, rack: Sequence[OnRack], units: Units) -> None:
        self.plan, self.rack, self.units = plan, rack, units
        self.pieces = plan.outer_pieces, plan.inner_pieces
        names = {plan.outer.steel, plan.inner.steel}
        self.priced = all(bar.price for bar in rack if bar.steel in names)
        self.refused = KitError("")
        self._tried: dict[_Bars, FromRack | None] = {}

    def worth(self, made: FromRack) -> tuple[float, ...]:
        """Give what is to be as little as can be."""
        thick = (stock_sizes(bar.thickness for bar in bars) for bars in made.plan.bars)
        more = sum(map(len, thick)) - 2
        grams = made.plan.grams_in
        paid = made.cost if self.priced and not made.missing else grams
        return sum(n for _, n in made.missing), paid * (1 + more * SAVED), grams

    def of_every_width(self) -> Iterator[FromRack]:
        """Choose for each width that a stack from the rack can have."""
        outer, inner = self.plan.outer, self.plan.inner
        have = [bar for bar in self.rack if bar.steel in (outer.steel, inner.steel)]
        for width in stock_sizes(bar.width for bar in have) or [self.plan.width]:
            bars = [
                _kinds(have, bar.steel, width) or [bar.model_copy(update={"width": width})]
                for bar in (outer, inner)
            ]
            if found := self.best(bars):
                yield found

    def best(self, sizes: Sequence[Sequence[Rack]]) -> FromRack | None:
        """Choose from bars of one width, of each steel; None if nothing can be forged."""
        alike = itertools.product(
            *(
                [(one,) * many for one in some]
                for some, many in zip(sizes, self.pieces, strict=True)
            )
        )
        mixed = max(map(len, sizes)) > 1
        begun = itertools.chain(alike, self._thick_first(sizes) if mixed else ())
        made = list(filter(None, map(self._made, begun)))
        if not made or not mixed:
            return min(made, key=self.worth, default=None)
        found, better = None, min(made, key=self.worth)
        while better is not found:  # change one piece as long as that helps
            found = better
            near = filter(None, map(self._made, _changed(found.plan.bars, sizes)))
            better = min((found, *near), key=self.worth)
        return found

    def _made(self, bars: _Bars) -> FromRack | None:
        key = tuple(tuple(sorted(some, key=lambda bar: bar.thickness)) for some in bars)
        if key not in self._tried:
            try:
                made = _sawn(self.plan.made_of(*key), self.rack, self.units)
            except KitError as refused:
                self.refused, made = refused, None
            self._tried[key] = made
        return self._tried[key]

    def _thick_first(self, sizes: Sequence[Sequence[Rack]]) -> Iterator[_Bars]:
        """Give for each length of the pieces the thickest stack that the rack has of it.

        The thicker a stack, the shorter its pieces: if any choice is enough, one of these
        is.
        """
        thickest = [max(some, key=lambda bar: bar.thickness) for some in sizes]
        try:
            least = self.plan.made_of(*([bar] for bar in thickest)).start_length
        except KitError:
            return
        longest = math.floor(max(bar.length for some in sizes for bar in some))
        given = {}
        for length in range(least, longest + 1):
            each = parse_length(format_cut_length(length, self.units))
            bars = tuple(
                self._filled(some, many, each)
                for some, many in zip(sizes, self.pieces, strict=True)
            )
            given[bars] = None
        yield from given

    def _filled(self, sizes: Sequence[Rack], pieces: int, each: float) -> tuple[Rack, ...]:
        """Take pieces so long, mm, of the thickest bars first; so thick is what lacks."""
        found: list[Rack] = []
        for one in sorted(sizes, key=lambda bar: -bar.thickness):
            bars = (bar for bar in self.rack if _goes_for(bar, one, one.width))
            fit = (bar.count * fitting(bar, each, self.plan.losses.kerf) for bar in bars)
            found += [one] * min(pieces - len(found), sum(fit))
        lack = max(sizes, key=lambda bar: bar.thickness)
        return (*[lack] * (pieces - len(found)), *found)


def _changed(bars: _Bars, sizes: Sequence[Sequence[Rack]]) -> Iterator[_Bars]:
    """Give every choice in which one piece comes from another bar."""
    for place, (some, others) in enumerate(zip(bars, sizes, strict=True)):
        for at, new in itertools.product(range(len(some)), others):
            if some[at] != new and (at == 0 or some[at] != some[at - 1]):
                changed = (*some[:at], new, *some[at + 1 :])
                yield (*bars[:place], changed, *bars[place + 1 :])


def _of_one_size(rack: Sequence[OnRack], names: Sequence[str]) -> Iterator[list[OnRack]]:
    """Give every smaller rack in which each of two steels has one section."""
    have = [
        dict.fromkeys(bar.section for bar in rack if bar.steel == name) for name in names
    ]
    if max(map(len, have)) > 1:
        for both in itertools.product(*have):
            yield [bar for bar in rack if bar.section in both]


def _check_kinds(rack: Sequence[OnRack], steel: str) -> None:
    """Refuse more sizes of one steel than can be tried."""
    wide = stock_sizes((bar.width for bar in rack if bar.steel == steel), FLUSH + SOLD)
    found = sum(len(_kinds(rack, steel, width)) for width in wide)
    if found > MOST_KINDS:
        msg = (
            f"The kit chooses from at most {MOST_KINDS} sizes of one steel. Given: "
            f"{found} of {steel}."
        )
        raise KitError(msg)


def _kinds(rack: Sequence[OnRack], steel: str, width: float) -> list[Rack]:
    """Give one steel's bars as they lie in a stack so wide, mm: each thickness once."""
    found: dict[float, list[OnRack]] = {}
    lie = [bar for bar in rack if bar.steel == steel and _lies(bar, width)]
    for thickness in stock_sizes(bar.thickness for bar in lie):
        found[thickness] = [bar for bar in lie if _as_thick(bar, thickness)]
    return [
        Rack(steel=steel, thickness=thickness, width=width,
             length=max(bar.length for bar in bars))
        for thickness, bars in found.items()
    ]  # fmt: skip


def _as_thick(bar: Rack, thickness: float) -> bool:
    return 0 <= bar.thickness - thickness <= SOLD


def _lies(bar: Rack, width: float) -> bool:
    """Say whether a bar lies in a stack so wide, mm, as it is or ground flush."""
    return 0 <= bar.width - width <= FLUSH + SOLD


def _goes_for(bar: Rack, planned: Rack, width: float) -> bool:
    """Say whether a bar is the one planned, in a stack so wide, mm."""
    same = bar.steel == planned.steel and _as_thick(bar, planned.thickness)
    return same and _lies(bar, width)


def _sawn(plan: Plan, rack: Sequence[OnRack], units: Units) -> FromRack | None:
    """Saw a plan's pieces from the rack; how long they could be is not sought yet.

    None where no bar is as narrow as planned: a wider stack is one, too.
    """
    each = parse_length(format_cut_length(plan.start_length, units))
    found, whole, missing, bars = _shared(plan, rack, each)
    made = plan.made_of(*bars)
    if made.width > plan.width:
        return None
    cost = sum(map(_paid, found), 0.0)
    unpriced = dict.fromkeys(one.rack.steel for one in found if not one.rack.price)
    return FromRack(
        made, each, tuple(found), _counted(whole), tuple(missing), plan.start_length, cost,
        tuple(unpriced),
    )  # fmt: skip


def _shared(
    plan: Plan, rack: Sequence[OnRack], each: float
) -> tuple[list[Sawn], list[OnRack], list[tuple[Rack, int]], _Bars]:
    """Share pieces so long, mm, out over the rack: cheap bars first, then short ones.

    Give what is sawn, what is left, of which bars how many pieces are missing, and the
    bars of the stack as wide as they are.
    """
    found, missing = [], []
    whole = _singly(rack)
    lie: list[tuple[Rack, ...]] = []
    for planned in plan.bars:
        made: list[Rack] = []
        for bar, pieces in Counter(planned).items():
            lacking = pieces
            usable = (one for one in whole if _goes_for(one, bar, plan.width))
            for one in sorted(usable, key=partial(_first, each, plan.losses.kerf)):
                sawn = sawn_from(one, lacking, each, plan.losses.kerf)
                if sawn is None:
                    continue
                lacking -= sawn.pieces
                made += [bar.model_copy(update={"width": one.width})] * sawn.pieces
                whole.remove(one)
                if kept := _kept(sawn):
                    whole.append(one.shortened(kept))
                found.append(sawn)
            made += [bar] * lacking
            if lacking:
                missing.append((bar, lacking))
        lie.append(tuple(made))
    return found, whole, missing, tuple(lie)


def _first(each: float, kerf: float, bar: OnRack) -> tuple[float, float]:
    """Put what gives pieces so long, mm, for least money first, of those short bars."""
    sawn = sawn_from(bar, fitting(bar, each, kerf), each, kerf)
    return (_paid(sawn) / sawn.pieces if sawn else 0), bar.length


def _paid(sawn: Sawn) -> float:
    """Give what a sawn bar costs, less what goes back on the rack."""
    return sawn.rack.price * (1 - _kept(sawn) / sawn.rack.length)


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


def _singly(rack: Iterable[OnRack]) -> list[OnRack]:
    """Lay out every bar for itself."""
    return [
        one for bar in rack for one in (bar.model_copy(update={"count": 1}),) * bar.count
    ]


def _counted(whole: Iterable[OnRack]) -> tuple[OnRack, ...]:
    """Put like bars together again, in the order of the rack's steels and sections."""
    counts: dict[OnRack, int] = {}
    for one in whole:
        counts[one] = counts.get(one, 0) + 1
    bars = [bar.model_copy(update={"count": many}) for bar, many in counts.items()]
    return tuple(sorted(bars, key=lambda bar: (*bar.section, bar.length)))

"""Which bars of a rack a plan is sawn from, what is left and missing, what it costs."""

import itertools
import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from kit.basics.errors import KitError
from kit.basics.typed import parse_length
from kit.basics.units import Units, format_cut_length
from kit.shop.plan import Plan
from kit.shop.rack import SAME, OnRack
from kit.shop.sawing import Sawn, fitting, sawn_from
from kit.shop.work import Rack

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

    All must be of one width. Where not every bar has a price, least steel is chosen
    instead. Bars of one steel may be of several thicknesses where that makes the bar
    possible, or saves a twentieth (ours) for each further thickness. A steel that the rack
    lacks is missing, as thick as planned. Pieces are as long as they are marked out in
    these units: rounded up.

    Raises
    ------
    KitError
        If from no bars the bar wanted can be forged.
    """
    names = plan.outer.steel, plan.inner.steel
    kinds = [_kinds(rack, name) for name in names]
    wide = sorted({kind[2] for some in kinds for kind in some}) or [plan.outer.width]
    tried = []
    choosing = _Choosing(plan, rack, units)
    for width in wide:
        sizes = [
            [_longest(rack, one) for one in some if abs(one[2] - width) < SAME]
            or [bar.model_copy(update={"width": width})]
            for some, bar in zip(kinds, (plan.outer, plan.inner), strict=True)
        ]
        if found := choosing.best(sizes):
            tried.append(found)
    if not tried:
        raise choosing.refused
    best = min(tried, key=choosing.worth)
    if not best.missing:
        return best
    longest = _most(lambda each: not _shared(best.plan, rack, each)[2], best.longest)
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
        more = len(made.plan.stock) - 2
        grams = made.plan.grams_in
        paid = made.cost if self.priced and not made.missing else grams
        return sum(n for _, n in made.missing), paid * (1 + more * SAVED), grams

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
            section = one.steel, one.thickness, one.width
            bars = (bar for bar in self.rack if bar.section == section)
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
    """Give the longest bar of a section."""
    name, thickness, width = section
    long = max(bar.length for bar in rack if bar.section == section)
    return Rack(steel=name, thickness=thickness, width=width, length=long)


def _sawn(plan: Plan, rack: Sequence[OnRack], units: Units) -> FromRack:
    """Saw a plan's pieces from the rack; how long they could be is not sought yet."""
    each = parse_length(format_cut_length(plan.start_length, units))
    found, whole, missing = _shared(plan, rack, each)
    cost = sum((one.rack.price * (1 - _kept(one) / one.rack.length) for one in found), 0.0)
    unpriced = dict.fromkeys(one.rack.steel for one in found if not one.rack.price)
    return FromRack(
        plan, each, tuple(found), _counted(whole), tuple(missing), plan.start_length, cost,
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
    for bar, pieces in plan.stock:
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

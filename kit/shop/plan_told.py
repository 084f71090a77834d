"""A plan in words: whether it reaches its wish comes first; command and page say the same.

What cannot be had is said before what to do: who is short of steel must not saw.
"""

from collections import Counter
from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from kit.basics.claim import Claim, Kind
from kit.basics.told import counted, in_units, listed, one_way
from kit.basics.units import (
    SOLD,
    Units,
    format_cut_length,
    format_length,
    format_stock,
    format_weight,
)
from kit.shop.from_rack import SHORTEST, FromRack
from kit.shop.plan import FLUSH, Plan, without_pair
from kit.shop.rack import OnRack
from kit.shop.sawing import in_words, section_in_words
from kit.shop.work import Rack, stock_sizes

TONGS = Claim(
    says="A bar shorter than a hand's breadth and a half is hard to hold in tongs.",
    kind=Kind.PRACTICE,
    unit="mm",
    holds=("HELD",),
    told=("too short for tongs",),
)
HELD = 150.0
ENOUGH = "The rack has enough for this bar."


def told(
    plan: Plan | FromRack, units: Units = Units.MM, start: float | None = None
) -> list[str]:
    """Say a plan: first whether it reaches its wish, then what to cut, then its doubts.

    Parameters
    ----------
    plan : Plan or FromRack
        As planned, or made from the bars that one has.
    units : Units
    start : float, optional
        The pieces are cut to this, mm: is it enough?
    """

    def say(words: Callable[..., str], *of: Any) -> str:
        return one_way(partial(words, *of), units)

    made, racked, money = plan, [], ""
    if isinstance(plan, FromRack):
        made, racked = plan.plan, enough(plan, units)
        money = f"{in_money(plan)} {say(_scrap, plan)}".strip()
    reached = "" if start is None else say(short_of, made, start)
    weights = in_units(_weights(made), units)
    planned = [in_units(_wanted(made), units), say(_cut, made), weights]
    planned += [*mixed(made, units), flush(made, units), layers_in_words(made, units)]
    said = [*racked, reached, *planned, money, unlike(made), say(hard_to_hold, made)]
    return [words for words in said if words]


def enough(plan: FromRack, units: Units = Units.MM) -> list[str]:
    """Say whether the rack has enough; if not, what is missing, and what could be had."""
    missing = [one_way(partial(_lack, plan, *one), units) for one in plan.missing]
    if not missing:
        return [ENOUGH]
    others = (one_way(partial(_other_widths, plan, bar), units) for bar, _ in plan.missing)
    said = [*missing, one_way(partial(_instead, plan), units), *others, _other_steels(plan)]
    return [words for words in said if words]


def from_the_rack(plan: FromRack, units: Units = Units.MM) -> tuple[list[str], list[str]]:
    """Say which bars are sawn, and which are left, a line each; like bars once."""
    sawn = Counter(in_words(one, units) for one in plan.sawn)
    return (
        [f"{n} bars, from each: {line}" if n > 1 else line for line, n in sawn.items()],
        [one_way(partial(bar_in_words, bar), units) for bar in plan.left],
    )


def short_of(plan: Plan, start: float, units: Units = Units.MM) -> str:
    """Say in one sentence whether pieces of a length are enough."""
    left = plan.length_from(start) - plan.wanted.length
    if left >= 0:
        return f"Enough: the bar ends {format_length(left, units)} longer than wanted."
    return f"Not enough: the bar ends {format_length(-left, units)} short."


def unlike(plan: Plan) -> str:
    """Say that pieces cannot lie in turn, or nothing."""
    outer, inner = plan.outer_pieces, plan.inner_pieces
    if abs(outer - inner) <= 1:
        return ""
    return (
        f"{outer} of one and {inner} of the other cannot lie in turn: like lies on like "
        "somewhere, and makes one band."
    )


def hard_to_hold(plan: Plan, units: Units = Units.MM) -> str:
    """Say that the bar becomes too short for tongs, or nothing."""
    shortest = min(stage.after.length for stage in plan.stages())
    if shortest >= HELD:
        return ""
    return (
        f"At its shortest the bar is {format_length(shortest, units)}: too short for "
        "tongs, so tack a handle on, or plan fewer cuts (common practice, no source)."
    )


def bar_in_words(bar: OnRack, units: Units = Units.MM) -> str:
    """Say some like bars of the rack.

    Examples
    --------
    >>> bar_in_words(OnRack(steel="1084", thickness=3, width=40, length=900, count=2))
    '1084, 3.0 mm × 40.0 mm. 2 bars of 900 mm'
    """
    long = format_length(bar.length, units)
    size = section_in_words(bar.thickness, bar.width, units)
    return f"{bar.steel}, {size}. {counted(bar.count, 'bar')} of {long}"


def _lack(made: FromRack, bar: Rack, count: int, units: Units) -> str:
    size = section_in_words(bar.thickness, bar.width, units)
    long = format_cut_length(made.each, units)
    return (
        f"Not enough on the rack: {counted(count, 'piece')} of {bar.steel} missing, "
        f"{long} long. Section: {size}."
    )


def _other_widths(made: FromRack, bar: Rack, units: Units) -> str:
    """Say that a steel is there, but too wide or too narrow for this stack."""
    width = made.plan.width
    there = stock_sizes(one.width for one in made.left if one.steel == bar.steel)
    wide = [one for one in there if not 0 <= one - width <= FLUSH + SOLD]
    if not wide:
        return ""
    sides = listed(format_stock(one, units) for one in wide)
    return (
        f"{bar.steel} is there {sides} wide: bars of a stack must be of one width, or "
        f"nearly (up to {format_length(FLUSH, units)}, illustrative)."
    )


def _other_steels(made: FromRack) -> str:
    """Say which steels the plan does not ask for."""
    asked = {bar.steel for bar, _ in made.plan.stock}
    others = dict.fromkeys(bar.steel for bar in made.left if bar.steel not in asked)
    if not others:
        return ""
    also = listed(others)
    return f"The rack also has {also}: choose it as outer or inner steel to plan with it."


def _instead(made: FromRack, units: Units) -> str:
    """Say what bar could be had of what is there; if tongs cannot hold it, what to buy."""
    length = made.plan.reached(made.longest) if made.longest else 0
    if length >= HELD:
        each, long = format_length(made.longest, units), format_length(length, units)
        return f"It has enough for pieces {each} long: they give a bar {long} long."
    kerf = made.plan.losses.kerf
    bought = listed(
        f"{format_cut_length(count * (made.each + kerf), units)} of {bar.steel}"
        for bar, count in made.missing
    )
    return (
        f"What is there gives no bar, or one too short for tongs: buy {bought}, saw cuts "
        "included."
    )


def _cut(plan: Plan, units: Units) -> str:
    return f"Cut every piece {format_cut_length(plan.start_length, units)} long."


def _wanted(plan: Plan) -> str:
    """Say what bar it is for, in mm as it was asked for."""
    wanted = plan.wanted
    sides = (wanted.length, wanted.width, wanted.thickness)
    return f"For a bar of {' × '.join(f'{side:.6g}' for side in sides)} mm."


def _weights(plan: Plan) -> str:
    come, out = (
        format_weight(one, beside=plan.grams_out) for one in (plan.grams_in, plan.grams_out)
    )
    return f"{come} in, {out} out: {100 * plan.share_out:.0f} %."


def layers_in_words(plan: Plan, units: Units = Units.MM) -> str:
    """Say how many layers and bands it has, and how thick they are."""
    return one_way(partial(_layers, plan), units)


def _layers(plan: Plan, units: Units) -> str:
    billet = plan.billet
    layers, bands = counted(billet.layers, "layer"), counted(billet.bands, "band")
    each = f"about {format_length(plan.wanted.thickness / billet.layers, units)}"
    if plan.mixed:
        thinner = plan.wanted.thickness / plan.stack_thickness / 2**plan.cycles
        sizes = sorted(bar.thickness * thinner for bar, _ in plan.stock)
        thin, thick = (format_length(one, units) for one in (sizes[0], sizes[-1]))
        each = f"from {thin} to {thick}"
    return f"{layers}, {bands}, {each} each layer."


def mixed(plan: Plan, units: Units = Units.MM) -> list[str]:
    """Say of each steel how many pieces are how thick, where they are not alike."""
    said = (one_way(partial(_thicknesses, bars), units) for bars in plan.bars)
    return [words for words in said if words]


def flush(plan: Plan, units: Units = Units.MM) -> str:
    """Say which bars are not quite as wide, and what is ground off them; or nothing."""
    return one_way(partial(_flush, plan), units) if len(plan.widths) > 1 else ""


def _flush(plan: Plan, units: Units) -> str:
    wide = listed(format_stock(one, units) for one in plan.widths)
    first = plan.stages()[0]
    gone = format_weight(first.grams_before - first.grams_after, units)
    return (
        f"Bars {wide} wide lie in one stack, as wide as the narrowest: what stands out, "
        f"{gone}, is ground flush (common practice, no source)."
    )


def _thicknesses(bars: Sequence[Rack], units: Units) -> str:
    thick = sorted(Counter(bar.thickness for bar in bars).items(), reverse=True)
    if len(thick) < 2:
        return ""
    sizes = listed(f"{count} of {format_stock(one, units)}" for one, count in thick)
    odd = len(without_pair(bars))
    lie = f"Pieces of {bars[0].steel}: {sizes}; the thicker ones lie outside"
    if not odd:
        return f"{lie}."
    if odd == 1:
        return f"{lie}, the one without a pair in the middle."
    return (
        f"{lie}, the {odd} without a pair in the middle, so it is not quite alike from "
        "both faces."
    )


def _scrap(made: FromRack, units: Units) -> str:
    """Say that short ends do not go back, if there are any."""
    if not any(0 < one.offcut < SHORTEST for one in made.sawn):
        return ""
    return (
        f"Ends shorter than {format_length(SHORTEST, units)} are scrap and do not go back."
    )


def in_money(made: FromRack) -> str:
    """Say what the steel costs, or nothing."""
    if not made.cost:
        return ""
    more = [f"the price of {listed(made.unpriced)}"] if made.unpriced else []
    more += ["what is missing"] if made.missing else []
    without = f", without {listed(more)}" if more else ""
    return (
        f"The steel of this billet costs {made.cost:.2f} in the money of your prices"
        f"{without}: its pieces, saw cuts and scrap."
    )

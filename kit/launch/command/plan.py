"""`python -m kit plan`: from the rack to the bar, with a cut list."""

from __future__ import annotations

import argparse
from pathlib import Path

from kit.basics.errors import KitError
from kit.basics.told import counted, in_units
from kit.basics.typed import parse_length
from kit.basics.units import (
    UNITS,
    both,
    format_cut_length,
    format_length,
    format_weight,
)
from kit.forge.stack import DEMO_INNER, DEMO_OUTER, Bars
from kit.launch.command import parts
from kit.shop import weighed_losses
from kit.shop.plan import Plan, cut_list, in_words, sensitivity, short_of
from kit.shop.work import PLACEHOLDER, Losses, Rack, Wanted

HELD = 150.0  # mm: shorter is hard to hold in tongs; common practice, no source


def add(parser: argparse.ArgumentParser) -> None:
    """Declare what can be asked for."""
    parser.add_argument(
        "--wanted",
        default="254x38.1x5mm",
        metavar="LxWxT",
        help='the bar wanted: 254x38.1x5, or "10 x 1 1/2 x 3/16 inch"',
    )
    parser.add_argument("--outer", default=_typed(DEMO_OUTER), metavar="STEEL:THICK")
    parser.add_argument("--inner", default=_typed(DEMO_INNER), metavar="STEEL:THICK")
    parser.add_argument(
        "--pieces",
        default=f"{DEMO_OUTER.count}+{DEMO_INNER.count}",
        metavar="A+B",
        help="outer + inner (default: %(default)s)",
    )
    parser.add_argument(
        "--stock-length", default="1000mm", metavar="LENGTH", help="of rack bars"
    )
    parser.add_argument("--cycles", default="3", help="how often it is cut and stacked")
    parser.add_argument(
        "--draw-to", default="16mm", metavar="THICK", help="before stacking"
    )
    parser.add_argument(
        "--losses", metavar="FILE.json", help="your own shop's (otherwise placeholders)"
    )
    parser.add_argument(
        "--start", metavar="LENGTH", help="pieces are cut to this: is it enough?"
    )
    parser.add_argument(
        "--units",
        choices=UNITS,
        default="mm",
        help="to write in, and of bare numbers (default: mm)",
    )


def run(options: argparse.Namespace) -> str:
    """Plan; give the card as text."""
    units, plan = UNITS[options.units], plan_of(options)
    layer = format_length(plan.wanted.thickness / plan.billet.layers, units)
    weights = in_units(f"{plan.grams_in:.0f} g in, {plan.grams_out:.0f} g out", units)
    bands = counted(plan.billet.bands, "band")
    lines = [
        f"Cut every piece {format_cut_length(plan.start_length, units)} long.",
        f"{weights}: {100 * plan.share_out:.0f} %.",
        f"{plan.billet.layers:,} layers, {bands}, about {layer} each.",
        "",
        "Saw:",
        *(f"  {in_words(sawn, units)}" for sawn in cut_list(plan)),
        "",
        "Then:",
    ]
    for number, stage in enumerate(plan.stages(), 1):
        size = " x ".join(format_length(side, units) for side in stage.after)
        weighs = format_weight(stage.grams_after, units)
        work = stage.work
        heats = counted(work.heats, "heat")
        heat = f", {heats} at about {both(work.celsius)}" if work.heats else ""
        lines.append(f"  {number:>2} {work.name}: {size}, {weighs}{heat}")
    saved = ", ".join(
        f"{kind.replace('_', ' ')} {format_length(mm, units.fine)}"
        for kind, mm in sensitivity(plan).items()
    )
    lines += ["", f"Without each loss the pieces could be shorter by: {saved}."]
    if options.start:
        start = parse_length(options.start, unit=units.unit)
        lines.append(short_of(plan, start, units))
    shortest = min(stage.after.length for stage in plan.stages())
    if shortest < HELD:
        lines.append(
            f"At its shortest the bar is {format_length(shortest, units)}: too short for "
            "tongs, so tack a handle on, or plan fewer cuts (common practice, no source)."
        )
    if not options.losses:
        lines.append(PLACEHOLDER)
    lines.append("Follow the rules of your shop; learn each step from somebody qualified.")
    return "\n".join(lines)


def plan_of(options: argparse.Namespace) -> Plan:
    """Make the plan that was typed."""
    unit = UNITS[options.units].unit
    length, width, thickness = parts.lengths(options.wanted, 3, "The bar wanted", unit)
    stock = parse_length(options.stock_length, unit=unit)
    pieces = options.pieces.split("+")
    if len(pieces) != 2:
        msg = f"Pieces must be two numbers with + between. Given: {options.pieces[:30]!r}."
        raise KitError(msg)
    losses = weighed_losses.load(Path(options.losses)) if options.losses else Losses()
    return Plan(
        outer=_rack(options.outer, width, stock, unit),
        inner=_rack(options.inner, width, stock, unit),
        outer_pieces=parts.whole(pieces[0], 1, 15, "Outer pieces"),
        inner_pieces=parts.whole(pieces[1], 1, 15, "Inner pieces"),
        wanted=Wanted(length=length, width=width, thickness=thickness),
        cycles=parts.whole(options.cycles, 0, 6, "Cycles"),
        draw_to=parse_length(options.draw_to, unit=unit),
        losses=losses,
    )


def _typed(bars: Bars) -> str:
    return f"{bars.steel}:{bars.thickness:g}mm"


def _rack(words: str, width: float, length: float, unit: str) -> Rack:
    name, mark, thick = words.partition(":")
    if not mark:
        msg = f"A bar is written as 1084:3.175 or 1084:1/8in. Given: {words[:30]!r}."
        raise KitError(msg)
    thickness = parse_length(thick, unit=unit)
    return Rack(steel=name, thickness=thickness, width=width, length=length)

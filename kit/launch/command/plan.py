"""`python -m kit plan`: from the rack to the bar, with a cut list."""

import argparse
from collections.abc import Iterator
from functools import partial
from pathlib import Path

from kit.basics.errors import KitError
from kit.basics.told import about, counted, in_units, refusing_in
from kit.basics.typed import parse_length, parse_lengths
from kit.basics.units import UNITS, Units, format_length, format_weight, typed_in
from kit.classroom.paper.card import card
from kit.classroom.paper.kinds import Asked
from kit.classroom.paper.operations import of_plan
from kit.classroom.paper.page import bind
from kit.classroom.paper.stock import racked
from kit.forge.stack import DEMO_INNER, DEMO_OUTER, Bars
from kit.forge.steps import Place
from kit.launch.command import parts
from kit.launch.command.paper import add_paper
from kit.metal.dangers import LEARN
from kit.shop import rack, weighed_losses
from kit.shop.from_rack import FromRack, planned_from
from kit.shop.plan import Plan, sensitivity
from kit.shop.plan_line import to_line
from kit.shop.plan_told import from_the_rack, told
from kit.shop.sawing import cut_list, in_words
from kit.shop.work import PLACEHOLDER, Losses, Rack, Wanted

WANTED = "254x38.1x5mm"
NOT_WANTED = "Nothing was --wanted, so this is the class's bar: 254 × 38.1 × 5 mm."


def add(parser: argparse.ArgumentParser) -> None:
    """Declare what can be asked for."""
    parts.add_out(parser)
    parser.add_argument(
        "--wanted",
        metavar="LxWxT",
        help='the bar wanted: 254x38.1x5, or "10 x 1 1/2 x 3/16 inch" (otherwise the '
        "class's, and so it is said)",
    )
    parser.add_argument("--outer", default=_typed(DEMO_OUTER), metavar="STEEL:THICK")
    parser.add_argument("--inner", default=_typed(DEMO_INNER), metavar="STEEL:THICK")
    parser.add_argument(
        "--pieces",
        default=f"{DEMO_OUTER.count}+{DEMO_INNER.count}",
        metavar="A+B",
        help="outer + inner (default: %(default)s)",
    )
    _add_stock(parser)
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
        "--card", metavar="FILE.pdf", help="print its card into this file, too"
    )
    add_paper(parser, "of the card")
    parser.add_argument(
        "--units",
        choices=UNITS,
        help="to write in, and of bare numbers (default: as you type, mm if bare)",
    )


def _add_stock(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--rack", metavar="FILE.json", help="the bars you have: the plan is made from them"
    )
    parser.add_argument(
        "--bar",
        action="append",
        default=[],
        metavar="BAR",
        help='one you have, may be repeated: "2 * 1084: 1/8 x 1 1/2 x 36 in @ 9.50" (how '
        "many, steel, thickness by width by length, price of one)",
    )
    parser.add_argument(
        "--stock-width",
        default="38.1mm",
        metavar="WIDTH",
        help="of bars to buy, if no rack is given",
    )
    parser.add_argument(
        "--stock-length", default="1000mm", metavar="LENGTH", help="of them, as sold"
    )


def idle(options: argparse.Namespace) -> dict[str, str]:
    """Name the options that change nothing as the others stand, and why."""
    why = {}
    if options.rack or options.bar:
        bars = "your own bars are as wide and as long as you say."
        why = dict.fromkeys(("stock_width", "stock_length"), bars)
    return why if options.card else why | {"paper": "no --card is printed."}


def run(options: argparse.Namespace) -> str:
    """Plan; give the card as text."""
    return parts.answered(options.out, partial(_told, options))


def _told(options: argparse.Namespace) -> str:
    units, bars = units_of(options), rack_of(options)
    start = parse_length(options.start, _unit(options)) if options.start else None
    with refusing_in(units):
        plan = plan_of(options)
        made = planned_from(plan, bars, units) if bars else plan
        lines = told(made, units, start)
    if isinstance(made, FromRack):
        plan = made.plan
        sawn, left = from_the_rack(made, units)
        lines += _list("Saw:", sawn) + _list("Left on the rack:", left)
    else:
        lines += _list("Saw:", [in_words(sawn, units) for sawn in cut_list(plan)])
    lines += ["", "Then:", *_steps(plan, units)]
    saved = ", ".join(
        f"{kind.replace('_', ' ')} {format_length(mm, units.fine)}"
        for kind, mm in sensitivity(plan).items()
    )
    lines += ["", f"Without each loss the pieces could be shorter by: {saved}."]
    if not options.wanted:
        lines.append(in_units(NOT_WANTED, units))
    if not options.losses:
        lines.append(PLACEHOLDER)
    lines.append(LEARN)
    lines += ["", f"Its line, to print or to load again: {to_line(plan)}"]
    if options.card:
        lines.append(_printed(options, Asked(units=units, recipe=plan, rack=bars)))
    return "\n".join(lines)


def _printed(options: argparse.Namespace, asked: Asked) -> str:
    """Print the plan's card, and the sheet of the rack that it is made from."""
    path = parts.target(options.card, (".pdf",))
    asked = asked._replace(paper=options.paper)
    sheets = [*card(asked), *(racked(asked) if asked.rack else ())]
    bind(sheets, path, "A plan")
    return f"{path}: {len(sheets)} pages, {asked.paper}. Print at 100 %."


def _list(title: str, rows: list[str]) -> list[str]:
    return ["", title, *(f"  {row}" for row in rows)] if rows else []


def _steps(plan: Plan, units: Units) -> Iterator[str]:
    """Say each step as its card does; inches as decimals: fractions would hide some."""
    before = plan.grams_in
    for row in of_plan(plan):
        size = " × ".join(format_length(side, units.fine) for side in row.size)
        hot = Place.FIRE in row.done_at
        many, celsius = row.heats
        heats = f", {counted(many, 'heat')} at {about(celsius)}" if hot else ""
        lost = before - row.grams
        gone = f"; {format_weight(lost, units, row.grams)} gone{' as scale' * hot}"
        weighs = format_weight(row.grams, units, lost)
        yield f"  {row.number:>2} {row.work}{heats}: {size}, {weighs}{gone}"
        before = row.grams


def rack_of(options: argparse.Namespace) -> tuple[rack.OnRack, ...]:
    """Give the bars that one has: of the file, and typed."""
    bars = rack.load(Path(options.rack)) if options.rack else ()
    typed = "\n".join(options.bar)
    return bars + (rack.from_lines(typed, _unit(options)) if typed else ())


def units_of(options: argparse.Namespace) -> Units:
    """Give the units that were asked for, otherwise those that were typed."""
    if options.units:
        return UNITS[options.units]
    bars = rack.units_of("\n".join(options.bar))
    return bars if bars is not Units.MM else typed_in(_typed_lengths(options))


def _typed_lengths(options: argparse.Namespace) -> list[float]:
    """Give every length that was typed beside the rack's, or stands there unasked, mm."""
    plan = options.draw_to, options.stock_width, options.stock_length, options.start
    thick = (words.partition(":")[2] for words in (options.outer, options.inner))
    typed = (parse_length(one, unit=_unit(options)) for one in (*plan, *thick) if one)
    return [*_wanted(options), *typed]


def _unit(options: argparse.Namespace) -> str:
    """Give the unit of a bare number."""
    return UNITS[options.units].unit if options.units else "mm"


def _wanted(options: argparse.Namespace) -> list[float]:
    return parse_lengths(options.wanted or WANTED, 3, "The bar wanted", _unit(options))


def plan_of(options: argparse.Namespace) -> Plan:
    """Make the plan that was typed."""
    unit = _unit(options)
    length, width, thickness = _wanted(options)
    stock = [
        parse_length(one, unit=unit) for one in (options.stock_width, options.stock_length)
    ]
    pieces = options.pieces.split("+")
    if len(pieces) != 2:
        msg = f"Pieces must be two numbers with + between. Given: {options.pieces[:30]!r}."
        raise KitError(msg)
    losses = weighed_losses.load(Path(options.losses)) if options.losses else Losses()
    return Plan(
        outer=_bought(options.outer, *stock, unit),
        inner=_bought(options.inner, *stock, unit),
        outer_pieces=parts.whole(pieces[0], 1, 15, "Outer pieces"),
        inner_pieces=parts.whole(pieces[1], 1, 15, "Inner pieces"),
        wanted=Wanted(length=length, width=width, thickness=thickness),
        cycles=parts.whole(options.cycles, 0, 6, "Cycles"),
        draw_to=parse_length(options.draw_to, unit=unit),
        losses=losses,
    )


def _typed(bars: Bars) -> str:
    return f"{bars.steel}:{bars.thickness:g}mm"


def _bought(words: str, width: float, length: float, unit: str) -> Rack:
    name, mark, thick = words.partition(":")
    if not mark:
        msg = f"A bar is written as 1084:3.175 or 1084:1/8in. Given: {words[:30]!r}."
        raise KitError(msg)
    thickness = parse_length(thick, unit=unit)
    return Rack(steel=name, thickness=thickness, width=width, length=length)

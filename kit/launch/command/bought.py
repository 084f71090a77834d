"""`python -m kit bought`: how thick to buy a bar for a blade, as its page says it."""

import argparse
from functools import partial

from kit.basics.errors import KitError
from kit.basics.typed import parse_length
from kit.basics.units import UNITS, Units, typed_in
from kit.course.lessons.bought import BoughtLesson
from kit.course.views.settings import Pick, Setting, settings_of
from kit.launch.command import parts

SETTINGS = settings_of(BoughtLesson)


def add(parser: argparse.ArgumentParser) -> None:
    """Declare what can be asked for: what the page's controls are."""
    parts.add_out(parser)
    for one in SETTINGS:
        begins = one.show(one.start, Units.MM).replace("%", "%%")
        told = "; ".join(one.options) if isinstance(one, Pick) else one.help
        parser.add_argument(
            f"--{one.key}",
            metavar=one.key.upper(),
            help=f"{one.label}: {told} (default: {begins})",
        )
    parser.add_argument(
        "--units",
        choices=UNITS,
        help="to write in, and of bare numbers (default: as you type, mm if bare)",
    )


def idle(options: argparse.Namespace) -> dict[str, str]:
    """Name the options that change nothing as the others stand, and why."""
    values = _values(options, _units(options))
    asked = BoughtLesson.asked(values, _units(options))
    return asked.idle


def run(options: argparse.Namespace) -> str:
    """Say between what thicknesses to buy, and what becomes of the bar."""
    return parts.answered(options.out, partial(_told, options))


def _told(options: argparse.Namespace) -> str:
    units = _units(options)
    scene = BoughtLesson.scene(units=units, **_values(options, units))
    return "\n".join([scene.says, "", *(f"{n.name}: {n.value}" for n in scene.numbers)])


def _typed(options: argparse.Namespace) -> dict[Setting | Pick, str]:
    """Give the words that were typed."""
    typed = {one: getattr(options, one.key) for one in SETTINGS}
    return {one: words for one, words in typed.items() if words is not None}


def _units(options: argparse.Namespace) -> Units:
    """Give the units that were asked for, otherwise those that were typed."""
    if options.units:
        return UNITS[options.units]
    return typed_in(
        parse_length(words)
        for one, words in _typed(options).items()
        if isinstance(one, Setting) and one.kind == "length"
    )


def _values(options: argparse.Namespace, units: Units) -> dict[str, float]:
    return {one.key: _read(one, words, units) for one, words in _typed(options).items()}


def _read(one: Setting | Pick, words: str, units: Units) -> float:
    if isinstance(one, Setting):
        value = one.read(words, units)
        return int(value) if one.kind == "count" else value
    named = " ".join(words.lower().split())
    if named not in one.options:
        known = "; ".join(one.options)
        msg = f"{one.label} must be one of: {known}. Given: {words[:40]!r}."
        raise KitError(msg)
    return one.options.index(named)

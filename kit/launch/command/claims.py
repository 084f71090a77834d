"""`python -m kit claims`: what the kit takes for true, and how each thing is known."""

import argparse
from collections import Counter
from collections.abc import Iterable
from functools import partial

from kit.basics.claim import LEGEND, Claim, Kind, gathered
from kit.basics.errors import KitError
from kit.basics.told import counted
from kit.course.map import lesson_of
from kit.course.questions import CARDS
from kit.launch.command import parts

KINDS = {kind.value.replace(" ", "-"): kind for kind in Kind}


def add(parser: argparse.ArgumentParser) -> None:
    """Declare what can be asked for."""
    parts.add_out(parser)
    parser.add_argument("--lesson", metavar="08", help="those that its numbers rely on")
    parser.add_argument("--card", metavar="14", help="those that a card relies on")
    parser.add_argument("--kind", choices=KINDS, help="those that are known this way")


def idle(_options: argparse.Namespace) -> dict[str, str]:
    """Name none: every option chooses."""
    return {}


def run(options: argparse.Namespace) -> str:
    """List the claims asked for by where they stand, then count them."""
    return parts.answered(options.out, partial(_told, options))


def _told(options: argparse.Namespace) -> str:
    places = {id(claim): place for place, claim in gathered().items()}
    asked = [claim for claim in _asked(options) if claim.kind in _kinds(options.kind)]
    lines = []
    for claim in asked:
        lines.append(f"[{claim.kind.value}] {claim.says} {claim.how}")
        held = ", ".join(claim.holds)
        unit = f" ({claim.unit})" if claim.unit else ""
        lines.append(f"    {places[id(claim)]}" + (f": {held}{unit}" if held else ""))
    return "\n".join([*lines, *([""] if lines else []), *_counts(asked)])


def _kinds(named: str | None) -> tuple[Kind, ...]:
    return (KINDS[named],) if named else tuple(Kind)


def _asked(options: argparse.Namespace) -> Iterable[Claim]:
    if options.lesson and options.card:
        msg = "Claims are listed of a lesson or of a card. Given: both."
        raise KitError(msg)
    if options.lesson:
        return lesson_of(options.lesson).claims()
    if options.card:
        number = parts.whole(options.card, 1, CARDS[-1].number, "A card")
        found = [card for card in CARDS if card.number == number]
        if not found:
            msg = f"There is no card {number}. The last is {CARDS[-1].number}."
            raise KitError(msg)
        return found[0].claims
    return gathered().values()


def _counts(claims: list[Claim]) -> Iterable[str]:
    many = Counter(claim.kind for claim in claims)
    read = sum(claim.seen for claim in claims)
    yield f"{counted(len(claims), 'claim')}; of {read} the passage was read."
    for kind in Kind:
        yield f"{many[kind]:>5}  {kind.value}: {LEGEND[kind]}"

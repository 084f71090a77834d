"""`python -m kit paper`: pages to print at true size."""

import argparse
from pathlib import Path

from kit.basics.errors import KitError
from kit.basics.terminal import Progress
from kit.basics.units import UNITS
from kit.classroom.paper.kinds import ALL, PLAN, Asked, Kind, kinds, own_mark
from kit.classroom.paper.page import PAPERS, bind
from kit.launch.command import parts
from kit.shop.rack import load
from kit.shop.recipes.found import RECIPE_HELP


def add(parser: argparse.ArgumentParser) -> None:
    """Declare what can be asked for."""
    told = "; ".join(f"{kind.name}: {kind.words}" for kind in kinds().values())
    parser.add_argument("kind", help=told)
    parser.add_argument("--out", required=True, metavar="FILE.pdf")
    parser.add_argument(
        "--lesson",
        default="01",
        metavar="01",
        help=f"of {_about('lesson')}; '{ALL}' for every one",
    )
    parser.add_argument(
        "--recipe",
        default=PLAN,
        help=f"of {_about('bar')}: '{PLAN}' (that of the class), a plan's line in quotes, "
        f"{RECIPE_HELP}",
    )
    add_paper(parser)
    parser.add_argument(
        "--mark", metavar="FILE", help="a picture of your own mark, for cards"
    )
    parser.add_argument(
        "--rack", metavar="FILE.json", help="the bars you have, of a rack's sheet"
    )
    parser.add_argument("--units", choices=UNITS, default="mm")


def add_paper(parser: argparse.ArgumentParser, words: str | None = None) -> None:
    """Let a command that prints be told on what sheet."""
    parser.add_argument(
        "--paper", type=str.capitalize, choices=PAPERS, default="A4", help=words
    )


def _about(what: str) -> str:
    return ", ".join(kind.name for kind in kinds().values() if kind.of == what)


def idle(options: argparse.Namespace) -> dict[str, str]:
    """Name the options that change nothing as the others stand, and why."""
    kind = _kind(options)
    asks = {"lesson": "lesson", "recipe": "bar", "mark": "mark", "rack": "rack"}
    takes = kind.of, *kind.own
    why = f"{kind.name} is not about it."
    return {option: why for option, what in asks.items() if what not in takes}


def run(options: argparse.Namespace) -> str:
    """Draw and bind the pages."""
    kind = _kind(options)
    path = parts.target(options.out, (".pdf",))
    mark = own_mark(Path(options.mark)) if options.mark else None
    rack = load(Path(options.rack)) if options.rack else ()
    how = options.paper, UNITS[options.units], options.lesson, options.recipe
    asked = Asked(*how, mark, rack)
    pages = kind.pages(asked)
    bind(pages, path, kind.words, Progress(options.kind))
    return f"{path}: {len(pages)} page(s), {options.paper}. Print at 100 %."


def _kind(options: argparse.Namespace) -> Kind:
    if options.kind not in kinds():
        msg = f"I cannot print {options.kind[:30]!r}. I can print: {', '.join(kinds())}."
        raise KitError(msg)
    return kinds()[options.kind]

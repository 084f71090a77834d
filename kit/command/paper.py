"""`python -m kit paper`: pages to print at true size."""

from __future__ import annotations

import argparse
from collections.abc import Callable

from kit.command import parts
from kit.errors import KitError
from kit.progress import Progress


def _small(name: str) -> Callable[[argparse.Namespace], list]:
    def pages(options: argparse.Namespace) -> list:
        from kit.paper import small  # noqa: PLC0415  (matplotlib takes a second)

        return getattr(small, name)(paper=options.paper)

    return pages


def _clay(options: argparse.Namespace) -> list:
    from kit.paper.small import clay_template  # noqa: PLC0415

    return clay_template(paper=options.paper, units=parts.UNITS[options.units])


def _handout(options: argparse.Namespace) -> list:
    from kit.paper.handout import answers, handout  # noqa: PLC0415

    number = options.lesson
    return [*handout(number, options.paper), *answers(number, options.paper)]


KINDS: dict[str, tuple[str, Callable[[argparse.Namespace], list]]] = {
    "handout": ("a lesson's two sides, and its answers apart", _handout),
    "votes": ("cards A to D to hold up", _small("vote_cards")),
    "eye-chart": ("how fine can your eye split lines?", _small("eye_chart")),
    "clay": ("the clay twin: sheets, guide sticks, wedges", _clay),
}


def add(parser: argparse.ArgumentParser) -> None:
    """Declare what can be asked for."""
    told = "; ".join(f"{name}: {words}" for name, (words, _) in KINDS.items())
    parser.add_argument("kind", help=told)
    parser.add_argument("--out", required=True, metavar="FILE.pdf")
    parser.add_argument("--lesson", default="01", metavar="01", help="whose handout it is")
    parser.add_argument("--paper", choices=("A4", "Letter"), default="A4")
    parser.add_argument("--units", choices=parts.UNITS, default="mm")


def run(options: argparse.Namespace) -> str:
    """Draw and bind the pages."""
    if options.kind not in KINDS:
        msg = f"I can not print {options.kind[:30]!r}. I can print: {', '.join(KINDS)}."
        raise KitError(msg)
    path = parts.target(options.out, (".pdf",))
    words, draw = KINDS[options.kind]
    pages = draw(options)
    from kit.paper.book import bind  # noqa: PLC0415

    bind(pages, path, words, Progress(options.kind))
    return f"{path}: {len(pages)} page(s), {options.paper}. Print at 100 %."

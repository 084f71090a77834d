"""`python -m kit show`: one page for a tablet on a show table."""

import argparse
import webbrowser

from kit.basics.files import write
from kit.basics.terminal import Progress
from kit.classroom.show import page
from kit.classroom.show.piece import ENGLISH, UNITS, Voice, languages
from kit.launch.command import parts
from kit.shop.patterns import PATTERNS
from kit.shop.recipes.found import RECIPE, recipe_of

FILE, CHECK_FILE = "show.html", "show-check.html"


def add(parser: argparse.ArgumentParser) -> None:
    """Declare what can be asked for."""
    parser.add_argument(
        "--out",
        metavar="FILE.html",
        help=f"the file to write (otherwise: {FILE}); copy it to the tablet and open it "
        "there, it needs no internet",
    )
    parser.add_argument(
        "--recipe",
        action="append",
        default=[],
        metavar="FILE",
        help="a bar of your own instead of the kit's three, up to three times: "
        f"{RECIPE} that changes as its face is ground: "
        + "; ".join(known.name for known in PATTERNS if known.shown == "face"),
    )
    _add_settings(parser)
    parser.add_argument(
        "--check",
        action="store_true",
        help="write the list to tick off before the show instead "
        f"(otherwise: {CHECK_FILE}); it prints on one sheet",
    )
    parser.add_argument(
        "--open", action="store_true", help="open the page in this computer's browser"
    )


def add_language(parser: argparse.ArgumentParser, words: str) -> None:
    """Declare --language; its help says {names} where the languages are named."""
    told = languages()
    names = ", ".join(f"{code} {one['name']}" for code, one in told.items())
    parser.add_argument(
        "--language", choices=told, default=ENGLISH, help=words.format(names=names)
    )


def _add_settings(parser: argparse.ArgumentParser) -> None:
    """Declare what the maker's corner can change again."""
    parser.add_argument(
        "--theme",
        choices=page.THEMES,
        default=page.THEMES[0],
        help="colours to begin with; both are on the page",
    )
    parser.add_argument("--units", choices=UNITS, default="mm", help="to begin with")
    add_language(parser, "to begin with: {names}; all are on the page")
    parser.add_argument(
        "--idle",
        default=str(page.IDLE[1]),
        metavar="S",
        help=f"seconds untouched until it asks “Still there?”, {page.IDLE[0]} to "
        f"{page.IDLE[2]}; ten seconds later it starts again",
    )


def idle(options: argparse.Namespace) -> dict[str, str]:
    """Name the options that change nothing as the others stand, and why."""
    why = "the list to tick off is the same for every page."
    settings = ("recipe", "theme", "units", "language", "idle")
    return dict.fromkeys(settings, why) if options.check else {}


def run(options: argparse.Namespace) -> str:
    """Make the page; Ctrl and C stop it, and nothing half-made is left."""
    name = options.out or (CHECK_FILE if options.check else FILE)
    path = parts.target(name, (".html",))
    idle = parts.whole(options.idle, page.IDLE[0], page.IDLE[2], "Seconds untouched")
    if options.check:
        text = page.check_page()
        told = "the list to tick off before the show, one sheet."
    else:
        pieces = page.pieces_of([recipe_of(words) for words in options.recipe])
        text = page.page(
            pieces,
            theme=options.theme,
            units=options.units,
            language=options.language,
            idle=idle,
            progress=Progress("Show page"),
        )
        names = ", ".join(piece.name(Voice()) for piece in pieces)
        told = (
            f"{len(text.encode()) / 1e6:.1f} MB, {names}. Maker's corner: hold the two top "
            "corners, or the key M, for three seconds."
        )
    write(path, text)
    if options.open:
        webbrowser.open(path.resolve().as_uri())
    return f"{path}: {told}"

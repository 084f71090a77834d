"""`python -m kit pages`: each lesson as one page for any telephone."""

import argparse

from kit.basics.errors import KitError
from kit.basics.terminal import Progress
from kit.basics.told import counted
from kit.basics.units import UNITS
from kit.classroom.phone import page
from kit.launch.command import parts
from kit.launch.command.paper import add_paper
from kit.launch.command.show import add_language


def add(parser: argparse.ArgumentParser) -> None:
    """Declare what can be asked for."""
    parser.add_argument(
        "--out",
        required=True,
        metavar="DIR",
        help="a folder for the pages: open them from there, from a stick, or from any web "
        f"server, {page.INDEX} first; each asks nothing of any network",
    )
    parser.add_argument(
        "--address",
        default="",
        metavar="http://…",
        help=f"where the folder will be on the web: {page.CODES} then has a square code "
        "for each page, to print",
    )
    add_paper(parser, "of the codes")
    parser.add_argument("--units", choices=UNITS, default="mm")
    add_language(
        parser, "of buttons and hints: {names}; the lessons themselves are in English"
    )


def idle(options: argparse.Namespace) -> dict[str, str]:
    """Name the options that change nothing as the others stand, and why."""
    why = "codes are printed where an --address is given."
    return {} if options.address.strip() else {"paper": why}


def run(options: argparse.Namespace) -> str:
    """Make the pages; Ctrl and C stop it, and no page is half-made."""
    folder = parts.target(options.out, ("",))
    page.checked(options.address)
    try:
        folder.mkdir(exist_ok=True)
    except OSError:
        msg = (
            f"I cannot make a folder {folder.name[:60]!r} there: a file has that name, or "
            "the place is not yours."
        )
        raise KitError(msg) from None
    made = page.make(
        folder,
        units=UNITS[options.units],
        address=options.address,
        paper=options.paper,
        language=options.language,
        progress=Progress("Pages"),
    )
    pages = [path for path in made if path.suffix == ".html"]
    largest = max(path.stat().st_size for path in pages) / 1e6
    told = f"{counted(len(pages), 'page')}, none above {largest:.1f} MB"
    coded = f", and {page.CODES} to print" if options.address.strip() else ""
    return f"{folder}: {told}{coded}. Begin with {page.INDEX}."

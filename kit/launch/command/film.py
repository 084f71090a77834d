"""`python -m kit film`: a looped film of a forging, or of a bar that is ground away."""

import argparse

from kit.basics.errors import KitError
from kit.basics.terminal import Progress
from kit.basics.units import UNITS
from kit.classroom.film import Grinding, forging, write
from kit.course.anvil.desk import Desk
from kit.launch.command import parts
from kit.shop.recipes.found import RECIPE_HELP, recipe_of


def add(parser: argparse.ArgumentParser) -> None:
    """Declare what can be asked for."""
    parser.add_argument("recipe", help=RECIPE_HELP)
    parser.add_argument(
        "--out",
        required=True,
        metavar="FILE",
        help="FILE.mp4 (needs the package imageio-ffmpeg), FILE.gif, or a folder's name",
    )
    parser.add_argument("--of", choices=("forging", "grinding"), default="forging")
    parser.add_argument("--size", default="960x540", metavar="WxH", help="pixels, even")
    parser.add_argument("--rate", default="12", help="pictures a second")
    parser.add_argument("--units", choices=UNITS, default="mm")


def idle(options: argparse.Namespace) -> dict[str, str]:
    """Name the options that change nothing as the others stand, and why."""
    ground = options.of == "grinding"
    return {"units": "a film of grinding tells no length."} if ground else {}


def run(options: argparse.Namespace) -> str:
    """Make the film; Ctrl and C stop it, and nothing half-made is left."""
    recipe = recipe_of(options.recipe)
    path = parts.target(options.out, (".mp4", ".gif", ""))
    columns, rows = parts.pixels(options.size, 3840, "The film")
    if columns % 2 or rows % 2:
        msg = f"A film's sides must be an even number of pixels. Given: {options.size}."
        raise KitError(msg)
    size = {"columns": columns, "rows": rows}
    if options.of == "forging":
        frames = forging(recipe.billet, recipe.missed, **size, units=UNITS[options.units])
    else:
        frames = Grinding(recipe.billet, **size, found=Desk.of_recipe(recipe).flaws)
    rate = parts.whole(options.rate, 1, 60, "Pictures a second")
    write(frames, path, rate=rate, progress=Progress(recipe.name))
    told = f"{path}: {len(frames)} pictures, {len(frames) / rate:.0f} s, a loop."
    return told + parts.open_welds(recipe)

"""`python -m kit render`: a picture of a forging, on the screen's scale or for print."""

import argparse
from dataclasses import replace
from math import radians, sin

from kit.basics.files import whole
from kit.basics.terminal import Progress
from kit.basics.told import counted
from kit.basics.typed import parse_angle
from kit.classroom.film import large_sheet, poster
from kit.course.anvil.desk import Desk
from kit.course.own_bar import ground_off
from kit.launch.command import parts
from kit.section.block import Block
from kit.section.picture import save, seen_as
from kit.section.surface import Plane, cut, shown_at
from kit.shop.recipes.found import RECIPE_HELP, recipe_of
from kit.shop.recipes.recipe import Recipe


def add(parser: argparse.ArgumentParser) -> None:
    """Declare what can be asked for."""
    parser.add_argument("recipe", help=RECIPE_HELP)
    parser.add_argument("--out", required=True, metavar="FILE.png", help="the picture")
    parser.add_argument(
        "--view",
        choices=("solid", "face", "end", "side", "cut"),
        default="solid",
        help="what is seen (otherwise: the solid)",
    )
    parser.add_argument(
        "--angle", default="30", metavar="DEG", help="of a cut, to the faces of the bar"
    )
    parser.add_argument(
        "--position", default="50", metavar="%", help="of a cut, along the bar"
    )
    parser.add_argument(
        "--size", default="1200x700", metavar="WxH", help="of the picture, in pixels"
    )
    parser.add_argument(
        "--print",
        action="store_true",
        help="average every pixel over its square, as a poster needs; slower",
    )


def idle(options: argparse.Namespace) -> dict[str, str]:
    """Name the options that change nothing as the others stand, and why."""
    why = {}
    if options.view != "cut":
        why = dict.fromkeys(
            ("angle", "position"), "only of a cut it is asked (--view cut)."
        )
    if options.view == "solid":
        why["print"] = "a solid is drawn for the screen; the other views are for posters."
    return why


def run(options: argparse.Namespace) -> str:
    """Draw; give a sentence that says what was done."""
    recipe = recipe_of(options.recipe)
    path = parts.target(options.out, (".png",))
    columns, rows = parts.pixels(options.size, 20_000, "The picture")
    surface = _surface(recipe, options, columns, rows)
    off = ground_off(recipe.billet) if options.view == "face" else ""
    bar, found = Progress(recipe.name), Desk.of_recipe(recipe).flaws
    if options.print and isinstance(surface, Plane):
        poster(recipe.billet, surface, path, bar, found)
    else:
        sheet = large_sheet(recipe.billet, surface, found=found, progress=bar)
        with whole(path) as part:
            words = f"{recipe.name}: {options.view} of the bar{off}.{seen_as(sheet.image)}"
            save(sheet.image, part, words + parts.open_welds(recipe))
    layers = counted(recipe.billet.layers, "layer")
    told = f"{path}: {recipe.name}, {layers}{off}. Tones illustrative."
    return told + parts.open_welds(recipe)


def _surface(
    recipe: Recipe, options: argparse.Namespace, columns: int, rows: int
) -> Plane | Block:
    size = recipe.billet.size
    if options.view == "solid":
        return Block.fitted(size, columns, rows)
    if options.view == "cut":
        angle = parse_angle(options.angle)
        position = parse_angle(options.position.strip().rstrip("%"))
        face = cut(size, angle=angle, position=position, columns=columns, rows=rows)
        return _fitted(face, size.width, size.thickness, angle)
    return shown_at(recipe.billet, options.view, columns, rows)


def _fitted(face: Plane, width: float, thickness: float, angle: float) -> Plane:
    """Take a pixel so large that the whole cut is seen."""
    long = thickness / sin(radians(angle))
    return replace(face, pixel=1.05 * max(width / face.columns, long / face.rows))

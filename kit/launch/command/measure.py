"""`python -m kit measure`: count bands on a photograph, with how sure it is."""

import argparse
import math
from collections.abc import Callable
from functools import partial
from pathlib import Path

import numpy as np

from kit.basics.errors import KitError
from kit.basics.typed import parse_angle
from kit.basics.units import UNITS, format_length
from kit.launch.command import parts
from kit.shop.measuring import LINES, band_width, boxed
from kit.shop.photograph import Photograph, Point, opened
from kit.shop.scale import Scale
from kit.shop.stereology import line_angle, repeat


def add(parser: argparse.ArgumentParser) -> None:
    """Declare what can be asked for."""
    parts.add_out(parser)
    parser.add_argument("photo", help="a PNG or JPEG of a face")
    parser.add_argument(
        "--line", metavar="X,Y,X,Y", help="from place to place, pixels from the upper left"
    )
    parser.add_argument(
        "--box",
        metavar="X,Y,X,Y",
        help="two opposite corners around the steel: no line leaves it",
    )
    parser.add_argument(
        "--lines", default=str(LINES), help="how many side by side (2 to 30)"
    )
    parser.add_argument(
        "--scale",
        metavar="X,Y,X,Y,MM",
        help="two places and the millimetres between: best where the line runs",
    )
    parser.add_argument(
        "--card",
        metavar="X,Y,X,Y,X,Y,X,Y",
        help="the corners of a bank card lying on the face, clockwise from its upper left: "
        "sets the scale and takes the tilt out; all places are those of your picture",
    )
    parser.add_argument(
        "--angle", metavar="DEG", help="between the face and the layers, if you know it"
    )
    parser.add_argument("--units", choices=UNITS, default="mm")


def idle(options: argparse.Namespace) -> dict[str, str]:
    """Name the options that change nothing as the others stand, and why."""
    why = "without a --scale or a --card all is told in pixels."
    return {} if options.scale or options.card else {"units": why, "angle": why}


def run(options: argparse.Namespace) -> str:
    """Measure; give what was found, and how sure it is."""
    return parts.answered(options.out, partial(_told, options))


def _told(options: argparse.Namespace) -> str:
    photo = opened(Path(options.photo))
    rows, columns = photo.light.shape
    # no more is known: nearly from edge to edge; ours
    start, end = (0.02 * columns, rows / 2), (0.98 * columns, rows / 2)
    if options.line:
        start, end = _places(photo, parts.numbers(options.line, 4, "A line"))
    box = None
    if options.box:
        box = boxed(*_places(photo, parts.numbers(options.box, 4, "A box")))
    lines = parts.whole(options.lines, 2, 30, "Lines")
    scale = _scale(photo, options)
    angle = parse_angle(options.angle) if options.angle else None
    width = band_width(photo, start, end, scale=scale, box=box, lines=lines)
    told = width.told(UNITS[options.units].fine, angle)
    told.append(_sentence("Lines lean", lambda: _lean(photo, scale)))
    told.append(
        _sentence(
            "A figure comes again", lambda: _again(photo, start, end, scale, options.units)
        )
    )
    return "\n".join(line for line in told if line)


def _places(photo: Photograph, numbers: list[float]) -> tuple[Point, ...]:
    """Read columns and rows of the picture that was given, however much of it is kept."""
    return tuple(map(photo.place, numbers[::2], numbers[1::2]))


def _scale(photo: Photograph, options: argparse.Namespace) -> Scale | None:
    if options.card and options.scale:
        msg = "Give the scale by two places or by a card, not by both."
        raise KitError(msg)
    if options.card:
        return Scale(_places(photo, parts.numbers(options.card, 8, "A card's corners")))
    if options.scale:
        *places, mm = parts.numbers(options.scale, 5, "A scale")
        return Scale(_places(photo, places), mm)
    return None


def _lean(photo: Photograph, scale: Scale | None) -> str:
    rows, columns = photo.light.shape
    middle = (columns / 2, rows / 2)
    lean = line_angle(photo, middle, 0.45 * min(rows, columns) - 3)
    if scale and scale.card:
        degrees = scale.turned(middle, lean.degrees)
        return f"{degrees:+.1f}° to the card's upper side, rising to the right."
    return f"{lean.degrees:+.1f}° to the picture's rows, rising to the right."


def _again(
    photo: Photograph, start: Point, end: Point, scale: Scale | None, units: str
) -> str:
    every = repeat(photo, start, end)
    if not scale:
        return f"every {every:.1f} px."
    mm = every / math.dist(start, end) * math.dist(*scale.ground(np.array([start, end])))
    if units == "mm":
        return f"every {mm:.2f} mm."
    return f"every {format_length(mm, UNITS[units].fine)}."


def _sentence(begins: str, found: Callable[[], str]) -> str:
    try:
        return f"{begins} {found()}"
    except KitError:
        return ""

"""`python -m kit measure`: count bands on a photograph, with how sure it is."""

from __future__ import annotations

import argparse
from pathlib import Path

from kit.basics.errors import KitError
from kit.basics.told import counted
from kit.basics.typed import parse_angle
from kit.basics.units import UNITS, format_length
from kit.launch.command import parts
from kit.shop.photograph import BANK_CARD, Photograph, opened
from kit.shop.stereology import band_width, line_angle, repeat, true_spacing
from kit.shop.stripes import across


def add(parser: argparse.ArgumentParser) -> None:
    """Declare what can be asked for."""
    parser.add_argument("photo", help="a PNG or JPEG of a face")
    parser.add_argument(
        "--line", metavar="X,Y,X,Y", help="from place to place, pixels from the upper left"
    )
    parser.add_argument("--lines", default="5", help="how many side by side (2 to 30)")
    parser.add_argument(
        "--scale", metavar="X,Y,X,Y,MM", help="two places and the millimetres between"
    )
    parser.add_argument(
        "--card",
        metavar="X,Y,X,Y,X,Y,X,Y",
        help="the corners of a bank card lying on the face, clockwise from the upper left: "
        "sets the scale and turns a tilted photograph square on",
    )
    parser.add_argument(
        "--angle", metavar="DEG", help="between the face and the layers, if you know it"
    )
    parser.add_argument("--units", choices=UNITS, default="mm")


def run(options: argparse.Namespace) -> str:
    """Measure; give what was found, and how sure it is."""
    photo = _scaled(opened(Path(options.photo)), options)
    rows, columns = photo.light.shape
    ends = (0.02 * columns, rows / 2, 0.98 * columns, rows / 2)
    if options.line:
        ends = parts.numbers(options.line, 4, "A line")
    start, end = (ends[0], ends[1]), (ends[2], ends[3])
    lines = across(photo, start, end, parts.whole(options.lines, 2, 30, "Lines"))
    middle = lines[len(lines) // 2]
    told = [middle.doubt or f"{counted(middle.count, 'band')} along the middle line."]
    told += _widths(lines, options) if photo.pixel else [_pixels(middle.width)]
    told.append(_sentence("Lines lean", lambda: _lean(photo)))
    told.append(
        _sentence("A figure comes again", lambda: _again(photo, start, end, options))
    )
    return "\n".join(line for line in told if line)


def _scaled(photo: Photograph, options: argparse.Namespace) -> Photograph:
    if options.card and options.scale:
        msg = "Give the scale by two places or by a card, not by both."
        raise KitError(msg)
    if options.card:
        places = parts.numbers(options.card, 8, "A card's corners")
        corners = list(zip(places[::2], places[1::2], strict=True))
        return photo.square_on(corners, BANK_CARD)
    if options.scale:
        *places, mm = parts.numbers(options.scale, 5, "A scale")
        return photo.scaled(tuple(places[:2]), tuple(places[2:]), mm)
    return photo


def _widths(lines: list, options: argparse.Namespace) -> list[str]:
    units = UNITS[options.units].fine
    try:
        width = band_width(lines)
    except KitError as doubt:
        return [str(doubt)]
    mean, within = (format_length(part, units) for part in width[:2])
    sure = f"within {within} in 95 cases of 100 ({width.count} lines; Student's t, 95 %)"
    told = [f"A band is {mean} wide, {sure}."]
    if options.angle:
        angle = parse_angle(options.angle)
        true = true_spacing(width.mean, angle)
        told.append(f"Cut at {angle:g}°, a layer is {format_length(true, units)} thick.")
    return told


def _pixels(width: float) -> str:
    return f"A band is {width:.1f} pixels wide. Give a scale for millimetres." * (width > 0)


def _lean(photo: Photograph) -> str:
    rows, columns = photo.light.shape
    lean = line_angle(photo, (columns / 2, rows / 2), 0.45 * min(rows, columns) - 3)
    return f"{lean.degrees:+.1f}° to the picture's rows, rising to the right."


def _again(photo: Photograph, start: tuple, end: tuple, options: argparse.Namespace) -> str:
    every = repeat(photo, start, end)
    if not photo.pixel:
        return f"every {every:.1f} px."
    if options.units == "mm":
        return f"every {every * photo.pixel:.2f} mm."
    return f"every {format_length(every * photo.pixel, UNITS[options.units].fine)}."


def _sentence(begins: str, found) -> str:
    try:
        return f"{begins} {found()}"
    except KitError:
        return ""

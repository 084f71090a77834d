"""What commands share: sizes and numbers as typed, files to write."""

import argparse
import re
from collections.abc import Callable
from pathlib import Path

from kit.basics.errors import KitError
from kit.basics.files import write
from kit.basics.told import counted
from kit.course.anvil import void
from kit.course.anvil.desk import Desk
from kit.shop.recipes.recipe import Recipe


def numbers(words: str, count: int, what: str) -> list[float]:
    """Read numbers with commas between them.

    Raises
    ------
    KitError
        If there are not so many, or one is no number.
    """
    parts = words.split(",")
    plain = all(re.fullmatch(r"\s*-?\d{1,6}(\.\d{1,6})?\s*", part) for part in parts)
    if len(parts) != count or not plain:
        msg = f"{what} must be {count} numbers with commas between. Given: {words[:60]!r}."
        raise KitError(msg)
    return [float(part) for part in parts]


def open_welds(recipe: Recipe) -> str:
    """Say which of its welds did not take; nothing if none.

    Raises
    ------
    KitError
        If these are of steps that its bar does not have.
    """
    history = Desk.of_recipe(recipe).history
    told = void.told_of(history, len(history.acts))
    return f" {told}" if told else ""


def whole(words: str, low: int, high: int, what: str) -> int:
    """Read a whole number within limits."""
    if not re.fullmatch(r"\d{1,9}", words.strip()) or not low <= int(words) <= high:
        msg = f"{what} must be a whole number from {low} to {high}. Given: {words[:20]!r}."
        raise KitError(msg)
    return int(words)


def pixels(words: str, most: int, what: str) -> tuple[int, int]:
    """Read a size in pixels such as 960x540, at most so many pixels a side."""
    wide, _, high = words.lower().partition("x")
    return (
        whole(wide, 64, most, f"{what}'s width"),
        whole(high, 64, most, f"{what}'s height"),
    )


def target(words: str, endings: tuple[str, ...]) -> Path:
    """Check the name of a file to be written; its folder must be there."""
    path = Path(words)
    if path.suffix.lower() not in endings:
        allowed = " or ".join(end or "a folder's name" for end in endings)
        msg = f"The file to write must end with {allowed}. Given: {path.name[:60]!r}."
        raise KitError(msg)
    if not _is_folder(path.parent):
        msg = f"There is no folder '{str(path.parent)[-60:]}' to write into."
        raise KitError(msg)
    return path


def _is_folder(path: Path) -> bool:
    try:
        return path.is_dir()
    except OSError:  # a name too long for any folder
        return False


def add_out(parser: argparse.ArgumentParser) -> None:
    """Let a command that answers in words write them into a file."""
    parser.add_argument(
        "--out", metavar="FILE.txt", help="write the answer here, not on the screen"
    )


def answered(out: str | None, tell: Callable[[], str]) -> str:
    """Give an answer to print; with --out it goes into that file, and is only counted.

    The file's name is checked before the work is begun.
    """
    if not out:
        return tell()
    path = target(out, (".txt",))
    words = tell()
    write(path, f"{words}\n")
    return f"{path}: {counted(len(words.splitlines()), 'line')}."

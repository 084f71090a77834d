"""Strangers' files by the thousand: nothing but one-sentence refusals may come out."""

import io
import os
import random
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
from PIL import Image

from kit.basics.errors import KitError
from kit.shop.patterns import PATTERNS
from kit.shop.photograph import opened
from kit.shop.recipes.recipe import Recipe, from_json, to_json
from kit.shop.recipes.shorthand import from_line, to_line
from kit.shop.stripes import across
from tests import weighing
from tests.bench.clock import table

COUNT = 3000
SECONDS, MEGABYTES = 5, 500  # allowed for one file; for all together
WEIGHED = sys.platform.startswith("linux")


def report() -> None:
    """Mutate good files at random places; count what comes out."""
    dice = random.Random(2026)  # noqa: S311  (not for secrets)
    folder = Path(tempfile.mkdtemp())
    os.chdir(folder)  # whatever a file makes the kit write would land here
    before = weighing.peak() if WEIGHED else 0.0
    rows = []
    for name, files, read in _kinds():
        times, refused, faults = [], 0, []
        for _ in range(COUNT):
            data = _mutated(dice.choice(files), dice)
            start = time.perf_counter()
            try:
                read(data)
            except KitError:
                refused += 1
            except Exception as fault:  # noqa: BLE001  (that is what is looked for)
                faults.append(repr(fault)[:80])
            times.append(time.perf_counter() - start)
        rows.append((name, COUNT, refused, len(faults), 1e3 * max(times), SECONDS * 1e3))
        for fault in dict.fromkeys(faults):
            print(f"  {name}: {fault}")
    head = ("files", "tried", "refused", "tracebacks", "slowest, ms", "allowed")
    table("mutated files", head, rows)
    risen = weighing.peak() - before if WEIGHED else 0.0
    touched = len(list(folder.iterdir()))
    table(
        "and what they cost",
        ("", "found", "allowed"),
        [("memory, MB", risen, MEGABYTES), ("files written", touched, 0)],
    )
    folder.rmdir()


def _kinds() -> list[tuple[str, list[bytes], Callable[[bytes], object]]]:
    billets = [pattern.forge() for pattern in PATTERNS]
    recipes = [to_json(Recipe(name="a", billet=one)).encode() for one in billets]
    lines = [to_line(one).encode() for one in billets]
    return [
        ("recipes, JSON", recipes, lambda data: from_json(data.decode("utf-8", "replace"))),
        ("recipes, lines", lines, lambda data: from_line(data.decode("utf-8", "replace"))),
        ("photographs", _pictures(), _measured),
    ]


def _pictures() -> list[bytes]:
    stripes = np.tile((np.arange(160) // 8 % 2 * 200).astype(np.uint8), (90, 1))
    made = []
    for kind in ("PNG", "JPEG", "GIF", "BMP", "TIFF", "WEBP"):
        stream = io.BytesIO()
        Image.fromarray(stripes).save(stream, kind)
        made.append(stream.getvalue())
    return made


def _measured(data: bytes) -> None:
    photo = opened(data)
    rows, columns = photo.light.shape
    across(photo, (1, rows / 2), (columns - 2, rows / 2), 3)


def _mutated(data: bytes, dice: random.Random) -> bytes:
    """Change, drop, double or add bytes at a few places."""
    changed = bytearray(data)
    for _ in range(dice.choice((1, 1, 2, 5, 20))):
        place = dice.randrange(len(changed) + 1)
        long = dice.choice((1, 1, 4, 40))
        kind = dice.randrange(4)
        if kind == 0:
            changed[place : place + long] = dice.randbytes(long)
        elif kind == 1:
            del changed[place : place + long]
        elif kind == 2:
            changed[place:place] = changed[place : place + long] * dice.choice((1, 9))
        else:
            digits = b"0123456789-.eE{}[]\"'\\,:|~*()"
            changed[place:place] = bytes(dice.choice(digits) for _ in range(long))
    return bytes(changed)

"""Ten thousand changes of every view's controls, and whether memory stays level.

Each view in a process of its own, so that one cannot hide another's growth. Memory is
what the process asked for (anonymous pages), read after a tenth, after half and at the end
of the changes: its share of the libraries (PSS) rises by 10 MB when another Python beside
it ends. What the C library keeps free for the next picture is handed back first, for
nothing holds it: without that the cut shows 51 MB and 57. What is kept to be quick fills
up in the first half; a leak grows in both.
"""

import ctypes
import gc
import random
import subprocess
import sys
from pathlib import Path

from kit.course.map import LESSONS
from kit.course.views.base import View
from kit.course.views.forge import Forge
from kit.course.views.lesson import view_of
from tests.bench.clock import table
from tests.smith import act

CHANGES = 10_000
WAIT = 3600  # s, for one view
MOST = 10  # per cent
READ = (10, 2, 1)  # after which parts of the changes
FORGE = "forge"


def report() -> None:
    """Soak every view in a fresh process."""
    rows = []
    for key in (*LESSONS, FORGE):
        command = [sys.executable, "-m", "tests.bench.soak", key]
        run = subprocess.run(
            command, capture_output=True, text=True, check=True, timeout=WAIT
        )
        rows.append((key, *run.stdout.split()))
    after = [f"MB after {CHANGES // share:,}" for share in READ]
    head = ("lesson", *after, "per cent in all", "in the second half", "refused")
    table(f"{CHANGES:,} changes of a view's controls (target: within {MOST} %)", head, rows)


def soak(key: str) -> tuple[list[float], int]:
    """Move random controls to random stops; give the readings, MB, and the refusals."""
    view = Forge() if key == FORGE else view_of(key)
    dice = random.Random(7)  # noqa: S311  (no secret)
    refused, readings = 0, []
    move = act if key == FORGE else _moved
    for change in range(1, CHANGES + 1):
        move(view, dice)
        refused += "kit-refused" in view.says.value
        if change in {CHANGES // share for share in READ}:
            readings.append(_held())
    return readings, refused


def _moved(view: View, dice: random.Random) -> None:
    control = view.controls[dice.choice(list(view.controls))]
    stops = getattr(control, "stops", None) or range(len(control.options))
    control.value = dice.choice(list(stops))


def _held() -> float:
    gc.collect()
    ctypes.CDLL(None).malloc_trim(0)  # glibc's; this bench reads /proc, so it is Linux
    rollup = Path("/proc/self/smaps_rollup").read_text()
    return int(rollup.split("Anonymous:")[1].split()[0]) / 1024


if __name__ == "__main__":
    held, told = soak(*sys.argv[1:])
    grown = [f"{100 * (held[-1] / early - 1):+.1f}" for early in held[:-1]]
    print(*(f"{reading:.0f}" for reading in held), *grown, told)

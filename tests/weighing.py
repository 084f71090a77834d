"""Weigh a piece of work in a fresh process: what it costs does not hang on what ran before.

Linux alone. The peak is read from ``/proc/self/status``: it belongs to the program that
runs. ``ru_maxrss`` does not: it begins at the peak of the process that started this one.
"""

import subprocess
import sys
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[1]
WAIT = 300  # s
_FRESH = """
from tests.weighing import held, peak
{before}
_held = held()
{work}
print("risen", peak() - _held)
"""


def held() -> float:
    """Give the memory that this process holds, MB."""
    return _status("VmRSS")


def peak() -> float:
    """Give the most memory that this process ever held, MB."""
    return _status("VmHWM")


def _status(name: str) -> float:
    words = Path("/proc/self/status").read_text()
    return int(words.split(f"{name}:")[1].split()[0]) / 1024


class Told(NamedTuple):
    """How far the memory rose, MB; and what the work printed."""

    risen: float
    words: str


def told(before: str, work: str, folder: Path | None = None) -> Told:
    """Do work in a fresh process, and see how far its memory rises.

    Parameters
    ----------
    before : str
        Code that is run first and not weighed: imports.
    work : str
        Code to weigh.
    folder : Path, optional
        Where it runs.
    """
    words, _, rose = ran(_FRESH.format(before=before, work=work), folder).rpartition(
        "risen"
    )
    return Told(float(rose), words)


def ran(code: str, folder: Path | None = None) -> str:
    """Run code in a fresh process; give what it prints."""
    code = f"import sys\nsys.path.insert(0, {str(ROOT)!r})\n{code}"
    run = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=False,
        timeout=WAIT,
        cwd=folder,
    )
    if run.returncode:
        raise RuntimeError(run.stderr[-2000:])
    return run.stdout

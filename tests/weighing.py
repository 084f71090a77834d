"""Weigh a piece of work in a fresh process: what it costs does not hang on what ran before.

Linux alone. The peak is read from ``/proc/self/status``: it belongs to the program that
runs. ``ru_maxrss`` begins with that of the process that started it.
"""

import subprocess
import sys
from pathlib import Path

WAIT = 300  # s
_FRESH = """
def _status(name):
    with open("/proc/self/status") as file:
        return int(file.read().split(name + ":")[1].split()[0])

{before}
_held = _status("VmRSS")
{work}
print("risen", _status("VmHWM") - _held)
"""


def risen(before: str, work: str, folder: Path | None = None) -> float:
    """Give how far the memory rose while work was done, MB.

    Parameters
    ----------
    before : str
        Code that is run first and not weighed: imports.
    work : str
        Code to weigh.
    folder : Path, optional
        Where it runs.
    """
    told = ran(_FRESH.format(before=before, work=work), folder)
    return int(told.rsplit("risen", 1)[1]) / 1024


def ran(code: str, folder: Path | None = None) -> str:
    """Run code in a fresh process; give what it prints."""
    command = [sys.executable, "-c", code]
    run = subprocess.run(
        command, capture_output=True, text=True, check=False, timeout=WAIT, cwd=folder
    )
    if run.returncode:
        raise RuntimeError(run.stderr[-2000:])
    return run.stdout

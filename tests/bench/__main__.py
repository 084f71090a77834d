"""Run all measurements, or those named: `python -m tests.bench engine slider`.

Each part in a fresh process: what it finds does not hang on what ran before.
"""

import os
import platform
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import numpy as np
import PIL
import scipy

PARTS = (
    "engine", "history", "voxels", "others", "heat", "slider", "forge", "growth",
    "fuzz", "marking", "process", "students", "monkey", "soak", "photographs",
)  # fmt: skip
ROOT = Path(__file__).parents[2]
HOURS = 3  # that a part may take


def main(names: list[str]) -> int:
    """Print the machine, then each table."""
    unknown = [name for name in names if name not in PARTS]
    if unknown:
        print(f"There is no part {unknown[0]!r}. There are: {', '.join(PARTS)}.")
        return 2
    print(
        f"{platform.system()} {platform.machine()}, {os.cpu_count()} processors, "
        f"Python {platform.python_version()}, numpy {np.__version__}, "
        f"scipy {scipy.__version__}, Pillow {PIL.__version__}",
        flush=True,
    )
    for name in names or PARTS:
        command = [sys.executable, "-m", "tests.bench", "--here", name]
        subprocess.run(command, check=True, cwd=ROOT, timeout=3600 * HOURS)
    return 0


if __name__ == "__main__":
    if sys.argv[1:2] == ["--here"]:
        import_module(f"tests.bench.{sys.argv[2]}").report()
    else:
        sys.exit(main(sys.argv[1:]))

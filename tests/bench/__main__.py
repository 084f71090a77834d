"""Run all measurements, or those named: `python -m tests.bench engine views`."""

import os
import platform
import sys

import numpy as np
import PIL
import scipy

from tests.bench import (
    engine,
    fuzz,
    growth,
    heat,
    history,
    marking,
    others,
    process,
    soak,
    views,
    voxels,
)

PARTS = {
    "engine": engine.report,
    "history": history.report,
    "voxels": voxels.report,
    "others": others.report,
    "heat": heat.report,
    "views": views.report,
    "growth": growth.report,
    "fuzz": fuzz.report,
    "marking": marking.report,
    "process": process.report,
    "soak": soak.report,
}


def main(names: list[str]) -> int:
    """Print the machine, then each table."""
    unknown = [name for name in names if name not in PARTS]
    if unknown:
        print(f"There is no part {unknown[0]!r}. There are: {', '.join(PARTS)}.")
        return 2
    print(
        f"{platform.system()} {platform.machine()}, {os.cpu_count()} processors, "
        f"Python {platform.python_version()}, numpy {np.__version__}, "
        f"scipy {scipy.__version__}, Pillow {PIL.__version__}"
    )
    for name in names or PARTS:
        PARTS[name]()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

"""The same as `python -m tests.bench`, for those who run files."""

import runpy
import sys
from pathlib import Path

if __name__ == "__main__":
    sys.path[0] = str(Path(__file__).parents[2])
    runpy.run_module("tests.bench", run_name="__main__", alter_sys=True)

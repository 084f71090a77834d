"""What it costs to start: imports in fresh processes, memory of a real kernel."""

import re
import subprocess
import sys

from jupyter_client.manager import start_new_kernel

from tests.bench.clock import summed, table

FRESH = 9
CLOCK = """
import time
start = time.perf_counter()
{work}
print((time.perf_counter() - start) * 1e3)
"""
CORE = "from kit import *; import kit.course.map, kit.section.picture"
VIEWS = "import kit.course.views.lesson"
STARTS = (
    ("numpy alone", "import numpy", ""),
    ("core: all public names and lessons", CORE, "250"),
    ("views, with widgets", VIEWS, ""),
)
MOVED = """
from kit.course.views.lesson import lesson
parts = lesson("02")
for folds in range(13):
    parts[1].controls["folds"].value = folds
"""
PSS = "print(open('/proc/self/smaps_rollup').read())"
MEMORY = (
    ("a kernel, nothing imported", "pass", ""),
    ("kernel and core", CORE, "150"),
    (
        "kernel, views, one view made",
        "from kit.course.views.lesson import view_of; v = view_of('01')",
        "150",
    ),
    ("kernel, a whole lesson moved about", MOVED, "150"),
)


def report() -> None:
    """Start fresh processes and kernels."""
    rows = [(name, *_imported(work)[:2], target) for name, work, target in STARTS]
    table("import in a fresh process, ms", ("what", "median", "best", "target"), rows)
    if not sys.platform.startswith("linux"):
        print("\nMemory is read from /proc: not on this system.")
        return
    rows = [(name, _held(work), target) for name, work, target in MEMORY]
    table("memory of a Jupyter kernel (PSS), MB", ("what", "MB", "target"), rows)


def _imported(work: str) -> tuple:
    def fresh() -> float:
        command = [sys.executable, "-c", CLOCK.format(work=work)]
        run = subprocess.run(
            command, capture_output=True, text=True, check=True, timeout=60
        )
        return float(run.stdout)

    fresh()
    return summed([fresh() for _ in range(FRESH)])


def _held(work: str) -> float:
    """Run a line in a real kernel and read how much memory is its own."""
    manager, client = start_new_kernel(kernel_name="python3", stderr=subprocess.DEVNULL)
    said = []
    try:
        reply = client.execute_interactive(
            f"{work}\n{PSS}",
            timeout=60,
            output_hook=lambda message: said.append(message["content"].get("text", "")),
        )
    finally:
        client.stop_channels()
        manager.shutdown_kernel(now=True)
    if reply["content"]["status"] != "ok":
        raise RuntimeError(reply["content"]["evalue"])
    return int(re.search(r"^Pss:\s+(\d+) kB", "".join(said), re.MULTILINE)[1]) * 1024 / 1e6

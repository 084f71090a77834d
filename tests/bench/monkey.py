"""The gate's own monkeys at the forge, only longer: is it ever stuck, does anything break.

300 acts in a browser, 10,000 in Python; for each the acts, the seconds and what pytest
said last. Needs what the gate needs. A quarter of an hour.
"""

import os
import subprocess
import sys

from tests.bench.clock import once, table

MONKEYS = {
    "in a browser": ("tests/browser/test_forge_monkey.py", "KIT_MONKEY_ACTS", 300, 1),
    "in Python": ("tests/test_forge_view.py::test_any_smith_is_answered",
                  "KIT_SMITH_ACTS", 5000, 2),
}  # fmt: skip

MOST = 3600  # s


def report() -> None:
    """Play both; the tables say what came of it."""
    rows = [(name, *_played(*monkey)) for name, monkey in MONKEYS.items()]
    table("random acts at the forge", ("where", "acts", "s", "what came of it"), rows)


def _played(test: str, variable: str, acts: int, seeds: int) -> tuple:
    command = [sys.executable, "-m", "pytest", "-q", "-n", "0", "-m", "", test]
    heard = []

    def play() -> None:
        heard.append(
            subprocess.run(
                command,
                capture_output=True,
                text=True,
                check=False,
                env=os.environ | {variable: str(acts)},
                timeout=MOST,
            )
        )

    seconds = once(play) / 1000
    if heard[0].returncode:
        print(heard[0].stdout[-6000:])
    return acts * seeds, f"{seconds:.0f}", heard[0].stdout.strip().splitlines()[-1]

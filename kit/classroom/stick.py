"""A stick to install from where there is no network: the wheels, and how it is done."""

import platform
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from kit.basics.errors import KitError
from kit.basics.files import write
from kit.classroom.homework.drafts import made
from kit.course.pages import clone_root

NAME = "pattern-welding-kit"
HOW = "how to install.txt"
PINNED = "binder/requirements.txt"  # as many wheels are made, about
_TOLD = ("Collecting", "Processing")  # how a line begins that stands for a wheel


def how_to() -> str:
    """Say how the kit is installed from the stick, for this system and this Python."""
    version = ".".join(platform.python_version_tuple()[:2])
    return f"""The kit on a stick, for {platform.system()} and Python {version}.

On each computer, in a terminal, in the folder of this file:

    python3 -m venv lessons
    lessons/bin/python -m pip install --no-index --find-links . {NAME}
    lessons/bin/python -m kit

On Windows write lessons\\Scripts\\python in place of lessons/bin/python, and python in
place of python3. No network is needed. Another system, or another Python, needs a stick
that was filled on a computer like it.
"""


def fill(place: Path, progress: Callable[[float], None]) -> Path:
    """Fill a folder with the kit's wheels and how to install them; needs a network.

    Parameters
    ----------
    place : Path
        The stick, or a folder to be copied to one; made if it is not there.
    progress : callable
        Told the share that is done; what it raises stops the work.

    Returns
    -------
    Path
        Of the file that says how to install.

    Raises
    ------
    KitError
        If this kit has no folder that wheels are made from, or pip cannot make them.
    """
    root = clone_root()
    if root is None:
        msg = (
            "A stick is filled from the folder that the kit was unpacked in, and this kit "
            "was installed without one."
        )
        raise KitError(msg)
    pinned = (root / PINNED).read_text("utf-8").splitlines()
    most = sum(not line.startswith("#") for line in pinned)
    typed = [
        sys.executable,
        "-m",
        "pip",
        "wheel",
        "--wheel-dir",
        str(made(place)),
        str(root),
    ]
    _run(typed, most, progress)
    return write(place / HOW, how_to())


def _run(typed: list[str], most: int, progress: Callable[[float], None]) -> None:
    """Run pip; count the wheels that it speaks of; stop it if progress says so."""
    said, collected = [""], 0
    with subprocess.Popen(  # noqa: S603
        typed, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace"
    ) as work:
        try:
            for line in work.stdout:
                said.append(line.strip())
                collected += said[-1].startswith(_TOLD)
                progress(min(collected / (most + 1), 0.95))
        except BaseException:
            work.kill()
            raise
    if work.returncode:
        last = next((one for one in reversed(said) if one.startswith("ERROR")), said[-1])
        msg = f"The stick could not be filled: {last[:160]}"
        raise KitError(msg)

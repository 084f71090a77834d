"""The packages without which the lessons do not run."""

import subprocess
import sys
from importlib.util import find_spec

from kit.basics.errors import KitError

# What Python imports, and what pip calls it.
PACKAGES = {
    "numpy": "numpy",
    "PIL": "pillow",
    "pydantic": "pydantic",
    "anywidget": "anywidget",
    "ipywidgets": "ipywidgets",
    "jupyterlab": "jupyterlab",
    "matplotlib": "matplotlib",
    "segno": "segno",
    "jinja2": "jinja2",
}


def check_packages() -> None:
    """
    Make sure that every package the lessons need is installed.

    Raises
    ------
    KitError
        If one is missing: its name and the command that brings it.
    """
    missing = [pip for module, pip in PACKAGES.items() if find_spec(module) is None]
    if missing:
        command = [sys.executable, "-m", "pip", "install", *missing]
        # list2cmdline puts quotes round a path with blanks, on every system.
        msg = (
            f"The lessons need {' and '.join(missing)}, which this Python does not "
            f"have; install with: {subprocess.list2cmdline(command)}"
        )
        raise KitError(msg)

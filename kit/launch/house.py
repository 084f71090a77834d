"""A house of its own for JupyterLab: packages, a free port and temporary folders."""

import json
import os
import shutil
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from importlib.util import find_spec
from pathlib import Path
from tempfile import TemporaryDirectory, gettempdir

from kit.basics import letters
from kit.basics.errors import KitError
from kit.course.pages import clone_root

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
    "fontTools": "fonttools",
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


# Not Jupyter's own 8888: the lessons may stand beside another notebook server.
DEFAULT_PORT = 8890
_SETTINGS = Path(__file__).parent / "settings"
PAGE = Path(__file__).parent / "page"
_PREFIX = "steel-"
_KERNEL = (
    "import sys; sys.path = [place for place in sys.path if place]; "
    "from ipykernel.kernelapp import launch_new_instance as launch; launch()"
)
_WHO = "launched_by.pid"  # marks a folder as a house, and says who lives there


def choose_port(wanted: str | None = None) -> tuple[int, str]:
    """
    Choose the number at the end of the address.

    Parameters
    ----------
    wanted : str, optional
        The number as typed. By default 8890, or the next free one.

    Returns
    -------
    int
        A free port.
    str
        A sentence if it is not the usual one, otherwise nothing.
    """
    if wanted is not None:
        return _asked_port(wanted), ""
    for port in range(DEFAULT_PORT, DEFAULT_PORT + 100):
        if _is_free(port):
            break
    else:
        msg = f"Ports {DEFAULT_PORT} to {port} are all taken; stop a program first."
        raise KitError(msg)
    if port == DEFAULT_PORT:
        return port, ""
    return port, f"Port {DEFAULT_PORT} is taken, so {port} is used."


def _asked_port(wanted: str) -> int:
    if not (wanted.isdecimal() and len(wanted) <= 5 and 1024 <= int(wanted) <= 65535):
        msg = f"A port is a whole number from 1024 to 65535. Given: {wanted}."
        raise KitError(msg)
    port = int(wanted)
    if not _is_free(port):
        msg = (
            f"Port {port} is taken by another program; "
            "let the kit find a free one: python -m kit"
        )
        raise KitError(msg)
    return port


def _is_free(port: int) -> bool:
    with socket.socket() as probe:
        if os.name != "nt":
            # As the server does: a port closed a moment ago counts as free.
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind(("127.0.0.1", port))
        except OSError:
            return False
    return True


@contextmanager
def temporary_house() -> Iterator[Path]:
    """
    Give JupyterLab folders of its own, and take them away at the end.

    The user's own configuration is neither read nor touched.

    Yields
    ------
    Path
        The temporary folder.

    Raises
    ------
    KitError
        If there is no room for it.
    """
    from kit.course import mark  # noqa: PLC0415  (check_packages comes first)

    with ExitStack() as kept:
        with room_needed():
            name = TemporaryDirectory(prefix=_PREFIX, ignore_cleanup_errors=True)
            house = Path(kept.enter_context(name))
            (house / _WHO).write_text(str(os.getpid()), encoding="ascii")
            shutil.copytree(_SETTINGS, house / "config")
            shutil.copytree(PAGE, house / "page")
            shutil.copytree(letters.FOLDER, house / "page/steel-lessons/static/letters")
            (house / "page/steel-lessons/static/mark.png").write_bytes(mark.png())
            (house / "kept").mkdir()
        before = dict(os.environ)
        for variable in before:
            if variable.startswith(("JUPYTER", "IPYTHON")):
                del os.environ[variable]
        os.environ.update(_environment(house))
        try:
            _sweep(house)
            with room_needed():
                _write_kernel(house / "data" / "kernels" / "python3")
            yield house
        finally:
            os.environ.clear()
            os.environ.update(before)


@contextmanager
def room_needed() -> Iterator[None]:
    """Tell in one sentence that the temporary folder is full, or may not be written."""
    try:
        yield
    except OSError as error:  # of many files copied, shutil.Error lists all
        place = gettempdir()
        msg = (
            f"The lessons are opened from a copy in the folder for temporary files, "
            f"{place}, which could not be made: {_reason(error)}. "
            "Make room there (about 20 MB)."
        )
        raise KitError(msg) from error


def _reason(error: OSError) -> str:
    """Give the system's words; an error about many files tells the same for each."""
    told = error.args[0][0][-1] if isinstance(error, shutil.Error) else str(error)
    return told.partition("] ")[2].partition(":")[0].lower() or told


def _sweep(own: Path) -> None:
    """Take away what launches left that were killed: their words and keys lie there."""
    from jupyter_server.utils import check_pid  # noqa: PLC0415  (see open_lessons)

    for house in own.parent.glob(f"{_PREFIX}*"):
        with suppress(OSError, ValueError):  # no house of ours, or another user's
            if not check_pid(int((house / _WHO).read_text(encoding="ascii"))):
                shutil.rmtree(house, ignore_errors=True)


def _write_kernel(folder: Path) -> None:
    """
    Tell Jupyter how to start Python, so that it imports nothing from where it works.

    Beside a page a stranger's numpy.py may lie. (Python 3.11 and later have a variable
    for this, PYTHONSAFEPATH.)
    """
    from ipykernel.kernelspec import get_kernel_dict  # noqa: PLC0415  (see open_lessons)

    kernel = get_kernel_dict(["--InteractiveShellApp.ignore_cwd=True"])
    kernel["argv"][1:3] = ["-c", _KERNEL]
    folder.mkdir(parents=True)
    (folder / "kernel.json").write_text(json.dumps(kernel), encoding="utf-8")


def _environment(house: Path) -> dict[str, str]:
    environment = {
        # As a path it comes before what is set up for the whole computer.
        "JUPYTER_CONFIG_PATH": str(house / "config"),
        "JUPYTER_PATH": str(house / "data"),
        "JUPYTER_CONFIG_DIR": str(house / "own"),
        "JUPYTER_DATA_DIR": str(house / "data"),
        "JUPYTER_RUNTIME_DIR": str(house / "runtime"),
        "MPLCONFIGDIR": str(house / "fonts"),  # matplotlib lists fonts, not into your home
        "IPYTHONDIR": str(house / "ipython"),
        "KIT_KEPT": str(house / "kept"),  # settings, through a restart of the kernel
        "JUPYTER_PREFER_ENV_PATH": "1",  # the kernel of this Python, not another
    }
    root = clone_root()
    if root:
        # A clone need not be installed: the lessons find the kit beside them.
        paths = [str(root), os.environ.get("PYTHONPATH", "")]
        environment["PYTHONPATH"] = os.pathsep.join(filter(None, paths))
    return environment

"""A house of its own for JupyterLab: a free port and temporary folders."""

import os
import shutil
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from kit.errors import KitError
from kit.launch.folder import clone_root

# Not Jupyter's own 8888: the lessons may stand beside another notebook server.
DEFAULT_PORT = 8890
_SETTINGS = Path(__file__).parent / "settings"


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
    """
    with TemporaryDirectory(prefix="steel-", ignore_cleanup_errors=True) as name:
        house = Path(name)
        shutil.copytree(_SETTINGS, house / "config")
        (house / "kept").mkdir()
        before = dict(os.environ)
        for variable in before:
            if variable.startswith(("JUPYTER", "IPYTHON")):
                del os.environ[variable]
        os.environ.update(_environment(house))
        try:
            yield house
        finally:
            os.environ.clear()
            os.environ.update(before)


def _environment(house: Path) -> dict[str, str]:
    environment = {
        # As a path it comes before what is set up for the whole computer.
        "JUPYTER_CONFIG_PATH": str(house / "config"),
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

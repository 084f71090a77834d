"""Run JupyterLab on the lessons until the user stops it."""

import secrets
import signal
import sys
import threading
import webbrowser
from collections.abc import Iterable
from pathlib import Path
from types import FrameType
from urllib.parse import quote

import nbformat
import zmq
from jupyter_client import KernelManager
from jupyter_server.serverapp import ServerApp
from jupyterlab.labapp import LabApp
from nbformat.sign import NotebookNotary
from traitlets.config import Config

from kit.launch.folder import Lessons
from kit.notebook_file import TidyOnSave, is_harmless

_PAGE = Path(__file__).parent / "page"


def serve(
    lessons: Lessons,
    first: str,
    port: int,
    house: Path,
    *,
    notes: Iterable[str] = (),
    browser: bool = True,
) -> None:
    """
    Open the lessons and stay until Ctrl-C, or until the window is closed.

    Parameters
    ----------
    lessons : Lessons
        The notebooks.
    first : str
        The one to open, as a path inside their folder.
    port : int
        A free port of this computer.
    house : Path
        The temporary folder that the environment already points to.
    notes : iterable of str
        Sentences to tell the user first; empty ones are passed over.
    browser : bool
        Whether to open the browser.
    """
    token = secrets.token_urlsafe(24)
    page = f"/doc/tree/{quote(first)}"
    server = LabApp.initialize_server(
        argv=[], config=_configuration(lessons, page, port, house, token)
    )
    server.contents_manager.register_pre_save_hook(TidyOnSave(lessons.own))
    _trust(server.contents_manager.notary, lessons)
    _stop_at_once(server)
    address = f"http://127.0.0.1:{port}{page}?token={token}"
    _tell(*filter(None, notes), "The lessons are open at", f"  {address}")
    _tell("To stop: press Ctrl and C together in this window.")
    if browser:
        # In a thread: a browser that runs in the terminal would hold up the server.
        threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()
    server.start()
    # On a line of its own: the terminal has just shown the two keys as ^C.
    _tell("", "The lessons are closed.")


def _tell(*lines: str) -> None:
    sys.stdout.write("".join(f"{line}\n" for line in lines))
    sys.stdout.flush()


def _configuration(
    lessons: Lessons, page: str, port: int, house: Path, token: str
) -> Config:
    """Collect what differs from launch to launch; the rest stands in `settings`."""
    config = Config()
    config.ServerApp.root_dir = str(lessons.folder)
    config.ServerApp.port = port
    config.IdentityProvider.token = token
    config.LabApp.default_url = page
    config.LabApp.extra_labextensions_path = [str(_PAGE)]
    # Jupyter's own second copies would litter the folder of lessons.
    config.FileCheckpoints.checkpoint_dir = str(house / "checkpoints")
    if zmq.has("curve") and "transport_encryption" in KernelManager.class_trait_names():
        # On a computer with several users nobody else can listen in.
        config.KernelManager.transport_encryption = "auto"
    return config


def _trust(notary: NotebookNotary, lessons: Lessons) -> None:
    """
    Let Start run the kit's own notebooks without asking.

    Trusted results may contain scripts that run when the page opens, so a page
    of the kit that holds such results (somebody else's, perhaps) is left out.
    """
    for name in sorted(lessons.own):
        try:
            notebook = nbformat.read(lessons.folder / name, as_version=4)
        except (OSError, ValueError):
            continue  # not there, or broken: JupyterLab says so when it is opened
        if is_harmless(notebook):
            notary.sign(notebook)


def _stop_at_once(server: ServerApp) -> None:
    """Stop without the question that JupyterLab asks in the terminal."""

    def stop(_number: int, _frame: FrameType | None) -> None:
        # Pressed again while closing: give up waiting.
        signal.signal(signal.SIGINT, signal.default_int_handler)
        server.stop(from_signal=True)

    # SIGHUP comes when the terminal window is closed; Windows does not know it.
    for name in ("SIGINT", "SIGTERM", "SIGHUP"):
        number = getattr(signal, name, None)
        # Whoever told the program to stay when the window closes shall be heard.
        if number and signal.getsignal(number) is not signal.SIG_IGN:
            signal.signal(number, stop)

"""Run JupyterLab on the lessons until the user stops it."""

import asyncio
import secrets
import signal
import sys
from collections.abc import Iterable
from functools import wraps
from pathlib import Path
from types import FrameType
from typing import Any
from urllib.parse import quote

import zmq
from jupyter_client import KernelManager
from jupyter_server.serverapp import ServerApp
from jupyter_server.services.kernels.websocket import KernelWebsocketHandler
from jupyterlab.labapp import LabApp
from traitlets.config import Config

from kit.course.pages import Lessons
from kit.launch.contents import Contents


def serve(
    lessons: Lessons,
    first: str,
    port: int,
    house: Path,
    *,
    notes: Iterable[str] = (),
    browser: bool = True,
    edit: bool = False,
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
    edit : bool
        Whether whoever builds on the kit works here, who is given terminals too.
    """
    token = secrets.token_urlsafe(24)
    page = f"/doc/tree/{quote(first)}"
    config = _configuration(lessons, page, port, house, token)
    # Jupyter opens a file in the house that leads on: the word is for nobody else,
    # and what a program is called with every user of the computer can read.
    config.ServerApp.open_browser = browser
    config.ServerApp.terminals_enabled = edit
    server = LabApp.initialize_server(argv=[], config=config)
    _stop_at_once(server)
    send_at_once()
    address = f"http://127.0.0.1:{port}{page}?token={token}"
    _tell(*filter(None, notes), "The lessons are open at", f"  {address}")
    _tell("To stop: press Ctrl and C together in this window.")
    server.start()
    end_requests(server.io_loop.asyncio_loop)
    # On a line of its own: the terminal has just shown the two keys as ^C.
    _tell("", "The lessons are closed.")


def end_requests(loop: asyncio.AbstractEventLoop) -> None:
    """Let what was still being asked come to an end, once the loop has stopped.

    A page may be saving while Ctrl-C is pressed: the thread that reads or writes for it is
    sent home by its request's end. Without that the program would wait for it for ever.
    """
    left = asyncio.all_tasks(loop)
    for task in left:
        task.cancel()
    if left:
        loop.run_until_complete(asyncio.wait(left, timeout=5))


def send_at_once() -> None:
    """Have every connection to a kernel that is opened from now on send at once.

    The operating system holds small packets back, to send them together: a picture of a
    slider that moves would wait 25 ms for nothing.
    """
    usual = KernelWebsocketHandler.open
    if hasattr(usual, "at_once"):
        return

    @wraps(usual)
    async def opened(handler: KernelWebsocketHandler, kernel_id: str) -> None:
        handler.set_nodelay(True)
        await usual(handler, kernel_id)

    opened.at_once = True
    KernelWebsocketHandler.open = opened


# On a hub nobody starts the launcher: there Jupyter's server finds this module named in a
# file of settings that the wheel brings, and calls these two.
def _jupyter_server_extension_points() -> list[dict[str, str]]:
    return [{"module": __name__}]


def _load_jupyter_server_extension(_server: Any) -> None:
    send_at_once()


def _tell(*lines: str) -> None:
    sys.stdout.write("".join(f"{line}\n" for line in lines))
    sys.stdout.flush()


def _configuration(
    lessons: Lessons, page: str, port: int, house: Path, token: str
) -> Config:
    """Collect what differs from launch to launch; the rest stands in `settings`."""
    config = Config()
    config.ServerApp.root_dir = str(lessons.folder)
    config.ServerApp.contents_manager_class = Contents
    config.Contents.own = dict(lessons.own)
    config.ServerApp.port = port
    config.IdentityProvider.token = token
    config.LabApp.default_url = page
    config.LabApp.extra_labextensions_path = [str(house / "page")]
    # Jupyter's own second copies would litter the folder of lessons.
    config.FileCheckpoints.checkpoint_dir = str(house / "checkpoints")
    if zmq.has("curve") and "transport_encryption" in KernelManager.class_trait_names():
        # On a computer with several users nobody else can listen in.
        config.KernelManager.transport_encryption = "auto"
    return config


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

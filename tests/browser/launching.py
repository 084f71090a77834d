"""Launch the kit as a user does, in a process of its own."""

import json
import os
import re
import signal
import site
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.error import URLError
from urllib.request import Request, urlopen

import pytest

from kit.course.views.rehearse import TESTED


@dataclass(frozen=True)
class Server:
    """A running kit."""

    address: str
    token: str
    folder: Path
    home: Path
    lines: tuple[str, ...]
    process: int

    def ask(self, path: str, method: str = "GET", content: object = None) -> object:
        """Ask the server itself, without a browser."""
        request = Request(  # noqa: S310  (the address is our own)
            self.address + path,
            method=method,
            data=None if content is None else json.dumps(content).encode(),
            headers={"Authorization": f"token {self.token}"},
        )
        with urlopen(request, timeout=20) as answer:  # noqa: S310
            body = answer.read()
        return json.loads(body) if body else None


def free_port() -> int:
    """Find a port that nobody uses."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def _wait_until_it_answers(running: Server) -> None:
    for _ in range(100):
        with suppress(URLError):
            running.ask("/api/status")
            return
        time.sleep(0.1)
    pytest.fail("the kit said it was open, but did not answer")


def _killed_after(seconds: int, process: subprocess.Popen) -> threading.Timer:
    """End a process that does not end by itself: reading its words ends then, too."""
    limit = threading.Timer(seconds, process.kill)
    limit.daemon = True
    limit.start()
    return limit


def started(command: list[str], **options: Any) -> subprocess.Popen:
    """
    Start a program that Ctrl-C can end.

    Where the tests run in the background SIGINT is ignored, and a child would inherit
    that; whatever else is set here is forgotten in it.
    """
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        return subprocess.Popen(command, **options)
    finally:
        signal.signal(signal.SIGINT, before)


@contextmanager
def launched(
    folder: Path, home: Path, *options: str, browser: str = "--no-browser"
) -> Iterator[Server]:
    """Launch the kit of a folder as a user does, and stop it with Ctrl-C at the end."""
    environment = os.environ | {
        "HOME": str(home),
        "PYTHONUSERBASE": site.getuserbase(),
        "JUPYTER_CONFIG_DIR": str(home / ".jupyter"),
    }
    environment.pop(TESTED, None)  # as for a student: no page plays itself through
    port = str(free_port())
    options = ("--port", port, *filter(None, (browser, *options)))
    command = [sys.executable, "-m", "kit", *options]
    process = started(
        command, cwd=folder, env=environment, stdout=subprocess.PIPE, text=True
    )
    limit = _killed_after(60, process)
    try:
        # The line after the address is the last; an early end ends the loop too.
        lines = []
        for line in process.stdout:
            lines.append(line.strip())
            if line.startswith("To stop"):
                break
        found = re.search(r"(http://127.0.0.1:\d+)\S*token=(\S+)", "\n".join(lines))
        assert found, f"the kit did not start: {lines}"
        running = Server(
            *found.groups(), folder / "notebooks", home, tuple(lines), process.pid
        )
        _wait_until_it_answers(running)
        limit.cancel()
        yield running
        limit = _killed_after(30, process)
        process.send_signal(signal.SIGINT)
        # (a kernel's last words may come first)
        assert process.stdout.read().endswith("The lessons are closed.\n")
        assert process.wait(timeout=10) == 0
    finally:
        limit.cancel()
        process.kill()

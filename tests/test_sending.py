"""From a slider to its picture: nothing on the way waits, or is done for nothing."""

import asyncio
import json
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from importlib import import_module
from pathlib import Path

import anyio.to_thread
import pytest
from jupyter_server.services.kernels.websocket import KernelWebsocketHandler

from kit.launch.server import end_requests, send_at_once

ROOT = Path(__file__).parents[1]
PAGE = (ROOT / "kit" / "course" / "views", ROOT / "kit" / "launch" / "page")


class Connection:
    """Stands for a kernel's connection, and notes what is asked of it."""

    def __init__(self):
        self.asked = []

    def set_nodelay(self, value):
        """Note that small packets are to go at once."""
        self.asked.append(value)


def test_a_connection_sends_at_once_however_often_it_was_asked_for(monkeypatch):
    async def usual(handler, kernel_id):
        handler.asked.append(kernel_id)

    monkeypatch.setattr(KernelWebsocketHandler, "open", usual)
    for _ in range(2):
        send_at_once()
    connection = Connection()
    # in a thread of its own: here a loop may run already
    with ThreadPoolExecutor(1) as pool:
        done = pool.submit(asyncio.run, KernelWebsocketHandler.open(connection, "a kernel"))
        done.result(timeout=30)
    assert connection.asked == [True, "a kernel"]


def test_what_was_being_asked_when_it_was_stopped_leaves_no_thread_behind():
    """Python waits for every thread before it ends: Ctrl-C would not give the line back."""

    def stopped_in_a_request() -> None:
        loop = asyncio.new_event_loop()
        request = loop.create_task(anyio.to_thread.run_sync(time.sleep, 0.1))
        loop.call_later(0.05, loop.stop)
        loop.run_forever()
        assert not request.done()
        end_requests(loop)
        loop.close()

    def at_work() -> set[threading.Thread]:
        return {one for one in threading.enumerate() if "AnyIO" in one.name}

    before = at_work()
    with ThreadPoolExecutor(1) as pool:  # in a thread of its own: see above
        pool.submit(stopped_in_a_request).result(timeout=30)
    for left in at_work() - before:
        left.join(1)
        alive = left.is_alive()
        left.queue.put(None)  # a fault found shall not hold up the tests' own end
        assert not alive


def test_the_wheel_switches_it_on_for_a_hub():
    tomllib = pytest.importorskip("tomllib", reason="Python 3.11 brought it")
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    files = project["tool"]["hatch"]["build"]["targets"]["wheel"]["shared-data"]
    [(source, place)] = files.items()
    assert place.startswith("etc/jupyter/jupyter_server_config.d/")
    told = json.loads((ROOT / source).read_text("utf-8"))
    for name, on in told["ServerApp"]["jpserver_extensions"].items():
        [point] = import_module(name)._jupyter_server_extension_points()
        assert on
        assert point["module"] == name


@pytest.mark.parametrize(
    "sheet",
    [sheet for folder in PAGE for sheet in folder.rglob("*.css")],
    ids=lambda s: s.name,
)
def test_no_style_asks_what_stands_inside(sheet):
    # by :has() a new sentence had a browser style all 860 parts of a page anew, three
    # times a move: 18 of the 41 ms that its page took (measured in Chromium)
    assert ":has(" not in sheet.read_text("utf-8")

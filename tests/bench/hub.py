"""A class on one machine: a JupyterHub on 127.0.0.1, students moving sliders.

Real single-user servers, real kernels, real messages; only the browser is left out. Needs
an environment that has jupyterhub, requests, websocket-client, psutil and the kit, and
`configurable-http-proxy` (npm) on the PATH:

    python -m tests.bench.hub 10 30

prints a line for each size of class: memory a student, and how long a slider's answer
takes. Bounded: 40 moves a student, then everything is stopped.
"""

from __future__ import annotations

import json
import statistics
import subprocess
import sys
import tempfile
import threading
import time
import uuid
from contextlib import suppress
from pathlib import Path

import psutil
import requests
import websocket

PORT, TOKEN = 8988, uuid.uuid4().hex
HUB = f"http://127.0.0.1:{PORT}"
MOVES, PAUSE = 40, 0.4  # a moving hand rests now and then
MOST_TIME = 1800  # s, for a class to arrive, or to move
ROOT = Path(__file__).parents[2]
CONFIG = f"""
import os

c.Spawner.environment = dict(JUPYTER_CONFIG_PATH=os.getcwd())
c.JupyterHub.bind_url = "{HUB}"
c.JupyterHub.hub_ip = "127.0.0.1"
c.JupyterHub.spawner_class = "simple"
c.JupyterHub.authenticator_class = "dummy"
c.Authenticator.allow_all = True
c.JupyterHub.services = [dict(name="teacher", api_token="{TOKEN}")]
c.JupyterHub.load_roles = [
    dict(name="teacher", services=["teacher"],
         scopes=["admin:users", "admin:servers", "access:servers", "tokens"]),
]
c.JupyterHub.concurrent_spawn_limit = 40
c.Spawner.start_timeout = 180
c.Spawner.http_timeout = 180
c.Spawner.args = ["--allow-root"]
c.Spawner.cmd = [r"{sys.executable}", "-m", "jupyterhub.singleuser"]
c.JupyterHub.log_level = "ERROR"
"""
OPEN = """
from kit.course.views.lesson import lesson
predict, view, explain, check = lesson("04")
predict.tiles.value = 2
predict.observe_now()
print(view.controls["turn"].comm.comm_id, view.picture.comm.comm_id)
"""


class Student:
    """One student: a server, a kernel, a slider."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.head = {"Authorization": f"token {TOKEN}"}
        self.waits: list[float] = []
        self.lost = 0

    def arrive(self) -> None:
        """Start the server and a kernel, and open lesson 04."""
        api = f"{HUB}/hub/api/users/{self.name}"
        requests.post(api, headers=self.head, timeout=60)
        requests.post(f"{api}/server", headers=self.head, timeout=180)
        deadline = time.monotonic() + 180
        while time.monotonic() < deadline:
            known = requests.get(api, headers=self.head, timeout=60).json()
            if known["servers"].get("", {}).get("ready"):
                break
            time.sleep(0.5)
        server = f"{HUB}/user/{self.name}/api/kernels"
        kernel = requests.post(server, headers=self.head, json={}, timeout=120).json()["id"]
        address = server.replace("http", "ws", 1) + f"/{kernel}/channels"
        self.socket = websocket.create_connection(address, header=self.head, timeout=120)
        self.session = uuid.uuid4().hex
        told = self._run(OPEN)
        self.slider, self.picture = told.split()

    def move(self) -> None:
        """Move the slider; each time wait for the new picture."""
        for step in range(MOVES):
            began = time.monotonic()
            value = {"value": 30.0 + (step * 7) % 100}
            data = {"method": "update", "state": value, "buffer_paths": []}
            self._send("comm_msg", {"comm_id": self.slider, "data": data})
            if self._frame(began + 20):
                self.waits.append(time.monotonic() - began)
            else:
                self.lost += 1
            time.sleep(PAUSE)
        self.socket.close()

    def _frame(self, deadline: float) -> bool:
        while time.monotonic() < deadline:
            try:
                got = self.socket.recv()
            except websocket.WebSocketTimeoutException:
                return False
            words = got if isinstance(got, str) else got[:4000].decode("latin-1")
            if self.picture in words and "frame" in words:
                return True
        return False

    def _send(self, kind: str, content: dict) -> str:
        number = uuid.uuid4().hex
        head = {"msg_id": number, "msg_type": kind, "session": self.session}
        head |= {"username": self.name, "version": "5.3"}
        message = {"header": head, "parent_header": {}, "metadata": {}, "content": content}
        self.socket.send(json.dumps(message | {"channel": "shell", "buffers": []}))
        return number

    def _run(self, code: str) -> str:
        number = self._send(
            "execute_request",
            {"code": code, "silent": False, "allow_stdin": False, "stop_on_error": True},
        )
        told = ""
        while True:
            got = self.socket.recv()
            if not isinstance(got, str):
                continue
            message = json.loads(got)
            if message["parent_header"].get("msg_id") != number:
                continue
            if message["msg_type"] == "error":
                raise RuntimeError(message["content"]["evalue"])
            if message["msg_type"] == "stream":
                told += message["content"]["text"]
            idle = message["content"].get("execution_state") == "idle"
            if told and idle:
                return told


def _memory() -> dict[str, float]:
    """Add up the memory that belongs to nobody else (USS), MB, by what it is."""
    found = {"kernel": 0.0, "server": 0.0}
    for process in psutil.process_iter():
        with suppress(psutil.Error):  # gone meanwhile
            line = " ".join(process.cmdline())
            kind = (
                "kernel" if "ipykernel_launcher" in line
                else "server" if "singleuser" in line
                else ""
            )  # fmt: skip
            if kind:
                found[kind] += process.memory_full_info().uss / 1e6
    return found


def _all(students: list[Student], what: str) -> None:
    threads = [threading.Thread(target=getattr(s, what), daemon=True) for s in students]
    deadline = time.monotonic() + MOST_TIME
    for thread in threads:
        thread.start()
        time.sleep(0.1)
    for thread in threads:
        thread.join(max(0.0, deadline - time.monotonic()))
    if any(thread.is_alive() for thread in threads):
        msg = f"after {MOST_TIME} s not all students are through"
        raise TimeoutError(msg)


def class_of(count: int) -> str:
    """Let a class of students in, let them all move, and say how it went."""
    students = [Student(f"student{number}") for number in range(count)]
    began = time.monotonic()
    _all(students, "arrive")
    ready = time.monotonic() - began
    memory = _memory()
    _all(students, "move")
    waits = sorted(wait for student in students for wait in student.waits)
    lost = sum(student.lost for student in students)
    p95 = waits[int(0.95 * len(waits))] * 1000
    return (
        f"{count} students: all ready in {ready:.0f} s; "
        f"{memory['kernel'] / count:.0f} MB a kernel + {memory['server'] / count:.0f} MB a "
        f"server; a slider's answer: median {statistics.median(waits) * 1000:.0f} ms, "
        f"95 of 100 within {p95:.0f} ms; lost {lost} of {count * MOVES}"
    )


def main() -> None:
    """Start a hub for each size of class, and stop it."""
    for count in map(int, sys.argv[1:] or ["10", "30"]):
        with tempfile.TemporaryDirectory() as folder:
            config = Path(folder, "hub.py")
            config.write_text(CONFIG)
            # what the wheel of the kit puts beside Jupyter's own settings
            enabled = Path(folder, "jupyter_server_config.d", "kit.json")
            enabled.parent.mkdir()
            enabled.write_bytes((ROOT / "kit/launch/settings/hub.json").read_bytes())
            command = [sys.executable, "-m", "jupyterhub", "-f", str(config)]
            hub = subprocess.Popen(command, cwd=folder, stderr=subprocess.DEVNULL)
            try:
                _answering()
                print(class_of(count), flush=True)
            finally:
                _stop(hub)
        time.sleep(5)


def _stop(hub: subprocess.Popen) -> None:
    hub.terminate()
    try:
        hub.wait(60)
    except subprocess.TimeoutExpired:
        hub.kill()
        hub.wait(10)


def _answering() -> None:
    for _ in range(120):
        with suppress(requests.ConnectionError):
            if requests.get(f"{HUB}/hub/api", timeout=2).ok:
                return  # its proxy is there before it, and answers for it: 404
        time.sleep(0.5)
    msg = "the hub does not answer"
    raise RuntimeError(msg)


if __name__ == "__main__":
    main()

"""A class's kernels on one machine, each with a lesson whose slider is moved now and then.

Real kernels and real messages, without a hub, servers or browsers (`hub.py` has those):
milliseconds from a move until its new picture is sent. After each move the whole picture
is asked for, as a page does at rest. Run by hand: it takes both cores for minutes.
"""

import json
import random
import time
from concurrent.futures import ThreadPoolExecutor
from queue import Empty

from jupyter_client import BlockingKernelClient, KernelManager

from tests.bench.clock import summed, table

STUDENTS, TARGET = 30, 250  # ms, at 95 of 100
MOVES, PAUSE = 10, (1.0, 5.0)  # s between two moves of a student
REST = 0.15  # s, as picture.js has it
AT_ONCE = 4  # kernels that start at the same time
LESSONS = tuple(f"{number:02}" for number in range(1, 12))
OPEN = """
import json
from kit.course.views.lesson import lesson
predict, view = lesson("{key}")[:2]
predict.tiles.value = 0
predict.observe_now()
main, picture = view.main, view.picture
print(json.dumps([main.comm.comm_id, list(main.stops), picture.comm.comm_id]))
"""


class Student:
    """One kernel, with one lesson open."""

    def __init__(self, key: str) -> None:
        self.key, self.waits = key, []
        self.dice = random.Random(key)  # noqa: S311  (no secret)
        self.manager = KernelManager()

    def arrive(self) -> None:
        """Start the kernel, and open the lesson."""
        self.manager.start_kernel()
        self.client: BlockingKernelClient = self.manager.client()
        self.client.start_channels()
        self.client.wait_for_ready(timeout=120)
        told = []
        self.client.execute_interactive(
            OPEN.format(key=self.key), timeout=120, output_hook=told.append
        )
        said = "".join(message["content"].get("text", "") for message in told)
        self.slider, self.stops, self.picture = json.loads(said)

    def move(self) -> None:
        """Move the slider now and then; wait for the picture, then let it rest."""
        at = self.stops[0]
        for _ in range(MOVES):
            time.sleep(self.dice.uniform(*PAUSE))
            at = self.dice.choice([stop for stop in self.stops if stop != at])
            state = {"value": at}
            began = time.perf_counter()
            if self._sent(self.slider, {"method": "update", "state": state}):
                self.waits.append(1000 * (time.perf_counter() - began))
            time.sleep(REST)
            self._sent(self.picture, {"method": "custom", "content": {"event": "rest"}})

    def leave(self) -> None:
        """End the kernel."""
        self.manager.shutdown_kernel(now=True)

    def _sent(self, comm: str, data: dict) -> bool:
        """Send a message; tell whether a picture came before the kernel was idle again."""
        content = {"comm_id": comm, "data": {"buffer_paths": [], **data}}
        message = self.client.session.msg("comm_msg", content)
        while self.client.iopub_channel.msg_ready():
            self.client.get_iopub_msg(timeout=1)
        self.client.shell_channel.send(message)
        while True:
            try:
                got = self.client.get_iopub_msg(timeout=30)
            except Empty:
                return False
            if got["parent_header"].get("msg_id") != message["header"]["msg_id"]:
                continue
            if got["content"].get("comm_id") == self.picture and any(got["buffers"]):
                return True
            if got["content"].get("execution_state") == "idle":
                return False


def report() -> None:
    """Let a class arrive, let all move, and say how long they waited."""
    students = [Student(LESSONS[place % len(LESSONS)]) for place in range(STUDENTS)]
    try:
        with ThreadPoolExecutor(AT_ONCE) as pool:
            list(pool.map(Student.arrive, students))
        with ThreadPoolExecutor(STUDENTS) as pool:
            list(pool.map(Student.move, students))
    finally:
        for student in students:
            student.leave()
    waits = summed([wait for student in students for wait in student.waits])
    rows = [(f"{STUDENTS} students", waits.median, waits.p95, TARGET)]
    table("from a move to its picture, ms", ("who", "middle", "95 of 100", "asked"), rows)

"""A thousand hand-ins of each set, marked from a folder: time, and memory beside it."""

import tempfile
import time
import tracemalloc
from pathlib import Path

from kit.classroom.homework import drafts
from kit.classroom.homework.class_table import class_table
from kit.classroom.homework.marking import mark_folder
from kit.classroom.homework.paper import Homework, draw
from kit.classroom.homework.sets import SETS
from kit.classroom.homework.sitting import Sitting
from tests.bench.clock import table

CLASS = 1000
TARGET = 10  # s


def report() -> None:
    """Hand in, mark, make the table; memory in a run of its own, which is slower."""
    rows = []
    for task in SETS.values():
        with tempfile.TemporaryDirectory() as place:
            folder = Path(place)
            _hand_in(task, folder, CLASS)
            began = time.perf_counter()
            marked = mark_folder(folder, "BENCH")
            made = class_table(marked.marks, task.code)
            took = time.perf_counter() - began
            rows.append((task.code, f"{took:.1f}", len(made.rows) - 2, _grown(folder)))
    head = ("set", f"s (target: <= {TARGET})", "students", "KB held a hand-in")
    table(f"marking {CLASS} hand-ins", head, rows)


def _hand_in(task: Homework, folder: Path, count: int) -> None:
    for number in range(count):
        sitting = Sitting(draw(task, "BENCH", f"Student {number}"))
        for part in task.parts:
            value = part.answer(sitting.paper.values) * (1 if number % 3 else 2)
            sitting.answer(part.number, "1" if part.options else f"{value:.6g}")
        sitting.design = {
            key: field.default for key, field in task.design.choices.model_fields.items()
        }
        drafts.keep(folder, sitting.hand_in(words="word " * 60))


def _grown(folder: Path) -> str:
    tracemalloc.start()
    marked = mark_folder(folder, "BENCH")
    held, _ = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    return f"{held / 1024 / len(marked.marks):.1f}"

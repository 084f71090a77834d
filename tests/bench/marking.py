"""A drawn class of two hundred on the instructor's page: from the press to the screen."""

import tempfile
import time
import tracemalloc
from pathlib import Path

from kit.classroom.homework.marking import mark_folder
from kit.classroom.homework.sets import SETS
from kit.classroom.views.marking import MarkingPage
from tests.bench.clock import table
from tests.drawn_class import COURSE, drawn_class, quiz_sheets

CLASS = 200
TARGET = 5  # s


def report() -> None:
    """Hand in, press, see the class; memory in a run of its own, which is slower."""
    rows = []
    for code in SETS:
        with tempfile.TemporaryDirectory() as place:
            folder = Path(place)
            made = drawn_class(folder, (code,), CLASS)
            quiz_sheets(folder, made.roster)
            page = MarkingPage(folder)
            page.course.value, page.roster.names.value = COURSE, "\n".join(made.roster)
            steps = []
            page.bar.observe(steps.append, "value")
            began = time.perf_counter()
            page.mark()
            took = time.perf_counter() - began
            many = len(page.marked.marks)
            rows.append((code, f"{took:.1f}", many, len(steps), _grown(folder)))
    head = (
        "set",
        f"s (target: <= {TARGET})",
        "hand-ins",
        "steps of the bar",
        "KB held each",
    )
    table(f"a class of {CLASS} on the instructor's page", head, rows)


def _grown(folder: Path) -> str:
    tracemalloc.start()
    marked = mark_folder(folder, COURSE)
    held, _ = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    return f"{held / 1024 / len(marked.marks):.1f}"

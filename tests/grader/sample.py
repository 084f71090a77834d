"""Run nbgrader's own command line on one sample: the kit's checks in its test cells.

    python tests/grader/sample.py

in an environment with nbgrader and the kit. A student answers three parts of five right;
nbgrader must give three points of five. It prints "1 passed, 0 failed" and fails loudly.
"""

from __future__ import annotations

import csv
import subprocess
import sys
import tempfile
from pathlib import Path

import nbformat

from kit.classroom.homework.paper import draw
from kit.classroom.homework.sets import SETS

STUDENT, COURSE = "student-one", "FORGE-A"
WAIT = 300  # s, for one command
SETUP = f'''course, student = "{COURSE}", "{STUDENT}"
from kit.classroom.homework.paper import draw
from kit.classroom.homework.sets import SETS
for number, question in enumerate(draw(SETS["H1"], course, student).questions(), 1):
    print(number, question)'''
BLANK = """### BEGIN SOLUTION
answers = {}
### END SOLUTION"""
TESTS = """from kit.classroom.homework.grader import points
points("H1", course, student, answers)"""


def cell(source: str, name: str, **about: object) -> nbformat.NotebookNode:
    """Make a cell as nbgrader marks them."""
    marked = {
        "schema_version": 3, "grade_id": name, "locked": False, "task": False,
        "grade": False, "solution": False, **about,
    }  # fmt: skip
    return nbformat.v4.new_code_cell(source, metadata={"nbgrader": marked})


def notebook(answers: str) -> nbformat.NotebookNode:
    """Make the assignment: read the questions, answer, be marked."""
    made = nbformat.v4.new_notebook()
    made.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3"}
    made.cells = [
        cell(SETUP, "setup", locked=True),
        cell(answers, "answers", solution=True),
        cell(TESTS, "tests", grade=True, locked=True, points=5),
    ]
    return made


def put(path: Path, made: nbformat.NotebookNode) -> None:
    """Write a notebook into a course."""
    path.parent.mkdir(parents=True)
    nbformat.write(made, path)


def main() -> int:
    """Make a course, hand in, mark, read the score back."""
    paper = draw(SETS["H1"], COURSE, STUDENT)
    right = {p.number: f"{p.answer(paper.values):.8g}" for p in SETS["H1"].parts}
    answers = right | {2: "17", 3: "abc"}
    with tempfile.TemporaryDirectory() as place:
        course = Path(place)
        (course / "nbgrader_config.py").write_text(
            "c = get_config()\nc.CourseDirectory.course_id = 'forge'\n"
        )
        put(course / "source/ps1/h1.ipynb", notebook(BLANK))
        run = [sys.executable, "-m", "nbgrader"]
        subprocess.run(
            [*run, "generate_assignment", "ps1"], cwd=course, check=True, timeout=WAIT
        )
        put(course / f"submitted/{STUDENT}/ps1/h1.ipynb", notebook(f"answers = {answers}"))
        subprocess.run(
            [*run, "autograde", "ps1", "--create"], cwd=course, check=True, timeout=WAIT
        )
        subprocess.run([*run, "export"], cwd=course, check=True, timeout=WAIT)
        (row,) = csv.DictReader((course / "grades.csv").open())
    if float(row["score"]) != 3 or float(row["max_score"]) != 5:
        given = f"{row['score']} of {row['max_score']}"
        sys.stderr.write(f"nbgrader gave {given}, not 3 of 5\n")
        return 1
    sys.stdout.write("nbgrader gave 3 points of 5, as it should.\n1 passed, 0 failed\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())

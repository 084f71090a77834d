"""`KitError` in a code cell is its sentence alone, in the Jupyter that a student has."""

import ast
import json
import re
import traceback
from pathlib import Path

import nbclient
import nbformat
import pytest
from IPython.core.interactiveshell import InteractiveShell

from kit.basics.errors import KitError
from kit.course.map import LESSONS
from kit.course.views.forge import Forge
from kit.course.views.lesson import view_of

pytestmark = pytest.mark.gate

FOLDER = Path(__file__).parents[1] / "notebooks"
# what a hand slips to; a word is for Python itself to answer
SLIPS = (0, -1)
LONGEST = 300  # signs


def written_cells() -> list[tuple[str, str]]:
    """Give the cells in which a reader is asked to change the code: name and text."""
    found = []
    for path in sorted([*FOLDER.glob("[01]*_*.ipynb"), FOLDER / "forge.ipynb"]):
        for cell in json.loads(path.read_text("utf-8"))["cells"]:
            source = "".join(cell["source"])
            about = cell["metadata"]
            seen = not about.get("jupyter", {}).get("source_hidden")
            own = cell["cell_type"] == "code" and seen
            if own and re.search(r"^from kit import|=\d|\d\)", source, re.MULTILINE):
                found.append((path.stem, source))
    return found


CELLS = written_cells()


class Changed(ast.NodeTransformer):
    """Change the n-th number of a cell."""

    def __init__(self, which: int, value: object) -> None:
        self.left, self.value = which, value

    def visit_Constant(self, node: ast.Constant) -> ast.Constant:
        """Change it, if it is the one."""
        if isinstance(node.value, (int, float)):
            self.left -= 1
            if self.left == -1:
                return ast.copy_location(ast.Constant(self.value), node)
        return node


def changes(source: str) -> list[str]:
    """Give the cell with each of its numbers slipped, one at a time."""
    numbers = sum(
        isinstance(node, ast.Constant) and isinstance(node.value, (int, float))
        for node in ast.walk(ast.parse(source))
    )
    return [
        ast.unparse(
            ast.fix_missing_locations(Changed(which, slip).visit(ast.parse(source)))
        )
        for which in range(numbers)
        for slip in SLIPS
    ]


def ours(error: BaseException) -> bool:
    """Whether an error came out of the kit, and not of Python's own sums in the cell."""
    frames = traceback.extract_tb(error.__traceback__)
    return any(
        Path(frame.filename).is_relative_to(FOLDER.parent / "kit") for frame in frames
    )


def test_there_are_cells_to_change():
    assert len(CELLS) >= 9


@pytest.mark.parametrize(("name", "source"), CELLS, ids=[name for name, _ in CELLS])
def test_a_slip_in_a_code_cell_is_answered_with_a_sentence(name, source, capsys):
    shell = InteractiveShell.instance()
    # the bench above the cell
    bench = view_of(name[:2]) if name[:2] in LESSONS else Forge()
    shell.user_ns["view"] = shell.user_ns["forge"] = bench
    lost = []
    for cell in changes(source):
        error = shell.run_cell(cell).error_in_exec
        shown = capsys.readouterr().out
        if error is None:
            continue
        if "Traceback" in shown and (isinstance(error, KitError) or ours(error)):
            lost.append(f"{type(error).__name__}: {error}\n{cell}")
    assert not lost, f"{name}: {len(lost)} traceback(s), the first:\n{lost[0]}"


def test_in_a_real_kernel_the_sentence_stands_alone():
    notebook = nbformat.v4.new_notebook()
    stack = "Stack.alternate('1084', '15N20', pieces=9, thickness=4.0)"
    wishes = (
        f"from kit import *; bar = Billet(source={stack})",
        "cut(bar.size, angle=0)",
        "bar.then(DrawOut(thickness=-3))",
        "Stack.alternate('no such steel', '15N20', pieces=9, thickness=4.0)",
        "bar.then('fold')",
    )
    notebook.cells = [nbformat.v4.new_code_cell(wish) for wish in wishes]
    nbclient.NotebookClient(notebook, timeout=60, allow_errors=True).execute()
    for cell in notebook.cells[1:]:
        (output,) = cell["outputs"]
        assert output["ename"] == "KitError"
        sentence = output["evalue"]
        assert output["traceback"] == [sentence]
        assert len(sentence) < LONGEST
        assert "\n" not in sentence

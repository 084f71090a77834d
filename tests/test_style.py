"""The habits of the house, where a machine can see to them."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
MOST_LINES = 400  # of a module; one idea each
MOST_CODE = 40  # lines of a function: without its docstring, comments and blanks
FILES = sorted((*ROOT.glob("kit/**/*.py"), *ROOT.glob("tests/**/*.py")))
each_file = pytest.mark.parametrize(
    "path", FILES, ids=[path.relative_to(ROOT).as_posix() for path in FILES]
)
FUNCTIONS = (ast.FunctionDef, ast.AsyncFunctionDef)


def functions(path):
    tree = ast.parse(path.read_text("utf-8"))
    return [node for node in ast.walk(tree) if isinstance(node, FUNCTIONS)]


def body(function):
    """Give the statements of a function after its docstring."""
    skip = ast.get_docstring(function) is not None
    return function.body[skip:]


def code_lines(function, lines):
    if not body(function):
        return 1
    head = lines[function.lineno - 1 : function.body[0].lineno - 1]
    inside = lines[body(function)[0].lineno - 1 : function.end_lineno]
    written = [line.strip() for line in (*head, *inside)]
    return sum(bool(line) and not line.startswith("#") for line in written)


def proves_nothing(test):
    """Tell whether a test does no more than pass."""
    idle = {"pass", "...", "assert True", "return", "return None"}
    return {ast.unparse(statement) for statement in body(test)} <= idle


@pytest.mark.parametrize("order", [("check",), ("format", "--check")], ids=" ".join)
def test_ruff_finds_nothing(order):
    run = subprocess.run(
        [sys.executable, "-m", "ruff", *order, "--no-cache", "."],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
        cwd=ROOT,
    )
    assert run.returncode == 0, run.stdout + run.stderr


@each_file
def test_a_module_holds_one_idea(path):
    assert len(path.read_text("utf-8").splitlines()) <= MOST_LINES


@each_file
def test_a_function_fits_on_a_page(path):
    lines = path.read_text("utf-8").splitlines()
    long = {f.name: code_lines(f, lines) for f in functions(path)}
    assert not {name: count for name, count in long.items() if count > MOST_CODE}


@each_file
def test_every_test_can_fail(path):
    tests = [f for f in functions(path) if f.name.startswith("test_")]
    assert not [test.name for test in tests if proves_nothing(test)]


def test_these_rules_see_what_they_should(tmp_path):
    path = tmp_path / "sample.py"
    idle = 'def test_idle():\n    """Say nothing."""\n    pass\n'
    honest = "def test_sum():\n    # by hand\n\n    assert 1 + 1 == 2\n"
    path.write_text(idle + honest, "utf-8")
    lines = path.read_text("utf-8").splitlines()
    assert [proves_nothing(f) for f in functions(path)] == [True, False]
    assert [code_lines(f, lines) for f in functions(path)] == [2, 2]

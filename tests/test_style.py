"""The habits of the house, where a machine can see to them."""

import ast
import re
import subprocess
import sys
from collections import Counter
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
MOST_LINES = 400  # of a module; one idea each
LEAST_LINES = 60  # of a module, but for those below: no file exists to keep another short
# Folders in which a file is one of a kind, however short: a step, a lesson or its view, a
# card, a kind of paper, a command. Elsewhere a short file is one that many lean on.
KINDS = (
    *("forge/steps", "course/lessons", "course/views", "course/questions"),
    *("classroom/paper", "launch/command"),
)
MANY = 3  # files that import it
MOST_MODELS = 4000  # lines of code in the two rooms that can be read in an evening
MOST_CODE = 40  # lines of a function: without its docstring, comments and blanks
FILES = sorted((*ROOT.glob("kit/**/*.py"), *ROOT.glob("tests/**/*.py")))
FUNCTIONS = (ast.FunctionDef, ast.AsyncFunctionDef)


@cache
def functions(path):
    """Give the functions of a file: name, lines of code, whether it proves nothing."""
    text = path.read_text("utf-8")
    lines = text.splitlines()
    found = [node for node in ast.walk(ast.parse(text)) if isinstance(node, FUNCTIONS)]
    return [(one.name, code_lines(one, lines), proves_nothing(one)) for one in found]


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


def breaking(rule):
    """Give what breaks a rule, by file; a file that keeps it gives nothing."""
    found = {path.relative_to(ROOT).as_posix(): rule(path) for path in FILES}
    return {name: what for name, what in found.items() if what}


def test_a_module_holds_one_idea():
    long = breaking(lambda path: path.read_text("utf-8").count("\n") > MOST_LINES)
    assert list(long) == []


def too_short(path, texts):
    """Tell whether a file of the kit is short without need."""
    within = path.relative_to(ROOT / "kit")
    lines = texts[path].splitlines()
    free = len(lines) >= LEAST_LINES or path.name in {"__init__.py", "__main__.py"}
    if free or within.parent.as_posix() in KINDS or '"__main__"' in texts[path]:
        return False
    folder = ".".join(("kit", *within.parent.parts))
    name = within.stem
    asks = re.compile(rf"{folder}\.{name} import|from {folder} import [^\n]*\b{name}\b")
    return sum(bool(asks.search(text)) for text in texts.values()) < MANY


def is_told(node):
    """Tell whether it is words for people: a docstring, or a string of 40 letters."""
    if isinstance(node, ast.Expr):
        return isinstance(node.value, ast.Constant)
    parts = node.values if isinstance(node, ast.JoinedStr) else [node]
    texts = [part.value for part in parts if isinstance(part, ast.Constant)]
    return len("".join(text for text in texts if isinstance(text, str))) >= 40


def lines_of_code(path):
    """Count the lines that are neither words for people, nor comments, nor blank."""
    text = path.read_text("utf-8")
    told = {
        line
        for node in ast.walk(ast.parse(text))
        if isinstance(node, (ast.Expr, ast.Constant, ast.JoinedStr)) and is_told(node)
        for line in range(node.lineno, node.end_lineno + 1)
    }
    lines = enumerate(map(str.strip, text.splitlines()), 1)
    return sum(line != "" and line[0] != "#" and at not in told for at, line in lines)


def test_the_two_rooms_of_models_can_be_read_in_an_evening():
    rooms = [*ROOT.glob("kit/forge/**/*.py"), *ROOT.glob("kit/section/**/*.py")]
    assert 0 < sum(map(lines_of_code, rooms)) <= MOST_MODELS


def test_no_file_is_short_without_need():
    texts = {path: path.read_text("utf-8") for path in FILES}
    kit = [path for path in FILES if path.is_relative_to(ROOT / "kit")]
    short = [path.as_posix() for path in kit if too_short(path, texts)]
    assert short == [], "lay it to its kin, or to what asks for it"


def test_a_function_fits_on_a_page():
    long = breaking(lambda path: [one for one in functions(path) if one[1] > MOST_CODE])
    assert long == {}


def is_told_in_words(text):
    """Tell whether a bare ClassVar is a string to Python, which 3.10 cannot read."""
    told = re.search("^from __future__ import annotations$", text, re.MULTILINE)
    return bool(told and re.search(r"^ +\w+: ClassVar(?: =|$)", text, re.MULTILINE))


def test_the_oldest_python_reads_what_a_lesson_declares():
    assert is_told_in_words("from __future__ import annotations\n    key: ClassVar = 1")
    assert list(breaking(lambda path: is_told_in_words(path.read_text("utf-8")))) == []


def test_every_test_can_fail():
    idle = breaking(
        lambda path: [
            name
            for name, _, nothing in functions(path)
            if nothing and name.startswith("test_")
        ]
    )
    assert idle == {}


def test_these_rules_see_what_they_should(tmp_path):
    path = tmp_path / "sample.py"
    idle = 'def test_idle():\n    """Say nothing."""\n    pass\n'
    honest = "def test_sum():\n    # by hand\n\n    assert 1 + 1 == 2\n"
    path.write_text(idle + honest, "utf-8")
    assert functions(path) == [("test_idle", 2, True), ("test_sum", 2, False)]
    alone = ROOT / "kit" / "basics" / "alone.py"
    ask = ROOT / "kit" / "shop" / "one.py", ROOT / "kit" / "shop" / "two.py"
    texts = {alone: "HAIR = 1\n"} | dict.fromkeys(ask, "from kit.basics.alone import HAIR")
    assert too_short(alone, texts)
    assert not too_short(alone, texts | {ROOT / "kit" / "t.py": texts[ask[0]]})
    step = ROOT / "kit" / "forge" / "steps" / "alone.py"
    assert not too_short(step, {step: texts[alone]})


def test_no_two_files_of_tests_have_the_same_name():
    """Of two with one name pytest would read the first only: folders are no packages."""
    names = Counter(path.name for path in (ROOT / "tests").rglob("test_*.py"))
    assert [name for name, count in names.items() if count > 1] == []


def bare_numbers(text):
    """Give the constants that are numbers and have no word beside them, nor a claim."""
    lines = text.splitlines()
    held = set(
        re.findall(r'"(\w+)"', "".join(re.findall(r"holds=\(.*?\),\n", text, re.DOTALL)))
    )
    for node in ast.parse(text).body:
        if not isinstance(node, ast.Assign) or not numbers_only(node.value):
            continue
        names = [part.id for part in ast.walk(node) if isinstance(part, ast.Name)]
        if held.issuperset(names):
            continue
        above = node.lineno - 2
        while above > 0 and re.match(r"_?[A-Z]", lines[above]):
            above -= 1
        if not any("#" in line for line in lines[max(above, 0) : node.end_lineno]):
            yield lines[node.lineno - 1]


def numbers_only(node):
    kinds = (ast.Constant, ast.Tuple, ast.List, ast.Dict, ast.BinOp, ast.UnaryOp)
    kinds += (ast.operator, ast.unaryop, ast.expr_context)
    parts = [part for part in ast.walk(node) if isinstance(part, ast.Constant)]
    numbers = [part for part in parts if isinstance(part.value, (int, float))]
    return bool(numbers) and all(isinstance(part, kinds) for part in ast.walk(node))


def test_a_number_has_its_source_or_unit_or_is_called_ours():
    bare = breaking(lambda path: list(bare_numbers(path.read_text("utf-8"))))
    assert {name: what for name, what in bare.items() if name.startswith("kit/")} == {}


def test_a_bare_number_is_seen():
    said = "GAS = 8.3  # CODATA\n\n# From memory\nA = (1, 2)\nB = -3.0\n"
    assert list(bare_numbers(said)) == []
    assert list(bare_numbers("GAS = 8.3\nA = {'x': (1, 2 / 3)}")) == [
        "GAS = 8.3",
        "A = {'x': (1, 2 / 3)}",
    ]

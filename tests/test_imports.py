"""The order of the rooms: the core knows nothing of notebooks, steps nothing of views."""

import ast
import json
import subprocess
import sys
from pathlib import Path

import pytest

import kit

KIT = Path(kit.__path__[0])
OUTSIDE = {
    "views",
    "launch",
    "paper",
    "film",
    "command",
    "show",
    "__main__",
}  # all else is the core
NOTEBOOK = ("ipywidgets", "anywidget", "matplotlib", "jupyterlab", "IPython")
CORE_NEEDS = {"numpy", "PIL", "pydantic"}

BLOCKED = """
import importlib, json, sys
asked = json.loads(sys.argv[1])

class Wall:
    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] in asked["blocked"]:
            raise ModuleNotFoundError(f"{name} is blocked")

sys.meta_path.insert(0, Wall())
for name in asked["modules"]:
    importlib.import_module(name)
import kit
for name in kit.__all__:
    getattr(kit, name)
from kit.course.lessons import cut
from kit.section.picture import encode
drawn = cut.scene(layers=9, thickness=4, angle=30, position=50)
print(len(encode(drawn.image)), sorted(set(sys.modules) & set(asked["blocked"])))
"""


def parts(path):
    return path.relative_to(KIT).with_suffix("").parts


def dotted(path):
    return ".".join(("kit", *parts(path))).removesuffix(".__init__")


FILES = sorted(KIT.rglob("*.py"))
CORE = [path for path in FILES if parts(path)[0] not in OUTSIDE]
each_core_file = pytest.mark.parametrize("path", CORE, ids=dotted)


def outside(*rooms):
    """Parametrise over all files but those of some rooms."""
    files = [path for path in FILES if parts(path)[0] not in rooms]
    return pytest.mark.parametrize("path", files, ids=dotted)


def imported(path):
    """Every module that a file imports anywhere, as dotted names."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are written out in full"
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def mentioned(path):
    """Every package that a file imports or names in a string of its own."""
    tree = ast.parse(path.read_text("utf-8"))
    words = [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    ]
    return {name.partition(".")[0] for name in (*imported(path), *words)}


def walled(asked):
    """Import modules in a Python that has some packages blocked."""
    command = [sys.executable, "-c", BLOCKED, json.dumps(asked)]
    return subprocess.run(
        command, capture_output=True, text=True, check=False, cwd=KIT.parent, timeout=120
    )


def test_the_rooms_are_there():
    names = {dotted(path) for path in CORE}
    assert {
        "kit",
        "kit.forge.billet",
        "kit.forge.steps.fold",
        "kit.section.trace",
        "kit.course.lessons.cut",
    } < names
    assert {dotted(path) for path in FILES} - names > {
        "kit.course.views.base",
        "kit.launch",
    }


def test_every_public_name_is_told_of():
    assert [name for name in kit.__all__ if f"`{name}`" not in kit.__doc__] == []


def test_the_core_runs_where_no_notebook_is():
    asked = {"blocked": NOTEBOOK, "modules": [dotted(path) for path in CORE]}
    run = walled(asked)
    assert run.returncode == 0, run.stderr
    count, loaded = run.stdout.split(maxsplit=1)
    assert int(count) > 5000
    assert loaded.strip() == "[]"


def test_the_wall_of_that_check_holds():
    asked = {"blocked": NOTEBOOK, "modules": ["kit.course.views.base"]}
    run = walled(asked)
    assert run.returncode == 1
    assert "is blocked" in run.stderr


@each_core_file
def test_the_core_asks_for_three_packages_only(path):
    tops = {name.partition(".")[0] for name in imported(path)}
    assert tops - set(sys.stdlib_module_names) - {"kit"} <= CORE_NEEDS


@each_core_file
def test_the_core_takes_nothing_from_views_or_the_launcher(path):
    rooms = {name.split(".")[1] for name in imported(path) if name.startswith("kit.")}
    assert not rooms & OUTSIDE


@outside("views", "launch")
def test_widgets_live_in_views(path):
    assert not mentioned(path) & {"ipywidgets", "anywidget"}


@outside("views", "paper", "launch")
def test_matplotlib_lives_on_paper(path):
    assert "matplotlib" not in mentioned(path)


@pytest.mark.parametrize("path", sorted(KIT.glob("steps/*.py")), ids=dotted)
def test_a_step_knows_only_what_a_step_is(path):
    rooms = {name.split(".")[1] for name in imported(path) if name.startswith("kit.")}
    assert rooms <= {"declare", "errors", "steps", "units"}


@outside("lessons", "questions", "homework", *OUTSIDE)
def test_lessons_are_read_by_lessons_and_views_alone(path):
    assert not any(name.startswith("kit.course.lessons") for name in imported(path))

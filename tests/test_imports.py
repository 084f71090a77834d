"""The order of the rooms: one list, and every import goes down it.

    basics < forge < section < metal < shop < course < classroom < launch

Nothing imports from a room to its right, not for types and not inside a function, and
no two modules need each other. The models need three packages only.
"""

import ast
import importlib
import inspect
import json
import re
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

import kit

KIT = Path(kit.__path__[0])
ORDER = (
    "basics",
    "forge",
    "section",
    "metal",
    "shop",
    "course",
    "classroom",
    "launch",
    "__main__",
)
MODELS = ("basics", "forge", "section")
NOTEBOOK = ("ipywidgets", "anywidget", "matplotlib", "jupyterlab", "IPython")
NEEDS = {"numpy", "PIL", "pydantic"}

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
from kit.course.lessons.cut import CutLesson
from kit.section.picture import encode
drawn = CutLesson.scene(layers=9, thickness=4, angle=30, position=50)
print(len(encode(drawn.image)), sorted(set(sys.modules) & set(asked["blocked"])))
"""


def dotted(path):
    parts = path.relative_to(KIT).with_suffix("").parts
    return ".".join(("kit", *parts)).removesuffix(".__init__")


FILES = {dotted(path): path for path in sorted(KIT.rglob("*.py"))}


def room(name):
    """Give the room of a module; nothing for the front door itself."""
    return name.split(".")[1] if "." in name else ""


@cache
def imported(path):
    """Every module that a file imports anywhere, as dotted names."""
    return tuple(_imported(path))


def ours(name):
    """Give what a module of the kit imports of the kit."""
    return [other for other in imported(FILES[name]) if other.startswith("kit.")]


def _imported(path):
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are written out in full"
            whole = {f"{node.module}.{alias.name}" for alias in node.names}
            yield from whole & set(FILES)
            if not whole <= set(FILES):
                yield node.module


@cache
def packages(path):
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
    return subprocess.run(
        [sys.executable, "-c", BLOCKED, json.dumps(asked)],
        capture_output=True,
        text=True,
        check=False,
        cwd=KIT.parent,
        timeout=240,
    )


def test_the_rooms_are_those_of_the_list():
    doors = {path.name for path in KIT.iterdir() if path.is_dir()} - {"__pycache__"}
    assert doors | {"__main__"} == set(ORDER)
    assert len(doors) <= 9
    assert {path.name for path in KIT.glob("*.py")} == {"__init__.py", "__main__.py"}


def test_every_import_goes_down_the_list():
    up = [
        (name, other)
        for name in FILES
        for other in ours(name)
        if room(name) and room(other) in ORDER[ORDER.index(room(name)) + 1 :]
    ]
    assert up == []


def test_no_two_modules_need_each_other():
    needs = {
        name: {other for other in imported(path) if other in FILES} - {name, "kit"}
        for name, path in FILES.items()
    }
    while free := {name for name, others in needs.items() if not others}:
        needs = {name: needs[name] - free for name in needs.keys() - free}
    assert sorted(needs) == []  # those in a circle, and those that need them


def test_the_models_need_three_packages():
    models = [path for name, path in FILES.items() if room(name) in MODELS]
    tops = {other.partition(".")[0] for path in models for other in imported(path)}
    assert tops - set(sys.stdlib_module_names) - {"kit"} <= NEEDS


@pytest.mark.parametrize(
    ("kinds", "homes"),
    [
        ({"ipywidgets", "anywidget"}, {"views", "launch"}),
        ({"matplotlib"}, {"views", "paper", "launch"}),
    ],
)
def test_widgets_live_in_views_and_matplotlib_on_paper(kinds, homes):
    elsewhere = [name for name in FILES if not homes & set(name.split("."))]
    assert [name for name in elsewhere if packages(FILES[name]) & kinds] == []


def test_a_step_knows_only_what_a_step_is():
    steps = [name for name in FILES if name.startswith("kit.forge.steps")]
    known = {other for name in steps for other in ours(name)}
    assert [one for one in known if room(one) != "basics" and ".steps" not in one] == []


def test_every_public_name_is_told_of():
    kinds = {kind.__name__ for kind in kit.STEPS.values()}
    assert kinds <= set(kit.__all__)
    told = {name for name in kit.__all__ if f"`{name}`" in kit.__doc__}
    assert set(kit.__all__) - kinds == told - kinds


def test_the_core_runs_where_no_notebook_is():
    core = [name for name in FILES if room(name) in ORDER[:6] and ".views" not in name]
    run = walled({"blocked": NOTEBOOK, "modules": core})
    assert run.returncode == 0, run.stderr
    count, loaded = run.stdout.split(maxsplit=1)
    assert int(count) > 5000
    assert loaded.strip() == "[]"


def test_the_wall_of_that_check_holds():
    run = walled({"blocked": NOTEBOOK, "modules": ["kit.course.views.base"]})
    assert run.returncode == 1
    assert "is blocked" in run.stderr


# Much of it runs outside pytest: tests/bench, tests/engines, tests/grader, .ci.
WRITTEN = [
    *(KIT.parent / "tests").rglob("*.py"),
    *(path for kind in ("*.md", ".ci/*", "binder/*") for path in KIT.parent.glob(kind)),
]
IN_WORDS = re.compile(r"\bfrom (kit[\w.]*) import (\w+(?:, \w+)*)")


def gone(text, *, code):
    """Give what is taken from the kit, or given to it by name, that it has no place for."""
    if code:
        tree = ast.parse(text)
        known = dict(brought(tree))
        return [*(name for name, one in known.items() if one is None), *asked(tree, known)]
    return [
        f"{module}.{name}"
        for line in re.findall(" -c .*", text)
        for module, names in IN_WORDS.findall(line)
        for name in names.split(", ")
        if taken(module, name) is None
    ]


@cache
def taken(module, name):
    """Give what an import takes: a name of a module, or a module in it; None if gone."""
    try:
        whole = importlib.import_module(module)
        if not hasattr(whole, name):
            importlib.import_module(f"{module}.{name}")
        return getattr(whole, name)
    except ModuleNotFoundError:
        return None


def brought(tree):
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("kit"):
            for alias in node.names:
                yield alias.asname or alias.name, taken(node.module, alias.name)
        elif isinstance(node, ast.Import):
            for alias in node.names:
                if alias.name.startswith("kit."):
                    yield alias.name, taken(*alias.name.rsplit(".", 1))


def asked(node, known):
    """Give attributes and arguments, of what a file brought, that are not there."""
    if isinstance(node, (ast.FunctionDef, ast.Lambda)):
        own = {one.arg for one in ast.walk(node.args) if isinstance(one, ast.arg)}
        own |= {
            one.id
            for one in ast.walk(node)
            if isinstance(one, ast.Name) and isinstance(one.ctx, ast.Store)
        }
        known = {name: one for name, one in known.items() if name not in own}
    if isinstance(node, ast.Attribute):
        whole = meant(node.value, known)
        if inspect.ismodule(whole) and not hasattr(whole, node.attr):
            yield f"{whole.__name__}.{node.attr}"
    if isinstance(node, ast.Call) and inspect.isfunction(what := meant(node.func, known)):
        takes = inspect.signature(what).parameters.values()
        names = {None, *(one.name for one in takes)}
        if not any(one.kind is one.VAR_KEYWORD for one in takes):
            yield from (
                f"{what.__qualname__}({one.arg}=)"
                for one in node.keywords
                if one.arg not in names
            )
    for child in ast.iter_child_nodes(node):
        yield from asked(child, known)


def meant(node, known):
    """Give what a name, or names with dots, stand for, as far as the kit says."""
    if isinstance(node, ast.Name):
        return known.get(node.id)
    if isinstance(node, ast.Attribute):
        whole = meant(node.value, known)
        if inspect.ismodule(whole) or inspect.isclass(whole):
            return getattr(whole, node.attr, None)
    return None


def test_what_is_named_of_the_kit_is_there():
    lost = {
        str(path.relative_to(KIT.parent)): names
        for path in WRITTEN
        if (names := gone(path.read_text("utf-8"), code=path.suffix == ".py"))
    }
    assert lost == {}


def test_what_is_gone_is_named():
    code = """
import kit.section.trails
from kit.section import half, picture
from kit.section.picture import encode, encoded as other
half.quarter
encode(1, moving=True)
picture.encode(1, quality=3)
def test(half):
    half.anything
"""
    assert gone(code, code=True) == [
        "kit.section.trails",
        "other",
        "kit.section.half.quarter",
        "encode(quality=)",
    ]
    words = "python -c 'from kit.course.heads import first_forging, heads_of'"
    assert gone(words, code=False) == ["kit.course.heads.heads_of"]

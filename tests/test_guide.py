"""The guide's recipe for a step works as it is written, and its table is as declared."""

import os
import re
import shutil
import subprocess
import sys

import pytest
from guide import GUIDE, recipe, with_table

pytestmark = pytest.mark.gate

ROOT = GUIDE.parent
STEP, TRUTH = recipe("Add a forging step").items()
DECLARED = ("order", "keeps", "takes", "done_at", "nothing")


def run(folder, *words):
    """Run Python in a copy of the kit, in which nothing of this one is seen."""
    return subprocess.run(
        [sys.executable, *words],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(folder)},
        capture_output=True,
        text=True,
        check=False,
        timeout=240,
    )


@pytest.fixture(scope="module")
def copy(tmp_path_factory):
    """Copy the kit and the laws, and do what the guide says."""
    folder = tmp_path_factory.mktemp("copy")
    leave = shutil.ignore_patterns("__pycache__", "*.js", "*.css")
    shutil.copytree(ROOT / "kit", folder / "kit", ignore=leave)
    (folder / "tests").mkdir()
    shutil.copy(GUIDE, folder)
    for name in ("steps.py", "test_laws.py", "guide.py"):
        shutil.copy(ROOT / "tests" / name, folder / "tests")
    for path, text in (STEP, TRUTH):
        (folder / path).write_text(text, "utf-8")
    return folder


def test_the_table_is_as_the_steps_declare():
    text = GUIDE.read_text("utf-8")
    assert text == with_table(text), "run: python -m tests.guide"


def test_the_recipe_for_a_step_keeps_all_laws(copy):
    written = run(copy, "-m", "tests.guide")
    assert written.returncode == 0, written.stderr
    assert "\n| shear |" in (copy / "DEVELOPERS.md").read_text("utf-8")
    quiet = (
        "-m",
        "pytest",
        "-q",
        "-c",
        os.devnull,
        "--rootdir=.",
        "-p",
        "no:cacheprovider",
    )
    found = run(copy, *quiet, "tests/test_laws.py", "tests/test_shear.py")
    assert found.returncode == 0, found.stdout
    by_name = run(copy, *quiet, "tests/test_laws.py", "-k", "shear or Shear")
    assert int(re.search(r"(\d+) passed", by_name.stdout)[1]) >= 13  # laws that tried it


def test_a_recipes_step_is_public_and_goes_through_a_line(copy):
    found = run(
        copy,
        "-c",
        "from kit import Billet, Shear, Stack\n"
        "from kit.forge.recipes.shorthand import from_line, to_line\n"
        "bar = Billet(source=Stack.alternate('1084', '15N20', pieces=3, thickness=4))\n"
        "bar = bar.then(Shear(push=7))\n"
        "assert from_line(to_line(bar)) == bar\n",
    )
    assert found.returncode == 0, found.stderr


@pytest.mark.parametrize("name", DECLARED)
def test_a_part_that_was_forgotten_is_named(copy, name):
    path, text = STEP
    less, times = re.subn(rf"    {name}\b.*\n", "", text)
    assert times == 1
    (copy / path).write_text(less, "utf-8")
    try:
        found = run(copy, "-c", "import kit.forge.steps")
    finally:
        (copy / path).write_text(text, "utf-8")
    assert f"TypeError: Shear must declare {name}: see Step." in found.stderr

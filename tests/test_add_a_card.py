"""DEVELOPERS.md's *Add a question card* works as written: its one file is all it takes."""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from guide import recipe

pytestmark = pytest.mark.gate

ROOT = Path(__file__).parents[1]
LAWS = "tests/test_questions.py"
QUIETLY = ("-q", "-n", "0", "-p", "no:cacheprovider")


@pytest.fixture(scope="module")
def house(tmp_path_factory):
    """Copy the kit and the laws of cards, and paste the recipe's block."""
    there = tmp_path_factory.mktemp("house")
    shutil.copytree(
        ROOT / "kit", there / "kit", ignore=shutil.ignore_patterns("__pycache__")
    )
    (there / "tests").mkdir()
    shutil.copy(ROOT / LAWS, there / LAWS)
    ((name, block),) = recipe("Add a question card").items()
    path = there / name
    path.write_text(block, "utf-8")
    return there, path


def laws(there):
    """Run the laws of cards on the copy, for the new card and for all together."""
    run = subprocess.run(
        [sys.executable, "-m", "pytest", *QUIETLY, LAWS, "-k", "99 or cards or folder"],
        capture_output=True,
        text=True,
        check=False,
        cwd=there,
        env={**os.environ, "PYTHONPATH": str(there)},
        timeout=300,
    )
    return run.stdout + run.stderr


def test_the_pasted_card_keeps_every_law(house):
    there, _path = house
    told = laws(there)
    assert "failed" not in told, told
    assert int(re.search(r"(\d+) passed", told)[1]) >= 11, told


def test_a_card_that_forgets_its_parts_is_named(house):
    there, path = house
    broken = path.read_text("utf-8")
    for part, wrong in (
        (r"by_hand=\{.*?\},", "by_hand={},"),
        (r'found_by=".*?"', 'found_by="heavy lump zebra"'),
        (r'question=".*?"', 'question="Do you fold it hundreds of times?"'),
        (r"\d+ g\",", '9 kg",'),
    ):
        broken, count = re.subn(part, wrong, broken)
        assert count == 1, part
    path.write_text(broken, "utf-8")
    told = laws(there)
    for law in ("worked_out_by_hand", "three_words", "no_two_cards", "can_be_read"):
        assert re.search(rf"FAILED .*{law}", told), told

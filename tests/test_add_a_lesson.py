"""DEVELOPERS.md's *Add a lesson* works as written: its class is all that the laws need."""

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
LAWS = (
    "test_lesson_laws", "test_answer_laws", "test_workings", "test_faces_told",
    "test_second_face", "test_as_code", "test_declared_alike", "test_map",
)  # fmt: skip
QUIETLY = ("-q", "-n", "0", "-p", "no:cacheprovider", "-m", "")


@pytest.fixture(scope="module")
def house(tmp_path_factory):
    """Copy kit, pages and laws, and paste the recipe's block."""
    there = tmp_path_factory.mktemp("house")
    for name in ("kit", "notebooks", "tests"):
        hidden = shutil.ignore_patterns("__pycache__", "bench", "browser", "hostile")
        shutil.copytree(ROOT / name, there / name, ignore=hidden)
    for name in ("README.md", "pyproject.toml"):
        shutil.copy(ROOT / name, there)
    ((name, block),) = recipe("Add a lesson").items()
    path = there / name
    path.write_text(block, "utf-8")
    return there, path


def laws(there, only="12 or Upset"):
    """Run the laws of lessons on the copy, for the new one alone."""
    run = subprocess.run(
        [
            sys.executable, "-m", "pytest", *QUIETLY,
            *(f"tests/{name}.py" for name in LAWS), "-k", only,
        ],
        capture_output=True,
        text=True,
        check=False,
        cwd=there,
        env={**os.environ, "PYTHONPATH": str(there)},
        timeout=400,
    )  # fmt: skip
    return run.stdout + run.stderr


def test_the_pasted_lesson_keeps_every_law_and_only_its_page_is_missed(house):
    there, path = house
    told = laws(there)
    assert int(re.search(r"(\d+) passed", told)[1]) >= 20, told
    missed = set(re.findall(r"^FAILED tests/(\w+)", told, re.MULTILINE))
    assert missed == {"test_map"}, told  # its notebook is still to be written
    broken = path.read_text("utf-8")
    for part, wrong in (
        ('    main: ClassVar = "length"\n', ""),
        ('"t": 10.0, "L": 90.0, "l": 40.0', '"t": 20.0, "L": 100.0, "l": 64.0'),
    ):
        assert part in broken
        broken = broken.replace(part, wrong)
    path.write_text(broken, "utf-8")
    told = laws(there)
    for law in ("names_the_slider", "fit_to_be_asked|fit_to_ask|apart"):
        assert re.search(rf"FAILED .*({law})", told), told

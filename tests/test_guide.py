"""The guide's recipes work as they are written, and its table is as declared.

All three are pasted into one copy of the kit, and the laws are run there twice: on what
was pasted, and on the same with its parts left out or wrong. Nothing else is needed but
the page of the new lesson, which is still to be written.
"""

import os
import re
import runpy
import shutil
import subprocess
import sys

import pytest
from guide import GUIDE, recipe, with_table

pytestmark = pytest.mark.gate

ROOT = GUIDE.parent
STEP, TRUTH = recipe("Add a forging step").items()
CARD, WORDS = recipe("Add a question card").items()
LESSON, TOLD = recipe("Add a lesson").items()
NUMBER = re.search(r"^\[(\d+)\]", WORDS[1], re.MULTILINE)[
    1
]  # that the card of the guide has
DECLARED = ("order", "keeps", "takes", "done_at", "nothing")
OF_STEPS = ("test_laws", "test_shear")
OF_CARDS = ("test_questions",)
OF_LESSONS = (
    "test_lesson_laws", "test_answer_laws", "test_workings", "test_faces_told",
    "test_second_face", "test_as_code", "test_declared_alike", "test_map",
)  # fmt: skip
# What is run of each file of laws on all that was pasted.
TRIED = {
    OF_STEPS: "test",
    OF_CARDS: f"{NUMBER} or cards or folder",
    OF_LESSONS: "12 or Upset",
}
BROKEN = (  # which part, what it becomes, and the law that must see it
    (CARD, r"by_hand=\{.*?\},", "by_hand={},", "worked_out_by_hand"),
    (WORDS, "found_by: .*", "found_by: many layers folded", "three_words"),
    (WORDS, "question: .*", "question: Do you fold it hundreds of times?", "no_two_cards"),
    (WORDS, r"\* \d+ g", "* 9 kg", "can_be_read"),
    (LESSON, r'    main: ClassVar = "length"\n', "", "names_the_slider"),
    (
        LESSON,
        '"t": 10.0, "L": 90.0, "l": 40.0',
        '"t": 20.0, "L": 100.0, "l": 64.0',
        "fit_to_be_asked|fit_to_ask|apart",
    ),
)


def run(folder, *words):
    """Run Python in the copy of the kit, in which nothing of this one is seen."""
    return subprocess.run(
        [sys.executable, *words],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(folder)},
        capture_output=True,
        text=True,
        check=False,
        timeout=400,
    )


def laws(folder, tried):
    """Run laws in the copy: of each group of files what its words choose. Give lines."""
    names = [name for group in tried for name in group]
    chosen = " or ".join(
        f"({' or '.join(f'{name}.py' for name in group)}) and ({words})"
        for group, words in tried.items()
    )
    quietly = ("-n", "0", "-p", "no:cacheprovider", "-m", "", "-rA", "--no-header")
    files = [f"tests/{name}.py" for name in names]
    ran = run(folder, "-m", "pytest", *quietly, *files, "-k", chosen)
    return re.findall(r"^(PASSED|FAILED|ERROR) (.*)", ran.stdout, re.MULTILINE), ran.stdout


@pytest.fixture(scope="module")
def copy(tmp_path_factory):
    """Copy the kit and the laws, and do what the guide says."""
    folder = tmp_path_factory.mktemp("copy")
    leave = shutil.ignore_patterns("__pycache__", "bench", "browser", "hostile")
    for name in ("kit", "notebooks", "tests"):
        shutil.copytree(ROOT / name, folder / name, ignore=leave)
    for name in ("README.md", "pyproject.toml", GUIDE.name):
        shutil.copy(ROOT / name, folder)
    for path, text in (STEP, TRUTH, CARD, WORDS):
        (folder / path).write_text(text, "utf-8")
    listed = run(folder, "-m", "kit.launch.list_own")
    assert listed.returncode == 0, listed.stderr
    for path, text in (LESSON, TOLD):  # whose page is still to be written
        (folder / path).write_text(text, "utf-8")
    return folder


@pytest.fixture(scope="module")
def told(copy):
    """Run all laws on what was pasted."""
    return laws(copy, TRIED)


@pytest.mark.parametrize(
    ("files", "names", "least"),
    [
        (OF_STEPS, "[sS]hear", 13),
        (OF_CARDS, f"{NUMBER}|cards|folder", 11),
        (OF_LESSONS, "12|[uU]pset", 20),
    ],
    ids=["step", "card", "lesson"],
)
def test_what_was_pasted_keeps_all_laws(told, files, names, least):
    """A new lesson's page is still to be written: that alone is missed."""
    lines, whole = told
    ours = [line for line in lines if re.match(rf"tests/({'|'.join(files)})\.py", line[1])]
    passed = [law for how, law in ours if how == "PASSED"]
    assert sum(bool(re.search(names, law.partition("::")[2])) for law in passed) >= least
    missed = {law for how, law in ours if how != "PASSED" and "/test_map.py" not in law}
    assert not missed, whole
    page = [law for how, law in ours if how == "FAILED" and "/test_map.py" in law]
    assert bool(page) == (files is OF_LESSONS)


def test_parts_that_were_left_out_or_are_wrong_are_named(copy, told):
    assert told, "the whole ones first"
    texts = dict((CARD, WORDS, LESSON))
    for (path, _), part, wrong, _law in BROKEN:
        texts[path], count = re.subn(part, wrong, texts[path])
        assert count == 1, part
    for path, text in texts.items():
        (copy / path).write_text(text, "utf-8")
    of_cards, of_lessons = (
        " or ".join(law for one, *_, law in BROKEN if one in pasted).replace("|", " or ")
        for pasted in ((CARD, WORDS), (LESSON,))
    )
    lines, whole = laws(
        copy,
        {
            OF_CARDS: f"({of_cards}) and ({NUMBER} or cards)",
            OF_LESSONS: f"({of_lessons}) and (12 or Upset)",
        },
    )
    failed = [law for how, law in lines if how == "FAILED"]
    for *_, law in BROKEN:
        assert any(re.search(law, one) for one in failed), whole


def test_the_table_is_as_the_steps_declare():
    text = GUIDE.read_text("utf-8")
    assert text == with_table(text), "run: python -m tests.guide"


def test_a_recipes_step_is_public_goes_through_a_line_and_into_the_table(copy):
    found = run(
        copy,
        "-c",
        "from runpy import run_module\n"
        "from kit import Billet, Shear, Stack\n"
        "from kit.shop.recipes.shorthand import from_line, to_line\n"
        "bar = Billet(source=Stack.alternate('1084', '15N20', pieces=3, thickness=4))\n"
        "bar = bar.then(Shear(push=7))\n"
        "assert from_line(to_line(bar)) == bar\n"
        "run_module('tests.guide', run_name='__main__')\n",
    )
    assert found.returncode == 0, found.stderr
    assert "\n| shear |" in (copy / GUIDE.name).read_text("utf-8")


@pytest.mark.parametrize("name", DECLARED)
def test_a_part_that_was_forgotten_is_named(tmp_path, name):
    less, times = re.subn(rf"    {name}\b.*\n", "", STEP[1])
    assert times == 1
    (tmp_path / "shear.py").write_text(less, "utf-8")
    with pytest.raises(TypeError, match=rf"^Shear must declare {name}: see Step\.$"):
        runpy.run_path(str(tmp_path / "shear.py"))

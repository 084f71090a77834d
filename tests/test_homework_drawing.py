"""Five thousand invented students: papers are fit, spread out, and always the same."""

import hashlib
import itertools
import math
import re
import subprocess
import sys
from collections import Counter

import pytest

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.classroom.homework.paper import draw, drawn, normalised
from kit.classroom.homework.sets import SETS, homework
from kit.course.check import RIGHT, WRONG

pytestmark = pytest.mark.gate

STUDENTS = 1000  # for each of five sets
each_set = pytest.mark.parametrize("code", SETS)


@pytest.fixture(scope="module")
def class_of():
    made = {}

    def papers(code):
        if code not in made:
            made[code] = [
                draw(SETS[code], "FORGE-A", f"Invented {number}")
                for number in range(STUDENTS)
            ]
        return made[code]

    return papers


@each_set
def test_papers_are_spread_out_and_seldom_redrawn(code, class_of):
    papers = class_of(code)
    distinct = {tuple(paper.values.values()) for paper in papers}
    assert len(distinct) > 0.9 * STUDENTS
    assert max(paper.attempts for paper in papers) < 60
    for name, sizes in SETS[code].sizes.items():
        met = Counter(paper.values[name] for paper in papers)
        assert set(met) == {float(size) for size in sizes}, name


@each_set
def test_every_slip_is_known_for_what_it_is(code, class_of):
    """Each slip's number, as it would be typed with three figures, on every paper."""
    for paper, part in itertools.product(class_of(code), SETS[code].parts):
        right = part.answer(paper.values)
        assert part.judge(paper.values, right).outcome == RIGHT
        for slip, value in part.slip_values(paper.values).items():
            if not math.isfinite(value):
                continue
            typed = value if part.answers.unit == "" else float(f"{value:.4g}")
            found = part.judge(paper.values, typed)
            assert found.outcome == WRONG, (paper.student, part.number, slip)
            codes = found.code.split("+")
            assert slip in codes
            for pair in itertools.combinations(codes, 2):
                assert frozenset(pair) in part.joint, (part.number, codes)


def test_joint_hints_are_rare(class_of):
    """The curriculum says about 5 % of papers, in H2.3 and H2.4."""
    for number in (3, 4):
        part = SETS["H2"].part(number)
        joint = 0
        for paper in class_of("H2"):
            values = part.slip_values(paper.values)
            joint += any(
                not part.answers.apart(one, other)
                for one, other in itertools.combinations(values.values(), 2)
            )
        assert joint < 0.25 * STUDENTS


@each_set
def test_no_hint_gives_the_answer(code, class_of):
    """The worked example is of other numbers; its last line is blank."""
    for paper in class_of(code)[:100]:
        for part in SETS[code].parts:
            right = part.answer(paper.values)
            shown = part.written(right)
            for slip in (*part.slip_values(paper.values).values(), right * 1.37 + 3):
                if not math.isfinite(slip) or part.options:
                    continue
                found = part.judge(paper.values, slip)
                for tries in (1, 2, 3, 4):
                    told = part.words(found, paper.values, tries=tries)
                    if part.answers.unit:  # a bare count may well stand in a sentence
                        leak = re.search(rf"(?<![\d.]){re.escape(shown)}", told)
                        assert not leak, (part.number, tries, told)
                    assert told.startswith("Not yet")
                assert told.endswith("and why?)")


def test_the_same_name_in_another_coat_is_the_same_paper():
    plain = draw(SETS["H2"], "FORGE-A", "Student One").values
    for name in ("  STUDENT   one ", "student\u00a0one", "Ｓtudent One"):
        assert draw(SETS["H2"], "FORGE-A", name).values == plain
    assert draw(SETS["H2"], "FORGE-B", "Student One").values != plain
    assert draw(SETS["H2"], "FORGE-A", "Student Two").values != plain
    assert draw(SETS["H2"], "FORGE-A", "Student One", redraw=1).values != plain


def test_names_of_the_world_are_one_name_however_they_are_composed():
    assert normalised("Ångström") == normalised("A\u030angstro\u0308m")
    assert normalised("STRASSE") == normalised("straße")


def test_values_come_from_sha_256_as_written_down():
    """By hand: the digest as one number, read off in mixed bases."""
    sizes = {"a": (1, 2, 3), "b": (10, 20, 30, 40, 50)}
    text = b"FORGE-A|H1|student one|0"
    number = int(hashlib.sha256(text).hexdigest(), 16)
    assert drawn(sizes, "FORGE-A", "H1", " Student ONE", 0) == {
        "a": sizes["a"][number % 3],
        "b": sizes["b"][number // 3 % 5],
    }


def test_another_python_draws_the_same_paper():
    """Python's own `hash()` would change with its seed."""
    words = (
        "from kit.classroom.homework.paper import draw;"
        "from kit.classroom.homework.sets import SETS;"
        "print(draw(SETS['H3'], 'FORGE-A', 'Student One').values)"
    )
    told = {
        subprocess.run(
            [sys.executable, "-c", words],
            env={"PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
            timeout=60,
        ).stdout
        for seed in ("1", "2")
    }
    assert told == {f"{draw(SETS['H3'], 'FORGE-A', 'Student One').values}\n"}


@pytest.mark.parametrize("units", Units)
def test_questions_say_their_values_in_every_unit(units):
    for task in SETS.values():
        for question in draw(task, "FORGE-A", "Student One").questions(units):
            assert question.strip()
            assert "{" not in question
            assert "nan" not in question
            assert units is Units.MM or not re.search(r"\d mm\b", question)


@pytest.mark.parametrize(
    ("course", "student", "redraw"),
    [
        ("", "Student One", 0),
        ("A|B", "Student One", 0),
        ("A", "   ", 0),
        ("A", "two\nlines", 0),
        ("A", "x" * 81, 0),
        ("A", 7, 0),
        (None, "Student One", 0),
        ("A", "Student One", -1),
        ("A", "Student One", 1000),
        ("A", "Student One", True),
        ("A", "Student One", 0.5),
    ],
)
def test_names_that_can_be_none(course, student, redraw):
    with pytest.raises(KitError, match=r"\.$") as refused:
        draw(SETS["H1"], course, student, redraw)
    assert str(refused.value).count("\n") == 0


def test_there_are_five_sets():
    assert list(SETS) == ["H1", "H2", "H3", "H4", "H5"]
    assert [task.marks for task in SETS.values()] == [7, 8, 8, 7, 8]
    with pytest.raises(KitError, match="H1, H2, H3, H4, H5"):
        homework("H6")
    with pytest.raises(KitError, match="parts 1 to 5"):
        SETS["H1"].part(6)

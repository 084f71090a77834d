"""The six-item quiz: three ways to code an answer, three fractions before and after."""

import json

import pytest
from drawn_class import quiz_sheets

from kit.basics.errors import KitError
from kit.classroom.homework import quiz
from kit.classroom.homework.quiz import gain, score_interval
from kit.classroom.homework.quiz_items import INSIDE, ITEMS, OUTSIDE, RIGHT


def sheet(student, when, *answers):
    return quiz.Sheet(course="FORGE-A", student=student, when=when, answers=answers)


ALL_RIGHT = ("3", "4", "144", "2", "2", "4")
OUTSIDE_ONLY = ("1", "1", "13", "1", "3", "2")
INSIDE_ONLY = ("2", "2", "129", "3", "1", "3")


@pytest.mark.parametrize(
    ("answers", "code"),
    [(ALL_RIGHT, RIGHT), (OUTSIDE_ONLY, OUTSIDE), (INSIDE_ONLY, INSIDE)],
)
def test_each_item_can_be_answered_in_each_way(answers, code):
    assert sheet("One", "before", *answers).codes == (code,) * 6


def test_options_lead_to_the_lessons_ideas():
    """9 × 2⁴ = 144; a 4 mm layer at 30° is 8 mm wide: counted by hand."""
    for item in ITEMS:
        assert sum(option.code == RIGHT for option in item.options) == 1
        assert {option.code for option in item.options} == {RIGHT, INSIDE, OUTSIDE}
    counting = ITEMS[2]
    assert [int(o.words) for o in counting.options] == [
        o.idea.value(counting.given) for o in counting.options
    ]
    cut = [o.idea.value({"t": 4, "a": 30}) for o in ITEMS[0].options if o.idea]
    assert cut == pytest.approx([4, 2, 8])


@pytest.mark.parametrize(
    ("answer", "code"),
    [("144 layers", RIGHT), ("9", OUTSIDE), ("4", OUTSIDE), ("100", INSIDE), ("", ""),
     ("many", ""), ("1e9", "")],
)  # fmt: skip
def test_a_count_is_coded(answer, code):
    assert ITEMS[2].code(answer) == code


def test_choices_that_are_none():
    assert [ITEMS[0].code(answer) for answer in ("0", "5", "-1", "x")] == [""] * 4


def test_the_class_before_and_after():
    sheets = [
        sheet("One", "before", *OUTSIDE_ONLY),
        sheet("Two", "before", *INSIDE_ONLY),
        sheet("One", "after", *ALL_RIGHT),
        sheet(" ONE ", "after", *INSIDE_ONLY),  # the last one counts
        sheet("Two", "after", *ALL_RIGHT),
        sheet("Three", "after", *OUTSIDE_ONLY),  # who was not there before is left out
    ]
    report = quiz.report(sheets)
    assert report.both == 2
    assert report.before[0] == (0.0, 0.5, 0.5, 2)
    assert report.after[6] == (0.5, 0.5, 0.0, 12)
    rows = report.rows()
    assert rows[0][:-1] == ["1 slanted cut", "0 %", "50 %", "50 %", "50 %", "50 %", "0 %"]
    assert rows[0][-1].startswith("+50 (")
    assert rows[-1][0] == "all six"
    assert len(rows) == 7
    assert quiz.report([]).rows()[0][1:] == ["–"] * 7


def test_there_and_back(tmp_path):
    done = sheet("Student One", "after", *ALL_RIGHT)
    path = quiz.write(done, tmp_path / "quiz.json")
    again = quiz.read(path, "forge-a")
    assert (again.answers, again.when) == (done.answers, "after")
    with pytest.raises(KitError, match="another course"):
        quiz.read(path, "OTHER")


@pytest.mark.parametrize(
    "changes",
    [
        {"when": "during"},
        {"answers": ["1"] * 5},
        {"answers": ["1"] * 7},
        {"answers": ["1" * 41] + ["1"] * 5},
        {"answers": [1, 2, 3, 4, 5, 6]},
        {"student": ""},
        {"format": "pattern-welding homework"},
        {"version": "1"},
        {"more": 1},
    ],
)
def test_sheets_that_are_none(tmp_path, changes):
    path = quiz.write(sheet("One", "before", *ALL_RIGHT), tmp_path / "quiz.json")
    path.write_text(json.dumps({**json.loads(path.read_text("utf-8")), **changes}))
    with pytest.raises(KitError) as refused:
        quiz.read(path)
    assert str(refused.value).endswith(".")
    assert "\n" not in str(refused.value)


# How much a class gained: the interval of paired shares, against outside figures.
def test_newcombes_interval():
    # Complete response before and after consolidation therapy (Cavo et al., 2012): 59, 6,
    # 16, 80. Before minus after: -0.0621, 95 % from -0.1186 to -0.0046, as Newcombe's
    # square-and-add interval: read in the tests of the R package contingencytables
    # (chapter 8), which belongs to Fagerland, Lydersen, Laake, "Statistical Analysis of
    # Contingency Tables" (2017).
    assert gain(59, 6, 16, 80) == pytest.approx((0.0621, 0.0046, 0.1186), abs=5e-5)


def test_wilsons_interval_without_a_single_hit():
    # By hand, from memory of the formula: of none in n the upper end is z²/(n + z²).
    assert score_interval(0, 20) == pytest.approx((0, 1.96**2 / (20 + 1.96**2)), abs=1e-4)


@pytest.mark.parametrize("cells", [(1, 0, 0, 0), (0, 0, 9, 0), (0, 7, 0, 0), (3, 1, 4, 2)])
def test_it_stays_within_bounds_and_turns_round(cells):
    both, lost, won, neither = cells
    found, turned = gain(*cells), gain(both, won, lost, neither)
    assert -1 <= found.low <= found.gain <= found.high <= 1
    assert found.low < found.high
    assert turned == pytest.approx((-found.gain, -found.high, -found.low), abs=1e-12)


def test_the_report_gives_the_gain_of_each_question(tmp_path):
    quiz_sheets(tmp_path, [f"Student {number}" for number in range(8)])
    found = quiz.report(quiz.read_folder(tmp_path)[0])
    for one, before, after in zip(found.gains, found.before, found.after, strict=False):
        assert one.gain == pytest.approx(after.right - before.right)
    rows = found.rows()
    assert rows[0][-1] == found.gains[0].told
    assert rows[-1][-1] == ""


def test_it_is_written_with_its_signs():
    assert gain(10, 0, 0, 0).told == "0 (−28 to +28)"

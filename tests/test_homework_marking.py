"""The teacher's side: class table, what to teach again, clusters, key, CSV."""

import math
import re

import pytest

from kit.basics.errors import KitError
from kit.classroom.homework.class_table import class_table, ratio_name
from kit.classroom.homework.hand_in import HandIn, Row, Try, write
from kit.classroom.homework.marking import mark, mark_folder
from kit.classroom.homework.paper import draw
from kit.classroom.homework.ratings import rated, to_read
from kit.classroom.homework.sets import SETS
from kit.classroom.homework.talk import talk

COURSE = "FORGE-A"
TWO = "Two 4"  # folds that add give this one more layers than there are welds


def hand_in(student, *answers, code="H1", **more):
    """Make a hand-in from (part, text) in order."""
    tries = tuple(
        Try(order=order, part=part, text=text)
        for order, (part, text) in enumerate(answers, 1)
    )
    return HandIn(course=COURSE, set=code, student=student, answers=tries, **more)


def right(student, number, code="H1"):
    paper = draw(SETS[code], COURSE, student)
    return SETS[code].part(number).answer(paper.values)


def slip(student, number, idea, code="H1"):
    paper = draw(SETS[code], COURSE, student)
    return SETS[code].part(number).slip_values(paper.values)[idea]


def typed(value):
    return f"{value:.5g}" if value < 1e5 else f"{value:.0f}"


@pytest.fixture
def folder(tmp_path):
    """Hand in as the two students of the curriculum's table, and some trouble beside."""
    one, two = "One", TWO
    folds = draw(SETS["H1"], COURSE, two).values["k"]
    own = slip(two, 1, "FOLD_ADDS")
    thick = draw(SETS["H1"], COURSE, two).values["T"]
    files = {
        "one": hand_in(
            one,
            (1, typed(right(one, 1))),
            (2, typed(slip(one, 2, "LINES_NOT_BANDS"))),
            (2, typed(right(one, 2))),
            (3, typed(slip(one, 3, "UNIT_MM"))),
            (4, typed(right(one, 4))),
            (5, typed(slip(one, 5, "TAN_FOR_SIN"))),
            design={"pieces": 9, "folds": 1},
            words="Two of them can be.",
        ),
        "two": hand_in(
            two,
            (1, typed(own)),
            (2, typed(own - 2**folds + 1)),
            (3, typed(1000 * thick / own)),
            (4, typed(right(two, 4))),
            (5, typed(8 * right(two, 5))),
        ),
    }
    for name, done in files.items():
        write(done, tmp_path / f"{name}.json")
    return tmp_path


def test_the_table_of_the_curriculum(folder):
    marks = mark_folder(folder, COURSE).marks
    table = class_table(marks, "H1")
    assert table.head == ["Student", "1", "2", "3", "4", "5", "Design", "Written", "Score"]
    assert [one for one in table.head if len(one) < 4 and not one.isdigit()] == [], "words"
    one, two, first, common = table.rows
    design = "✓" if marks[0].design.passed else "not met"
    score = 3 + marks[0].design.passed
    assert one == [
        "One", "✓", "✓ 2nd", "3a", "✓", "5a", design, "to read", f"{score}/7",
    ]  # fmt: skip
    assert two == [
        TWO, "1c", "carried", "carried", "✓", "?", "–", "–", "3/7",
    ]  # fmt: skip
    assert first[:6] == ["right first time", "50 %", "0 %", "0 %", "100 %", "0 %"]
    assert common[1:6] == [
        "1c 50 %", "2c 50 %", "3a 50 %", "", "5a 50 %",
    ]  # fmt: skip
    assert table.clusters == ["Part 5, × 8: 1 answer"]
    reteach = next(line for line in table.reteach if "use tan for sin" in line)
    assert reteach.startswith("50 %: they use tan for sin")
    assert "(5a). Lesson 01, Where the cut meets the layers" in reteach
    assert "its vote: “The same block, cut at 60°." in reteach
    assert table.named == []


def test_a_class_of_one_is_told_in_counts_and_a_failed_design_says_what_was_asked(tmp_path):
    chosen = {"across": 16, "turn": 60, "hands": 2, "ground": 1}
    values = draw(SETS["H2"], COURSE, "Jo").values
    done = hand_in("Jo", code="H2", design=chosen)
    write(done, tmp_path / "jo.json")
    table = class_table(mark_folder(tmp_path).marks, "H2")
    assert table.rows[0][-3] == "not met"
    assert re.search(r"Jo: Lines at [\d.]+° to the bar", table.designs[0])
    assert f"{values['lean']:g}° is asked" in table.designs[0]
    told = [*table.reteach, *(cell for row in table.rows for cell in row)]
    assert [one for one in told if re.search(r"\d %", one)] == []


def test_a_teachers_ratings_count(folder):
    ratings = {("H1", "one", ""): rated("211")}
    marks = mark_folder(folder, ratings=ratings).marks
    assert class_table(marks, "H1").rows[0][7] == "4/6"
    plain = mark_folder(folder).marks[0]
    assert marks[0].score == pytest.approx(plain.score + 4 / 6)
    assert to_read(marks, "H1") == [("One", "Two of them can be.", ())]
    for keys in ("21", "213", "2111", "abc", "２１１"):
        with pytest.raises(KitError, match="Three keys"):
            rated(keys)


def test_how_near_a_prediction_came_counts_nothing(tmp_path):
    """The capstone's sheet gives the same score, met or missed."""
    for name, measured in (("Near", "254 mm"), ("Far", "190 mm")):
        row = Row(what="length", predicted="254 mm", measured=measured, why="scale")
        write(hand_in(name, code="H5", sheet=(row,)), tmp_path / f"{name}.json")
    marks = mark_folder(tmp_path).marks
    assert [one.score for one in marks] == [0, 0]


def test_trouble_is_told_in_one_line_each(folder):
    write(hand_in("  ONE "), folder / "zz again.json")
    write(
        HandIn(course="OTHER", set="H1", student="Three"),
        folder / "other.json",
    )
    write(HandIn(course=COURSE, set="H9", student="Four"), folder / "set.json")
    (folder / "broken.json").write_text("{")
    (folder / "notes.txt").write_text("not looked at")
    marked = mark_folder(folder, COURSE)
    assert [one.done.student for one in marked.marks] == ["One", TWO]
    assert len(marked.remarks) == 4
    told = "\n".join(marked.remarks)
    assert "broken.json: not counted. That is not a hand-in: it is not written" in told
    assert "other.json: not counted. That is of another course. Given: 'OTHER'." in told
    assert "set.json: not counted. There is no set 'H9'" in told
    again = "zz again.json: not counted, 0/7. '  ONE ' handed in H1 twice: one.json counts"
    assert again in told
    assert told.count("\n") == 3


def test_a_name_of_a_file_can_not_make_lines(folder):
    (folder / "a\nb.json").write_text("{")
    (line,) = mark_folder(folder).remarks
    assert line.startswith("a?b.json")
    assert "\n" not in line


def test_the_same_answers_to_other_papers_are_for_a_talk(tmp_path):
    answers = [(number, typed(right("One", number))) for number in range(1, 6)]
    for name in ("One", "Copier", "Other"):
        given = answers if name != "Other" else answers[:2]
        write(hand_in(name, *given), tmp_path / f"{name}.json")
    (line,) = talk(mark_folder(tmp_path))
    assert "same answers" in line
    assert "'Copier'" in line
    assert "'One'" in line
    assert "'Other'" not in line


def test_ratios_have_names():
    right = 7.3
    for factor, name in (
        (2, "× 2"), (0.5, "/ 2"), (math.pi, "× π"), (1 / (2 * math.pi), "/ 2π"),
        (25.4, "× 25.4"), (1 / 25.4, "/ 25.4"), (1000, "× 1000"), (1.05, "× 1.04"),
    ):  # fmt: skip
        assert ratio_name(factor * right, right) == name
    assert ratio_name(0, right) == ratio_name(-3, right) == "nothing, or of the other sign"
    assert ratio_name(1.300 * right, right) == ratio_name(1.305 * right, right)


def test_clusters_put_the_commonest_first(tmp_path):
    for number in range(9):
        name = f"Student {number}"
        factor = math.pi if number < 6 else 1.37
        write(
            hand_in(name, (5, typed(factor * right(name, 5)))), tmp_path / f"{number}.json"
        )
    table = class_table(mark_folder(tmp_path).marks, "H1")
    name, count = table.clusters[0].split(": ")  # π times may be a slip's number, too
    assert name == "Part 5, × π"
    assert count in ("4 answers", "5 answers", "6 answers")


def test_an_empty_class():
    assert class_table([], "H2").rows == []
    with pytest.raises(KitError):
        class_table([], "H7")


def test_a_hand_in_that_answers_nothing_scores_nothing():
    done = mark(hand_in("Nobody"))
    assert done.score == 0
    assert done.most == 7
    assert not done.design.passed


def test_folders_that_are_none(tmp_path):
    with pytest.raises(KitError, match="is no folder"):
        mark_folder(tmp_path / "none")

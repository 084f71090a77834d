"""What to talk about with whom, marks for a spreadsheet, who is missing: a drawn class."""

import csv
import io
import re
from dataclasses import replace

import pytest
from drawn_class import COURSE, drawn_class

from kit.__main__ import main
from kit.basics.units import Units
from kit.classroom import plans
from kit.classroom.homework.class_table import class_table, missing
from kit.classroom.homework.hand_in import HandIn
from kit.classroom.homework.marking import HEAD, Marked, mark, mark_folder, marks_csv
from kit.classroom.homework.sets import SETS
from kit.classroom.homework.talk import MODEL, NO_PROOF, talk

CODES = ("H1", "H3")


@pytest.fixture(scope="module")
def drawn(tmp_path_factory):
    folder = tmp_path_factory.mktemp("class")
    made = drawn_class(folder, CODES, 30)
    return folder, made, mark_folder(folder, COURSE)


def about(marked, student):
    return [line for line in talk(marked) if repr(student) in line]


def test_anothers_file_with_one_answer_altered_is_told(drawn):
    _, made, marked = drawn
    for who in made.copied:
        told = [line for line in about(marked, who) if "same answers" in line]
        assert [line[:2] for line in told] == list(CODES)
        assert all(repr(one) in line for line in told for one in made.copied)


def test_an_identical_sentence_is_told_with_who_wrote_it(drawn):
    _, made, marked = drawn
    told = [line for line in talk(marked) if "share a sentence" in line]
    assert [line[:2] for line in told] == list(CODES)
    assert all(repr(who) in line for line in told for who in made.shared)
    assert all("I think the bands only look as wide" in line for line in told)


@pytest.mark.parametrize("code", SETS)
def test_a_model_answer_is_known_again(code):
    paper = mark(HandIn(course=COURSE, set=code, student="One")).paper
    words = SETS[code].judged.models(paper.values, Units.MM)[-1].upper()
    done = HandIn(course=COURSE, set=code, student="One", words=words)
    assert MODEL in "".join(talk(Marked([mark(done)], [], [])))


def test_a_ruler_that_shows_too_much_is_told(drawn):
    _, made, marked = drawn
    (told,) = [line for line in talk(marked) if "ruler" in line]
    assert repr(made.ruled) in told
    assert "5.221 (part 5)" in told


def test_practice_is_told_once_a_student_and_never_counted(drawn):
    _, made, marked = drawn
    (told,) = [line for line in talk(marked) if "practised" in line]
    assert repr(made.practised) in told
    assert "3 papers" in told
    assert "never counted" in told


def test_nobody_else_is_told_of(drawn):
    """Thirty honest hand-ins of each set, with slips in common: no line of talk."""
    _, made, marked = drawn
    known = {*made.copied, *made.shared, made.ruled, made.practised}
    assert set(re.findall(r"'(Schülerin[^']*)'", "".join(talk(marked)))) == known
    assert "no proof" in NO_PROOF


def test_who_is_missing_and_who_is_a_stranger(drawn, capsys):
    folder, made, marked = drawn
    roster = folder / "roster.txt"
    roster.write_text("student\n" + "\n".join(made.roster), "utf-8")
    for code in CODES:
        assert missing(marked.marks, code, made.roster) == (made.missing, [made.strange])
    assert main(["mark", str(folder), "--roster", str(roster)]) == 0
    told = capsys.readouterr().out
    assert f"H3: nothing from {', '.join(made.missing)}." in told
    assert f"H1: not on the roster: {made.strange!r}." in told
    assert "To talk about" in told


DATE = re.compile(r"\d+\s*[/.-]\s*\d+([/.-]\d+)?|\d+\s*[A-Za-z]+")  # what becomes a date


@pytest.mark.parametrize(("between", "decimal"), [(",", "."), (";", ",")])
def test_a_spreadsheet_opens_the_marks_rightly(drawn, between, decimal):
    """A row a student, nothing else; numbers in their columns; totals over the sets."""
    _, made, marked = drawn
    first, *others = marked.marks
    marks = [replace(first, read=(2, 1, 1)), *others]
    written = marks_csv(marks, made.roster, between)
    head, *rows = csv.reader(io.StringIO(written, newline=""), delimiter=between)
    assert tuple(head[: len(HEAD)]) == HEAD
    assert [row[0] for row in rows] == [*made.roster, made.strange]
    assert {len(row) for row in rows} == {len(head)}
    text = {0} | {at for at, name in enumerate(head) if name.endswith(" slips")}
    assert len(text) == 1 + len(CODES)
    for row in rows:
        for at in set(range(len(head))) - text:
            assert re.fullmatch(rf"(\d+({re.escape(decimal)}\d+)?)?", row[at]), (
                head[at],
                row,
            )
        assert not any(DATE.fullmatch(row[at]) for at in text)
        scores = [row[at] for at, name in enumerate(head) if name.endswith(" score")]
        added = sum(float(one.replace(decimal, ".")) for one in scores if one)
        assert float(row[2].replace(decimal, ".")) == pytest.approx(added, abs=0.02)
        assert int(row[1]) == sum(map(bool, scores))
        assert int(row[3]) == sum(SETS[code].marks for code in CODES)
    assert rows[made.roster.index(made.missing[0])][1:3] == ["0", "0"]


def test_no_name_is_a_formula():
    names = ["=1+2", "+49 170", "-x", "@home", "Zoë", 'a "b", c']
    rows = list(csv.reader(io.StringIO(marks_csv([], names), newline="")))[1:]
    assert [row[0] for row in rows] == [f"'{one}" for one in names[:4]] + names[4:]


def test_what_to_teach_again_has_the_idea_in_words_and_the_lessons_vote(drawn):
    _, _, marked = drawn
    for code in CODES:
        for line in class_table(marked.marks, code).reteach:
            assert re.match(r"\d+ %: they [a-z ]{5}", line)
            assert "mistake the unit" in line or re.search(
                r"Lesson \d\d, (as above\.|.*vote: “.+”)", line
            )


def test_every_lesson_that_a_slip_leads_to_has_a_vote():
    slips = [idea for task in SETS.values() for part in task.parts for idea in part.slips]
    for number in {idea.lesson for idea in slips}:
        assert len(plans.vote(number)) > 20

"""The instructor's side, on the screen and from the terminal; the quiz; a grader."""

import csv
import math
import stat
from pathlib import Path

import pytest
from pypdf import PdfReader

from kit.__main__ import main
from kit.basics.errors import KitError
from kit.classroom.homework import drafts, hand_in, quiz, ratings
from kit.classroom.homework.grader import check, points
from kit.classroom.homework.paper import draw
from kit.classroom.homework.sets import SETS
from kit.classroom.homework.sitting import Sitting
from kit.classroom.views.marking import MarkingPage
from kit.classroom.views.quiz import QuizPage

COURSE = "FORGE-A"


def thirty(folder: Path) -> None:
    """Make 28 hand-ins, one that is broken, one of another course."""
    for number in range(28):
        opened = Sitting(draw(SETS["H1"], COURSE, f"Student {number}"))
        part = opened.paper.homework.parts[number % 5]
        slips = [
            v for v in part.slip_values(opened.paper.values).values() if math.isfinite(v)
        ]
        for one in opened.paper.homework.parts:
            value = slips[0] if one is part else one.answer(opened.paper.values)
            opened.answer(one.number, f"{value:.8g}")
        drafts.keep(folder, opened.hand_in(words="Because. " * 12))
    (folder / "broken.json").write_text('{"format": ')
    other = Sitting(draw(SETS["H1"], "OTHER", "Stranger"))
    (folder / "other.json").write_text(hand_in.to_json(other.hand_in()))


def test_the_terminal_says_the_same(tmp_path, capsys):
    thirty(tmp_path)
    table = tmp_path / "class.csv"
    assert main(["mark", str(tmp_path), "--course", COURSE, "--csv", str(table)]) == 0
    told = capsys.readouterr().out
    assert "What to teach again:" in told
    assert "broken.json: not counted." in told
    assert len(list(csv.reader(table.open(encoding="utf-8-sig")))) == 1 + 28


@pytest.mark.parametrize("arguments", [["mark"], ["mark", "no such folder"]])
def test_a_mistaken_command_gets_one_sentence(arguments, capsys):
    assert main(arguments) == 1
    assert capsys.readouterr().err.count("\n") == 1


def test_key_and_papers_for_a_roster(tmp_path):
    roster = tmp_path / "roster.csv"
    roster.write_text("student\nStudent One\n=cmd()\n")
    common = ["--course", COURSE, "--roster", str(roster), "--out"]
    for kind, name in (("--key", "k.csv"), ("--key", "k.pdf"), ("--papers", "p.pdf")):
        assert main(["mark", kind, "H3", *common, str(tmp_path / name)]) == 0
    assert "\r\nH3,'=cmd()," in (tmp_path / "k.csv").read_bytes().decode("utf-8-sig")
    papers = PdfReader(tmp_path / "p.pdf").pages
    paper = draw(SETS["H3"], COURSE, "Student One")
    first = papers[0].extract_text().replace("\n", " ")
    assert paper.questions()[0][:60] in first
    assert "slip" not in first.lower(), "no key on a student's paper"


def test_quiz_before_and_after(tmp_path, capsys):
    for when, choice in ((0, 0), (1, 2)):
        sheet = QuizPage(tmp_path)
        sheet.course.value, sheet.student.value = COURSE, "Student One"
        sheet.when.value = when
        for answer in sheet.answers:
            if hasattr(answer, "options"):
                answer.value = choice
            else:
                answer.value = "144"
        sheet.make()
        assert "Give it to your instructor." in sheet.says.value
    sheets, remarks = quiz.read_folder(tmp_path, COURSE)
    assert (len(sheets), remarks) == (2, [])
    assert main(["mark", str(tmp_path), "--quiz"]) == 0
    told = capsys.readouterr().out
    assert "Both sheets: 1 student; only they are compared." in told


def test_points_and_check_serve_a_grader():
    paper = draw(SETS["H1"], COURSE, "Student One")
    answers = {p.number: f"{p.answer(paper.values):.8g}" for p in SETS["H1"].parts}
    assert points("H1", COURSE, "Student One", answers) == 5
    assert points("H1", COURSE, "Student One", answers | {2: "abc", 3: 10**400}) == 3
    assert check("H1", COURSE, "Student One", 1, answers[1]).startswith("Right. ")
    with pytest.raises(AssertionError, match="Not yet"):
        check("H1", COURSE, "Student One", 1, "17")


def test_ratings_say_which_line_is_wrong(tmp_path):
    path = tmp_path / "ratings.csv"
    path.write_text("set,student,ratings\nH1,Student One\n")
    with pytest.raises(KitError, match="Line 2"):
        ratings.load(path)


def test_files_are_only_read(tmp_path):
    thirty(tmp_path)
    before = {
        path: (path.read_bytes(), path.stat().st_mtime_ns) for path in tmp_path.iterdir()
    }
    for path in before:
        path.chmod(stat.S_IRUSR)
    marks = MarkingPage(tmp_path)
    marks.mark()
    after = {
        path: (path.read_bytes(), path.stat().st_mtime_ns) for path in tmp_path.iterdir()
    }
    assert after == before

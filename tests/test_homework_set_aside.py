"""Practice never counts; of two hand-ins the better does; what is set aside is told."""

import csv

import pytest
from homework_page import COURSE, answer_all, each_set, folder_of, page
from pypdf import PdfReader

from kit.__main__ import main
from kit.classroom.homework import hand_in
from kit.classroom.homework.class_table import class_table
from kit.classroom.homework.hand_in import HandIn, Try
from kit.classroom.homework.marking import mark_folder
from kit.classroom.homework.paper import draw
from kit.classroom.homework.ratings import rated
from kit.classroom.homework.sets import SETS
from kit.classroom.homework.talk import talk
from kit.classroom.paper import homework_papers
from kit.classroom.views.marking import MarkingPage

pytestmark = pytest.mark.gate


@each_set
def test_a_practice_paper_leaves_the_real_hand_in_alone(tmp_path, code):
    opened = page(tmp_path, code)
    answer_all(opened)
    opened.make()
    (real,) = tmp_path.glob("*.json")
    before = real.read_bytes()
    for number in (1, 2):
        opened.fresh()
        opened.make()
        assert real.read_bytes() == before
        assert f"practice {number}" in folder_of(tmp_path)[number]
    assert len(folder_of(tmp_path)) == 3


@each_set
def test_practice_is_never_counted_and_says_so_everywhere(tmp_path, code, capsys):
    opened = page(tmp_path, code)
    opened.fresh()
    assert "never counted" in opened.says.value
    assert "never counted" in opened.marks.value
    answer_all(opened)
    opened.make()
    assert "never counted" in opened.done.value
    (made,) = tmp_path.glob("*.json")
    assert "practice 1" in made.name
    pdf = homework_papers.write_hand_in(hand_in.read(made), tmp_path / "page.pdf")
    assert "Practice paper 1: never counted" in PdfReader(pdf).pages[0].extract_text()
    marked = mark_folder(tmp_path)
    assert marked.marks == []
    (told,) = talk(marked)
    assert "'Student One' practised, never counted: 1 paper" in told
    assert f"{len(opened.rows)}/{SETS[code].marks}" in told
    assert main(["mark", str(tmp_path)]) == 0
    assert "never counted" in capsys.readouterr().out


def test_the_table_says_what_was_set_aside(tmp_path, capsys):
    """Practice 7/7, and two hand-ins: nine tries for nothing, and a full one."""
    opened = page(tmp_path)
    answer_all(opened, wrong=(5,))
    opened.make()
    (good,) = tmp_path.glob("*.json")
    tries = tuple(Try(order=n, part=5, text=str(900 + n)) for n in range(1, 10))
    idle = HandIn(course=COURSE, set="H1", student="student one", answers=tries)
    hand_in.write(idle, tmp_path / "a nine tries.json")
    opened.fresh()
    answer_all(opened)
    opened.make()
    marked = mark_folder(tmp_path)
    (counted,) = marked.marks
    assert counted.file == good.name
    table = class_table(marked.marks, "H1", marked.aside)
    assert table.head[-1] == "Set aside"
    assert table.rows[0][-2:] == ["4/7", "0/7; practice 1: 5/7"]
    assert all(len(row) == len(table.head) for row in table.rows)
    told = "\n".join(marked.remarks)
    assert "a nine tries.json: not counted, 0/7" in told
    assert f"{good.name} counts, 4/7" in told
    out = tmp_path / "class.csv"
    assert main(["mark", str(tmp_path), "--csv", str(out)]) == 0
    assert "0/7; practice 1: 5/7" in capsys.readouterr().out
    rows = list(csv.reader(out.read_text("utf-8-sig").splitlines()))
    assert [row[0] for row in rows[1:]] == ["Student One"]
    marks = MarkingPage(tmp_path)
    marks.mark()
    assert "0/7; practice 1: 5/7" in marks.screen.value


@pytest.mark.parametrize("names", [("a", "b"), ("b", "a")])
def test_the_better_counts_whatever_it_is_called(tmp_path, names):
    values = draw(SETS["H1"], COURSE, "One").values
    right = f"{SETS['H1'].part(1).answer(values):.8g}"
    for name, text in zip(names, (right, "17"), strict=True):
        tries = tuple(Try(order=n, part=1, text=text) for n in range(1, 3 + (text == "17")))
        done = HandIn(course=COURSE, set="H1", student="One", answers=tries)
        hand_in.write(done, tmp_path / f"{name}.json")
    (one,) = mark_folder(tmp_path).marks
    assert one.score == 1


def test_a_hand_in_that_does_not_go_on_from_the_old_one_gets_a_name_of_its_own(tmp_path):
    opened = page(tmp_path)
    answer_all(opened)
    opened.make()
    opened.rows[0].answer.value = "17"
    opened.make()  # goes on: the same file
    assert len(folder_of(tmp_path)) == 1
    for draft in tmp_path.glob("*.draft"):
        draft.unlink()
    again = page(tmp_path)
    again.rows[0].answer.value = "17"
    again.make()
    names = folder_of(tmp_path)
    assert len(names) == 2
    assert len(hand_in.read(tmp_path / names[0]).answers) != len(
        hand_in.read(tmp_path / names[1]).answers
    )
    assert "stays" in again.done.value


def test_a_rating_is_for_the_words_that_were_read(tmp_path):
    done = HandIn(course=COURSE, set="H1", student="One", words="Two of them can be.")
    hand_in.write(done, tmp_path / "one.json")
    marks = MarkingPage(tmp_path)
    marks.mark()
    for criterion in marks.reading.criteria:
        criterion.value = 2
    marks.reading.keep()
    assert "6/6" in marks.screen.value
    other = done.model_copy(update={"words": "Something else."})
    hand_in.write(other, tmp_path / "one.json")
    marks.mark()
    assert "6/6" not in marks.screen.value
    assert "to read" in marks.screen.value
    hand_in.write(done.model_copy(update={"words": ""}), tmp_path / "one.json")
    typed = {("H1", "one", ""): rated("222")}
    assert mark_folder(tmp_path, ratings=typed).marks[0].score == 0


OTHERS = {
    "the roster": "student\nOne\n",
    "the ratings": "set,student,ratings\nH1,One,210\n",
    "somebody's list": "Name;Room\nOne;4\n",
    "nothing known": "\x00\xff",
}


@pytest.mark.parametrize("name", OTHERS)
@pytest.mark.parametrize("option", ["--csv", "--key"])
def test_a_table_is_written_over_nothing_but_its_like(tmp_path, name, option, capsys):
    hand_in.write(HandIn(course=COURSE, set="H1", student="One"), tmp_path / "one.json")
    (tmp_path / "roster.txt").write_text("student\nOne\n")
    there = tmp_path / "there.csv"
    there.write_text(OTHERS[name], "utf-8")
    roster = ["--roster", str(tmp_path / "roster.txt"), "--course", COURSE]
    typed = ["mark", str(tmp_path), "--csv", str(there)]
    if option == "--key":
        typed = ["mark", "--key", "H1", *roster, "--out", str(there)]
    assert main(typed) == 1
    assert "another name" in capsys.readouterr().err
    assert there.read_text("utf-8") == OTHERS[name]
    there.unlink()
    assert main(typed) == main(typed) == 0  # over its like it may be written again

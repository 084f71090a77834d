"""The key for a roster: values, answers, slips; and no cell is a formula."""

import csv
import io
import itertools
import math
import re

import pytest
from matplotlib.text import Text

from kit.__main__ import main
from kit.basics.errors import KitError
from kit.basics.files import to_csv
from kit.basics.units import Units
from kit.classroom.homework import drafts
from kit.classroom.homework.key import ALL, HEAD, answer_key, key_csv, lines
from kit.classroom.homework.paper import draw
from kit.classroom.homework.roster import read_roster, roster
from kit.classroom.homework.sets import SETS
from kit.classroom.homework.sitting import Sitting
from kit.classroom.paper import homework_papers

COURSE = "FORGE-A"


def test_the_key_gives_each_student_values_answers_and_slips():
    key = answer_key(SETS["H1"], COURSE, ["One", "Two"])
    assert [(line.student, line.part) for line in key] == [
        *((name, part) for name in ("One", "Two") for part in [*"12345", "Bands to order"]),
        (ALL, "Three sellers' claims"),
    ]  # fmt: skip
    line = key[4]
    paper = draw(SETS["H1"], COURSE, "One")
    assert line.answer == f"{paper.homework.part(5).answer(paper.values):.3g} mm"
    rows = list(csv.reader(io.StringIO(key_csv(SETS["H1"], key))))
    assert tuple(rows[0]) == HEAD
    assert len(rows) == 14
    assert rows[1][:3] == ["H1", "One", "1"]


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("code", SETS)
def test_the_key_names_the_cause_that_the_page_names(code, units):
    """Each slip's number, typed on that very paper, is told of in the key's own words."""
    for name in ("One", "Two", "Three"):
        paper = draw(SETS[code], COURSE, name)
        for line in lines(paper, units):
            assert line.answer
            assert "nan" not in line.answer
            assert line.slips or not line.part.isdigit()
            for slip in line.slips:
                if slip.shown == "–" or len(slip.shown) > 40:
                    continue
                typed = slip.shown
                if typed.startswith("“"):
                    options = SETS[code].part(int(line.part)).options
                    typed = options.index(typed.strip("“”")) + 1
                told = Sitting(paper, units).answer(int(line.part), typed).words
                assert slip.name in told


@pytest.mark.parametrize("code", SETS)
def test_the_keys_design_meets_its_brief(code):
    for number in range(12):
        paper = draw(SETS[code], COURSE, f"Student {number}")
        design = paper.homework.design
        judged = design.judge(paper.values, design.example(paper.values))
        assert judged.passed, (paper.values, judged.reason)


@pytest.mark.parametrize("code", SETS)
def test_the_key_has_the_design_and_what_is_written(code):
    task = SETS[code]
    paper = draw(task, COURSE, "One")
    *_, design, written = lines(paper)
    assert design.question == task.design.ask(paper.values, Units.MM)
    for chosen in task.design.example(paper.values):
        title = task.design.choices.model_fields[chosen].title
        assert f"{title.lower()} " in design.answer
    assert task.judged.models(paper.values, Units.MM)[-1] in written.answer
    for claim in task.judged.claims:
        assert claim.words in written.answer


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("code", SETS)
def test_a_key_can_be_marked_from(code, units):
    """A row is labelled as on the paper, each slip has its line, nothing comes twice."""
    task = SETS[code]
    pages = homework_papers.paper_of(draw(task, COURSE, "One"), units)
    printed = [one.get_text() for page in pages for one in page.figure.findobj(Text)]
    key = answer_key(task, COURSE, ["One"], units)
    for page in homework_papers.key_pages(task, COURSE, key, units):
        begins = [one.get_text() for one in page.figure.findobj(Text)]
        slips = [words for words in begins if re.match(r"\d[a-z] ", words)]
        assert len(slips) == sum(len(line.slips) for line in key)
    for line in key:
        assert any(words.startswith(f"{line.part}. ") for words in printed), line.part
        said = re.split(r"[.:;]\s", line.answer)
        assert len(set(said)) == len(said), said
        for two in itertools.combinations(said, 2):
            shared = set.intersection(*(set(re.findall(r"\d{2,}", one)) for one in two))
            assert len(shared) < 2, (line.part, two)


INTERNAL = re.compile(r"\b[A-Z]+_[A-Z_]+\b")


@pytest.mark.parametrize("code", SETS)
def test_no_internal_code_stands_in_what_a_teacher_reads(code, tmp_path, capsys):
    """Every slip of every part is made once; table, CSV, key and page are read."""
    task = SETS[code]
    names = [f"Student {number}" for number in range(8)]
    for place, name in enumerate(names):
        sitting = Sitting(draw(task, COURSE, name))
        for part in task.parts:
            values = list(part.slip_values(sitting.paper.values).values())
            value = values[place % len(values)]
            if math.isfinite(value):
                text = f"{value:.6g}" if value < 1e6 else f"{value:.0f}"
                sitting.answer(part.number, text)
        drafts.keep(tmp_path, sitting.hand_in())
        page = homework_papers.hand_in_page(sitting.hand_in())
        texts = page.figure.findobj(Text)
        assert not INTERNAL.search(" ".join(text.get_text() for text in texts))
    assert main(["mark", str(tmp_path), "--csv", str(tmp_path / "class.csv")]) == 0
    told = capsys.readouterr().out + (tmp_path / "class.csv").read_text("utf-8-sig")
    told += key_csv(task, answer_key(task, COURSE, names))
    assert not INTERNAL.search(told)
    assert "UNIT" not in told


def test_rosters():
    assert roster("One\nTwo\n") == ["One", "Two"]
    assert roster("\ufeffgroup;Student\nA;One\nB;Two\n;\n") == ["One", "Two"]
    assert roster('Name,mail\n"Doe, Jo",x\n') == ["Doe, Jo"]
    for text in ("", "student\n", "One\n ONE \n", "x" * 81, "One\n" * 2, "a" * 1_000_001):
        with pytest.raises(KitError) as refused:
            roster(text)
        assert str(refused.value).endswith(".")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("student\nOne\nTwo\n\none\n", "lines 2 and 5"),
        ("first;last\nJo;Doe\nAnn\n", "Line 3"),
        ("group,student\nA,One\nB,\n", "Line 3"),
        ("student\nOne\n" + "x" * 81, "line 3"),
    ],
)
def test_what_is_wrong_in_a_roster_is_told_by_its_line(text, told):
    with pytest.raises(KitError, match=told):
        roster(text)


def test_a_first_and_a_last_name_make_one():
    assert roster("Last,First\nDoe,Jo\n,Cher\n") == ["Jo Doe", "Cher"]


def test_a_rosters_file(tmp_path):
    path = tmp_path / "roster.csv"
    path.write_text("\ufeffstudent\nÅsa\n", "utf-8")
    assert read_roster(path) == ["Åsa"]
    for bad in (b"\xff\xfe", b"x" * 1_000_001):
        path.write_bytes(bad)
        with pytest.raises(KitError):
            read_roster(path)
    with pytest.raises(KitError):
        read_roster(tmp_path / "none.csv")


@pytest.mark.parametrize(
    "name", ["=1+1", "+1", "-1", "@A1", "\t=1", "  =1", "\r=1", "＝1+1", "\n@x"]
)
def test_no_cell_is_a_formula(name):
    """OWASP, CSV Injection: a cell must not begin with = + - @, tab or return."""
    text = to_csv(["Student", "Score"], [[name, -0.5]])
    (_, row) = csv.reader(io.StringIO(text))
    assert row[0][0] == "'"
    assert row[1] == "-0.5"

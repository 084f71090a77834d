"""The key for a roster: values, answers, slips; and no cell is a formula."""

import csv
import io

import pytest

from kit.basics.errors import KitError
from kit.classroom.homework.key import HEAD, answer_key, key_csv
from kit.classroom.homework.paper import draw
from kit.classroom.homework.roster import read_roster, roster
from kit.classroom.homework.safe_csv import to_csv
from kit.classroom.homework.sets import SETS

COURSE = "FORGE-A"


def test_the_key_gives_each_student_values_answers_and_slips():
    key = answer_key(SETS["H1"], COURSE, ["One", "Two"])
    assert [(line.student, line.part) for line in key] == [
        (name, part) for name in ("One", "Two") for part in range(1, 6)
    ]
    line = key[4]
    paper = draw(SETS["H1"], COURSE, "One")
    assert line.answer == f"{paper.homework.part(5).answer(paper.values):.3g} mm"
    assert dict(line.slips)["NO_CHANGE"].endswith("mm")
    rows = list(csv.reader(io.StringIO(key_csv(SETS["H1"], key))))
    assert tuple(rows[0]) == HEAD
    assert len(rows) == 11
    assert rows[1][:3] == ["H1", "One", "1"]


@pytest.mark.parametrize("code", SETS)
def test_every_set_has_a_key(code):
    for line in answer_key(SETS[code], COURSE, ["One"]):
        assert line.answer
        assert "nan" not in line.answer
        assert len(line.slips) >= 1


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

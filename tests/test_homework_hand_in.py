"""Hand-ins: written and read back the same; strangers' files refused in one sentence."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kit.basics.errors import KitError
from kit.basics.files import MOST_BYTES
from kit.classroom.homework.hand_in import (
    MOST_TRIES,
    HandIn,
    Row,
    Tier,
    Try,
    from_json,
    read,
    to_json,
    write,
)
from kit.classroom.homework.marking import mark_folder
from kit.classroom.homework.paper import draw
from kit.classroom.homework.sets import SETS
from kit.classroom.homework.sitting import Sitting


@pytest.fixture
def done():
    sitting = Sitting(draw(SETS["H1"], "FORGE-A", "Student One"))
    for number, text in ((1, "2176"), (2, "2,049"), (4, "4"), (4, "5 folds")):
        sitting.answer(number, text)
    assert sitting.make({"pieces": 7, "folds": 2}).passed is not None
    return sitting.hand_in(
        words='2000 folds [[[[[[ cannot be "so" :-[ …',
        claims=(Tier(possible=False, reason=1),),
        ratings=(2, 1, 0),
        sheet=(Row(what="length", predicted="254 mm", measured="250 mm", why="scale"),),
    )


def changed(done, **changes):
    return json.dumps({**json.loads(to_json(done)), **changes})


def test_there_and_back(done, tmp_path):
    path = write(done, tmp_path / "one.json")
    again = read(path, "forge-a ")
    assert again.model_dump(exclude={"kit"}) == done.model_dump(exclude={"kit"})
    assert again.kit
    assert list(tmp_path.iterdir()) == [path]


def test_nothing_of_the_machine_is_in_it(done):
    values = json.loads(to_json(done))
    assert set(values) == {
        "format", "version", "kit", "course", "set", "student", "redraw", "answers",
        "design", "words", "claims", "ratings", "sheet",
    }  # fmt: skip
    assert set(values["answers"][0]) == {"order", "part", "text", "unit", "measured"}
    assert [one["order"] for one in values["answers"]] == [1, 2, 3, 4]


BAD = {
    "no text": "",
    "no json": "{",
    "a list": "[]",
    "a number": "3",
    "deep": "[" * 100_000,
    "deep objects": '{"a":' * 5000 + "1" + "}" * 5000,
    "large": '"' + "x" * (MOST_BYTES + 1) + '"',
    "another format": '{"format": "recipe", "version": 1}',
    "nan": '{"format": "pattern-welding homework", "version": 1, "redraw": NaN}',
    "many figures": '{"format": "pattern-welding homework", "version": 1, "redraw": '
    + "9" * 5000
    + "}",
    "twice": '{"format": "pattern-welding homework", "format": "x", "version": 1}',
}
CHANGES = {
    "version": 2,
    "student": "x" * 81,
    "course": 7,
    "set": ["H1"],
    "redraw": 1.5,
    "answers": [{"order": 1, "part": 1, "text": "9" * 41}],
    "design": {"pieces": "7"},
    "words": "w" * 4001,
    "ratings": [3, 0, 0],
    "claims": [{"possible": "yes", "reason": 1}],
    "sheet": [{"what": "x" * 81}] * 3,
    "kit": None,
    "extra": "field",
    "__class__": "x",
}


@pytest.mark.parametrize("text", BAD.values(), ids=BAD)
def test_strangers_texts_are_refused_in_one_sentence(text):
    with pytest.raises(KitError) as refused:
        from_json(text)
    assert_one_line(refused)


@pytest.mark.parametrize("name", CHANGES)
def test_a_changed_field_is_refused_in_one_sentence(done, name):
    with pytest.raises(KitError) as refused:
        from_json(changed(done, **{name: CHANGES[name]}))
    assert_one_line(refused)


def assert_one_line(refused):
    words = str(refused.value)
    assert "\n" not in words
    assert words.endswith(".")
    assert len(words) < 300


@pytest.mark.parametrize(
    "answers",
    [
        [{"order": 2, "part": 1, "text": "1"}],
        [{"order": 1, "part": 0, "text": "1"}],
        [{"order": 1, "part": 1, "text": 1}],
        [{"order": "1", "part": 1, "text": "1"}],
        [{"order": True, "part": 1, "text": "1"}],
        [{"order": 1, "part": 1.0, "text": "1"}],
        [{"order": 1, "part": 1, "text": "1", "measured": "yes"}],
        [{"order": 1, "part": 1}],
        [{"order": n, "part": 1, "text": "1"} for n in range(1, MOST_TRIES + 2)],
        [{"order": 1, "part": 1, "text": "1", "when": "12:03"}],
        "1",
        {},
    ],
)
def test_answers_that_can_not_be(done, answers):
    with pytest.raises(KitError) as refused:
        from_json(changed(done, answers=answers))
    assert_one_line(refused)


def test_another_course_is_refused(done):
    with pytest.raises(KitError, match="another course"):
        from_json(to_json(done), "FORGE-B")


def test_files_that_are_none(tmp_path):
    for name, content in (("a.json", b"\xff\xfe\x00"), ("b.json", b"x" * (MOST_BYTES + 9))):
        (tmp_path / name).write_bytes(content)
        with pytest.raises(KitError) as refused:
            read(tmp_path / name)
        assert_one_line(refused)
    (tmp_path / "folder.json").mkdir()
    for name in ("folder.json", "missing.json"):
        with pytest.raises(KitError, match="is no file"):
            read(tmp_path / name)
    with pytest.raises(KitError, match="cannot be written"):
        write(HandIn(course="A", set="H1", student="B"), tmp_path / "no" / "x.json")


def test_a_name_can_not_carry_half_a_letter(tmp_path, done):
    """A lone surrogate is no letter; written or read it is refused or replaced."""
    with pytest.raises(KitError):
        from_json(changed(done, student="\ud800"))
    assert read(write(done, tmp_path / "ü.json")).who == "student one"


JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=30),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(st.text(max_size=10), inner, max_size=4)
    ),
    max_leaves=12,
)
FIELDS = st.sampled_from([*HandIn.model_fields, "format", "version", "other"])


def refused_in_one_line(deed, *given):
    """Do something that may be refused, but then in one line, and with nothing else."""
    try:
        deed(*given)
    except KitError as refused:
        return "\n" not in str(refused)
    return True


@settings(max_examples=300, deadline=None)
@given(st.dictionaries(FIELDS, JSON, max_size=6))
def test_whatever_a_stranger_puts_in(values):
    base = {"format": "pattern-welding homework", "version": 1, "course": "A"}
    base |= {"set": "H1", "student": "B"}
    assert refused_in_one_line(from_json, json.dumps({**base, **values}))


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=60) | st.floats() | st.integers())
def test_whatever_is_typed(text):
    sitting = Sitting(draw(SETS["H4"], "FORGE-A", "Student One"))
    for part in range(1, 6):
        assert refused_in_one_line(sitting.answer, part, text)


def test_code_in_a_hand_in_is_never_run(tmp_path, monkeypatch):
    """Every text of the file is a program that would leave a mark; none is left."""
    monkeypatch.chdir(tmp_path)
    program = "__import__('pathlib').Path('ran').touch()"
    folder = tmp_path / "in"
    folder.mkdir()
    done = HandIn(
        course="A",
        set="H1",
        student=program,
        words=f"=cmd|' /C calc'!A0 {program}",
        answers=(Try(order=1, part=1, text=program[:40]),),
        design={"pieces": 5, program[:40]: 1},
    )
    write(done, folder / "one.json")
    (folder / "two.json").write_text(program)
    (folder / "three.py").write_text(program)
    marked = mark_folder(folder)
    assert len(marked.marks) == 1
    assert marked.marks[0].unread == 1
    assert not marked.marks[0].design.passed
    assert not (tmp_path / "ran").exists()
    assert not (folder / "ran").exists()

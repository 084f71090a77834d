"""The instructor's page: a class on one screen, words read, all that is made for it."""

import base64
import csv
import io
import re
import sys
from zipfile import ZipFile

import pytest
from drawn_class import COURSE, drawn_class, quiz_sheets
from pypdf import PdfReader

from kit.basics.errors import KitError
from kit.basics.files import write
from kit.classroom import stick
from kit.classroom.homework import drafts, hand_in, ratings
from kit.classroom.homework.hand_in import HandIn
from kit.classroom.homework.judged import RUBRIC
from kit.classroom.homework.marking import mark_folder
from kit.classroom.phone import page as phone
from kit.classroom.views.for_class import OFFERS
from kit.classroom.views.homework import HomeworkPage
from kit.classroom.views.marking import MarkingPage

pytestmark = pytest.mark.gate

WORDS = "Two of them can be, and of the third I cannot know without a cut."


@pytest.fixture(scope="module")
def drawn(tmp_path_factory):
    folder = tmp_path_factory.mktemp("class")
    made = drawn_class(folder, ("H1", "H2"), 26)
    quiz_sheets(folder, made.roster[:3])
    return folder, made


def page(folder, course=COURSE):
    opened = MarkingPage(folder)
    opened.course.value = course
    return opened


def plain(markup):
    return re.sub(r"<[^>]+>", " ", markup)


def before_folds(markup):
    """Give what is seen without opening anything."""
    return plain(re.sub(r"<details>.*?</details>", "", markup))


def test_one_screen_says_who_what_and_whom(drawn):
    folder, made = drawn
    opened = page(folder)
    opened.roster.names.value = "\n".join(made.roster)
    opened.mark()
    assert opened.bar.value == 1
    assert "54 hand-ins and 6 quiz sheets read, of 36 students." in opened.says.value
    assert opened.set.options == ["H1", "H2", "quiz"]
    for place, code in enumerate(("H1", "H2")):
        opened.set.value = place
        seen = before_folds(opened.screen.value)
        assert "26 of 36 students" in seen
        assert f"Missing (10): {made.missing[0]}, " in seen.replace("&#x27;", "'")
        assert f"Not on the roster (1): {made.strange}" in seen
        assert len(re.findall(r"\d+ %: they ", seen)) == 3
        assert seen.count("vote: “") + seen.count("as above") == 3
        assert "same answers" in seen
        assert made.copied[1] in seen
        assert seen.index("same answers") < seen.index(f"{code} ")
    opened.set.value = 2
    assert "gain" in opened.screen.value
    assert opened.reading.texts == []
    assert "broken.json" in opened.files.value
    assert opened.files.value.count("<li>") == 1, "quiz sheets are no broken hand-ins"


@pytest.mark.parametrize("there", [True, False])
def test_an_empty_folder_and_none_are_one_sentence(tmp_path, there):
    opened = page(tmp_path if there else tmp_path / "none")
    opened.mark()
    assert opened.screen.value == opened.files.value == ""
    assert plain(opened.says.value).count(".") == 1 + 1 * there
    assert ("kit-refused" in opened.says.value) is not there


def test_the_classs_own_rows_are_not_among_the_students(drawn):
    opened = page(drawn[0])
    opened.mark()
    first, second = re.findall(r"<tbody>(.*?)</tbody>", opened.screen.value)
    assert re.findall(r'<th scope="row">(.*?)</th>', first) == [
        "right first time",
        "commonest slip",
    ]
    assert second.count("<tr>") == 27


def wrote(folder, **words):
    for who, text in words.items():
        done = HandIn(course=COURSE, set="H1", student=who, words=text)
        hand_in.write(done, folder / drafts.hand_in_name(done))


def give(reading, *keys):
    for criterion, key in zip(reading.criteria, keys, strict=True):
        criterion.value = key
    reading.keep()


def test_each_text_is_shown_once_beside_its_criteria_and_its_marks_are_kept(tmp_path):
    wrote(tmp_path, One=WORDS, Two="Something else, and it is mine alone.", Three=WORDS)
    opened = page(tmp_path)
    opened.mark()
    reading = opened.reading
    assert [len(text) for text in reading.texts] == [2, 1]
    assert [criterion.label for criterion in reading.criteria] == list(RUBRIC)
    assert "One, Three" in reading.words.value
    give(reading, 2, 1, -1)
    assert "each criterion" in reading.says.value
    assert not (tmp_path / "ratings.csv").exists()
    give(reading, 2, 1, 0)
    assert "Something else" in reading.words.value, "on to what is not marked"
    assert [criterion.value for criterion in reading.criteria] == [-1, -1, -1]
    assert plain(opened.screen.value).count("3/6") == 2
    kept = ratings.load(tmp_path / "ratings.csv")
    assert {key[1]: keys for key, keys in kept.items()} == dict.fromkeys(
        ("one", "three"), (2, 1, 0)
    )
    again = page(tmp_path)
    again.mark()
    assert "Something else" in again.reading.words.value, "begins with what is not marked"
    again.reading.turn(-1)
    assert [criterion.value for criterion in again.reading.criteria] == [2, 1, 0]
    scores = {
        one.done.student: one.score for one in mark_folder(tmp_path, ratings=kept).marks
    }
    assert scores == {"One": 0.5, "Three": 0.5, "Two": 0}


def test_marks_that_cannot_be_kept_are_told(tmp_path):
    wrote(tmp_path, One=WORDS)
    opened = page(tmp_path)
    opened.mark()
    (tmp_path / "ratings.csv").mkdir()
    give(opened.reading, 2, 1, 0)
    assert "kit-refused" in opened.reading.says.value
    assert "3/6" not in opened.screen.value


def test_a_roster_is_written_kept_and_found_again(tmp_path):
    opened = page(tmp_path)
    opened.roster.keep_button.click()
    assert "no name yet" in opened.says.value
    opened.roster.names.value = 'Zoë\n"Doe, Jane"\nStudent Three'
    opened.roster.keep_button.click()
    assert "3 students" in opened.says.value
    again = page(tmp_path)
    again.mark()
    assert again.roster.students == ["Zoë", "Doe, Jane", "Student Three"]
    again.roster.names.value += "Four\n"
    again.roster.keep_button.click()
    assert "4 students" in again.says.value
    (tmp_path / "roster.csv").write_text("Name;Room\nOne;4\n")
    again.roster.keep_button.click()
    assert "another roster.csv" in again.says.value
    assert (tmp_path / "roster.csv").read_text() == "Name;Room\nOne;4\n"


def test_a_roster_with_two_names_alike_is_one_sentence(tmp_path):
    opened = page(tmp_path)
    opened.roster.names.value = "One\none"
    assert "twice, on lines 1 and 2" in opened.says.value
    opened.mark()
    assert "twice" in opened.says.value


def offered(opened, words):
    opened.making.choices[0].value = list(OFFERS).index(words)
    opened.making.begin()
    opened.making.wait(60)
    found = re.search(
        r'download="([^"]+)" href="data:[^,]+,([^"]+)"', opened.making.file.value
    )
    return (found[1], base64.b64decode(found[2])) if found else ("", b"")


NO_STICK = [words for words in OFFERS if "stick" not in words and "ZIP" not in words]


@pytest.mark.parametrize("words", NO_STICK)
def test_all_a_class_needs_is_made_without_a_terminal(tmp_path, words):
    opened = page(tmp_path, "")
    assert offered(opened, words) == ("", b"")
    assert "kit-refused" in opened.making.says.value
    opened.upload.take("roster.csv", "student\nZoë\nTwo\n".encode())
    opened.course.value = COURSE
    made = {}
    for units in (2,) if "PDF" in words else (0, 2):
        opened.looks.unit_choice.value = units
        assert opened.making.file.value == "", "made in other units: put away"
        name, made[units] = offered(opened, words)
        assert name.endswith(words[words.index("(") + 1 :][:3].lower())
    if "PDF" in words:
        pages = PdfReader(io.BytesIO(made[2])).pages
        text = "".join(one.extract_text() for one in pages)
        assert re.search(r"\d\.\d+ in\b", text)
        assert not re.search(r"\d mm\b|\bmm 10\b", text), "units work everywhere"
    elif "key" in words:
        assert made[0] != made[2]
    if name.endswith(".csv"):
        text = made[0].decode("utf-8")
        assert text.startswith("\ufeff"), "a spreadsheet reads umlauts by it"
        assert "Zoë" in text


def test_marks_of_a_marked_class(drawn):
    folder, made = drawn
    opened = page(folder)
    opened.roster.names.value = "\n".join(made.roster)
    opened.mark()
    _, data = offered(opened, NO_STICK[4])
    rows = list(csv.reader(io.StringIO(data.decode("utf-8-sig")), delimiter=";"))
    assert len(rows) == 1 + len(made.roster) + 1


def test_pages_for_telephones_come_in_one_file(tmp_path, monkeypatch):
    asked = []

    def make(folder, *, units, address, progress):
        asked.append((units, address))
        progress(1)
        return [write(folder / "index.html", "<p>All.</p>")]

    monkeypatch.setattr(phone, "make", make)
    opened = page(tmp_path, "")
    opened.looks.unit_choice.value = 1
    opened.making.choices[3].value = web = "https://example.org/steel"
    name, data = offered(opened, next(words for words in OFFERS if "ZIP" in words))
    assert (name, asked) == ("pages.zip", [(opened.looks.units, web)])
    assert ZipFile(io.BytesIO(data)).read("pages/index.html") == b"<p>All.</p>"


@pytest.mark.parametrize("box", ["folder", "course"])
def test_enter_marks_the_class(drawn, box):
    opened = page(drawn[0])
    getattr(opened, box)._handle_custom_msg({"event": "submit"}, [])
    assert opened.code == "H1"


@pytest.mark.parametrize("box", ["course", "student"])
def test_enter_in_the_name_gives_the_paper(tmp_path, box):
    opened = HomeworkPage("H1", tmp_path)
    opened.course.value, opened.student.value = COURSE, "One"
    getattr(opened, box)._handle_custom_msg({"event": "submit"}, [])
    assert opened.sitting.paper.student == "One"


def test_a_stick_is_filled_or_says_why_not(tmp_path, monkeypatch):
    said = "Collecting numpy\nCollecting pillow\nSaved a.whl\n"
    seen = []
    program = f"print({said!r}, end=''); raise SystemExit(CODE)"
    for code, words in ((0, ""), (1, "could not be filled: Saved a.whl")):
        typed = [sys.executable, "-c", program.replace("CODE", str(code))]
        if words:
            with pytest.raises(KitError, match=words):
                stick._run(typed, 4, seen.append)
        else:
            stick._run(typed, 4, seen.append)
    assert seen[:3] == [0.2, 0.4, 0.4]
    for part in ("--no-index --find-links .", "-m kit", "Scripts"):
        assert part in stick.how_to()
    monkeypatch.setattr(stick, "clone_root", lambda: None)
    opened = page(tmp_path)
    offered(opened, next(words for words in OFFERS if "stick" in words))
    assert "installed without one" in opened.making.says.value


def test_stopping_a_stick_stops_pip():
    class StopError(Exception):
        pass

    def stop(_share):
        raise StopError

    program = "import time; print('Collecting x', flush=True); time.sleep(60)"
    with pytest.raises(StopError):
        stick._run([sys.executable, "-c", program], 4, stop)

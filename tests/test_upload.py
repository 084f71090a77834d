"""A file handed over in pieces: whole, bounded, and the newest one only."""

from pathlib import Path

import pytest

from kit.basics.errors import KitError
from kit.classroom.views.marking import MarkingPage
from kit.course.views.forge import Forge
from kit.course.views.forge_files import ForgeFiles
from kit.course.views.lesson import BoughtView, EtchingView
from kit.course.views.measuring import MeasuringView
from kit.course.views.upload import Upload

KIT = Path(__file__).parents[1] / "kit"


def own_files():
    return ForgeFiles(Forge())


PAGES = (BoughtView, EtchingView, MarkingPage, MeasuringView, own_files)


@pytest.fixture(name="told")
def fixture_told():
    return []


@pytest.fixture(name="upload")
def fixture_upload(told):
    upload = Upload("Open", ".txt", 10_000_000, lambda: told.append("then"))
    upload.send = told.append
    return upload


def hear(upload, buffers=(), **message):
    upload._handle_custom_msg(message, list(buffers))


def test_a_file_comes_in_pieces(upload, told):
    hear(upload, key="1", name="a.txt", size=5)
    hear(upload, [memoryview(b"abc")], key="1", at=0)
    hear(upload, [memoryview(b"de")], key="1", at=3)
    assert upload.given() == ("a.txt", b"abcde")
    asked = [{"key": "1", "at": 0}, {"key": "1", "at": 3}]
    assert told == [*asked, "then", {"key": "1", "taken": True}]


def test_a_file_chosen_meanwhile_takes_the_place_of_the_first(upload):
    hear(upload, key="1", name="a.txt", size=5)
    hear(upload, [b"abc"], key="1", at=0)
    hear(upload, key="2", name="b.txt", size=2)
    hear(upload, [b"de"], key="1", at=3)  # late
    hear(upload, [b"fg"], key="2", at=0)
    assert upload.given() == ("b.txt", b"fg")


def test_an_empty_file_is_a_file(upload):
    hear(upload, key="1", name="a.txt", size=0)
    assert upload.given() == ("a.txt", b"")


def test_too_large_a_file_is_refused_before_it_is_sent(upload, told):
    with pytest.raises(KitError, match="first"):
        upload.given("Choose one first.")
    hear(upload, key="1", name="a.txt", size=45_000_000)
    assert told == ["then", {"key": "1", "taken": False}]
    with pytest.raises(KitError, match=r"at most 10 MB\. Given: 'a\.txt' with 45 MB\.$"):
        upload.given()
    hear(upload, [bytes(9)], key="1", at=0)  # sent all the same
    upload.take("b.txt", b"b")
    assert upload.given() == ("b.txt", b"b")


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.__name__)
def test_every_page_tells_too_large_a_file_in_a_sentence(page):
    view = page()
    hear(view.upload, key="1", name="<b>.jpg", size=60_000_000)
    told = getattr(
        view, "answer", view.says
    )  # beside the file's own button, if there is one
    assert "Given: &#x27;&lt;b&gt;.jpg&#x27; with 60 MB." in told.value


def test_no_page_sends_a_file_as_one_message():
    guilty = [
        path.name for path in KIT.rglob("*.py") if "FileUpload" in path.read_text("utf-8")
    ]
    assert guilty == []

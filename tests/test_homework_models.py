"""Model answers open only after handing in, and what was handed in stays as it was."""

import pytest
from homework_page import each_set, folder_of, page

from kit.classroom.homework import drafts, hand_in
from kit.classroom.homework.hand_in import Tier
from kit.classroom.homework.marking import mark_folder

OWN = "I would count the layers on a square cut and ask how deep it was pressed and ground"
BEFORE = "Press Make my hand-in"

pytestmark = pytest.mark.gate


def shown(opened):
    return opened.judged.models.value != ""


def written(opened, words=OWN):
    opened.judged.words.value = words
    for pair in opened.judged.claims:
        for choice in pair:
            choice.value = 1
    return opened


@each_set
def test_no_words_open_the_models_before_they_are_handed_in(tmp_path, code):
    opened = written(page(tmp_path, code), "blah " * 40)
    opened.judged.compare()
    assert not shown(opened)
    assert BEFORE in opened.judged.says.value
    opened.make()
    opened.judged.words.value = OWN  # other words than those in the file
    opened.judged.compare()
    assert not shown(opened)
    assert BEFORE in opened.judged.says.value


@each_set
def test_a_practice_paper_opens_them_for_nobody(tmp_path, code):
    opened = page(tmp_path, code)
    opened.fresh()
    written(opened).make()
    opened.judged.compare()
    assert not shown(opened)
    opened.begin()
    written(opened).make()
    opened.fresh()
    written(opened, "w " * 20).judged.compare()
    assert shown(opened)


@each_set
def test_what_was_handed_in_stays(tmp_path, code):
    opened = written(page(tmp_path, code))
    opened.make()
    opened.judged.compare()
    assert shown(opened)
    (path,) = tmp_path.glob("*.json")
    before = hand_in.read(path)
    for box in (opened, page(tmp_path, code)):
        assert shown(box), "a draft that comes back is as open, and as shut"
        assert box.judged.words.disabled
        assert all(choice.disabled for pair in box.judged.claims for choice in pair)
        written(box, "The best model answer, word for word. " * 5)
        box.judged.ratings[0].value = 2
        box.make()
        after = hand_in.read(path)
        assert (after.words, after.claims) == (before.words, before.claims)
        assert after.ratings[0] == 2
    assert len(folder_of(tmp_path)) == 1


def test_another_window_does_not_change_what_was_handed_in(tmp_path):
    one, two = page(tmp_path), page(tmp_path)
    written(one).make()
    one.judged.compare()
    written(two, "The best model answer, word for word, in another window of the page.")
    assert page(tmp_path).judged.words.value == OWN


def test_a_draft_that_was_thrown_away_does_not_either(tmp_path):
    opened = written(page(tmp_path))
    opened.make()
    opened.judged.compare()
    opened.make()
    for draft in tmp_path.glob("*.draft"):
        draft.unlink()
    written(page(tmp_path), "The best model answer, word for word. " * 5).make()
    assert {hand_in.read(path).words[:20] for path in tmp_path.glob("*.json")} == {
        OWN[:20], "The best model answe",
    }  # fmt: skip
    assert len(mark_folder(tmp_path).remarks) == 1, "the teacher is told of both"


def test_where_no_folder_can_be_written_the_page_remembers(tmp_path):
    blocked = tmp_path / "a file, no folder"
    blocked.write_text("x")
    opened = written(page(blocked))
    opened.make()
    opened.judged.compare()
    assert shown(opened)


def test_merging_keeps_the_words_of_whom_the_models_are_open_to(tmp_path):
    done = written(page(tmp_path)).record
    seen = done.model_copy(update={"ratings": (None, None, None)})
    other = done.model_copy(update={"words": "Other.", "claims": (Tier(), Tier(), Tier())})
    for there, here in ((seen, other), (other, seen)):
        both = drafts.merged(done, there, here)
        assert (both.words, both.claims) == (done.words, done.claims)

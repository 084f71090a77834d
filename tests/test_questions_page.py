"""The page of questions: the search, the list, the open card, driven as a browser does."""

import html
import io
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from kit.course.map import LESSONS
from kit.course.questions import CARDS, Measures, drawn, find, suggest
from kit.course.views.questions import QuestionsView
from kit.section.picture import seen_as

NOTEBOOKS = Path(__file__).parents[1] / "notebooks"
CARD = {card.number: card for card in CARDS}


def test_accents_endings_and_small_words_do_not_matter():
    assert find("dishwasher")[0] is CARD[32]
    assert find("Rüst, DÍSHwasher!") == find("rust dishwasher") != []
    assert find("zebra") == []
    assert find("the rust of it") == find("rust")
    assert find("  ") == list(CARDS)
    # one stem, two endings; but "start" is not "stars"
    assert CARD[3] in find("layered")
    assert CARD[18] in find("star")
    assert CARD[18] not in find("start")


def test_where_a_word_stands_decides_the_order():
    found = [card.number for card in find("nickel")]
    assert found[0] in {12, 15}  # keyword; 4, 14 and 25 only speak of it
    assert find("melt")[0].number == 14


HOSTILE = (
    "<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "x" * 10_000, ".*", "[",
    "(?P<", "\\", "{number}", "{0.__class__}", "%s%n", "\x00\x1b", "'; DROP", "🔥" * 300,
    "ﷺ" * 200, "٣", "a " * 5_000,
)  # fmt: skip


@pytest.mark.parametrize("words", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_words_are_harmless(words):
    assert set(find(words)) <= set(CARDS)
    sentence = suggest(words)
    assert len(sentence) < 200
    assert sentence.endswith(".")
    page = QuestionsView()
    page.search.value = words
    shown = [page.says.value, page.head.value, page.rest.value]
    assert not any(tag in text for text in shown for tag in ("<script", "<img"))
    assert page.picture.frame


def test_a_misspelt_word_finds_and_a_strange_one_gets_a_suggestion():
    assert find("damscus")[:2] == find("damascus")[:2]
    assert "layers" in suggest("qqqq")


def pixels(page):
    return np.asarray(Image.open(io.BytesIO(page.picture.frame)).convert("L"), float)


def test_typing_lists_and_opens_the_best():
    page = QuestionsView()
    page.search.value = "FaKe"
    assert page.card is CARD[9]
    assert page.choice.options[0] == "9  Is this one fake?"
    assert page.choice.value == 0
    assert "“FaKe”" in page.says.value
    page.search.value = ""
    assert len(page.choice.options) == len(CARDS)
    assert page.card is CARD[9], "the card stays"
    assert page.choice.value == 8


def test_what_was_asked_is_said_again_in_whole_words_and_nothing_is_promised():
    page = QuestionsView()
    page.search.value = "how do I sharpen a bicycle"
    asked = "is a sword of many layers that somebody folded and twisted stronger than one"
    page.search.value = asked
    said = html.unescape(page.says.value)
    many = len(page.found)
    near = "The nearest card" if many == 1 else f"The {many} nearest cards"
    shown = said[said.index("“") + 1 : said.index(" …”")]
    assert near in said
    assert asked.startswith(f"{shown} ")
    page.search.value = "dishwasher"
    assert "The nearest card to “dishwasher”." in page.says.value


def test_nothing_found_says_so_and_shows_no_old_card():
    page = QuestionsView()
    page.choice.value = 3
    page.search.value = "<b>zzzz</b>"
    assert "&lt;b&gt;" in page.says.value
    assert "No card answers" in page.says.value
    assert page.choice.options == []
    assert page.head.value == page.rest.value == ""
    assert page.picture.layout.display == "none"
    page.clear_button.click()
    assert page.search.value == ""
    assert page.choice.value == 3
    assert page.card is CARD[4]
    assert CARD[4].question in page.head.value
    assert page.picture.layout.display is None


def test_off_the_topic_the_nearest_are_named_and_none_is_open():
    page = QuestionsView()
    for letters in ("m", "me", "mel", "melt", "zzzz"):  # as somebody types
        page.search.value = letters
        assert not page.listed.fold.opened
    page.search.value = "how do i cast a bronze bell"
    assert "No card answers “how do i cast a bronze bell”" in page.says.value
    assert "nearest" in page.says.value
    assert 1 <= len(page.choice.options) <= 3
    assert page.choice.value == -1
    assert page.listed.fold.opened, "their names can be read"
    assert page.head.value == page.rest.value == ""
    page.choice.value = 0
    assert page.card.question in page.head.value


def test_two_letters_change_the_list_only():
    page = QuestionsView()
    page.search.value = "ru"
    assert 0 < len(page.found) < len(CARDS)
    assert page.card is CARD[1]


def test_each_choice_opens_its_card_with_picture_and_words():
    page = QuestionsView()
    seen = set()
    for place, card in enumerate(CARDS):
        page.choice.value = place
        told = card.told()
        assert html.escape(told.breath) in page.head.value
        assert html.escape(told.number.value) in page.rest.value
        for claim in card.claims:
            assert html.escape(claim.how) in page.rest.value, "opens under its mark"
            assert claim.kind.value.replace(" ", "\u00a0") in page.rest.value
        scene = drawn(card, Measures())
        assert page.picture.alt == scene.alt + seen_as(scene.image)
        seen.add(page.picture.frame)
    assert len(seen) == len(CARDS)


def test_next_and_before_go_round():
    page = QuestionsView()
    page.step(-1)
    assert page.card is CARDS[-1]
    page.step(1)
    assert page.card is CARD[1]
    page.search.value = "dishwasher"
    page.step(len(page.found))
    assert page.card is CARD[32], "within what was found"
    page.search.value = "zzzz"
    page.step(1)
    assert page.card is CARD[33]
    assert CARD[33].question in page.head.value
    assert len(page.choice.options) == len(CARDS)


def test_units_light_and_type():
    page = QuestionsView()
    page.show_card(CARD[14])
    before = pixels(page)
    page.looks.degree_choice.value = 1
    assert "407 °F" in page.rest.value
    assert np.abs(pixels(page) - before).max() > 100, "the scale has other figures"
    page.show_card(CARD[22])
    page.looks.unit_choice.value = 1
    assert "9/32 in" in page.rest.value
    page.looks.light_choice.value = 1
    assert pixels(page)[0, 0] == 255
    page.looks.type_choice.value = 1
    assert {"kit-sunlight", "kit-big"} <= set(page._dom_classes)


def test_a_place_on_steel_can_be_asked_about():
    page = QuestionsView()
    page.show_card(CARD[6])
    page.picture._handle_custom_msg({"event": "point", "x": 0.5, "y": 0.18}, [])
    assert "counted from the bottom of the stack" in page.says.value
    page.show_card(CARD[24])
    said = page.says.value
    page.picture._handle_custom_msg({"event": "point", "x": 0.5, "y": 0.5}, [])
    assert page.says.value == said
    assert "kit-plain" in page.picture._dom_classes


def test_lessons_that_cards_name_are_there():
    names = {path.name[:2] for path in NOTEBOOKS.glob("[0-9]*.ipynb")}
    assert {card.lesson for card in CARDS} <= names & set(LESSONS)

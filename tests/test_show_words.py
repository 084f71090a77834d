"""The show page in every language: nothing missing, nothing left over, short enough."""

import re

import pytest
from show_sentences import sentences

from kit.basics.units import Units
from kit.classroom.show import page
from kit.classroom.show.own_piece import own_piece
from kit.classroom.show.piece import ENGLISH, Voice, languages
from kit.shop.patterns import pattern
from kit.shop.recipes.recipe import Recipe

OTHERS = sorted(set(languages()) - {ENGLISH})
GAP = re.compile(r"\{\w*\}")


@pytest.fixture(scope="module")
def pieces():
    own = [own_piece(Recipe(name="mine", billet=pattern(one).forge())) for one in OWN]
    return [*page.own_pieces(), *own]


OWN = ("low twist", "raindrop", "random", "multi-bar composite")


def test_the_sentences_are_found_in_the_code():
    found = sentences()
    assert {"Twisted bar", "✗ It is {letter}.", "Outline larger", "Still there?"} <= found
    assert len(found) > 80


@pytest.mark.parametrize("language", OTHERS)
def test_a_language_says_every_sentence_and_no_other(language):
    words = languages()[language]["words"]
    assert set(words) == sentences()
    assert all(said.strip() for said in words.values())


@pytest.mark.parametrize("language", OTHERS)
def test_the_gaps_of_a_sentence_are_kept(language):
    for english, said in languages()[language]["words"].items():
        assert sorted(GAP.findall(english)) == sorted(GAP.findall(said)), english


@pytest.mark.parametrize("language", list(languages()))
def test_words_are_few_in_every_language(language, pieces):
    voice = Voice(Units.MM, language)
    for piece in pieces:
        assert words(piece.question(voice)) <= 8, piece.question(voice)
        assert words(piece.why(voice)) <= 18, piece.why(voice)
        for line in piece.lines:
            assert len(line(voice).upper()) <= 18, line(voice)


def words(sentence):
    """Count words; a sign that stands alone, as in French, is none."""
    return sum(any(sign.isalnum() for sign in word) for word in sentence.split())


def test_no_french_sign_can_stand_at_the_beginning_of_a_line():
    # a space that does not break before ? ! : ; and within « »: common practice, no source
    for said in languages()["fr"]["words"].values():
        assert not re.search(r" [?!:;»]|« ", said), said


def test_numbers_are_written_as_the_language_does():
    # decimal comma and thin space: International System of Units brochure (BIPM), 5.4.4;
    # German groups with a point in daily use (common practice, no source)
    assert Voice(language="fr").number(1234.5, 1) == "1\u202f234,5"
    assert Voice(language="de").number(1234.5, 1) == "1.234,5"
    assert Voice().number(1234.5, 1) == "1,234.5"
    assert Voice(Units.MM, "es").length(6.37) == "6,4 mm"
    assert Voice(Units.INCH_FRACTION, "de").length(5) == "13/64 Zoll"


@pytest.mark.parametrize("language", OTHERS)
def test_what_a_picture_shows_is_told_in_the_language(language, pieces):
    english, other = Voice(), Voice(language=language)
    for piece in pieces:
        for picture in (*piece.stops, *piece.tiles):
            told = picture.alt(other)
            assert told != picture.alt(english)
            assert not GAP.findall(told)

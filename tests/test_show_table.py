"""The show table live: predict, grind, why."""

import pytest

from kit.classroom.show.page import own_pieces
from kit.classroom.show.piece import Voice
from kit.classroom.views.show import ShowTable


def test_nothing_is_shown_before_a_choice():
    table = ShowTable()
    assert table.show_button.disabled
    assert table.why_button.disabled
    table.tiles.value = 1
    assert not table.show_button.disabled


@pytest.mark.parametrize("place", range(len(own_pieces())))
def test_a_visitor_from_question_to_why(place):
    table = ShowTable()
    table.which.value = place
    piece = table.piece
    assert piece.question(Voice()) in table.ask.value.replace("&#x27;", "'")
    table.tiles.value = table.right
    table.show()
    first = bytes(table.picture.frame), table.picture.alt
    table.slider.value = 8.0
    assert (bytes(table.picture.frame), table.picture.alt) != first
    table.tell()
    assert "You predicted it." in table.says.value
    assert table.slider.value == piece.asked
    table.next_visitor()
    assert table.tiles.value == -1
    assert table.why.value == ""
    assert table.right == (piece.right - 1) % 4
    table.tiles.value = table.right
    table.show()
    table.tell()
    assert "You predicted it." in table.says.value


def test_a_makers_own_recipe_and_one_that_is_none():
    table = ShowTable()
    asked = table.ask.value
    table.own.value = "no such pattern"
    assert "I know no pattern called" in table.says.value
    assert table.ask.value == asked, "the old piece stays"
    table.own.value = "low twist"
    assert table.piece.name(Voice()) == "Low twist"
    table.which.value = 1
    assert table.piece is table.pieces[1]


def test_sunlight_draws_it_anew():
    table = ShowTable()
    before = list(table.tiles.pictures)
    table.looks.light_choice.value = 1
    assert list(table.tiles.pictures) != before

"""Nickel is told of wherever a piece, its steels or their dust are, for every steel."""

import re

import pytest

from kit.classroom.paper.care import care
from kit.classroom.paper.told import hardening
from kit.course.questions import CARDS
from kit.course.questions.card import Measures, drawn
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Stack
from kit.forge.steels import GRADES, steel
from kit.metal.cautions import NICKEL, Weight, holds_nickel
from kit.metal.pairs import pair, pairs
from tests.all_at_once import for_all

# Standards that ask for nickel: EN 10132-4 (75Ni8), ASTM A681 (L6), A276 (304, 316), B160.
# 52100: at most 0.25 % in A295, as any steel may have from its scrap.
HOLD = {"15N20", "L6", "304", "316", "nickel"}
each_grade = pytest.mark.parametrize("name", GRADES)


@each_grade
def test_a_steel_holds_nickel_if_its_standard_asks_for_it(name):
    low, most = steel(name).ranges.get("Ni", (0.0, 0.0))
    assert holds_nickel(steel(name)) == (most > 0.25)
    assert name in HOLD or low == 0


def test_the_steels_that_hold_nickel():
    assert {name for name in GRADES if holds_nickel(steel(name))} >= HOLD
    assert not holds_nickel(steel("52100"))


@each_grade
def test_the_care_card_tells_of_nickel(name):
    for told in (care([name]), care(["1084", name]), care([name, "1018", "1095"])):
        assert ("allergic" in told) == holds_nickel(steel(name))
        assert name not in HOLD or "nickel" in told


@for_all((two,) for two in pairs())
def test_a_pair_tells_of_nickel(two):
    some = holds_nickel(two.first) or holds_nickel(two.second)
    told = [reason for reason in two.reasons if "nickel" in reason.name]
    assert bool(told) == some
    assert all("allergic" in reason.says and "skin" in reason.says for reason in told)


@each_grade
def test_a_recipe_card_tells_of_nickel_whatever_lies_beside_it(name):
    def bar(*steels):
        layers = [{"steel": one, "thickness": 3.0} for one in steels]
        return Billet(source=Stack(layers=layers, length=100, width=30))

    three = Billet(source=Bundle(bars=(bar("1084", "1095"), bar("1084", name))))
    for billet in (bar(name, name), bar("1084", name), three):
        told = hardening(billet)
        assert ("allergic" in told) == holds_nickel(steel(name))
        # what it is about stands before each reason, and how much they weigh once
        assert all(told.count(f"\n{weight.value}") <= 1 for weight in Weight)
        assert bool(
            re.search(rf"^(– |.*, ){NICKEL.name}: ", told, re.MULTILINE)
        ) == holds_nickel(steel(name))


@pytest.mark.parametrize("card", CARDS, ids=lambda card: str(card.number))
def test_a_card_that_names_a_steel_with_nickel_says_so(card):
    told = card.told()
    said = " ".join([*told[:4], *told.number.working, drawn(card, Measures()).alt])
    # the word nickel alone is mostly the element within a steel
    named = HOLD - {"nickel"} | {"nickel sheet", "N02200"}
    if any(name in said for name in named):
        assert "nickel" in f"{said} {card.cautions}".lower()
        assert "allergic" in str(card.cautions)


def test_dust_of_the_usual_pair_is_told_of():
    (reason,) = pair("1084", "15N20").reasons
    assert "respirator" in reason.says

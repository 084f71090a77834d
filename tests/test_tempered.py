"""Whatever tells people to harden tells them to temper: cards, pages, papers, homework."""

import ast
import json
import re
from itertools import combinations_with_replacement
from pathlib import Path

import pytest

import kit
from kit.classroom.paper.kinds import ALL, KINDS, PLAN, Asked
from kit.classroom.paper.protect import KINDS as WORK
from kit.classroom.paper.risk import HAZARDS
from kit.course.lessons import bought
from kit.course.lessons.bought_scene import remark, scene
from kit.course.questions import CARDS
from kit.course.questions import heat as heat_cards
from kit.course.questions.card import Measures, drawn
from kit.forge.steels import GRADES, steel
from kit.metal.hardening import hardens
from kit.metal.pairs import pair
from kit.metal.tempering import AT_ONCE, HEATS, QUENCH_OIL, TEMPER

KIT = Path(kit.__path__[0])
ROOMS = ("lessons", "views", "homework", "questions", "paper", "show", "film", "planning")
HARDENS = re.compile(r"\b(harden\w*|quench\w*)\b", re.IGNORECASE)
TEMPERS = re.compile(r"\b(un)?temper(ed|ing|s)?\b", re.IGNORECASE)
NOTEBOOKS = sorted((KIT.parent / "notebooks").rglob("*.ipynb"))
FILES = sorted(path for room in ROOMS for path in (KIT / room).rglob("*.py"))


def lacks(words):
    """Say which word tells of hardening where none tells of tempering."""
    found = HARDENS.search(words)
    return found.group() if found and not TEMPERS.search(words) else None


def texts(path):
    """Give every string in a file but docstrings; names that come from tempering too."""
    tree = ast.parse(path.read_text("utf-8"))
    told = set()
    for node in ast.walk(tree):
        body = getattr(node, "body", None)
        if isinstance(body, list) and body and isinstance(body[0], ast.Expr):
            told.add(id(body[0].value))
        if isinstance(node, ast.ImportFrom) and node.module == "kit.metal.tempering":
            yield "temper"
    for node in ast.walk(tree):
        words = str(node.value) if isinstance(node, ast.Constant) else ""
        if " " in words and id(node) not in told:
            yield words


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(KIT)))
def test_a_file_that_speaks_of_hardening_speaks_of_tempering(path):
    assert lacks(" ".join(texts(path))) is None


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.name)
def test_a_page_that_speaks_of_hardening_speaks_of_tempering(path):
    cells = json.loads(path.read_text("utf-8"))["cells"]
    words = " ".join("".join(c["source"]) for c in cells if c["cell_type"] == "markdown")
    assert lacks(words) is None


@pytest.mark.parametrize("number", ["07", "08", "11"])
def test_the_cautions_of_pages_with_a_quench_tell_of_burning_oil(number):
    (path,) = (path for path in NOTEBOOKS if path.name.startswith(number))
    cells = json.loads(path.read_text("utf-8"))["cells"]
    cautions = " ".join(
        "".join(c["source"]) for c in cells if "**Caution.**" in "".join(c["source"])
    )
    for said in ("oil", "flash", "lid", "extinguisher", "never water", "break in the hand"):
        assert said in cautions, said


@pytest.mark.parametrize("card", CARDS, ids=lambda card: str(card.number))
def test_a_card_that_speaks_of_hardening_speaks_of_tempering(card):
    told = card.told()
    said = [*told[:4], told.number.name, told.number.value, *told.number.working, told.mark]
    assert lacks(" ".join([*said, card.caution, drawn(card, Measures()).alt])) is None


@pytest.mark.parametrize("kind", KINDS)
def test_a_paper_that_speaks_of_hardening_speaks_of_tempering(kind):
    options = Asked(lesson=ALL, recipe=PLAN)
    pages = KINDS[kind][1](options)
    words = " ".join(text.get_text() for page in pages for text in page.axes.texts)
    assert lacks(words) is None


@pytest.mark.parametrize("two", combinations_with_replacement(GRADES, 2), ids="/".join)
def test_a_pair_that_hardens_is_tempered(two):
    sentence = pair(*two).hardening.sentence
    able = [name for name in two if hardens(steel(name))]
    assert lacks(sentence.replace("Neither hardens.", "")) is None
    if pair(*two).hardening.heats:
        assert able or "Both" in sentence


def test_a_bought_bar_is_tempered_before_it_is_cleaned():
    shown = scene()
    told = " ".join([remark("celsius", bought.Job().model_dump()), shown.alt])
    told += " ".join(number.value for number in shown.numbers)
    assert lacks(told) is None
    assert "hardened and tempered" in shown.alt


def test_hardening_is_one_number_from_one_source():
    low, high = pair("1084", "15N20").hardening.heats
    values = heat_cards._heats()
    assert (values["harden_low"], values["harden_high"]) == (low, high)
    assert (values["temper_low"], values["temper_high"]) == HEATS


def test_the_words_say_why_and_how():
    # A data sheet of O1, seen in a copy: 350 to 450 °F, temper without delay.
    assert pytest.approx(((350 - 32) / 1.8, (450 - 32) / 1.8), abs=0.1) == HEATS
    assert "break in the hand" in AT_ONCE
    assert AT_ONCE in TEMPER
    for said in ("flash point", "lid", "extinguisher", "never water"):
        assert said in QUENCH_OIL
    assert any(
        QUENCH_OIL in kind.wear and "break in the hand" in kind.wear for kind in WORK
    )
    hazards = " ".join(hazard.controls for hazard in HAZARDS)
    assert QUENCH_OIL in hazards
    assert "break in the hand" in hazards

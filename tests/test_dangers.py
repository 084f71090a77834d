"""Every danger is told once, with who decides, and stands wherever it is met."""

import ast
import re
from pathlib import Path

import pytest
from test_notebooks import NOTEBOOKS, name_of, text
from test_told_claims import literals

import kit
from kit.classroom.paper.checklists import risk_assessment
from kit.classroom.paper.kinds import Asked
from kit.classroom.paper.told import KINDS
from kit.course.map import LESSONS
from kit.course.questions import CARDS
from kit.launch.list_own import KNOWN
from kit.metal.dangers import (
    DANGERS,
    EDGE,
    FIRE,
    FLUX,
    FOOD,
    FUME,
    LEADED,
    LEARN,
    NICKEL,
    OPEN_WELD,
    PLATED,
    SEALED,
    SOLVENT,
    SPENT,
    UNKNOWN,
    VENUE,
    WIRE,
)
from tests.beside import beside

KIT = Path(kit.__path__[0])
WORKED = {"00", "forge", *(lesson.number for lesson in LESSONS.values())}
PAGES = [path for path in NOTEBOOKS if path.stem.partition("_")[0] in WORKED]
TEXTS = (*KIT.rglob("*.py"), *KIT.rglob("*.json"))
FILES = sorted(path for path in TEXTS if path.stem != "dangers")
WHO = r"\b(rules|qualified|sheet|doctor|seller's paper)\b.*(decides?|stays out)|decide"
each = pytest.mark.parametrize("danger", DANGERS.values(), ids=DANGERS)


def prose(path):
    """Give a page's prose, and the lines of its cautions, which are no part of it.

    Nor is how its sentences are known: a claim asks nobody to do a thing.
    """
    line = re.compile(r"^> \* \*\*.*$", re.MULTILINE)
    words, _, known = text(path).partition(KNOWN)
    words += known.partition("</details>")[2]
    return line.sub("", words), line.findall(words)


def texts(path):
    """Give every string of a module, and the words beside it."""
    tree = ast.parse(path.read_text("utf-8"))
    return [
        *(n.value for n in ast.walk(tree) if isinstance(n, ast.Constant)),
        *beside(path),
    ]


def met_in(words):
    """Give the dangers that words come upon."""
    return [danger for danger in DANGERS.values() if re.search(danger.met, words)]


@each
def test_a_danger_is_short_and_says_who_decides(danger):
    assert danger.how
    assert len(danger.says.split()) <= 60
    assert re.search(WHO, danger.decides), danger.decides
    assert re.search(danger.mark, danger.says), "known by words of its own"


@pytest.mark.parametrize("path", PAGES, ids=name_of)
def test_a_page_on_which_a_danger_stands_shows_its_caution(path):
    words, lines = prose(path)
    bare = re.sub(r"\[[^]]*\]\([^)]*\)|^#.*$|^> .*$", "", words, flags=re.MULTILINE)
    assert [one.name for one in met_in(bare) if one.line not in lines] == []
    assert "> **Caution.**" in words


# A card explains and asks nobody to do a thing: fire is met on it where a heat is told, and
# acid, press and grinder by the list in `test_questions.py`.
TOLD = (FLUX, FUME, LEADED, NICKEL, PLATED, SEALED, SOLVENT, SPENT, UNKNOWN)


@pytest.mark.parametrize("card", CARDS, ids=lambda card: str(card.number))
def test_a_card_on_which_a_danger_stands_shows_its_caution(card):
    told = card.told()
    words = " ".join((told.answer, told.breath, *told.number.working))
    lacking = [one for one in met_in(words) if one in TOLD and one not in card.dangers]
    assert [one.name for one in lacking] == []
    assert FIRE in card.dangers or not re.search(r"\b([6-9]\d\d|\d{4}) °C", words)


def test_no_caution_is_written_twice():
    told = [(path.name, str(word)) for path in FILES for word in texts(path)]
    told += [(path.name, prose(path)[0]) for path in NOTEBOOKS]
    again = [
        (name, danger.name, found[0])
        for name, words in told
        for danger in DANGERS.values()
        if (found := re.search(danger.mark, words))
    ]
    assert again == []


# Who decides, or that it has to be learnt: told by a danger, or by `LEARN`, and not again.
WHO_ELSE = re.compile(
    r"(?i)\b(qualified|rules of (the|your) (place|venue|shop)|workshop's rules|local rules)"
)


def test_every_caution_of_a_page_is_of_the_one_list():
    listed = {danger.line for danger in DANGERS.values()} | {f"> **Caution.** {LEARN}"}
    shown = [
        (path.name, line)
        for path in NOTEBOOKS
        for line in re.findall(r"^> (?:\* )?\*\*.*$", text(path), re.MULTILINE)
    ]
    assert [one for one in shown if one[1] not in listed] == []


@pytest.mark.parametrize("card", CARDS, ids=lambda card: str(card.number))
def test_every_caution_of_a_card_is_of_the_one_list(card):
    listed = [(one.name.capitalize(), str(one)) for one in DANGERS.values()]
    assert [one for one in card.cautions if one not in listed] == []


def test_who_decides_is_told_by_the_one_list_alone():
    """On paper, telephones and the tablet, in the terminal and on pages."""
    told = [
        (path.name, words)
        for path in FILES
        if path.name != "cautions.py"
        for words in literals(ast.parse(path.read_text("utf-8")))
    ]
    beside = [
        one for end in ("jinja", "js", "txt", "json") for one in KIT.rglob(f"*.{end}")
    ]
    told += [
        (path.name, line)
        for path in beside
        if path.stem not in ("dangers", "cautions")
        for line in path.open(encoding="utf-8")
    ]
    told += [
        (path.name, line)
        for path in NOTEBOOKS
        for line in text(path).partition(KNOWN)[0].splitlines()
        if not line.startswith("> ")
    ]
    assert [one for one in told if WHO_ELSE.search(one[1])] == []


def test_no_danger_is_idle():
    lines = {line for path in NOTEBOOKS for line in prose(path)[1]}
    assert lines == {danger.line for danger in DANGERS.values()}
    printed = " ".join(t.get_text() for p in risk_assessment(Asked()) for t in p.axes.texts)
    plain = " ".join(printed.split())
    for danger in DANGERS.values():
        assert all(" ".join(x.split()) in plain for x in (danger.says, danger.decides))


def test_what_to_wear_is_taken_from_the_dangers():
    worn = {danger.name for kind in KINDS for danger in kind.dangers}
    of_the_stock = {"nickel", "leaded steel", "unknown scrap"}
    of_others = {danger.name for danger in (OPEN_WELD, EDGE, WIRE, FOOD, VENUE)}
    assert worn == set(DANGERS) - of_the_stock - of_others, "told apart"

"""What the kit takes for true: every claim says how it is known, and none stands twice."""

import ast
import html
import json
import re
from functools import cache
from pathlib import Path

import pytest

import kit
from kit.__main__ import main
from kit.basics.claim import (
    LEGEND,
    Claim,
    Kind,
    claims_told,
    gathered,
    legend,
    marks,
    meaning,
)
from kit.basics.claim import marked as marks_in
from kit.basics.told import in_units, plain
from kit.basics.units import Units
from kit.classroom.homework.key import answer_key
from kit.classroom.homework.paper import draw
from kit.classroom.homework.sets import SETS, homework
from kit.classroom.paper.homework_papers import key_pages, paper_of
from kit.course.lessons.scene import aloud
from kit.course.map import LESSONS
from kit.course.questions import CARDS
from kit.course.views.forge import Forge
from kit.course.views.forge_page import RESTS as FORGE_RESTS
from kit.course.views.said import how_known, mark_of, numbers_panel
from kit.forge.steels import steel
from kit.launch.command.claims import KINDS
from kit.metal.diffusion import TABLE
from kit.metal.hardening import HANDBOOK
from kit.metal.working_heat import limit_of

ROOT = Path(kit.__path__[0])
CLAIMS = gathered()
GATHERED = set(map(id, CLAIMS.values()))
# Rooms whose module-level figures are facts about the world, or are called ours beside.
FACTUAL = [
    ROOT / "forge/steel_table.py",
    *sorted(ROOT.glob("metal/*.py")),
    *sorted(ROOT.glob("shop/*.py")),
]
# Where the place in a work is: a page, a table, a number, a year; or what kind of sheet.
PLACE = re.compile(r"\d|\b(sheets?|table|list|chart|article|page|abstract)\b")


@pytest.mark.parametrize("kind", Kind)
def test_a_claim_says_what_and_how_it_is_known(kind):
    for claim in (claim for claim in CLAIMS.values() if claim.kind is kind):
        _says(claim)


def _says(claim):
    assert isinstance(claim.kind, Kind)
    assert claim.says[0].isupper()
    assert claim.says.endswith(".")
    assert ".py" not in claim.how, "a smith opens no file of ours"
    assert ".." not in claim.how
    assert claim.kind.value in claim.how.lower()
    if claim.kind in (Kind.PUBLISHED, Kind.MEMORY, Kind.DERIVED):
        assert claim.source, "from where?"
    if claim.kind is Kind.PUBLISHED:
        assert PLACE.search(claim.source), claim.source
    assert claim.kind is Kind.PUBLISHED or not claim.seen
    assert claim.spread[0] <= 1 <= claim.spread[1]


BESIDE = re.compile(
    r"^\(?([A-Z_, \n]+?),?\n?\)? = beside\(__file__\)\.values\(\)", re.MULTILINE
)


def test_claims_beside_a_module_are_named_there_in_their_order():
    named = {}
    for path in sorted(ROOT.rglob("*.py")):
        if found := BESIDE.search(path.read_text("utf-8")):
            told = json.loads(path.with_suffix(".json").read_text("utf-8"))
            named[path.stem] = re.findall("[A-Z_]+", found[1]) == list(told)
    assert set(named.values()) == {True}, named


def test_a_claim_holds_what_stands_in_its_module():
    for place, claim in CLAIMS.items():
        assert set(claim.values) == set(claim.holds)
        numbers = [one for one in claim.values.values() if not isinstance(one, str)]
        assert claim.unit or not numbers, f"{place}: constants in what unit?"


# Works of which a passage was read: marked SEEN in the project's facts, or found since in
# stored copies. A claim is seen only if it comes from one of them.
READ = (
    r"^ASTM (A29/A29M|A276|A295-98|A681|A686|B160|E562-02)",
    r"^Callister & Rethwisch.* 9th ed\., (ch\. 9|Table 5\.2)",
    r"^Andrews, .* as a handbook reprints it",
    r"FECRNI_DB that the package kawin carries$",
    r"^(Růžičková & Million|Alberry & Haworth), .* abstract$",
    r"^Siegel & Hamilton, .* its abstract",
    r"^Archaeometry 2015, doi 10\.1111/arcm\.12114, abstract$",
    r"^Revista de Metalurgia 37 \(2001\) 130",
    r"^Feuerbach, JOM 58 \(May 2006\), as quoted",
    r"^'The key role of impurities in ancient Damascus steel blades'",
    r"^American Museum of Natural History, hall of meteorites",
    r"^Metals 15\(2\) 219 \(2025\), abstract$",
    r"^ASM International, bearing steel, 2019$",
    r"^a glossary of historical metallurgy, .steel.",
    r"^Encyclopædia Britannica, 'Iron processing: Wrought iron'",
    r"^'Microstructural analysis of a welded Damascus knife blade billet', a paper",
    r"^National Research Council, .*1985",
    r"^Perry's Chemical Engineers' Handbook, 8th ed\., Table 1-13$",
    r"^a published table of ferric chloride solutions$",
    r"^a college's teaching page on carburising$",
    r"^(a )?data sheets?( of (1095|O1|420))?, (seen in|176.7 to 232.2)",
    r"^'Spatial abilities of high-school students",
    r"^'Classroom demonstrations: .*; 'Role of physics lecture demonstrations",
    r"^a university's guidance on peer instruction, a page$",
    r"^'Intuition and exponential growth', an article of 2021$",
    r"^Chapman, Workshop Technology, and Stirling 1905, p\. 50",
    r"^Metals Handbook Desk Edition, table of densities",
    r"^a glossary of metallography, article 'taper section'$",
    r"^(list of forging temperatures|table of forging heats|smiths' society sheet of L6)",
)


def test_only_what_was_read_is_called_seen():
    seen = [claim.source for claim in CLAIMS.values() if claim.seen]
    assert [one for one in seen if not any(re.search(work, one) for work in READ)] == []
    assert [work for work in READ if not any(re.search(work, one) for one in seen)] == []


@cache
def figures(path):
    """Give the module's constants that have a figure in them, but those called ours."""
    lines = path.read_text("utf-8").splitlines()
    found = {}
    for node in ast.parse("\n".join(lines)).body:
        targets = node.targets if isinstance(node, ast.Assign) else [node]
        value = getattr(node, "value", None)
        if not isinstance(node, (ast.Assign, ast.AnnAssign)) or value is None:
            continue
        if not any(_figure(part) for part in ast.walk(value)) or _type(value):
            continue
        beside = "\n".join(lines[node.lineno - 1 : node.end_lineno])
        above = node.lineno - 2
        while above >= 0 and lines[above].strip():  # the head of its block
            if lines[above].startswith("#"):
                beside = lines[above] + "\n" + beside
            above -= 1
        if re.search(r"#.*\b(ours|our choice)\b", beside):
            continue
        names = [getattr(target, "target", target) for target in targets]
        for name in [one for top in names for one in getattr(top, "elts", [top])]:
            found[name.id] = node.lineno
    return found


def _figure(node):
    return (
        isinstance(node, ast.Constant)
        and isinstance(node.value, (int, float))
        and not isinstance(node.value, bool)
        and node.value not in (0, 1)
    )


def _type(value):
    return isinstance(value, ast.Subscript) and ast.unparse(value.value) == "Literal"


@pytest.mark.parametrize("path", FACTUAL, ids=lambda path: path.stem)
def test_every_figure_belongs_to_one_claim(path):
    name = ".".join(("kit", *path.relative_to(ROOT).with_suffix("").parts))
    held = [one for claim in CLAIMS.values() if claim.module == name for one in claim.holds]
    assert len(held) == len(set(held)), "in two claims"
    for place in CLAIMS:  # what is itself a claim, or lists them
        held += [re.split(r"[.\[]", place.removeprefix(f"{name}."))[0]]
    assert {one: line for one, line in figures(path).items() if one not in held} == {}


# What a number or its working speaks of, and the module whose claim it then relies on.
RELIES = {
    r"[Ee]ye (limit|resolves)|minute of arc|arc-minute|as blurred": "kit.metal.eye",
    r"\bg\b|g/cm³": "kit.forge.steels",
    r"m²/s|\bD of\b": "kit.metal.diffusion",
    r"(?<!°)\bC: |Mean C\b": "kit.forge.steels",
    r"°C\b.*\b[Ss]cale|[Ss]cale\b.*°C|scale of": "kit.metal.working_heat",
    r"\bAc1\b|harden(s|ed)?;": "kit.metal.hardening",
    r"[Rr]elief|\b[Tt]ones?\b": "kit.metal.bite",
    r"\bL\* ": "kit.metal.colour",
    r"every loss|weight out": "kit.shop.work",
    r"drill's point|tan\(59°\)": "kit.course.lessons.press_ideas",
}


def lacking(number, also=""):
    """Give the modules whose claims a number's words rely on and it does not name."""
    words = " ".join([number.name, number.value, *number.working, also])
    known = {claim.module for claim in number.claims}
    asked = {module for pattern, module in RELIES.items() if re.search(pattern, words)}
    guess = "illustrative" in words and Kind.OURS not in {c.kind for c in number.claims}
    return asked - known | ({"a guess of ours"} if guess else set())


@pytest.mark.parametrize("lesson", LESSONS)
def test_a_number_names_what_it_relies_on(lesson):
    one = LESSONS[lesson]
    frames = (one.begun(), *one.states()[-1:])
    for number in (each for frame in frames for each in one.scene(**frame).numbers):
        assert number.claims
        assert set(map(id, number.claims)) <= GATHERED
        assert lacking(number) == set(), number.name
        assert f"{number.name}: {number.value} ({marks(number.claims)})" in aloud([number])


@pytest.mark.parametrize("card", CARDS, ids=lambda card: str(card.number))
def test_a_card_says_how_it_is_known(card):
    told = card.told()
    assert card.claims
    assert lacking(told.number, told.answer) == set()
    assert set(map(id, card.claims)) <= GATHERED


def test_what_a_claim_holds_is_told():
    for claim in (limit_of(steel("1084")), TABLE["Ni"], HANDBOOK["O1"]):
        assert claim.figures in claim.how
    assert "2102 °F" in limit_of(steel("1084")).how


def test_every_mark_is_in_the_legend():
    assert set(LEGEND) == set(Kind)
    for kind in Kind:
        claim = Claim(says="So it is.", kind=kind, source="here, p. 1")
        assert marks([claim, claim]) == kind.value
        assert LEGEND[kind] in legend([claim])
        assert f'<b class="kit-kind">{kind.value}</b>' in how_known([claim])


def test_the_mark_stands_beside_the_number_and_opens_with_its_working():
    number = LESSONS["08"].scene().numbers[0]
    told = marks(number.claims).replace("\u00a0", " ")
    small = numbers_panel([number], None).replace("\u00a0", " ")
    assert f"{told}</small>" in small
    assert "How do you know?" not in numbers_panel([number], None)
    opened = numbers_panel([number], 0)
    assert numbers_panel([number, number], 0).count("How do you know?") == 1
    assert opened.index("</dl>") < opened.index("How do you know?"), "not in a column"
    assert "common\u00a0practice" in mark_of([Claim(says="So.", kind=Kind.PRACTICE)])
    assert all(claim.kind.value in opened for claim in number.claims)


def test_the_forge_says_how_its_numbers_are_known():
    foot = Forge().children[-1].value
    assert "How do you know?" in foot
    for claim in FORGE_RESTS:
        assert html.escape(claim.says) in foot.replace("\u00a0", " ")


def listed(capsys, *typed):
    main(["claims", *typed])
    return capsys.readouterr().out


def test_the_command_lists_and_counts(capsys):
    shown = listed(capsys)
    assert f"{len(CLAIMS)} claims" in shown
    for place, claim in CLAIMS.items():
        assert place in shown
        assert claim.says in shown
    counts = re.findall(r"^ +(\d+)  ", shown, re.MULTILINE)
    assert sum(map(int, counts)) == len(CLAIMS)
    for name, kind in KINDS.items():
        few = listed(capsys, "--kind", name)
        assert few.count(f"[{kind.value}]") == sum(c.kind is kind for c in CLAIMS.values())
    own = listed(capsys, "--lesson", "08")
    assert own.count("\n[") + 1 == len(LESSONS["08"].claims())


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        (("--lesson", "08", "--card", "1"), "of a lesson or of a card. Given: both"),
        (("--card", "99999"), "A card must be a whole number from 1"),
        (("--lesson", "zz"), "There is no lesson 'zz'"),
    ],
)
def test_what_is_not_there_is_refused_in_a_sentence(capsys, typed, words):
    assert main(["claims", *typed]) != 0
    assert words in capsys.readouterr().err


# What on paper speaks of a number that rests on a claim.
RESTS = re.compile(
    r"\d ?k?g\b|g/cm³|°Bé|\d HRC|arc-minute|[Ii]llustrative|% (carbon|nickel)|Answer: |"
    r"Prediction: |Predicted|Given by those who|[Ll]osses|\d layers\b|dust mask"
)


# Said of a sheet's numbers: its sentences have marks of their own.
OF_NUMBERS = re.compile(r"How the numbers are known: [^.]*\.")
SENTENCE = re.compile(r"(?<=[.?!]) +(?=[A-Z“(\d])")


def unmarked(words, units):
    """Give what the sentences of a sheet tell and their marks do not say; no question.

    A claim that is listed there is followed by how it is known.
    """
    said = OF_NUMBERS.sub("", plain(words))
    for claim in CLAIMS.values():
        said = said.replace(plain(in_units(claim.says, units)), "")
    told = [one for one in SENTENCE.split(said) if not one.endswith("?")]
    claims = {claim for one in told for claim in claims_told(one)}
    return [claim.says for claim in claims if claim.kind not in marks_in(said)]


def marked(pages):
    """Ask of each page: what rests on a claim is marked, what is marked is explained.

    What a buyer is handed has no marks; a sheet beside it has. Every kind of paper is
    asked where it is printed, in `test_paper_sheets`.
    """
    said = [" ".join(one.get_text() for one in page.axes.texts) for page in pages]
    for page, words in zip(pages, said, strict=True):
        there = {kind for kind in Kind if kind.value in words}
        if page.handed:
            assert not re.search("source|[Ii]llustrative|claim", words), words[:300]
            assert not there, words[:300]
            assert not all(one.handed for one in pages), "who made it finds no mark"
            continue
        assert there or not RESTS.search(words), words[:300]
        lacks = [kind for kind in there if f"{kind.value}: {LEGEND[kind]}" not in words]
        assert lacks == [], words[:300]
        assert unmarked(words.replace(meaning(there), ""), page.units) == [], words[:300]
    return any(kind.value in words for words in said for kind in Kind)


@pytest.mark.parametrize("code", SETS)
def test_homework_on_paper_is_marked_too(code):
    task = homework(code)
    assert marked(paper_of(draw(task, "FORGE-A", "Student"), Units.MM))
    assert marked(key_pages(task, "FORGE-A", answer_key(task, "FORGE-A", ["Student"])))

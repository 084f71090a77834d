"""What texts say of the world is claimed: each sentence, on cards, pages and in the code.

A sentence speaks of the world if a word of `WORLD` stands in it: what no picture of ours
shows, but heat, acid, atoms, the trade, an eye. A claim then tells it: one of its `told`
fits. Questions are no claims, nor is what somebody is asked to do (`ASKS`), nor what the
kit says of itself or its picture shows: those are listed in `tests/asked/not_claimed.txt`,
a line for what stands in them.
"""

import ast
import json
import re
from functools import cache
from pathlib import Path

import pytest

import kit
from kit.basics.claim import gathered
from kit.basics.told import NO_BREAK
from kit.course.questions import CARDS
from kit.launch.list_own import KNOWN, words_of

ROOT = Path(kit.__path__[0])
NOTEBOOKS = sorted((ROOT.parent / "notebooks").rglob("*.ipynb"))
# The cards are read whole; a caution is a claim itself; a care card rests on a sheet.
READ_ELSE = ("dangers", "cautions", "care")
MODULES = [
    path
    for path in sorted(ROOT.glob("*/**/*.py"))
    if path.parent.name != "questions" and path.stem not in READ_ELSE
]
LISTED = Path(__file__).parent / "asked/not_claimed.txt"
WORLD = re.compile(
    r"\b(carbon|nickel|chrom\w+|manganese|silicon|rust\w*|stain\w*|oxid\w+|acids?|etch(es)?|"
    r"bites?|heats?|hot(ter)?|cold(er)?|fires?|scale (is|falls|bursts|takes)|quench\w*|"
    r"harden\w*|temper\w*|brittle|melt\w*|sparks?|flux|slag|hard(er|ness)?|soft(er)?|tough\w*|"
    r"strong(er)?|strength|shrinks?|cracks?|tears?|warps?|wears?|burns?|smear\w*|bulges?|"
    r"trade|smiths?|makers?|sold|sellers?|cheap|usual(ly)?|mostly|swords?|really?|eyes?|"
    r"researchers|sagas|tales|legend|most|often|dies|waves?|coffee|vinegar|leather|pressure|"
    r"mark on the surface|colours depend|predicting|doublings|vote again|bank card|density|"
    r"smelt|hours|price|the name|magnet|metallographers|kicks)\b",
    re.IGNORECASE,
)
# Set so apart, these are no words about the metal.
BESIDE = re.compile(
    r"hard(ly| to)|at most|how often|most of|most layers|to scale|hot torsion|"
    r"lesson \d\d|station|\*\*[^*]+\*\*:? *$",
    re.IGNORECASE,
)
ASKS = re.compile(
    r"^(\W|\d|:|–)*(Set|Move|Change|Choose|Count|Look|Ask|Put|Open|Press|Give|Have|Hand|Slide|"
    r"Draw|Take|Find|Read|Say|Try|Go|Click|Cut|Think|Write|Let|Show|Measure|Grind|Clean|Etch|"
    r"Compare|Weigh|Plan|Make|Work|Type|Tell|Switch|Stack|Watch|Keep|Buy|Leave|Follow|Never|"
    r"Use|Double|Start|Wear|Wait|Do|Vote|Hook|Everyone|Exit question|Who chose|Add|Search|"
    r"Spark-test|At (the station )?\*\*|Under \*\*|Afterwards|Then (halve|wear)|Multiply|"
    r"In pairs|Clay in pairs|Before they come|Show it|If you|Turn|Guess|Learn)\b"
)


WHOLE = re.compile(r"\w[.!]$")  # no label, nor a part of a sentence


def sentences(words):
    words = re.sub(r"\s+", " ", words.replace(NO_BREAK, " "))
    parts = re.split(r"(?<=[.?!:;])[”\"*)]* +(?=[A-Z“\"*(\d])| \| ", words)
    return [part.strip() for part in parts if part and len(part.split()) > 2]


def of_the_world(words):
    """Give the sentences of words that speak of the world, and ask nothing."""
    return [
        one
        for one in sentences(words)
        if WORLD.search(BESIDE.sub("", one))
        and not re.search(r"\?\W*$", one)
        and not ASKS.search(one)
    ]


@cache
def all_of_them():
    return tuple(gathered().values())


@cache
def listed():
    lines = LISTED.read_text("utf-8").splitlines()
    return [line for line in lines if line and not line.startswith("#")]


def untold(words, claims=None):
    """Give what speaks of the world in words, and none of the claims tells."""
    told = [part for claim in claims or all_of_them() for part in claim.told]
    return [
        one
        for one in of_the_world(words)
        if not any(re.search(part, one) for part in told)
        and not any(part in one for part in listed())
    ]


def page(path):
    cells = json.loads(path.read_text("utf-8"))["cells"]
    lines = [
        line
        for cell in cells
        if cell["cell_type"] == "markdown" and not cell["id"].endswith("-known")
        for line in "".join(cell["source"]).splitlines()
        if not line.startswith(("> * **", "#", "![", "**What you'll", "**Before:"))
    ]
    own = "\n".join(lines)
    return re.sub(r"^\* \d+ \*.*$", "", own, flags=re.MULTILINE)


@cache
def literals(path):
    """Give the texts of a module, but its docstrings and what stands in a claim."""
    nodes = list(ast.walk(ast.parse(path.read_text("utf-8"))))
    found, left = [], set()  # all around a text come before it
    for node in nodes:
        call = ast.unparse(node.func) if isinstance(node, ast.Call) else ""
        kind = isinstance(node, ast.AnnAssign) and ast.unparse(node.target) == "says"
        doc = isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
        if call == "Claim" or kind or doc:
            left |= set(map(id, ast.walk(node)))
        elif call == "Reason" and not node.args[1].value:  # a wrong one
            left |= set(map(id, ast.walk(node.args[0])))
        elif id(node) not in left and isinstance(node, ast.JoinedStr):
            left |= set(map(id, node.values))
            parts = (getattr(part, "value", None) for part in node.values)
            found.append("".join(one if isinstance(one, str) else "…" for one in parts))
        elif id(node) not in left and isinstance(node, ast.Constant):
            found.append(str(node.value))
    return found


@pytest.mark.parametrize("card", CARDS, ids=lambda card: str(card.number))
def test_a_card_says_nothing_that_it_does_not_claim(card):
    told = card.told()
    assert untold(f"{told.answer} {told.breath} {card.also}", card.claims) == []


def test_no_module_says_a_thing_unclaimed():
    whole = [(path.stem, words) for path in MODULES for words in literals(path)]
    said = [(name, words) for name, words in whole if WHOLE.search(words)]
    assert [(name, one) for name, words in said for one in untold(words)] == []


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_a_page_says_nothing_unclaimed(path):
    assert [one for line in page(path).splitlines() for one in untold(line)] == []


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_a_page_opens_how_its_words_are_known(path):
    """Written by `python -m kit.launch.list_own`."""
    cells = json.loads(path.read_text("utf-8"))["cells"]
    plain = ("".join(cell["source"]).replace(NO_BREAK, " ") for cell in cells)
    told = [dict(cell, source=words) for cell, words in zip(cells, plain, strict=True)]
    known = [cell["source"] for cell in told if cell["source"].startswith(KNOWN)]
    words = words_of(path.stem[:2], told)
    claims = [c for c in all_of_them() if any(re.search(one, words) for one in c.told)]
    assert len(known) == bool(claims)
    assert [one.says for one in claims if f"* {one.says} *{one.how}*" not in known[0]] == []


def test_no_claim_is_told_in_vain_and_nothing_is_listed_twice_or_for_nothing():
    words = [f"{card.told().answer} {card.told().breath} {card.also}" for card in CARDS]
    words += [one for path in MODULES for one in literals(path)]
    words += [line for path in NOTEBOOKS for line in page(path).splitlines()]
    world = "\n".join(one for part in words for one in sentences(part))
    patterns = [part for claim in all_of_them() for part in claim.told]
    assert [part for part in patterns if not re.search(part, world, re.MULTILINE)] == []
    assert [part for part in listed() if part not in world] == []
    assert len(set(listed())) == len(listed())

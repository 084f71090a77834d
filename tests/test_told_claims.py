"""What texts say of the world is claimed: on cards, pages, paper, telephones, in pictures.

A sentence speaks of the world if a word of `WORLD` stands in it: what no picture of ours
shows, but heat, acid, atoms, the trade, an eye; or if it is marked as guessed, customary,
from memory. A claim then tells it: one of its `told`
fits. Questions are no claims, nor is what somebody is asked to do (`ASKS`), nor what the
kit says of itself or its picture shows, nor what a wrong idea takes for true: those are
listed in `tests/asked/not_claimed.txt`, a line for what stands in them.
"""

import ast
import json
import re
from functools import cache
from pathlib import Path

import pytest

import kit
from kit.basics.claim import Claim, gathered
from kit.basics.told import plain
from kit.course.questions import CARDS
from kit.launch.list_own import KNOWN, words_of
from tests.beside import beside

ROOT = Path(kit.__path__[0])
NOTEBOOKS = sorted((ROOT.parent / "notebooks").rglob("*.ipynb"))
LISTED = Path(__file__).parent / "asked/not_claimed.txt"
# What a card answers has a test of its own; what is believed is wrong; the rest is unseen.
UNREAD = {"answer", "breath", "belief", "keywords", "found_by"}
TABLET = ROOT / "classroom/show/words/de.json"
KINDS = {kind.__name__ for kind in (Claim, *Claim.__subclasses__())}
TABLE = 5  # lines: what has as many is no sentence
WORLD = re.compile(
    r"\b(carbon|nickel|chrom\w+|manganese|silicon|rust\w*|stain\w*|oxid\w+|acids?|etch(es)?|"
    r"bites?|heats?|hot(ter)?|cold(er)?|fires?|scale (is|falls|bursts|takes)|quench\w*|"
    r"harden\w*|temper(s|ed|ing)?|brittle|melt\w*|sparks?|flux|slag|hard(er|ness)?|soft(er)?|tough\w*|"
    r"strong(er)?|strength|shrinks?|cracks?|tears?|warps?|wears?|burns?|smear\w*|bulges?|"
    r"trade|smiths?|makers?|sold|sellers?|cheap|usual(ly)?|mostly|swords?|really?|eyes?|"
    r"researchers|sagas|tales|legend|most|often|dies|waves?|coffee|vinegar|leather|pressure|"
    r"mark on the surface|colours depend|predicting|doublings|vote again|bank card|density|"
    r"smelt|hours|price|the name|magnet|metallographers|kicks|oil(ed)?|iron|atoms?|carbide|"
    r"glows?|many think|lemon|freezes|common practice|from memory|illustrative|"
    r"placeholders?|no source|our guess|sound|pressed together|shops differ|was found|"
    r"a real (one|stack)|bevel lies|sharp before)\b",
    re.IGNORECASE,
)
# Set so apart, these are no words about the metal; in braces stands a name of ours.
BESIDE = re.compile(
    r"hard(ly| to)|at most|how often|most of|most layers|to scale|hot torsion|"
    r"lesson \d\d|station|\*\*[^*]+\*\*:? *$|\{[^}]*\}|bank card|(time|heats?) at heat|"
    r"all heats together|\(illustrative\)|makers?'s? (mark|card)",
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

SUM = re.compile(r" = | × |^= ")  # judged by `tests/test_workings.py`


def sentences(words):
    words = re.sub(r"\s+", " ", plain(words))
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
        and not SUM.search(one)
    ]


@cache
def all_of_them():
    return tuple(gathered().values())


@cache
def listed():
    lines = LISTED.read_text("utf-8").splitlines()
    return [line for line in lines if line and not line.startswith("#")]


@cache
def fits(claims=None):
    """Give a pattern of all that tells one of some claims, or of all."""
    some = all_of_them() if claims is None else claims
    told = [part for claim in some for part in claim.told] or ["(?!)"]
    return re.compile("|".join(f"(?:{part})" for part in told))


def unfit(words, claims=None):
    """Give what speaks of the world in words, and none of the claims tells."""
    return [one for one in of_the_world(words) if not fits(claims).search(one)]


def untold(words, claims=None):
    """Give what no claim tells and is not listed as none, either."""
    left = unfit(words, claims)
    return [one for one in left if not any(part in one for part in listed())]


def page(path):
    cells = json.loads(path.read_text("utf-8"))["cells"]
    lines = [
        line
        for cell in cells
        if cell["cell_type"] == "markdown" and not cell["id"].endswith("-known")
        for line in "".join(cell["source"]).splitlines()
        if not line.startswith(("> * **", "**What you'll", "**Before:"))
    ]
    own = "\n".join(lines)
    return re.sub(r"^\* \d+ \*.*$", "", own, flags=re.MULTILINE)


def name_of(node):
    return getattr(node, "attr", getattr(node, "id", ""))


def is_claim(call):
    """Say whether a call makes a claim; a lesson's Reason, unlike a claim's, names none."""
    name = name_of(call.func).strip("_").title()
    return name in KINDS and not (name == "Reason" and call.args)


def literals(node, held=()):
    """Give the texts of a module, but docstrings, claims and what they hold."""
    inner = None
    match node:
        case ast.Constant(value=str(words)):
            yield words if words.count("\n") < TABLE else ""
        case ast.JoinedStr(values=parts):
            whole = (getattr(part, "value", None) for part in parts)
            yield "".join(one if isinstance(one, str) else "…" for one in whole)
            inner = [one for one in parts if not isinstance(one, ast.Constant)]
        case ast.Call(func=ast.Name("Reason"), args=[_, ast.Constant(False), answer]):
            inner = [answer]
        case ast.Call() if is_claim(node) or name_of(node.func) == "compile":
            inner = []
        case ast.Expr(ast.Constant()) | ast.AnnAssign(target=ast.Name("says")):
            inner = []
        case ast.keyword() if node.arg in UNREAD:
            inner = []
        case ast.Assign(targets=[ast.Name(name)]) if name in held:
            inner = []
    for one in ast.iter_child_nodes(node) if inner is None else inner:
        yield from literals(one, held)


def strings(path):
    """Give the texts of a template, or of a page's script."""
    code = path.read_text("utf-8")
    yield from (found[1] for found in re.finditer(r"([\"`])((?:(?!\1).)*)\1", code))
    if path.suffix == ".jinja":
        yield from re.sub(r"<[^>]*>|\{[{%].*?[}%]\}", " ", code).splitlines()


@cache
def everywhere():
    """Give all texts but the cards' own, each with where it stands."""
    found = []
    for path in sorted(ROOT.glob("*/**/*.py")):
        name = ".".join(("kit", *path.relative_to(ROOT).with_suffix("").parts))
        held = {
            one for claim in all_of_them() if claim.module == name for one in claim.holds
        }
        found += [(name, one) for one in literals(ast.parse(path.read_text("utf-8")), held)]
        found += [(name, one) for one in beside(path, unread=UNREAD)]
    for path in sorted((*ROOT.glob("**/*.jinja"), *ROOT.glob("*/**/*.js"))):
        found += [(path.name, words) for words in strings(path)]
    told = json.loads(TABLET.read_text("utf-8"))["words"]
    return [*found, *(("the tablet", english) for english in told)]


@pytest.mark.parametrize("card", CARDS, ids=lambda card: str(card.number))
def test_a_card_says_nothing_that_it_does_not_claim(card):
    told = card.told()
    assert untold(f"{told.answer} {told.breath}", card.claims) == []


def test_nothing_says_a_thing_unclaimed():
    """No module, caption, belief, card, sheet, template, script or tablet."""
    told = [(name, one) for name, words in everywhere() for one in untold(words)]
    assert told == [], "\n".join(f"{name}: {one}" for name, one in told)


# Folded alone, one steel still shows where it was welded, faintly: common practice.
ALONE = re.compile(
    r"\b(one|same|second|single) steel\b(?! (bar|hardened))|like (meets|on) like",
    re.IGNORECASE,
)
BARE = re.compile(
    r"\b((?<!is )no (layer|pattern|contrast)|nothing to|without bands|looks? like one)\b"
)


def test_of_one_steel_nobody_says_that_nothing_shows():
    said = [words for _name, words in everywhere()]
    said += [card.told().answer for card in CARDS]
    said += [line for path in NOTEBOOKS for line in page(path).splitlines()]
    told = {one for words in said for one in sentences(words)}
    bare = [one for one in told if ALONE.search(one) and BARE.search(one)]
    assert [one for one in bare if "weld" not in one] == []


def test_a_label_says_no_more_than_its_claim():
    """A polish may show the layers faintly; meteoritic iron holds next to no carbon."""
    said = {one for _name, words in everywhere() for one in sentences(words)}
    told = [one for one in said if re.search("polished.*nothing to be seen", one)]
    told += [one for one in said if re.search("^(?!.*next to).*no carbon: bright", one)]
    assert told == []


def test_the_front_door_claims_nothing():
    """To gather claims it is left out: it needs JupyterLab."""
    for path in ROOT.glob("launch/**/*.py"):
        assert not re.search(r"\bClaim\(", path.read_text("utf-8"))


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_a_page_says_nothing_unclaimed(path):
    assert [one for line in page(path).splitlines() for one in untold(line)] == []


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_a_page_opens_how_its_words_are_known(path):
    """Written by `python -m kit.launch.list_own`."""
    cells = json.loads(path.read_text("utf-8"))["cells"]
    told = [dict(cell, source=plain("".join(cell["source"]))) for cell in cells]
    known = [cell["source"] for cell in told if cell["source"].startswith(KNOWN)]
    words = words_of(path.stem[:2], told)
    claims = [c for c in all_of_them() if any(re.search(one, words) for one in c.told)]
    assert len(known) == bool(claims)
    assert [one.says for one in claims if f"* {one.says} *{one.how}*" not in known[0]] == []


def test_no_claim_is_told_in_vain_and_nothing_is_listed_twice_or_for_nothing():
    cards = {f"{c.told().answer} {c.told().breath}": c.claims for c in CARDS}
    said = [words for _name, words in everywhere()]
    said += [line for path in NOTEBOOKS for line in page(path).splitlines()]
    world = "\n".join(one for part in (*cards, *said) for one in sentences(part))
    patterns = [part for claim in all_of_them() for part in claim.told]
    assert [part for part in patterns if not re.search(part, world, re.MULTILINE)] == []
    left = [unfit(words, cards.get(words)) for words in (*cards, *said)]
    needed = "\n".join(one for part in left for one in part)
    assert [part for part in listed() if part not in needed] == []
    assert len(set(listed())) == len(listed())

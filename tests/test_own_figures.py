"""The demo's stack is the kit's own: told in one place, and no older figure is left.

Eleven bars: six of 1084, 1/8 in thick, and five of 15N20, 1/16 in thick. The kit once
showed another stack; what is left of its figures is looked for by phrase, not by digit,
in all that is stored (texts, notebooks, code, tests) and in what the kit says when asked.
"""

import ast
import json
import re
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from kit.__main__ import OneSentence, _parser
from kit.basics.told import plain
from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units, format_length
from kit.classroom.film import forging
from kit.course.heads import first_forging
from kit.course.lessons.plan import PlanLesson
from kit.course.lessons.plan_ideas import no_loss_length
from kit.course.lessons.weld import WeldLesson
from kit.course.questions import CARDS, Measures, worth
from kit.course.views.forge import Forge
from kit.forge.stack import DEMO_INNER, DEMO_OUTER, demo_stack
from kit.launch.command import COMMANDS
from kit.section.picture import Sheet
from kit.shop.patterns import PATTERNS
from kit.shop.plan import example

ROOT = Path(__file__).parents[1]
ONE_TEST = "def test_thirteen_bars_folded_five_times"
PICTURE = ROOT / "notebooks/img/first_forging.png"
KINDS = {".png", ".py", ".js", ".json", ".jinja", ".css", ".md", ".txt", ".ipynb"}
STORED = [
    ROOT / "README.md",
    ROOT / "DEVELOPERS.md",
    *sorted(
        path
        for folder in ("kit", "notebooks", "tests", "binder")
        for path in (ROOT / folder).rglob("*")
        if path.suffix in KINDS and path != Path(__file__)
    ),
]
# Seven and six bars, 31.75 mm: 13 × 2ᵏ layers, 12 × 2⁵ + 1 bands, and what was reckoned
# from them. Bands of fewer folds are left out: seven bars alike give the same.
OLD = re.compile(
    r"""\bthirteen\b
    | \b13[ -](?:[a-z0-9/]+[ ])?(?:bars?|pieces?|layers?|stripes?)\b
    | \b(?:26|52|104|208|416|832)[ ](?:layers?|pieces?|bars?)\b | \b104[ ]\(97\)
    | \b416\b.{0,12}\b385\b | \b385[ ]bands\b
    | pieces=13\b | PIECES[ ]=[ ]13\b | \b(?:stack|forged|rack)\(13\b
    | \b31\.75[ ]mm | \b7[ ]?\+[ ]?6\b | \b(?:7|seven)[ ]and[ ](?:6|six)[ ](?:bars|pieces)
    | \b7\*\(1084[ ]3\.175x | \b826[ ]g\b | (?<![.\d])87[ ]mm\b | \b0\.813[ ]%
    """,
    re.IGNORECASE | re.VERBOSE,
)


def words_of(path):
    """Give a file's text: a notebook's cells and outputs, a picture's description."""
    if path.suffix == ".png":
        return Image.open(path).info["Description"]
    text = path.read_text(encoding="utf-8")
    if path.suffix != ".ipynb":
        return text
    cells = json.loads(text)["cells"]
    outputs = [
        "".join(output.get("text", "")) for c in cells for output in c.get("outputs", [])
    ]
    words = "\n".join(["".join(cell["source"]) for cell in cells] + outputs)
    return plain(words)


def without_the_one_test(text):
    """Leave out the only test that may still speak of them."""
    before, name, after = text.partition(ONE_TEST)
    return before + re.split(r"\n\n\n", after, maxsplit=1)[-1] if name else text


def old_figures(text):
    return [found.group() for found in OLD.finditer(without_the_one_test(text))]


def test_no_older_figure_is_stored():
    assert len(STORED) > 400
    found = {
        path.relative_to(ROOT).as_posix(): old_figures(words_of(path)) for path in STORED
    }
    assert {path: old for path, old in found.items() if old} == {}


@pytest.mark.parametrize(
    "words",
    ["Thirteen bars", "13 pieces of", "13 thin bars", "416 layers", "(416, 385)",
     "385 bands", "26 layers and 25 bands", "a stack 31.75 mm thick", "pieces=13,",
     "cut to 87 mm"],
)  # fmt: skip
def test_the_search_finds_what_it_should(words):
    assert old_figures(words)


@pytest.mark.parametrize(
    "words",
    ["13 mm drill", "1300 °C", "13.3 × 1.88 mm", "0.416 mm", "13 welds", "section 13.3",
     "13–25 | Gallery walk", "7 bars of 1084", "97 bands", "start=1385", "0.87 mm"],
)  # fmt: skip
def test_the_search_leaves_other_thirteens_alone(words):
    assert not old_figures(words)


def test_the_one_test_that_keeps_them_says_what_they_are():
    text = (ROOT / "tests/test_billet.py").read_text(encoding="utf-8")
    kept = text.partition(ONE_TEST)[2].partition("\n\n\n")[0].lower()
    assert "common practice, no source" in kept
    assert "(416, 385)" in kept


def helps():
    yield _parser().format_help()
    for name in COMMANDS:
        parser = OneSentence(prog=name, description=COMMANDS[name])
        __import__(f"kit.launch.command.{name}", fromlist=["add"]).add(parser)
        yield parser.format_help()


def cards():
    for units in Units:
        measures = Measures(units=units)
        for card in CARDS:
            yield from map(str, card.told(measures))


def scenes():
    for scene in (PlanLesson.scene(), WeldLesson.scene()):
        yield scene.alt
        yield scene.says
        for number in scene.numbers:
            yield f"{number.name}: {number.value}; {number.working}"
    asked = PlanLesson.question
    yield asked.ask
    yield asked.observed


def captions():
    """Give what films write, and the command line says, of every pattern."""
    said = []
    write, Sheet.text = Sheet.text, lambda _sheet, words, *_at, **_how: said.append(words)
    try:
        for known in PATTERNS:
            film = forging(known.forge(), columns=64, rows=64)
            for frame in film.frames:
                film.drawn(frame)
    finally:
        Sheet.text = write
    return said


@pytest.mark.parametrize("said", [helps, cards, scenes, captions])
def test_no_older_figure_is_said(said):
    texts = list(said())
    assert texts
    assert [found for text in texts for found in old_figures(text)] == []


def test_the_demo_s_stack():
    # By hand: 6 × 3.175 + 5 × 1.5875 mm, 11 × 2^5 layers, (11 - 1) × 2^5 + 1 bands.
    stack = demo_stack()
    assert stack.thickness == pytest.approx(26.9875)
    assert stack.steels == ("1084", "15N20") * 5 + ("1084",)
    assert (DEMO_OUTER.thickness, DEMO_INNER.thickness) == pytest.approx(
        (MM_PER_INCH / 8, MM_PER_INCH / 16)
    )
    assert demo_stack(length=80, width=20).length == 80


def test_it_is_told_in_one_place_only():
    """The thin bars' thickness stands in forge/stack.py and nowhere else in the code."""
    told = {
        path.relative_to(ROOT).as_posix()
        for path in (ROOT / "kit").rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and node.value == DEMO_INNER.thickness
    }
    assert told == {"kit/forge/stack.py"}


def stacks():
    """Give every stack that the kit begins with where nobody chose another."""
    yield example()._layers()
    yield PlanLesson().plan._layers()
    yield WeldLesson().billet.source.layers
    parser = OneSentence()
    command = __import__("kit.launch.command.plan", fromlist=["add"])
    command.add(parser)
    yield command.plan_of(parser.parse_args([]))._layers()
    yield Forge().bar.source.layers
    for name in ("random", "ladder", "raindrop", "feather", "four-way mosaic"):
        yield next(p for p in PATTERNS if p.name == name).forge().source.layers


def test_all_begin_with_it():
    for layers in stacks():
        assert tuple(layers) == demo_stack().layers
    known = worth._mixture()
    assert (known["many"], known["few"]) == (DEMO_OUTER.count, DEMO_INNER.count)


def test_pages_tell_what_the_code_makes():
    stack, count = demo_stack(), DEMO_OUTER.count + DEMO_INNER.count
    readme = words_of(ROOT / "README.md")
    assert f"A bar of {count} pieces of {DEMO_OUTER.steel} and {DEMO_INNER.steel}" in readme
    assert "*Eleven bars, three folds" in readme
    start, weld, planned = (
        words_of(ROOT / f"notebooks/{name}.ipynb")
        for name in ("00_start_here", "02_stack_and_fold", "10_plan_a_billet")
    )
    assert "Eleven bars, the two steels in turn. Look at the end: eleven stripes" in start
    for bars, inches in ((DEMO_OUTER, "1/8"), (DEMO_INNER, "1/16")):
        thick = f"{format_length(bars.thickness)} ({inches} in)"
        assert re.search(rf"{bars.steel}, {re.escape(thick)}", start)
    assert "eleven bars were folded" in weld
    assert f"from 4 to {count}, {count + 1} and {count + 2}" in weld
    assert re.search(rf"The stack is {stack.thickness:.1f} mm \([^)]* in\) thick", planned)
    bare = no_loss_length(PlanLesson().given)
    assert re.search(rf"need only be {bare:.0f} mm \([^)]* in\) long", planned)
    tiles = [f"{idea.value(PlanLesson().given):.0f}" for idea in PlanLesson.question.tiles]
    for tile in tiles[:3]:
        assert f"*{tile}*" in planned


def test_the_readme_s_picture_is_what_the_kit_draws_now():
    """Make it anew as DEVELOPERS.md says, if a drawing was changed on purpose."""
    drawn, stored = first_forging(), Image.open(PICTURE)
    assert stored.info["Description"] == drawn.alt
    now, then = (np.asarray(image.convert("L"), float) for image in (drawn.image, stored))
    assert now.shape == then.shape
    assert np.abs(now - then).mean() < 1  # of 255; another machine's letters

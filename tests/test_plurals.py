"""A law: a count of one is told as one, never "1 bands", wherever the kit counts."""

import re

import pytest

from kit.basics.units import Units
from kit.classroom import film
from kit.classroom.paper import care
from kit.classroom.paper.card import card
from kit.classroom.paper.kinds import Asked
from kit.classroom.paper.page import Page
from kit.classroom.show import own_piece
from kit.classroom.show.piece import Voice
from kit.course.own_bar import own_bar
from kit.course.views.forge import Forge
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import DrawOut, Fold, Grind, Hammer
from kit.section.half import half_as_fine
from kit.section.picture import Sheet
from kit.shop.recipes.recipe import Recipe
from tests.lessons import KNOWN

THINGS = (
    "layer|band|bar|piece|fold|step|line|ring|turn|star|heat|weld|gap|time|cut|mark|rung|"
    "hairline|joint|stack|cycle|lap|stripe|minute|day|blade|student|answer"
)
ONE = re.compile(
    rf"(?<![\d×/=^+*-] )(?<![\d.,×:/^-])\b1 (?:\w+ )?(?:{THINGS})s\b(?! ?[/×*])"
)


TWO = Billet(source=Stack.alternate("1084", "15N20", pieces=2, thickness=10.0))
ONE_LEFT = TWO.then(Grind(top=11))
LIKE = Billet(source=Stack.alternate("15N20", "15N20", pieces=11, thickness=4.0))
BARS = {
    "one layer left": ONE_LEFT,
    "one layer, drawn out": ONE_LEFT.then(DrawOut(thickness=5)),
    "one layer, hammered": ONE_LEFT.then(Hammer(depth=1, spacing=20)),
    "one metal": LIKE,
    "one metal, folded twice": LIKE.then(Fold(), DrawOut(thickness=20), Fold()),
    "one metal, hammered": LIKE.then(Hammer(depth=1, spacing=20)),
}


def wrong(texts):
    return [found.group() for text in texts for found in ONE.finditer(text)]


def test_the_law_reads_right():
    assert wrong(["44 layers in 1 bands", "1 even bands"]) == ["1 bands", "1 even bands"]
    assert wrong(["4 layers, 1 bands: 1 folds. 1 cuts"]) == ["1 bands", "1 folds", "1 cuts"]
    assert not wrong(["11 bands, 1,001 layers, 2.1 lines, 1 band", "1 / 3 bands"])


def in_the_forge(bar):
    forge = Forge(bar)
    for at in range(len(bar) + 1):
        forge.do(forge.desk.goes(at))
        for kind in ("end", "face", "side", "slant", "bevel", "solid"):
            forge.set("look:kind", kind)
            yield forge.said
            yield forge.picture.alt
        yield from (
            words
            for entry in forge.strip.entries
            for words in entry.values()
            if isinstance(words, str)
        )
        forge.play()
        yield forge.said


def noted(kind, name, draw):
    """Give the words that a method is handed while something is drawn."""
    words, method = [], getattr(kind, name)

    def note(self, said, *at, **how):
        words.append(said)
        return method(self, said, *at, **how)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(kind, name, note)
        draw()
    return words


SMALL = {"columns": 96, "rows": 64}


@pytest.mark.parametrize("name", BARS)
def test_bars_with_one_of_a_thing(name):
    bar = BARS[name]
    asked = Asked(recipe=Recipe(name="a bar", billet=bar))
    assert not wrong(
        [
            *in_the_forge(bar),
            *noted(Page, "write", lambda: (card(asked), care.care_cards(asked))),
            *noted(
                Sheet, "text", lambda: next(iter(film.forging(bar, columns=96, rows=64)))
            ),
            own_bar(bar).alt,
            own_piece._stop(asked.about, 0.0, own_piece.Gaps()).alt(Voice()),
        ]
    )


def told(name, state):
    values = KNOWN[name].job.fitted(state, Units.MM)[0].values
    with half_as_fine():
        scene = KNOWN[name].scene(**values)
    numbers = (words for n in scene.numbers for words in (n.name, n.value, *n.working))
    job = KNOWN[name].job(**values)
    return [scene.alt, scene.says or "", *numbers, *map(job.remark, values)]


@pytest.mark.parametrize("name", KNOWN)
def test_lessons_with_one_of_a_thing(name):
    start = {setting.key: setting.start for setting in KNOWN[name].settings}
    counts = [
        one
        for one in KNOWN[name].settings
        if getattr(one, "kind", "") in {"count", "minutes"}
    ]
    states = [
        {**start, one.key: value} for one in counts for value in {one.low, max(one.low, 1)}
    ]
    states.append(start | {one.key: one.low for one in counts})
    states += [start | frame for frame in KNOWN[name].job.film[:1]]  # before the answer
    assert not wrong([text for state in states for text in told(name, state)])

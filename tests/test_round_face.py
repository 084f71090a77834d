"""A law: whatever shows "the face" of a bar shows one of some width, at the depth it tells.

The top of a round bar is a line: its face is a flat that was ground on it.
"""

import re
from argparse import Namespace
from functools import partial
from types import SimpleNamespace

import pytest

from kit.classroom import film
from kit.classroom.film import Grinding
from kit.classroom.paper import to_scale
from kit.classroom.show import own_piece
from kit.classroom.show.piece import Voice
from kit.course.own_bar import own_bar
from kit.course.views.forge import Forge
from kit.forge.billet import Billet
from kit.forge.stack import demo_stack
from kit.forge.steps import DrawOut, RoundUp, Twist
from kit.launch.command import render
from kit.metal import etch
from kit.section.trace import see
from kit.shop.patterns import PATTERNS
from kit.shop.recipes.recipe import Recipe

SQUARE = Billet(source=demo_stack()).then(DrawOut(thickness=32, width=32))
ROUND = SQUARE.then(RoundUp())
BARS = {one.name: one.forge() for one in PATTERNS} | {
    "square": SQUARE,
    "round": ROUND,
    "twisted round": ROUND.then(Twist(turn_length=40)),
}
LEAST_WIDTH = 0.3  # of the bar: less is a line, and no face
OFF = re.compile(r"(\d+(?:\.\d+)?) mm (?:ground )?(?:off|down)")

every_bar = pytest.mark.parametrize("name", BARS)


def depth_of(bar, surface):
    """Give how deep below the top a plane lies, mm."""
    return bar.size.thickness / 2 - surface.centre[2]


def width_of(bar, surface):
    """Give what share of the bar's width is steel halfway along a surface."""
    cover = see(bar, surface, etch.tones(bar.source.steels)).cover
    across = cover[:, cover.shape[1] // 2].sum() * surface.pixel
    return across / min(bar.size.width, surface.rows * surface.pixel)


def noted(drawn, *given):
    """See, and note what is seen."""
    drawn.append(given)
    return see(*given)


def told(sentence):
    """Give the depth that a sentence tells, mm; 0 if it tells of none."""
    found = OFF.search(sentence)
    return float(found.group(1)) if found else 0.0


def words_of(line):
    """Read the forge's sentence with its controls."""
    return "".join(str(part.get("text", "")) + str(part.get("shown", "")) for part in line)


def in_the_forge(bar):
    forge = Forge(bar)
    forge.set("look:kind", "face")
    return forge.shown.panels[0].surface, forge


@every_bar
def test_every_face_has_some_width(name, monkeypatch):
    bar = BARS[name]
    asked = Namespace(view="face")
    surfaces = {
        "forge": in_the_forge(bar)[0],
        "render": render._surface(SimpleNamespace(billet=bar), asked, 120, 70),
        "own bar": own_bar(bar).panels[1].surface,
        "tablet": own_piece._stop(
            Recipe(name=name, billet=bar), 0.0, own_piece.Gaps()
        ).surface,
    }
    for key, module, draw in (
        ("film", film, lambda: next(iter(Grinding(bar, 96, 54)))),
        ("card", etch, lambda: to_scale.goal(bar, (40, 38), dot=0.5)),
    ):
        drawn = []
        monkeypatch.setattr(module, "see", partial(noted, drawn))
        draw()
        surfaces[key] = drawn[0][1]
    narrow = {
        key: round(width, 3)
        for key, one in surfaces.items()
        if (width := width_of(bar, one)) < LEAST_WIDTH
    }
    assert not narrow
    flat = bar.level == len(bar)
    deep = {
        key: round(depth_of(bar, surfaces[key]), 2)
        for key in ("forge", "render", "film", *(() if flat else ("card",)))
    }
    assert len(set(deep.values())) == 1, deep


@every_bar
def test_all_tell_the_depth_that_they_show(name, tmp_path):
    bar = BARS[name]
    surface, forge = in_the_forge(bar)
    deep = pytest.approx(depth_of(bar, surface), abs=0.006)
    assert told(forge.shown.alt) == deep
    assert forge.slider.value == deep
    assert told(words_of(forge.seen.parts)) == deep
    assert told(own_bar(bar).alt) == deep
    if bar.level < len(bar):
        assert told(to_scale.goal(bar, (40, 38), dot=0.5).says) == deep
    asked = Namespace(
        recipe="", out=str(tmp_path / "a.png"), view="face", size="96x64", print=False
    )
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(render, "recipe_of", lambda _line: Recipe(name="b", billet=bar))
        assert told(render.run(asked)) == deep
    piece = own_piece._stop(Recipe(name=name, billet=bar), 0.0, own_piece.Gaps())
    assert told(piece.alt(Voice())) == 0
    assert piece.surface.cut is None


def test_a_shallower_face_than_there_is_cannot_be_asked_for():
    _surface, forge = in_the_forge(ROUND)
    assert min(forge.slider.stops) == pytest.approx(0.1 * ROUND.size.thickness)
    assert max(forge.slider.stops) <= ROUND.size.thickness
    forge.set("look:ground", 8.0)
    assert forge.slider.value == 8
    assert told(forge.shown.alt) == 8

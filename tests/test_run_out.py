"""Where an open weld runs out at a picture's edge, a tick that is no steel points to it."""

import argparse
from typing import get_args

import numpy as np
import pytest
from PIL import Image, ImageColor

from kit.course.anvil import void
from kit.course.anvil.acts import VERBS
from kit.course.anvil.desk import Desk
from kit.course.anvil.look import MAIN
from kit.course.anvil.run_out import APART, run_outs
from kit.course.views.forge import Forge
from kit.forge.billet import Billet
from kit.forge.flaw import Flaw
from kit.forge.stack import demo_stack
from kit.forge.steps import Fold
from kit.launch.command import render
from kit.metal import etch
from kit.section.picture import ACCENT
from kit.section.surface import shown_at
from kit.section.welds import crossings
from kit.shop.recipes.recipe import save
from kit.shop.recipes.talk import Kind

INK = np.array(ImageColor.getrgb(ACCENT))
NEAR = 3  # pixels: a line is two or three wide


def open_bar(name: str) -> Forge:
    """Fold with dark steel outside, miss the weld, draw out, and do one thing more."""
    forge = Forge()
    forge.add("fold")
    forge.miss()
    forge.add("draw out")
    forge.add(name)
    forge.do_first()
    return forge


@pytest.mark.parametrize("name", VERBS)
def test_each_place_where_the_gap_meets_the_ends_edge_has_its_tick(name):
    """Followed along the edge itself, without a picture: there it is, and only there."""
    forge = open_bar(name)
    bar, found = forge.bar, void.flaws(forge.desk.history, forge.desk.at)
    if bar.size.round or not found[0]:  # a round bar has no edge to follow
        return
    plane = shown_at(bar, "end", *MAIN[2:])
    cover = etch.seen(bar, plane).cover
    outs = run_outs(cover, void.lines(bar, plane, found))
    x, wide, high = plane.centre[0], bar.size.width / 2, bar.size.thickness / 2
    inside = wide - 0.5 * plane.pixel
    for side in (1, -1):
        y = -side * inside * np.sign(plane.right[1])
        met = crossings(bar, Flaw.whole(bar, step=1), (x, y, high), (x, y, -high))
        assert met or name == "quarter turn", "then it stands on edge"
        rows = plane.rows / 2 + (np.array(met) - high) / plane.pixel
        ticks = np.array([out.y for out in outs if out.right == side])
        for row in ticks:
            assert np.abs(rows - row).min(initial=99) <= NEAR, "a tick at nothing"
        for row in rows:
            near = [[out.x, out.y] for out in outs]
            edge = [plane.columns / 2 - side * wide / plane.pixel, row]
            far = np.hypot(*(np.array(near) - edge).T).min(initial=99)
            assert far <= APART + NEAR, "a gap without a tick"


@pytest.mark.parametrize("kind", get_args(Kind))
@pytest.mark.parametrize("clay", [0, 1])
def test_between_two_dark_layers_it_is_seen_by_a_mark_that_is_no_steel(kind, clay):
    forge = Forge()
    forge.metal.value = clay
    forge.set("look:kind", kind)

    def inked() -> int:
        return int((np.asarray(forge.shown.image) == INK).all(axis=2).sum())

    forge.add("fold")
    assert inked() == 0
    assert "pointed mark" not in forge.picture.alt
    forge.miss()
    hidden = kind == "face"  # all of it lies below
    assert (inked() > 20) != hidden
    assert ("pointed mark" in forge.picture.alt) != hidden
    forge.add("draw out")
    assert (inked() > 20) != hidden


@pytest.mark.parametrize("view", ["solid", "end", "side", "cut"])
def test_a_rendered_picture_has_the_marks_and_says_which_weld(view, tmp_path):
    desk = Desk.of(Billet(source=demo_stack()).then(Fold())).goes(1)
    parser, out = argparse.ArgumentParser(), tmp_path / "a.png"
    render.add(parser)
    for one in (desk, desk.toggled()):
        file = save(one.recipe("mine"), tmp_path / "mine.json")
        asked = [str(file), "--out", str(out), "--view", view, "--size", "600x300"]
        render.run(parser.parse_args(asked))
        with Image.open(out) as image:
            inked = (np.asarray(image.convert("RGB")) == INK).all(axis=2).any()
            said = "The weld of step 1 (fold) did not take." in image.info["Description"]
        assert (inked, said) == (one is not desk,) * 2

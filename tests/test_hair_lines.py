"""What an open weld looks like: how wide, how long, and on which surfaces."""

from dataclasses import replace

import numpy as np
import pytest
from blades import KNIFE, ground
from test_welds import RACK, across, forged

from kit.forge.flaw import Flaw
from kit.forge.steps import (
    DrawOut,
    Fold,
    Grind,
    Hammer,
    RoundUp,
    SetOnTheBias,
    SquareUp,
    Upset,
)
from kit.section import trace
from kit.section.blade import Blade
from kit.section.block import Block
from kit.section.surface import cut
from kit.section.welds import crossings, darkened, hair_lines

TONES = {"1084": 0.1, "15N20": 0.9}


@pytest.mark.parametrize(
    "later",
    [
        (DrawOut(thickness=12),),
        (DrawOut(thickness=12), Grind(top=3)),
        (DrawOut(thickness=20, width=20), RoundUp(), SetOnTheBias(degrees=10), SquareUp()),
        (Grind(sides=3), Fold()),
        (Upset(length=120),),
    ],
)
def test_the_opening_is_that_of_the_finished_bar(later):
    billet = RACK.then(*later)
    flaw = Flaw.whole(billet, interface=6)
    x, y, half = 50.0, 0.1, billet.size.thickness / 2
    plane = cut(billet.size, angle=90, position=100 * x / billet.size.length, rows=4000)
    plane = replace(plane, columns=3, pixel=2.02 * half / 4000, centre=(x, y, 0.0))
    width = hair_lines(billet, plane, [flaw])[:, 1].sum() * plane.pixel
    met = len(crossings(billet, flaw, (x, y, -half), (x, y, half)))
    # rolled by 10° a weld is met 1 / cos 10° wider, and rounding bends it a little
    bent = RoundUp() in later
    assert width == pytest.approx(met * 0.05, rel=0.06 if bent else 0.005)
    assert met == (2 if Fold() in later else 1)


@pytest.mark.parametrize("pixel", [0.004, 0.02, 0.1, 0.3])
@pytest.mark.parametrize("opening", [0.02, 0.05, 0.2])
@pytest.mark.parametrize("angle", [90, 30])
def test_coarse_pixels_hold_as_much_black_as_fine_ones(pixel, opening, angle):
    # By hand: 2 gaps `opening` wide; on a cut at 30° each is 1 / sin 30° = 2 times as wide
    # (magnification of a taper section, facts.md 6).
    billet = forged(1)
    flaw = Flaw.whole(billet, interface=6).model_copy(update={"opening": opening})
    rows = round(1.1 * 12 / np.sin(np.radians(angle)) / pixel)
    plane = cut(billet.size, angle=angle, columns=5, rows=rows, pixel=pixel)
    lines = hair_lines(billet, plane, [flaw])
    by_hand = 2 * opening / np.sin(np.radians(angle))
    assert lines[:, 2].sum() * pixel == pytest.approx(by_hand, rel=0.02)
    assert 0 <= lines.min() <= lines.max() <= 1


def test_the_line_is_as_long_as_the_patch_is_wide():
    flaw = Flaw(interface=4, x=75, y=5, long=20, wide=8, opening=0.5)
    lines = hair_lines(RACK, across(RACK, 0.1, 320, columns=400), [flaw])
    assert lines.sum() * 0.1**2 == pytest.approx(8 * 0.5, rel=0.02)
    places = (np.flatnonzero(lines.max(axis=0) > 0.5) - 199.5) * 0.1
    assert places[[0, -1]] == pytest.approx([1, 9], abs=0.1)


def test_it_shows_on_a_block_and_on_a_blade():
    billet = forged(2, thickness=6).then(Hammer(depth=0.4, spacing=20, seed=2))
    flaw = Flaw.whole(billet, interface=6).model_copy(update={"opening": 0.2})
    block = Block.fitted(billet.size, 320, 200, span=(0, 60))
    blade = Blade.fitted(ground(outline=KNIFE), billet.size, 640, 160)
    for surface in (block, blade):
        lines = hair_lines(billet, surface, [flaw])
        face = trace.see(billet, surface, TONES)
        black = darkened(face, lines)
        assert lines.shape == face.tone.shape
        assert lines[face.cover > 0.99].max() > 0.5
        assert black.tone is face.tone
        assert black.light == pytest.approx(face.light * (1 - lines), abs=1e-6)
        assert hair_lines(billet, surface, []).max() == 0


def test_many_flaws_are_drawn_together():
    billet = forged(1)
    plane = across(billet, 0.02, 600)
    flaws = [Flaw.whole(billet, interface=j) for j in (3, 8)]
    both = hair_lines(billet, plane, flaws)
    alone = [hair_lines(billet, plane, [flaw]) for flaw in flaws]
    assert both == pytest.approx(np.maximum(*alone), abs=1e-6)

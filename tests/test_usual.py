"""What the forge begins a step with, and shows, on any usual bar: seen, or told why not."""

import math
import re
from itertools import combinations, product
from typing import get_args

import numpy as np
import pytest

from kit.basics.units import Units
from kit.course.anvil.acts import VERBS, Laid, begun, done, why_not
from kit.course.anvil.history import History
from kit.course.anvil.look import Look, scene
from kit.course.anvil.sentence import does
from kit.course.views.forge import Forge
from kit.forge.billet import Billet
from kit.forge.stack import Stack, demo_stack
from kit.forge.steels import GRADES
from kit.forge.steps import DrawOut, Fold, RoundUp, SquareUp, Twist
from kit.metal import etch
from kit.metal.colour import contrast_ratio
from kit.metal.eye import LEAST_CONTRAST
from kit.section.surface import shown_at
from kit.section.trace import see
from kit.shop.recipes.talk import Kind
from tests.all_at_once import for_all

CHANGED = 0.02  # share of a side's length, or of a picture's pixels: less is overlooked
TONE = 0.1  # of black to white: pixels that differ by more are another metal's


def stacked(length, width, thick):
    """Stack eleven bars."""
    stack = Stack.alternate(
        "1084", "15N20", pieces=11, thickness=thick / 11, length=length, width=width
    )
    return Billet(source=stack)


STACK = Billet(source=demo_stack())
SQUARE = STACK.then(DrawOut(thickness=20, width=20))
BARS = {
    "the stack": STACK,
    "folded": STACK.then(Fold(), DrawOut(thickness=20)),
    "square": SQUARE,
    "round": SQUARE.then(RoundUp()),
    "twisted": SQUARE.then(RoundUp(), Twist(turn_length=60), SquareUp()),
    "pieces": Laid().done_to(SQUARE),
    "short": stacked(40, 25, 27.5),
    "short and square": stacked(40, 18, 18),
    "short and round": stacked(40, 18, 18).then(RoundUp()),
    "long and thin": STACK.then(DrawOut(thickness=6, width=20)),
    "long and round": SQUARE.then(DrawOut(thickness=10, width=10), RoundUp()),
    "a strip": STACK.then(DrawOut(thickness=4)),
    "a thin strip": STACK.then(DrawOut(thickness=2)),
    "a stub": stacked(30, 8, 8),
    "a large one": stacked(300, 60, 60),
}


def pictures(bar, like):
    """See a bar's end, face and side, a hair below the skin, as of a bar so large."""
    tones = etch.tones(bar.source.steels)
    for kind in ("end", "face", "side"):
        if not (kind == "face" and like.size.round):
            yield see(bar, shown_at(bar, kind, 120, 60), tones).tone


@for_all(product(VERBS, BARS))
def test_what_is_offered_changes_the_bar_visibly_or_says_why_not(name, known):
    bar = BARS[known]
    refused = why_not(name, bar)
    if refused:  # by the bar's shape, which another step changes; not by a number of ours
        assert re.search(r"\b(round|square)\b", refused), refused
        return
    after = done(begun(name, bar), bar)
    sides = zip(bar.size, after.size, strict=True)
    if max(abs(new / old - 1) for old, new in sides) > CHANGED:
        return
    if after.size.round != bar.size.round:
        return
    seen = zip(pictures(bar, bar), pictures(after, bar), strict=True)
    assert max(np.mean(np.abs(new - old) > TONE) for old, new in seen) > CHANGED


@pytest.mark.parametrize("bar", [bar for bar in BARS.values() if bar.size.round])
def test_a_twist_begins_with_a_turn_or_more_on_the_bar(bar):
    assert begun("twist", bar).turn_length <= bar.size.length


def test_a_round_bar_is_not_ground_round_again():
    assert "already" in why_not("grind round", BARS["round"])


@pytest.mark.parametrize("bar", BARS.values(), ids=BARS)
@pytest.mark.parametrize("kind", get_args(Kind))
def test_what_is_cut_off_by_its_frame_is_told_to_be_a_part(kind, bar):
    for angle in (3, 20, 60):
        drawn = scene(bar, Look(kind=kind, angle=angle, bevel=angle))
        surface = drawn.panels[0].surface
        cover = surface.look(0, surface.rows).cover
        edges = cover[0].max(), cover[-1].max(), cover[:, 0].max(), cover[:, -1].max()
        part = "part of" in drawn.alt.lower()
        if kind == "solid":  # drawn smaller than its frame
            assert part == (surface.span[0] > 0)
        else:
            assert part == (max(edges) > 0), (angle, edges)


@pytest.mark.parametrize("angle", [3, 10, 20])
def test_a_slant_that_runs_out_at_the_bars_ends_says_so(angle):
    bar = BARS["short"]  # 40 mm long, 27.5 mm thick: the diagonal lies at 34.5 degrees
    out = bar.size.thickness / math.tan(math.radians(angle)) > bar.size.length
    drawn = scene(bar, Look(kind="slant", angle=angle))
    assert out == ("end to end" in drawn.alt)


@for_all((two,) for two in combinations(GRADES, 2))
def test_metals_that_etch_nearly_alike_are_told_so(two):
    stack = Stack.alternate(*two, pieces=5, thickness=3)
    told = does(History(stack), 0, Units.MM)
    alike = contrast_ratio(*etch.tones(two).values()) < LEAST_CONTRAST
    assert ("etch nearly alike" in told) == bool(alike)
    assert not alike or all(name in told.split("scale. ")[-1] for name in two)
    assert "alike" not in does(History(stack), 0, Units.MM, as_clay=True)


def test_metals_are_listed_by_how_they_etch():
    bars = Forge().bars
    assert list(bars.metals) == ["etch dark", "etch grey", "etch bright"]
    listed = [name for names in bars.metals.values() for name in names]
    tones = list(etch.tones(listed).values())
    assert set(listed) == set(GRADES)
    assert tones == sorted(tones)

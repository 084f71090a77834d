"""Hollows by hand: none quite in its place, and none as deep, or as wide, as the next."""

import math

import numpy as np
import pytest

from kit.forge.steps import Dent, Drill, Groove, Size
from kit.forge.steps.hollows import ball_of

BAR = Size(200.0, 41.569, 8.0)  # width: four rows of 10.392 mm
CUT = {"way": "cut and forged"}
TOOLS = {"ball": Dent, "drill point": Drill, "groove": Groove}


def test_hollows_made_by_hand_lie_off_their_places_and_differ():
    """The middle of each hollow is where the steel came from deepest; 13 in a row."""
    by_hand = {"wander": 2, "differ": 30, "seed": 2}
    step = Dent(**CUT, across=8, depth=3, spacing=12, faces="top", **by_hand)
    after = step.size_after(BAR)
    x, y = np.meshgrid(np.arange(18, 186, 0.1), np.arange(-4, 4, 0.1))
    deep = step.undo((x, y, np.full_like(x, after.thickness / 2)), BAR)[2]
    offs, sizes, depths = [], [], []
    for middle in 12 * np.arange(2, 15) + 6:
        here = np.abs(x - middle) < 6
        low = np.argmin(np.where(here, deep, np.inf))
        offs.append((x.flat[low] - middle, y.flat[low]))
        sizes.append(np.ptp(x[here & (deep < 2.5)]))
        depths.append(BAR.thickness / 2 - deep.flat[low])
    assert np.std(offs, axis=0).min() > 0.3
    assert np.abs(offs).max() < 4
    assert np.std(sizes) > 0.1
    assert np.mean(depths) == pytest.approx(3, rel=0.1)
    # on places 0.1 mm apart a middle is met to less than 0.002 mm
    assert 0.7 * 3 - 0.002 <= min(depths) < 0.9 * 3 < 1.1 * 3 < max(depths) <= 1.3 * 3


CHORDS = {  # how wide a tool's mouth is so deep: Euclid III, 35, and a cone's section
    "ball": lambda deep: 2 * math.sqrt(deep * (2 * BALL - deep)),
    "groove": lambda deep: 2 * math.sqrt(deep * (2 * BALL - deep)),
    "drill point": lambda deep: 2 * deep * math.tan(math.radians(118 / 2)),
}
BALL = (4**2 + 3**2) / (2 * 3)  # mm, of the ball whose hollow is 8 mm wide, 3 mm deep


@pytest.mark.parametrize("tool", CHORDS)
@pytest.mark.parametrize("faces", ["top", "staggered"])
def test_by_hand_the_deeper_a_tool_goes_the_wider_is_its_mouth(tool, faces):
    """The level face is taken back to where it was: that is the hollows' own surface."""
    depth = {} if tool == "drill point" else {"depth": 3}
    by_hand = {"differ": 25, "seed": 2, "faces": faces}
    step = TOOLS[tool](**CUT, across=8, **depth, spacing=14, **by_hand)
    x = np.arange(14, 186, 0.005)
    face = np.full_like(x, step.size_after(BAR).thickness / 2)
    there, _, height = step.undo((x, np.zeros_like(x), face), BAR)
    struck = []
    for middle in 14 * np.arange(1, 13) + 7:
        here = there[(np.abs(there - middle) < 7) & (height < BAR.thickness / 2 - 1e-9)]
        deep = BAR.thickness / 2 - height[np.abs(there - middle) < 7].min()
        struck.append(deep)
        assert np.ptp(here) == pytest.approx(CHORDS[tool](deep), abs=0.02)
    assert max(struck) > 1.2 * np.mean(struck)


@pytest.mark.parametrize("radius", [4.0, 9.5])
def test_a_tool_struck_deeper_leaves_a_wider_hollow(radius):
    """A chord h below the top of a circle is 2·√(2Rh - h²) wide: Euclid III, 35."""
    widths = []
    for deep in (0.6, 1.0, 1.4, 2.0):
        widths.append(2 * math.sqrt(2 * radius * deep - deep**2))
        assert ball_of(widths[-1], deep) == pytest.approx(2 * radius)
    assert widths == sorted(widths)
    assert ball_of(8, 6) == pytest.approx(8), "past its middle it leaves its own width"

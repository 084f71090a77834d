"""The true lie of layers from two cuts: textbook, another library, and the engine."""

import math

import mplstereonet
import numpy as np
import pytest

from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import GrindRound, SetOnTheBias
from kit.metal import etch
from kit.section.surface import Plane
from kit.section.trace import see
from kit.shop.lie import line_angle, true_lie
from kit.shop.photograph import Photograph


def test_the_textbook_exercise():
    # "Example 3: Determine true dip of a plane given two apparent dips", a class sheet at
    # studylib.net/doc/6673877: a dike dips 20° along 296° and 30° along 046°; drawn with
    # ruler and protractor its strike is 090°, its dip 40° N. Exactly: 39.7°
    lie = true_lie((20, 296), (30, 46))
    assert lie.dip == pytest.approx(39.7, abs=0.1)
    assert min(lie.direction, 360 - lie.direction) == pytest.approx(0, abs=0.5)


def test_another_library_finds_the_same_plane():
    random = np.random.default_rng(7)
    for _ in range(40):
        slants = random.uniform(5, 60, 2)
        bearings = random.uniform(0, 360, 2)
        if abs(math.sin(math.radians(bearings[0] - bearings[1]))) < 0.2:
            continue
        mine = true_lie(*zip(slants, bearings, strict=True))
        strike, dip = mplstereonet.fit_girdle(
            *map(list, (slants, bearings)), measurement="lines"
        )
        assert mine.dip == pytest.approx(float(dip), abs=0.05)
        turned = (mine.direction - (float(strike) + 90) + 180) % 360 - 180
        assert turned == pytest.approx(0, abs=0.2)


@pytest.mark.parametrize("rolled", [20.0, 35.0, 55.0])
def test_two_cut_faces_of_the_engine_give_back_how_the_layers_lie(rolled):
    stack = Stack.alternate("1084", "15N20", pieces=25, thickness=1.6, length=200, width=40)
    bar = Billet(source=stack).then(GrindRound(), SetOnTheBias(degrees=rolled))
    tones = etch.tones(bar.source.steels)
    # bearings count from +y (north) towards +x (east); the cuts stand upright
    lines = []
    for bearing in (20.0, 70.0):
        along = (math.sin(math.radians(bearing)), math.cos(math.radians(bearing)), 0.0)
        face = Plane(
            size=bar.size,
            centre=(100.0, 0.0, 0.0),
            right=along,
            up=(0.0, 0.0, 1.0),
            columns=241,
            rows=241,
            pixel=0.08,
        )
        light = see(bar, face, tones).tone
        rising = line_angle(Photograph(light), (120, 120), 100).degrees
        lines.append((-rising, bearing))
    lie = true_lie(*lines)
    assert lie.dip == pytest.approx(rolled, abs=1.0)
    slants, bearings = zip(*lines, strict=True)
    strike, dip = mplstereonet.fit_girdle(slants, bearings, measurement="lines")
    assert lie.dip == pytest.approx(float(dip), abs=0.1)
    turned = (lie.direction - (float(strike) + 90) + 180) % 360 - 180
    assert turned == pytest.approx(0, abs=0.2)
    # the top was rolled towards +y, so the layers fall towards +y: north
    assert min(lie.direction, 360 - lie.direction) == pytest.approx(0, abs=1.5)


def test_parallel_cuts_say_nothing():
    with pytest.raises(KitError, match="parallel"):
        true_lie((20, 40), (20, 40))
    with pytest.raises(KitError, match="parallel"):
        true_lie((20, 40), (-20, 220))

"""How lines run on two cuts of the engine, by another library's fit of their plane."""

import math

import mplstereonet
import pytest

from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import GrindRound, SetOnTheBias
from kit.metal import etch
from kit.section.surface import Plane
from kit.section.trace import see
from kit.shop.photograph import Photograph
from kit.shop.stereology import line_angle


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
    slants, bearings = zip(*lines, strict=True)
    strike, dip = mplstereonet.fit_girdle(slants, bearings, measurement="lines")
    assert float(dip) == pytest.approx(rolled, abs=1.0)
    # the top was rolled towards +y, so the layers fall towards +y: north
    assert (float(strike) + 90 + 180) % 360 - 180 == pytest.approx(0, abs=1.5)

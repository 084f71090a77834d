"""Tones that change within a bar are averaged like those of whole bars."""

from dataclasses import dataclass

import numpy as np
import pytest
from steps import stack

from kit.forge.billet import Billet, fold_and_draw
from kit.section.surface import cut
from kit.section.trace import see

TONES = {"1084": 0.1, "15N20": 0.7}
RACK = Billet(source=stack(7, (3.0, 1.5)))
FOLDED = fold_and_draw(RACK, folds=3, thickness=8)


@dataclass(frozen=True)
class Ramp:
    """Tone that rises evenly through the stack, in so many cells."""

    count: int

    def cells(self, billet):
        """Make equal cells."""
        del billet
        edges = np.linspace(0, 1, self.count + 1)
        return edges, (edges[1:] + edges[:-1]) / 2


@dataclass(frozen=True)
class Halved:
    """The tones of whole bars, each bar cut in two cells."""

    def cells(self, billet):
        """Halve each bar."""
        source = billet.source
        middles = (source.edges[1:] + source.edges[:-1]) / 2
        tones = [TONES[name] for name in source.steels]
        return np.sort(np.append(source.edges, middles)), np.repeat(tones, 2)


@pytest.mark.parametrize("pixels", ["mean", "fine", "point"])
@pytest.mark.parametrize("billet", [RACK, FOLDED], ids=["stack", "folded"])
def test_bars_in_halves_look_like_whole_bars(billet, pixels):
    plane = cut(billet.size, angle=40, columns=60, rows=200, pixel=0.05)
    whole = see(billet, plane, TONES, pixels=pixels).tone
    halved = see(billet, plane, Halved(), pixels=pixels).tone
    assert halved == pytest.approx(whole, abs=2e-6)


def test_a_ramp_through_the_stack_is_seen_as_one():
    # straight across the bar, tone = height through the stack: a straight line
    plane = cut(RACK.size, angle=90, columns=8, rows=400, pixel=RACK.size.thickness / 400)
    seen = see(RACK, plane, Ramp(2000)).tone[:, 4]
    assert seen == pytest.approx(1 - (np.arange(400) + 0.5) / 400, abs=1e-3)

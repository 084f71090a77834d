"""A stack after its heats, in cells for the engine."""

from dataclasses import dataclass

import numpy as np
import pytest
from steps import stack

from kit.basics.errors import KitError
from kit.forge.billet import Billet, fold_and_draw
from kit.forge.bundle import Bundle
from kit.forge.stack import Layer, Stack, demo_stack
from kit.forge.steels import steel
from kit.forge.steps import CutAndStack, DrawOut, Fold
from kit.forge.steps.base import Heat
from kit.metal.cells import MOST_CELLS, cells
from kit.metal.diffusion import TABLE
from kit.metal.evening import content_at, contents_of, mean_contents
from kit.metal.soak import Evened, bars_of, evened, heats_of
from kit.section.surface import cut
from kit.section.trace import see

WELD = Heat(celsius=1230, minutes=5)
SOURCE = demo_stack()
RACK = Billet(source=SOURCE, steps=(DrawOut(thickness=SOURCE.thickness, heat=WELD),))


def forged(folds):
    """Fold, weld and draw out again and again."""
    return RACK.then(*((Fold(heat=WELD), DrawOut(thickness=SOURCE.thickness)) * folds))


each_history = pytest.mark.parametrize("folds", [0, 1, 3, 5, 8])


@each_history
def test_cells_fill_the_stack_and_lose_nothing(folds):
    edges, contents = cells(forged(folds))
    assert (edges[0], edges[-1]) == (0, 1)
    assert np.all(np.diff(edges) > 0)
    assert 50 < len(edges) - 1 <= MOST_CELLS
    assert set(contents) == {"C", "Mn", "Si", "Cr", "Ni"}
    for element, means in contents.items():
        assert means.shape == (len(edges) - 1,)
        bars = np.diff(SOURCE.edges) @ contents_of(SOURCE, element)
        assert np.diff(edges) @ means == pytest.approx(bars, rel=1e-12)


@each_history
def test_every_edge_between_bars_is_an_edge_of_cells(folds):
    edges, _ = cells(forged(folds))
    assert all(np.any(np.abs(edges - edge) < 1e-12) for edge in SOURCE.edges)


@each_history
@pytest.mark.parametrize("element", ["C", "Ni"])
def test_the_blur_is_resolved(folds, element):
    billet = forged(folds)
    edges, contents = cells(billet)
    # strewn through the stack, and thickly about one place where bars meet
    near = SOURCE.edges[4] + np.linspace(-1, 1, 2001) * 1e-3
    heights = np.concatenate([np.linspace(0, 1, 5001), near])
    even = evened(element, heats_of(billet))
    exact = content_at(SOURCE, element, even, heights)
    cell = np.clip(np.searchsorted(edges, heights) - 1, 0, len(edges) - 2)
    off = np.abs(contents[element][cell] - exact)
    start = np.ptp(contents_of(SOURCE, element))
    # some hundredths of the step at most within a cell, and next to nothing on the whole
    assert off.max() < 0.07 * start
    assert np.sqrt(np.mean(off[:5001] ** 2)) < 0.015 * start


def test_without_a_heat_the_cells_are_the_bars():
    billet = fold_and_draw(Billet(source=SOURCE), folds=2)
    edges, contents = cells(billet)
    assert edges == pytest.approx(SOURCE.edges)
    assert contents["Ni"] == pytest.approx(contents_of(SOURCE, "Ni"))


def test_what_has_no_figures_stays():
    billet = Billet(
        source=Stack.alternate("O1", "80CrV2", pieces=4, thickness=3),
        steps=(DrawOut(thickness=6, heat=WELD),),
    )
    edges, contents = cells(billet)
    for element in ("V", "W", "Si"):
        assert element not in TABLE
        bars = mean_contents(billet.source, element, Evened(0.0), edges)
        assert contents[element] == pytest.approx(bars, abs=1e-12)
        assert set(np.round(contents[element], 6)) == {
            steel(name).nominal.get(element, 0.0) for name in ("O1", "80CrV2")
        }


def test_like_bars_side_by_side_need_no_fine_cells():
    bars = [Layer(steel=name, thickness=2) for name in ("1084", "1084", "1084", "15N20")]
    billet = Billet(
        source=Stack(layers=tuple(bars)), steps=(DrawOut(thickness=8, heat=WELD),)
    )
    edges, _ = cells(billet)
    fine = np.diff(edges) < 1e-3
    assert np.all(edges[:-1][fine] > 0.5)
    assert np.any(fine)


def test_faces_of_joined_stacks_are_cut_fine_too():
    even = Billet(source=stack(8, 2.0))
    for joined, step in (
        (True, CutAndStack(pieces=2, heat=WELD)),
        (False, Fold(heat=WELD)),
    ):
        edges, contents = cells(even.then(step))
        assert (np.diff(edges)[0] < 1e-3) == joined
        assert (contents["Ni"][0] > 0.5) == joined


@pytest.mark.parametrize("minutes", [1e-5, 5])  # hardly a blur: cells grow the most
@pytest.mark.parametrize("pieces", [2, 3, 60, 299, 800])
def test_many_bars_stay_within_bounds(pieces, minutes):
    heat = Heat(celsius=1230, minutes=minutes)
    billet = Billet(source=stack(pieces, 0.1), steps=(DrawOut(thickness=20, heat=heat),))
    edges, _ = cells(billet)
    assert len(edges) - 1 <= max(MOST_CELLS, 2 * pieces)
    assert np.all(np.diff(edges) > 0)


def test_a_bar_of_a_bundle_sees_its_later_heats():
    bar = Billet(source=SOURCE, steps=(DrawOut(thickness=20, width=20),))
    billet = Billet(
        source=Bundle(bars=(bar, bar)), steps=(DrawOut(thickness=5, heat=WELD),)
    )
    found = [cells(*each) for each in bars_of(billet)]
    assert len(found) == 2
    alone = cells(bar.then(DrawOut(thickness=10, heat=WELD)))
    assert found[0].contents["C"] == pytest.approx(alone.contents["C"])
    with pytest.raises(KitError, match="A bundle has no heats"):
        cells(billet)


@dataclass(frozen=True)
class ByNickel:
    """Tones that follow the nickel, as an etch would."""

    def cells(self, billet):
        """Give one tone a cell."""
        edges, contents = cells(billet)
        return edges, contents["Ni"] / 2


def test_the_engine_takes_the_cells():
    billet = forged(3).then(DrawOut(thickness=8))
    plane = cut(billet.size, angle=90, columns=6, rows=2000, pixel=8 / 2000)
    seen = see(billet, plane, ByNickel(), double=True).tone[:, 3]
    bars = {name: steel(name).nominal.get("Ni", 0.0) / 2 for name in SOURCE.steels}
    sharp = see(billet, plane, bars, double=True).tone[:, 3]
    assert seen.mean() == pytest.approx(sharp.mean(), abs=1e-3)
    # one copy by hand: 250 pixels are one stack; the lowest is the right way up
    edges = np.linspace(0, 1, 251)
    for picture, even in ((sharp, Evened(0.0)), (seen, evened("Ni", heats_of(billet)))):
        by_hand = mean_contents(SOURCE, "Ni", even, edges) / 2
        assert picture[::-1][:250] == pytest.approx(by_hand, abs=0.005)

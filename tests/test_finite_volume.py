"""Spreading cell by cell: against the exact series, other libraries and closed forms."""

import math
from itertools import pairwise

import numpy as np
import pytest
from scipy import integrate, linalg, special

from kit.forge.billet import Billet
from kit.forge.stack import Stack, demo_stack
from kit.forge.steps import Draw, Fold, Restack
from kit.forge.steps.heat import Heat
from kit.metal.diffusion import agren, diffusivity
from kit.metal.evening import contents_of, mean_contents
from kit.metal.finite_volume import Faces, solve, spread_out
from kit.metal.soak import Evened, evened, heats_of

WELD = Heat(celsius=1230, minutes=2)
LAYERS = Stack.alternate("1095", "mild", pieces=11, thickness=(3.175, 1.5875))


def forged(source, folds):
    """Weld the stack, then fold, weld and draw it out again and again."""
    billet = Billet(source=source, steps=(Draw(thickness=source.thickness, heat=WELD),))
    cycle = (Fold(heat=WELD), Draw(thickness=source.thickness))
    return billet.then(*(cycle * folds))


def soaked(billet, edges, contents, *, steps=100):
    """Go through a billet's heats in one stack, cell by cell."""
    for celsius, minutes, thickness, _joined in heats_of(billet):
        contents = spread_out(
            edges * thickness, contents, diffusivity("C", celsius), minutes, steps=steps
        )
    return contents


@pytest.mark.parametrize("count", [1, 2, 3, 8, 257])
def test_the_band_is_solved(count):
    random = np.random.default_rng(count)
    side = -random.random(count - 1)
    middle = 0.5 + np.append(0, -side) + np.append(-side, 0)
    right = random.random(count)
    full = np.diag(middle) + np.diag(side, 1) + np.diag(side, -1)
    assert solve(side, middle, right) == pytest.approx(linalg.solve(full, right), rel=1e-12)


@pytest.mark.parametrize("folds", [0, 2, 5])
def test_a_real_stack_through_its_folds_as_the_series_has_it(folds):
    billet = forged(LAYERS, folds)
    edges = np.linspace(0, 1, 17 * 120 + 1)
    start = mean_contents(LAYERS, "C", Evened(0.0), edges)
    found = soaked(billet, edges, start)
    exact = mean_contents(LAYERS, "C", evened("C", heats_of(billet)), edges)
    assert found == pytest.approx(exact, abs=2e-4)
    assert 0 < np.ptp(exact) < 0.77


def test_every_copy_of_a_folded_stack_is_alike():
    """Forge the whole pile, not one stack: lay it on its mirror image at each fold."""
    billet = forged(Stack.alternate("1095", "mild", pieces=4, thickness=2.0), 3)
    stack_edges = np.linspace(0, 1, 4 * 90 + 1)
    contents = mean_contents(billet.source, "C", Evened(0.0), stack_edges)
    for step, size in zip(billet.steps, billet.sizes, strict=False):
        if isinstance(step, Fold):
            contents = np.concatenate([contents, contents[::-1]])
        if step.heat:
            laid = step.size_after(size) if isinstance(step, Fold) else size
            edges = np.linspace(0, laid.thickness, len(contents) + 1)
            speed = diffusivity("C", step.heat.celsius)
            contents = spread_out(edges, contents, speed, step.heat.minutes, steps=60)
    copies = contents.reshape(8, -1)
    exact = mean_contents(billet.source, "C", evened("C", heats_of(billet)), stack_edges)
    assert np.ptp(exact) < 0.75
    for number, copy in enumerate(copies):
        upright = copy if number % 2 == 0 else copy[::-1]
        assert upright == pytest.approx(exact, abs=1e-4)


def test_a_restacked_pile_repeats_inside():
    """What `evening.py` leaves out of a restack: the two outer stacks differ a little."""
    source = Stack.alternate("1095", "mild", pieces=6, thickness=2.0)
    billet = Billet(source=source, steps=(Restack(pieces=6), Draw(thickness=12)))
    billet = billet.then(Draw(thickness=12, heat=Heat(celsius=1200, minutes=3)))
    stack_edges = np.linspace(0, 1, 6 * 40 + 1)
    start = np.tile(mean_contents(source, "C", Evened(0.0), stack_edges), 6)
    edges = np.linspace(0, 12, len(start) + 1)
    copies = spread_out(edges, start, diffusivity("C", 1200), 3, steps=80).reshape(6, -1)
    exact = mean_contents(source, "C", evened("C", heats_of(billet)), stack_edges)
    assert copies[2] == pytest.approx(exact, abs=2e-4)
    assert copies[3] == pytest.approx(exact, abs=2e-4)
    assert np.abs(copies[0] - exact).max() > 0.01


@pytest.mark.parametrize("activity", [False, True])
@pytest.mark.parametrize("steps", [1, 30])
def test_not_a_grain_is_lost(steps, activity):
    random = np.random.default_rng(7)
    widths = random.random(900) ** 3 + 1e-3
    edges = np.concatenate([[0], np.cumsum(widths)]) * 1e-2
    start = random.random(900)
    factors = 1 + 0.1 * random.random(900) if activity else 1.0
    end = spread_out(
        edges, start, lambda c: agren(1200, c), 500, factors=factors, steps=steps
    )
    assert np.diff(edges) @ end == pytest.approx(np.diff(edges) @ start, rel=1e-12)
    assert steps == 1 or np.ptp(end) < np.ptp(start)


def test_nothing_happens_in_no_time():
    edges, start = np.linspace(0, 1, 11), np.arange(10) / 10
    kept = start.copy()
    assert spread_out(edges, start, 1e-10, 0) == pytest.approx(start)
    spread_out(edges, start, 1e-10, 10)
    assert np.array_equal(start, kept)


def test_twice_the_steps_a_quarter_of_the_error():
    edges = np.linspace(0, 1, 401)
    start = mean_contents(LAYERS, "C", Evened(0.0), edges)
    minutes = 4e-3 / 1e-10 * 1e-6 / 60
    finest = spread_out(edges, start, 1e-10, minutes, steps=640)
    errors = [
        np.abs(spread_out(edges, start, 1e-10, minutes, steps=steps) - finest).max()
        for steps in (10, 20, 40)
    ]
    for coarse, fine in pairwise(errors):
        assert 3 < coarse / fine < 5.5


def test_twice_the_cells_a_quarter_of_the_error():
    errors = []
    for cells in (55, 110, 220):
        edges = np.linspace(0, 1, cells + 1)
        layers = Stack.alternate("1095", "mild", pieces=11, thickness=1)
        start = mean_contents(layers, "C", Evened(0.0), edges)
        found = spread_out(edges, start, 1e-10, 1e-3 / 1e-4 / 60, steps=400)
        errors.append(np.abs(found - mean_contents(layers, "C", Evened(1e-3), edges)).max())
    for coarse, fine in pairwise(errors):
        assert 3 < coarse / fine < 5


def test_a_face_that_loses_its_carbon():
    # Callister, 6th ed., Problem 5.12: 0.55 % carbon, none at the face, 10 hours with
    # D = 4.3e-11 m²/s: 0.25 % at 1.06 mm
    edges = np.linspace(0, 8, 801)
    start = np.full(800, 0.55)
    end = spread_out(edges, start, 4.3e-11, 600, faces=Faces(bottom=0.0))
    middles = (edges[1:] + edges[:-1]) / 2
    assert np.interp(0.25, end, middles) == pytest.approx(1.06, abs=0.01)
    blur = 2e3 * math.sqrt(4.3e-11 * 36_000)
    assert end == pytest.approx(0.55 * special.erf(middles / blur), abs=2e-4)
    other = spread_out(edges, start, 4.3e-11, 600, faces=Faces(top=0.0))
    assert other[::-1] == pytest.approx(end, abs=1e-12)


def test_carbon_that_follows_itself():
    """A step from 1.0 to 0.2 % with Ågren's law: Boltzmann's similarity, by scipy.

    With x = η √t the law becomes -η/2 c' = (D c')' (Crank, 2nd ed. 1975, chapter 7).
    """
    unit = 1e-10  # m²/s, so that the similarity problem is of order one

    def slope(eta, state):
        content, flow = state  # flow = D c'
        speed = agren(1200, np.clip(content, 0, 2)) / unit
        return np.array([flow / speed, -eta / 2 * flow / speed])

    def ends(left, right):
        return np.array([left[0] - 1.0, right[0] - 0.2])

    eta = np.linspace(-12, 12, 400)
    guess = np.array([0.6 - 0.4 * special.erf(eta / 2.8), np.zeros(400)])
    theirs = integrate.solve_bvp(slope, ends, eta, guess, tol=1e-8, max_nodes=50_000)
    assert theirs.success
    seconds = 400.0
    edges = np.linspace(-2, 2, 1601)  # mm
    middles = (edges[1:] + edges[:-1]) / 2
    start = np.where(middles < 0, 1.0, 0.2)
    found = spread_out(edges, start, lambda c: agren(1200, c), seconds / 60)
    similar = middles * 1e-3 / math.sqrt(unit * seconds)
    inside = np.abs(similar) < 11
    expected = theirs.sol(similar[inside])[0]
    assert found[inside] == pytest.approx(expected, abs=3e-4)
    # and it differs from any single D: the rich side is quicker
    assert abs(found[800] - 0.6) > 0.02


def test_two_steels_with_speeds_of_their_own():
    """Two half spaces: Crank, 2nd ed. 1975, p. 38, composite media, no resistance."""
    quick, slow, seconds = 2e-10, 0.5e-10, 600.0
    edges = np.linspace(-3, 3, 2401)
    middles = (edges[1:] + edges[:-1]) / 2
    speed = np.where(middles < 0, quick, slow)
    start = np.where(middles < 0, 1.0, 0.0)
    found = spread_out(edges, start, speed, seconds / 60)
    ratio = math.sqrt(slow / quick)
    face = 1 / (1 + ratio)  # content at the interface, from equal content and equal flow
    blur = 2e3 * np.sqrt(speed * seconds)
    left = face + (1 - face) * special.erf(np.abs(middles) / blur)
    right = face * special.erfc(middles / blur)
    assert found == pytest.approx(np.where(middles < 0, left, right), abs=1e-3)


def test_the_same_by_another_library():
    fipy = pytest.importorskip("fipy")
    source = demo_stack()
    edges = np.linspace(0, 1, 17 * 20 + 1)
    start = mean_contents(source, "C", Evened(0.0), edges)
    mesh = fipy.Grid1D(nx=340, dx=1 / 340)
    theirs = fipy.CellVariable(mesh=mesh, value=start)
    equation = fipy.TransientTerm() == fipy.DiffusionTerm(coeff=1.0)
    for step in np.diff(4e-3 * np.linspace(0, 1, 201) ** 2):
        equation.solve(var=theirs, dt=float(step))
    # D t / h² = 4e-3 in a stack of 1 mm
    ours = spread_out(edges, start, 1e-10, 4e-3 * 1e-6 / 1e-10 / 60)
    assert ours == pytest.approx(np.array(theirs.value), abs=2e-3 * 0.09)
    assert np.ptp(contents_of(source, "C")) == pytest.approx(0.09)

"""Spreading cell by cell: against the exact series, other libraries and closed forms."""

import math
from itertools import pairwise

import numpy as np
import pytest
from scipy import integrate, linalg, special
from steps import stack

from kit.forge.billet import Billet
from kit.forge.stack import Stack, demo_stack
from kit.forge.steels import steel
from kit.forge.steps import CutAndStack, DrawOut, Fold
from kit.forge.steps.base import Heat
from kit.metal.activity import (
    FACTORS,
    Faces,
    activity_factor,
    carbon_by_activity,
    solve,
    spread_out,
)
from kit.metal.cells import cells
from kit.metal.contents import ATOMIC_WEIGHTS
from kit.metal.diffusion import agren, diffusivity
from kit.metal.evening import contents_of, mean_contents
from kit.metal.soak import Evened, evened, heats_of

WELD = Heat(celsius=1230, minutes=2)
LAYERS = Stack.alternate("1095", "mild", pieces=11, thickness=(3.175, 1.5875))


def forged(source, folds):
    """Weld the stack, then fold, weld and draw it out again and again."""
    billet = Billet(source=source, steps=(DrawOut(thickness=source.thickness, heat=WELD),))
    cycle = (Fold(heat=WELD), DrawOut(thickness=source.thickness))
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
    billet = Billet(source=source, steps=(CutAndStack(pieces=6), DrawOut(thickness=12)))
    billet = billet.then(DrawOut(thickness=12, heat=Heat(celsius=1200, minutes=3)))
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
    for count in (55, 110, 220):
        edges = np.linspace(0, 1, count + 1)
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


GAS = 8.314
EMPTY_IRON = 34_671  # carbon and empty places repel: L(Fe:C,Va) = -34 671


def of_iron(kelvin):
    """Carbide of iron less carbon-free iron, G(Fe:C) - G(Fe:Va)."""
    return 77_207 - 15.877 * kelvin


def published(element, kelvin, share):
    """Give G(M:C) - G(M:Va), the excess of mixing with iron, and L(M:C,Va).

    `share` is iron less alloy on their sublattice.
    """
    log = math.log(kelvin)
    if element == "Cr":
        mixing = -74_319 + 3.2353 * kelvin - (10_833 - 7.477 * kelvin - 1410 * share)
        own = 1200 - 1.94 * kelvin - (7284 + 0.163 * kelvin)
        return own, mixing, -11_977 + 6.8194 * kelvin
    if element == "Ni":
        mixing = 49_074 - 7.32 * kelvin - 25_800 * share
        mixing -= -12_054.355 + 3.27413 * kelvin
        mixing -= (11_082.1315 - 4.45077 * kelvin) * share - 725.8 * share**2
        return 62_000 - 7.6 * kelvin, mixing, -14_902 + 7.5 * kelvin
    if element == "Si":
        mixing = 143_220 + 39.31 * kelvin - 216_321 * share
        mixing -= -125_248 + 41.116 * kelvin - 142_708 * share + 89_907 * share**2
        return -20_510 + 38.7 * kelvin - (51_000 - 21.8 * kelvin), mixing, 0.0
    if element == "Mo":
        mixing = 6000 - (28_347 - 17.691 * kelvin)
        own = -7500 - 8.3 * kelvin - 750_000 / kelvin - (15_200 + 0.63 * kelvin)
        return own, mixing, -41_300
    carbide = -24_981.721 + 316.05 * kelvin - 47.7582 * kelvin * log
    carbide += -0.00781998 * kelvin**2 + 2_632_427 / kelvin
    carbide += -2.643e8 / kelvin**2 + 1.2e10 / kelvin**3
    metal = -3439.3 + 131.884 * kelvin - 24.5177 * kelvin * log
    metal += -0.006 * kelvin**2 + 69_600 / kelvin
    graphite = -17_368.441 + 170.73 * kelvin - 24.3 * kelvin * log
    graphite += -4.723e-4 * kelvin**2 + 2_562_600 / kelvin
    graphite += -2.643e8 / kelvin**2 + 1.2e10 / kelvin**3
    mixing = 34_052 - 23.467 * kelvin - (-7762 + 3.865 * kelvin - 259 * share)
    return carbide - metal - graphite, mixing, -43_433


def log_activity(celsius, carbon, element, percent):
    """Give the logarithm (base ten) of carbon's activity in austenite, to graphite."""
    kelvin = celsius + 273.15
    iron = (100 - carbon - percent) / ATOMIC_WEIGHTS["Fe"]
    alloy = percent / ATOMIC_WEIGHTS[element]
    part = alloy / (iron + alloy)
    filled = carbon / ATOMIC_WEIGHTS["C"] / (iron + alloy)
    own, mixing, crowding = published(element, kelvin, 1 - 2 * part)
    energy = (1 - part) * of_iron(kelvin) + part * own + part * (1 - part) * mixing
    energy += (1 - 2 * filled) * ((1 - part) * -EMPTY_IRON + part * crowding)
    energy += GAS * kelvin * math.log(filled / (1 - filled))
    return energy / (GAS * kelvin * math.log(10))


@pytest.mark.parametrize("element", FACTORS)
@pytest.mark.parametrize("celsius", [1000, 1150, 1250])
@pytest.mark.parametrize("carbon", [0.4, 0.8])
def test_the_factors_against_published_austenites(element, celsius, carbon):
    slope = log_activity(celsius, carbon, element, 1.0) - log_activity(
        celsius, carbon, element, 0.0
    )
    assert slope == pytest.approx(FACTORS[element], abs=0.016)
    assert slope * FACTORS[element] > 0


def test_that_austenite_holds_graphite_where_it_should():
    # graphite and austenite in balance, 2.1 % C at 1154 °C: Callister & Rethwisch, 9th ed.,
    # cast irons; there carbon's activity is 1
    assert log_activity(1154, 2.1, "Ni", 0.0) == pytest.approx(0, abs=0.03)


def test_by_hand():
    # of nickel, silicon, manganese and chromium, as kit.forge.steel_table has them
    exponent = 2 * 0.014 + 0.25 * 0.055 - 0.40 * 0.013 - 0.05 * 0.040
    assert activity_factor(steel("15N20").nominal) == pytest.approx(10**exponent)
    assert activity_factor({"C": 0.9, "P": 0.1}) == 1
    both = activity_factor({"Ni": np.array([0.0, 2.0])})
    assert both == pytest.approx(np.array([1, 10**0.028]))


def soak(minutes, *, second="15N20", thickness=0.25):
    billet = Billet(source=stack(11, 2.0))
    if second != "15N20":
        billet = Billet(
            source=billet.source.alternate("1084", second, pieces=11, thickness=2.0)
        )
    thin = 11 * thickness
    heat = Heat(celsius=1150, minutes=minutes)
    return billet.then(DrawOut(thickness=thin), DrawOut(thickness=thin, heat=heat))


def test_a_small_step_stays_in_carbon():
    billet = soak(120)
    found = carbon_by_activity(billet)
    settled = found.contents["C"]
    source = billet.source
    factors = np.array([activity_factor(steel(name).nominal) for name in source.steels])
    # at rest the activity, content times factor, is one all through, and none is lost
    widths = np.diff(source.edges)
    rest = widths @ contents_of(source, "C") / (widths @ (1 / factors)) / factors
    middles = (np.arange(11) + 0.5) / 11
    seen = settled[np.searchsorted(found.edges, middles) - 1]
    # nickel's blur changes a layer's factor a little at its edges
    assert seen == pytest.approx(rest, abs=2e-3)
    # 0.83 % in the plain layers, 0.77 % in the nickel ones: a step of 8 %, plain is higher
    assert seen[0] / seen[1] == pytest.approx(1.08, abs=0.005)
    even = cells(billet).contents["C"]
    assert np.ptp(even) < 0.002 < np.ptp(settled)


@pytest.mark.parametrize("follow_carbon", [False, True])
def test_nothing_is_lost_on_the_way(follow_carbon):
    billet = soak(2, second="mild")
    found = carbon_by_activity(billet, follow_carbon=follow_carbon)
    widths = np.diff(found.edges)
    bars = np.diff(billet.source.edges) @ contents_of(billet.source, "C")
    assert widths @ found.contents["C"] == pytest.approx(bars, rel=1e-12)
    assert np.ptp(found.contents["C"]) > 0.05


def test_without_alloy_it_is_the_plain_law():
    # 1084 and mild: next to no alloy; the simple D: the exact series
    billet = soak(1, second="mild")
    found = carbon_by_activity(billet, follow_carbon=False)
    exact = cells(billet)
    assert found.edges == pytest.approx(exact.edges)
    assert found.contents["C"] == pytest.approx(exact.contents["C"], abs=4e-3)
    assert found.contents["Mn"] == pytest.approx(exact.contents["Mn"])


def test_before_any_heat_it_is_the_stack():
    billet = Billet(source=stack(5))
    assert carbon_by_activity(billet).contents["C"] == pytest.approx(
        contents_of(billet.source, "C")
    )


def test_carbon_climbs_out_of_silicon():
    """Carbon runs uphill, from little to much, if silicon drives it.

    Darken, Trans. AIME 180 (1949) 430: two bars of 0.48 and 0.44 % carbon, the richer with
    3.8 % silicon, welded and held 13 days at 1050 °C; carbon beside the weld went to 0.32 %
    on the silicon side and 0.59 % on the other (from memory).
    """
    edges = np.linspace(-40, 40, 1601)
    middles = (edges[1:] + edges[:-1]) / 2
    silicon = np.where(middles < 0, 3.8, 0.05)
    start = np.where(middles < 0, 0.48, 0.44)
    end = spread_out(
        edges, start, 3.4e-11, 13 * 24 * 60, factors=activity_factor({"Si": silicon})
    )
    at_weld = end[[799, 800]]
    assert at_weld[0] < 0.40
    assert at_weld[1] > 0.52
    assert at_weld == pytest.approx(np.array([0.32, 0.59]), abs=0.06)

"""The exact solution: against printed values, other libraries and its own plain sum.

The sheet: Crank, *The Mathematics of Diffusion*, 2nd ed. 1975, p. 47 (profile) and p. 48
(uptake), as the package polykin documents and computes them.
"""

import numpy as np
import pytest
from scipy import special

from kit.metal import waves
from kit.metal.waves import WAVES, error_function, staircase

EDGES = np.array([0, 0.13, 0.3, 0.55, 0.8, 1])
CONTENTS = np.array([0.2, 0.95, 0.1, 0.6, 0.6])
HEIGHTS = np.linspace(0, 1, 301)
MEAN = float(np.diff(EDGES) @ CONTENTS)
each_soak = pytest.mark.parametrize("soak", [1e-6, 1e-4, 2e-3, 5.9e-3, 6e-3, 0.03, 0.2])


def sheet(share, places):
    """Give a sheet at 0 whose faces are held at 1, by layers as thick as the sheet.

    Equal layers of 0 and 2 in turn keep their interfaces at the mean, 1. A sheet of
    half-thickness a is a layer of thickness h = 2 a; Fo = D t / a² = 4 D t / h².
    """
    edges = np.array([0.5, 1.5])  # layers of thickness 1, period 2
    soak = share / 4
    heights = 0.5 + (1 + np.asarray(places)) / 2
    return 1 + staircase(heights, edges, np.array([-2.0, 2.0]), soak, 2)


def mirrored(soak, heights=HEIGHTS, **how):
    places, jumps = EDGES[1:-1], np.diff(CONTENTS)
    return staircase(
        heights, np.append(places, 2 - places), np.append(jumps, -jumps), soak, 2, **how
    )


def test_error_function():
    x = np.linspace(-8, 8, 4001)
    assert error_function(x) == pytest.approx(special.erf(x), abs=1e-15)
    # Callister & Rethwisch, 9th ed., Table 5.1, p. 147
    printed = np.array([0.4284, 0.5205, 0.8427])
    assert error_function(np.array([0.4, 0.5, 1.0])) == pytest.approx(printed, abs=5e-5)


def test_middle_of_a_sheet_as_printed():
    # half-thickness 0.2 mm, 100 s, D = 1e-10 m²/s: documentation of polykin,
    # profile_constc_sheet, after Crank p. 47
    share = 1e-10 * 100 / 0.2e-3**2
    assert sheet(share, [0.0])[0] == pytest.approx(0.3145542331096479, abs=1e-12)


def test_uptake_of_a_sheet_as_printed():
    # half-thickness 0.2 mm, 500 s, D = 1e-11 m²/s: polykin, uptake_constc_sheet
    share = 1e-11 * 500 / 0.2e-3**2
    ends = np.array([0.5, 1.5])
    sums = staircase(
        ends, np.array([0.5, 1.5]), np.array([-2.0, 2.0]), share / 4, 2, summed=True
    )
    taken = 1 + np.diff(sums)[0]
    assert taken == pytest.approx(0.39892798988456807, abs=1e-12)


@pytest.mark.parametrize("share", [0.01, 0.1, 0.25, 0.6, 1.5])
def test_profile_of_a_sheet(share):
    diffusion = pytest.importorskip("polykin.hmt.diffusion")
    places = np.linspace(0, 1, 41)
    theirs = [float(diffusion.profile_constc_sheet(share, x)) for x in places]
    assert sheet(share, places) == pytest.approx(np.array(theirs), abs=1e-8)


@each_soak
def test_both_forms_are_the_plain_sum_of_cosines(soak):
    # a_k = -(2 / k π) Σ Δ sin(k π e) exp(-k² π² τ), from the Fourier coefficients of a
    # staircase (any text on heat conduction), with as many waves as it takes
    order = np.arange(1, 4000)
    sines = np.sin(np.pi * np.outer(order, EDGES[1:-1])) @ np.diff(CONTENTS)
    strength = -2 / (np.pi * order) * sines * np.exp(-(order**2) * np.pi**2 * soak)
    plain = np.cos(np.pi * np.outer(HEIGHTS, order)) @ strength
    assert mirrored(soak) == pytest.approx(plain, abs=1e-13)


@pytest.mark.parametrize("summed", [False, True])
def test_the_two_forms_meet_at_the_change_over(summed):
    soak = (2 / WAVES) ** 2
    places, jumps = np.array([0.3, 1.7]), np.array([1.0, -1.0])
    both = [
        form(HEIGHTS, places, jumps, soak, 2, summed=summed)
        for form in (waves._waves, waves._steps)
    ]
    assert np.ptp(both[0] - both[1]) < 1e-14


@each_soak
def test_the_sum_is_the_integral(soak):
    fine = np.linspace(0, 1, 20_001)
    middles = (fine[1:] + fine[:-1]) / 2
    sums = mirrored(soak, fine, summed=True)
    assert np.diff(sums) / np.diff(fine) == pytest.approx(mirrored(soak, middles), abs=2e-3)
    assert sums[-1] - sums[0] == pytest.approx(0, abs=1e-15)


def test_no_time_is_the_staircase():
    inside = np.array([0.05, 0.2, 0.4, 0.7, 0.9])
    assert MEAN + mirrored(0.0, inside) == pytest.approx(CONTENTS, abs=1e-14)


def test_for_ever_is_even():
    assert np.abs(mirrored(5.0)).max() < 1e-15


def test_nothing_crosses_the_outer_faces():
    near = np.array([0.0, 1e-5, 1 - 1e-5, 1.0])
    bottom, above, below, top = mirrored(0.01, near)
    assert above == pytest.approx(bottom, abs=1e-9)
    assert below == pytest.approx(top, abs=1e-9)

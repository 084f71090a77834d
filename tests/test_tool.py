"""The marks of the tools: closed forms against quadrature and hand-books."""

import math

import numpy as np
import pytest
from scipy import integrate

from kit.forge.steps.dent import Cap
from kit.forge.steps.drill import Cone, drill_depth
from kit.forge.steps.groove import Trough


@pytest.mark.parametrize(("across", "depth"), [(6, 1.80), (8, 2.40)])
def test_depth_of_a_drill_point(across, depth):
    # Point angle 118°, the standard of jobber drills (DIN 1897/338 type N; from memory):
    # half of it, 59°, leans from the axis, so depth = radius / tan 59°.
    assert drill_depth(across) == pytest.approx(depth, abs=0.005)
    assert drill_depth(across) == pytest.approx(across / 2 / math.tan(math.radians(59)))


@pytest.mark.parametrize("mark", [Cone(3, 1.8), Cap(3, 1.8), Trough(3, 1.8)])
def test_sums_are_the_integrals_of_the_depth(mark):
    """Closed forms against scipy's quadrature."""
    for v in (0.0, 0.4, 1.7, 2.99):
        line = mark.line(np.array([v]))

        def depth(u, line=line):
            return float(line.at(np.array([u]))[0][0])

        for u in (-2.0, 0.3, 1.5, 4.0):
            total, _ = integrate.quad(depth, 0, u, points=[0.0], limit=200)
            assert float(line.at(np.array([u]))[1][0]) == pytest.approx(total, abs=1e-6)

    def chord(v):
        return float(np.asarray(mark.line(np.array([v])).chord).item())

    for v in (-3.0, -1.0, 0.5, 2.9):
        total, _ = integrate.quad(chord, 0, v, limit=200)
        assert float(mark.across(np.array(v))[0]) == pytest.approx(total, abs=1e-6)


def test_the_bowl_is_near_a_true_ball():
    # a ball through the same rim and bottom: radius (r² + d²) / 2d, from Pythagoras
    r = np.linspace(0, 3, 301)
    ball = (3**2 + 1.8**2) / 2 / 1.8
    true = np.sqrt(ball**2 - r**2) - (ball - 1.8)
    depth, _ = Cap(3, 1.8).line(np.zeros(301)).at(r)
    assert np.abs(true - depth).max() == pytest.approx(0.16, abs=0.01)

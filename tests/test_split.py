"""Split, the feather, against what is known from outside."""

import numpy as np
import pytest
from steps import inside

from kit import KitError
from kit.forge.steps import Size, Split

TALL = Size(30.0, 60.0, 100.0)


def dragged(step, y):
    _, _, z = step.do((y * 0, y, y * 0), TALL)
    return step.drag / 2 - z


def test_all_of_the_drag_in_the_split_half_at_its_reach_none_at_the_sides():
    step = Split(drag=20, reach=8)
    y = np.array([0.0, 8.0, -8.0, 30.0, -30.0])
    assert dragged(step, y) == pytest.approx([20, 10, 10, 0, 0], abs=1e-9)


def test_the_drag_is_that_of_a_rod_drawn_through_a_pipe_of_fluid():
    """Solve (r v')' = 0 between rod and pipe by differences, nothing of the kit's.

    For reach 8 in a half width of 30 the rod is 8² / (30 - 16) thick, by hand.
    """
    rod = 64 / 14
    r = np.linspace(rod, rod + 30, 1501)
    step = r[1] - r[0]
    inner, outer = (r[1:-1] - step / 2), (r[1:-1] + step / 2)
    matrix = np.diag(-(inner + outer)) + np.diag(inner[1:], -1) + np.diag(outer[:-1], 1)
    known = np.zeros(r.size - 2)
    known[0] = -inner[0] * 20.0  # the rod moves by 20, the pipe stands still
    speed = np.linalg.solve(matrix, known)
    y = r[1:-1] - rod
    assert dragged(Split(drag=20, reach=8), y) == pytest.approx(speed, abs=1e-4)


def test_lines_fall_ever_steeper_towards_the_split():
    y = np.linspace(0.01, 29, 400)
    for reach in (2, 8, 14):
        fall = -np.gradient(dragged(Split(drag=20, reach=reach), y), y)
        assert (fall > 0).all()
        assert (np.diff(fall) < 0).all()


def test_the_feather_is_ground_to_what_is_whole():
    step = Split(drag=20, reach=8)
    after = step.size_after(TALL)
    x, y, z = inside(after, 5000)
    _, _, before = step.undo((x, y, z), TALL)
    assert np.abs(before).max() <= 50 + 1e-9
    # in the split the top is just reached, at the sides the bottom
    _, _, ends = step.undo((np.zeros(2), np.array([0, 30.0]), np.array([40, -40.0])), TALL)
    assert ends == pytest.approx([50, -50])


def test_too_strong_a_wedge_is_refused():
    with pytest.raises(KitError, match=r"Drag must be from 0 to 80\.00 mm .* Given: 90"):
        Split(drag=90, reach=8).size_after(TALL)


def test_too_wide_a_reach_is_refused():
    with pytest.raises(KitError, match=r"Reach can be at most 14\.40 mm .* Given: 15"):
        Split(drag=20, reach=15).size_after(TALL)

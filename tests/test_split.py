"""Split, the feather, against what is known from outside."""

import numpy as np
import pytest
from steps import inside

from kit import KitError
from kit.steps import Size, Split

TALL = Size(30.0, 60.0, 100.0)


def test_a_wedge_drags_layers_most_in_the_split_and_a_third_at_its_reach():
    y = np.array([0.0, 8.0, 16.0, -8.0, 30.0])
    _, _, z = Split(drag=20, reach=8).do((y * 0, y, y * 0), TALL)
    drop = z[4] - z
    # exp(-1) = 0.368, exp(-2) = 0.135: any table of exponentials
    assert drop / 20 == pytest.approx([1, 0.368, 0.135, 0.368, 0], abs=0.025)
    assert drop[1] == drop[3], "both halves are alike"


def test_the_feather_is_ground_to_what_is_whole():
    step = Split(drag=20, reach=8)
    after = step.size_after(TALL)
    x, y, z = inside(after, 5000)
    _, _, before = step.undo((x, y, z), TALL)
    assert np.abs(before).max() <= 50 + 1e-9
    # in the split the top is just reached, far beside it the bottom
    _, _, ends = step.undo((np.zeros(2), np.array([0, 1e3]), np.array([40, -40.0])), TALL)
    assert ends == pytest.approx([50, -50])


def test_too_strong_a_wedge_is_refused():
    with pytest.raises(KitError, match=r"Drag must be from 0 to 80\.00 mm .* Given: 90"):
        Split(drag=90, reach=8).size_after(TALL)

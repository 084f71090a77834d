"""The flat shape of a blade: its area by hand, its lines and their slopes."""

import numpy as np
import pytest
from blades import BAR, area, each_family, ground

from kit.basics.errors import KitError
from kit.section.blade import Blade
from kit.section.outline import Outline

# Areas by hand, of length L, height H, point R (mm) and rest L - R: under a bow q² lies
# a third of its box; under the clip's q + 0.65 q (1 - q), 1/2 + 0.65/6 of it.
AREAS = {
    "straight": lambda run: 150 * 30 - 30 * run / 3,
    "drop": lambda run: 150 * 30 - (0.62 * 30 + 0.38 * 30) * run / 3,
    "clip": lambda run: (
        150 * 30 - 0.58 * 30 * run / 3 - 0.42 * 30 * run * (1 / 2 + 0.65 / 6)
    ),
    "leaf": lambda run: 30 * (150 - run / 3 - 0.3 * (150 - run) / 3),
}


@each_family
@pytest.mark.parametrize("point", [15, 40, 70])
def test_an_outline_covers_its_area(family, point):
    outline = Outline(family=family, length=150, height=30, point=point)
    blade = Blade.fitted(ground(outline=outline), BAR, 700, 400)
    # within a twentieth of a pixel all along the outline
    allowed = 0.05 * blade.pixel * 2 * (150 + 30)
    assert area(blade) == pytest.approx(AREAS[family](1.5 * point), abs=allowed)


@each_family
def test_edge_and_spine_meet_in_the_tip_and_stay_in_their_height(family):
    outline = Outline(family=family, length=150, height=30)
    along = np.linspace(0, 150, 1001)
    edge, spine = outline.edge(along), outline.spine(along)
    assert edge.above[-1] == pytest.approx(spine.above[-1])
    assert (spine.above - edge.above)[:-1].min() > 0
    assert edge.above.min() == pytest.approx(0, abs=1e-9)
    assert spine.above.max() == pytest.approx(30)


@each_family
def test_the_slope_of_an_outline_is_that_of_its_line(family):
    outline, step = Outline(family=family, length=150, height=30), 1e-6
    along = np.linspace(1, 149, 38) + 0.123
    for line in (outline.edge, outline.spine):
        rise = line(along + step).above - line(along - step).above
        assert line(along).slope == pytest.approx(rise / (2 * step), abs=1e-6)


def test_an_outline_of_no_family_is_refused():
    with pytest.raises(
        KitError, match="Outline must be one of: straight, drop, clip, leaf"
    ):
        Outline(family="cleaver", length=150, height=30)

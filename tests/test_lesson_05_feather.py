"""Lesson 05, the wedge: a feather, and what it costs."""

import numpy as np
import pytest

from kit.course.lessons.press import WEDGE, PressLesson

scene = PressLesson.scene


def test_feather():
    shown = scene(tool=WEDGE)
    assert {n.name: n.value for n in shown.numbers}["Drag of the wedge"] == "18.0 mm"
    assert "barbs of a feather" in shown.alt
    assert "illustrative" in shown.says
    assert len(shown.numbers) <= 5


@pytest.mark.parametrize(
    "given",
    [
        {"before": 4.0, "depth": 3.2, "across": 20.0},
        {"before": 20.0, "depth": 10.0, "across": 3.0},
        {"before": 20.0, "depth": 0.0},
        {"layer": 1.0},
    ],
    ids=str,
)
def test_every_feather_can_be_drawn(given):
    assert scene(tool=WEDGE, **given).numbers


def test_the_drawn_out_feather_is_the_split_block_with_longer_barbs():
    """What is drawn out along the quill leans more by the stretch and the narrowing."""
    shown = scene(tool=WEDGE)
    _, split, drawn = (panel.billet for panel in shown.panels)
    nudge = 1e-4

    def lean(billet, share):
        y = np.array([-nudge, nudge, 0, 0]) + share * billet.size.width / 2
        z = np.array([0, 0, -nudge, nudge])
        _, _, height = billet.undo((np.full(4, 10.0), y, z))
        return np.ptp(height[:2]) / np.ptp(height[2:])

    for share in (0.1, 0.5, 0.9):
        longer = drawn.size.thickness / split.size.thickness
        narrower = split.size.width / drawn.size.width
        steeper = lean(drawn, share) / lean(split, share)
        assert steeper == pytest.approx(longer * narrower, rel=1e-3)

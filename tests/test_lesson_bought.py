"""A bar you bought: how thick to buy it, tried on the bar itself."""

import itertools
import math

import numpy as np
import pytest

from kit.basics.errors import KitError
from kit.basics.typed import parse_length
from kit.basics.units import Units
from kit.course.lessons.bought import BoughtLesson
from kit.course.lessons.bought_told import advice, bounds
from kit.course.views.lesson import view_of
from kit.course.views.settings import Pick
from kit.section.half import half_as_fine
from kit.shop.bought import BOUGHT, FLAT, LADDER, RAINDROP, TWIST
from tests.lessons import KNOWN

STEP = 0.1  # mm, of the slider
STATES = [
    {"bought": bought, "layers": layers, "edge": edge, "skin": skin, "hot": hot}
    for bought in range(len(BOUGHT))
    for layers, edge, skin, hot in (
        (20, 0.8, 0.3, 5),
        (40, 0.5, 0.0, 20),
        (30, 1.2, 0.6, 0),
    )
]


def met_at_the_edge(job):
    """Count layers that lie between a drop's middle and beside it, in the bar itself.

    Taken back by the steps' own undo, at the height of the finished edge's skin.
    """
    bar = job.bar
    x = np.linspace(0.3, 0.7, 1501) * bar.size.length
    height = np.full_like(x, (job.edge - 2 * job.scale) / 2)
    z = bar.undo((x, np.zeros_like(x), height))[2]
    return np.ptp(z) / (bar.sizes[0].thickness / job.layers)


@pytest.mark.parametrize("state", STATES, ids=str)
def test_the_thickness_that_is_advised_is_where_the_bars_own_count_turns(state):
    """From both sides: of the spine at the thinnest, of the pattern at the thickest."""
    job = BoughtLesson(**state)
    least, most = bounds(job, Units.MM)
    thin, enough = (BoughtLesson(**state, thickness=t) for t in (least - STEP, least))
    assert thin.back < job.spine
    assert enough.back == pytest.approx(job.spine)
    assert enough.grind.spine == pytest.approx(job.spine - 2 * job.scale)
    if math.isinf(most):
        assert job.bought == TWIST
        return
    if job.bought == FLAT:
        inside, outside = (job.grind.crossed(t / job.layers) for t in (most, most + STEP))
        assert inside.lines >= 1 - 1e-9 > outside.lines
        return
    inside, outside = (
        BoughtLesson.model_construct(**{**job.values, "thickness": t})
        for t in (most, most + STEP)
    )
    assert met_at_the_edge(inside) >= 1 - 1e-3
    assert met_at_the_edge(outside) < 1


@pytest.mark.parametrize("units", list(Units))
@pytest.mark.parametrize("bought", range(len(BOUGHT)))
def test_the_first_sentence_answers_the_slider(bought, units):
    for thickness, spine in itertools.product((2.5, 4.0, 6.0, 12.0), (2.0, 4.0, 8.0)):
        job = BoughtLesson(bought=bought, thickness=thickness, spine=spine)
        says = advice(job, units)
        assert says.startswith(("Buy ", "No bar has both"))
        assert "no face tells" in says
        assert "fake" not in says
        if says.startswith("Buy"):
            low = says.split(" or more")[0].split(" to ")[0].removeprefix("Buy ")
            assert parse_length(low) == pytest.approx(bounds(job, units)[0], rel=0.01)


def test_it_is_said_before_and_after_a_move():
    job = BoughtLesson(thickness=7)
    said = advice(job, Units.MM)
    assert job.remarked("thickness", Units.MM) == job.as_seen(Units.MM).says == said


def test_a_twist_reaches_the_edge_whatever_was_bought():
    job = BoughtLesson(bought=TWIST, thickness=12)
    assert met_at_the_edge(job) > 1


def test_bar_and_blade_are_drawn_at_one_scale_and_over_one_place():
    bar, blade = (panel.surface for panel in BoughtLesson.scene().panels)
    assert bar.pixel == blade.pixel
    seen = [surface.look(60, 61, float).points[0].ravel() for surface in (bar, blade)]
    assert np.allclose(*seen, atol=bar.pixel)


@pytest.mark.parametrize("bought", [LADDER, RAINDROP])
def test_what_was_seen_on_the_face_is_there_at_the_skin(bought):
    begun = BoughtLesson(bought=bought)
    whole = {**begun.values, "edge": begun.thickness, "hot": 0.0}
    met = met_at_the_edge(BoughtLesson.model_construct(**whole))
    assert begun.shown == pytest.approx(met, rel=1e-3)


IDLE = [
    ("BoughtLesson", {}),
    ("BoughtLesson", {"minutes": 0.0, "edge": 1.5, "spine": 1.5}),
    ("BevelsLesson", {"kind": 0}),
    ("BevelsLesson", {"kind": 1}),
]


def beside(setting, value):
    """Give another value of a control."""
    if isinstance(setting, Pick):
        return (value + 1) % len(setting.options)
    return setting.low if value != setting.low else setting.high


@pytest.mark.parametrize(("name", "state"), IDLE, ids=str)
def test_a_control_is_shut_where_it_changes_nothing_and_only_there(name, state):
    kind = KNOWN[name]
    state = {**{s.key: s.start for s in kind.settings}, **state}
    job = kind.job.asked(state, Units.MM)

    def seen(state):
        scene = kind.scene(**state)
        return scene.numbers, scene.says, scene.image

    with half_as_fine():
        before = seen(state)
        for setting in kind.settings:
            key = setting.key
            try:
                after = seen({**state, key: beside(setting, state[key])})
            except KitError:
                continue  # it moves what cannot be without it
            assert (after != before) == (key not in job.idle), key


def test_the_page_shuts_what_changes_nothing():
    view = view_of("06")
    view.lock(False)
    view.set(kind=0)
    assert view.controls["wheel"].disabled
    view.set(kind=2)
    assert not view.controls["wheel"].disabled
    view.lock(True)
    assert view.controls["wheel"].disabled

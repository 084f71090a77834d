"""The bench and its code: lines follow what is shown, and a bar of one's own is laid."""

import html
import re

import pytest

from kit import DrawOut, Fold, KitError, SquareUp, Twist, pattern
from kit.basics.units import Units
from kit.course.map import LESSONS
from kit.course.own_bar import own_bar
from kit.course.views.lesson import lesson, view_of
from kit.shop.patterns import PATTERNS
from tests.lessons import KNOWN
from tests.test_workings import states


def ran(code):
    made = {}
    exec(code, made)  # noqa: S102  (it is ours: that is what is tried)
    return made


@pytest.mark.parametrize("key", LESSONS)
def test_the_lines_make_what_is_shown_and_follow_the_controls(key):
    view = view_of(key)
    assert view.code.text == "", "nobody asked for it"
    view.code.opened = True
    for state in states(LESSONS[key].__name__, 2):
        view.set(**state)
        made = ran(view.code.text)
        if view.shown.panels:
            first = view.shown.panels[0]
            assert (made["bar"], made["face"]) == (first.billet, first.surface)
            assert view.bar == first.billet
        else:
            assert made["picture"].tobytes() == view.shown.image.tobytes()
            with pytest.raises(KitError, match="holds no bar"):
                _ = view.bar


def test_what_changed_is_marked():
    view = view_of("01")
    view.code.opened = True
    assert view.code.changed == []
    view.set(thickness=3)
    lines = view.code.text.splitlines()
    marked = [lines[number] for number in view.code.changed]
    assert any("thickness=3" in line for line in marked)
    assert not any("import" in line for line in marked)


@pytest.mark.parametrize("key", LESSONS)
def test_the_lines_are_read_out_when_asked_and_cover_nothing(key):
    """They stand on the page; the line that stays in sight has one sentence to see."""
    view = view_of(key)
    view.code.opened = True
    view.code._handle_custom_msg({"event": "read"}, [])
    seen, heard = view.says.value.split('<span class="kit-heard">')
    assert html.escape(view.code.text.splitlines()[-1]) in heard
    assert len(re.sub("<[^>]+>", "", seen)) < 60


def test_a_bar_of_ones_own_lies_on_the_bench_until_a_control_moves():
    view = view_of("02")
    lessons = view.picture.alt
    mine = view.bar.then(DrawOut(thickness=view.bar.size.thickness * 0.8))
    view.take(mine)
    assert view.shown.panels[0].billet == mine
    assert view.picture.alt.startswith("Your own bar")
    view.looks.unit_choice.value = 1  # it stays when the units change
    assert " in" in view.picture.alt
    assert view.shown.panels[0].billet == mine
    view.reset()
    view.looks.unit_choice.value = 0
    assert view.picture.alt == lessons


@pytest.mark.parametrize("key", ["01", "02"])
def test_the_lessons_own_bar_leaves_the_bench_as_it_is_or_brings_it_back(key):
    view = view_of(key)  # so a page run from top to bottom keeps its first picture
    before, said = view.picture.alt, view.says.value
    for bar in (view.bar.then(), view.bar.then(Fold()), view.bar):
        view.take(bar)
        assert (view.picture.alt == before) == (bar == view.bar)
    assert (view.picture.alt, view.says.value) == (before, said)


def test_a_cell_run_again_begins_with_the_lessons_bar_again():
    view = view_of("04")
    lessons = view.bar
    for _ in range(2):  # a round bar, made square: a second time it could not be
        view.take(view.bar.then(SquareUp()))
    assert view.bar == lessons


def test_what_is_no_bar_is_refused_and_the_old_picture_stays():
    view = view_of("02")
    before = view.picture.alt
    for wish in ("a bar", None, DrawOut(thickness=3), 7):
        with pytest.raises(KitError, match="takes a bar"):
            view.take(wish)
    assert view.picture.alt == before


def test_before_the_prediction_nothing_is_laid():
    _, view, *_ = lesson("02")
    before = view.picture.alt, view.says.value
    view.take(view.bar.then(DrawOut(thickness=8)))
    assert (view.picture.alt, view.says.value) == before


@pytest.mark.parametrize("known", PATTERNS, ids=lambda known: known.name)
@pytest.mark.parametrize("units", [Units.MM, Units.INCH_FRACTION])
def test_any_bar_can_be_laid(known, units):
    bar = known.forge()
    scene = own_bar(bar, units)
    assert f"{bar.layers} layers" in scene.alt
    assert len(scene.panels) == 3
    assert (" mm" in scene.alt) == (units is Units.MM)


def test_a_round_bar_can_be_laid():
    bar = pattern("star").forge()
    twisted = bar[: next(n for n, s in enumerate(bar.steps, 1) if isinstance(s, Twist))]
    assert own_bar(twisted).alt


def test_every_view_has_its_code():
    assert all(hasattr(known.view(), "code") for known in KNOWN.values())


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda pattern: pattern.name)
def test_every_cut_of_a_bar_of_ones_own_is_a_surface_and_no_line(pattern):
    forged = pattern.forge()
    for bar in (forged, *(forged[:steps] for steps in range(len(forged.steps)))):
        for panel in own_bar(bar).panels:
            look = panel.surface.look(0, panel.surface.rows, float)
            rows = (look.cover[1:-1, 1:-1] > 0.5).any(axis=1)
            assert rows.sum() >= 10, bar.steps[-1:]

"""Counting along a drawn line: true to the picture, to the stack, and to the reader.

The picture is asked independently: a strip of the same face is drawn along the line, many
times finer, each pixel the steel at its middle, and its changes of tone are counted.
"""

import re
from collections import Counter

import numpy as np
import pytest
from PIL import Image
from steps import stack
from test_census import forging

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.course.lessons.cut import CutLesson
from kit.course.lessons.fold import FoldLesson
from kit.course.lessons.line import DIAGRAM, NO_STEEL, ROUNDED, Lines
from kit.course.lessons.scene import Panel, Scene
from kit.course.map import LESSONS
from kit.course.own_bar import own_bar
from kit.course.views.lesson import lesson, view_of
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.section.block import Block
from kit.section.surface import Plane, cut
from kit.section.trace import see
from kit.shop.patterns import PATTERNS

FINER = 48
SPECK = 1.5  # fine pixels: what is thinner may fall between two


def scene_of(*panels, wide=640, high=480):
    image = Image.new("RGB", (wide, high))
    return Scene(image=image, alt="", numbers=(), panels=panels)


def some_face(draw, billet):
    """Give a plane at random through the bar, and where it stands on the sheet."""
    length, width, thickness = billet.size
    right = draw.normal(size=3)
    right /= np.linalg.norm(right)
    up = np.cross(right, draw.normal(size=3))
    up /= np.linalg.norm(up)
    share = draw.uniform(-0.25, 0.25, 3)
    centre = (length * (0.5 + share[0]), width * share[1], thickness * share[2])
    columns, rows = (int(part) for part in draw.integers(60, 120, 2))
    pixel = float(draw.uniform(0.8, 1.6)) * max(thickness, width / 2) / rows
    plane = Plane(
        size=billet.size, centre=centre, right=tuple(right), up=tuple(up),
        columns=columns, rows=rows, pixel=pixel,
    )  # fmt: skip
    return plane, tuple(int(part) for part in draw.integers(5, 150, 2))


def tones_along(billet, plane, start, end):
    """Draw the line much finer, one pixel wide; give its bands, and mm of it in steel."""
    names = sorted({name for laid in billet.laid for name in laid.stack.steels})
    tones = {name: (1 + place) / (1 + len(names)) for place, name in enumerate(names)}
    right, up = np.array(plane.right), np.array(plane.up)
    middle = (start + end + 1 - (plane.columns, plane.rows)) / 2  # pixels from the centre
    long = np.hypot(*(end - start))
    way = (end - start) / long
    along, across = way[0] * right - way[1] * up, way[1] * right + way[0] * up
    strip = Plane(
        size=plane.size,
        centre=tuple(plane.centre + plane.pixel * (middle[0] * right - middle[1] * up)),
        right=tuple(along), up=tuple(across), columns=round(FINER * long),
        rows=1, pixel=plane.pixel / FINER,
    )  # fmt: skip
    face = see(billet, strip, tones, pixels="point", double=True)
    values = face.tone[0][face.cover[0] > 0.5]
    edges = np.flatnonzero(np.diff(values)) + 1
    lengths = np.diff([0, *edges, len(values)])
    tones = values[[0, *edges]][lengths >= SPECK]
    return 1 + np.count_nonzero(np.diff(tones)), len(values) * strip.pixel


BARS = [*range(12), *(known for known in PATTERNS if known.forge().layers < 400)]


@pytest.mark.parametrize("bar", BARS, ids=lambda bar: getattr(bar, "name", str(bar)))
def test_the_count_is_what_the_picture_shows(bar):
    """A history at random, or what the trade names; a face and a line at random."""
    draw = np.random.default_rng(bar if isinstance(bar, int) else len(bar.name))
    billet = forging(draw, tilting=True) if isinstance(bar, int) else bar.forge()
    plane, corner = some_face(draw, billet)
    scene = scene_of(Panel(billet, plane, corner))
    start, end = (
        (draw.uniform(*along), draw.uniform(0.1, 0.9))
        * np.array([plane.columns, plane.rows])
        for along in ((0.02, 0.2), (0.8, 0.98))
    )
    places = [(place + corner + 0.5) / (640, 480) for place in (start, end)]
    try:
        found = Lines(scene).count(tuple(np.concatenate(places)), Units.MM)
    except KitError as refused:
        assert str(refused) == NO_STEEL  # noqa: PT017
        return
    bands, long = tones_along(billet, plane, start, end)
    speck = SPECK * plane.pixel / FINER
    unseen = int((band_lengths(found.census) < 2 * speck).sum())
    assert abs(bands - found.census.bands) <= 2 * unseen
    assert found.census.borders[-1] == pytest.approx(long, abs=1.5 * plane.pixel)


def band_lengths(census):
    thick, lengths = np.diff(census.borders), [0.0]
    for place, part in enumerate(thick):
        if place and census.steels[place] != census.steels[place - 1]:
            lengths.append(0.0)
        lengths[-1] += part
    return np.array(lengths)


@pytest.mark.parametrize("angle", [90, 45, 12])
@pytest.mark.parametrize("pieces", [3, 9, 24])
def test_through_a_straight_stack_every_layer_is_met(pieces, angle):
    bar = Billet(source=stack(pieces, 3.0, length=500.0))
    plane = cut(bar.size, angle=angle, columns=200, rows=200, pixel=3.5)
    line = (120 / 640, 10 / 480, 120 / 640, 215 / 480)
    found = Lines(scene_of(Panel(bar, plane, (20, 12)))).count(line, Units.MM)
    across = bar.size.thickness / np.sin(np.radians(angle))
    assert found.census.layers == bar.layers == bar.tally.layers == pieces
    assert found.census.borders[-1] == pytest.approx(across)
    assert found.census.mean == pytest.approx(across / pieces)
    assert found.stretch.cut == (False, False)


@pytest.mark.parametrize("folds", [0, 1, 4, 9])
def test_in_lesson_02_the_line_meets_what_the_numbers_say(folds):
    made = FoldLesson(folds=folds)
    lines = Lines(made.draw(Units.MM))
    found = lines.count(lines.offered(), Units.MM)
    assert (found.census.layers, found.census.bands) == (
        made.billet.layers,
        made.billet.bands,
    )
    steels = Counter(found.census.steels)
    assert f"{made.billet.layers:,} layers in {made.billet.bands:,} band" in found.says
    assert all(f"{many:,} of {name}" in found.says for name, many in steels.items())
    assert "thinnest" in found.says


def test_a_line_over_an_edge_counts_on_one_face():
    # The end of a bar and its upper face, seen from a corner: each is cut off at the edge.
    bar = Billet(source=Stack.alternate("1084", "15N20", pieces=9, thickness=3.0))
    block = Block.fitted(bar.size, 600, 400, span=(bar.size.length - 30, bar.size.length))
    lines = Lines(scene_of(Panel(bar, block, (0, 0))))
    high = bar.size.thickness / 2
    column, row = block.place((bar.size.length, 0, high))
    down = block.place((bar.size.length, 0, -high))
    line = (
        (column + 0.5) / 640,
        (row - 60) / 480,
        (down[0] + 0.5) / 640,
        (down[1] + 9) / 480,
    )
    found = lines.count(line, Units.MM)
    assert found.census.layers == 9
    assert found.census.borders[-1] == pytest.approx(27, abs=0.2)
    assert "of this line on one face" in found.says


def test_round_a_round_bar_no_straight_line_is_told():
    bar = next(one for one in PATTERNS if one.name == "low twist").forge()
    while not bar.size.round:
        bar = bar[: len(bar) - 1]
    block = Block.fitted(bar.size, 600, 400)
    middle = block.place((bar.size.length / 2, 0, 0))
    line = (
        middle[0] / 640,
        (middle[1] - 25) / 480,
        middle[0] / 640,
        (middle[1] + 25) / 480,
    )
    with pytest.raises(KitError, match=re.escape(ROUNDED)):
        Lines(scene_of(Panel(bar, block, (0, 0)))).count(line, Units.MM)


@pytest.mark.parametrize("key", LESSONS)
def test_every_lesson_offers_a_line_or_says_why_not(key):
    lines = Lines(LESSONS[key].scene())
    if not lines.scene.panels:
        with pytest.raises(KitError, match=DIAGRAM):
            lines.offered()
        return
    for units in Units:
        found = lines.count(lines.offered(), units)
        assert found.census.layers > 1
        assert found.says.count(". ") == 0
        assert found.says.endswith(".")
        assert ("mm" in found.says) == (units is Units.MM)


@pytest.mark.parametrize("known", PATTERNS, ids=lambda known: known.name)
def test_on_a_bar_of_ones_own(known):
    lines = Lines(own_bar(known.forge()))
    assert lines.count(lines.offered(), Units.MM).census.layers > 1


def test_a_layer_cut_short_by_the_line_is_not_called_thin():
    # By hand: 9 bars of 3 mm; the line begins and ends 1 mm within one.
    bar = Billet(source=stack(9, 3.0))
    plane = cut(bar.size, angle=90, columns=60, rows=300, pixel=0.1)
    line = (30 / 640, (150 - 35) / 480, 30 / 640, (150 + 35) / 480)
    found = Lines(scene_of(Panel(bar, plane, (0, 0)))).count(line, Units.MM)
    assert found.says.startswith("Along this 7.0 mm line: 3 layers in 3 bands, 2 of ")
    assert found.says.endswith("; the one crossed whole is 3.0 mm.")
    assert found.short == "3 layers, mean 3.0 mm"


def test_on_a_face_a_line_that_ends_within_it_cuts_its_layers_short():
    lines = Lines(own_bar(next(one for one in PATTERNS if one.name == "ladder").forge()))
    found = lines.count((0.62, 0.34, 0.85, 0.16), Units.MM)
    assert found.stretch.cut == (True, True)
    assert "crossed whole: mean" in found.says


def test_where_no_steel_is_one_sentence_says_so():
    with pytest.raises(KitError, match=NO_STEEL):
        Lines(CutLesson.scene()).count((0, 0, 0.01, 0), Units.MM)


# --- on the bench ---------------------------------------------------------------------


def pressed(view):
    view.picture._handle_custom_msg({"event": "count"}, [])


def test_the_bench_counts_says_and_puts_away():
    view = view_of("01")
    pressed(view)
    assert len(view.picture.line) == 4
    assert "Along the 36.0 mm of steel under this line: 9 layers" in view.says.value
    assert view.picture.counted["words"] == "9 layers, mean 4.0 mm"
    view.picture.line = [0.8, 0.5, 0.8, 0.52]
    assert "Along this " in view.says.value
    pressed(view)
    assert view.picture.line == []
    assert view.picture.counted == {}
    assert "put away" in view.says.value


def test_it_waits_while_a_control_moves_and_follows_when_it_rests():
    view = view_of("01")
    view.picture.line = [0.8, 0.1, 0.8, 0.99]
    view.controls["layers"].value = 15.0
    assert view.picture.counted == {}, "an old count must not stand beside a new picture"
    for _ in range(2):
        view.rest()
        assert view.says.value.count("15 layers in 15 bands") == 1
    assert view.picture.counted["words"].startswith("15 layers")
    view.looks.unit_choice.value = 1
    assert "in of steel under this line: 15 layers" in view.says.value


def test_on_another_face_the_line_is_taken_off():
    view = view_of("02")
    pressed(view)
    view.take(PATTERNS[0].forge())
    assert view.picture.line == []
    assert "another face is shown" in view.says.value
    pressed(view)
    assert "layers in " in view.says.value


def test_before_the_prediction_it_is_shut():
    predict, view, *_ = lesson("02")
    assert view.picture.shut
    pressed(view)
    assert view.picture.line == []
    predict.tiles.value = 0
    predict.observe_now()
    assert not view.picture.shut
    pressed(view)
    assert view.picture.line != []
    view.lock(True)  # the next person's
    assert (view.picture.line, view.picture.counted) == ([], {})


def test_a_diagram_says_that_it_is_one():
    view = view_of("08")
    view.lock(False)
    pressed(view)
    assert view.picture.line == []
    assert DIAGRAM in view.says.value


@pytest.mark.parametrize(
    "line", [[0.1], [0.1, 0.2, float("nan"), 0.4], [0.5, 0.5, 0.5, 0.5]]
)
def test_a_line_that_is_none_gets_one_sentence(line):
    view = view_of("01")
    view.picture.line = line
    assert "kit-refused" in view.says.value

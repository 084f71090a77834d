"""The blade of lesson 07: its line measured on the solid, against similar triangles.

Outside the kit: a flat bevel rises from e/2 at the edge to S/2 at the spine, so it meets
the core's face, c/2 from the middle, at y = (c/2 - e/2) / ((S - e)/2) × H. That is
Euclid, Elements VI.4 (similar triangles), and the curriculum's question 22.
"""

import math
import re

import numpy as np
import pytest

from kit.basics.units import Units
from kit.course.lessons import san_mai_ideas as asked
from kit.course.lessons.drawing import TRUE_SIZE
from kit.course.lessons.san_mai import SanMaiLesson
from kit.course.lessons.san_mai_drawing import EDGE, LEFT
from kit.course.lessons.san_mai_line import LENGTH, SPARE, traced
from kit.forge.steels import steel
from kit.metal.diffusion import diffusivity
from kit.metal.etch import tone_of, tones
from kit.section.blade import Section, Turned
from kit.section.surface import cut
from kit.section.trace import see


def triangle(core, spine, edge, height, towards=0.0):
    """Similar triangles, by hand."""
    return (core / 2 + towards - edge / 2) / ((spine - edge) / 2) * height


@pytest.mark.parametrize(
    "changed",
    [
        {},
        {"off": 0.3},
        {"off": -0.25, "core": 5.0},
        {"left": 5.0, "right": 3.4},
        {"height": 50, "edge": 0.8, "thickness": 5.5},
        {"nickel": 0.3},
        {
            "left": 1.5,
            "core": 1.5,
            "right": 1.5,
            "thickness": 4.5,
            "edge": 0.5,
            "height": 30,
        },
    ],
)
def test_line_traced_on_the_blade_against_similar_triangles(changed):
    job = SanMaiLesson(**changed)
    stack = job.left + job.core + job.right + 2 * job.nickel
    core = job.core * job.thickness / stack
    off = job.off + (job.right - job.left) / 2 * job.thickness / stack
    shape = core, job.thickness, job.edge, job.height
    for name, towards in (("left", off), ("right", -off)):
        line = traced(job.blade, name)
        straight = (line.along > 1) & (line.along < 85)
        np.testing.assert_allclose(
            line.near[straight], triangle(*shape, towards), atol=2e-3
        )


@pytest.mark.parametrize("name", ["left", "right"])
def test_line_is_where_the_etched_picture_turns_from_dark_to_bright(name):
    # a picture of the tones, traced by the engine without any line
    job = SanMaiLesson(off=0.2, minutes=0)
    pixel = 0.1
    blade = job.blade.side(name, pixel, 1600, 330)
    steel = see(job.billet, blade, tones(job.billet.source.steels))
    column = round(blade.place((SPARE + 50, 0, 0))[0])
    tone = steel.tone[:, column]
    dark = (tone < 0.2) & (steel.cover[:, column] > 0.99)
    towards = 0.2 if name == "left" else -0.2
    assert dark.sum() * pixel == pytest.approx(
        triangle(1.2, 4.0, 0.4, 32, towards), abs=2 * pixel
    )


@pytest.mark.parametrize("minutes", [2, 10, 40])
def test_the_seam_is_as_grey_as_a_pair_of_steels_held_hot(minutes):
    """C = (a + b) / 2 ± (a - b) / 2 erf(x / 2√(D t)): Crank, Mathematics of Diffusion."""
    job = SanMaiLesson(minutes=minutes)
    plane = cut(job.billet.size, angle=90, columns=3, rows=400, pixel=0.01)
    tone = see(job.billet, plane, tones(job.billet.source.steels)).tone[:, 1]
    up = (199.5 - np.arange(400)) * 0.01  # mm from the middle of the core
    beside = up / job.scale - 1.8  # mm from the weld, as it was held hot
    far = 2 * math.sqrt(float(diffusivity("C", 1150)) * 60 * minutes) * 1e3
    iron, core = (steel(name).nominal for name in ("wrought iron", "1084"))
    share = np.array([math.erfc(x / far) / 2 for x in beside])
    carbon = iron["C"] + (core["C"] - iron["C"]) * share
    known = tone_of({"C": carbon, "Mn": iron["Mn"]})
    seam = (beside > 0.06) & (beside < 3)  # manganese is not as far as that
    assert tone[seam] == pytest.approx(known[seam], abs=0.01)
    soft = np.sum((tone > 0.1) & (tone < 0.4) & (up > 0)) * 0.01
    assert soft > 0.3 * far * job.scale


@pytest.mark.parametrize("quarters", [-1, 1, 2])
def test_a_turned_view_shows_the_same_steel(quarters):
    job = SanMaiLesson(off=0.2)
    plain = Section(
        grind=job.blade.grind, size=job.billet.size, heel=SPARE, at=60, columns=50,
        rows=340, pixel=0.1,
    )  # fmt: skip
    tone = tones(job.billet.source.steels)
    turned = Turned(plain, quarters)
    one, other = see(job.billet, plain, tone), see(job.billet, turned, tone)
    np.testing.assert_allclose(np.rot90(one.cover, quarters), other.cover)
    inside = other.cover > 0.99
    np.testing.assert_allclose(
        np.rot90(one.tone, quarters)[inside], other.tone[inside], atol=1e-4
    )
    column, row = plain.place((0.0, 3.02, 1.02))
    marker = np.zeros((plain.rows, plain.columns))
    marker[round(row), round(column)] = 1
    new = turned.place((0.0, 3.02, 1.02))
    assert np.rot90(marker, quarters)[round(new[1]), round(new[0])] == 1


@pytest.mark.parametrize("kind", [1, 2, 3])
def test_other_grinds_meet_the_core_where_the_blade_is_as_thick_as_it(kind):
    # outside: a bevel meets a centred core where the blade is as thick as the core
    job = SanMaiLesson(kind=kind)
    height = traced(job.blade, "left").heights[0]
    up = np.array([height])
    assert 2 * job.blade.grind.half(np.array([50.0]), up)[0] == pytest.approx(1.2, abs=2e-3)


def test_dies_wave_the_line_and_cost_tolerance():
    scene = SanMaiLesson.scene(wave=0.3)
    low, high = (
        float(value)
        for value in re.search(r"([\d.]+) to ([\d.]+) /", scene.numbers[1].value).groups()
    )
    assert low < 7.1 < high
    assert SanMaiLesson(wave=0.3).permissible < SanMaiLesson().permissible
    # periodic with the dies: staggered, so the same again after one spacing
    line = traced(SanMaiLesson(wave=0.3, spacing=20).blade, "right", 0.2)
    at = np.linspace(20, 55, 80)
    order = np.argsort(line.along)
    here, next_ = (
        np.interp(at + more, line.along[order], line.near[order]) for more in (0, 20)
    )
    np.testing.assert_allclose(here, next_, atol=0.05)
    assert np.ptp(here) > 1


@pytest.mark.parametrize(
    "job", [SanMaiLesson(), SanMaiLesson(wave=0.3), SanMaiLesson(nickel=0.2, edge=0.8)]
)
def test_permissible_offset_is_where_a_line_reaches_the_edge(job):
    most = job.permissible
    for more, kept in ((-0.01, True), (0.01, False)):
        moved = SanMaiLesson(**{**job.model_dump(), "off": most + more})
        low, _ = traced(moved.blade, "right", 0.1).heights
        assert (low > 0) is kept
    # a line can be no higher than where the blade is as thick as the band's end
    moved = SanMaiLesson(**{**job.model_dump(), "off": most})
    high = np.array([traced(moved.blade, "left", 0.1).heights[1]])
    half = job.blade.grind.half(np.array([50.0]), high)[0]
    assert half == pytest.approx(job.reach, abs=0.01)


def test_checks_right_answers_on_the_solid():
    # the blade of the checks, built and traced
    bars = {"left": 1.5, "core": 1.5, "right": 1.5}
    blade = {"thickness": 4.5, "edge": 0.5, "height": 30}
    for check, off in ((asked.LINE_HEIGHT, 0), (asked.HIGHER_LINE, 0.35)):
        low, high = traced(SanMaiLesson(**bars, **blade, off=off).blade, "left").heights
        assert low == pytest.approx(high)
        assert check.right.value(check.given) == pytest.approx(low, abs=2e-3)
    assert SanMaiLesson(**bars, **blade).permissible == pytest.approx(0.5)


def test_blade_is_as_long_as_it_says():
    line = traced(SanMaiLesson().blade, "left")
    assert np.ptp(line.along) == pytest.approx(LENGTH, abs=1)


@pytest.mark.parametrize(
    ("off", "left", "right"),
    [(0, 0, 0), (0.35, 0, 0), (0.4, 0, 1), (-0.4, 1, 0), (1.0, 1, 1)],
)
def test_hatch_is_drawn_where_cladding_is_the_edge_and_only_there(off, left, right):
    # black ink over grey steel, within 4 mm of the edge, away from the point
    sheet = np.asarray(SanMaiLesson.scene(off=off).image.convert("L"), int)
    near = round(3 / TRUE_SIZE)
    middle = slice(LEFT + 300, LEFT + 500)
    found = [
        (sheet[rows, middle] < 35).mean()
        for rows in (slice(EDGE - near, EDGE - 4), slice(EDGE + 4, EDGE + near))
    ]
    assert [share > 0.1 for share in found] == [bool(left), bool(right)]
    assert all(share < 0.6 for share in found), "a pattern, not a patch"


def test_the_hatch_is_darker_and_the_words_say_more_the_more_cladding_the_edge_is():
    near = round(3 / TRUE_SIZE)
    dark = []
    for off, told in ((0.45, "0.05"), (0.7, "0.30"), (0.9, "0.40")):
        scene = SanMaiLesson.scene(off=off)
        sheet = np.asarray(scene.image.convert("L"), int)
        dark.append((sheet[EDGE + 4 : EDGE + near, LEFT + 300 : LEFT + 500] < 35).mean())
        # by hand: the core's face, 0.6 mm off its middle, less the offset; the edge, 0.4 mm
        # thick, reaches 0.2 mm: 0.2 - (0.6 - 0.45), 0.2 - (0.6 - 0.7); then all of it
        assert f"right side: {told} mm of the edge is cladding" in scene.alt
    assert np.diff(dark).min() > 0.05


def test_a_place_on_the_turned_side_can_be_asked_about():
    scene = SanMaiLesson.scene()
    width, height = scene.image.size
    across = (LEFT + 300) / width
    core = scene.at(across, (EDGE + 12) / height, Units.MM)
    cladding = scene.at(across, (EDGE + 80) / height, Units.MM)
    assert core.startswith("1084: bar 2 of 3")
    assert cladding.startswith("wrought iron: bar 3 of 3")
    assert scene.at(across, (EDGE - 80) / height, Units.MM).startswith(
        "wrought iron: bar 1 of 3"
    )

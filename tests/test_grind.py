"""The thickness of a blade and the lines it makes, against geometry and formulas."""

import math
from dataclasses import replace

import numpy as np
import pytest
from blades import (
    BAR,
    BEVELS,
    KNIFE,
    TONES,
    area,
    each_kind,
    edges,
    flat_bar,
    ground,
    thick,
)

from kit.basics.errors import KitError
from kit.section.blade import Blade, Section, Spine
from kit.section.grind import BladeGrind
from kit.section.outline import Outline
from kit.section.trace import see


def segment(chord, radius):
    """Area between a circle and its chord: r² (θ - sin θ) / 2.

    Weisstein, Circular Segment, MathWorld; any book of mensuration has it.
    """
    angle = 2 * math.asin(chord / 2 / radius)
    return radius**2 * (angle - math.sin(angle)) / 2


def section_area(kind):
    """Add to a trapezium, or take off it, a segment of a circle on both sides."""
    height = BEVELS[kind].get("bevel", 30)
    plain = (4 + 0.4) / 2 * height + 4 * (30 - height)
    chord = math.hypot(height, 1.8)
    if kind == "hollow":
        return plain - 2 * segment(chord, 127)
    if kind == "convex":  # the circle that touches the flat: chord² = 2 r × depth
        return plain + 2 * segment(chord, chord**2 / 2 / 1.8)
    return plain


@each_kind
@pytest.mark.parametrize("pixel", [0.02, 0.05])
def test_a_section_covers_the_area_of_the_blade(kind, pixel):
    section = Section(
        grind=ground(kind),
        size=BAR,
        at=60,
        columns=round(6 / pixel),
        rows=round(32 / pixel),
        pixel=pixel,
    )
    assert area(section) == pytest.approx(section_area(kind), rel=5e-4)


# Three points lie on a circle of radius a b c / (4 × area): Weisstein, Circumradius,
# MathWorld. The convex bow touches the flat: (22² + 1.8²) / (2 × 1.8) = 135.344.
def circumradius(three):
    a, b, c = (np.hypot(*(three[i] - three[i - 1])) for i in range(3))
    (ux, uy), (vx, vy) = three[1] - three[0], three[2] - three[0]
    return a * b * c / (2 * abs(ux * vy - uy * vx))


@pytest.mark.parametrize(
    ("kind", "taper", "along", "radius"),
    [("hollow", 0, 60, 127), ("hollow", 50, 80, 127), ("convex", 0, 60, 135.344)],
)
def test_a_bow_is_ground_on_its_wheel(kind, taper, along, radius):
    bevel = BEVELS[kind]["bevel"] * (1 - taper / 100)  # below the top in any case
    grind, up = ground(kind, taper=taper), np.linspace(0, bevel, 9)
    profile = np.stack([up, thick(grind, along, up) / 2], axis=1)
    for three in (profile[[0, 4, 8]], profile[[0, 1, 2]], profile[[3, 6, 7]]):
        assert circumradius(three) == pytest.approx(radius, rel=1e-5)


def test_a_tapered_hollow_is_nowhere_thinner_than_its_edge():
    along, up = np.linspace(2, 149, 80), np.linspace(0, 30, 200)[:, None]
    thickness = thick(ground("hollow", taper=60), along, up)
    assert thickness[thickness > 0].min() == pytest.approx(0.4, abs=1e-6)


def test_a_bevel_keeps_its_height_square_to_a_rising_edge():
    grind = ground("part-height", bevel=6)
    along, up = 130.0, np.linspace(0, 30, 30001)
    top = up[np.argmax(thick(grind, along, up) > 4 - 1e-9)]
    edge = np.linspace(90, 150, 60001)
    nearest = np.hypot(edge - along, KNIFE.edge(edge).above - top).min()
    assert KNIFE.edge(along).slope > 0.4
    assert nearest == pytest.approx(6, rel=0.02)


def test_no_wheel_is_smaller_than_one_that_undercuts_the_edge():
    # wheel² = height² + (wheel - depth)² (Pythagoras): 18 mm high and 1.8 mm deep make
    # 90.9 mm; on that wheel the bow leaves the edge along the middle plane
    least = (18**2 + 1.8**2) / (2 * 1.8)
    grind = ground("hollow", wheel=least + 1e-9)
    up = np.array([0.0, 1e-3])
    assert np.diff(thick(grind, 60, up))[0] == pytest.approx(0, abs=1e-7)
    assert np.all(np.diff(thick(grind, 60, np.linspace(0, 30, 99))) > -1e-12)
    with pytest.raises(KitError, match=r"at most 17\.9 mm with a wheel of 90 mm"):
        ground("hollow", wheel=90)


@each_kind
def test_thickness_runs_from_the_edge_to_the_spine_and_is_nothing_beside(kind):
    grind = ground(kind, ricasso=20)
    assert thick(grind, 60, 0) == pytest.approx(0.4)
    assert thick(grind, 60, 30) == pytest.approx(4)
    assert thick(grind, [5, 5], [0, 30]) == pytest.approx([4, 4])
    beside = thick(grind, [-1, 60, 60, 151, 140], [10, -1, 31, 18, 29])
    assert np.all(beside == 0)


def test_the_volume_of_a_tapered_blade_is_that_of_a_prismatoid():
    # Sections that change as the square at most: V = L/6 (first + 4 middle + last), the
    # prismoidal formula; Weisstein, Prismatoid, MathWorld.
    outline = Outline(family="straight", length=150, height=30, point=20)
    grind = ground(outline=outline, taper=50)
    first, middle, last = (
        area(Section(grind=grind, size=BAR, at=at, columns=300, rows=1600, pixel=0.02))
        for at in (20, 60, 100)
    )
    along = np.linspace(20, 100, 801)[:-1] + 0.05
    above = np.linspace(0, 30, 301)[:-1] + 0.05
    volume = thick(grind, along, above[:, None]).sum() * 0.1**2
    assert volume == pytest.approx(80 / 6 * (first + 4 * middle + last), rel=5e-4)


@pytest.mark.parametrize("taper", [0, 25, 60])
def test_the_spine_from_above_is_as_thick_as_it_is_tapered(taper):
    straight = Outline(family="straight", length=150, height=30, point=10)
    grind = ground("part-height", straight, taper=taper, bevel=5)
    spine = Spine.fitted(grind, BAR, 1500, 400)
    thick = spine.look(0, spine.rows).cover[:, 1:-1].sum(axis=0) * spine.pixel
    for along in (10, 75, 130):
        column = round(spine.place((spine.heel + along, 0, 0))[0])
        wanted = 4 * (1 - taper / 100 * along / 150)
        assert thick[column] == pytest.approx(wanted, abs=0.01)


# The blade is one long shallow cut: layers of t crossed on one side are
# (spine - edge) / 2 / t, and lie bevel length / lines apart. Worked by hand.
@pytest.mark.parametrize(
    ("spine", "edge", "height", "layer", "lines", "spacing", "spread"),
    [
        (4.0, 0.4, 30, 4 / 80, 36, 0.835, 16.7),
        (4.0, 0.4, 30, 4 / 320, 144, 0.209, 16.7),
        (4.0, 0.4, 30, 4 / 1000, 450, 0.067, 16.7),
        (5.0, 0.5, 36, 0.06, 37.5, 0.962, 16.03),
    ],
)
def test_lines_on_a_bevel_by_hand(spine, edge, height, layer, lines, spacing, spread):
    knife = Outline(length=150, height=height)
    crossed = BladeGrind(outline=knife, spine=spine, edge=edge).crossed(layer)
    assert crossed.lines == pytest.approx(lines)
    assert crossed.spacing == pytest.approx(spacing, abs=5e-4)
    assert crossed.spread == pytest.approx(spread, abs=0.01)


@each_kind
@pytest.mark.parametrize(
    ("layers", "spine", "edge"), [(80, 4.0, 0.4), (320, 4.0, 0.4), (80, 4.8, 0.6)]
)
def test_lines_counted_on_the_picture_are_the_lines_foretold(kind, layers, spine, edge):
    billet = flat_bar(layers, spine)
    grind = ground(kind, spine=spine, edge=edge)
    blade = Blade(grind=grind, size=billet.size, columns=3, rows=6400, pixel=0.005)
    blade = replace(blade, centre=(blade.heel + 60, 0.0))
    found = edges(see(billet, blade, TONES).tone[:, 1])
    foretold = grind.crossed(spine / layers)
    lowest = blade.place((blade.heel + 60, -15, 0))[1]
    found = found[found < lowest - 0.25]  # the blade's edge is no edge of a layer
    assert len(found) + 1 == math.ceil(foretold.lines - 1e-9)
    if kind in ("flat", "part-height"):  # a bow's lines lie closer at one end
        steel = np.hypot(np.diff(found) * blade.pixel, spine / layers)
        assert steel == pytest.approx(foretold.spacing, rel=0.02)


@each_kind
def test_a_bevel_is_as_long_as_a_thread_laid_along_it(kind):
    grind = ground(kind)
    up = np.linspace(0, grind.height, 2001)
    thread = np.hypot(np.diff(up), np.diff(thick(grind, 60, up)) / 2).sum()
    assert grind.bevel_length == pytest.approx(thread, rel=1e-6)


@each_kind
def test_an_edge_as_thick_as_the_spine_makes_no_bevel_and_no_lines(kind):
    grind = ground(kind, spine=3, edge=3)
    crossed = grind.crossed(0.05)
    assert crossed.lines == 0
    assert math.isinf(crossed.spacing)
    assert thick(grind, 60, np.linspace(0, 30, 50)) == pytest.approx(3)
    billet = flat_bar(thickness=5)
    face = see(billet, Blade.fitted(grind, billet.size, 300, 200), TONES)
    assert np.ptp(face.tone[face.cover == 1]) == pytest.approx(0, abs=1e-3)


@pytest.mark.parametrize(
    ("wish", "answer"),
    [
        ({"kind": "part-height", "bevel": 31}, "Bevel height must be from 1 to 30 mm"),
        ({"edge": 4.1}, "Edge before sharpening must be from 0 to 4 mm"),
        ({"edge": 2, "taper": 60}, "from 0 to 1.6 mm, the thickness of the spine at the"),
        ({"edge": -0.1}, "Edge before sharpening must be from 0 to 20 mm. Given: -0.1 mm."),
        ({"spine": -4}, "Spine must be from 0.5 to 20 mm. Given: -4 mm."),
        ({"spine": math.nan}, "Spine must be from"),
        ({"kind": "hollow", "bevel": 30, "wheel": 50}, "at most 13.3 mm with a wheel of"),
        ({"kind": "saw"}, "Grind must be one of: flat, part-height, hollow, convex"),
        ({"ricasso": 149.5}, "must be shorter than the blade, 150 mm"),
        ({"taper": 61}, "Taper to the tip must be from 0 to 60 %"),
    ],
)
def test_an_impossible_grind_is_refused(wish, answer):
    with pytest.raises(KitError) as refused:
        BladeGrind(**{"outline": KNIFE, "spine": 4, "edge": 0.4, "plunge": 1, **wish})
    assert answer in str(refused.value)
    assert len(str(refused.value).splitlines()) == 1

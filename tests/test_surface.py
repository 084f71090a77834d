"""What a cut shows, measured on the picture as with a ruler and a protractor."""

import math
from dataclasses import replace
from itertools import product

import mplstereonet
import numpy as np
import pytest
from blades import edges
from steps import forged, stack, undone

from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.steps import Size
from kit.forge.steps.base import RoundSize
from kit.section.blade import Blade, Section, Spine
from kit.section.blade_view import BladeView
from kit.section.block import Block
from kit.section.grind import BladeGrind
from kit.section.outline import Outline
from kit.section.surface import Plane, cut, cut_normal
from kit.section.trace import see
from tests.all_at_once import for_all

TONES = {"1084": 0.0, "15N20": 1.0}
BAR, ROUND = Size(150.0, 40.0, 30.0), RoundSize(150.0, 40.0, 30.0)


def band_width(layer, angle):
    """Saw through nine layers and measure the bands on the picture, mm."""
    billet = Billet(source=stack(9, layer, length=60 * layer / math.sin(angle)))
    pixel = layer / math.sin(angle) / 80
    face = cut(billet.size, angle=math.degrees(angle), columns=5, rows=640, pixel=pixel)
    found = edges(see(billet, face, TONES).tone[:, 2])
    assert len(found) == 8
    return np.diff(found) * pixel


@pytest.mark.parametrize("angle", [90, 75, 60, 45, 30, 20, 10, 5, 3])
def test_a_band_is_the_layer_over_the_sine(angle):
    lean = math.radians(angle)
    for layer in (0.4, 4.0):
        expected = layer / math.sin(lean)
        assert band_width(layer, lean) == pytest.approx(expected, rel=5e-3)


def section(billet, dip, to_strike, **picture):
    """Stand a vertical section in a country of dipping layers.

    Strike is the bar's y. In the bar the layers lie flat, so it is the plumb line
    that leans, by the dip. `to_strike` is the angle, seen from above, between section
    and strike.
    """
    dip, to_strike = math.radians(dip), math.radians(to_strike)
    plumb = np.array([-math.sin(dip), 0, math.cos(dip)])
    down_dip = np.array([math.cos(dip), 0, math.sin(dip)])
    along = math.cos(to_strike) * np.array([0, 1, 0]) + math.sin(to_strike) * down_dip
    middle = (billet.size.length / 2, 0.0, 0.0)
    return Plane(
        size=billet.size, centre=middle, right=tuple(along), up=tuple(plumb), **picture
    )


def apparent_dip(dip, to_strike):
    """Measure the slope of one layer edge on the face of a section, degrees."""
    billet = Billet(source=stack(2, 50, length=400, width=400))
    face = section(billet, dip, to_strike, columns=200, rows=300, pixel=0.2)
    tone = see(billet, face, TONES).tone
    places = [(at, *edges(tone[:, at])) for at in range(200) if edges(tone[:, at]).size]
    assert len(places) > 100
    return math.degrees(math.atan(np.polyfit(*np.transpose(places), 1)[0]))


# tan(apparent) = tan(dip) × sin(angle to strike): Ragan, Structural Geology: An
# Introduction to Geometrical Techniques, chapter on apparent dip.
@pytest.mark.parametrize(
    ("dip", "to_strike", "seen"),
    [
        (40, 30, 22.76),
        (30, 45, 22.21),
        (60, 45, 50.77),
        (40, 90, 40),
        (40, 0, 0),
        (39.7, 26, 20.00),
        (39.7, 44, 29.97),
    ],
)
def test_the_apparent_dip_of_structural_geology(dip, to_strike, seen):
    measured = apparent_dip(dip, to_strike)
    assert measured == pytest.approx(seen, abs=0.01)
    # and the same by a general-purpose library, as two planes that meet in a line
    plunge, _ = mplstereonet.plane_intersection(0, dip, to_strike, 90)
    assert measured == pytest.approx(float(plunge[0]) if to_strike else 0, abs=0.01)


@pytest.mark.parametrize("dip", [0, 25, 40, 65])
def test_the_true_thickness_in_a_well(dip):
    # t = d × cos(dip) down a vertical well, whichever way the section runs: Ragan,
    # Structural Geology, chapter on thickness and depth.
    billet = Billet(source=stack(25, 4.0, length=400, width=400))
    face = section(billet, dip, 37, columns=5, rows=1200, pixel=0.05)
    down = np.diff(edges(see(billet, face, TONES).tone[:, 2])) * 0.05
    assert down * math.cos(math.radians(dip)) == pytest.approx(4.0, abs=0.02)


@pytest.mark.parametrize("angle", [90, 60, 30, 15])
@pytest.mark.parametrize("position", [0, 1, 10, 50, 90, 100])
def test_a_cut_is_as_large_as_the_bar_lets_it_be(angle, position):
    # By hand: the cut runs from face to face, or out through the end.
    face = cut(BAR, angle=angle, position=position, columns=300, rows=1500, pixel=0.2)
    area = face.look(0, 1500).cover[:, 1:-1].sum() * 0.2**2
    sine, cosine = math.sin(math.radians(angle)), math.cos(math.radians(angle))
    top = bottom = 15 / sine
    if angle < 90:
        along = position / 100 * 150
        top, bottom = min(top, along / cosine), min(bottom, (150 - along) / cosine)
    assert area == pytest.approx(40 * (top + bottom), rel=1e-4)


def test_a_look_has_a_margin_left_and_right():
    for surface in (cut(BAR, angle=30, columns=50, rows=40), Block(size=BAR, columns=50)):
        look = surface.look(-1, 12)
        assert [axis.shape for axis in look.points] == [(13, 52)] * 3
        assert look.cover.min() >= 0
        assert look.cover.max() <= 1


def test_an_isometric_view_is_isometric():
    # ISO 5456-3, axonometric representations, isometric: the axes 120° apart, those
    # on the bench 30° above level, all drawn at √(2/3) = 0.816 of their length.
    raised = math.degrees(math.asin(1 / math.sqrt(3)))
    block = Block(size=Size(10, 10, 10), turned=45, raised=raised, pixel=0.01)
    home = np.array(block.place((0, 0, 0)))
    across, away, up = (
        (np.array(block.place(tuple(axis))) - home) * 0.01 for axis in np.eye(3)
    )
    for axis in (across, away, up):
        assert np.hypot(*axis) == pytest.approx(math.sqrt(2 / 3), abs=1e-9)
    # rows count downwards; what is nearer to the eye lies lower
    assert across == pytest.approx([math.sqrt(1 / 2), math.sqrt(1 / 6)])
    assert away == pytest.approx([math.sqrt(1 / 2), -math.sqrt(1 / 6)])
    assert up == pytest.approx([0, -math.sqrt(2 / 3)])


def test_a_block_seen_from_its_side_is_drawn_true():
    block = Block(size=BAR, turned=0, raised=0, columns=700, rows=200, pixel=0.25)
    for x, y, z in block.corners:
        drawn = 349.5 + (x - 75) / 0.25, 99.5 - z / 0.25
        assert block.place((x, y, z)) == pytest.approx(drawn)
    look = block.look(0, 200).cover[:, 1:-1]
    assert look.sum() == pytest.approx(600 * 120, rel=1e-6)


@pytest.mark.parametrize("turned", [0, 10, 32, 45, 90, 120, 180, 270])
@pytest.mark.parametrize("raised", [0, 10, 28, 60, 90])
def test_the_shadow_of_a_block_is_as_large_as_its_faces_say(turned, raised):
    # A convex body covers, seen from afar, the sum of its visible faces, each times
    # the cosine of its lean: plain geometry.
    block = Block(size=BAR, turned=turned, raised=raised, columns=500, rows=500, pixel=0.4)
    across, away, up = np.abs(block.eye)
    shadow = across * 40 * 30 + away * 150 * 30 + up * 150 * 40
    covered = block.look(0, 500).cover[:, 1:-1].sum() * 0.4**2
    # within a twentieth of a pixel all along the outline
    assert covered == pytest.approx(shadow, abs=0.05 * 0.4 * 380)


@pytest.mark.parametrize("angle", [None, 90, 60, 30, 10])
def test_what_is_seen_lies_on_the_bar(angle):
    saw = None if angle is None else (cut_normal(angle), (75.0, 0.0, 0.0))
    block = Block.fitted(BAR, 300, 200, cut=saw)
    look = block.look(0, 200, float)
    seen = look.cover[:, 1:-1] > 0.5 + 1e-9
    x, y, z = (axis[:, 1:-1][seen] for axis in look.points)
    depths = [x, 150 - x, 20 - np.abs(y), 15 - np.abs(z)]
    if saw:
        (nx, _, nz), _ = saw
        depths.append(-(nx * (x - 75) + nz * z))
    assert np.min(depths) > -1e-9  # nothing outside, nothing sawn off
    assert np.max(np.min(np.abs(depths), axis=0)) < 1e-9  # all on a face
    # the side always shows; the last face is the cut, or the top
    on_side, on_last = (np.abs(depths[at]) < 1e-9 for at in (2, -1))
    assert on_side.sum() > 1000
    assert on_last.sum() > 1000


def test_a_point_is_seen_where_it_is_drawn():
    block = Block.fitted(BAR, 300, 200, cut=(cut_normal(40), (60.0, 0.0, 0.0)))
    look = block.look(0, 200, float)
    for row, column in product(range(5, 200, 20), range(5, 300, 20)):
        point = tuple(float(axis[row, column + 1]) for axis in look.points)
        assert block.place(point) == pytest.approx((column, row), abs=1e-6)


def test_a_fitted_block_fills_its_picture():
    for size in (BAR, Size(20, 40, 300), Size(2000, 30, 4)):
        block = Block.fitted(size, 400, 300)
        columns, rows = np.transpose([block.place(corner) for corner in block.corners])
        assert min(columns.min(), rows.min()) > 0
        assert columns.max() < 399
        assert rows.max() < 299
        assert max(np.ptp(columns) / 400, np.ptp(rows) / 300) > 0.9


def test_three_faces_catch_three_lights_and_the_top_the_most():
    block = Block.fitted(BAR, 300, 200)
    look = block.look(0, 200, float)
    x, y, z = (axis[:, 1:-1] for axis in look.points)
    faces = np.abs(z - 15) < 1e-9, np.abs(y + 20) < 1e-9, np.abs(x - 150) < 1e-9
    covered = look.cover[:, 1:-1] == 1
    lights = [np.median(look.light[:, 1:-1][face & covered]) for face in faces]
    assert lights[0] > lights[1] > lights[2] > 0


def test_a_span_shows_that_part_of_the_bar_and_no_other():
    block = Block.fitted(BAR, 300, 200, span=(40.0, 55.0))
    look = block.look(0, 200, float)
    along = look.points[0][:, 1:-1][look.cover[:, 1:-1] > 0.5 + 1e-9]
    assert along.min() == pytest.approx(40, abs=0.2)
    assert along.max() == pytest.approx(55, abs=1e-9)


def test_every_face_of_a_block_shows_the_mean_of_what_a_pixel_covers():
    billet = forged(11, 3, thickness=20)  # 88 layers of 0.23 mm
    saw = cut_normal(40), (150.0, 0.0, 0.0)
    block = Block.fitted(billet.size, 160, 100, cut=saw, span=(120.0, 165.0))
    assert block.pixel > 2 * billet.mean_layer
    fine = replace(block, columns=160 * 16, rows=100 * 16, pixel=block.pixel / 16)
    points = (axis[:, 1:-1] for axis in fine.look(0, 1600, float).points)
    bright = undone(billet, tuple(points))[0] % 2  # every other bar is 15N20
    truth = bright.reshape(100, 16, 160, 16).mean(axis=(1, 3))
    face = see(billet, block, TONES)
    inside = face.cover == 1
    assert np.sqrt(np.mean((face.tone - truth)[inside] ** 2)) < 0.05


BILLET = Billet(source=stack(4, 3.0))
GROUND = BladeGrind(outline=Outline(family="drop", length=90, height=25), spine=3, edge=0.3)
PLANE = {"size": BAR, "centre": (75, 0, 0), "right": (1, 0, 0), "up": (0, 1, 0)}
SURFACES = {
    "a plane": lambda **picture: Plane(**{**PLANE, **picture}),
    "a cut": lambda **picture: cut(BAR, angle=30, **picture),
    "a cut of a round bar": lambda **picture: cut(ROUND, angle=30, **picture),
    "a block": lambda **picture: Block(size=BAR, **picture),
    "a round block": lambda **picture: Block(size=ROUND, **picture),
    "a blade": lambda **picture: Blade(grind=GROUND, size=BAR, **picture),
    "a spine": lambda **picture: Spine(grind=GROUND, size=BAR, **picture),
    "a section": lambda **picture: Section(grind=GROUND, size=BAR, at=40, **picture),
}
FINE_PICTURE = {"columns": 30, "rows": 20, "pixel": 0.5}
NONE_AT_ALL = [
    *({name: value} for name in ("columns", "rows") for value in (0, -1, 10.5, True, "9")),
    *({"pixel": value} for value in (0, -1, math.nan, math.inf, "wide", None)),
    {"columns": 10**6},
]


def test_no_surface_is_missing_here():
    seen = {type(make(**FINE_PICTURE)) for make in SURFACES.values()}
    kinds = {Plane, Block, *BladeView.__subclasses__()}
    assert seen == kinds


@for_all(product(SURFACES.values(), (np.float32, np.float64)))
def test_a_look_is_as_precise_as_was_asked(make, dtype):
    look = make(**FINE_PICTURE).look(-1, 21, dtype)
    parts = (*look.points, look.cover, look.light)
    assert {part.dtype for part in parts} == {np.dtype(dtype)}


@for_all(product(SURFACES.values(), NONE_AT_ALL))
def test_a_picture_that_is_none_is_refused_in_one_sentence(make, picture):
    with pytest.raises(KitError, match=r"must be .* Given: ") as refused:
        make(**{**FINE_PICTURE, **picture})
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize(
    "directions",
    [
        {"right": (0, 0, 0)},
        {"right": (0, 1, 0)},
        {"up": (0, math.nan, 0)},
        {"up": (0, 1.1, 0)},
        {"right": (1, 0)},
        {"centre": "middle"},
        {"centre": (math.inf, 0, 0)},
    ],
    ids=str,
)
def test_a_plane_that_is_none_is_refused(directions):
    with pytest.raises(KitError, match="right and up"):
        Plane(**{**PLANE, **FINE_PICTURE, **directions})


@pytest.mark.parametrize("given", [(1, 1, 1), None, "a bar", stack(4)])
def test_a_cut_needs_a_bar_or_its_size(given):
    with pytest.raises(KitError, match=r"A bar is needed, or its size as bar\.size"):
        cut(given, angle=30)
    assert cut(BILLET, angle=30) == cut(BILLET.size, angle=30)


@pytest.mark.parametrize("axis", range(3))
@pytest.mark.parametrize("share", [0.3, 0.49, 0.51, 3.0])
def test_a_plane_beside_the_bar_shows_no_steel(axis, share):
    # By hand: parallel to two faces of the bar, within them or beyond.
    ways = np.eye(3)[[part for part in range(3) if part != axis]]
    centre = [75.0, 0.0, 0.0]
    centre[axis] += share * BAR[axis]
    face = Plane(
        size=BAR,
        centre=tuple(centre),
        right=tuple(ways[0]),
        up=tuple(ways[1]),
        **FINE_PICTURE,
    )
    assert face.look(0, 20).cover.max() == (share < 0.5)

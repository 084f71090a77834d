"""Dents, grooves and drilled hollows against what is known from outside."""

import math
import re

import numpy as np
import pytest
from scipy import integrate
from steps import inside

from kit import Billet, KitError, Layer, Plane, Stack, see
from kit.forge.steps import Dent, Drill, Groove, Size
from kit.forge.steps.drill import drill_depth

LAYER = 0.30
BAR = Size(200.0, 41.569, 8.0)  # width: four rows of 10.392 mm
DRILL = {"tool": "drill point", "across": 6, "spacing": 12, "faces": "top"}
WAYS = ("pressed and ground", "cut and forged")
TOOLS = {"ball": Dent, "drill point": Drill, "groove": Groove}


def hollow(tool, way=WAYS[1], **values):
    """Give the step of a tool; a drill's depth follows from its width."""
    return TOOLS[tool](way=way, **values)


def stack(layer=LAYER, size=BAR):
    """Lay thin bars in turn, the outer one ground to half; the lowest takes the rest.

    So the first joint lies half a layer under the face: on a joint there is no telling
    which of two layers is seen.
    """
    whole = int((size.thickness - layer) / layer)
    thick = [layer / 2] + [layer] * whole
    thick.append(size.thickness - sum(thick))
    names = ("1084", "15N20")
    bars = [Layer(steel=names[i % 2], thickness=t) for i, t in enumerate(thick)]
    return Stack(layers=bars[::-1], length=size.length, width=size.width)


def line_of(billet, middle, *, across=False, depth=0.0, span=10.0, pixel=0.002):
    """Trace a line on the face, ground `depth` deep, along or across the bar."""
    plane = Plane(
        size=billet.size,
        centre=(middle, 0.0, billet.size.thickness / 2 - depth),
        right=(0.0, 1.0, 0.0) if across else (1.0, 0.0, 0.0),
        up=(1.0, 0.0, 0.0) if across else (0.0, 1.0, 0.0),
        columns=round(span / pixel),
        rows=1,
        pixel=pixel,
    )
    return see(billet, plane, {"1084": 0.0, "15N20": 1.0}, pixels="point").tone[0]


def rings(billet, depth=0.0):
    """Count the lines from the end of the bar to the middle of the first hollow."""
    to = 6 * billet.size.width / billet.source.width
    return np.count_nonzero(np.diff(line_of(billet, to / 2, depth=depth, span=to)))


def relief(step, size, ground):
    """Say how far apart in the old bar the middle of a hollow and its outside were, mm."""
    after = step.size_after(size)
    wider = after.width / size.width
    x = np.array([6.0, 12.0]) * wider
    z = np.full(2, after.thickness / 2 - ground)
    return float(np.ptp(step.undo((x, np.zeros(2), z), size)[2]))


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("thickness", [None, 6])
def test_rings_are_depth_over_layer_on_the_traced_face(way, thickness):
    # 1.80 / 0.30 = 6 (curriculum, question 19)
    bar = Billet(source=stack()).then(hollow(**DRILL, way=way, thickness=thickness))
    assert rings(bar) == 6


@pytest.mark.parametrize(("ground", "left"), [(0, 6.0), (0.9, 5.1), (1.8, 4.2), (3, 3.0)])
def test_relief_falls_evenly_to_the_far_face(ground, left):
    # (d/t)(1 - q/T) in a bar forged to 6 mm (curriculum, question 20): 6, 5.1, 4.2
    step = hollow(**DRILL, thickness=6)
    assert relief(step, BAR, ground) / LAYER == pytest.approx(left, abs=0.01)


def test_pressed_bar_has_a_little_less_relief_and_why():
    """The metal pushed out of the dents thickens what is between them: 8 to 8.136 mm.

    So, ground level, the outside has lost d T / (T + rise), not d: 5.91 rings, not 6.
    """
    step = hollow(**DRILL, way=WAYS[0])
    # a cone's volume, four rows of them, one every 12 mm, spread over the width
    rise = 4 * (math.pi * 9 * 1.80258 / 3) / (12 * BAR.width)
    assert rise == pytest.approx(0.136, abs=0.001)
    level = step.levels(BAR)
    assert level.dented == pytest.approx(8 + rise, abs=1e-4)
    expected = 1.80258 * 8 / level.dented
    assert relief(step, BAR, 0) == pytest.approx(expected, abs=1e-4)
    half = relief(step, BAR, level.left / 2)
    assert half == pytest.approx(expected / 2, abs=1e-4)


@pytest.mark.parametrize("way", WAYS)
def test_half_of_the_rings_are_left_at_half_the_thickness_of_the_traced_bar(way):
    bar = Billet(source=stack(layer=0.05)).then(hollow(**DRILL, way=way))
    all_rings = rings(bar)
    assert all_rings == pytest.approx(1.80 / 0.05, abs=1)
    assert rings(bar, bar.size.thickness / 2) == pytest.approx(all_rings / 2, abs=1)


def test_the_two_ways_show_the_layers_in_opposite_order():
    """Pressed and ground: the top layer is in the middle. Cut and forged: the deepest."""
    order = {}
    for way in WAYS:
        bar = Billet(source=stack()).then(hollow(**DRILL, way=way))
        x = np.linspace(6.0, 9.6, 4000)
        points = (x, np.zeros_like(x), np.full_like(x, bar.size.thickness / 2 - 1e-9))
        depth = BAR.thickness / 2 - bar.undo(points)[2]
        layer = np.floor((depth + LAYER / 2) / LAYER).astype(int)
        order[way] = [int(n) for n in dict.fromkeys(layer)]
    assert order[WAYS[0]] == [0, 1, 2, 3, 4, 5, 6]
    assert order[WAYS[1]] == [6, 5, 4, 3, 2, 1, 0]


def ring_radii(step, across):
    """Measure the rings of one hollow on the traced face, mm."""
    bar = Billet(source=stack()).then(step)
    hollow = 6 * bar.size.width / BAR.width
    edges = np.flatnonzero(np.diff(line_of(bar, hollow, across=across)))
    radii = (edges + 1) * 0.002 - 5.0
    return radii[radii > 0]


def columns_say(across):
    """Integrate the column rule by quadrature, without the kit's formulas.

    A ring at radius r of the hole goes where the columns between it and the middle are
    laid side by side, each stretched by how much it was squeezed in height.
    """
    deep, steep = drill_depth(6), math.tan(math.radians(59))

    def hole(u, v):
        return max(0.0, deep - math.hypot(u, v) / steep)

    def mean(v):
        return 2 * integrate.quad(hole, 0, 3, args=(v,), points=[3 - 1e-9])[0] / 12

    flat = 8 - np.pi * 9 * deep / 3 / (12 * 12 * math.sqrt(3) / 2)
    radii = [steep * (deep - (k + 0.5) * LAYER) for k in range(6)][::-1]
    if across:
        return [integrate.quad(lambda v: (8 - mean(v)) / flat, 0, r)[0] for r in radii]
    share = 8 - mean(0)
    return [integrate.quad(lambda u: (8 - hole(u, 0)) / share, 0, r)[0] for r in radii]


@pytest.mark.parametrize("across", [False, True])
def test_rings_lie_where_the_column_rule_puts_them(across):
    found = ring_radii(hollow(**DRILL), across)
    assert found == pytest.approx(columns_say(across), abs=0.005)


def test_first_order_spacing_and_the_solid_differ_by_this_much_and_why():
    """First order: rings lie where the drill cut them, t tan 59° = 0.50 mm apart.

    Forged level, metal flows into the hole from around it: 0.47 mm along the bar, 0.49
    across. Forged on from 7.87 to 6 mm everything spreads by √(7.87/6) = 1.146.
    """
    first_order = LAYER * math.tan(math.radians(59))
    assert first_order == pytest.approx(0.50, abs=0.001)
    for across, spacing in ((False, 0.470), (True, 0.492)):
        radii = ring_radii(hollow(**DRILL), across)
        assert np.diff(radii).mean() == pytest.approx(spacing, abs=0.002)
        forged = ring_radii(hollow(**DRILL, thickness=6), across)
        assert forged / radii == pytest.approx(math.sqrt(7.869 / 6), abs=0.01)
    pressed = ring_radii(hollow(**DRILL, way=WAYS[0]), across=False)
    # squeezed layers are thinner in the middle of a dent: narrow rings there, wide outside
    assert np.diff(pressed) == pytest.approx([0.43, 0.46, 0.50, 0.55, 0.60], abs=0.01)


def test_a_ladder_of_12_mm_on_200_mm_has_16_whole_rungs_a_side():
    # 200 / 12 = 16.7 (curriculum 7, N05 f), counted on both traced faces
    # a bright layer from half the grooves' depth on: every groove is one bright rung
    names, thick = ("1084", "15N20"), (0.9, 2.0, 2.2, 2.0, 0.9)
    bars = [Layer(steel=names[i % 2], thickness=t) for i, t in enumerate(thick)]
    source = Stack(layers=bars, length=200, width=30)
    step = hollow(tool="groove", across=6, depth=1.8, spacing=12)
    bar = Billet(source=source).then(step)
    assert bar.size.length == pytest.approx(200, abs=0.5)
    for depth in (0.001, bar.size.thickness - 0.001):
        tone = line_of(bar, 100, depth=depth, span=200, pixel=0.01)
        edges = np.diff(tone)
        starts, ends = np.flatnonzero(edges > 0), np.flatnonzero(edges < 0)
        whole = sum(bool(np.any(ends > start)) for start in starts)
        assert whole == 16


VOLUMES = {  # of one hollow 6 mm across, 1.8 mm deep: any table of solids
    "ball": math.pi * 9 * 1.8 / 2,  # paraboloid: half the cylinder
    "drill point": math.pi * 9 * drill_depth(6) / 3,  # cone: a third
    "groove": 2 / 3 * 6 * 1.8 * 41.569,  # parabola: two thirds, right across
}


@pytest.mark.parametrize("tool", VOLUMES)
@pytest.mark.parametrize("faces", ["top", "bottom", "opposite", "staggered"])
def test_cutting_loses_the_hollows_and_nothing_else(tool, faces):
    size = Size(240.0, 4 * 12 * math.sqrt(3) / 2, 8.0)
    depth = {} if tool == "drill point" else {"depth": 1.8}
    step = hollow(tool=tool, across=6, **depth, spacing=12, faces=faces, thickness=5)
    count = 20 * (1 if tool == "groove" else 4) * (1 if faces in ("top", "bottom") else 2)
    lost = size.volume - step.size_after(size).volume
    assert lost == pytest.approx(count * VOLUMES[tool], rel=1e-4)
    pressed = step.model_copy(update={"way": WAYS[0], "thickness": None})
    dented = pressed.levels(size).dented
    assert dented - size.thickness == pytest.approx(lost / (size.length * size.width))


def drawn(step, size):
    """Draw the depth of all hollows on a bar and give their volume, mm³.

    By the tables' shapes and the grid that the docs describe; nothing of the kit's sums.
    """
    x = (
        np.arange(0.01, size.length, 0.02)
        * size.length
        / (0.02 * round(size.length / 0.02))
    )
    y = ((np.arange(300) + 0.5) / 300 - 0.5) * size.width
    groove, pitch = isinstance(step, Groove), step.spacing * math.sqrt(3) / 2
    row = np.zeros_like(y) if groove else np.rint(y / pitch)
    beside = np.zeros_like(y) if groove else y - row * pitch
    total = 0.0
    starts = {"top": [0.5], "bottom": [0.5], "opposite": [0.5, 0.5], "staggered": [0.5, 1]}
    for start in starts[step.faces]:
        for aside, odd in zip(beside, row % 2, strict=True):
            along = (x / step.spacing - start - 0.5 * odd + 0.5) % 1 - 0.5
            share = np.clip(np.hypot(along * step.spacing, aside) / (step.across / 2), 0, 1)
            sharp = 1 - share if isinstance(step, Drill) else 1 - share**2
            total += step.deep * float(sharp.mean())
    return total / len(y) * size.length * size.width


@pytest.mark.parametrize("length", [15.0, 23.0, 61.0, 123.0, 240.0])
@pytest.mark.parametrize("tool", VOLUMES)
@pytest.mark.parametrize("spacing", [12, 40])
@pytest.mark.parametrize("faces", ["top", "staggered"])
def test_a_bar_of_any_length_loses_the_hollows_that_are_on_it(length, tool, spacing, faces):
    size = Size(length, 33.0, 8.0)
    depth = {} if tool == "drill point" else {"depth": 1.8}
    step = hollow(tool=tool, across=6, **depth, spacing=spacing, faces=faces)
    lost = size.volume - step.size_after(size).volume
    assert lost == pytest.approx(drawn(step, size), rel=1e-3, abs=0.01)
    pressed = step.model_copy(update={"way": WAYS[0]})
    level, after = pressed.levels(size), pressed.size_after(size)
    dented = after._replace(thickness=level.dented)
    assert dented.volume - drawn(pressed, dented) == pytest.approx(size.volume, rel=1e-5)


@pytest.mark.parametrize("way", WAYS)
def test_a_bar_too_short_for_a_hollow_stays_as_it_is(way):
    # By hand: the first groove would begin 20 - 3 = 17 mm from the end.
    step = hollow(tool="groove", across=6, depth=2, spacing=40, faces="top", way=way)
    size = Size(15.0, 30.0, 8.0)
    assert step.size_after(size) == pytest.approx(size)
    points = inside(size)
    for moved in (step.do(points, size), step.undo(points, size)):
        assert np.array(moved) == pytest.approx(np.array(points), abs=1e-9)


def test_ends_and_sides_of_hollows_stay_and_the_bar_keeps_its_edges():
    step = hollow(tool="ball", across=8, depth=2, spacing=12)
    x, _, z = inside(BAR)
    for side in (-BAR.width / 2, BAR.width / 2):
        _, y, _ = step.do((x, np.full_like(x, side), z), BAR)
        assert y == pytest.approx(side, abs=1e-9)


@pytest.mark.parametrize(
    ("values", "sentence"),
    [
        ({"depth": 4.5}, r"from 0 to 4\.00 mm deep, half of a bar 8\.00 mm .*: 4\.50"),
        ({"depth": 4, "faces": "opposite"}, "two faces would meet: .* leave 0.00 mm"),
        ({"across": 3, "depth": 3.9, "way": WAYS[0]}, "must stay at least 0.80 mm thick"),
        ({"depth": 2, "thickness": 8}, r"after can be at most 7\.\d\d mm, .* Given: 8"),
        ({"depth": 2, "across": 11}, r"12 mm apart can be at most 10\.39 mm across"),
        ({}, "needs a value for 'depth'"),
        ({"tool": "drill point", "depth": 3}, "Drill has no 'depth'"),
        ({"depth": 1, "way": "press"}, "Way must be .*cut and forged.* Given: press"),
        ({"tool": "groove", "depth": 2, "across": 13}, "at most 12.00 mm across"),
    ],
)
def test_impossible_hollows_are_refused(values, sentence):
    with pytest.raises(KitError, match=sentence):
        hollow(**{"tool": "ball", "across": 6, "spacing": 12, **values}).size_after(BAR)


@pytest.mark.parametrize("shoulder", [0.5, 2.0, 4.0])
def test_a_rounded_rim_ends_without_an_edge_and_takes_away_what_its_section_says(shoulder):
    """A bowl 8 mm across and 3 mm deep, turned about its axis by quadrature."""
    bowl = hollow("ball", across=8, depth=3, spacing=14, shoulder=shoulder).mark
    trough = hollow("groove", across=8, depth=3, spacing=14, shoulder=shoulder).mark
    line = bowl.line(np.zeros(1))

    def section(r):
        return float(line.at(np.array([r]))[0][0])

    assert section(0) == pytest.approx(3)
    # in the middle the parabola of the sharp bowl: 3 mm less 3 (r / 4)²
    inside = 4 * math.sqrt(1 - shoulder / 4)
    assert section(0.9 * inside) == pytest.approx(3 * (1 - (0.9 * inside / 4) ** 2))
    rim = bowl.radius
    slopes = [(section(rim - off) - section(rim)) / off for off in (1e-2, 1e-3)]
    assert slopes[1] == pytest.approx(slopes[0] / 10, rel=0.1)  # it runs out flat
    turned, _ = integrate.quad(lambda r: 2 * math.pi * r * section(r), 0, rim, limit=200)
    assert bowl.volume == pytest.approx(turned, rel=1e-6)
    area, _ = integrate.quad(section, -rim, rim, limit=200)
    assert float(trough.line(np.zeros(1)).chord) == pytest.approx(area, rel=1e-6)


@pytest.mark.parametrize(
    ("values", "sentence"),
    [
        ({"shoulder": 5}, "rounded over at most 4 mm. Given: 5 mm"),
        ({"wander": 4}, "at most 3.5 mm from their places. Given: 4 mm"),
        ({"spacing": 10, "shoulder": 4}, "can be at most 6.12 mm across"),
        (
            {"differ": 35},
            "from 0 to 4.00 mm deep, half of a bar 8.00 mm thick. Given: 4.05",
        ),
    ],
)
def test_what_no_hand_does_is_refused(values, sentence):
    with pytest.raises(KitError, match=re.escape(sentence)):
        hollow("ball", **{"across": 8, "depth": 3, "spacing": 14} | values).size_after(BAR)


@pytest.mark.parametrize("shoulder", [0, 2])
def test_a_picture_s_many_points_come_from_where_each_by_itself_does(shoulder):
    by_hand = {"wander": 2, "differ": 20, "shoulder": shoulder}
    step = hollow("ball", across=8, depth=3, spacing=12, **by_hand)
    points = inside(step.size_after(BAR), count=5000)
    single = tuple(part.astype(np.float32) for part in points)
    for one, other in zip(step.undo(single, BAR), step.undo(points, BAR), strict=True):
        assert one.dtype == np.float32
        assert one == pytest.approx(other, abs=1e-4)

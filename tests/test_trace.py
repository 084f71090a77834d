"""The engine against plain point look-up: undo every step, search the heights.

The reference for averages is 16 × 16 samples in every pixel, a mean that any text on
computer graphics gives as the definition of an anti-aliased picture.
"""

from dataclasses import replace

import numpy as np
import pytest
from steps import forged, from_above, sampled, stack, undone

from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Stack
from kit.forge.steps import (
    CutAndStack,
    DrawOut,
    Fold,
    Hammer,
    QuarterTurn,
    RoundUp,
    SquareUp,
    Twist,
)
from kit.section import trace
from kit.section.picture import to_srgb
from kit.section.surface import Plane, cut, shown_at
from kit.shop.patterns import pattern

TONES = {"1084": 0.0, "15N20": 1.0}
RACK = Billet(source=stack(11, (3.175, 1.5875)))  # as the demo's
BACK = DrawOut(thickness=RACK.size.thickness)
CYCLE = (Fold(), BACK)
LAST = DrawOut(thickness=6)


def waves(seed):
    return Hammer(depth=1.5, spacing=20, seed=seed)


FLAT = RACK.then(*CYCLE * 5, LAST)
WAVY = RACK.then(*CYCLE, waves(3), *CYCLE, *CYCLE, waves(4), *CYCLE, *CYCLE, LAST)
MIXED = RACK.then(
    *CYCLE, CutAndStack(pieces=3), BACK, waves(5), CutAndStack(pieces=2), BACK, *CYCLE, LAST
)
PIECED = RACK.then(CutAndStack(pieces=4), BACK, waves(6), *CYCLE * 3, LAST)
PILED = RACK.then(waves(7), *(CutAndStack(pieces=2), BACK) * 5, LAST)
ON_EDGE = FLAT.then(QuarterTurn())
EDGED = RACK.then(
    QuarterTurn(), DrawOut(thickness=30), QuarterTurn(quarters=3), BACK, *CYCLE * 5, LAST
)
ROLLED = RACK.then(QuarterTurn(quarters=2), *CYCLE * 5, LAST)
HISTORIES = {
    "flat": FLAT,
    "wavy": WAVY,
    "mixed": MIXED,
    "restacked, then folded": PIECED,
    "only restacked": PILED,
    "on edge": ON_EDGE,
    "edges dressed first": EDGED,
    "rolled over first": ROLLED,
}
lying_flat = pytest.mark.parametrize(
    "billet", [FLAT, WAVY, MIXED, PIECED, PILED], ids=list(HISTORIES)[:5]
)
every_history = pytest.mark.parametrize("billet", HISTORIES.values(), ids=HISTORIES)


def face(billet, pixel, *, oblique=False, count=48):
    """Cut somewhere inside the bar, at 25°, or askew to all its sides."""
    lean = np.radians(25)
    right, up = (0.0, 1.0, 0.0), (-np.cos(lean), 0.0, np.sin(lean))
    if oblique:
        right = 0.6, 0.8 * np.cos(lean), 0.8 * np.sin(lean)
        up = 0.0, -np.sin(lean), np.cos(lean)
    return Plane(
        size=billet.size,
        centre=(0.37 * billet.size.length, 0.3, 0.4),
        right=right,
        up=up,
        columns=count,
        rows=count,
        pixel=pixel,
    )


def strewn(billet, count=20_000, seed=4):
    """Points all through a bar, as shares of its sides."""
    share = np.random.default_rng(seed).random((3, count))
    low = np.array([0, -0.5, -0.5])[:, None]
    return tuple((share + low) * np.array(billet.size)[:, None])


@every_history
@pytest.mark.parametrize("pixels", ["mean", "fine"])
@pytest.mark.parametrize("oblique", [False, True], ids=["cut", "oblique"])
@pytest.mark.parametrize("layers_a_pixel", [0.3, 0.97, 2.5])  # at 1 samples fall alike
def test_a_pixel_shows_the_mean_of_what_it_covers(billet, pixels, oblique, layers_a_pixel):
    plane = face(billet, layers_a_pixel * billet.mean_layer, oblique=oblique)
    seen = trace.see(billet, plane, TONES, pixels=pixels)
    assert seen.cover.min() == 1
    reference = sampled(billet, plane)
    assert np.sqrt(np.mean((seen.tone - reference) ** 2)) < 0.05
    # the mean grey is kept to half a per cent of the way from black to white
    assert seen.tone.mean() == pytest.approx(reference.mean(), abs=0.005)


@lying_flat
@pytest.mark.parametrize("pixels", ["mean", "fine"])
@pytest.mark.parametrize("rows", [45, 150, 611])
def test_the_grey_of_the_whole_end_is_that_of_the_stack(billet, pixels, rows):
    # Five bright bars of 1.5875 mm in 26.9875 mm: 5/17, a little more or less after blows.
    size = billet.size
    plane = cut(size, angle=90, columns=40, rows=rows, pixel=size.thickness / rows)
    z = ((np.arange(9973) + 0.5) / 9973 - 0.5) * size.thickness
    across = (np.arange(40) - 19.5) * plane.pixel
    y, z = np.meshgrid(across, z)
    bright = undone(billet, (np.full(z.shape, size.length / 2), y, z))[0] % 2
    assert bright.mean() == pytest.approx(5 / 17, abs=1e-3 if billet is FLAT else 0.03)
    seen = trace.see(billet, plane, TONES, pixels=pixels)
    # a pixel of nine layers takes waves as straight, wrong either way with the seed
    rough = rows == 45 and billet is not FLAT
    assert seen.tone.mean() == pytest.approx(bright.mean(), rel=0.01 if rough else 0.005)


@every_history
def test_the_pile_and_the_plain_way_find_the_same_bar(billet):
    points = strewn(billet)
    bars, before = undone(billet, points)
    inside = np.abs(before[2]) < RACK.size.thickness / 2
    assert inside.mean() > 0.999
    pile = billet.unfolded
    found = pile.bar_at(billet.follow(points).height)
    agree = (found == bars)[inside]
    assert agree.mean() > 0.9999  # a point may lie within rounding of an edge
    assert trace.bar_at(billet, tuple(float(axis[7]) for axis in points))[1] == bars[7]


@pytest.mark.parametrize(
    ("steps", "bottom", "top"),
    [
        ((), 0, 3),
        ((QuarterTurn(quarters=2),), 3, 0),
        ((Fold(),), 0, 0),
        ((QuarterTurn(quarters=2), Fold()), 3, 3),
        ((Fold(), CutAndStack(pieces=2)), 0, 0),
        ((CutAndStack(pieces=3),), 0, 3),
    ],
)
def test_a_point_beside_the_bar_is_its_outer_bar(steps, bottom, top):
    # By hand: a pixel on the outline may have its middle a little off the steel.
    billet = Billet(source=stack(4), steps=steps)
    off = 0.51 * billet.size.thickness
    assert trace.bar_at(billet, (20.0, 0.0, -off))[1] == bottom
    assert trace.bar_at(billet, (20.0, 0.0, off))[1] == top


@lying_flat
def test_the_height_runs_on_through_every_weld(billet):
    half = billet.size.thickness / 2
    stacks = billet.unfolded.stacks
    jumps = []
    for count in (20_001, 40_001):
        z = np.linspace(-half, half, count)
        line = np.full(count, 0.417 * billet.size.length), np.full(count, 1.3), z
        height = billet.follow(line).height
        assert height[[0, -1]] == pytest.approx([0, stacks], abs=1e-6)
        jumps.append(np.max(np.abs(np.diff(height))))
    # twice as many points, half the step: there is no jump in it
    assert jumps[1] == pytest.approx(jumps[0] / 2, rel=0.05)


@pytest.mark.parametrize("billet", [FLAT, MIXED], ids=["flat", "mixed"])
@pytest.mark.parametrize("level", range(5))
def test_steps_that_keep_layers_level_may_be_taken_at_once(billet, level):
    points = strewn(billet)
    one_by_one = Billet(source=billet.source, steps=billet.steps)
    assert one_by_one.level >= level
    one_by_one.__dict__["level"] = level  # where the property keeps its answer
    at_once = billet.follow(points).height
    assert one_by_one.follow(points).height == pytest.approx(at_once, abs=1e-9)


@every_history
@pytest.mark.parametrize("layers_a_pixel", [0.05, 0.3, 2.5])
def test_single_precision_is_enough_for_the_screen(billet, layers_a_pixel):
    assert billet.layers >= 264
    plane = face(billet, layers_a_pixel * billet.mean_layer)
    single, double = (
        trace.see(billet, plane, TONES, double=double).tone for double in (False, True)
    )
    assert single.dtype == np.float32
    assert double.dtype == np.float64
    assert np.sqrt(np.mean((single - double) ** 2)) < 0.01
    assert single.mean() == pytest.approx(double.mean(), abs=1e-3)


@pytest.mark.parametrize("folds", [2, 6, 7, 12, 18])
@pytest.mark.parametrize("layers_a_pixel", [1e-6, 1e-4, 0.01, 0.3, 2])
def test_the_kit_chooses_double_precision_where_it_is_needed(folds, layers_a_pixel):
    # An edge between two steels crosses the picture: 0 1 | 1 0 | 0 1 …
    billet = forged(2, folds, thickness=6)
    layer = billet.mean_layer
    edge = (2 * (billet.layers // 4) + 1) * layer - 3
    for oblique in (False, True):
        plane = face(billet, layers_a_pixel * layer, oblique=oblique)
        plane = replace(plane, centre=(*plane.centre[:2], edge))
        chosen = trace.see(billet, plane, TONES).tone
        double = trace.see(billet, plane, TONES, double=True).tone
        assert np.ptp(double) > 0.1
        assert np.sqrt(np.mean((chosen - double) ** 2)) < 0.01


# A face ground along the layers shows one layer, and so one steel, however often the
# billet was folded: the angle between face and layers is 0.
@pytest.mark.parametrize("folds", [0, 3, 5, 7, 8, 10, 12])
@pytest.mark.parametrize("depth", [0.5, 3.5, 11.5])
def test_a_face_along_the_layers_shows_one_steel(folds, depth):
    billet = forged(11, folds, thickness=6)
    plane = from_above(
        billet.size, billet.size.length / 2, 3 - depth * billet.mean_layer, 20, 20, 0.2
    )
    bars, _ = undone(billet, tuple(np.array([part]) for part in plane.centre))
    tone = trace.see(billet, plane, {"1084": 0.1, "15N20": 0.9}).tone
    assert tone == pytest.approx(0.9 if bars[0] % 2 else 0.1, abs=0.01)


@pytest.mark.parametrize("pixels", ["mean", "fine", "point"])
def test_like_steels_show_no_pattern(pixels):
    for billet in (FLAT, WAVY, ON_EDGE):
        plane = face(billet, billet.mean_layer)
        alike = trace.see(billet, plane, {"1084": 0.37, "15N20": 0.37}, pixels=pixels)
        assert np.ptp(to_srgb(alike.tone)) == 0
        assert alike.tone == pytest.approx(0.37, abs=1e-6)


@pytest.mark.parametrize("billet", [FLAT, WAVY], ids=["flat", "wavy"])
def test_the_picture_does_not_know_in_how_many_bands_it_was_made(billet, monkeypatch):
    plane = face(billet, billet.mean_layer, oblique=True, count=150)
    whole = trace.see(billet, plane, TONES)
    for pixels in (1, 150 * 31, 10**9):
        monkeypatch.setattr(trace, "BAND_PIXELS", pixels)
        again = trace.see(billet, plane, TONES)
        assert all(np.array_equal(a, b) for a, b in zip(whole, again, strict=True))


def twisted_again(weld):
    """Twist a square bar, weld it to itself, and twist it again."""
    side = 16.0
    bar = Stack.alternate(
        "1084", "15N20", pieces=9, thickness=side / 9, length=150, width=side
    )
    billet = Billet(source=bar).then(RoundUp(), Twist(turn_length=60), SquareUp())
    square = DrawOut(thickness=15, width=15)
    return billet.then(weld, square, RoundUp(), Twist(turn_length=60), SquareUp())


def folded_bundle():
    """Lay two twisted bars together, and fold them."""
    bars = twisted_again(Fold()), twisted_again(CutAndStack(pieces=2))
    return Billet(source=Bundle(bars=bars)).then(Fold())


TORN = {
    "folded": lambda: (twisted_again(Fold()), "face"),
    "cut and stacked": lambda: (twisted_again(CutAndStack(pieces=3)), "face"),
    "a bundle, folded": lambda: (folded_bundle(), "face"),
} | {
    name: lambda name=name: (pattern(name).forge(), pattern(name).shown)
    for name in ("multi-bar composite", "chevron", "four-way mosaic", "feather")
}


@pytest.mark.parametrize("name", TORN)
def test_lines_are_not_torn_where_layers_meet_a_weld_askew(name):
    """Against the mean of 8 × 8 places a pixel or more: no pixel of a weld is a tooth."""
    billet, shown = TORN[name]()
    columns, rows, parts = 240, 96, 16 if name == "feather" else 8  # its layers are fine
    plane = shown_at(billet, shown, columns, rows)
    if shown == "face":
        plane = replace(plane, centre=(*plane.centre[:2], 0.3))
    finer = {"columns": parts * columns, "rows": parts * rows, "pixel": plane.pixel / parts}
    tones = dict.fromkeys(billet.source.steels, 0.0) | {"15N20": 1.0}
    points = trace.see(billet, replace(plane, **finer), tones, pixels="point", double=True)
    wanted, cover = (
        part.reshape(rows, parts, columns, parts).mean(axis=(1, 3)) for part in points[:2]
    )
    off = np.abs(trace.see(billet, plane, tones).tone - wanted)
    piece = billet.follow(plane.look(-1, rows + 1, float).points).piece
    welds = trace._torn(piece, np.indices(off.shape).sum(axis=0)) & (cover == 1)
    assert welds.sum() > 30
    assert off[welds].mean() < 0.05
    assert np.percentile(off[welds], 99) < 0.3

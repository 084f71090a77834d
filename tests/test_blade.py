"""The blade as it is seen: what its pictures show, and where."""

import math
from dataclasses import replace

import numpy as np
import pytest
from blades import (
    BAR,
    TONES,
    closer,
    each_family,
    each_kind,
    edges,
    flat_bar,
    ground,
    thick,
)
from steps import forged, undone

from kit.basics.errors import KitError
from kit.section.blade import Blade, Section, Spine
from kit.section.outline import Outline
from kit.section.trace import see


def test_a_ricasso_of_flat_layers_is_plain():
    billet = flat_bar()
    # 3.9 mm of 4.0: the faces lie in the middle of the outermost layers but one
    grind = ground(spine=3.95, ricasso=30, plunge=3)
    blade = Blade.fitted(grind, billet.size, 600, 400)
    x, _, _ = (axis[1:-1, 1:-1] for axis in blade.look(-1, blade.rows + 1).points)
    tone, cover, _ = see(billet, blade, TONES)
    ricasso = (x - blade.heel < 29) & (cover == 1)
    bevel = (x - blade.heel > 40) & (cover == 1)
    assert np.ptp(tone[ricasso]) == pytest.approx(0, abs=1e-3)
    assert tone[bevel].std() > 0.3


def test_a_plunge_at_45_degrees_spreads_a_layer_by_the_root_of_two():
    # cosec 45° = 1.414: 0.05 mm show as 0.0707 mm, too fine again for the eye
    billet = flat_bar()
    grind = ground(ricasso=30, plunge=1.8)
    blade = Blade(grind=grind, size=billet.size, columns=900, rows=3, pixel=0.0025)
    blade = replace(blade, centre=(blade.heel + 30.9, -15.0))
    found = edges(see(billet, blade, TONES).tone[1])
    assert len(found) == 35
    seen_from_the_side = np.diff(found) * blade.pixel
    assert seen_from_the_side * math.sqrt(2) == pytest.approx(0.0707, abs=1e-3)


def test_the_spine_shows_the_layers_as_thin_as_they_are():
    billet = flat_bar()
    spine = Spine(grind=ground(), size=billet.size, columns=3, rows=1200, pixel=0.004)
    found = edges(see(billet, spine, TONES).tone[:, 1])
    inside = found[np.abs(found - 599.5) * 0.004 < 1.99]
    assert np.diff(inside) * 0.004 == pytest.approx(0.05, rel=1e-3)
    assert len(inside) == 79


@each_kind
@each_family
def test_what_is_seen_lies_on_the_blade(kind, family):
    outline = Outline(family=family, length=150, height=30)
    grind = ground(kind, outline, ricasso=12, plunge=4, taper=30)
    for side, sign in (("right", 1), ("left", -1)):
        blade = Blade.fitted(grind, BAR, 200, 100, side=side)
        look = blade.look(0, blade.rows, float)
        x, y, z = (axis[look.cover == 1] for axis in look.points)
        assert z == pytest.approx(sign * thick(grind, x - blade.heel, y + 15) / 2)
        assert len(z) > 1000
    spine = Spine.fitted(grind, BAR, 200, 100)
    look = spine.look(0, spine.rows, float)
    x, y, z = (axis[look.cover == 1] for axis in look.points)
    assert y + 15 == pytest.approx(outline.spine(x - spine.heel).above)
    assert np.all(np.abs(z) <= grind.half(x - spine.heel, y + 15))


def test_the_hand_knows_right_from_left():
    # Edge down, point away from you: the right side is on the right, towards +z.
    right, left = (Blade(grind=ground(), size=BAR, side=side) for side in ("right", "left"))
    tip, heel = (right.heel + 150, 3.6, 0), (right.heel, 0, 0)
    assert right.place(tip)[0] > right.place(heel)[0]
    assert left.place(tip)[0] < left.place(heel)[0]
    section = Section(grind=ground(), size=BAR, at=60)
    assert section.place((0, 0, 2))[0] > section.place((0, 0, -2))[0]
    assert section.place((0, 15, 0))[1] < section.place((0, -15, 0))[1]


@pytest.mark.parametrize(
    ("make", "eye"),
    [
        (Blade, (0, 0, 1)),
        (lambda **more: Blade(side="left", **more), (0, 0, -1)),
        (Spine, (0, 1, 0)),
        (lambda **more: Section(at=70, **more), (-1, 0, 0)),
    ],
)
def test_a_view_is_no_mirror_image_and_a_point_is_where_it_is_drawn(make, eye):
    view = make(grind=ground(taper=20), size=BAR, columns=90, rows=70, pixel=0.41)
    _, right, up = view.frame
    assert np.cross(right, up) == pytest.approx(eye)
    points = view.look(0, 70, float).points
    for row, column in ((3, 8), (35, 44), (60, 80)):
        point = tuple(float(axis[row, column + 1]) for axis in points)
        assert view.place(point) == pytest.approx((column, row), abs=1e-6)


@each_kind
def test_the_leaning_is_the_slope_of_the_thickness(kind):
    grind = ground(kind, ricasso=12, plunge=6, taper=40)
    for side, sign in (("right", 1), ("left", -1)):
        blade = Blade.fitted(grind, BAR, 600, 400, side=side)
        right, up = blade.leans()
        for along, above in ((15.3, 5.2), (60.1, 6.7), (120.4, 12.3), (80.2, 28.8)):
            column, row = blade.place((blade.heel + along, above - 15, 0))
            column, row = round(column), round(row)
            x, y = (axis[row, column + 1] for axis in blade.look(0, blade.rows).points[:2])
            here, step = (float(x) - blade.heel, float(y) + 15), 1e-4
            ahead, higher = (
                (thick(grind, *further) - thick(grind, *nearer)) / (4 * step)
                for further, nearer in (
                    ((here[0] + step, here[1]), (here[0] - step, here[1])),
                    ((here[0], here[1] + step), (here[0], here[1] - step)),
                )
            )
            assert right[row, column] == pytest.approx(sign * float(ahead), abs=2e-3)
            assert up[row, column] == pytest.approx(float(higher), abs=2e-3)


def test_a_flat_bevel_leans_by_its_depth_over_its_height():
    blade = Blade(grind=ground(), size=BAR, columns=9, rows=9, pixel=0.5)
    _, up = blade.leans()
    assert up == pytest.approx(1.8 / 30, rel=1e-4)


def test_a_loupe_goes_from_the_whole_blade_to_one_layer():
    billet = flat_bar()
    whole = Blade.fitted(ground(), billet.size, 640, 400)
    spot = (whole.heel + 60, 1.234)
    there = whole.place((*spot, 0))
    for times in (1, 5, 25, 125, 700):
        loupe = closer(whole, times, spot)
        assert loupe.place((*spot, 0)) == pytest.approx(there)
        assert loupe.pixel * times == pytest.approx(whole.pixel)
    # at 25 times a layer of 0.05 mm is 30/36 mm = 87 pixels wide
    loupe = replace(closer(whole, 25, spot), rows=400)
    width = np.abs(np.diff(edges(see(billet, loupe, TONES).tone[:, 320]))) * loupe.pixel
    assert width == pytest.approx(30 / 36, rel=2e-3)
    loupe = replace(closer(whole, 700, spot), rows=400)
    assert np.ptp(see(billet, loupe, TONES).tone) == pytest.approx(0, abs=1e-6)


def test_the_bar_before_stands_in_the_same_place():
    for view in (
        Blade(grind=ground(), size=BAR),
        Blade(grind=ground(), size=BAR, side="left", centre=(90, 3)),
        Spine(grind=ground(), size=BAR),
        Section(grind=ground(), size=BAR, at=40),
    ):
        before, after = view.before.look(0, 9, float), view.look(0, 9, float)
        right, up = np.array(view.frame)[1:]
        for axis in (right, up):
            seen = [
                sum(a * p for a, p in zip(axis, look.points, strict=True))
                for look in (before, after)
            ]
            assert seen[0] == pytest.approx(np.broadcast_to(seen[1], seen[0].shape))
        assert (view.before.columns, view.before.rows) == (view.columns, view.rows)


@each_kind
def test_every_pixel_of_a_blade_is_the_mean_of_what_it_covers(kind):
    billet = forged(11, 3, thickness=5)
    grind = ground(kind, ricasso=12, plunge=4)
    blade = Blade.fitted(grind, billet.size, 320, 200)
    rows = blade.rows
    fine = replace(blade, columns=320 * 8, rows=rows * 8, pixel=blade.pixel / 8)
    points = tuple(axis[:, 1:-1] for axis in fine.look(0, rows * 8, float).points)
    bright = undone(billet, points)[0] % 2  # every other bar is 15N20
    truth = bright.reshape(rows, 8, 320, 8).mean(axis=(1, 3))
    face = see(billet, blade, TONES)
    inside = face.cover == 1
    assert np.sqrt(np.mean((face.tone - truth)[inside] ** 2)) < 0.05


@pytest.mark.parametrize(
    ("wish", "answer"),
    [
        ({"size": BAR._replace(thickness=3.9)}, "at most 3.9 mm thick. Given: 4."),
        ({"size": BAR._replace(width=29)}, "at most 29 mm high. Given: 30."),
        ({"size": BAR._replace(length=149)}, "at most 149 mm long. Given: 150."),
        ({"heel": 51}, "The heel must lie from 0 to 50 mm along the bar"),
    ],
)
def test_a_blade_larger_than_its_bar_is_refused(wish, answer):
    with pytest.raises(KitError, match=answer):
        Blade(**{"grind": ground(), "size": BAR, **wish})


def test_odd_wishes_are_refused():
    with pytest.raises(KitError, match="The section must lie from 0 to 150 mm"):
        Section(grind=ground(), size=BAR, at=-1)
    for layer in (0, -0.05, math.nan):
        with pytest.raises(KitError, match="thicker than 0 mm"):
            ground().crossed(layer)

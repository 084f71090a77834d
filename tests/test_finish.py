"""The lamp on etched steel: what it may change, and what it must leave alone."""

import math

import numpy as np
import pytest
from blades import BAR, ground
from steps import forged

from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import DrawOut, Hammer, Size
from kit.metal import etch
from kit.section import finish
from kit.section.blade import Blade
from kit.section.finish import Lamp, etched, lit
from kit.section.picture import PAGE, Sheet
from kit.section.surface import cut
from kit.section.trace import Face, see


def flat(tone, rows=300, columns=400):
    """Give an evenly lit flat face of some tones."""
    tone = np.broadcast_to(np.float32(tone), (rows, columns))
    return Face(tone, np.ones_like(tone), np.ones_like(tone))


FLAT = cut(Size(100, 100, 100), angle=90, columns=120, rows=60, pixel=0.5)


def shown(face):
    return face.tone * face.light


def wavy(bright="15N20", dark="1084"):
    """Forge a bar by hand, blow by blow."""
    source = Stack.alternate(dark, bright, pieces=11, thickness=3.0)
    billet = Billet(source=source).then(Hammer(depth=3, spacing=25, seed=3))
    return billet.then(DrawOut(thickness=9), Hammer(depth=1.5, spacing=12, seed=4))


@pytest.mark.parametrize("angle", [5, 20, 60])
@pytest.mark.parametrize("pixel", [0.4, 0.1, 0.02, 0.003])
def test_the_lamp_leaves_the_mean_tone_within_a_few_per_cent(angle, pixel):
    billet = wavy()
    means = []
    for position in (30, 40, 50):  # in a small picture one edge leans to the lamp
        size = {"columns": 500, "rows": 400, "pixel": pixel}
        plane = cut(billet.size, angle=angle, position=position, **size)
        face = see(billet, plane, etch.tones(billet.source.steels))
        finished, steel = lit(face, pixel=pixel), face.cover == 1
        parts = (face.tone, finished.tone, shown(finished))
        means.append([part[steel].mean() for part in parts])
    before, drawn, after = np.mean(means, axis=0)
    assert after == pytest.approx(drawn, rel=0.05)
    if pixel >= 0.1:  # both steels in the picture, as on a blade
        assert after == pytest.approx(before, rel=0.06)


@pytest.mark.parametrize("steel", ["1084", "15N20"])
def test_equal_steels_show_no_pattern(steel):
    tones = etch.tones([steel])
    pictures = []
    for billet in (wavy(steel, steel), wavy(steel, steel)[:0]):
        size = BAR._replace(length=150, width=38, thickness=5)
        blade = Blade.fitted(ground(ricasso=12), size, 400, 200)
        pictures.append(shown(etched(see(billet, blade, tones), blade)))
    assert pictures[0] == pytest.approx(pictures[1], abs=1e-5)


def stripe(lamp, pixel=0.2):
    """Light a bright stripe on dark: the light above it, on it, and below it."""
    tone = np.full((200, 200), 0.05, np.float32)
    tone[80:120] = 0.75
    seen = lit(flat(tone, 200, 200), pixel=pixel, lamp=lamp)
    return shown(seen)[:, 60:140].mean(axis=1)


@pytest.mark.parametrize("pixel", [0.2, 0.02, 0.002])
def test_the_slow_steel_stands_proud(pixel):
    upper, lower = stripe(Lamp(turned=90), pixel)[[80, 119]]
    assert upper > 1.1 * lower  # a wall towards the lamp, a wall away from it
    upper, lower = stripe(Lamp(turned=270), pixel)[[80, 119]]
    assert lower > 1.1 * upper


def test_a_lamp_from_the_right_lights_the_right_walls():
    tone = np.full((200, 200), 0.05, np.float32)
    tone[:, 80:120] = 0.75
    face = lit(flat(tone, 200, 200), pixel=0.2, lamp=Lamp(turned=0))
    left, right = shown(face)[60:140].mean(axis=0)[[80, 119]]
    assert right > 1.1 * left


def test_a_low_lamp_shows_the_steps_and_a_high_one_does_not():
    def step(raised):
        lines = stripe(Lamp(turned=90, raised=raised))
        return lines[80] / lines[119]

    assert step(15) > step(35) > step(60) > 1
    assert step(90) == pytest.approx(1, abs=0.02)


@pytest.mark.parametrize("slope", [-0.1, -0.03, 0.06, 0.12])
@pytest.mark.parametrize("raised", [30, 60])
@pytest.mark.parametrize("turned", [0, 90])
def test_a_bevel_is_lit_as_lambert_says(slope, raised, turned):
    # Lambert's cosine law: light on a face goes with the cosine between its normal and
    # the lamp (Lambert, Photometria, 1760; any text on optics), here 0.7 of the light.
    # A face that rises by `slope` towards the lamp looks away from it.
    height, off = math.radians(raised), math.atan(slope)
    lambert = 0.3 + 0.7 * math.sin(height - off) / math.sin(height)
    lamp, dark = Lamp(turned=turned, raised=raised), flat(0.0, 101, 101)
    rising = (slope, 0.0) if turned == 0 else (0.0, slope)
    level, leaning = (
        lit(dark, pixel=0.2, lamp=lamp, leans=lean) for lean in ((0.0, 0.0), rising)
    )
    ratio = leaning.light[50, 50] / level.light[50, 50]
    assert ratio == pytest.approx(lambert, abs=0.01)


def test_sheen_is_soft_on_bright_steel_and_none_on_black():
    lamp = Lamp(turned=90, raised=35)
    for tone, least, most in ((0.0, 0, 1e-6), (0.8, 0.05, 0.5)):
        face = lit(flat(tone), pixel=10.0, lamp=lamp)  # no scratch is so wide
        light = face.light - finish.grit(300, 400) * (1 - tone)
        columns = light.mean(axis=0)
        middle, side = columns[180:220].mean(), columns[[0, -1]].mean()
        assert least <= middle - side <= most


def test_the_sanding_runs_along_the_blade():
    marks = finish.scratches(300, 400, 0.1, (0.0, 0.0))
    along, across = (np.abs(np.diff(marks, axis=axis)).mean() for axis in (1, 0))
    assert across > 10 * along > 0
    assert 0.01 < marks.std() < 0.1  # subtle
    assert abs(marks.mean()) < 0.02


def test_scratches_stay_on_the_steel_when_the_picture_moves():
    pixel = 0.1
    here = finish.scratches(200, 300, pixel, (0.0, 0.0))
    there = finish.scratches(200, 300, pixel, (40 * pixel, 25 * pixel))
    assert there[25:, :-40] == pytest.approx(here[:-25, 40:], abs=1e-6)
    larger = finish.scratches(260, 340, pixel, (0.0, 0.0))
    assert larger[30:-30, 20:-20] == pytest.approx(here, abs=1e-6)


def test_the_same_steel_is_lit_the_same_way_twice_and_left_alone():
    face = flat(np.linspace(0, 1, 400))
    before = [part.copy() for part in face]
    once, twice = lit(face, pixel=0.1), lit(face, pixel=0.1)
    for part, again in zip(once, twice, strict=True):
        assert np.array_equal(part, again)
    for part, kept in zip(face, before, strict=True):
        assert np.array_equal(part, kept)
    assert np.array_equal(once.cover, face.cover)
    assert np.all(np.diff(once.tone[0]) > 0)  # what was brighter stays brighter
    assert 0 <= once.tone.min() < once.tone.max() <= 1
    assert once.light.min() >= 0


@pytest.mark.parametrize("pixel", [1e-6, 1e-3, 1.0, 100.0])
@pytest.mark.parametrize("shape", [(1, 1), (2, 500), (300, 3), (70, 80)])
def test_any_size_and_zoom_can_be_lit(pixel, shape):
    face = lit(flat(0.4, *shape), pixel=pixel, middle=(1e4, -1e4))
    assert face.light.shape == shape
    assert np.all(np.isfinite(face.light))
    assert shown(face).mean() == pytest.approx(0.4, rel=0.15)


def test_a_blade_on_paper_throws_a_soft_shadow_away_from_the_lamp():
    cover = np.zeros((60, 120), np.float32)
    cover[10:50, 10:110] = 1
    face = Face(cover * 0.5, cover, np.ones_like(cover))
    paper = sum(bytes.fromhex(PAGE[1:]))
    sheet = Sheet(200, 140)
    sheet.blade(face, (40, 40), FLAT)
    page = np.asarray(sheet.image).astype(int).sum(axis=2)
    below, above = page[93, 100], page[46, 100]  # the lamp stands above
    assert 0.5 * paper < below < above <= paper
    assert page[5, 5] == paper


def test_a_lamp_out_of_its_range_is_refused():
    with pytest.raises(KitError, match="Lamp raised must be from 10 to 90 °"):
        Lamp(raised=5)
    with pytest.raises(KitError, match="Lamp turned must be from -180 to 360 °"):
        Lamp(turned=400)


def test_a_folded_bar_keeps_its_order_of_tones():
    billet = forged(11, 3, thickness=5)
    blade = Blade.fitted(ground(), billet.size, 640, 200)
    face = see(billet, blade, etch.tones(billet.source.steels))
    seen = etched(face, blade)
    steel = face.cover == 1
    bright, dark = steel & (face.tone > 0.7), steel & (face.tone < 0.1)
    assert np.percentile(shown(seen)[bright], 5) > 2 * np.percentile(shown(seen)[dark], 95)

"""The words for a face, on arrays drawn here and on what the lessons draw."""

import base64
import io
import re

import numpy as np
import pytest
from PIL import Image

from kit import Billet, Blade, Grind, Hammer, Outline, QuarterTurn, Stack, cut, show
from kit.course.anvil.look import Look, scene
from kit.course.heads import first_forging
from kit.course.lessons import twist
from kit.course.lessons.cut import CutLesson
from kit.forge.billet import fold_and_draw
from kit.metal import etch
from kit.metal.described import described
from kit.section.block import Block
from kit.section.grind import BladeGrind
from kit.section.surface import shown_at
from kit.section.trace import see
from kit.shop.patterns import PATTERNS
from tests.lessons import KNOWN
from tests.test_workings import states

ROWS, COLUMNS = 160, 240
Y, X = np.mgrid[ROWS / 2 - 0.5 : -ROWS / 2 : -1, -COLUMNS / 2 + 0.5 : COLUMNS / 2]
WHOLE = np.ones((ROWS, COLUMNS))


def bands(distance, wide=8.0):
    """Draw bright and dark in turn, with soft edges of a pixel."""
    wave = np.abs(np.mod(distance / wide, 2) - 1) - 0.5
    return 0.1 + 0.3 * np.clip(wave * wide + 0.5, 0, 1)


def stripes(degrees, wide=8.0):
    """Draw stripes that run so, 0 from left to right, more than 0 rising to the right."""
    lean = np.radians(degrees)
    return bands(Y * np.cos(lean) - X * np.sin(lean), wide)


def told(tone, cover=WHOLE, pixel=0.1):
    """Describe a drawn array."""
    return described(tone, cover, pixel)


@pytest.mark.parametrize("degrees", [0, 12, 30, 45, 57, 80, 90, -20, -45, -70])
def test_stripes_run_as_they_were_drawn(degrees):
    found = told(stripes(degrees))
    assert found.kind == "lines"
    off = (found.degrees - degrees + 90) % 180 - 90
    assert abs(off) < 1.5
    assert found.apart == pytest.approx(0.8, rel=0.12)


@pytest.mark.parametrize("wide", [3, 5, 8, 13, 20, 40])
def test_bands_are_counted(wide):
    found = told(stripes(0, wide))
    assert abs(found.bands - ROWS / wide) <= 1
    assert str(found).startswith(f"{found.bands} dark and bright bands")


@pytest.mark.parametrize("degrees", [0, 2, 20, 45, 70, 79, 88, 90, -15, -60])
@pytest.mark.parametrize("wide", [5, 8, 13])
def test_a_number_of_bands_is_that_of_the_whole_face(degrees, wide):
    """Of slanting ones a line square to them meets only some: then no number is told."""
    lean = np.radians(degrees)
    there = np.ptp(Y * np.cos(lean) - X * np.sin(lean)) / wide
    number = str(told(stripes(degrees, wide))).split()[0]
    assert not number.isdigit() or abs(int(number) - there) <= 2


@pytest.mark.parametrize("slant", [20, 35, 45, 57, 70])
@pytest.mark.parametrize("upright", [False, True])
def test_chevrons_are_chevrons(slant, upright):
    tone = np.where(Y > 0, stripes(slant), stripes(-slant))
    if upright:
        tone = np.where(X > 0, stripes(slant), stripes(-slant))
    found = told(tone)
    assert found.kind == "chevrons"
    assert found.degrees == pytest.approx(slant, abs=2)
    assert f"slanting {found.degrees:.0f} degrees" in str(found)


def test_rings_are_rings():
    assert told(bands(np.hypot(X, Y))).kind == "rings"
    four = np.hypot(np.mod(X, 60) - 30, np.mod(Y, 60) - 30)
    assert told(bands(four)).kind == "rings"


def test_waves_are_bent_and_noise_is_specks():
    assert told(bands(Y + 10 * np.sin(X / 12))).kind == "bent"
    dice = np.random.default_rng(3)
    assert told(dice.uniform(0, 0.5, WHOLE.shape)).kind == "speckled"


@pytest.mark.parametrize("tone", [0.0, 0.09, 0.34, 1.0])
def test_one_tone_is_plain(tone):
    dice = np.random.default_rng(4)
    grain = dice.normal(0, 0.003, WHOLE.shape)
    found = told(np.clip(tone + grain, 0, 1))
    assert found.kind == "plain"
    assert str(found) == "one even tone, without bands"


def test_what_is_no_steel_says_nothing():
    cover = np.zeros_like(WHOLE)
    assert told(stripes(30), cover).kind == "plain"
    cover[40:120, 60:200] = 1  # the rim of the steel is no band
    assert told(np.full_like(WHOLE, 0.2) * cover, cover).kind == "plain"
    assert told(stripes(30), cover).degrees == pytest.approx(30, abs=2)


def test_never_one_bands():
    half = np.where(Y > 0, 0.1, 0.4)
    assert "2 dark and bright bands running from left to right" in str(told(half))
    edge = np.where(Y > 79, 0.1, 0.4)
    assert "1 " not in str(told(edge))


def bar(first, second):
    """Stack nine bars of two steels."""
    return Billet(source=Stack.alternate(first, second, pieces=9, thickness=4.0))


def of(billet, surface):
    """Describe what a surface of a bar shows."""
    face = see(billet, surface, etch.tones(billet.source.steels))
    return described(face.tone, face.cover, surface.pixel)


def test_bars_that_were_forged():
    nine = bar("1084", "15N20")
    square = of(nine, cut(nine.size, angle=90))
    assert (square.kind, square.bands) == ("lines", 9)
    assert square.apart == pytest.approx(4.0, rel=0.03)
    one = bar("1084", "1084")
    assert of(one, cut(one.size, angle=90)).kind == "plain"
    edge = nine.then(QuarterTurn())
    assert "running up and down" in str(of(edge, cut(edge.size, angle=90)))
    hammered = bar("1084", "15N20").then(Hammer(depth=3, spacing=25, seed=2), Grind(top=9))
    flat = cut(hammered.size, angle=6)
    assert of(hammered, flat).kind in ("rings", "bent")


@pytest.mark.parametrize(
    ("name", "kinds"),
    [
        ("random", {"rings", "bent"}),
        ("raindrop", {"rings", "bent"}),
        ("ladder", {"lines", "bent"}),
    ],
)
def test_patterns_of_the_trade(name, kinds):
    known = next(one for one in PATTERNS if one.name == name)
    billet = known.forge()
    assert of(billet, shown_at(billet, known.shown, 470, 250)).kind in kinds


@pytest.mark.parametrize("same", ["1084", "15N20"])
def test_one_steel_twice_is_told_as_plain(same):
    both = Billet(source=Stack.alternate(same, same, pieces=9, thickness=4.0))
    assert "without bands" in show(both, cut(both.size, angle=30)).alt
    hammered = fold_and_draw(both.then(Hammer(depth=3, spacing=25)), folds=2)
    for angle in (90, 30, 5):
        alt = scene(hammered, Look(kind="slant", angle=angle)).alt
        assert ": one even tone, without bands" in alt
        assert "dark and bright" not in alt


@pytest.mark.parametrize("turn", [30, 50, 90])
@pytest.mark.parametrize("ground", [0, 1, 3, 5])
def test_only_hands_that_differ_make_chevrons(turn, ground):
    """The face is mirrored at the seam, pixel by pixel; so is what is said of it."""
    for neighbour in (0, 1, 2):
        scene = twist.TwistLesson.scene(neighbour=neighbour, turn=turn, ground=ground)
        assert ("shows chevrons" in scene.alt) == (neighbour == 2)


def test_swirls_are_no_bands_from_left_to_right():
    alt = first_forging().alt
    assert "rings and swirls" in alt or "bent lines" in alt
    assert "running from left to right" not in alt


def bands_met(billet, angle, thickness):
    """Follow a cut through the block's middle, point by point, and count its layers."""
    along = np.linspace(-400, 400, 200001)
    lean = np.radians(angle)
    x, z = billet.size.length / 2 - along * np.cos(lean), along * np.sin(lean)
    high = billet.size.thickness
    inside = (x >= 0) & (x <= billet.size.length) & (np.abs(z) <= high / 2)
    layer = np.floor((z[inside] + high / 2) / thickness - 1e-12)
    return len(np.unique(layer.clip(0)))


@pytest.mark.parametrize("angle", [90, 60, 35, 20])
def test_bands_in_words_are_those_that_the_cut_meets(angle):
    for layers, thickness in ((9, 4.0), (15, 1.5), (25, 0.8)):
        scene = CutLesson.scene(layers=layers, thickness=thickness, angle=angle)
        face = scene.panels[-1]
        met = bands_met(face.billet, angle, thickness)
        high = met * thickness / np.sin(np.radians(angle))
        if high < face.surface.rows * face.surface.pixel:
            words = f"shows {met} dark and bright bands running from left to right"
            assert words in scene.alt


@pytest.mark.parametrize("name", ["CutLesson", "TwistLesson"])
def test_words_are_those_of_the_face_at_any_state(name):
    for state in states(name, 6):
        scene = KNOWN[name].scene(**state)
        last = scene.panels[-1]
        face = see(last.billet, last.surface, etch.tones(last.billet.source.steels))
        steel = face.tone[face.cover > 0.99]
        if "rows of stars" not in scene.alt:
            assert np.ptp(steel) > 0.02 or "one even tone" in scene.alt
            assert np.std(steel) < 0.02 or "one even tone" not in scene.alt
        assert " 1 dark" not in scene.alt
        assert " 1 bands" not in scene.alt


BAR = Billet(source=Stack.alternate("1084", "15N20", pieces=5, thickness=2.0))
SURFACES = {
    "solid": Block.fitted(BAR.size, columns=300, rows=200),
    "blade": Blade.fitted(
        BladeGrind(outline=Outline(length=120, height=14), spine=2, edge=0.4),
        BAR.size,
        300,
        90,
    ),
    "cut": cut(BAR, angle=30),
}


@pytest.mark.parametrize("name", SURFACES)
def test_what_a_page_shows_lies_on_the_pages_own_ground(name):
    """In the sun the page is white: no picture keeps a cream ground of its own."""
    html = show(BAR, SURFACES[name])._repr_html_()
    data = base64.b64decode(re.search(r"base64,([^\"]+)", html)[1])
    pixels = np.asarray(Image.open(io.BytesIO(data)).convert("RGBA"))
    seen = pixels[pixels[..., 3] > 0][:, :3]
    assert 0 < len(seen) < pixels[..., 0].size
    assert not (seen == (0xFA, 0xF7, 0xF0)).all(axis=1).any(), "cream"


@pytest.mark.parametrize("columns", [320, 640, 1280])
@pytest.mark.parametrize("layers", [8, 20, 40, 60, 80, 120, 200, 400])
def test_a_count_that_is_told_is_the_bar_s_own_at_any_scale(layers, columns):
    """Bands finer than pixels run together, and what is left counts as fewer."""
    stack = Stack.alternate("1084", "15N20", pieces=layers, thickness=6 / layers, width=30)
    bar = Billet(source=stack)
    plane = shown_at(bar, "end", columns, columns * 9 // 32)
    told = re.search(r"(\d+) dark and bright bands", str(of(bar, plane)))
    assert told is None or int(told[1]) == layers
    assert told or layers * 3 > 0.9 * plane.rows

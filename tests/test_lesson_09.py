"""Lesson 09: what it says, against arc-minutes by hand, scipy's blur, and order alone.

Relief, contrast and tones have no published source: only their order and what the
curriculum fixes as illustrative is checked.
"""

import json
import math
import re

import numpy as np
import pytest
from lessons import judges
from scipy.ndimage import gaussian_filter

from kit.course.lessons import etching_ideas as asked
from kit.course.lessons.etching import EtchingLesson
from kit.course.views.lesson import view_of
from kit.metal.eye import SPREAD, seen_from
from kit.section.trace import see


def numbers(**settings):
    """Give the numbers panel by name."""
    return {number.name: number.value for number in EtchingLesson.scene(**settings).numbers}


def test_the_numbers_of_the_lesson():
    shown = numbers()
    assert shown["Relief (illustrative)"] == "5.0 µm"
    assert shown["Contrast (illustrative)"] == "0.58"
    assert shown["Tone where unsplit (illustrative)"] == "0.22"
    assert shown["Eye limit from 300 mm"] == "87.3 µm"
    # one arc-minute: the definition behind 20/20 (ISO 8596)
    assert 300 * math.tan(math.radians(1 / 60)) == pytest.approx(0.0873, abs=5e-5)


def test_from_three_metres_only_the_widest_bands_are_left():
    assert numbers(distance=3000)["Bands still seen"] == "2 mm"
    assert numbers(distance=300)["Bands still seen"] == "0.3, 0.8, 2 mm"
    words = EtchingLesson.scene(distance=3000).alt
    assert "The first shows one even tone, without bands; the second one even" in words
    assert "the third dark and bright bands" in words


@pytest.mark.parametrize("band", asked.BANDS)
def test_the_faces_are_blurred_as_scipy_would(band):
    job = EtchingLesson(distance=3000)
    bar, plane = job.face(band, 540, 92)
    tones = {"1084": 0.1, "15N20": 0.35}
    bare = see(bar, plane, tones).tone
    width = SPREAD * 3000 * math.tan(math.radians(1 / 60)) / plane.pixel
    expected = gaussian_filter(bare.astype(float), width, mode="reflect", truncate=5)
    assert seen_from(bare, 3000, plane.pixel) == pytest.approx(expected, abs=2e-3)
    middle = expected[30:60, 100:440]
    ripple = np.ptp(middle) / 2 / middle.mean()
    assert (ripple > 0.1) == (band == 2.0)


def test_bands_have_their_width():
    for band in asked.BANDS:
        bar, plane = EtchingLesson().face(band, 540, 92)
        tone = see(bar, plane, {"1084": 0.0, "15N20": 1.0}).tone
        edges = np.flatnonzero(np.diff(tone[46] > 0.5))
        width = (edges[-1] - edges[0]) / (len(edges) - 1) * plane.pixel
        assert width == pytest.approx(band, rel=0.1)  # the hammer made them wave


def test_wear_takes_the_pattern_and_the_bath_brings_it_back():
    fresh = numbers()["Contrast (illustrative)"]
    worn = numbers(wear=100)
    assert worn["Relief (illustrative)"] == "0.0 µm"
    assert float(worn["Contrast (illustrative)"]) < 0.1
    assert numbers(wear=100, since=1)["Contrast (illustrative)"] == fresh


def test_four_finishes_and_only_one_needs_the_right_light():
    # ground: no step, no tone; rubbed bright: steps as etched, no tone; then both
    for finish, light, bands in (
        *((0, 0, "none"), (0, 1, "none"), (1, 0, "none"), (1, 1, "0.3, 0.8, 2 mm")),
        *((2, 0, "0.3, 0.8, 2 mm"), (3, 0, "0.3, 0.8, 2 mm")),
    ):
        shown = numbers(finish=finish, light=light)
        assert shown["Bands still seen"] == bands, (finish, light)
        assert shown["Relief (illustrative)"] == ("5.0 µm" if finish else "0.0 µm")
    assert numbers(finish=1, light=1, distance=1000)["Bands still seen"] == "none"
    assert "Take the low lamp" in EtchingLesson.scene(finish=1).says


def test_a_low_lamp_lights_what_is_told_of_it():
    """The drawn face shows lines where the numbers say so, and is even where not."""
    for finish, light in ((0, 0), (0, 1), (1, 0), (1, 1)):
        scene = EtchingLesson.scene(finish=finish, light=light)
        plain = all(panel.shows.kind == "plain" for panel in scene.panels)
        assert plain == (numbers(finish=finish, light=light)["Bands still seen"] == "none")


def test_five_metals_lie_in_turn_and_are_named():
    scene = EtchingLesson.scene(more=3)
    names = ("1084", "15N20", "nickel", "1018", "O1")
    layers = scene.panels[0].billet.source.layers
    assert tuple(layer.steel for layer in layers[:5]) == names
    assert "1084, 15N20, nickel, 1018 and O1 in turn" in scene.alt
    words = EtchingLesson(more=3).remark("more")
    # common practice, no source: nickel bright, what has neither nickel nor chromium dark
    assert "From bright to dark: nickel, 15N20, 1018," in words
    assert EtchingLesson(first=9, second=9, more=3).names == ("nickel", "1018", "O1")


def test_ground_deeper_the_lines_lie_elsewhere():
    faces = []
    for since in (1, 2):
        bar, plane = EtchingLesson(since=since).face(0.8, 540, 92)
        faces.append(see(bar, plane, {"1084": 0.0, "15N20": 1.0}).tone)
    changed = np.mean(np.abs(faces[0] - faces[1]) > 0.5)
    assert 0.002 < changed < 0.4


def test_without_nickel_there_is_little_contrast():
    alike = float(numbers(second=2)["Contrast (illustrative)"])
    assert alike < 0.1 < float(numbers()["Contrast (illustrative)"])
    assert "little to see" in EtchingLesson(second=2).remark("second")
    assert "One steel" in EtchingLesson(second=0).remark("second")


def test_the_relief_says_how_much_too_high_it_is_drawn():
    assert "100 times too large" in EtchingLesson.scene().alt


def test_everything_unpublished_is_marked_on_the_page():
    page = view_of("09")
    notes = [
        child.value
        for child in page.children
        if hasattr(child, "value") and isinstance(child.value, str)
    ]
    assert any("we found no source for how fast steel dissolves" in note for note in notes)
    names = list(numbers())
    assert sum("illustrative" in name for name in names) == 3


def test_coupons_of_ones_own_go_before_the_guesses():
    page = view_of("09")
    rows = [
        {
            "steel": "1084",
            "minutes": 10,
            "bath": "usual",
            "reflectance": 0.05,
            "relief_um": 9,
            "date": "2026-11-01",
        },
        {
            "steel": "15N20",
            "minutes": 10,
            "bath": "usual",
            "reflectance": 0.45,
            "relief_um": 2,
            "date": "2026-11-01",
        },
    ]
    coupons = {"format": "kit-coupons-1", "coupons": rows}
    page.upload.take("a.json", json.dumps(coupons).encode())
    shown = {number.name: number.value for number in page.shown.numbers}
    assert shown["Relief (illustrative)"] == "7.0 µm"
    assert "measured on your coupon" in page.note.value
    before = page.picture.alt
    for bad in (b"{", b"[]", b"x" * 200_000, b'{"format": "soup", "coupons": []}'):
        page.upload.take("<b>bad</b>.json", bad)
        assert "kit-refused" in page.says.value
        assert "<b>bad" not in page.says.value
        assert page.picture.alt == before


def test_lightness_and_difference_of_the_two_greys():
    working = next(
        n for n in EtchingLesson.scene().numbers if n.name.startswith("Contrast")
    )
    # L* = 116 Y^(1/3) - 16 (CIE 1976), by hand from the two tones in the working
    tones = [float(part) for part in re.findall(r"0\.\d\d", working.working[1])]
    levels = [116 * tone ** (1 / 3) - 16 for tone in tones]
    told = [int(part) for part in re.findall(r"L\* (\d+) and (\d+)", working.working[2])[0]]
    assert told == pytest.approx(levels, abs=1.5)


@pytest.mark.parametrize(
    ("check", "right", "wrong"),
    [
        (
            asked.STEEP,
            ["8.2", "8.2°"],
            {"3.4": "THE_BEVEL", "81.8": "COMPLEMENT", "12.9": "LINEAR"},
        ),
        (asked.WALK, ["2750", "2.75 m", "108 in"], {"32.7": "UPSIDE_DOWN", "300": "ARM"}),
    ],
)
def test_answers_are_marked_with_reasons(check, right, wrong):
    judges(check, right, wrong)


def test_tiles_are_the_four_ideas():
    question = EtchingLesson.question
    assert sorted(question.values()) == [0, 1, 2, 3]
    assert question.right.value(question.given) == 1
    assert len({question.draw(value)[1] for value in question.values()}) == 4

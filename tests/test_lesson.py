"""Lessons 01 and 02: their numbers, and wrong ideas that can be told apart.

The figures are those of the curriculum's sections 3.1, 3.2 and 7 (N01, N02), worked out
there by hand and repeated here as plain arithmetic.
"""

import itertools

import numpy as np
import pytest
from lessons import judges, value_of

from kit import KitError
from kit.basics.units import Units
from kit.classroom.paper import handout
from kit.course.answers import BLANK, faded
from kit.course.lesson import Prediction
from kit.course.lessons import cut, fold_ideas
from kit.course.lessons.cut import CutLesson
from kit.course.lessons.fold import EYE_300, FoldLesson
from kit.course.map import LESSONS
from kit.section.picture import LAYERS

CHECKS = {
    "band width": cut.BAND_WIDTH,
    "three times": cut.THREE_TIMES,
    "layers": fold_ideas.LAYER_COUNT,
    "bands": fold_ideas.BAND_COUNT,
    "fewest folds": fold_ideas.FEWEST_FOLDS,
}
QUESTIONS = {"cut": CutLesson.question, "fold": FoldLesson.question}


@pytest.mark.parametrize(
    ("angle", "band", "spread"),
    [(30, "8.0 mm", "× 2"), (5, "45.9 mm", "× 11.5"), (90, "4.0 mm", "× 1")],
)
def test_n01_numbers(angle, band, spread):
    scene = CutLesson.scene(layers=9, thickness=4.0, angle=angle, position=50)
    assert value_of(scene, "Band width") == band
    assert value_of(scene, "Spread") == spread


def test_n01_moving_a_square_cut_along_changes_nothing():
    scenes = [  # of layers: where steel was sanded, its grain lies elsewhere
        CutLesson.scene(layers=9, thickness=4.0, angle=60, position=p, look=LAYERS)
        for p in (40, 60)
    ]
    faces = [np.asarray(scene.image)[60:380, 670:940] for scene in scenes]
    np.testing.assert_array_equal(*faces)
    assert "did not change" in CutLesson(angle=60).remark("position")


@pytest.mark.parametrize(
    ("pieces", "folds", "join", "layers", "bands"),
    [
        (7, 4, 0, "112", "97"),
        (8, 4, 1, "128", "128"),
        (8, 4, 0, "128", "113"),
        (9, 5, 0, "288", "257"),
        (7, 0, 0, "7", "7"),
        (2, 19, 0, "1,048,576", "524,289"),
    ],
)
def test_n02_numbers(pieces, folds, join, layers, bands):
    scene = FoldLesson.scene(pieces=pieces, folds=folds, join=join, thickness=5.0)
    assert value_of(scene, "Layers") == layers
    assert value_of(scene, "Bands") == bands


def test_n02_fine_layers():
    scene = FoldLesson.scene(pieces=7, folds=4, join=0, thickness=6.0)
    assert value_of(scene, "One layer") == "53.6 µm"
    assert value_of(scene, "A double band") == "0.107 mm"
    assert value_of(scene, "Seen").startswith("no")
    legend = FoldLesson.scene(pieces=2, folds=19, join=0, thickness=5.0)
    assert value_of(legend, "One layer") in {"4.77 nm", "4.8 nm", "0.00477 µm"}


def test_eye_limit_is_one_minute_of_arc():
    # 20/20 vision resolves 1 arc-minute (NRC 1985): 0.0873 mm at 300 mm
    assert pytest.approx(0.0873, abs=5e-5) == EYE_300


@pytest.mark.parametrize(
    ("check", "answer", "slips"),
    [
        ("band width", "4.73", ["4.29", "2.21", "0.845", "2.0"]),
        ("three times", "19.5", ["18.4", "70.5"]),
        ("layers", "288", ["14", "19", "45", "90", "59049"]),
        ("bands", "257", ["288", "287", "256"]),
        ("fewest folds", "6", ["5", "17", "146"]),
    ],
)
def test_checks_know_the_answer_and_the_slips(check, answer, slips):
    judges(CHECKS[check], answer, slips)


def test_answers_with_units():
    assert cut.BAND_WIDTH.mark("0.186 in").right
    assert cut.BAND_WIDTH.mark("3/16 in").right
    assert cut.BAND_WIDTH.mark("4,73").right
    assert cut.BAND_WIDTH.mark("0.186", units=Units.INCH_FRACTION).right
    assert cut.BAND_WIDTH.mark("0.186").found.code == "UNIT"


def test_a_ruler_is_given_five_per_cent():
    assert not cut.BAND_WIDTH.mark("4.9").right
    assert cut.BAND_WIDTH.mark("4.9", measured=True).right


def test_third_try_shows_other_numbers_with_the_last_line_blank():
    words = [cut.BAND_WIDTH.mark("33", tries=n).words for n in (1, 2, 3)]
    assert words[0] == words[1] != words[2]
    assert BLANK in words[2]
    assert "3 mm / sin(35°)" in words[2]
    assert "4.73" not in words[2]


@pytest.mark.parametrize("text", ["", "abc", "1/0 in", "9" * 400, "<b>4.73</b>", "nan"])
def test_nonsense_is_answered_with_one_sentence(text):
    for check in CHECKS.values():
        with pytest.raises(KitError, match="Give"):
            check.mark(text)


def test_prediction_comes_first():
    prediction = Prediction(QUESTIONS["cut"])
    with pytest.raises(KitError, match="Choose one first"):
        prediction.observe()
    prediction.choose(2)
    words = prediction.observe()
    assert "cosine" in words
    prediction.choose(1)
    assert prediction.chosen == 2, "the prediction is kept as it was"


def test_right_prediction_is_told_so():
    prediction = Prediction(QUESTIONS["fold"])
    prediction.choose(3)
    assert "You predicted it" in prediction.observe()


@pytest.mark.parametrize(
    ("name", "values"),
    [("cut", [4.0, 8.0, 4.6188, 2.0]), ("fold", [11, 15, 56, 112])],
)
def test_tiles_follow_from_the_wrong_ideas(name, values):
    assert QUESTIONS[name].values() == pytest.approx(values, abs=1e-4)


@pytest.mark.parametrize("width", [4.0, 4.6188, 8.0, 2.0])
def test_cut_tile_shows_the_bands_it_names(width):
    image, alt = CutLesson.question.draw(width)
    column = np.asarray(image.convert("L"), float)[:, 100]
    edges = np.flatnonzero(np.diff(column > 128))
    pixel = 25.4 / 96
    assert np.diff(edges).mean() * pixel == pytest.approx(width, rel=0.06)
    assert f"{width:.1f} mm" in alt


@pytest.mark.parametrize("layers", [11, 15, 56])
def test_fold_tile_shows_the_layers_it_names(layers):
    image, _ = FoldLesson.question.draw(layers)
    column = np.asarray(image.convert("L"), float)[:, 100]
    assert np.count_nonzero(np.diff(column > 128)) == layers - 1


@pytest.mark.parametrize("key", [one.key for one in LESSONS.values() if one.question])
def test_no_two_tiles_of_a_question_look_alike(key):
    """A few strokes' worth differs, or a tenth of all pixels: ours, by looking."""
    question = LESSONS[key].question
    tiles = [
        np.asarray(question.draw(value)[0].convert("L"), float) / 255
        for value in question.values()
    ]
    for one, other in itertools.combinations(tiles, 2):
        rows, columns = (count // 5 * 5 for count in one.shape)
        apart = (one - other)[:rows, :columns]
        squares = apart.reshape(rows // 5, 5, columns // 5, 5).mean(axis=(1, 3))
        fine = (np.abs(apart) > 0.1).mean() > 0.1
        assert fine or np.count_nonzero(np.abs(squares) > 0.1) >= 15


def test_fading_leaves_out_the_last_lines():
    lines = ["a", "b", "c"]
    assert faded(lines, 0) == lines
    assert faded(lines, 1) == ["a", "b", BLANK]
    assert faded(lines, 2) == ["a", BLANK, BLANK]
    assert faded(["only"], 2) == ["only"]


def test_alt_text_follows_the_state():
    words = CutLesson.scene(layers=9, thickness=4.0, angle=30, position=50).alt
    assert "9 alternating dark and bright layers, each 4.0 mm thick" in words
    assert "30 degrees" in words
    assert "9 dark and bright bands running from left to right" in words
    assert "each band is 8.0 mm wide" in words
    inch = CutLesson.scene(
        layers=9, thickness=4.7625, angle=30, position=50, units=Units.INCH_FRACTION
    )
    assert "3/16 in" in inch.alt


def test_the_right_picture_lies_now_here_now_there():
    asked = [handout.lesson(number).question for number in handout.LESSONS]
    places = [question.tiles.index(question.right) for question in asked]
    assert set(places) == {0, 1, 2, 3}
    assert max(places.count(place) for place in range(4)) < len(places) / 2

"""The bars of the show page: pictures by the engine that differ, tiles of the lessons."""

import base64
import io

import numpy as np
import pytest
from PIL import Image

from kit import Billet, DrawOut, Fold, KitError, Stack, see
from kit.classroom.show import page
from kit.classroom.show import piece as drawing
from kit.classroom.show.own_piece import own_piece, talk_piece
from kit.classroom.show.piece import COLUMNS, ROWS, THEMES, TILE, Voice, from_above
from kit.course.anvil.class_talk import class_talks
from kit.course.lessons import press_ideas as pi
from kit.course.lessons.cut import CutLesson
from kit.course.lessons.twist import TwistLesson
from kit.metal import etch
from kit.metal.colour import contrast_ratio
from kit.section.picture import LAYERS, to_srgb
from kit.shop.patterns import pattern
from kit.shop.recipes.recipe import Recipe


@pytest.fixture(scope="module")
def pieces():
    return page.own_pieces()


@pytest.fixture(scope="module")
def told(pieces):
    return page.told(pieces)


def grey(picture, theme):
    data = base64.b64decode(picture["seen"][theme].partition(",")[2])
    with Image.open(io.BytesIO(data)) as image:
        return np.asarray(image.convert("L"), float), image.size, data


def test_there_are_nine_faces_and_four_tiles_in_two_themes(told):
    assert len(told["pieces"]) == 3
    for piece in told["pieces"]:
        assert (len(piece["stops"]), len(piece["tiles"])) == (9, 4)
        for theme in THEMES:
            sizes = {grey(stop, theme)[1] for stop in piece["stops"]}
            assert sizes == {(COLUMNS, ROWS)}
            assert {grey(tile, theme)[1] for tile in piece["tiles"]} == {TILE}


@pytest.mark.parametrize("theme", THEMES)
def test_no_two_pictures_of_a_bar_are_alike(theme, told):
    for piece in told["pieces"]:
        for kind in ("stops", "tiles"):
            seen = [grey(one, theme)[0] for one in piece[kind]]
            for at, one in enumerate(seen):
                assert all(np.abs(one - other).mean() > 4 for other in seen[:at])
                assert len({item["alt"]["en"]["mm"] for item in piece[kind]}) == len(seen)


def test_a_png_has_sixteen_signs_a_pixel(told):
    data = grey(told["pieces"][0]["stops"][4], "sunlight")[2]
    # PNG (ISO/IEC 15948), the header chunk: byte 24 bits a sample, byte 25 kind of colour
    assert (data[24], data[25]) == (4, 3)


def test_the_greys_stay_near_what_the_engine_sees(pieces):
    stop = pieces[2].stops[5]
    data = drawing.seen(stop, "indoor", look=LAYERS)
    with Image.open(io.BytesIO(data)) as image:
        got = np.asarray(image.convert("L"), float)
    face = see(stop.billet, stop.surface, etch.tones(stop.billet.source.steels))
    wanted = to_srgb(face.tone).astype(float)
    assert np.abs(got - wanted).max() <= 255 / 14 / 2 + 1  # half a step of the greys


def test_indoors_faces_are_etched_steel_and_tiles_are_layers(told):
    for piece in told["pieces"]:
        kinds = [
            {one["seen"][theme].partition(";")[0] for one in piece[of]}
            for of, theme in (
                ("stops", "indoor"),
                ("stops", "sunlight"),
                ("tiles", "indoor"),
            )
        ]
        assert kinds == [{"data:image/webp"}, {"data:image/png"}, {"data:image/png"}]
        values = grey(piece["stops"][0], "indoor")[0]
        assert len(np.unique(values)) > 40  # light and grain, not two tones


def test_sunlight_is_dark_and_bright_as_promised(told):
    for piece in told["pieces"]:
        values = grey(piece["stops"][3], "sunlight")[0]
        assert values.min() == 0x2B
        assert 0xE8 in values
    # contrast of these two by WCAG 2.2, worked out by hand in /1.4.3: 0.857 / 0.0742
    steels = etch.tones(["1084", "15N20"])
    dark, bright = drawing.sunlit(np.array([*steels.values()]), steels)
    assert contrast_ratio(dark, bright) == pytest.approx(11.55, abs=0.05)


@pytest.mark.parametrize(
    ("at", "ideas", "right"),
    [
        (0, TwistLesson.question.tiles, TwistLesson.question.right),
        (1, (pi.UNCHANGED, pi.LEFT, pi.ONE_RING, pi.HALF_BAR), pi.LEFT),
        (2, CutLesson.question.tiles, CutLesson.question.right),
    ],
)
def test_the_tiles_are_the_lessons_ideas(at, ideas, right, pieces):
    assert len(pieces[at].tiles) == len(ideas)
    assert ideas[pieces[at].right] is right


def test_a_finger_stops_at_a_mark_and_has_come_somewhere(pieces):
    for piece in (*pieces, own_piece(Recipe(name="m", billet=pattern("ladder").forge()))):
        assert 0 < piece.asked < len(piece.stops)
        assert "mark" in piece.slider(Voice())


def test_no_figure_stands_in_a_tile(told):
    tiles = [tile for piece in told["pieces"] for tile in piece["tiles"]]
    assert {words for tile in tiles for words in tile["says"]["en"].values()} == {""}


def test_a_talk_is_seen_at_rest_as_a_bevel_of_its_bar():
    """Steel all over, for it fills a blade's outline."""
    piece = talk_piece(class_talks()[0])
    assert piece.rest.billet == class_talks()[0].billet
    assert piece.rest.face().cover[ROWS // 10 : -ROWS // 10].min() == 1


@pytest.mark.parametrize("at", [0, 1, 2])
def test_the_right_tile_shows_what_will_be_seen(at, pieces):
    piece = pieces[at]
    seen = [picture.surface for picture in (piece.tiles[piece.right],)]
    assert seen[0].pixel * seen[0].columns == pytest.approx(
        piece.stops[0].surface.pixel * COLUMNS
    )
    small = [
        np.asarray(
            Image.open(io.BytesIO(drawing.seen(one, "sunlight")))
            .convert("L")
            .resize((60, 19), Image.Resampling.BOX),
            float,
        )
        for one in (piece.stops[piece.asked], *piece.tiles)
    ]
    if at < 2:  # the same bar at the same depth; a stack's bands may lie elsewhere
        off = [np.abs(small[0] - tile).mean() for tile in small[1:]]
        assert off.index(min(off)) == piece.right
    else:
        changes = [np.abs(np.diff(tile[9])).sum() for tile in small]
        off = [abs(changes[0] - tile) for tile in changes[1:]]
        assert off.index(min(off)) == piece.right


def test_ground_twist_leans_as_a_helix_does():
    # unrolled, a helix rises once round in one turn: tan = 2 pi r / p (any geometry text)
    words = page.own_pieces()[0].stops[4].alt(Voice())
    assert "leaning 37 degrees" in words  # atan(2 pi 5 / 42) = 36.8
    assert "5.0 mm ground off" in words


def test_a_bar_that_looks_alike_at_all_depths_is_refused():
    stack = Stack.alternate("15N20", "L6", pieces=4, thickness=3)
    with pytest.raises(KitError, match="looks nearly the same"):
        own_piece(Recipe(name="grey", billet=Billet(source=stack).then(Fold())))


def test_any_bar_can_be_shown_also_a_short_one():
    stack = Stack.alternate("1084", "15N20", pieces=9, thickness=3, length=30, width=30)
    billet = Billet(source=stack).then(DrawOut(thickness=20, width=30))
    surface = from_above(billet, billet.size.thickness / 2)
    assert surface.pixel * COLUMNS <= billet.size.length + 1e-9


def test_both_units_are_on_the_page(told):
    stop = told["pieces"][0]["stops"][4]
    # 5 / 25.4 = 0.197 in, 12.6 sixty-fourths
    assert stop["says"]["en"] == {"mm": "5.0 mm off", "inch": "13/64 in off"}
    assert stop["says"]["de"] == {
        "mm": "5,0 mm abgetragen",
        "inch": "13/64 Zoll abgetragen",
    }
    assert "13/64 in" in stop["alt"]["en"]["inch"]
    assert set(told["cardSays"]["en"]) == {"mm", "inch"}


@pytest.mark.parametrize(
    ("name", "axis"), [("low twist", True), ("multi-bar composite", True), ("star", False)]
)
def test_lines_run_along_a_bar_only_where_grinding_goes_to_the_axis(name, axis):
    why = own_piece(Recipe(name=name, billet=pattern(name).forge())).why(Voice())
    assert ("run along it" in why) == axis

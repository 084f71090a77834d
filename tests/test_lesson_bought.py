"""A bar you bought: how thick to buy it, tried on the bar itself."""

import itertools
import math
import re
from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from kit.basics.errors import KitError
from kit.basics.typed import parse_length
from kit.basics.units import Units
from kit.course.lessons.bought import BoughtLesson
from kit.course.lessons.bought_drawing import advice, bounds
from kit.course.lessons.bought_photo import nearest, squared
from kit.course.views.lesson import view_of
from kit.metal import etch
from kit.section.picture import to_srgb
from kit.section.surface import Plane
from kit.section.trace import see
from kit.shop.bought import BOUGHT, FLAT, LADDER, OTHER, SOLD, TWIST, bar, made_as
from kit.shop.patterns import PATTERNS
from kit.shop.photograph import Photograph

STEP = 0.1  # mm, of the slider
STATES = [
    {"bought": SOLD.index(name), "layers": layers, "edge": edge, "skin": skin, "hot": hot}
    for name in (BOUGHT[FLAT], "low twist", "ladder", "raindrop")
    for layers, edge, skin, hot in (
        (20, 0.8, 0.3, 5),
        (40, 0.5, 0.0, 20),
        (30, 1.2, 0.6, 0),
    )
]


def met_at_the_edge(job):
    """Count layers that lie between a drop's middle and beside it, in the bar itself.

    Taken back by the steps' own undo, at the height of the finished edge's skin.
    """
    bar = job.bar
    x = np.linspace(0.3, 0.7, 1501) * bar.size.length
    height = np.full_like(x, (job.edge - 2 * job.scale) / 2)
    z = bar.undo((x, np.zeros_like(x), height))[2]
    return np.ptp(z) / (bar.sizes[0].thickness / job.layers)


@pytest.mark.parametrize("state", STATES, ids=str)
def test_the_thickness_that_is_advised_is_where_the_bars_own_count_turns(state):
    """From both sides: of the spine at the thinnest, of the pattern at the thickest."""
    job = BoughtLesson(**state)
    least, most = bounds(job, Units.MM)
    thin, enough = (BoughtLesson(**state, thickness=t) for t in (least - STEP, least))
    assert thin.back < job.spine
    assert enough.back == pytest.approx(job.spine)
    assert enough.grind.spine == pytest.approx(job.spine - 2 * job.scale)
    if math.isinf(most):
        assert job.made == TWIST
        return
    if job.made == FLAT:
        inside, outside = (job.grind.crossed(t / job.layers) for t in (most, most + STEP))
        assert inside.lines >= 1 - 1e-9 > outside.lines
        return
    inside, outside = (
        BoughtLesson.model_construct(**{**job.values, "thickness": t})
        for t in (most, most + STEP)
    )
    assert met_at_the_edge(inside) >= 1 - 1e-3
    assert met_at_the_edge(outside) < 1


def test_the_checks_answers_are_the_benchs_own():
    """What it advises, and what that advice was tried on in the bar, above."""
    thin, thick = BoughtLesson.checks
    spine, skin = thin.given["spine"], thin.given["skin"]
    assert thin.answer(thin.given) == pytest.approx(
        BoughtLesson(spine=spine, skin=skin).least
    )
    layers, edge = thick.given["layers"], thick.given["edge"]
    job = BoughtLesson(bought=SOLD.index("raindrop"), layers=layers, edge=edge)
    assert job.shown == thick.given["shown"]
    assert thick.given["scale"] == pytest.approx(job.scale, abs=0.0005)
    assert thick.answer(thick.given) == pytest.approx(job.most, rel=0.002)


@pytest.mark.parametrize("units", list(Units))
@pytest.mark.parametrize("bought", range(len(SOLD)))
def test_the_first_sentence_answers_the_slider(bought, units):
    quarter = parse_length("1/4 in")
    for thickness, spine in itertools.product((2.5, 4.0, 6.0, 12.0), (2.0, 4.0, quarter)):
        job = BoughtLesson(bought=bought, thickness=thickness, spine=spine)
        says = advice(job, units)
        assert says.startswith(("Buy ", "No bar has both"))
        assert "no face tells" in says
        assert "fake" not in says
        if says.startswith("Buy"):
            low = says.split(" or more")[0].split(" to ")[0].removeprefix("Buy ")
            assert parse_length(low) == pytest.approx(bounds(job, units)[0], rel=0.01)


@pytest.mark.parametrize("units", list(Units))
@pytest.mark.parametrize("bought", [SOLD.index("ladder"), SOLD.index("raindrop")])
def test_where_no_bar_has_both_two_sizes_are_named_between_which_there_is_none(
    bought, units
):
    """A reader had: "the spine needs 9/32 in, above 9/32 in a rung is at most a stripe"."""
    named = 0
    for spine, edge in itertools.product((5.5, 5.9, 6.35, 7.0), (0.4, 0.5, 0.6, 0.65)):
        job = BoughtLesson(bought=bought, spine=spine, edge=edge)
        says = advice(job, units)
        if says.startswith("No bar"):
            named += 1
            needs, above = re.findall(r"(?:needs|above) ([\d./ ]+ (?:in|mm))", says)
            least, most = parse_length(needs), parse_length(above)
            assert least > most, says
            assert (least, most) == pytest.approx(bounds(job, units), rel=0.01)
    assert named


@pytest.mark.parametrize("name", SOLD)
def test_a_bar_of_every_pattern_can_be_bought_in_every_size(name):
    """The thickest and highest took one tile more than a bundle holds."""
    for thickness, height in itertools.product((2.5, 7.0, 12.0), (15, 28, 40)):
        job = BoughtLesson(bought=SOLD.index(name), thickness=thickness, height=height)
        assert job.bar.size.thickness == pytest.approx(thickness)


RULED = (-13, -8, -3, 2, 7, 12)  # mm from the middle
OTHERS = [name for name in SOLD if made_as(name) == OTHER]


def test_every_pattern_that_the_trade_names_can_be_chosen():
    assert SOLD[1:] == tuple(known.name for known in PATTERNS)
    assert set(OTHERS) > {"feather", "random", "san mai, plain"}


# the mosaic stands for the chevron, both are tiles; and one clad bar for the other
@pytest.mark.parametrize(
    "name", sorted({*OTHERS} - {"chevron", "san mai, patterned sides"})
)
def test_what_is_said_of_a_pattern_is_what_its_bar_counts(name):
    """Bands along the edge's skin, or up from there to the spine's: the bar's own count."""
    job = BoughtLesson(bought=SOLD.index(name), thickness=6, hot=0)
    bar, low, high = job.bar, job.edge / 2, job.back / 2
    assert (bar.size.thickness, bar.size.length) >= (6, 175)
    long = bar.size.length
    if job.cored:
        places = ((x * long, 25 * x - 12) for x in np.linspace(0.3, 0.7, 12))
        met = [bar.census((*at, low), (*at, high)).bands - 1 for at in places]
        assert job.left == pytest.approx(np.mean(met), abs=0.6 + 0.1 * np.mean(met))
        return
    edge, face = (
        sum(bar.census((0.2 * long, y, z), (0.8 * long, y, z)).bands for y in RULED)
        for z in (low, 2.999)
    )
    assert job.kept == pytest.approx(edge / face, rel=0.25)
    assert job.kept > 0.5  # or it does not run to the middle, as is said


@pytest.mark.parametrize("name", sorted({*SOLD} - {"chevron"}))  # tiles, as the mosaic
def test_layers_told_of_a_bevel_are_those_that_a_line_up_it_meets(name):
    """A feather's was told as 1 layer, 37 mm apart, of a blade 28 mm high."""
    job = BoughtLesson(bought=SOLD.index(name))
    told = [
        next(n.value for n in job.as_seen(units).numbers if "bevel" in n.name).split("; ")
        for units in Units
    ]
    lines = told[0][0]
    bar, low, high = job.bar, -job.height / 2, -job.height / 2 + job.grind.height
    met = [
        bar.census((x, low, job.grind.edge / 2), (x, high, job.grind.spine / 2)).bands - 1
        for x in bar.size.length / 2 + np.linspace(-30, 15, 8)  # between plunge and tip
    ]
    assert float(lines) == pytest.approx(np.mean(met), abs=1 + 0.1 * np.mean(met))
    if float(lines) > 1:
        spacings = [parse_length(spacing) for _, spacing in told]
        mean = job.grind.bevel_length / float(lines)
        assert spacings == pytest.approx([mean] * 3, rel=0.1)


def test_a_core_that_is_ground_away_shows_no_line():
    """12 mm of bar for a spine of 1.5: the core is thicker than all that is left."""
    job = BoughtLesson(
        bought=SOLD.index("san mai, plain"), thickness=12, spine=1.5, edge=0.5
    )
    assert round(job.left) == 0
    assert job.most < 12
    assert job.most == pytest.approx(1.5 / 0.3, rel=0.1)  # its core is 3.6 of 12


def test_it_is_said_before_and_after_a_move():
    job = BoughtLesson(thickness=7)
    said = advice(job, Units.MM)
    assert job.remarked("thickness", Units.MM) == job.as_seen(Units.MM).says == said


def test_a_twist_reaches_the_edge_whatever_was_bought():
    job = BoughtLesson(bought=SOLD.index("tight twist"), thickness=12)
    assert met_at_the_edge(job) > 1


def test_bar_and_blade_are_drawn_at_one_scale_and_over_one_place():
    bar, blade = (panel.surface for panel in BoughtLesson.scene().panels)
    assert bar.pixel == blade.pixel
    seen = [surface.look(60, 61, float).points[0].ravel() for surface in (bar, blade)]
    assert np.allclose(*seen, atol=bar.pixel)


@pytest.mark.parametrize("bought", [SOLD.index("ladder"), SOLD.index("raindrop")])
def test_what_was_seen_on_the_face_is_there_at_the_skin(bought):
    begun = BoughtLesson(bought=bought)
    whole = {**begun.values, "edge": begun.thickness, "hot": 0.0}
    met = met_at_the_edge(BoughtLesson.model_construct(**whole))
    assert begun.shown == pytest.approx(met, rel=1e-3)


def test_the_page_shuts_what_changes_nothing():
    view = view_of("06")
    view.lock(False)
    view.set(kind=0)
    assert view.controls["wheel"].disabled
    assert view.controls["wheel"].why == "Only a hollow grind is of a wheel."
    view.set(kind=2)
    assert not view.controls["wheel"].disabled
    assert not view.controls["wheel"].why
    view.lock(True)
    assert view.controls["wheel"].disabled


def ladder():
    """Give the face of a ladder bar, 90 by 30 mm, 0.05 mm a pixel."""
    billet = bar(40, LADDER, 6.0, 34.0)
    face = Plane(
        size=billet.size, centre=(billet.size.length / 2, 0.0, 2.9999),
        right=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0), columns=1800, rows=600, pixel=0.05,
    )  # fmt: skip
    return see(billet, face, etch.tones(billet.source.steels)).tone


def photographed(light, turn):
    """Photograph a face of 90 by 30 mm, turned so many degrees; picture and corners.

    Drawn by the pinhole's own formula, not by the kit's.
    """
    lean, far = math.radians(turn), 200.0

    def seen(x, y):  # mm from the middle of the face: to pixels
        near = far / (far + x * math.sin(lean))
        return 500 + 9 * x * math.cos(lean) * near, 200 + 9 * y * near

    corners = [seen(x, y) for x, y in ((-45, -15), (45, -15), (45, 15), (-45, 15))]
    columns, rows = np.meshgrid(np.arange(1000), np.arange(400))
    u = (columns - 500) / 9
    x = u * far / (far * math.cos(lean) - u * math.sin(lean))
    y = (rows - 200) / 9 * (far + x * math.sin(lean)) / far
    inside = (abs(x) < 45) & (abs(y) < 15)
    at = np.clip(((x + 45) / 0.05).astype(int), 0, 1799)
    up = np.clip(((y + 15) / 0.05).astype(int), 0, 599)
    seen_light = np.where(inside, light[up, at], 0.9).astype(np.float32)
    return Photograph(seen_light), corners


@pytest.mark.parametrize("turn", [0, 20])
def test_a_photograph_squared_is_the_face_that_was_photographed(turn):
    """Squares of 3 mm lie where they lay: a tenth of that aside, and 0.9 is not met."""
    rows, columns = np.indices((600, 1800))
    photo, corners = photographed(((rows // 60 + columns // 60) % 2).astype(float), turn)
    flat = squared(photo, corners, 90.0, 30.0)
    down, along = np.indices(flat.light.shape) * flat.pixel
    assert (down.max(), along.max()) == pytest.approx((30, 90), rel=0.01)
    board = (down // 3 + along // 3) % 2
    assert np.corrcoef(flat.light.ravel(), board.ravel())[0, 1] > 0.9


def test_the_page_squares_a_photograph_and_shows_the_kits_own_beside_it():
    photo, corners = photographed(ladder(), 20)
    view, stored = view_of("bought"), BytesIO()
    Image.fromarray((to_srgb(photo.light)).astype(np.uint8)).save(stored, "PNG")
    view.upload.take("bar.png", stored.getvalue())
    assert view.photo.alt.startswith("Your photograph")
    for x, y in corners:
        view._pointed(None, {"event": "point", "x": x / 1000, "y": y / 400}, None)
    view.find()
    assert "how high the face" in view.told
    view.wide.value, view.high.value = "90 mm", "30 mm"
    view.find()
    assert "most like ladder" in view.told
    assert "at the same scale" in view.photo.alt
    assert SOLD[view.state["bought"]] == "ladder"
    assert "150 mm long, the piece 90.0 mm" in view.photo.alt  # the blade's outline
    before = view.photo.frame
    view.set(height=20)
    assert view.photo.frame != before


def test_what_is_said_of_a_photograph_stands_between_its_buttons_and_its_picture():
    """So that all three are in sight, and what is said of the blade stays where it is."""
    view = view_of("bought")
    assert view.find_button in view.children[-3].children
    answer, photo = view.children[-2:]
    assert (answer, photo) == (view.answer, view.photo)
    above = view.said
    for act in (view.find, view.clear, lambda: view.upload.take("bar.jpg", b"none")):
        view.tell("")
        act()
        assert view.told
        assert view.told in answer.value.replace("&#x27;", "'")
        assert view.said == above


ASKED_WHY = [  # how wide a band is, pixels; which way; words of what to do next
    (3.5, 1, r"From nearer, photograph a piece \d+ mm long"),
    (12.0, 0, "Turn the picture"),
    (1e9, 1, "Etch deeper"),
]


@pytest.mark.parametrize(("wide", "way", "help_"), ASKED_WHY)
def test_where_no_bands_are_counted_it_is_said_what_to_do_next(wide, way, help_):
    places = np.indices((300, 900))[way]
    light = np.where(places // wide % 2, 0.7, 0.1).astype(np.float32)
    with pytest.raises(KitError, match=help_):
        nearest(Photograph(light, 0.1), 6.0)


def test_a_text_file_named_as_a_photograph_is_answered_at_once():
    view = view_of("bought")
    view.upload.take("bar.jpg", b"this is no picture")
    assert "bar.jpg" in view.told
    assert "is open" not in view.told


def test_what_is_asked_is_what_the_two_bars_keep():
    asked, values = BoughtLesson.question, BoughtLesson.question.values()
    kept = [BoughtLesson(thickness=asked.given[bar]) for bar in ("thick", "first")]
    assert [one.finished for one in kept] == pytest.approx(
        [asked.given["edge"]] * 2, rel=1e-3
    )
    assert [one.shown for one in kept] == [asked.given["shown"]] * 2
    right = asked.tiles.index(asked.right)
    assert values[right] == pytest.approx(kept[0].left, rel=1e-3)
    assert kept[1].left == pytest.approx(1.5, abs=0.05)

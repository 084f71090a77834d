"""What is said of a deliberate move: something, short, in the reader's units, and true."""

import math
import random
import re
from dataclasses import replace
from itertools import product

import pytest

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.course.lessons import reading_drawing
from kit.course.lessons.carbon import CarbonLesson
from kit.course.lessons.cut import CutLesson
from kit.course.lessons.etching import EtchingLesson
from kit.course.lessons.fold import FoldLesson
from kit.course.lessons.press import PressLesson
from kit.course.lessons.san_mai import SanMaiLesson
from kit.course.lessons.twist import TwistLesson
from kit.course.lessons.twist_drawing import line_angle
from kit.course.map import LESSONS
from kit.course.views.settings import Pick
from kit.metal.dangers import DANGERS
from kit.metal.evening import minutes_to_even
from kit.metal.eye import EYE
from kit.metal.pairs import pair
from kit.metal.working_heat import too_hot
from kit.section.half import half_as_fine
from tests.all_at_once import for_all
from tests.lessons import KNOWN, value_of
from tests.test_lesson_laws import begun, ends
from tests.test_told import METRIC

MOST_WORDS, MOST_SENTENCES = 30, 2
RAW = re.compile(r"[1-9]\d*\.\d{4,}|0\.0*[1-9]\d{4,}|\d[eE]-\d|\bnan|inf\b|None")
CONTROLS = [
    (key, setting.key)
    for key, lesson in LESSONS.items()
    for setting in KNOWN[lesson.__name__].settings
]
each = for_all(CONTROLS)


def setting_of(key, control):
    """Give a control of a lesson."""
    return next(s for s in KNOWN[LESSONS[key].__name__].settings if s.key == control)


def moved(key, control, value):
    """Make the lesson with one control moved, and what does not fit given way."""
    lesson = LESSONS[key]
    return lesson.fitted({**begun(lesson.__name__), control: value}, Units.MM)[0]


def stops(key, control):
    """Give both ends, the start, and two stops between."""
    setting = setting_of(key, control)
    if isinstance(setting, Pick):
        return range(len(setting.options))
    found = setting.stops(Units.MM)
    third = len(found) // 3
    return list(dict.fromkeys((found[0], found[third], setting.start, found[-1])))


def said(job, control, units=Units.MM):
    """Give what the status line says of the move: the remark, or the lesson's sentence."""
    return job.remark(control, units) or job.as_seen(units).says


def spoken(words, job):
    """Leave out what law or prudence words: cautions are as long as they must be."""
    if isinstance(job, CarbonLesson):
        for two in product(job.metals, repeat=2):
            lying = replace(pair(*two), carbon=job._means[0])
            for reason in lying.reasons:
                words = words.replace(str(reason), "")
            words = words.replace(lying.hardening.sentence, "")
        words = words.replace(too_hot(job.celsius, job.metals), "")
    return words.strip()


@each
def test_a_deliberate_move_is_answered(key, control):
    """Some stop has a remark, the two ends are not told alike, none is an invitation."""
    found = {stop: moved(key, control, stop) for stop in stops(key, control)}
    assert any(job.remark(control, Units.MM) for job in found.values())
    told = [said(job, control) for job in found.values()]
    assert all(told), told
    assert not any("Move a control" in words for words in told)
    low, high = ends(setting_of(key, control))
    assert said(moved(key, control, low), control) != said(
        moved(key, control, high), control
    )


@for_all((*one, units) for one in CONTROLS for units in Units)
def test_a_remark_is_short_and_in_the_readers_units(key, control, units):
    for stop in stops(key, control):
        job = moved(key, control, stop)
        words = job.remark(control, units)
        # the page's caution tells it once, in full; a remark only names it
        assert not [name for name, one in DANGERS.items() if str(one) in words]
        words = spoken(words, job)
        assert len(words.split()) <= MOST_WORDS, words
        assert len(re.findall(r"[.?!](?= |$)", words)) <= MOST_SENTENCES, words
        assert not RAW.search(words), words
        assert not re.search(r"(cross|meet|show|goes through)\w* [\d.]+,", words), (
            "of what?"
        )
        assert units is Units.MM or not METRIC.search(words), words
        begins = not words or words[0].isupper() or words[0].isdigit()
        assert begins or words.startswith("nickel /"), words  # a steel's own name
        assert not words or words[-1] in ".?", words


def grid(lesson, **values):
    """Make a lesson in every combination of some values, those that fit."""
    states = [{}]
    for name, options in values.items():
        states = [{**state, name: option} for state in states for option in options]
    for state in states:
        yield lesson.fitted({**lesson.begun(), **state}, Units.MM)[0]


def all_said(job):
    """Give all that a lesson says in a state, whatever was moved."""
    yield from (job.remark(one, Units.MM) for one in type(job).model_fields)
    yield job.draw(Units.MM).says


def test_chevrons_and_stars_are_told_only_where_they_are():
    """At the drawn depth both bars have lines, or the face lies on the axis."""
    seen = set()
    for job in grid(
        TwistLesson,
        neighbour=(0, 1, 2),
        stack=(0, 1),
        ground=(0, 1, 4, 7, 8),
        across=(8, 16),
    ):
        lean, off_axis = line_angle(job.billet, job.height), job.height
        for words in all_said(job):
            if "as chevrons" in words:
                assert job.neighbour == 2
                assert lean > 1
                assert off_axis > 0.4  # a line's own width of the bar and more
                seen.add("chevrons")
            now = "stars in rows" in words or "in front of you as stars" in words
            if now or "are their stars" in words or "the stars of one" in words:
                assert off_axis < 0.06 * job.billet.size.thickness
                seen.add("stars")
            for told in re.findall(r"lean(?:s|ed)?(?: most,)? ([\d.]+)°", words):
                skin = math.degrees(math.atan(math.pi * job.across / job.turn))
                assert min(abs(float(told) - lean), abs(float(told) - skin)) < 0.6
    assert seen == {"chevrons", "stars"}


def test_even_is_told_only_once_it_is():
    told = 0
    for job in grid(CarbonLesson, minutes=(0, 1, 5, 120), layer=(0.05, 0.25, 2.0)):
        even = minutes_to_even(job.layer, "C", job.celsius)
        for words in (job.remark("minutes", Units.MM), job.draw(Units.MM).says):
            told += "Carbon is even" in words
            assert ("Carbon is even" in words) == (0 < even <= job.minutes), words
    assert told


def test_hardening_is_told_as_it_is_only_once_carbon_is_even():
    """Hard and soft beside each other have no one heat: the picture shows it."""
    told = set()
    for job in grid(
        CarbonLesson, first=(2,), second=(1, 8), third=(0, 9), laid=(0, 1, 2), minutes=(10,)
    ):
        even = job.middle.left("C") < 0.1 * (0.95 - 0.18)
        for control in ("first", "second", "third"):
            words = job.remark(control, Units.MM)
            if " harden" in words and not even:
                assert "Carbon is not even yet" in words, words
        told.add(even)
    assert told == {True, False}


def test_rings_left_are_those_of_the_numbers_panel():
    for job in grid(PressLesson, tool=(0, 1), ground=(0, 0.6, 3), depth=(1, 2)):
        words = job.remark("ground", Units.MM)
        numbers = {number.name: number.value for number in job.draw(Units.MM).numbers}
        kept, _, there = numbers["Left after grinding"].partition(" of ")
        assert numbers["Rings"] == there
        told = "all are" if kept == there and job.ground else kept
        assert re.search(rf"\b({told}|{there}) .*ring", words), words


def test_why_no_band_is_seen_is_told_truly():
    """Too fine for the eye, or too alike in tone: the eye averages the first alone."""
    seen = set()
    for job in grid(
        EtchingLesson, distance=(250, 1000, 3000), wear=(0, 100), finish=(0, 1, 2)
    ):
        with half_as_fine():
            scene = job.draw(Units.MM)
        bands = value_of(scene, "Bands still seen")
        assert ("it still sees" in scene.says) == (bands != "none")
        fine = EYE.finest(job.distance) > 2.0
        assert ("averages" in scene.says) == fine, scene.says
        seen.add(bands)
    assert len(seen) > 2


def test_metals_are_told_alike_only_where_fresh_from_the_bath_they_are():
    for job in grid(
        EtchingLesson, second=(1, 2), more=(0, 1), wear=(0, 100), finish=(0, 2)
    ):
        nickel = job.second == 1 or job.more
        words = job.remark("second", Units.MM)
        assert ("etch nearly alike" in words) == (not nickel), words


def test_the_core_is_told_to_fill_the_edge_only_where_it_does():
    for job in grid(SanMaiLesson, off=(-1, -0.2, 0, 0.2, 1), thickness=(2, 4, 8)):
        words = job.draw(Units.MM).says
        assert ("it is the edge all along" in words) == (not job.lost)
        assert ("leaves the edge" in words) == bool(job.lost)


def test_the_thinnest_layers_are_told_in_atoms():
    """Iron's radius is 0.124 nm: Callister & Rethwisch, as the billet has it."""
    job = FoldLesson(pieces=8, folds=20)
    words = job.remark("folds", Units.MM)
    atoms = float(re.search(r"([\d.]+) atoms", words)[1])
    assert atoms == pytest.approx(6e6 / 8 / 2**20 / 0.248, rel=0.03)
    assert "atoms" not in FoldLesson().remark("folds", Units.MM)


def test_a_shallow_cut_tells_how_wide_its_bands_are():
    words = CutLesson(angle=5).remark("angle", Units.MM)
    assert f"{1 / math.sin(math.radians(5)):.3g} times" in words


def test_a_layer_is_told_thinner_only_than_what_is_thicker():
    """6 mm / 7 pieces / 2ᵏ, against ISO/IEC 7810's card, paper, a cell, and light."""
    known = {"card": 0.76, "paper": 0.1, "cell": 7.5e-3, "light": 555e-6}
    first = {}
    for folds in range(13):
        words = FoldLesson(folds=folds).remark("folds", Units.MM)
        for name, thick in known.items():
            if name in words:
                first.setdefault(name, folds)
                assert 6 / 7 / 2**folds < thick
    assert first == {"card": 1, "paper": 4, "cell": 7, "light": 11}


WAY = re.compile(
    r"\b(thinner|thicker|wider|narrower|longer|shorter|fewer|flatter|steeper|finer"
    r"|(?<!or )(?<!little )(?<!the )more)\b"
)
# What a remark says of a direction, by lesson, and when it is so; True: of any bar.
DIRECTIONS = {
    "02": ((r"thinner than", lambda job: job.billet.mean_layer < 0.76),),  # the coarsest
    "weld": ((r"longer with every drawing", lambda job: job.folds > 0),),
    "03": (
        (r"made the bar .* longer: more", lambda job: job.thickness < job.start),
        (r"^Thicker|shorter bar", lambda job: job.thickness > job.start),
        (r"thinner, .* times longer", lambda job: job.thickness < job.start),
        (r"% wider", lambda job: job.spread > 0),
    ),
    "04": ((r"^\d+ layers: finer ones", True),),
    "05": (
        (r"forged thinner|times as wide", lambda job: job.billet.size.width > 40.01),
        (r"leaves a wider hollow", lambda job: job.depth < job.across / 2),  # of a circle
    ),
    "06": (
        (r"fewer layers to cross", lambda job: job.taper > 0),
        (r"^More layers are finer, not better", True),
    ),
    "07": ((r"may no longer be off", True),),
    "08": ((r"cooler, it walks more slowly", True),),
    "10": ((r"could be [1-9.\d]+ .* shorter", True),),
    "11": (
        (r"flatter", lambda job: job.lean < reading_drawing.LEAN),
        (r"steeper", lambda job: job.lean > reading_drawing.LEAN),
    ),
    "four blades": ((r"finer than the eye resolves", True),),
}
ADVISED = re.compile(r"so (take|twist|grind) ")  # the bar not made yet


@for_all((key,) for key in LESSONS)
def test_what_is_said_of_a_direction_is_so(key):
    dice = random.Random(key)  # noqa: S311  (no secret)
    kind = KNOWN[LESSONS[key].__name__]
    for _ in range(12):
        values = {one.key: dice.choice(stops(key, one.key)) for one in kind.settings}
        try:
            job = LESSONS[key].fitted(values, Units.MM)[0]
        except KitError:  # no such bar: the page keeps the last one
            continue
        for one in kind.settings:
            words = spoken(job.remark(one.key, Units.MM), job)
            found = WAY.search(words) and not ADVISED.search(words)
            holds = [so for told, so in DIRECTIONS.get(key, ()) if re.search(told, words)]
            assert not found or holds, (one.key, words, "what would make it so?")
            assert all(so is True or so(job) for so in holds), (one.key, words, job.values)

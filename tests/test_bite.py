"""The bite: order and monotony only, for we found no source of the rates.

The numbers of the curriculum, question 11 and 3.9, are our own illustrative ones: the
check is that the kit says the same everywhere.
"""

import itertools

import numpy as np
import pytest

from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Stack
from kit.forge.steels import GRADES, steel
from kit.forge.steps import DrawOut, Grind, Hammer
from kit.forge.steps.base import Heat
from kit.metal.bite import (
    GRAIN,
    ILLUSTRATIVE,
    Etch,
    between,
    bitten,
    ground,
    rate,
)
from kit.metal.etch import Diffused, reflectance, tone_of, tones
from kit.section.surface import cut
from kit.section.trace import see

PAIR = ("1084", "15N20")
MINUTES = [minute / 2 for minute in range(61)]


def rising(values):
    return all(a < b for a, b in itertools.pairwise(values))


def test_the_numbers_of_the_curriculum():
    seen = between(PAIR, Etch(minutes=10, strength="usual", grit=800))
    assert seen.relief == pytest.approx(5, abs=0.05)
    assert seen.contrast == pytest.approx(0.58, abs=0.005)
    assert seen.unresolved == pytest.approx(0.22, abs=0.005)


def test_the_rates_are_those_the_lessons_are_made_with():
    # illustrative, no source: 0.8 and 0.3 µm a minute, 5 µm apart after ten minutes
    assert rate(steel("1084")) == pytest.approx(0.8, abs=0.005)
    assert rate(steel("15N20")) == pytest.approx(0.3, abs=0.005)


@pytest.mark.parametrize(
    ("grit", "micrometres"),
    # FEPA 43-1 / ISO 6344-3, median grain, as printed charts of papers give it
    [
        *((220, 68), (240, 58.5), (280, 52.2), (320, 46.2), (360, 40.5), (400, 35)),
        *((500, 30.2), (600, 25.8), (800, 21.8), (1000, 18.3), (1200, 15.3)),
        *((1500, 12.6), (2000, 10.3)),
    ],
)
def test_grain_of_the_paper(grit, micrometres):
    assert GRAIN[grit] == micrometres


@pytest.mark.parametrize("polished", [False, True])
@pytest.mark.parametrize("strength", ["weak", "usual", "strong"])
def test_longer_is_deeper_and_plainer(strength, polished):
    seen = [
        between(PAIR, Etch(minutes=minutes, strength=strength, polished=polished))
        for minutes in MINUTES
    ]
    assert rising([each.relief for each in seen])
    assert rising([each.contrast for each in seen])


@pytest.mark.parametrize("what", ["relief", "contrast"])
def test_stronger_is_faster(what):
    stronger = [Etch(strength=strength) for strength in ("weak", "usual", "strong")]
    assert rising([getattr(between(PAIR, etch), what) for etch in stronger])


@pytest.mark.parametrize("name", ["1018", "1075", "1084", "O1", "52100"])
@pytest.mark.parametrize("other", ["15N20", "nickel"])
@pytest.mark.parametrize("polished", [False, True])
@pytest.mark.parametrize("grit", [220, 2000])
def test_a_longer_etch_never_brightens_the_dark_steel(name, other, polished, grit):
    etches = [Etch(minutes=m, polished=polished, grit=grit) for m in MINUTES]
    dark = [bitten((name, other), etch)[name].tone for etch in etches]
    assert rising(dark[::-1])


def test_nickel_and_chromium_slow_the_acid():
    names = ("nickel", "304", "15N20", "52100", "1084")
    assert rising([rate(steel(name)) for name in names])
    assert all(0 < rate(grade) <= rate(steel("1084")) for grade in GRADES.values())


def test_finer_paper_shows_more():
    seen = [between(PAIR, Etch(grit=grit)).contrast for grit in sorted(GRAIN)]
    assert rising(seen)


def test_polish_brightens_the_high_steel_alone():
    plain, rubbed = (bitten(PAIR, Etch(polished=polished)) for polished in (False, True))
    assert rubbed["15N20"].tone > 1.5 * plain["15N20"].tone
    assert rubbed["1084"].tone == pytest.approx(plain["1084"].tone, abs=0.01)
    assert rubbed["1084"].tone >= plain["1084"].tone


def test_wear_takes_relief_and_contrast_and_etching_brings_them_back():
    etches = [Etch(wear=wear) for wear in range(100, -1, -5)]
    assert rising([between(PAIR, etch).relief for etch in etches])
    assert rising([between(PAIR, etch).contrast for etch in etches])
    worn = between(PAIR, etches[0])
    assert worn.relief == 0
    assert worn.contrast < 0.05
    assert between(PAIR, etches[0].again()) == between(PAIR, Etch())


def test_no_bath_is_a_ground_face():
    seen, worn = (between(PAIR, etch) for etch in (Etch(minutes=0), Etch(wear=100)))
    assert seen == worn
    fine = bitten(PAIR, Etch(minutes=0, grit=2000))
    coarse = bitten(PAIR, Etch(minutes=0, grit=220))
    for name in PAIR:
        assert coarse[name].tone < fine[name].tone < ground(steel(name))


@pytest.mark.parametrize("other", ["1084", "1075", "1095", "W2"])
def test_without_nickel_there_is_little_to_see(other):
    seen = between(("1084", other), Etch())
    assert seen.relief == 0
    assert seen.contrast < 0.15 < between(PAIR, Etch()).contrast


@pytest.mark.parametrize("name", GRADES)
@pytest.mark.parametrize("grit", [220, 2000])
def test_every_tone_is_a_reflectance(name, grit):
    for minutes in (0, 5, 30):
        for polished in (False, True):
            etch = Etch(minutes=minutes, grit=grit, polished=polished)
            assert 0 < bitten([name], etch)[name].tone <= 0.9


@pytest.mark.parametrize(
    ("wish", "words"),
    [
        ({"minutes": 31}, "from 0 to 30 min"),
        ({"minutes": -1}, "from 0 to 30 min"),
        ({"strength": "neat"}, "weak, usual, strong"),
        ({"grit": 801}, "one of: 220"),
        ({"wear": 101}, "from 0 to 100 %"),
        ({"polished": "maybe"}, "true or false"),
    ],
)
def test_silly_input_gets_a_sentence(wish, words):
    with pytest.raises(KitError, match=words):
        Etch(**wish)


def test_an_unknown_steel_gets_a_sentence():
    with pytest.raises(KitError, match="do not know a steel called 'X'"):
        bitten(["X"], Etch())


def test_the_screen_can_say_that_it_is_illustrative():
    assert ILLUSTRATIVE.startswith("Illustrative")
    for word in ("how fast", "how bright", "relief", "contrast", "coupon"):
        assert word in ILLUSTRATIVE


RACK = Stack.alternate("1084", "15N20", pieces=40, thickness=0.2)
BAR = Billet(source=RACK).then(Hammer(depth=1.5, spacing=15), Grind(top=0.6))


@pytest.mark.parametrize("name", GRADES)
def test_tone_by_contents_is_tone_by_name(name):
    grade = steel(name)
    arrays = {key: np.array([value, value]) for key, value in grade.nominal.items()}
    assert tone_of(arrays) == pytest.approx([reflectance(grade)] * 2)


def test_what_is_missing_is_nothing():
    assert tone_of({}) == tone_of({"C": 0.0, "Mn": 0.0, "Ni": 0.0, "Cr": 0.0})
    assert tone_of({"C": 0.8, "Ni": np.zeros(3)}).shape == (3,)


def test_without_heats_the_fire_has_changed_nothing():
    plane = cut(BAR.size, angle=20, columns=40, rows=80, pixel=0.1)
    named = see(BAR, plane, tones(RACK.steels)).tone
    assert see(BAR, plane, Diffused()).tone == pytest.approx(named, abs=1e-5)


def test_carbon_evens_out_and_nickel_keeps_the_pattern():
    # The project's facts, section 1: in minutes at welding heat carbon crosses such
    # layers, nickel a thousandth of a millimetre. So the plain steel shares its carbon.
    source = Stack.alternate("1095", "1018", pieces=12, thickness=0.1)
    nickel = Stack.alternate("1095", "15N20", pieces=12, thickness=0.1)
    left = []
    weld = Heat(celsius=1150, minutes=20)
    for stack in (source, nickel):
        rack = Billet(source=stack)
        hot = rack.then(DrawOut(thickness=stack.thickness, heat=weld))
        plane = cut(rack.size, angle=90, columns=4, rows=120, pixel=0.01)
        before = see(rack, plane, tones(stack.steels)).tone.std()
        left.append(see(hot, plane, tones(stack.steels)).tone.std() / before)
    assert left[0] < 0.2
    assert left[1] > 0.9


def test_a_bar_in_a_bundle_meets_the_later_heats():
    weld = Heat(celsius=1150, minutes=20)
    rack = Billet(source=Stack.alternate("1095", "1018", pieces=12, thickness=0.1))
    pair = Billet(source=Bundle(bars=(rack, rack)))
    pair = pair.then(DrawOut(thickness=pair.size.thickness, heat=weld))
    plane = cut(pair.size, angle=90, columns=4, rows=120, pixel=0.01)
    cold = see(pair, plane, Diffused()).tone.std()
    assert see(pair, plane, tones(pair.source.steels)).tone.std() < 0.2 * cold


@pytest.mark.parametrize("first", ["1095", "1018"])
def test_a_heat_that_a_bar_does_not_bear_leaves_the_tones_of_whole_bars(first):
    pairs = (first, "304"), ("1095", "304")  # 1018 would bear it
    stacks = [Stack.alternate(*pair, pieces=2, thickness=4) for pair in pairs]
    rack = Billet(source=Bundle(bars=[Billet(source=stack) for stack in stacks]))
    burnt = rack.then(
        DrawOut(thickness=rack.size.thickness, heat=Heat(celsius=1390, minutes=20))
    )
    plane = cut(rack.size, angle=90, columns=4, rows=60, pixel=0.1)
    known = tones(rack.source.steels)
    assert np.array_equal(see(burnt, plane, known).tone, see(rack, plane, known).tone)

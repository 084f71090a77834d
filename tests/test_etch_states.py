"""A bought bar: same pattern, other lines, for the face lies deeper."""

import numpy as np
import pytest

from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Stack
from kit.forge.steels import GRADES, steel
from kit.forge.steps import Blows, Draw, Grind
from kit.forge.steps.heat import Heat
from kit.metal.etch.bite import Etch
from kit.metal.etch.shades import Diffused
from kit.metal.etch.states import NAMES, states
from kit.metal.etch.tone import reflectance, tone_of, tones
from kit.metal.sight.lightness import michelson
from kit.section.surface import cut
from kit.section.trace import bar_at, see

RACK = Stack.alternate("1084", "15N20", pieces=40, thickness=0.2)
BAR = Billet(source=RACK).then(Blows(depth=1.5, spacing=15), Grind(top=0.6))
LOOK = {"columns": 120, "rows": 40, "pixel": 0.25}


@pytest.fixture(scope="module")
def three():
    return states(BAR, 0.3, Etch(wear=50), **LOOK)


def test_names_in_their_order(three):
    assert tuple(state.name for state in three) == NAMES
    assert all(np.all(state.face.cover == 1) for state in three)


def test_ground_is_silver_with_next_to_no_contrast(three):
    bought, bare, again = (michelson(*state.tones.values()) for state in three)
    assert bare < 0.05 < bought < again
    assert min(three[1].tones.values()) > max(three[2].tones.values())


def test_the_lines_are_other_lines(three):
    bought, _, again = three
    assert bought.face.tone.std() > 0.02  # there were lines
    assert again.face.tone.std() > 0.02
    change = np.corrcoef(bought.face.tone.ravel(), again.face.tone.ravel())[0, 1]
    assert change < 0.9


def test_the_face_is_that_much_deeper(three):
    # the steel on the new face is the steel that lay 0.3 mm and the bite below the old
    bought, _, again = three
    bite = (8.0 + 3.0) / 2 / 1000
    high = bought.billet.size.thickness / 2
    lost = bought.billet.size.thickness - again.billet.size.thickness
    assert lost == pytest.approx(0.3 + bite, abs=1e-5)
    low = again.billet.size.thickness / 2
    for x in np.linspace(5, BAR.size.length - 5, 25):
        here = bar_at(again.billet, (x, 1.0, low - 1e-6))
        assert here == bar_at(BAR, (x, 1.0, high - lost - 1e-6))


def test_what_was_not_ground_off_stays():
    with pytest.raises(KitError, match=r"At least 0.005 mm must be ground off"):
        states(BAR, 0.0, Etch(), **LOOK)
    with pytest.raises(KitError, match="of a bar must be left"):
        states(BAR, BAR.size.thickness, Etch(), **LOOK)


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
        hot = rack.then(Draw(thickness=stack.thickness, heat=weld))
        plane = cut(rack.size, angle=90, columns=4, rows=120, pixel=0.01)
        before = see(rack, plane, Diffused()).tone.std()
        left.append(see(hot, plane, Diffused()).tone.std() / before)
    assert left[0] < 0.2
    assert left[1] > 0.9


def test_a_bar_in_a_bundle_meets_the_later_heats():
    weld = Heat(celsius=1150, minutes=20)
    rack = Billet(source=Stack.alternate("1095", "1018", pieces=12, thickness=0.1))
    pair = Billet(source=Bundle(bars=(rack, rack)))
    pair = pair.then(Draw(thickness=pair.size.thickness, heat=weld))
    plane = cut(pair.size, angle=90, columns=4, rows=120, pixel=0.01)
    cold = see(pair, plane, Diffused()).tone.std()
    assert see(pair, plane, Diffused(pair)).tone.std() < 0.2 * cold

"""The order of the tones, as makers report it (common practice, no source).

The tones themselves are illustrative: we found no source.
"""

import dataclasses
from dataclasses import dataclass

import numpy as np
import pytest
from steps import stack

from kit.basics.errors import KitError
from kit.forge.billet import Billet, fold_and_draw
from kit.forge.steels import GRADES, steel
from kit.metal.etch import ILLUSTRATIVE, reflectance, tones
from kit.section.surface import cut
from kit.section.trace import see


def tone(name, **contents):
    """Reflectance of a steel, some of its contents changed."""
    grade = steel(name)
    changed = {**grade.nominal, **contents}
    return reflectance(dataclasses.replace(grade, contents=tuple(changed.items())))


def srgb(level):
    """Linear light of an 8-bit grey: IEC 61966-2-1."""
    share = level / 255
    return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4


def contrast(first, second):
    """WCAG 2.1 contrast ratio of two linear tones."""
    return (max(first, second) + 0.05) / (min(first, second) + 0.05)


@pytest.mark.parametrize("name", GRADES)
def test_every_tone_is_a_reflectance(name):
    assert 0 < reflectance(steel(name)) <= 0.9


@pytest.mark.parametrize(
    ("darker", "lighter"),
    [
        ("O1", "1084"),  # more manganese
        ("1084", "1075"),  # less manganese
        ("1084", "1095"),
        ("1095", "1018"),  # little carbon
        ("1018", "wrought iron"),
        ("1084", "52100"),  # chromium
        ("52100", "15N20"),  # nickel
        ("1018", "L6"),
        ("1018", "440C"),
        ("15N20", "304"),
        ("304", "nickel"),
    ],
)
def test_the_order_makers_report(darker, lighter):
    assert reflectance(steel(darker)) < reflectance(steel(lighter))


def test_the_pair_in_the_lessons_greys():
    # Curriculum 3.0: #2B2B2B against about #E0E0E0 to #E8E8E8.
    assert tone("1084") == pytest.approx(srgb(0x2B), abs=0.002)
    assert srgb(0xE0) <= tone("15N20") <= srgb(0xE8)


def test_the_pair_can_be_told_apart():
    # WCAG 2.1, 1.4.6: 7:1 is enough even for small text.
    assert contrast(tone("1084"), tone("15N20")) >= 7


def test_plain_blade_steels_show_little_pattern_together():
    # WCAG 2.1, 1.4.11: below 3:1 a shape is hard to make out.
    plain = [tone(name) for name in ("1075", "1080", "1084", "1095", "W1", "W2")]
    assert contrast(min(plain), max(plain)) < 1.5


def test_mild_steel_is_a_clear_grey():
    assert 3 * tone("1084") < tone("1018") < tone("15N20") / 3


def test_nickel_sheet_is_brightest():
    assert max(GRADES.values(), key=reflectance).name == "nickel"


@pytest.mark.parametrize("name", GRADES)
@pytest.mark.parametrize("element", ["Ni", "Cr"])
def test_nickel_and_chromium_brighten(name, element):
    steps = [tone(name, **{element: percent / 4}) for percent in range(40)]
    assert steps == sorted(steps)
    assert len(set(steps)) == len(steps)


def test_manganese_and_carbon_darken():
    manganese = [tone("1084", Mn=percent / 10) for percent in range(20)]
    carbon = [tone("1084", C=percent / 100) for percent in range(77)]
    assert manganese == sorted(set(manganese), reverse=True)
    assert carbon == sorted(set(carbon), reverse=True)


def test_two_bars_of_one_steel_show_no_pattern():
    assert tone("15N20") == reflectance(steel("75Ni8"))
    assert tones(["1084", "AISI 1084"])["1084"] == tones(["AISI 1084"])["AISI 1084"]


def test_tones_by_name():
    names = ("1084", "15N20")
    assert tones(names) == {name: reflectance(steel(name)) for name in names}
    with pytest.raises(KitError, match="I do not know a steel called 'X'"):
        tones(["1084", "X"])


def test_the_screen_can_say_that_the_tones_are_illustrative():
    assert ILLUSTRATIVE.startswith("Illustrative")
    assert "we found no source" in ILLUSTRATIVE


TONES = {"1084": 0.1, "15N20": 0.7}
RACK = Billet(source=stack(7, (3.0, 1.5)))
FOLDED = fold_and_draw(RACK, folds=3, thickness=8)


@dataclass(frozen=True)
class Ramp:
    """Tone that rises evenly through the stack, in so many cells."""

    count: int

    def cells(self, billet):
        """Make equal cells."""
        del billet
        edges = np.linspace(0, 1, self.count + 1)
        return edges, (edges[1:] + edges[:-1]) / 2


@dataclass(frozen=True)
class Halved:
    """The tones of whole bars, each bar cut in two cells."""

    def cells(self, billet):
        """Halve each bar."""
        source = billet.source
        middles = (source.edges[1:] + source.edges[:-1]) / 2
        tones = [TONES[name] for name in source.steels]
        return np.sort(np.append(source.edges, middles)), np.repeat(tones, 2)


@pytest.mark.parametrize("pixels", ["mean", "fine", "point"])
@pytest.mark.parametrize("billet", [RACK, FOLDED], ids=["stack", "folded"])
def test_bars_in_halves_look_like_whole_bars(billet, pixels):
    plane = cut(billet.size, angle=40, columns=60, rows=200, pixel=0.05)
    whole = see(billet, plane, TONES, pixels=pixels).tone
    halved = see(billet, plane, Halved(), pixels=pixels).tone
    assert halved == pytest.approx(whole, abs=2e-6)


def test_a_ramp_through_the_stack_is_seen_as_one():
    # straight across the bar, tone = height through the stack: a straight line
    plane = cut(RACK.size, angle=90, columns=8, rows=400, pixel=RACK.size.thickness / 400)
    seen = see(RACK, plane, Ramp(2000)).tone[:, 4]
    assert seen == pytest.approx(1 - (np.arange(400) + 0.5) / 400, abs=1e-3)

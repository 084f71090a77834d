"""Density, stiffness and expansion against textbook examples and tables."""

import math

import pytest

from kit.basics.errors import KitError
from kit.forge.steels import GRADES, Grade, steel
from kit.metal.properties import (
    cooling_strain,
    density,
    expansion_across,
    expansion_along,
    layer_strains,
    mean_across,
    mean_along,
    mismatch,
    modulus_across,
    modulus_along,
    physical,
)


def bars(*pairs):
    return [(steel(name), width) for name, width in pairs]


def test_the_rule_of_mixtures_of_the_textbook():
    # Callister & Rethwisch, Example 14.5-1: glass 60 % with 70 GPa in a polymer of 3 GPa:
    # 43.2 GPa along, 7.05 GPa across.
    assert mean_along((70, 3), (60, 40)) == pytest.approx(43.2, abs=0.05)
    assert mean_across((70, 3), (60, 40)) == pytest.approx(7.05, abs=0.05)
    # Callister, Problem 16.8: aramid 45 % with 131 GPa in 2.4 GPa: 60.27 GPa.
    assert mean_along((131, 2.4), (0.45, 0.55)) == pytest.approx(60.27, abs=0.01)


def test_across_is_never_stiffer_than_along():
    stack = bars(("1084", 1), ("304", 2), ("nickel", 0.5))
    assert modulus_across(stack) < modulus_along(stack)
    assert modulus_across(stack) > 193
    alone = bars(("1084", 3))
    assert modulus_across(alone) == pytest.approx(modulus_along(alone))


@pytest.mark.parametrize(
    ("name", "modulus", "expansion"),
    [
        # Callister & Rethwisch, Tables B.2 and B.6, typed again.
        ("1018", 207, 11.7),  # 1020
        ("1084", 207, 11.3),  # 1040
        ("52100", 207, 12.3),  # 4140
        ("304", 193, 17.2),
        ("316", 193, 16.0),
        ("440C", 200, 10.2),  # 440A; 440C itself 10.1 in tables
        ("nickel", 204, 13.3),
        ("wrought iron", 207, 11.8),  # iron, Table 19.1
    ],
)
def test_figures_are_those_of_the_table(name, modulus, expansion):
    assert physical(steel(name)).modulus == modulus
    assert physical(steel(name)).expansion == expansion
    assert physical(steel(name)).source.startswith("Callister")


def test_every_grade_has_figures():
    for grade in GRADES.values():
        assert 190 <= physical(grade).modulus <= 210
        assert 10 <= physical(grade).expansion <= 17.5


def test_density_of_a_stack_weighs_what_its_bars_weigh():
    # By hand: 3 mm of 7.85 and 1 mm of 8.90 g/cm³.
    stack = bars(("1084", 3), ("nickel", 1))
    assert density(stack) == pytest.approx((3 * 7.85 + 8.90) / 4)
    assert density(bars(("1095", 2))) == steel("1095").density


def test_densities_agree_with_the_elements():
    periodictable = pytest.importorskip("periodictable")
    assert density(bars(("nickel", 1))) == pytest.approx(periodictable.Ni.density, rel=1e-3)
    # Steel is iron with a little else in it.
    for name in ("1018", "1084", "15N20"):
        iron = periodictable.Fe.density
        assert density(bars((name, 1))) == pytest.approx(iron, rel=0.005)


# ASME B31.1, appendix B, total expansion from 70 °F, inches in 100 ft, as reprinted in
# tables of pipe makers: °F, carbon steel, 18Cr-8Ni, nickel (UNS N02200).
PIPES = [(200, 0.99, 1.46, 1.15), (400, 2.70, 3.80, 3.05), (800, 6.70, 8.80, None)]


@pytest.mark.parametrize(("fahrenheit", "plain", "stainless", "nickel"), PIPES)
def test_mismatch_is_about_that_of_pipes(fahrenheit, plain, stainless, nickel):
    cooled_from, cooled_to = ((heat - 32) / 1.8 for heat in (fahrenheit, 70))
    computed = cooling_strain(steel("mild"), steel("304"), cooled_from, cooled_to)
    ratio = computed / ((stainless - plain) / 1200)
    # Never too little; too much by up to a quarter or so, as the docstring says.
    assert 0.97 < ratio < (1.15 if fahrenheit <= 400 else 1.3)
    if nickel:
        computed = cooling_strain(steel("mild"), steel("nickel"), cooled_from, cooled_to)
        assert computed == pytest.approx((nickel - plain) / 1200, rel=0.2)


def test_stretched_and_squeezed_bars_hold_each_other():
    stack = bars(("1084", 2), ("304", 1), ("1084", 2))
    strains = layer_strains(stack, 420)
    forces = [
        strain * physical(grade).modulus * width
        for strain, (grade, width) in zip(strains, stack, strict=True)
    ]
    assert math.fsum(forces) == pytest.approx(0, abs=1e-12)
    assert strains[1] > 0 > strains[0]  # the stainless wants to shrink more
    gap = strains[1] - strains[0]
    assert gap == pytest.approx(cooling_strain(steel("1084"), steel("304"), 420))


def test_a_compound_bar_by_the_textbook_formula():
    # Stress in bar 1 of two: (a2 - a1) dT E1 E2 A2 / (E1 A1 + E2 A2), in any textbook of
    # strength of materials (Hearn, Mechanics of Materials 1, section 2.3); from memory.
    drop, first, second = 300, (207e3, 11.3e-6, 3.0), (193e3, 17.2e-6, 1.5)
    (e1, a1, w1), (e2, a2, w2) = first, second
    stress = (a1 - a2) * drop * e1 * e2 * w2 / (e1 * w1 + e2 * w2)
    strains = layer_strains(bars(("1084", w1), ("304", w2)), 320, 20)
    assert strains[0] * e1 == pytest.approx(stress)


def test_a_thin_cladding_takes_all_the_strain():
    stack = bars(("1084", 1000), ("304", 0.01))
    strains = layer_strains(stack, 120, 20)
    assert strains[1] == pytest.approx(5.9e-4, rel=1e-3)
    assert expansion_along(stack) == pytest.approx(11.3, abs=1e-3)


def test_expansion_of_equal_bars_lies_between():
    stack = bars(("1084", 1), ("304", 1))
    assert expansion_across(stack) == pytest.approx((11.3 + 17.2) / 2)
    assert 11.3 < expansion_along(stack) < expansion_across(stack)
    assert mismatch(steel("304"), steel("1084")) == pytest.approx(-5.9)


def test_impossible_wishes_get_one_sentence():
    with pytest.raises(KitError, match="at least one bar"):
        density([])
    for width in (0, -1, float("nan"), float("inf")):
        with pytest.raises(KitError, match="thicker than 0 mm"):
            modulus_along(bars(("1084", width)))
    with pytest.raises(KitError, match=r"430 °C \(806 °F\). Given: 1150 °C \(2102 °F\)"):
        cooling_strain(steel("1084"), steel("304"), 1150)
    with pytest.raises(KitError, match=r"-321 °F"):
        layer_strains(bars(("1084", 1)), 20, float("nan"))
    unknown = Grade(**{**vars(steel("1084")), "name": "mystery"})
    with pytest.raises(KitError, match="expansion of 'mystery'"):
        modulus_along([(unknown, 1)])

"""Expansion against the textbook's table and the tables of pipe makers."""

import pytest

from kit.basics.errors import KitError
from kit.forge.steels import GRADES, Grade, steel
from kit.metal.properties import cooling_strain, expansion, mismatch


@pytest.mark.parametrize(
    ("name", "millionths"),
    [
        # Callister & Rethwisch, Table B.6, typed again.
        ("1018", 11.7),  # 1020
        ("1084", 11.3),  # 1040
        ("52100", 12.3),  # 4140
        ("304", 17.2),
        ("316", 16.0),
        ("440C", 10.2),  # 440A; 440C itself 10.1 in tables
        ("nickel", 13.3),
        ("wrought iron", 11.8),  # iron, Table 19.1
    ],
)
def test_figures_are_those_of_the_table(name, millionths):
    assert expansion(steel(name)) == millionths


def test_every_grade_has_figures():
    for grade in GRADES.values():
        assert 10 <= expansion(grade) <= 17.5
    assert mismatch(steel("304"), steel("1084")) == pytest.approx(-5.9)


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


def test_impossible_wishes_get_one_sentence():
    with pytest.raises(KitError, match=r"430 °C \(806 °F\). Given: 1150 °C \(2102 °F\)"):
        cooling_strain(steel("1084"), steel("304"), 1150)
    with pytest.raises(KitError, match=r"-321 °F"):
        cooling_strain(steel("1084"), steel("304"), 20, float("nan"))
    unknown = Grade(**{**vars(steel("1084")), "name": "mystery"})
    with pytest.raises(KitError, match="expansion of 'mystery'"):
        expansion(unknown)

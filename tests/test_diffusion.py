"""Diffusivities against printed tables, and how far an element gets.

Callister & Rethwisch is *Materials Science and Engineering: An Introduction*; its editions
round with R = 8.31 and 273, so 2.5 % is allowed where it prints a result.
"""

import math

import numpy as np
import pytest

from kit.basics.claim import Kind
from kit.basics.errors import KitError
from kit.metal.diffusion import (
    DISAGREE,
    OTHERS,
    TABLE,
    agren,
    check_minutes,
    diffusivity,
    spread,
)

SUBSTITUTES = ("Ni", "Cr", "Mn", "Mo")


def published(element):
    """Give all pairs of an element, the kit's own first."""
    return [TABLE[element], *(pair for pair in OTHERS if pair.element == element)]


@pytest.mark.parametrize(
    ("pair", "celsius", "printed"),
    [
        # Callister & Rethwisch, 8th ed., Table 5.2, p. 132: self-diffusion at 900 °C;
        # the 9th edition's figures for carbon, worked out by hand beside it
        (next(p for p in OTHERS if p.element == "Fe"), 900, 1.1e-17),
        (TABLE["C"], 900, 5.9e-12),
        (TABLE["C"], 1100, 5.3e-11),
    ],
)
def test_printed_diffusivities(pair, celsius, printed):
    assert pair.at(celsius) == pytest.approx(printed, rel=0.05)


def test_by_hand():
    # 148,000 / (8.314462618 · 1423.15) = 12.5077
    assert diffusivity("C", 1150) == pytest.approx(2.3e-5 * math.exp(-12.5077), rel=1e-4)


@pytest.mark.parametrize(
    ("celsius", "values"),
    [
        # Ågren, Scripta Metallurgica 20 (1986) 1507, worked out apart from the kit, with
        # 0, 0.5, 0.8 and 1.0 % of carbon
        (1000, (2.04e-11, 3.32e-11, 4.40e-11, 5.30e-11)),
        (1100, (5.63e-11, 8.76e-11, 1.13e-10, 1.34e-10)),
        (1200, (1.36e-10, 2.03e-10, 2.57e-10, 3.00e-10)),
    ],
)
def test_carbon_helps_carbon_along(celsius, values):
    carbon = np.array([0, 0.5, 0.8, 1.0])
    found = agren(celsius, carbon)
    assert found == pytest.approx(np.array(values), rel=0.005)
    assert agren(celsius, 0.8) == pytest.approx(values[2], rel=0.005)


@pytest.mark.parametrize("celsius", [900, 1000, 1100, 1200])
def test_two_laws_of_carbon_agree_where_there_is_little(celsius):
    assert agren(celsius, 0.0) == pytest.approx(diffusivity("C", celsius), rel=0.08)


@pytest.mark.parametrize("element", SUBSTITUTES)
@pytest.mark.parametrize("celsius", [1000, 1100, 1150, 1200, 1250])
def test_carbon_is_more_than_a_thousand_times_as_fast(element, celsius):
    for pair in published(element):
        assert 1e3 < diffusivity("C", celsius) / pair.at(celsius) < 1e6


def test_carbon_and_nickel_at_forging_heat():
    # both published pairs of nickel, 1100 °C: between 10⁴ and 2 · 10⁵
    for pair in published("Ni"):
        assert 1e4 < diffusivity("C", 1100) / pair.at(1100) < 2e5


@pytest.mark.parametrize("element", ["Ni", "Cr"])
@pytest.mark.parametrize("celsius", [1000, 1100, 1200])
def test_published_figures_disagree_by_less_than_five(element, celsius):
    values = [pair.at(celsius) for pair in published(element)]
    assert 1.5 < max(values) / min(values) < 9
    assert all(max(v / values[0], values[0] / v) < 5 for v in values)


def test_the_screen_says_so():
    ratios = []
    for element in ("Ni", "Cr"):
        values = [pair.at(1200) for pair in published(element)]
        ratios.append(max(values) / min(values))
    assert 5 < max(ratios) < 6
    assert "up to six times" in DISAGREE


def test_every_figure_has_a_source_and_a_status():
    for pair in (*TABLE.values(), *OTHERS):
        assert len(pair.source) > 20
        assert pair.seen == (pair.kind is Kind.PUBLISHED)


def test_spread_of_the_lesson():
    # lesson 08: ten minutes at 1150 °C, 2.3e-5/148 and 7.7e-5/280
    assert spread("C", 1150, 10) == pytest.approx(0.226, abs=0.0005)
    assert 1e3 * spread("Ni", 1150, 10) == pytest.approx(1.56, abs=0.005)
    assert spread("C", 1150, 40) == pytest.approx(2 * spread("C", 1150, 10))
    assert spread("C", 1150, 0) == 0


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: diffusivity("V", 1150), r"no diffusivity of 'V', only of C, Ni, Cr, Mn"),
        (lambda: diffusivity("C", 700), r"Below 727 °C \(1341 °F\) .* Given: 700 °C"),
        (lambda: diffusivity("C", float("nan")), "Given: nan"),
        (lambda: diffusivity("Ni", 1500), "not stay solid.*with 0 %"),
        (
            lambda: spread("C", 1150, -1),
            r"Minutes in the fire must be 0 or more. Given: -1",
        ),
        (lambda: check_minutes(float("inf")), "Given: inf"),
    ],
)
def test_one_sentence(call, words):
    with pytest.raises(KitError, match=words) as refused:
        call()
    assert "\n" not in str(refused.value)

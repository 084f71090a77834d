"""The bath against handbook tables and an independent model."""

import math

import pytest

from kit.basics.errors import KitError
from kit.metal.bath import Bath, specific_gravity


@pytest.mark.parametrize(
    ("degrees", "gravity"),
    # Perry's Chemical Engineers' Handbook, 8th ed., Table 1-13 (heavier than water)
    [(30, 1.2609), (35, 1.3182), (40, 1.3810), (42, 1.4078)],
)
def test_baume(degrees, gravity):
    assert specific_gravity(degrees) == pytest.approx(gravity, abs=1e-4)


@pytest.mark.parametrize(
    ("percent", "density"),
    # the published table of ferric chloride solutions at 20 °C, which the kit holds: a copy
    [(8, 1.068), (20, 1.183), (30, 1.292), (40, 1.415)],
)
def test_density_and_back(percent, density):
    assert Bath(percent).density == pytest.approx(density, abs=0.003)
    gravity = density / 0.9982  # water at 20 °C: CRC Handbook
    again = Bath.of_baume(145 - 145 / gravity)  # Perry's formula, turned round
    assert again.density == pytest.approx(density, abs=0.003)
    assert again.percent == pytest.approx(percent, abs=0.3)


@pytest.mark.parametrize("percent", [2, 6, 10, 18, 26, 34, 39])
def test_density_against_an_independent_model(percent):
    # Laliberté & Cooper, J. Chem. Eng. Data 49 (2004) 1141, as coded in `thermo`
    model = pytest.importorskip("thermo.electrochem").Laliberte_density
    expected = model(293.15, [percent / 100], ["7705-08-0"]) / 1000
    assert Bath(percent).density == pytest.approx(expected, abs=0.003)


@pytest.mark.parametrize("water", [1, 2, 3, 4, 5])
def test_thinning_keeps_the_chloride(water):
    stock = Bath.of_baume(42)
    thin = stock.thinned(water)
    weight = 1000 * stock.density + water * 998.2  # g; water at 20 °C: CRC Handbook
    assert thin.percent * weight == pytest.approx(stock.percent * 1000 * stock.density)
    assert thin.percent < stock.percent


def test_thinning_by_the_independent_model():
    # 42 °Bé : water, by Laliberté & Cooper's density and a balance of weights
    stock = Bath.of_baume(42)
    parts = [stock.thinned(water).percent for water in range(1, 6)]
    assert parts == pytest.approx([22.8, 16.1, 12.5, 10.2, 8.6], abs=0.15)
    assert stock.thinned(0).percent == pytest.approx(stock.percent)


def test_the_usual_bath_is_a_tenth_chloride():
    # a balance of weights with the independent model
    assert Bath.of_baume(42).thinned(4).percent == pytest.approx(10.2, abs=0.15)


@pytest.mark.parametrize(
    "wish",
    [
        lambda: specific_gravity(60),
        lambda: specific_gravity(math.nan),
        lambda: Bath(-1),
        lambda: Bath(60),
        lambda: Bath(10).thinned(-1),
    ],
)
def test_silly_input_gets_a_sentence(wish):
    with pytest.raises(KitError) as caught:
        wish()
    text = str(caught.value)
    assert "Given:" in text
    assert "\n" not in text
    assert text.endswith(".")

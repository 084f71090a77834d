"""The bath against handbook tables, journal figures and an independent model."""

import math

import periodictable
import pytest

from kit.basics.errors import KitError
from kit.metal import bath
from kit.metal.bath import CAUTIONS, SLUDGE, WATER, Bath, iron_for, specific_gravity, used

MASS = {name: getattr(periodictable, name).mass for name in ("Fe", "Cl")}
FERRIC = MASS["Fe"] + 3 * MASS["Cl"]
FERROUS = MASS["Fe"] + 2 * MASS["Cl"]


@pytest.mark.parametrize(
    ("degrees", "gravity"),
    # Perry's Chemical Engineers' Handbook, 8th ed., Table 1-13 (heavier than water)
    [(30, 1.2609), (35, 1.3182), (40, 1.3810), (42, 1.4078)],
)
def test_baume(degrees, gravity):
    assert specific_gravity(degrees) == pytest.approx(gravity, abs=1e-4)
    assert bath.baume(specific_gravity(degrees)) == pytest.approx(degrees)


@pytest.mark.parametrize(
    ("percent", "density"),
    # the published table of ferric chloride solutions at 20 °C
    [(8, 1.068), (20, 1.183), (30, 1.292), (40, 1.415)],
)
def test_density_and_back(percent, density):
    assert Bath(percent).density == pytest.approx(density, abs=0.003)
    again = Bath.of_baume(bath.baume(density / 0.9982))  # water at 20 °C: CRC Handbook
    assert again.density == pytest.approx(density, abs=0.003)
    assert again.percent == pytest.approx(percent, abs=0.3)


@pytest.mark.parametrize("percent", [2, 6, 10, 18, 26, 34, 39])
def test_density_against_an_independent_model(percent):
    # Laliberté & Cooper, J. Chem. Eng. Data 49 (2004) 1141, as coded in `thermo`
    model = pytest.importorskip("thermo.electrochem").Laliberte_density
    expected = model(293.15, [percent / 100], ["7705-08-0"]) / 1000
    assert Bath(percent).density == pytest.approx(expected, abs=0.003)


@pytest.mark.parametrize(
    ("degrees", "molarity"),
    # Photo Chemical Machining Institute journal 143, p. 21
    [(38, 2.91), (44.5, 3.70)],
)
def test_molarity(degrees, molarity):
    assert Bath.of_baume(degrees).molarity == pytest.approx(molarity, abs=0.03)


def test_grams_in_a_litre():
    # The same journal, 137, p. 32: 40 °Bé, specific gravity 1.38, 505 g/L. It rounds.
    assert Bath.of_baume(40).grams == pytest.approx(505, rel=0.02)


def test_two_kilograms_of_steel():
    # The same page: 11.6 kg FeCl3 used, 13.6 kg FeCl2 made
    ferric, ferrous = used(2)
    assert (ferric, ferrous) == pytest.approx((11.6, 13.6), abs=0.05)
    # Fe + 2 FeCl3 -> 3 FeCl2, with the masses of `periodictable`
    assert ferric == pytest.approx(2 * 2 / MASS["Fe"] * FERRIC, rel=1e-3)
    assert ferrous == pytest.approx(3 * 2 / MASS["Fe"] * FERROUS, rel=1e-3)
    assert 2 + ferric == pytest.approx(ferrous)  # nothing is lost
    assert iron_for(ferric) == pytest.approx(2)


@pytest.mark.parametrize("water", [1, 2, 3, 4, 5])
def test_thinning_keeps_the_chloride(water):
    stock = Bath.of_baume(42)
    thin = stock.thinned(water)
    weight = 1000 * stock.density + water * 998.2  # g; water at 20 °C: CRC Handbook
    assert thin.percent / 100 * weight == pytest.approx(stock.grams)
    assert thin.percent < stock.percent


def test_thinning_by_the_independent_model():
    # 42 °Bé : water, by Laliberté & Cooper's density and a balance of weights
    stock = Bath.of_baume(42)
    parts = [stock.thinned(water).percent for water in range(1, 6)]
    assert parts == pytest.approx([22.8, 16.1, 12.5, 10.2, 8.6], abs=0.15)
    assert stock.thinned(0).percent == pytest.approx(stock.percent)


def test_the_usual_bath_is_a_tenth_chloride():
    # a balance of weights with the independent model: 10.2 per cent, 0.69 mole a litre
    baths = [Bath.of_baume(42).thinned(water) for water in WATER.values()]
    assert baths[1].percent == pytest.approx(10.2, abs=0.15)
    assert baths[1].molarity == pytest.approx(0.69, abs=0.01)
    assert baths[0].molarity < baths[1].molarity < baths[2].molarity


def test_capacity_is_the_reaction():
    stock = Bath.of_baume(42)
    assert stock.capacity == pytest.approx(stock.grams / FERRIC / 2 * MASS["Fe"], rel=1e-3)
    assert stock.spent(stock.capacity * 2, litres=2) == pytest.approx(1)
    assert stock.spent(0, litres=2) == 0
    assert stock.spent(10, litres=1) == pytest.approx(2 * stock.spent(10, litres=2))


def test_sludge_begins_at_sixteen_per_cent():
    # from the abstract of a study of ferric chloride on steel foil
    assert SLUDGE == 0.16
    usual = Bath.of_baume(42).thinned(4)
    assert usual.spent(usual.sludge_after(3), 3) == pytest.approx(0.16)


@pytest.mark.parametrize(
    "wish",
    [
        lambda: specific_gravity(60),
        lambda: specific_gravity(math.nan),
        lambda: bath.baume(0.9),
        lambda: Bath(-1),
        lambda: Bath(60),
        lambda: Bath(10).thinned(-1),
        lambda: Bath(10).spent(-1, 1),
        lambda: Bath(10).spent(1000, 1),
        lambda: Bath(10).spent(1, 0),
        lambda: Bath(0).spent(1, 1),
        lambda: Bath(10).sludge_after(math.inf),
        lambda: iron_for(-1),
        lambda: used(-2),
    ],
)
def test_silly_input_gets_a_sentence(wish):
    with pytest.raises(KitError) as caught:
        wish()
    text = str(caught.value)
    assert "Given:" in text
    assert "\n" not in text
    assert text.endswith(".")


@pytest.mark.parametrize(
    "word",
    [
        *("Goggles", "gloves", "fresh air", "into water, never", "never a metal", "drain"),
        *("local rules", "trained adults", "public table"),
    ],
)
def test_the_cautions_say(word):
    assert word in CAUTIONS

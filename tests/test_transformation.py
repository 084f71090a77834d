"""Ac1 and A3 against worked values and equilibrium."""

import math

import pytest

from kit.basics.errors import KitError
from kit.forge.steels import GRADES, steel
from kit.metal.contents import checked, low_alloy
from kit.metal.transformation import A3, a3, ac1


@pytest.mark.parametrize(
    ("contents", "expected"),
    [
        # By hand: 723 - 10.7·0.40 - 16.9·2.00 + 29.1·0.25 + 16.9·0.05 = 693.0.
        ({"C": 0.75, "Mn": 0.40, "Si": 0.25, "Cr": 0.05, "Ni": 2.0}, 693.0),
        # 52100: 723 - 3.745 + 7.275 + 24.505 = 751.0.
        ({"C": 1.0, "Mn": 0.35, "Si": 0.25, "Cr": 1.45}, 751.0),
    ],
)
def test_ac1_by_andrews(contents, expected):
    assert ac1(contents) == pytest.approx(expected, abs=0.1)


def test_ac1_orders_steels_as_equilibrium_does():
    # Equilibrium A1 computed with pycalphad and an open steel file (facts of the project):
    # 15N20 663, 1084 717, 5160 720, 1095 724, 52100 735 °C. Ac1, on heating, lies above.
    equilibrium = {"15N20": 663, "1084": 717, "5160": 720, "1095": 724, "52100": 735}
    heating = {name: ac1(steel(name).nominal) for name in equilibrium}
    assert min(heating, key=heating.get) == "15N20"
    assert max(heating, key=heating.get) == "52100"
    for name, temperature in equilibrium.items():
        assert -2 <= heating[name] - temperature <= 35


@pytest.mark.parametrize("carbon", [0.2, 0.4, 0.6])
def test_a3_of_plain_iron_and_carbon(carbon):
    # A3 from pycalphad's cfe_broshe.tdb: 836, 787, 751 °C. Andrews fitted heated steels.
    computed = {0.2: 836.4, 0.4: 787.1, 0.6: 750.5}[carbon]
    assert a3({"C": carbon}) == pytest.approx(computed, abs=20)


@pytest.mark.parametrize(
    ("element", "slope"),
    # °C per per cent at 0.2 % C, computed with pycalphad and an open steel file (facts of
    # the project). Reprints of Andrews print Cr, Cu, Al, P and Ti with the wrong sign.
    [
        ("Mn", -28),
        ("Cr", -9.5),
        ("Cu", -16),
        ("Al", 108),
        ("P", 142),
        ("Ti", 110),
        ("Ni", -27),
        ("Si", 48),
        ("Mo", 20),
        ("V", 47),
    ],
)
def test_a3_moves_the_right_way(element, slope):
    assert math.copysign(1, A3.slopes[element]) == math.copysign(1, slope)
    if element in ("Mn", "Cr", "Cu", "Si"):
        assert A3.slopes[element] == pytest.approx(slope, rel=0.3)


def test_a3_is_refused_for_blade_steel():
    with pytest.raises(KitError, match=r"up to 0.6 % carbon"):
        a3(steel("1084").nominal)
    assert a3(steel("5160").nominal) == pytest.approx(739, abs=15)  # equilibrium: as above


@pytest.mark.parametrize(
    ("contents", "match"),
    [
        ({"C": -0.1}, "a number from 0 to 100 %. Given: -0.1 % C"),
        ({"C": float("nan")}, "must be a number"),
        ({"C": "much"}, "must be a number from 0 to 100 %. Given: much % C"),
        ({"C": 0.8, "Cr": 60, "Ni": 40}, "100 % together at most. Given: 100.8 %"),
        ({"Unobtainium": 1}, "I do not know 'Unobtainium' as an element"),
    ],
)
def test_impossible_contents_get_one_sentence(contents, match):
    for formula in (checked, ac1, a3):
        with pytest.raises(KitError, match=match):
            formula(contents)


@pytest.mark.parametrize("name", ["304", "316", "440C", "nickel"])
def test_stainless_steel_is_refused(name):
    contents = steel(name).nominal
    for formula in (ac1, a3):
        with pytest.raises(KitError, match=r"up to 5 % .* not for stainless steel"):
            formula(contents)


def test_all_other_grades_are_answered():
    for name in set(GRADES) - {"304", "316", "440C", "nickel"}:
        contents = low_alloy(steel(name).nominal)
        assert 680 < ac1(contents) < 760

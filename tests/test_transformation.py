"""Ac1 and A3 by worked values; the diagram computed again with another library."""

import math
import warnings
from pathlib import Path

import numpy as np
import pytest

from kit.basics.errors import KitError
from kit.forge.steels import GRADES, steel
from kit.metal.contents import checked, low_alloy
from kit.metal.transformation import (
    A3,
    EUTECTOID_CARBON,
    EUTECTOID_TEMPERATURE,
    SOLIDUS,
    a3,
    ac1,
    austenite_from,
    check_heat,
    solidus,
)
from kit.metal.working_heat import limit_of

NEAR = 3.0  # °C: the table is rounded, the lines between its points are straight


@pytest.mark.parametrize(
    ("contents", "expected"),
    [
        # The same formula by hand: a check of the reckoning alone.
        # 723 - 10.7·0.40 - 16.9·2.00 + 29.1·0.25 + 16.9·0.05 = 693.0.
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


@pytest.mark.parametrize("name", ["304", "316", "420", "440C", "nickel"])
def test_stainless_steel_is_refused(name):
    contents = steel(name).nominal
    for formula in (ac1, a3):
        with pytest.raises(KitError, match=r"up to 5 % .* not for stainless steel"):
            formula(contents)


def test_all_other_grades_are_answered():
    for name in set(GRADES) - {"304", "316", "420", "440C", "nickel"}:
        contents = low_alloy(steel(name).nominal)
        assert 680 < ac1(contents) < 760


@pytest.fixture(scope="module")
def share_of_austenite():
    """Ask the package pycalphad, with the Fe-C description that its wheel carries."""
    pycalphad = pytest.importorskip("pycalphad")
    from pycalphad import Database, equilibrium
    from pycalphad import variables as v

    folder = Path(pycalphad.__file__).parent / "tests" / "databases"
    iron_carbon = Database(str(folder / "cfe_broshe.tdb"))
    phases = ["LIQUID", "FCC_A1", "BCC_A2", "CEMENTITE_D011"]

    def share(carbon, temperatures):
        atoms = carbon / 12.011 / (carbon / 12.011 + (100 - carbon) / 55.845)
        kelvin = [celsius + 273.15 for celsius in temperatures]
        asked = {v.X("C"): atoms, v.T: kelvin, v.P: 101325, v.N: 1}
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            found = equilibrium(iron_carbon, ["C", "FE", "VA"], phases, asked)
        amounts = np.where(found.Phase == "FCC_A1", found.NP, 0)
        return np.nansum(amounts, axis=-1).ravel()

    return share


@pytest.mark.parametrize(("carbon", "celsius"), [*SOLIDUS[::2], (0.9, None), (1.1, None)])
def test_above_the_solidus_some_of_it_is_liquid(share_of_austenite, carbon, celsius):
    line = solidus(carbon)
    assert celsius in (None, line)
    below, above = share_of_austenite(carbon, (line - NEAR, line + NEAR))
    assert below == pytest.approx(1, abs=1e-6)
    assert 0.95 < above < 0.999


# Some of these lie between the points of the kit's table.
@pytest.mark.parametrize("carbon", [0.15, 0.2, 0.4, 0.6, 0.84, 0.95, 1.0, 1.15, 1.2, 1.4])
def test_below_the_upper_line_some_of_it_is_ferrite_or_carbide(share_of_austenite, carbon):
    line = austenite_from(carbon)
    below, above = share_of_austenite(carbon, (line - NEAR, line + NEAR))
    assert 0.9 < below < 0.9999
    assert above == pytest.approx(1, abs=1e-6)


def test_the_eutectoid():
    # Callister & Rethwisch, Materials Science and Engineering, 9th ed., Fe-C diagram
    lines = [austenite_from(carbon) for carbon in np.linspace(0, 2.1, 2101)]
    assert min(lines) == pytest.approx(727, abs=2)
    assert np.argmin(lines) / 1000 == pytest.approx(0.76, abs=0.01)


def test_the_eutectoid_is_that_of_pycalphad(share_of_austenite):
    near = (EUTECTOID_TEMPERATURE - 1.5, EUTECTOID_TEMPERATURE + 1.5)
    below, above = share_of_austenite(EUTECTOID_CARBON, near)
    assert below == pytest.approx(0, abs=1e-6)
    assert above == pytest.approx(1, abs=1e-6)


def test_more_carbon_melts_sooner():
    contents = np.linspace(0, 2.1, 200)
    lines = [solidus(content) for content in contents]
    assert np.all(np.diff(lines) <= 0)
    # the eutectic, 1147 °C, where austenite holds most carbon, 2.14 %: Callister, as above
    assert lines[-1] == pytest.approx(1147, abs=15)


@pytest.mark.parametrize("name", GRADES)
def test_the_working_limit_is_within_reach_of_the_models(name):
    check_heat(limit_of(steel(name)).celsius, steel(name))


@pytest.mark.parametrize(
    ("name", "celsius", "words"),
    [
        ("1095", 1400, r"Calculated: begins to melt at 1356 °C \(2473 °F\)\. Giv"),
        ("1095", 1356, "1095 would not stay solid"),
        ("nickel", 1450, r"nickel would not .* 1435 °C"),
        ("1095", 760, r"1095 is too cold .* from 801 °C \(1473 °F\) up .* Given: 760 °C"),
    ],
)
def test_too_hot_or_too_cold_names_the_steel(name, celsius, words):
    with pytest.raises(KitError, match=words):
        check_heat(celsius, steel(name))


def test_every_grade_has_a_range():
    for grade in GRADES.values():
        carbon = grade.nominal.get("C", 0)
        assert austenite_from(carbon) + 200 < solidus(carbon)


@pytest.mark.parametrize("carbon", [-0.1, 2.2, float("nan")])
def test_carbon_that_no_steel_has(carbon):
    for line in (solidus, austenite_from):
        with pytest.raises(KitError, match=r"from 0 to 2\.1 %"):
            line(carbon)

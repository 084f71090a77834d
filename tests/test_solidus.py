"""Where steel is solid and all austenite: computed again with a general-purpose library."""

import warnings
from pathlib import Path

import numpy as np
import pytest

from kit.basics.errors import KitError
from kit.forge.steels import GRADES, steel
from kit.metal.solidus import (
    SOLIDUS,
    austenite_from,
    both,
    check_heat,
    solidus,
)
from kit.metal.working_heat import limit_of

NEAR = 3.0  # °C: the table is rounded, the lines between its points are straight


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


@pytest.mark.parametrize("carbon", [0.2, 0.4, 0.6, 0.84, 0.95, 1.2])
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
    with pytest.raises(KitError, match=r"from 0 to 2\.1 %"):
        solidus(carbon)


def test_both_scales():
    assert both(727) == "727 °C (1341 °F)"  # 727 · 9/5 + 32 = 1340.6

"""The iron–carbon diagram against the textbook, and computed again with pycalphad."""

import os

import pytest

from kit.basics.errors import KitError
from kit.metal.iron_carbon import (
    EUTECTOID_CARBON,
    EUTECTOID_TEMPERATURE,
    carbon_in_austenite,
    slow_cooled,
    upper_line,
)
from kit.metal.transformation import martensite_start, retained_austenite


def test_the_lever_rule_of_the_textbook():
    # Callister & Rethwisch, 9th ed., Example Problem 9.4: 0.35 % carbon, below 727 °C:
    # ferrite 0.95, Fe3C 0.05, pearlite 0.44, early ferrite 0.56.
    steel_035 = slow_cooled(0.35)
    assert steel_035.ferrite == pytest.approx(0.95, abs=0.005)
    assert steel_035.cementite == pytest.approx(0.05, abs=0.005)
    assert steel_035.pearlite == pytest.approx(0.44, abs=0.005)
    assert steel_035.early_ferrite == pytest.approx(0.56, abs=0.005)
    assert steel_035.early_cementite == 0
    # By hand for 1.2 %: (1.2 - 0.76) / (6.70 - 0.76) = 0.0741 early cementite.
    assert slow_cooled(1.2).early_cementite == pytest.approx(0.0741, abs=1e-4)
    assert slow_cooled(EUTECTOID_CARBON).pearlite == 1


def test_the_upper_line_dips_at_the_eutectoid():
    # Callister, 9th ed., ch. 9: 0.76 %, 727 °C.
    assert upper_line(0.76) == 727
    assert upper_line(0.70) > 727 < upper_line(0.80)
    assert carbon_in_austenite(upper_line(0.95)) == pytest.approx(0.95)


@pytest.fixture(scope="module")
def iron_carbon():
    """Give a function: the phases of iron and carbon at equilibrium, by pycalphad."""
    pytest.importorskip("pycalphad", reason="pycalphad, the outside check, is missing")
    import pycalphad
    from pycalphad import Database, equilibrium
    from pycalphad import variables as v

    folder = os.path.dirname(pycalphad.__file__)  # noqa: PTH120
    path = f"{folder}/tests/databases/cfe_broshe.tdb"
    if not os.path.exists(path):  # noqa: PTH110
        pytest.skip("this pycalphad comes without its file cfe_broshe.tdb")
    data = Database(path)

    def phases(carbon, temperatures):
        atoms = carbon / 12.011
        part = atoms / (atoms + (100 - carbon) / 55.845)
        known = ["FCC_A1", "BCC_A2", "CEMENTITE_D011"]
        kelvin = [temperature + 273.15 for temperature in temperatures]
        where = {v.X("C"): part, v.T: kelvin, v.P: 101325}
        found = equilibrium(data, ["C", "FE", "VA"], known, where).Phase.values
        return [
            {str(name) for name in row if name} for row in found.reshape(len(kelvin), -1)
        ]

    return phases


# Some of these lie between the points of the kit's table.
@pytest.mark.parametrize("carbon", [0.15, 0.2, 0.4, 0.6, 0.84, 0.95, 1.0, 1.15, 1.2, 1.4])
def test_the_upper_line_is_that_of_pycalphad(iron_carbon, carbon):
    line = upper_line(carbon)
    last = "BCC_A2" if carbon < EUTECTOID_CARBON else "CEMENTITE_D011"
    below, above = iron_carbon(carbon, [line - 2, line + 2])
    assert below == {"FCC_A1", last}
    assert above == {"FCC_A1"}


def test_the_eutectoid_is_that_of_pycalphad(iron_carbon):
    below, above = iron_carbon(
        EUTECTOID_CARBON, [EUTECTOID_TEMPERATURE - 1.5, EUTECTOID_TEMPERATURE + 1.5]
    )
    assert below == {"BCC_A2", "CEMENTITE_D011"}
    assert above == {"FCC_A1"}


def test_carbide_left_over_leaves_less_soft_austenite():
    # 1095 quenched from 785 °C, below Acm: austenite holds 0.91 % (the Acm line, above).
    dissolved = carbon_in_austenite(785)
    assert dissolved == pytest.approx(0.91, abs=0.01)
    starts = [martensite_start({"C": carbon, "Mn": 0.4}) for carbon in (dissolved, 0.95)]
    assert starts[0] > starts[1]
    assert retained_austenite(starts[0]) < retained_austenite(starts[1])


def test_carbon_beyond_the_diagram_is_refused():
    for carbon in (0.0, 1.6, float("nan")):
        with pytest.raises(KitError, match=r"Carbon must be 0.02 to 1.5 %"):
            upper_line(carbon)
    with pytest.raises(KitError, match=r"Carbon must be 0.022 to 6.7 %"):
        slow_cooled(7)
    with pytest.raises(KitError, match=r"1341 to 1812 °F"):
        carbon_in_austenite(700)

"""The iron–carbon diagram against the textbook, and computed again with pycalphad."""

import os

import pytest

from kit.basics.errors import KitError
from kit.metal.iron_carbon import (
    EUTECTOID_CARBON,
    EUTECTOID_TEMPERATURE,
    upper_line,
)


def test_the_upper_line_dips_at_the_eutectoid():
    # Callister, 9th ed., ch. 9: 0.76 %, 727 °C.
    assert upper_line(0.76) == 727
    assert upper_line(0.70) > 727 < upper_line(0.80)


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


def test_carbon_beyond_the_diagram_is_refused():
    for carbon in (0.0, 1.6, float("nan")):
        with pytest.raises(KitError, match=r"Carbon must be 0.02 to 1.5 %"):
            upper_line(carbon)

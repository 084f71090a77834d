"""Ms, Ac1, A3 and Acm against measurements, worked values and equilibrium."""

import math

import pytest

from kit.basics.errors import KitError
from kit.forge.steels import GRADES, steel
from kit.metal.contents import checked, low_alloy
from kit.metal.transformation import (
    A3,
    MS_COMPARISONS,
    MS_TRUST,
    WHY_NOT_LINEAR,
    a3,
    ac1,
    acm,
    martensite_start,
    martensite_start_by,
    retained_austenite,
)

# Single measurements, quoted from MsDatabase_2022 (Wentzien et al., steel research
# international 2024, doi 10.1002/srin.202400210): composition and Ms in °C, the middle
# where there are two. Contents of elements not named here were not noted.
PLAIN = [
    ({"C": 0.79, "Mn": 0.76}, 223.0),
    ({"C": 0.84, "Mn": 0.62, "Si": 0.23}, 221.0),
    ({"C": 0.96, "Mn": 0.60, "Si": 0.20}, 194.5),
]
ALLOYED = [
    ({"C": 0.76, "Mn": 0.41, "Si": 0.20, "Cr": 0.13, "Ni": 2.5}, 201.0),
    ({"C": 0.60, "Mn": 0.85, "Si": 0.25, "Cr": 0.75}, 256.0),
    ({"C": 0.41, "Mn": 0.70, "Si": 0.25, "Cr": 0.80, "Ni": 1.8, "Mo": 0.25}, 300.5),
    ({"C": 0.85, "Mn": 1.18, "Cr": 0.5}, 202.0),
]


def off_by(formula, rows):
    """Mean and root mean square of formula less measurement, °C."""
    errors = [formula(contents) - measured for contents, measured in rows]
    mean = math.fsum(errors) / len(errors)
    return mean, math.sqrt(math.fsum(error**2 for error in errors) / len(errors))


def test_ms_agrees_with_measurements_as_well_as_it_says():
    bias, rms = off_by(martensite_start, PLAIN)
    assert abs(bias) < 17
    assert rms < MS_TRUST[0].rms
    bias, rms = off_by(martensite_start, PLAIN + ALLOYED)
    assert abs(bias) < 17
    assert rms < MS_TRUST[1].rms


@pytest.mark.parametrize("name", MS_COMPARISONS)
def test_straight_lines_read_far_too_low_for_blade_steel(name):
    bias, rms = off_by(lambda contents: martensite_start_by(name, contents), PLAIN)
    assert bias < -40
    assert rms > 2 * off_by(martensite_start, PLAIN)[1]
    assert "too low" in WHY_NOT_LINEAR


def test_andrews_and_steven_and_haynes_by_hand():
    # 4340 with C 0.40 Mn 0.70 Ni 1.83 Cr 0.80 Mo 0.25:
    # 539 - 169.2 - 21.28 - 32.391 - 9.68 - 1.875 = 304.6;
    # 561 - 189.6 - 23.1 - 31.11 - 13.6 - 5.25 = 298.3.
    contents = {"C": 0.40, "Mn": 0.70, "Ni": 1.83, "Cr": 0.80, "Mo": 0.25}
    assert martensite_start_by("Andrews 1965", contents) == pytest.approx(304.6, abs=0.05)
    steven = martensite_start_by("Steven & Haynes 1956", contents)
    assert steven == pytest.approx(298.3, abs=0.05)


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        # Worked out by hand from 565 - 600(1 - exp(-0.96 C)) - 31 Mn - 13 Si - 10 Cr
        # - 18 Ni - 12 Mo: 1084: 565 - 332.1 - 23.25 - 2.6.
        ("1084", 207.0),
        ("1095", 191.0),
        ("5160", 264.0),
        ("15N20", 205.6),
    ],
)
def test_ms_of_the_rack(name, expected):
    assert martensite_start(steel(name).nominal) == pytest.approx(expected, abs=1)


def test_more_of_anything_lowers_ms():
    plain = martensite_start({"C": 0.6})
    for element in ("C", "Mn", "Si", "Cr", "Ni", "Mo"):
        contents = {"C": 0.6}
        contents[element] = contents.get(element, 0) + 0.3
        assert martensite_start(contents) < plain


@pytest.mark.parametrize(
    ("start", "quenched_to", "left"),
    [
        # Koistinen & Marburger 1959: exp(-0.011 (Ms - T)). A published calculator gives
        # about 15 % for Ms 200 °C at 25 °C (metallurgyzone.com, 2026).
        (200, 25, 0.15),
        # By hand: ln 2 / 0.011 = 63 °C below Ms half is left, ln 10 / 0.011 = 209: a tenth.
        (88, 25, 0.5),
        (234.3, 25, 0.1),
        (150, 200, 1.0),
    ],
)
def test_retained_austenite(start, quenched_to, left):
    assert retained_austenite(start, quenched_to) == pytest.approx(left, abs=0.005)


def test_cold_turns_more():
    assert retained_austenite(190, -196) < 0.1 * retained_austenite(190, 25)
    with pytest.raises(KitError, match="-321 °F"):
        retained_austenite(190, -200)


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


def test_acm_of_real_steels_is_close():
    # Carbide gone at equilibrium (as above): 1084 767, 1095 808; but 52100 885 °C.
    assert acm(steel("1084").nominal) == pytest.approx(767, abs=10)
    assert acm(steel("1095").nominal) == pytest.approx(808, abs=10)
    for name in ("52100", "15N20", "1075"):
        with pytest.raises(KitError, match=r"0.76 to 1.5 % carbon and up to 0.3 %"):
            acm(steel(name).nominal)


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
    for formula in (checked, martensite_start, ac1, a3, acm):
        with pytest.raises(KitError, match=match):
            formula(contents)


@pytest.mark.parametrize("name", ["304", "316", "440C", "nickel"])
def test_stainless_steel_is_refused(name):
    contents = steel(name).nominal
    for formula in (martensite_start, ac1, a3):
        with pytest.raises(KitError, match=r"up to 5 % .* not for stainless steel"):
            formula(contents)


def test_all_other_grades_are_answered():
    for name in set(GRADES) - {"304", "316", "440C", "nickel"}:
        contents = low_alloy(steel(name).nominal)
        assert 150 < martensite_start(contents) < 565
        assert 680 < ac1(contents) < 760


def test_too_much_carbon_and_unknown_names_are_refused():
    with pytest.raises(KitError, match=r"measurements up to 1.1 % carbon"):
        martensite_start({"C": 1.2})
    with pytest.raises(KitError, match="Known: Andrews 1965, Steven & Haynes 1956"):
        martensite_start_by("mine", {"C": 0.5})

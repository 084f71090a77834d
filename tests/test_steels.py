"""The rack against the standards, and the sums done with it."""

import copy
import dataclasses
import pickle

import pytest

from kit.basics.claim import Kind
from kit.basics.errors import KitError
from kit.forge.steels import GRADES, steel
from kit.metal.contents import ATOMIC_WEIGHTS, mean_composition

# Weight per cent, typed again from the standards' tables.
ASTM_A29 = {
    "1018": {"C": (0.15, 0.20), "Mn": (0.60, 0.90)},
    "1075": {"C": (0.70, 0.80), "Mn": (0.40, 0.70)},
    "1080": {"C": (0.75, 0.88), "Mn": (0.60, 0.90)},
    "1084": {"C": (0.80, 0.93), "Mn": (0.60, 0.90)},
    "1095": {"C": (0.90, 1.03), "Mn": (0.30, 0.50)},
    "5160": {"C": (0.56, 0.64), "Mn": (0.75, 1.00), "Cr": (0.70, 0.90)},
}
ASTM_A295 = {"52100": {"C": (0.93, 1.05), "Mn": (0.25, 0.45), "Cr": (1.35, 1.60)}}
ASTM_A681 = {
    "L6": {"C": (0.65, 0.75), "Mn": (0.25, 0.80), "Cr": (0.60, 1.20)}
    | {"Ni": (1.25, 2.00), "Mo": (0, 0.50)},
    "O1": {"C": (0.85, 1.00), "Mn": (1.00, 1.40), "Cr": (0.40, 0.60)}
    | {"V": (0, 0.30), "W": (0.40, 0.60)},
}
ASTM_A686 = {
    "W1": {"C": (0.70, 1.50), "Mn": (0.10, 0.40), "Si": (0.10, 0.40), "V": (0, 0.10)},
    "W2": {"C": (0.85, 1.50), "Mn": (0.10, 0.40), "V": (0.15, 0.35)},
}
ASTM_A276 = {
    "304": {"C": (0, 0.08), "Mn": (0, 2), "Cr": (18, 20), "Ni": (8, 11)},
    "316": {"C": (0, 0.08), "Cr": (16, 18), "Ni": (10, 14), "Mo": (2, 3)},
    "420": {"C": (0.15, 100), "Mn": (0, 1), "Si": (0, 1), "Cr": (12, 14)},
    "440C": {"C": (0.95, 1.20), "Mn": (0, 1), "Cr": (16, 18), "Mo": (0, 0.75)},
}
ASTM_B160 = {
    "nickel": {"C": (0, 0.15), "Mn": (0, 0.35), "Si": (0, 0.35), "Ni": (99, 100)},
}
# From memory, as kit.forge.steel_table says, on both sides: a check of the typing alone.
EN_10132_4 = {
    "15N20": {"C": (0.72, 0.78), "Mn": (0.30, 0.50), "Ni": (1.80, 2.10)},
    "80CrV2": {"C": (0.75, 0.85), "Mn": (0.30, 0.50), "Cr": (0.40, 0.60)}
    | {"V": (0.15, 0.25)},
}
# Encyclopaedia Britannica, "Iron processing: Wrought iron".
BRITANNICA = {
    "wrought iron": {"C": (0, 0.035), "Mn": (0.05, 0.10), "Si": (0.075, 0.15)}
    | {"P": (0.10, 0.25)},
}
STANDARDS = (
    ASTM_A29 | ASTM_A295 | ASTM_A681 | ASTM_A686 | ASTM_A276 | ASTM_B160 | EN_10132_4
) | BRITANNICA


def test_every_grade_is_checked_here():
    assert set(STANDARDS) == set(GRADES)


@pytest.mark.parametrize("name", STANDARDS)
def test_ranges_are_those_of_the_standard(name):
    for element, span in STANDARDS[name].items():
        assert steel(name).ranges[element] == span


@pytest.mark.parametrize("name", GRADES)
def test_what_the_kit_computes_with_lies_within_the_range(name):
    grade = steel(name)
    for element, content in grade.nominal.items():
        least, most = STANDARDS[name].get(element, grade.ranges[element])
        assert least <= content <= most
    for element, (least, _) in grade.ranges.items():
        assert least == 0 or element in grade.nominal
    assert sum(grade.nominal.values()) <= 100


@pytest.mark.parametrize("name", GRADES)
def test_every_grade_says_where_its_figures_come_from(name):
    grade = steel(name)
    assert grade.source
    assert grade.density_source
    assert grade.kind is (Kind.MEMORY if name in EN_10132_4 else Kind.PUBLISHED)


def test_nickel_makes_the_pair():
    bright, dark = steel("15N20"), steel("1084")
    assert bright.nominal["Ni"] - dark.nominal.get("Ni", 0) > 1.8


def test_w2_is_w1_with_vanadium():
    # ASTM A686: V 0.15 to 0.35 in W2.
    extra = steel("W2").nominal["V"] - steel("W1").nominal.get("V", 0)
    assert extra >= 0.15


@pytest.mark.parametrize(
    ("name", "density"),
    [
        # Metals Handbook Desk Edition, 2nd ed., table of densities.
        ("W1", 7.840),
        ("L6", 7.860),
        ("wrought iron", 7.700),
        # The same: 7.859 at 0.23 % C, 7.844 at 0.435 % C, 7.830 at 1.22 % C.
        ("1018", 7.859),
        ("1084", 7.837),
        ("1095", 7.835),
        # periodictable 2.1: the element.
        ("nickel", 8.902),
    ],
)
def test_densities_agree_with_the_handbook(name, density):
    assert steel(name).density == pytest.approx(density, rel=0.003)


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("1084", "1084"),
        (1084, "1084"),
        ("AISI 1084", "1084"),
        ("SAE-1084", "1084"),
        ("15n20", "15N20"),
        (" 15 N 20 ", "15N20"),
        ("75Ni8", "15N20"),
        ("1.5634", "15N20"),
        ("80crv2", "80CrV2"),
        ("o-1", "O1"),
        ("01", "O1"),
        ("mild steel", "1018"),
        ("Nickel", "nickel"),
        ("UNS N02200", "nickel"),
        ("nickel 200", "nickel"),
        ("NICKEL SHEET", "nickel"),
        ("Wrought-Iron", "wrought iron"),
        (steel("L6"), "L6"),
    ],
)
def test_names_are_found_however_they_are_typed(typed, name):
    assert steel(typed) is GRADES[name]


def test_no_two_steels_share_a_name():
    names = [n for g in GRADES.values() for n in (g.name, *g.aliases)]
    assert len({n.casefold() for n in names}) == len(names)
    for grade in GRADES.values():
        assert all(steel(alias) is grade for alias in grade.aliases)


@pytest.mark.parametrize("bad", ["X", "", "1085", None, "<b>1084</b>", "steel" * 1000])
def test_an_unknown_steel_gets_one_sentence(bad):
    with pytest.raises(KitError, match="I do not know a steel called") as caught:
        steel(bad)
    assert str(caught.value).endswith("nickel, wrought iron.")
    assert len(str(caught.value)) < 250


def test_a_grade_cannot_be_changed():
    grade = steel("1084")
    with pytest.raises(dataclasses.FrozenInstanceError):
        grade.density = 1.0
    with pytest.raises(TypeError):
        grade.nominal["C"] = 2.0
    with pytest.raises(TypeError):
        grade.ranges["C"] = (0, 2)
    with pytest.raises(TypeError):
        GRADES["1084"] = grade


def test_a_grade_can_be_kept_and_compared():
    grade = steel("1084")
    assert copy.deepcopy(grade) == pickle.loads(pickle.dumps(grade)) == grade  # noqa: S301
    own = dataclasses.replace(grade, contents=(("C", 0.86), ("Mn", 0.71)))
    assert own != grade
    assert len({grade, own, steel("1084")}) == 2


def test_the_demo_s_stack():
    # By hand: 6 bars of 1/8 in and 5 of 1/16 in: 15N20 is 5 of 17 sixteenths, and both
    # steels are equally dense.
    bars = [(steel("1084"), 3.175)] * 6 + [(steel("15N20"), 1.5875)] * 5
    mean = mean_composition(bars)
    assert mean["C"] == pytest.approx((12 * 0.84 + 5 * 0.75) / 17)
    assert mean["Ni"] == pytest.approx(5 * 2.0 / 17)
    assert mean["Mn"] == pytest.approx((12 * 0.75 + 5 * 0.40) / 17)


def test_a_mean_is_a_balance_of_masses():
    # By hand: equal thicknesses of nickel (8.90) and mild steel (7.85 g/cm³).
    mean = mean_composition([(steel("nickel"), 1.0), (steel("mild"), 1.0)])
    assert mean["Ni"] == pytest.approx(99.5 * 8.90 / (8.90 + 7.85))
    assert mean["C"] == pytest.approx((0.08 * 8.90 + 0.18 * 7.85) / (8.90 + 7.85))


def test_one_steel_is_its_own_mean():
    grade = steel("L6")
    assert mean_composition([(grade, 3.0), (grade, 0.1)]) == pytest.approx(
        dict(grade.nominal)
    )


@pytest.mark.parametrize("thickness", [0, -1.0, float("nan"), float("inf")])
def test_a_bar_must_have_a_thickness(thickness):
    with pytest.raises(KitError, match="A bar must be thicker than 0 mm"):
        mean_composition([(steel("1084"), thickness)])


def test_a_mean_needs_a_bar():
    with pytest.raises(KitError, match="at least one bar"):
        mean_composition([])


def test_atomic_weights_agree_with_periodictable():
    periodictable = pytest.importorskip("periodictable")
    for element, weight in ATOMIC_WEIGHTS.items():
        expected = getattr(periodictable, element).mass
        assert weight == pytest.approx(expected, rel=2e-5)

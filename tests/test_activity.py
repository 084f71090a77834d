"""Carbon evens out its activity: the alloy factors against descriptions of austenite.

An austenite of the CALPHAD kind (two sublattices, iron and alloy in one, carbon and empty
places in the other) gives carbon's activity from a handful of published numbers. Their
logarithms must rise with each per cent as the factors of the carburising shops say.

The numbers, J/mol: iron and carbon, Gustafson 1985; chromium, Lee 1992 and Andersson &
Sundman 1987; silicon, Lacaze & Sundman 1991; molybdenum, Andersson 1988; manganese, Huang
1990: as collected by SGTE and seen in copies in two public repositories. Nickel, Gabriel,
Gustafson & Ansara 1987: from memory.
"""

import math

import numpy as np
import pytest
from steps import stack

from kit.forge.billet import Billet
from kit.forge.steels import ATOMIC_WEIGHTS, steel
from kit.forge.steps import Draw
from kit.forge.steps.heat import Heat
from kit.metal.activity import FACTORS, activity_factor, at_rest, carbon_by_activity
from kit.metal.cells import cells
from kit.metal.evening import contents_of
from kit.metal.finite_volume import spread_out

GAS = 8.314
EMPTY_IRON = 34_671  # carbon and empty places repel: L(Fe:C,Va) = -34 671


def of_iron(kelvin):
    """Carbide of iron less carbon-free iron, G(Fe:C) - G(Fe:Va)."""
    return 77_207 - 15.877 * kelvin


def published(element, kelvin, share):
    """Give G(M:C) - G(M:Va), the excess of mixing with iron, and L(M:C,Va).

    `share` is iron less alloy on their sublattice.
    """
    log = math.log(kelvin)
    if element == "Cr":
        mixing = -74_319 + 3.2353 * kelvin - (10_833 - 7.477 * kelvin - 1410 * share)
        own = 1200 - 1.94 * kelvin - (7284 + 0.163 * kelvin)
        return own, mixing, -11_977 + 6.8194 * kelvin
    if element == "Ni":
        mixing = 49_074 - 7.32 * kelvin - 25_800 * share
        mixing -= -12_054.355 + 3.27413 * kelvin
        mixing -= (11_082.1315 - 4.45077 * kelvin) * share - 725.8 * share**2
        return 62_000 - 7.6 * kelvin, mixing, -14_902 + 7.5 * kelvin
    if element == "Si":
        mixing = 143_220 + 39.31 * kelvin - 216_321 * share
        mixing -= -125_248 + 41.116 * kelvin - 142_708 * share + 89_907 * share**2
        return -20_510 + 38.7 * kelvin - (51_000 - 21.8 * kelvin), mixing, 0.0
    if element == "Mo":
        mixing = 6000 - (28_347 - 17.691 * kelvin)
        own = -7500 - 8.3 * kelvin - 750_000 / kelvin - (15_200 + 0.63 * kelvin)
        return own, mixing, -41_300
    carbide = -24_981.721 + 316.05 * kelvin - 47.7582 * kelvin * log
    carbide += -0.00781998 * kelvin**2 + 2_632_427 / kelvin
    carbide += -2.643e8 / kelvin**2 + 1.2e10 / kelvin**3
    metal = -3439.3 + 131.884 * kelvin - 24.5177 * kelvin * log
    metal += -0.006 * kelvin**2 + 69_600 / kelvin
    graphite = -17_368.441 + 170.73 * kelvin - 24.3 * kelvin * log
    graphite += -4.723e-4 * kelvin**2 + 2_562_600 / kelvin
    graphite += -2.643e8 / kelvin**2 + 1.2e10 / kelvin**3
    mixing = 34_052 - 23.467 * kelvin - (-7762 + 3.865 * kelvin - 259 * share)
    return carbide - metal - graphite, mixing, -43_433


def log_activity(celsius, carbon, element, percent):
    """Give the logarithm (base ten) of carbon's activity in austenite, to graphite."""
    kelvin = celsius + 273.15
    iron = (100 - carbon - percent) / ATOMIC_WEIGHTS["Fe"]
    alloy = percent / ATOMIC_WEIGHTS[element]
    part = alloy / (iron + alloy)
    filled = carbon / ATOMIC_WEIGHTS["C"] / (iron + alloy)
    own, mixing, crowding = published(element, kelvin, 1 - 2 * part)
    energy = (1 - part) * of_iron(kelvin) + part * own + part * (1 - part) * mixing
    energy += (1 - 2 * filled) * ((1 - part) * -EMPTY_IRON + part * crowding)
    energy += GAS * kelvin * math.log(filled / (1 - filled))
    return energy / (GAS * kelvin * math.log(10))


@pytest.mark.parametrize("element", FACTORS)
@pytest.mark.parametrize("celsius", [1000, 1150, 1250])
@pytest.mark.parametrize("carbon", [0.4, 0.8])
def test_the_factors_against_published_austenites(element, celsius, carbon):
    slope = log_activity(celsius, carbon, element, 1.0) - log_activity(
        celsius, carbon, element, 0.0
    )
    assert slope == pytest.approx(FACTORS[element], abs=0.016)
    assert slope * FACTORS[element] > 0


def test_that_austenite_holds_graphite_where_it_should():
    # graphite and austenite in balance, 2.1 % C at 1154 °C: Callister & Rethwisch, 9th ed.,
    # cast irons; there carbon's activity is 1
    assert log_activity(1154, 2.1, "Ni", 0.0) == pytest.approx(0, abs=0.03)


def test_by_hand():
    # of nickel, silicon, manganese and chromium, as kit.forge.steel_table has them
    exponent = 2 * 0.014 + 0.25 * 0.055 - 0.40 * 0.013 - 0.05 * 0.040
    assert activity_factor(steel("15N20").nominal) == pytest.approx(10**exponent)
    assert activity_factor({"C": 0.9, "P": 0.1}) == 1
    both = activity_factor({"Ni": np.array([0.0, 2.0])})
    assert both == pytest.approx(np.array([1, 10**0.028]))


def test_at_rest_the_activity_is_even_and_nothing_is_lost():
    carbon, widths = np.array([0.84, 0.75, 0.2]), np.array([3.0, 1.5, 2.0])
    factors = np.array([1.0, 1.08, 0.95])
    rest = at_rest(carbon, factors, widths)
    assert rest * factors == pytest.approx(np.full(3, rest[0]))
    assert widths @ rest == pytest.approx(widths @ carbon, rel=1e-14)


def soak(minutes, *, second="15N20", thickness=0.25):
    billet = Billet(source=stack(11, 2.0))
    if second != "15N20":
        billet = Billet(
            source=billet.source.alternate("1084", second, pieces=11, thickness=2.0)
        )
    thin = 11 * thickness
    heat = Heat(celsius=1150, minutes=minutes)
    return billet.then(Draw(thickness=thin), Draw(thickness=thin, heat=heat))


def test_a_small_step_stays_in_carbon():
    billet = soak(120)
    found = carbon_by_activity(billet)
    settled = found.contents["C"]
    source = billet.source
    factors = np.array([activity_factor(steel(name).nominal) for name in source.steels])
    rest = at_rest(contents_of(source, "C"), factors, np.diff(source.edges))
    middles = (np.arange(11) + 0.5) / 11
    seen = settled[np.searchsorted(found.edges, middles) - 1]
    # nickel's blur changes a layer's factor a little at its edges
    assert seen == pytest.approx(rest, abs=2e-3)
    # 0.83 % in the plain layers, 0.77 % in the nickel ones: a step of 8 %, plain is higher
    assert seen[0] / seen[1] == pytest.approx(1.08, abs=0.005)
    even = cells(billet).contents["C"]
    assert np.ptp(even) < 0.002 < np.ptp(settled)


@pytest.mark.parametrize("follow_carbon", [False, True])
def test_nothing_is_lost_on_the_way(follow_carbon):
    billet = soak(2, second="mild")
    found = carbon_by_activity(billet, follow_carbon=follow_carbon)
    widths = np.diff(found.edges)
    bars = np.diff(billet.source.edges) @ contents_of(billet.source, "C")
    assert widths @ found.contents["C"] == pytest.approx(bars, rel=1e-12)
    assert np.ptp(found.contents["C"]) > 0.05


def test_without_alloy_it_is_the_plain_law():
    # 1084 and mild: next to no alloy; the simple D: the exact series
    billet = soak(1, second="mild")
    found = carbon_by_activity(billet, follow_carbon=False)
    exact = cells(billet)
    assert found.edges == pytest.approx(exact.edges)
    assert found.contents["C"] == pytest.approx(exact.contents["C"], abs=4e-3)
    assert found.contents["Mn"] == pytest.approx(exact.contents["Mn"])


def test_before_any_heat_it_is_the_stack():
    billet = Billet(source=stack(5))
    assert carbon_by_activity(billet).contents["C"] == pytest.approx(
        contents_of(billet.source, "C")
    )


def test_carbon_climbs_out_of_silicon():
    """Carbon runs uphill, from little to much, if silicon drives it.

    Darken, Trans. AIME 180 (1949) 430: two bars of 0.48 and 0.44 % carbon, the richer with
    3.8 % silicon, welded and held 13 days at 1050 °C; carbon beside the weld went to 0.32 %
    on the silicon side and 0.59 % on the other (from memory).
    """
    edges = np.linspace(-40, 40, 1601)
    middles = (edges[1:] + edges[:-1]) / 2
    silicon = np.where(middles < 0, 3.8, 0.05)
    start = np.where(middles < 0, 0.48, 0.44)
    end = spread_out(
        edges, start, 3.4e-11, 13 * 24 * 60, factors=activity_factor({"Si": silicon})
    )
    at_weld = end[[799, 800]]
    assert at_weld[0] < 0.40
    assert at_weld[1] > 0.52
    assert at_weld == pytest.approx(np.array([0.32, 0.59]), abs=0.06)

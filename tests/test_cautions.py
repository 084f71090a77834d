"""What is said against a pair, and that it is said where it holds, with a source."""

from itertools import combinations

import pytest

from kit.basics.claim import NO_SOURCE, gathered
from kit.basics.units import Units
from kit.classroom.paper.kinds import Asked
from kit.classroom.paper.stock import stock
from kit.course.map import LESSONS
from kit.course.views.settings import Pick, settings_of
from kit.forge.steels import steel
from kit.metal.cautions import NEVER, REASONS, Reason, Weight, cautions
from kit.metal.pairs import pair, pairs

STAINLESS = {"304", "316", "420", "440C"}


def names(two):
    return {reason.name for reason in two.reasons}


def test_stainless_never_goes_into_the_open_fire():
    for two in pairs():
        open_fire = "open fire" in names(two)
        assert open_fire == bool({two.first.name, two.second.name} & STAINLESS)
        if open_fire:
            first, second = two.reasons[:2]
            assert first.weight is second.weight is Weight.TAUGHT
            assert "borax" in first.says
            assert "all oxygen out" in first.says
            assert "pinhole" not in first.says  # that would let air into tight cladding
            assert "poisonous" in first.says
            assert second.name == "sealed can"
            assert "bursts" in second.says


def test_fume_of_stainless_and_nickel_is_told():
    # 29 CFR 1910.1026: hot work on stainless steel gives off hexavalent chromium.
    for two in pairs():
        some = {two.first.name, two.second.name} & (STAINLESS | {"nickel"})
        assert ("fume" in names(two)) == bool(some)


def test_carbon_does_not_even_out_into_stainless_or_nickel():
    # Missori, Murdolo & Sili, Metals 10 (2020) 286: 304L takes carbon out of carbon
    # steel; Omichi et al. 2004: carbon runs uphill, from 0.046 % to 18-8 with 0.06 %.
    for name in ("304", "440C"):
        two = pair("1084", name)
        assert "carbon drifts" in names(two)
        assert not two.evens_out
        assert two.mean_carbon is None
        assert two.evened == (two.first, two.second)
    assert pair("1084", "nickel").mean_carbon is None
    assert "carbon drifts" not in names(pair("304", "316"))


def test_big_gaps_in_expansion_are_told():
    # Callister, Table B.6: 304 17.2, 316 16.0; carbon and low-alloy steel 11.3 to 12.3;
    # 440A 10.2; nickel 13.3 millionths per °C.
    assert "expansion" in names(pair("1084", "304"))
    assert "expansion" in names(pair("15N20", "316"))
    assert "expansion" in names(pair("440C", "304"))
    assert "expansion" not in names(pair("1084", "nickel"))
    assert "expansion" not in names(pair("304", "316"))
    told = next(r for r in pair("304", "1084").reasons if r.name == "expansion")
    assert "304 would shrink by 2.4 thousandths" in told.detail  # 5.9e-6 · 410
    assert "806 °F" in told.detail


def test_low_carbon_beside_high_in_thick_layers():
    # 1 mm layers at 1150 °C: 0.328 · h² / D with D = 8.5e-11 m²/s is 64 minutes (Crank;
    # Callister, Table 5.2).
    assert 0.328 * 1e-6 / 8.5e-11 / 60 > 60
    for name in ("1084", "1095", "O1", "W1"):
        assert "thick layers" in names(pair("mild", name))
        assert "thick layers" in names(pair("wrought iron", name))
    for first, second in combinations(["1075", "1084", "1095", "15N20", "5160"], 2):
        assert "thick layers" not in names(pair(first, second))


def test_water_and_oil_hardening_steels_quarrel():
    # ASTM A686 calls the W group water-hardening, A681 the O group oil-hardening.
    for first, second in [("W1", "O1"), ("W2", "L6"), ("1095", "52100")]:
        assert "quench" in names(pair(first, second))
    for first, second in [("W1", "1095"), ("O1", "L6"), ("1084", "15N20")]:
        assert "quench" not in names(pair(first, second))


def test_every_reason_has_a_source_and_plain_words():
    declared = [one for one in gathered().values() if isinstance(one, Reason)]
    for reason in (*declared, *(reason for two in pairs() for reason in two.reasons)):
        assert reason.how
        assert reason.says.endswith(".")
        assert str(reason).startswith(reason.weight.value)
    known = {reason.name for reason in declared} - {REASONS["free machining"].name}
    met = {name for two in pairs() for name in names(two)}
    assert met == known  # none is idle
    assert any(NO_SOURCE in reason.how.lower() for reason in declared)


def test_scrap_that_never_goes_in():
    pages = stock(Asked())
    printed = " ".join(text.get_text() for page in pages for text in page.axes.texts)
    assert " ".join(NEVER.split()) in " ".join(printed.split())
    for word in ("galvanised", "cadmium", "12L14", "sulphur", "unknown scrap", "1665 °F"):
        assert word in NEVER


def test_zinc_boils_below_welding_heat():
    chemicals = pytest.importorskip("chemicals", reason="the package chemicals is missing")
    assert chemicals.Tb("7440-66-6") - 273.15 == pytest.approx(907, abs=2)


def test_cautions_of_an_ordinary_pair_are_none():
    assert list(cautions(steel("5160"), steel("1084"))) == []


def test_no_lesson_speaks_of_welding_a_pair_without_what_speaks_against_it():
    told = 0
    for lesson in LESSONS.values():
        settings = settings_of(lesson)
        start = {one.key: one.start for one in settings}
        for one in settings:
            if not isinstance(one, Pick) or not STAINLESS & set(one.options):
                continue
            for name in sorted(STAINLESS & set(one.options)):
                chosen = {**start, one.key: one.options.index(name)}
                job, _ = lesson.fitted(chosen, Units.MM)
                remark = job.remarked(one.key, Units.MM)
                if "weld" in remark:
                    told += 1
                    assert Weight.TAUGHT.value in remark, (lesson.key, one.key, name)
    assert told >= 2 * len(STAINLESS)

"""Pairs of steels: sums done by hand, what the trade knows, and words that hold."""

import html
import re
from decimal import ROUND_HALF_UP, Decimal
from itertools import combinations, combinations_with_replacement

import pytest

from kit.basics.errors import KitError
from kit.basics.units import rounded
from kit.classroom.paper.care import facts
from kit.classroom.paper.told import hardening
from kit.course.views.pairs import PairTable
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steels import GRADES, steel
from kit.forge.steps import DrawOut, Fold
from kit.metal.cautions import Weight
from kit.metal.etch import ILLUSTRATIVE, reflectance
from kit.metal.hardening import HANDBOOK
from kit.metal.pairs import HEADINGS, contrast_word, pair, pairs, row
from tests.all_at_once import for_all

# Curriculum N08: the steels that a student can choose.
CURRICULUM = ["1084", "1095", "1075", "15N20", "5160", "O1", "52100", "80CrV2"]
CURRICULUM += ["mild", "nickel sheet"]
SOFT = {"304", "316", "nickel"}


def names(two):
    return {reason.name for reason in two.reasons}


def test_the_curriculums_steels_are_on_the_rack():
    for first, second in combinations(CURRICULUM, 2):
        assert pair(first, second).first is steel(first)


def test_the_usual_pair_by_hand():
    # 6 bars of 3.175 mm 1084 (0.84 % C) and 5 of 1.5875 mm 15N20 (0.75): 15N20 is 5 of 17
    # sixteenths of an inch, so (12 × 0.84 + 5 × 0.75) / 17 = 0.8135.
    two = pair("1084", "15N20", (6 * 3.175, 5 * 1.5875))
    assert two.mean_carbon == pytest.approx(0.8135, abs=5e-5)
    assert two.differences["C"] == pytest.approx(-0.09)
    assert two.differences["Ni"] == pytest.approx(2.0)
    assert two.differences["Mn"] == pytest.approx(-0.35)
    assert names(two) == {"nickel"}  # of 15N20: EN 10132-4
    assert two.hardening.heats is not None


def test_order_does_not_matter():
    for one in pairs(["1018", "O1", "440C", "nickel", "wrought iron"]):
        other = pair(one.second.name, one.first.name)
        assert other.mean_carbon == one.mean_carbon
        assert other.contrast_evened == pytest.approx(one.contrast_evened)
        assert other.hardening.heats == one.hardening.heats
        assert names(other) == names(one)
        assert other.differences == {key: -step for key, step in one.differences.items()}


def test_carbon_evens_out_and_nickel_stays():
    # A welded billet of W2 (no nickel) and nickel steel with layers of 150 µm: carbon
    # level, nickel where it was, the pattern from nickel ("Microstructural analysis of a
    # welded Damascus knife blade billet", abstract).
    two = pair("W2", "15N20")
    first, second = two.evened
    assert first.nominal["C"] == second.nominal["C"] == two.mean_carbon
    assert second.nominal["Ni"] == two.second.nominal["Ni"]
    assert contrast_word(two.contrast_evened) == "strong"


def test_carbon_alone_leaves_no_pattern():
    # Same manganese, no alloy: only carbon differs.
    two = pair("1018", "1084")
    assert contrast_word(two.contrast) == "clear"
    assert two.contrast_evened == pytest.approx(1)
    assert "no pattern" in names(two)


def test_contrast_is_the_ratio_of_the_kits_tones():
    # WCAG 2.1: (brighter + 0.05) / (darker + 0.05).
    dark, bright = reflectance(steel("1084")), reflectance(steel("15N20"))
    assert pair("1084", "15N20").contrast == pytest.approx((bright + 0.05) / (dark + 0.05))
    assert "Illustrative" in ILLUSTRATIVE
    assert [contrast_word(ratio) for ratio in (1, 1.3, 2, 9)] == [
        "none",
        "faint",
        "clear",
        "strong",
    ]


@pytest.mark.parametrize(
    ("first", "second", "shows"),
    [
        # What makers report of well soaked billets (common practice, no source).
        ("1084", "15N20", True),
        ("1095", "15N20", True),
        ("O1", "L6", True),
        ("1080", "nickel", True),
        ("1084", "1080", False),
        ("1095", "W2", False),
        ("15N20", "L6", False),
    ],
)
def test_the_pattern_is_as_makers_report(first, second, shows):
    word = contrast_word(pair(first, second).contrast_evened)
    assert (word in ("clear", "strong")) == shows


def test_a_lean_mean_makes_no_edge():
    # By hand: equal bars of 0.18 and 0.60 % carbon: 0.39; ASTM A255 gives 55 to 56 HRC.
    two = pair("mild", "5160")
    assert two.mean_carbon == pytest.approx(0.39)
    told = next(reason for reason in two.reasons if reason.name == "no edge")
    assert "0.39 % carbon: 56 HRC" in told.detail
    # Three parts of the hard steel: 0.495 %, still lean; nine: 0.558 %.
    assert "no edge" in names(pair("mild", "5160", (1, 3)))
    assert "no edge" not in names(pair("mild", "5160", (1, 9)))
    assert two.hardening.short == "no edge"


@for_all(combinations_with_replacement(GRADES, 2))
def test_nothing_is_told_twice_of_a_pair(*names):
    two = pair(*names)
    told = [two.hardening.sentence, *(f"{why.says} {why.detail}" for why in two.reasons)]
    said = re.split(r"(?<=\.) ", " ".join(told).strip())
    assert len(said) == len(set(said)), said


@for_all(combinations_with_replacement(GRADES, 2))
def test_hardening_is_told_only_of_what_has_the_carbon_for_it(*names):
    """Below about 0.3 % a steel is not counted as one that a quench hardens.

    A glossary of historical metallurgy, "steel"; Callister & Rethwisch, on low-carbon
    steels, say below about 0.25 %: both read in quotation. Stainless: by its data sheets.
    """
    two = pair(*names)
    sentence, mean = two.hardening.sentence, two.mean_carbon
    told = [
        one
        for one in (two.first, two.second)
        if "Both harden" in sentence or f"{one} hardens" in sentence
    ]
    assert bool(told) or sentence.startswith(("Neither hardens.", "Not together"))
    if mean is None:
        assert all(one.nominal["C"] >= 0.3 or one.name in HANDBOOK for one in told)
    elif told:
        assert mean >= 0.3, sentence
        assert f"{rounded(mean, 2)} % carbon" in sentence
    else:
        assert two.hardening.heats is None
        assert "HRC" not in " ".join([sentence, *map(str, two.reasons)])


@pytest.mark.parametrize("soft", sorted(SOFT))
def test_soft_layers_stay_soft(soft):
    two = pair("1095", soft)
    assert "soft layers" in names(two)
    assert two.hardening.sentence.startswith("Only 1095 hardens, at ")
    neither = pair("mild", soft).hardening
    assert neither.heats is None
    assert neither.sentence == "Neither hardens."


@pytest.mark.parametrize("weight", Weight)
def test_no_reason_asks_what_a_folded_bar_cannot_do(weight):
    """Each of its layers runs to the edge: none is kept off it."""
    told = {
        reason.says for two in pairs() for reason in two.reasons if reason.weight is weight
    }
    assert [one for one in told if re.search(r"off the (cutting )?edge", one)] == []


@pytest.mark.parametrize("soft", sorted(SOFT))
def test_the_card_of_a_bar_folded_with_soft_layers_says_what_it_is_for(soft):
    bar = Billet(source=Stack.alternate("1084", soft, pieces=8, thickness=2))
    for _ in range(3):
        bar = bar.then(DrawOut(thickness=8), Fold())
    assert bar.layers == 64
    told = " ".join(hardening(bar).split())
    assert "for fittings, or for cladding over a core of blade steel" in told


def test_440c_and_carbon_steel_do_not_harden_together():
    # Data sheets: 440C 1850 to 1900 °F; 1084 near 1500 °F.
    two = pair("1084", "440C")
    both = pair("420", "440C").hardening
    assert both.heats == (1010, 1040)
    assert "Both harden" in both.sentence
    assert "Only 420 hardens" in pair("420", "304").hardening.sentence
    assert two.hardening.heats is None
    assert "Not together: 1084 7" in two.hardening.sentence
    assert "440C 1010–1040 °C" in two.hardening.sentence
    assert "heats differ" in names(two)


def test_the_handbook_is_quoted_beside_the_window():
    sentence = pair("1095", "O1").hardening.sentence
    assert "Handbook, each by itself: 1095 800 °C (1472 °F), O1 790–815 °C" in sentence


def test_a_steel_with_itself():
    two = pair("1084", "1084")
    assert two.mean_carbon == pytest.approx(0.84)
    assert names(two) == {"no pattern"}
    assert len(names(pair("304", "304"))) == len(pair("304", "304").reasons)


def test_the_whole_table():
    table = [row(two) for two in pairs()]
    assert len(table) == len(GRADES) * (len(GRADES) - 1) // 2
    for cells in table:
        assert len(cells) == len(HEADINGS)
        assert all(cells)
    assert len({cells[0] for cells in table}) == len(table)
    assert row(pair("1084", "15N20"))[-1] == "nickel"
    assert row(pair("1084", "W2"))[-1] == "–"


def test_heaviest_reasons_come_first():
    order = list(Weight)
    for two in pairs():
        weights = [order.index(reason.weight) for reason in two.reasons]
        assert weights == sorted(weights)


@pytest.mark.parametrize("widths", [(0, 1), (1, -1), (float("nan"), 1)])
def test_a_bar_needs_thickness(widths):
    with pytest.raises(KitError, match="thicker than 0 mm"):
        pair("1084", "15N20", widths)


def test_an_unknown_steel_is_refused():
    with pytest.raises(KitError, match="I do not know a steel called"):
        pair("1084", "mystery")


def test_where_carbon_does_not_even_out_nothing_is_said_of_evened_carbon():
    for two in pairs():
        if not two.evens_out:
            assert row(two)[5].endswith(", –")
            assert not any(
                "evened out" in r.says or "once carbon" in r.says for r in two.reasons
            )


@pytest.mark.parametrize("soft", ["304", "316"])
def test_hardened_stainless_shows_beside_soft_stainless(soft):
    # Makers report: hardened martensitic stainless etches dark beside 18-8, and stainless
    # patterns that are sold rest on it (common practice, no source).
    two = pair(soft, "440C")
    assert "no pattern" not in names(two)
    assert "contrast by hardening" in names(two)
    assert row(two)[5] == "once hardened, –"
    assert "contrast by hardening" not in names(pair("304", "316"))
    assert "contrast by hardening" not in names(pair("1084", "440C"))


# The table of pairs on the page says what the metal says.
def test_halves_of_a_per_cent_go_away_from_zero_wherever_a_pair_is_told():
    met = 0
    for one, other in combinations(GRADES, 2):
        first, second = (Decimal(str(steel(name).nominal["C"])) for name in (one, other))
        two, hundredth = pair(one, other), Decimal("0.01")
        step = abs(first - second).quantize(hundredth, ROUND_HALF_UP)
        assert row(two)[1].startswith(f"{step} %"), two
        thick = [reason.detail for reason in two.reasons if "The step is" in reason.detail]
        assert thick in ([], [f"The step is {step} % carbon."])
        layers = Stack.alternate(one, other, pieces=2, thickness=0.05)
        even = re.search(r"about ([\d.]+) %", " ".join(facts(Billet(source=layers))))
        if even and steel(one).density == steel(other).density:
            mean = ((first + second) / 2).quantize(hundredth, ROUND_HALF_UP)
            assert even[1] == str(mean), two
            met += 1
    assert met > 20


def test_every_other_steel_has_a_row():
    page = PairTable()
    rows = re.findall(r"<tr[^>]*>(.*?)</tr>", page.table.value)
    assert len(rows) == len(GRADES)  # the headings, and all but the chosen one
    assert all(html.escape(head) in rows[0] for head in HEADINGS)
    assert 'aria-current="true"' in page.table.value


def test_the_chosen_pair_is_told_with_its_reasons():
    page = PairTable()
    assert "781" in page.says.value
    page.second.value = page.names.index("304")
    for reason in pair("1084", "304").reasons:
        assert html.escape(reason.says[:40]) in page.says.value
        assert html.escape(reason.how[:60]) in page.known.value
    page.first.value = page.names.index("304")
    assert "no pattern" in page.says.value


def test_all_pairs_can_be_shown():
    page = PairTable()
    page.rehearse()
    assert page.first.value == len(page.names) - 1

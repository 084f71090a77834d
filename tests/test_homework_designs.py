"""Design tasks: many answers pass, each failure has its reason; and the judged tasks."""

import pytest

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.classroom.homework.judged import RUBRIC, share
from kit.classroom.homework.paper import draw
from kit.classroom.homework.sets import SETS
from kit.classroom.homework.sitting import Sitting

STUDENTS = [f"Student {number}" for number in range(12)]


def papers(code):
    return [draw(SETS[code], "FORGE-A", name) for name in STUDENTS]


def passing(paper, choices):
    design = paper.homework.design
    return [one for one in choices if design.judge(paper.values, one).passed]


CHOICES = {
    "H1": [
        {"pieces": pieces, "folds": folds}
        for pieces in (5, 7, 9, 13, 20)
        for folds in (0, 1, 2, 3)
    ],
    "H2": [
        {"across": across, "turn": turn, "hands": 2, "ground": ground}
        for across in (12, 16, 20)
        for turn in range(20, 130, 5)
        for ground in (0.5, 2)
    ],
    "H3": [{"layers": layers, "bar": 0} for layers in range(40, 200, 10)],
    "H4": [
        {"celsius": celsius, "minutes": 1.2**power}
        for celsius in (1060, 1090)
        for power in range(8, 40)
    ],
}


@pytest.mark.parametrize("code", CHOICES)
def test_every_paper_has_more_than_one_right_design_and_wrong_ones(code):
    for paper in papers(code):
        some = passing(paper, CHOICES[code])
        assert 2 <= len(some) < len(CHOICES[code]), (paper.student, paper.values)


def test_the_four_briefs_can_be_met():
    paper = papers("H5")[0]
    met = {
        "across": 24.5, "turn": 60, "ground": 3, "layers": 100, "spine": 4, "height": 30,
        "core": 4.4, "forged": 8, "blade": 24, "cycles": 2, "crop": 6, "scale": 0.08,
    }  # fmt: skip
    judged = SETS["H5"].design.judge(paper.values, met)
    assert judged.passed, judged.reason
    worse = SETS["H5"].design.judge(paper.values, {**met, "cycles": 6})
    assert not worse.passed
    assert "4 The yield" in worse.reason


@pytest.mark.parametrize(
    ("code", "chosen", "reason"),
    [
        ("H1", {"pieces": 40, "folds": 8}, "at least is wanted"),
        ("H1", {"pieces": 2, "folds": 0}, "at most is wanted"),
        ("H2", {"hands": 1}, "no chevron"),
        ("H2", {"hands": 2, "turn": 200}, "so lean them more"),
        ("H2", {"hands": 2, "turn": 20}, "so lean them less"),
        ("H2", {"across": 10, "ground": 6, "hands": 2}, "half the bar"),
        ("H3", {"layers": 60, "bar": 1}, "ricasso shows a pattern"),
        ("H3", {"layers": 400, "bar": 0}, "fewer layers"),
        ("H3", {"layers": 10, "bar": 0}, "more layers"),
        ("H4", {"celsius": 1250, "minutes": 2000}, "shorter or cooler"),
        ("H4", {"celsius": 1050, "minutes": 0.1}, "may stay longer"),
        ("H1", {}, "Nothing is chosen"),
        ("H1", {"pieces": 1e8}, "whole number from 2 to 40"),
        ("H1", {"hammers": 3}, "has no 'hammers'"),
        ("H4", {"celsius": float("nan")}, "from 1000 to 1250"),
    ],
)
@pytest.mark.parametrize("units", [Units.MM, Units.INCH_FRACTION])
def test_what_fails_has_a_reason(code, chosen, reason, units):
    paper = papers(code)[0]
    judged = SETS[code].design.judge(paper.values, chosen, units)
    assert not judged.passed
    assert reason in judged.reason
    assert " mm" not in judged.reason or units is Units.MM


def test_a_design_counts_one_mark():
    sitting = Sitting(papers("H1")[0])
    (good, *_) = passing(sitting.paper, CHOICES["H1"])
    assert not sitting.make({"pieces": 40, "folds": 8}).passed
    assert sitting.score == 0
    assert sitting.make(good).passed
    assert sitting.score == 1
    assert sitting.hand_in().design == good


@pytest.mark.parametrize("code", SETS)
@pytest.mark.parametrize("units", [Units.MM, Units.INCH_FRACTION])
def test_judged_tasks_have_three_models(code, units):
    paper = papers(code)[0]
    judge = paper.homework.judged
    models = judge.models(paper.values, units)
    assert len(models) == 3
    assert len(models[2].split()) > len(models[0].split())
    assert judge.ask(paper.values, units).strip()[-1] in ".?”"


def test_sellers_claims_are_answered_twice():
    """2^2000 has 603 figures; 8 × 2⁸ = 2048; (7 - 1) × 2⁴ + 1 = 97: by hand."""
    folded, eight, bands = SETS["H1"].judged.claims
    assert folded.right(False, 1)
    assert not folded.right(False, 0)
    assert not folded.right(True, 1)
    assert eight.possible
    assert bands.right(True, 2)
    assert len(str(2**2000)) == 603
    assert 8 * 2 * 5 * 5 * 5 == 2000
    assert (7 - 1) * 2**4 + 1 == 97


def test_ratings():
    assert len(RUBRIC) == 3
    assert share((2, 2, 2)) == 1
    for ratings in ((1, 1), (3, 0, 0), (-1, 0, 0), (0.5, 1, 1)):
        with pytest.raises(KitError):
            share(ratings)

"""How much a class gained: the interval of paired shares, against outside figures."""

import pytest
from drawn_class import quiz_sheets

from kit.classroom.homework import quiz
from kit.classroom.homework.paired import gain, score_interval


def test_newcombes_interval():
    # Complete response before and after consolidation therapy (Cavo et al., 2012): 59, 6,
    # 16, 80. Before minus after: -0.0621, 95 % from -0.1186 to -0.0046, as Newcombe's
    # square-and-add interval: read in the tests of the R package contingencytables
    # (chapter 8), which belongs to Fagerland, Lydersen, Laake, "Statistical Analysis of
    # Contingency Tables" (2017).
    assert gain(59, 6, 16, 80) == pytest.approx((0.0621, 0.0046, 0.1186), abs=5e-5)


def test_wilsons_interval_without_a_single_hit():
    # By hand, from memory of the formula: of none in n the upper end is z²/(n + z²).
    assert score_interval(0, 20) == pytest.approx((0, 1.96**2 / (20 + 1.96**2)), abs=1e-4)


@pytest.mark.parametrize("cells", [(1, 0, 0, 0), (0, 0, 9, 0), (0, 7, 0, 0), (3, 1, 4, 2)])
def test_it_stays_within_bounds_and_turns_round(cells):
    both, lost, won, neither = cells
    found, turned = gain(*cells), gain(both, won, lost, neither)
    assert -1 <= found.low <= found.gain <= found.high <= 1
    assert found.low < found.high
    assert turned == pytest.approx((-found.gain, -found.high, -found.low), abs=1e-12)


def test_the_report_gives_the_gain_of_each_question(tmp_path):
    quiz_sheets(tmp_path, [f"Student {number}" for number in range(8)])
    found = quiz.report(quiz.read_folder(tmp_path)[0])
    for one, before, after in zip(found.gains, found.before, found.after, strict=False):
        assert one.gain == pytest.approx(after.right - before.right)
    rows = found.rows()
    assert rows[0][-1] == found.gains[0].told
    assert rows[-1][-1] == ""


def test_it_is_written_with_its_signs():
    assert gain(10, 0, 0, 0).told == "0 (−28 to +28)"

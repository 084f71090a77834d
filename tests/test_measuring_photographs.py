"""Drawn photographs measured: near the truth, as the interval says, or doubted.

The first of those that `python -m tests.bench photographs` measures, half as large. There
stands how many of 100 are within two in a hundred, and inside the interval; here none may
be off by half as much again, which befalls three normal errors in a thousand.
"""

import pytest

from tests.bench.photographs import WRONG, tried

pytestmark = pytest.mark.gate


@pytest.mark.parametrize("seed", range(60))
def test_a_photograph_is_measured_or_doubted(seed):
    found = tried(seed, longest=1500)
    if not found.width.doubt:
        assert found.half <= WRONG
        assert abs(found.off) <= 1.5 * found.half
    for line in found.width.lines:
        if found.shot.box:  # no line leaves the box, no edge leaves its line
            left, top, right, low = found.shot.box
            for x, y in (line.start, line.end, *line.places):
                assert left - 1 <= x <= right + 1
                assert top - 1 <= y <= low + 1

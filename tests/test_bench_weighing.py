"""What the bench weighs is the same whatever ran before."""

import sys
from pathlib import Path

import numpy as np
import pytest
import weighing

TESTS = Path(__file__).parent
pytestmark = [
    pytest.mark.gate,
    pytest.mark.skipif(not sys.platform.startswith("linux"), reason="/proc"),
]
WEIGH = "print(*history.weighed({pixels!r}, 900, 700))"
LARGE = "import numpy as np\nnp.ones(100_000_000)\n"  # 800 MB, taken and given back
PIXELS = ("mean", "fine")


@pytest.fixture(scope="module", name="small")
def fixture_small():
    """Weigh in a process that was never large."""
    return _weighed("", PIXELS)


def _weighed(before, order):
    lines = ["from tests.bench import history", before]
    lines += [WEIGH.format(pixels=pixels) for pixels in order]
    found = weighing.ran("\n".join(lines)).splitlines()
    return {
        pixels: [float(part) for part in line.split()]
        for pixels, line in zip(order, found, strict=True)
    }


@pytest.mark.parametrize("order", [PIXELS, PIXELS[::-1]], ids=" then ".join)
def test_a_picture_weighs_the_same_after_large_work(small, order):
    large = _weighed(LARGE, order)
    for pixels in PIXELS:
        assert large[pixels][1] == small[pixels][1]  # the result itself
        assert large[pixels][0] == pytest.approx(small[pixels][0], abs=3.0)


def test_weighing_sees_what_is_taken():
    found = weighing.told("import numpy as np", "a = np.ones(5_000_000); del a; print(7)")
    assert found.risen == pytest.approx(5_000_000 * 8 / 2**20, abs=2.0)
    assert found.words == "7\n"


def test_the_result_is_as_large_as_its_numbers(small):
    assert small["fine"][1] == pytest.approx(
        3 * 900 * 700 * np.dtype(float).itemsize / 2**20
    )


def test_nothing_reads_a_peak_that_is_inherited():
    name = "ru_" + "maxrss"
    guilty = [
        path.name for path in TESTS.rglob("*.py") if f".{name}" in path.read_text("utf-8")
    ]
    assert guilty == []

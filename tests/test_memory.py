"""What large pictures cost at their peak, each weighed in a process of its own."""

import sys

import pytest
from weighing import told

pytestmark = pytest.mark.long

MEGABYTES = 300
# 35 million pixels, as they are asked for in a shell
ASKED = {
    "the solid": "--view solid",
    "a face": "--view face",
    "a cut": "--view cut",
    "a cut for print": "--view cut --print",
}
RENDER = """
import sys
from kit.__main__ import main
if main(["render", "star", "--out", "a.png", "--size", "7000x5000", *{options!r}]):
    sys.exit("it was refused")
"""


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="/proc")
@pytest.mark.parametrize("what", ASKED)
def test_a_large_picture_is_drawn_in_bounded_memory(what, tmp_path):
    work = RENDER.format(options=ASKED[what].split())
    found = told("import kit.__main__, kit.launch.command.render", work, tmp_path)
    assert found.risen < MEGABYTES

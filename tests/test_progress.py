"""Long work tells how far it is, and can be stopped."""

import io

import pytest

from kit.basics.progress import Progress
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.section import trace
from kit.section.surface import cut

RACK = Billet(source=Stack.alternate("1084", "15N20", pieces=7, thickness=3.0))
PLANE = cut(RACK.size, angle=60, columns=300, rows=900, pixel=0.05)
TONES = {"1084": 0.1, "15N20": 0.7}


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        """Pretend."""
        return True


def test_a_picture_tells_how_much_of_it_is_done():
    shares = []
    trace.see(RACK, PLANE, TONES, progress=shares.append)
    assert len(shares) > 3
    assert shares == sorted(shares)
    assert shares[-1] == 1


def test_what_the_listener_raises_stops_the_work():
    heard = []

    def stop(share):
        heard.append(share)
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        trace.see(RACK, PLANE, TONES, progress=stop)
    assert len(heard) == 1


def test_the_bar_fills_up_in_one_line():
    screen = Terminal()
    bar = Progress("Print", stream=screen)
    for share in (0.0, 0.25, 0.25, 1.0):
        bar(share)
    lines = screen.getvalue().split("\r")
    assert len(lines) == 4  # an empty start and three states; the same one is not repeated
    assert "25 %" in lines[2]
    assert screen.getvalue().count("\n") == 1
    assert screen.getvalue().endswith("100 %\n")

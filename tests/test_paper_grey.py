"""What is printed reads in grey: no colour carries meaning, and letters are dark enough."""

import re
from pathlib import Path

import pytest

from kit.metal.colour import contrast_ratio, from_srgb

PAPER = Path(__file__).parents[1] / "kit" / "classroom" / "paper"
INKS = {"INK", "QUIET"}  # what letters are written in; the rest fills areas


def colours() -> list[tuple[str, str]]:
    """Find every colour of the printed pages, with the file it is in."""
    return [
        (path.name, code)
        for path in sorted(PAPER.glob("*.py"))
        for code in re.findall(r'"#([0-9A-Fa-f]{6})"', path.read_text("utf-8"))
    ]


def test_there_are_colours_to_look_at():
    assert len(colours()) > 2


@pytest.mark.parametrize(("name", "code"), sorted(set(colours())))
def test_a_colour_is_a_grey(name, code):
    red, green, blue = (code[at : at + 2] for at in (0, 2, 4))
    assert red == green == blue, f"{name} prints #{code}: a copier makes it some grey"


@pytest.mark.parametrize("ink", sorted(INKS))
def test_letters_are_dark_enough(ink):
    """WCAG 2.2, 1.4.3: at least 4.5 to 1."""
    from kit.classroom.paper import page

    grey = int(getattr(page, ink)[1:3], 16)
    assert contrast_ratio(from_srgb(grey), 1.0) >= 4.5

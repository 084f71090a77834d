"""No line ends between a number and its unit, nor at the dash of a range."""

import json
import re

import pytest

from kit.basics.told import JOINER, NO_BREAK, kept, plain
from kit.classroom.paper.lines import lines_of
from kit.classroom.show.page import templates
from kit.course.map import LESSONS
from kit.course.views.forge import Forge
from kit.course.views.lesson import view_of
from kit.metal.pairs import pairs
from kit.section.picture import Sheet

# A number, a plain space and a unit, by a list of its own: there a line could break; and
# after the dash of a range, unless a joiner follows it (UAX 14: class BA, rule LB21).
PARTED = re.compile(
    r"\d (?:mm|cm|µm|nm|m|in|ft|g|kg|lb|oz|°C|°F|min|%|mm³|cm³|g/cm³|\d+/\d+)(?![\w/²])"
    r"|\d–\d"
)
# Code is copied; in boxes people type.
UNREAD = ("_", "text", "readout", "words", "placeholder", "bars", "sizes")


def shown(widget, seen):
    """Give every word that a page gets from a widget and from those in it."""
    if widget.model_id in seen:
        return
    seen.add(widget.model_id)
    for name, value in widget.get_state().items():
        if not name.startswith(UNREAD) and isinstance(value, str | list | dict):
            yield re.sub(r"<code>.*?</code>|<[^>]*>", "", str(value))
    for one in getattr(widget, "children", ()):
        yield from shown(one, seen)


@pytest.mark.parametrize("key", [*LESSONS, "forge"])
def test_no_page_parts_a_number_from_its_unit_or_a_range(key):
    words = list(shown(Forge() if key == "forge" else view_of(key), set()))
    assert any(NO_BREAK in one for one in words)
    for one in words:
        assert not PARTED.search(one), one


def test_no_heat_of_a_pair_parts_at_its_dash():
    for two in pairs():
        words = f"{two.hardening.short}. {two.hardening.sentence}"
        assert not PARTED.search(kept(words)), words
        assert plain(kept(words)) == words


def test_what_a_tablet_or_telephone_is_told_is_kept_too(tmp_path):
    words = "At 781–830 °C (1437–1526 °F) for 3 min, 5 µm deep."
    (tmp_path / "told.jinja").write_text("{{ told | tojson | kept }}", "utf-8")
    told = json.loads(templates(tmp_path).get_template("told.jinja").render(told=words))
    assert told == kept(words)


def test_no_line_of_print_or_picture_ends_between_a_number_and_its_unit():
    bars = "Bars {0} mm ({0}/64 in) thick, {0} 1/2 in wide, at 80{0}–83{0} °C."
    words = " ".join(bars.format(n) for n in range(9))
    for width in range(30, 90, 9):
        for line in lines_of(words, width):
            assert not re.search(rf"[\d–]$|{JOINER}", line)
    lines, sheet = [], Sheet(300, 900)
    sheet.text = lambda line, *_at, **_look: lines.append(line)
    sheet.lines(words, (0, 0), 200, most=99)
    assert " ".join(lines) == words
    assert not any(re.search(rf"[\d–]$|{JOINER}", line) for line in lines)

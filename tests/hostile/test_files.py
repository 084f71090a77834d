"""Every reader of a stranger's file or line, and everything a stranger might give it.

The law: one plain sentence, within two seconds (a line: half of one) of processor and
300 MB, and nothing else is touched.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import bombs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from readers import FILES, LINES

from kit.basics.errors import MOST_LETTERS
from kit.basics.files import _IN_QUOTES

pytestmark = pytest.mark.gate

SECONDS, MEGABYTES = 2.0, 300.0
A_LINE = 0.5  # s: nobody waits for a word typed wrong
LETTERS = MOST_LETTERS + 3
WAIT = 600  # s, for all bombs of all readers
READERS = Path(__file__).with_name("readers.py")
Answers = dict[str, dict[str, dict]]  # of each reader to each bomb
linux = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="pipes, /proc")
# What is harmless where everything else is refused: lines that say nothing.
EMPTY = {"commas", "quotes after quotes"}


@pytest.fixture(scope="module")
def answers(tmp_path_factory) -> Answers:
    """Let every reader read everything, each in a process of its own."""
    folder = tmp_path_factory.mktemp("bombs")
    run = subprocess.run(
        [sys.executable, str(READERS), str(folder)],
        capture_output=True, text=True, check=False, timeout=WAIT, cwd=folder,
    )  # fmt: skip
    found = {reader: {} for reader in (*LINES, *FILES)}
    for one in map(json.loads, run.stdout.splitlines()):
        found[one["reader"]][one["what"]] = one
    lines, files = set(bombs.lines()), {*bombs.contents(), *bombs.LINKS}
    for reader, told in found.items():
        assert set(told) == (lines if reader in LINES else files), run.stderr[-2000:]
    wires = [wire.read_bytes() for wire in folder.glob(f"*/{bombs.TRIPWIRE}")]
    assert wires == [bombs.UNTOUCHED] * len(FILES)
    return found


def faults(
    found: dict[str, dict], allowed: set[str] | None, most: float = SECONDS
) -> list[str]:
    """Say of which bombs something else came than one sentence, soon and in bounds."""
    wrong = []
    for what, one in found.items():
        words = one["words"]
        fair = one["kind"] == "accepted" and (allowed is None or what in allowed)
        plain = one["kind"] == "refused" and len(words.splitlines()) == 1
        short = len(words) <= LETTERS and (fair or words.endswith((".", "?", "--help")))
        soon = one["seconds"] <= most and one["megabytes"] <= MEGABYTES
        if not ((fair or plain) and short and soon):
            wrong.append(
                f"{what}: {one['kind']}, {one['seconds']:.1f} s, "
                f"{one['megabytes']:.0f} MB: {words[:60]!r} … {words[-60:]!r}"
            )
    return wrong


@linux
@pytest.mark.parametrize("reader", FILES)
def test_a_strangers_file_is_one_sentence(reader, answers):
    wrong = faults(answers[reader], EMPTY if "ratings" in reader else set())
    assert not wrong, "\n".join(wrong)


@linux
@pytest.mark.parametrize("reader", LINES)
def test_a_strangers_line_is_one_sentence(reader, answers):
    """A line may be right by chance; it may not take long, or end in a traceback."""
    wrong = faults(answers[reader], None, A_LINE)
    assert not wrong, "\n".join(wrong)


def in_quotes(text: str) -> str:
    """Leave out what stands in quotes, sign by sign: slow, and plainly right."""
    left, inside, escaped = "", False, False
    for sign in text:
        if not inside:
            inside = sign == '"'
            left += "" if inside else sign
        elif escaped:
            escaped = False
        elif sign == "\\":
            escaped = True
        elif sign == '"':
            inside = False
    return left


@settings(max_examples=500, deadline=None)
@given(st.text(alphabet='"\\[]{}a\n', max_size=40))
def test_what_stands_in_quotes_is_found_as_sign_by_sign(text):
    assert _IN_QUOTES.sub("", text) == in_quotes(text)

"""Every reader of a stranger's file or line, and everything a stranger might give it.

The law: one plain sentence, within two seconds and 300 MB, and nothing else is touched.
"""

from __future__ import annotations

import json
import subprocess
import sys
from functools import lru_cache
from pathlib import Path

import bombs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from readers import FILES, LINES

from kit.basics.bounded import _IN_QUOTES
from kit.basics.errors import MOST_LETTERS

pytestmark = pytest.mark.gate

SECONDS, MEGABYTES = 2.0, 300.0
LETTERS = MOST_LETTERS + 3
WAIT = 300  # s, for all bombs of one reader
READERS = Path(__file__).with_name("readers.py")
linux = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="pipes, /proc")
# What is harmless where everything else is refused: lines that say nothing.
EMPTY = {"commas", "quotes after quotes"}


@lru_cache(maxsize=1)
def answers(reader: str, folder: Path) -> dict[str, dict]:
    """Let one reader read everything, in a process of its own; the last one is kept."""
    place = folder / "work"
    place.mkdir()
    run = subprocess.run(
        [sys.executable, str(READERS), reader, str(place)],
        capture_output=True, text=True, check=False, timeout=WAIT, cwd=folder,
    )  # fmt: skip
    found = [json.loads(line) for line in run.stdout.splitlines()]
    given = bombs.lines() if reader in LINES else {**bombs.contents(), **bombs.LINKS}
    assert {one["what"] for one in found} == set(given), run.stderr[-2000:]
    if reader in FILES:
        assert (place / bombs.TRIPWIRE).read_bytes() == bombs.UNTOUCHED
    return {one["what"]: one for one in found}


def faults(found: dict[str, dict], allowed: set[str] | None) -> list[str]:
    """Say of which bombs something else came than one sentence, soon and in bounds."""
    wrong = []
    for what, one in found.items():
        words = one["words"]
        fair = one["kind"] == "accepted" and (allowed is None or what in allowed)
        plain = one["kind"] == "refused" and len(words.splitlines()) == 1
        short = len(words) <= LETTERS and (fair or words.endswith((".", "?", "--help")))
        soon = one["seconds"] <= SECONDS and one["megabytes"] <= MEGABYTES
        if not ((fair or plain) and short and soon):
            wrong.append(
                f"{what}: {one['kind']}, {one['seconds']:.1f} s, "
                f"{one['megabytes']:.0f} MB: {words[:60]!r} … {words[-60:]!r}"
            )
    return wrong


@linux
@pytest.mark.parametrize("reader", FILES)
def test_a_strangers_file_is_one_sentence(reader, tmp_path):
    wrong = faults(answers(reader, tmp_path), EMPTY if "ratings" in reader else set())
    assert not wrong, "\n".join(wrong)


@linux
@pytest.mark.parametrize("reader", LINES)
def test_a_strangers_line_is_one_sentence(reader, tmp_path):
    """A line may be right by chance; it may not take long, or end in a traceback."""
    wrong = faults(answers(reader, tmp_path), None)
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

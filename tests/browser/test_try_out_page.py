"""A step of one's own on the page: drawn in its cell, refused in a sentence, stopped."""

import os
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from conftest import Lab
from lesson_page import (
    LAPTOP,
    alt,
    containing,
    no_traceback,
    observe,
    picture,
    pixels,
    slider,
)
from playwright.sync_api import Locator, Page, expect

PAGE = "04_twist.ipynb"
SHOTS = os.environ.get("KIT_SHOTS")  # a folder, to look at what is shown
SHOWN = re.compile("^A bar before and after")
ENDLESS = """\
from kit import try_out

def do(x, y, z, strength):
    while True:
        strength = strength + 1
    return x, y, z

try_out((do, do), view.bar[:1], bench=view)"""


@pytest.fixture
def bench(lab: Lab) -> Iterator[Page]:
    """Open a lesson, predict; afterwards put its file back."""
    path = lab.server.folder / PAGE
    before = path.read_bytes()
    lab.page.set_viewport_size(LAPTOP)
    lab.open(PAGE)
    page = lab.start()
    expect(_cell(page)).to_contain_text("Predict first: then the picture comes by itself.")
    observe(page, "stars")
    expect(_cell(page)).not_to_contain_text("Predict first")
    expect(_cell(page).get_by_role("img", name=SHOWN)).to_have_count(1)
    yield page
    page.goto("about:blank")
    path.write_bytes(before)


def _cell(page: Page) -> Locator:
    return page.locator(".jp-CodeCell", has_text="def undo").or_(
        page.locator(".jp-CodeCell", has_text="try_out((do, do)")
    )


def _told(page: Page) -> Locator:
    return _cell(page).locator(".jp-OutputArea-output pre").last


def _shot(page: Page, name: str) -> None:
    if SHOTS:
        page.screenshot(path=Path(SHOTS) / f"{name}.png")


def _write(page: Page, code: str) -> None:
    """Put the reader's own words into the cell, as if pasted."""
    _cell(page).locator(".cm-content").click()
    page.keyboard.press("Control+a")
    page.keyboard.insert_text(code)
    page.keyboard.press("Shift+Enter")


def test_a_step_of_ones_own_is_drawn_refused_and_stopped(bench: Page):
    _cell(bench).locator(".cm-content").click()
    code = _cell(bench).locator(".cm-content").inner_text()
    bench.keyboard.press("Shift+Enter")
    shown = _cell(bench).get_by_role("img", name=SHOWN)
    expect(shown).to_be_visible()
    expect(_told(bench)).to_contain_text("Taking it back: kept.")
    shown.scroll_into_view_if_needed()
    _shot(bench, "own_kept")
    tight = code.replace("angle = strength * x", "angle = strength * x**2 / 200", 1)
    _write(bench, tight)
    expect(_told(bench)).to_contain_text("Taking it back: broken. Worst at 100 mm")
    expect(shown).to_have_attribute("alt", containing("Marked on both: undo"))
    shown.scroll_into_view_if_needed()
    _shot(bench, "own_broken")
    _write(bench, code.replace("np.cos(angle)", "np.cos(angel)", 1))
    expect(_told(bench)).to_have_text(re.compile(r"^Your do, .* line 3, .*angel"))
    _shot(bench, "own_refused")
    with pytest.raises(AssertionError):
        no_traceback(bench)  # for a sentence is written where a traceback would be
    _write(bench, ENDLESS)
    bench.wait_for_timeout(1500)
    bench.get_by_role("button", name="Stop").click()
    expect(_told(bench)).to_have_text(re.compile(r"^Stopped: the step had not come"))
    _shot(bench, "own_stopped")
    before, words = pixels(bench), alt(bench)
    slider(bench, "Grind off").press("ArrowRight")
    expect(picture(bench)).not_to_have_attribute("alt", words)
    assert pixels(bench) != before, "the bench goes on"

"""Every lesson as a newcomer uses it: predict, observe, move, undo, mistype, check.

That nothing complains and nothing leaves this computer is checked by the `page` fixture
at the end of every test.
"""

import re

import pytest
from conftest import ROOT, Lab
from lesson_page import (
    alt,
    box,
    containing,
    faults,
    no_traceback,
    observe,
    pause,
    picture,
    pixels,
    slider,
    view,
)
from playwright.sync_api import Page, expect
from test_accessible import barriers
from visits import VISITS, Visit

TABLET = {"width": 800, "height": 1280}
ZOOMED = {"width": 640, "height": 400}  # 1280 × 800 at 200 %


def _predict(page: Page, visit: Visit) -> None:
    """Find Observe shut; then choose the right tile and observe."""
    before = alt(page)
    page.get_by_role("button", name="Observe").click()
    page.get_by_text("Choose one first").wait_for()
    controls = view(page).locator(".kit-controls")
    shut = controls.locator("input:disabled")
    assert controls.locator("input").count() == shut.count() > 0
    assert alt(page) == before, "nothing is shown before the prediction"
    observe(page, visit.tile)
    page.get_by_text("You predicted it (guess).").wait_for()
    assert shut.count() == 0


def _move_and_undo(page: Page, visit: Visit) -> None:
    expect(picture(page)).to_have_attribute("alt", containing(visit.before))
    before, words = pixels(page), alt(page)
    control, cells = slider(page, visit.control), page.locator(".jp-Cell")
    control.focus()
    page.keyboard.press(visit.key)
    expect(picture(page)).to_have_attribute("alt", containing(visit.after))
    assert pixels(page) != before
    value = box(page, visit.control).input_value()
    assert control.get_attribute("aria-valuetext") == value, "what is heard is true"
    many = cells.count()
    page.keyboard.type("abxdm")  # in JupyterLab these would insert or cut cells
    page.keyboard.press("u")
    expect(picture(page)).to_have_attribute("alt", words)
    assert pixels(page) == before, "undo gives the same picture back"
    assert cells.count() == many


def _mistype(page: Page, visit: Visit) -> None:
    """Type what can not be read, then what can not be; nothing moves."""
    before, words = pixels(page), alt(page)
    typed = box(page, visit.control)
    value = typed.input_value()
    out_of_range = rf"^{visit.control} must be from .+ to .+\. Given: 9999\.$"
    for text, answer in (("abc", rf"^{visit.control}: .*'abc'"), ("9999", out_of_range)):
        typed.fill(text)
        typed.press("Enter")
        expect(view(page).locator(".kit-refused")).to_have_text(re.compile(answer))
        expect(typed).to_have_value(value)
        assert (pixels(page), alt(page)) == (before, words), "the picture stays"
    no_traceback(page)


def _check(page: Page, visit: Visit) -> None:
    check = page.locator(".kit-check").first
    answer = check.locator("input[type=text]")
    answer.fill(visit.wrong)
    answer.press("Enter")
    check.get_by_text(f"what you get if you {visit.reason}").wait_for()
    answer.fill(visit.right)
    answer.press("Enter")
    check.get_by_text("✓ Right.").wait_for()


def _on_a_tablet(page: Page, visit: Visit) -> None:
    """Turn the page to a tablet's size, in small and in big type."""
    page.set_viewport_size(TABLET)
    for size in ("normal", "big"):
        bars = page.locator(".kit-bar")  # those of one page go together
        bars.first.locator("label", has_text=size).click()
        many = bars.count() if size == "big" else 0
        expect(page.locator(".kit-big")).to_have_count(many)
        assert faults(page) == []
    pause(page)  # JupyterLab may still give the focus to what was clicked
    slider(page, visit.control).focus()
    page.keyboard.press(visit.key)
    expect(picture(page)).to_have_attribute("alt", containing(visit.after))


def test_every_lesson_is_here():
    lessons = {path.name for path in (ROOT / "notebooks").glob("[0-9]*.ipynb")}
    assert {visit.notebook for visit in VISITS} == lessons


@pytest.mark.parametrize("visit", VISITS, ids=lambda visit: visit.notebook[:2])
def test_a_newcomer_goes_through(lab: Lab, visit: Visit):
    lab.open(visit.notebook)
    page = lab.start()
    if visit.tile:
        _predict(page, visit)
    if visit.station:
        view(page).locator(".kit-row label", has_text=visit.station).click()
    _move_and_undo(page, visit)
    _mistype(page, visit)
    if visit.right:
        _check(page, visit)
    assert faults(page) == []
    _on_a_tablet(page, visit)
    page.set_viewport_size(ZOOMED)
    assert faults(page) == []
    assert barriers(page) == []

"""Every lesson by keyboard alone: Tab, arrows, Enter, and nothing out of sight."""

import pytest
from conftest import HAS_RUN, Lab
from lesson_page import (
    containing,
    count_pictures,
    pause,
    picture,
    pixels,
    slider,
    view,
    watch_film,
)
from playwright.sync_api import Page, expect
from visits import VISITS, Visit

# The name of what the keyboard is on, and whether it can be seen.
_FOCUSED = """() => {
  const part = document.activeElement;
  const words = part.ariaLabel ?? part.labels?.[0]?.textContent ?? part.textContent;
  const box = part.getBoundingClientRect();
  return [words.trim(), box.top >= 0 && box.bottom <= innerHeight];
}"""


def _tab_to(page: Page, name: str) -> None:
    """Press Tab until the keyboard is on the part of this name."""
    passed = []
    for _ in range(60):
        page.keyboard.press("Tab")
        words, seen = page.evaluate(_FOCUSED)
        if words == name:
            for _ in range(0 if seen else 12):  # the page may still be scrolling to it
                pause(page)
                seen = seen or page.evaluate(_FOCUSED)[1]
            assert seen, f"{name} is out of sight"
            return
        passed.append(words[:30])
    pytest.fail(f"Tab does not come to {name}: {passed}")


def _arrow_to(page: Page, name: str, first: str) -> None:
    """Tab to a group of choices by one of its names, and go to another by arrow keys."""
    _tab_to(page, first)
    page.keyboard.press("Space")
    for _ in range(8):
        words, _ = page.evaluate(_FOCUSED)
        if words == name:
            pause(page)
            return
        page.keyboard.press("ArrowRight")
    pytest.fail(f"the arrow keys do not come to {name}")


def _labels(page: Page, group: str) -> list[str]:
    return [words.strip() for words in page.locator(group).all_text_contents()]


def _predict_by_keyboard(page: Page, visit: Visit) -> None:
    tiles = _labels(page, ".kit-tiles label")
    _arrow_to(page, next(t for t in tiles if visit.tile in t), tiles[0])
    count_pictures(page)
    _tab_to(page, "Observe")
    page.keyboard.press("Enter")
    watch_film(page)
    page.get_by_text("You predicted it").wait_for()


def _check_by_keyboard(page: Page, visit: Visit) -> None:
    press = page.keyboard.press
    _tab_to(page, page.locator(".kit-column label").first.text_content().strip())
    press("Space")
    _tab_to(page, "Answer:")
    for answer, words in (
        (visit.wrong, f"what you get if you {visit.reason}"),
        (visit.right, "✓ Right."),
    ):
        press("Control+a")
        page.keyboard.type(answer)
        press("Enter")
        page.get_by_text(words).first.wait_for()


@pytest.mark.parametrize("visit", VISITS, ids=lambda visit: visit.notebook[:2])
def test_keyboard_alone_from_start_to_a_right_answer(lab: Lab, visit: Visit):
    page = lab.open(visit.notebook)
    press = page.keyboard.press
    _tab_to(page, "▶ Start")
    press("Enter")
    page.wait_for_selector(HAS_RUN)
    if visit.tile:
        _predict_by_keyboard(page, visit)
    if visit.station:
        stations = view(page).locator("fieldset", has_text="Station").first
        names = [words.strip() for words in stations.locator("label").all_text_contents()]
        _arrow_to(page, visit.station, names[0])
        slider(page, visit.control).wait_for()
    expect(picture(page)).to_have_attribute("alt", containing(visit.before))
    before = pixels(page)
    _tab_to(page, visit.control)
    press(visit.key)
    expect(picture(page)).to_have_attribute("alt", containing(visit.after))
    press("u")
    expect(picture(page)).to_have_attribute("alt", containing(visit.before))
    assert pixels(page) == before
    if visit.right:
        _check_by_keyboard(page, visit)

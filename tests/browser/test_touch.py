"""A lesson with a finger on a tablet: tapped, dragged, drawn on and scrolled past."""

from collections.abc import Iterator

import pytest
from conftest import HAS_RUN, START, Lab, watched
from lesson_page import TABLET, faults, pause, picture
from playwright.sync_api import Browser, CDPSession, Page, expect
from test_line_page import COUNTED, ON, says

SCROLLED = "document.querySelector('.jp-WindowedPanel-outer').scrollTop"


@pytest.fixture
def page(browser: Browser, complaints: list[str]) -> Iterator[Page]:
    context = browser.new_context(viewport=TABLET, has_touch=True, is_mobile=True)
    with watched(context.new_page(), complaints) as page:
        yield page
    context.close()
    assert complaints == []


def swipe(
    session: CDPSession, start: tuple[float, float], end: tuple[float, float]
) -> None:
    """Draw one finger over the glass, in steps as a hand does."""
    steps = 20
    for step in range(steps + 1):
        share = step / steps
        place = [a + (b - a) * share for a, b in zip(start, end, strict=True)]
        session.send(
            "Input.dispatchTouchEvent",
            {
                "type": "touchMove" if step else "touchStart",
                "touchPoints": [{"x": place[0], "y": place[1]}],
            },
        )
    session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


def _a_line_is_drawn_by_a_finger_that_else_scrolls(page: Page, finger: CDPSession) -> None:
    page.get_by_role("button", name=ON).tap()
    page.locator(".kit-end").first.wait_for()
    pause(page)
    box = picture(page).bounding_box()
    before, told = page.evaluate(SCROLLED), says(page).text_content()
    x = box["x"] + 0.9 * box["width"]
    level = box["y"] + box["height"] * 0.5
    swipe(finger, (x, level - 60), (x - 70, level + 60))
    expect(says(page)).not_to_have_text(told)
    expect(says(page)).to_have_text(COUNTED)
    assert page.evaluate(SCROLLED) == before, "in this mode a finger draws"
    assert faults(page) == []


def test_a_lesson_by_touch(lab: Lab):
    page = lab.open("01_cut.ipynb")
    page.tap(START)
    page.wait_for_selector(HAS_RUN)
    page.locator(".kit-tiles label", has_text="bands 8.0 mm").tap()
    page.get_by_role("button", name="Observe", exact=True).tap()
    page.get_by_text("You predicted it").wait_for()
    finger = page.context.new_cdp_session(page)

    steel = picture(page)
    steel.scroll_into_view_if_needed()
    box = steel.bounding_box()
    page.touchscreen.tap(box["x"] + 0.2 * box["width"], box["y"] + 0.5 * box["height"])
    page.get_by_text("counted from the bottom of the stack").wait_for()

    before = page.evaluate(SCROLLED)  # a swipe over the picture scrolls the page
    middle = box["x"] + box["width"] / 2
    swipe(finger, (middle, box["y"] + 200), (middle, box["y"] - 100))
    page.wait_for_function(f"{SCROLLED} > {before + 100}")

    slider = page.locator(".kit-slider input[type=range]").first
    slider.scroll_into_view_if_needed()
    box = slider.bounding_box()
    was, before = steel.get_attribute("alt"), page.evaluate(SCROLLED)
    level = box["y"] + box["height"] / 2
    swipe(
        finger,
        (box["x"] + 0.3 * box["width"], level),
        (box["x"] + 0.9 * box["width"], level),
    )
    expect(steel).not_to_have_attribute("alt", was)
    assert page.evaluate(SCROLLED) == before  # along the slider the page stays

    value = slider.input_value()  # a swipe that only begins there scrolls the page
    swipe(finger, (box["x"] + 0.3 * box["width"], level), (box["x"], level - 300))
    page.wait_for_function(f"{SCROLLED} > {before + 100}")
    expect(slider).to_have_value(value)
    _a_line_is_drawn_by_a_finger_that_else_scrolls(page, finger)

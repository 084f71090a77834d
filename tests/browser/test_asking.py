"""The page of questions as somebody at a show table uses it: type, look, step on."""

import re

from conftest import DESK, Lab
from lesson_page import (
    TABLET,
    choose_look,
    containing,
    faults,
    no_traceback,
    picture,
    pixels,
)
from playwright.sync_api import Page, expect

from kit.course.questions import CARDS, find


def _heading(page: Page):
    return page.locator(".kit-card-head h3")


def _sound(page: Page) -> bool:
    """Nothing is cut off or outside; what the list has scrolled away covers nothing."""
    return [fault for fault in faults(page) if " covers " not in fault] == []


def _by_keyboard_alone(page: Page) -> None:
    press, cells = page.keyboard.press, page.locator(".jp-Cell").count()
    page.get_by_label("Find a question:").focus()
    page.keyboard.type("melt")
    expect(_heading(page)).to_have_text("Do the two steels melt together?")
    press("Tab")  # to what opens the list
    press("Enter")
    press("Tab")  # to the list
    press("ArrowDown")
    expect(_heading(page)).to_have_text(find("melt")[1].question)
    press("ArrowUp")
    expect(_heading(page)).to_have_text("Do the two steels melt together?")
    page.keyboard.type("abxd")  # in JupyterLab these would insert or cut cells
    assert page.locator(".jp-Cell").count() == cells
    for _button in ("Show all", "Previous question", "Next question"):
        press("Tab")
    press("Tab")
    expect(picture(page)).to_be_focused()
    degrees = page.get_by_label("°F", exact=True)
    if not degrees.is_visible():  # whoever tried it before may have opened the row
        page.locator(".kit-bar .kit-fold").focus()
        press("Enter")
    degrees.focus()
    press("Space")
    expect(page.locator(".kit-value")).to_contain_text("407 °F")  # 226 × 1.8


def test_type_look_step_on_and_all_by_keyboard_alone(lab: Lab):
    lab.open("questions.ipynb")
    page = lab.start()
    expect(_heading(page)).to_have_text("How many layers are in it?")
    before = pixels(page)
    search = page.get_by_label("Find a question:")
    search.fill("FAKE")
    expect(_heading(page)).to_have_text("Is this one fake?")
    expect(page.locator(".kit-found input")).to_have_count(len(find("FAKE")))
    expect(picture(page)).to_have_attribute("alt", containing("Two bars"))
    assert pixels(page) != before
    search.fill("<b>zzzz</b>")
    page.get_by_text("No card answers “<b>zzzz</b>”").wait_for()
    expect(page.locator(".kit-found input")).to_have_count(0)
    page.get_by_role("button", name="Show all").click()
    expect(page.locator(".kit-found input")).to_have_count(len(CARDS))
    page.get_by_role("button", name="Next question").click()
    after = CARDS[CARDS.index(find("FAKE")[0]) + 1]
    expect(_heading(page)).to_have_text(after.question)
    for size in ("normal", "big"):
        choose_look(page, size)
        assert _sound(page)
    page.set_viewport_size(TABLET)
    assert _sound(page)
    page.set_viewport_size(DESK)
    choose_look(page, "normal")
    _by_keyboard_alone(page)
    no_traceback(page)


def test_the_print_room_hands_over_a_file(lab: Lab):
    lab.open("print.ipynb")
    page = lab.start()
    first = page.locator(".kit-view").first
    first.get_by_role("button", name="Make it").click()
    link = first.get_by_role("link", name=re.compile(r"Save handout-\d\d.pdf"))
    link.wait_for()
    with page.expect_download() as waiting:
        link.click()
    assert waiting.value.suggested_filename.startswith("handout-")
    assert waiting.value.path().read_bytes().startswith(b"%PDF")

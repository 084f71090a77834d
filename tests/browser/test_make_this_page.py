"""Make this, on the forge's page: by keyboard alone, and announced."""

from collections.abc import Iterator

import pytest
from conftest import Lab
from lesson_page import no_traceback
from playwright.sync_api import Locator, Page, expect

from kit.course.anvil.tasks import TASKS


@pytest.fixture
def anvil(lab: Lab) -> Iterator[Page]:
    lab.open("forge.ipynb")
    page = lab.start()
    expect(card(page)).to_be_visible()
    yield page
    no_traceback(page)


def card(page: Page) -> Locator:
    return page.locator(".kit-make-this")


def test_a_task_is_chosen_asked_and_hinted_by_keyboard_alone(anvil: Page):
    status = card(anvil).get_by_role("status")
    card(anvil).get_by_role("radio", name=TASKS[0].name).focus()
    anvil.keyboard.press("ArrowDown")
    expect(card(anvil).locator(".kit-ask")).to_contain_text(TASKS[1].asks)
    card(anvil).get_by_role("radio", name=TASKS[1].name).press("Tab")
    for _ in range(6):  # past the picture and what folds out below it
        if anvil.evaluate("document.activeElement.textContent") == "Is it this?":
            break
        anvil.keyboard.press("Tab")
    anvil.keyboard.press("Enter")
    expect(status).to_contain_text("Not yet, because the lines' slant")
    for hint in TASKS[1].hints:
        anvil.keyboard.press("Tab") if hint is TASKS[1].hints[0] else None
        anvil.keyboard.press("Enter")
        expect(status).to_contain_text(hint)

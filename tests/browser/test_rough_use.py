"""A restart in mid-lesson, two tabs on one notebook."""

import pytest
from conftest import HAS_RUN, START, Lab
from lesson_page import containing, gap, picture, pixels
from playwright.sync_api import Page, expect
from test_dead_kernel import told

pytestmark = pytest.mark.long
BENCH = "00_start_here.ipynb"
# bars, and lines on the end: those that meet their like in the weld are one
STACKED = "11 layers of 1084 and 15N20. Its end: 11 dark and bright bands"
FOLDED = "22 layers of 1084 and 15N20. Its end: 21 dark and bright bands"
FOLDED_TWICE = "44 layers of 1084 and 15N20. Its end: 41 dark and bright bands"


@pytest.fixture
def page(new_page: Page) -> Page:
    """Give a page that JupyterLab begins anew on."""
    return new_page


def _folds(page):
    gap(page, "next").select_option("fold")
    expect(picture(page)).to_have_attribute("alt", containing(FOLDED))
    pixels(page)  # at rest


def test_a_restart_brings_back_what_was_set(lab: Lab):
    lab.open(BENCH)
    page = lab.start()
    _folds(page)
    page.get_by_text("Start over").first.click()
    expect(picture(page)).to_have_attribute("alt", containing(STACKED), timeout=60_000)
    back = page.get_by_role("button", name="Bring back my")
    back.click()
    expect(picture(page)).to_have_attribute("alt", containing(FOLDED))
    expect(back).to_have_count(0)


def test_two_tabs_on_one_notebook_both_answer(lab: Lab):
    lab.open(BENCH)
    page = lab.start()
    _folds(page)
    other = page.context.new_page()
    complaints: list[str] = []
    other.on("pageerror", lambda error: complaints.append(str(error)))
    other.goto(page.url)
    other.locator(START).first.click()  # the kernel is the same; so are its views not
    expect(picture(other)).to_have_attribute("alt", containing(STACKED), timeout=60_000)
    _folds(other)
    gap(page, "next").select_option("fold")
    expect(picture(page)).to_have_attribute("alt", containing(FOLDED_TWICE))
    expect(picture(other)).to_have_attribute("alt", containing(FOLDED))
    assert complaints == []
    other.close()


def test_start_over_in_one_tab_is_told_in_the_other_which_then_goes_on(
    lab: Lab, complaints: list[str]
):
    lab.open(BENCH)
    page = lab.start()
    other = page.context.new_page()
    other.goto(page.url)
    other.locator(START).first.click()
    other.wait_for_selector(HAS_RUN)
    other.get_by_text("Start over").first.click()
    expect(told(page)).to_contain_text("Python stopped.")
    expect(told(other)).to_be_hidden()
    page.locator(START).first.click()
    page.wait_for_selector(HAS_RUN)
    expect(told(page)).to_be_hidden()
    for one in (page, other):
        _folds(one)
    # JupyterLab's own, of what the other tab's Python took away
    complaints[:] = [one for one in complaints if "Comm not found" not in one]
    other.close()

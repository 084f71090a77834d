"""A restart in mid-lesson, two tabs on one notebook."""

from conftest import START, Lab
from lesson_page import containing, picture, pixels, slider, view
from playwright.sync_api import expect

BENCH = "00_start_here.ipynb"


def _folds(page):
    view(page).locator("label", has_text="3 Forge").click()
    slider(page, "Folds").focus()
    page.keyboard.press("ArrowRight")
    expect(picture(page)).to_have_attribute("alt", containing("22 layers and 21 bands"))
    pixels(page)  # at rest


def test_a_restart_brings_back_what_was_set(lab: Lab):
    lab.open(BENCH)
    page = lab.start()
    _folds(page)
    page.get_by_text("Start over").first.click()
    expect(picture(page)).to_have_attribute(
        "alt", containing("11 layers and 11 bands"), timeout=60_000
    )
    back = page.get_by_role("button", name="Bring back what I had")
    back.click()
    expect(picture(page)).to_have_attribute("alt", containing("22 layers and 21 bands"))
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
    expect(picture(other)).to_have_attribute(
        "alt", containing("11 layers and 11 bands"), timeout=60_000
    )
    _folds(other)
    slider(page, "Folds").focus()
    page.keyboard.press("ArrowRight")
    expect(picture(page)).to_have_attribute("alt", containing("44 layers and 41 bands"))
    expect(picture(other)).to_have_attribute("alt", containing("22 layers and 21 bands"))
    assert complaints == []
    other.close()

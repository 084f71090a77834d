"""Lesson 04 as its page tells it: to the axis, odd to even, a bar of the other hand."""

from conftest import Lab
from lesson_page import (
    alt,
    containing,
    no_traceback,
    observe,
    picture,
    pixels,
    slider,
    view,
)
from playwright.sync_api import expect


def test_the_page_does_what_it_asks_for(lab: Lab):
    lab.open("04_twist.ipynb")
    page = lab.start()
    observe(page, "lines at 26.7°")
    shown, says = view(page), view(page).locator(".kit-says")
    stations = shown.locator(".kit-row label")
    stations.filter(has_text="3 Grind").click()
    slider(page, "Grind off").focus()
    page.keyboard.press("End")
    expect(says).to_contain_text("You can grind off at most half the bar, 8.0 mm.")
    expect(picture(page)).to_have_attribute("alt", containing("rows of stars"))
    stations.filter(has_text="1 Bar").click()
    shown.locator("label", has_text="even").click()
    stations.filter(has_text="2 Twist").click()
    shown.locator("label", has_text="opposite hand").click()
    expect(says).to_contain_text("Grind off is now 6.92 mm")
    expect(shown.locator(".kit-refused")).to_have_count(0)
    stations.filter(has_text="3 Grind").click()
    slider(page, "Grind off").focus()
    page.keyboard.press("Home")
    expect(picture(page)).to_have_attribute("alt", containing("shows chevrons"))
    pixels(page)
    assert "second of the other hand" in alt(page)
    no_traceback(page)

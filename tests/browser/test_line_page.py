"""A line on the picture, counted: by keyboard alone and by pointer.

It is announced as all sentences of the bench are: the status line is a live region.
"""

import re

from conftest import START, Lab
from lesson_page import faults, no_traceback, observe, pause, picture, view
from playwright.sync_api import Page, expect
from test_accessible import OURS, grave
from test_all_lessons import _tab_to as tab_to

ON, OFF = "Count along a line (L)", "Put the line away (L)"
COUNTED = re.compile(r"Along .* layers? in \d+ bands?, .* of ")
ENDS = """() => [...document.querySelectorAll('.kit-end')]
  .slice(0, 2).map((end) => end.getAttribute('aria-valuetext'))"""
# what the ends, the line and the words beside it cover that must stay readable
STANDS = """() => {
  const frame = document.querySelector('.kit-frame').getBoundingClientRect();
  const label = document.querySelector('.kit-beside').getBoundingClientRect();
  return label.width > 0 && label.left >= frame.left && label.right <= frame.right;
}"""


def says(page: Page):
    """Find the status line of the bench; a screen reader speaks it when it changes."""
    line = view(page).locator("[role=status]", has=page.locator(".kit-says"))
    expect(line).to_have_attribute("aria-live", "polite")
    return line


def test_by_keyboard_alone(lab: Lab):
    lab.open("01_cut.ipynb")
    page = lab.start()
    press = page.keyboard.press
    shut = page.get_by_role("button", name=ON)
    expect(shut).to_be_disabled()  # before the prediction it would tell
    observe(page, "bands 8.0 mm")
    cells = page.locator(".jp-Cell").count()
    page.locator(START).focus()
    tab_to(page, ON)
    press("Enter")
    first, other = page.locator(".kit-end").all()
    expect(first).to_be_focused()
    expect(says(page)).to_contain_text("9 layers in 9 bands, 5 of 1084 and 4 of 15N20")
    expect(page.locator(".kit-beside")).to_have_text("9 layers, mean 8.0 mm")
    assert page.evaluate(STANDS)
    assert faults(page) == []
    assert grave(page, OURS) == []
    before = page.evaluate(ENDS)
    for _ in range(3):
        press("Shift+ArrowDown")
    press("ArrowLeft")
    expect(says(page)).to_contain_text("crossed whole")
    after = page.evaluate(ENDS)
    assert (after[0] != before[0], after[1]) == (True, before[1]), "one end moves"
    press("Tab")
    expect(other).to_be_focused()
    told = says(page).text_content()
    for _ in range(4):
        press("Shift+ArrowUp")
    expect(says(page)).not_to_have_text(told)
    assert page.evaluate(ENDS)[0] == after[0]
    pause(page)  # the count may be a key behind
    told = says(page).text_content()
    page.keyboard.type("abxd")  # in JupyterLab these would insert or cut cells
    assert page.locator(".jp-Cell").count() == cells
    assert says(page).text_content() == told
    _leave_and_come_back(page)


def _leave_and_come_back(page: Page) -> None:
    press, first = page.keyboard.press, page.locator(".kit-end").first
    press("Escape")
    expect(first).to_be_hidden()
    expect(page.get_by_role("button", name=ON)).to_be_focused()
    press("l")  # the letter does what the button does
    expect(first).to_be_focused()
    press("l")
    expect(first).to_be_hidden()
    no_traceback(page)


def test_by_pointer_and_it_follows_the_slider(lab: Lab):
    lab.open("02_stack_and_fold.ipynb")
    page = lab.start()
    observe(page, "112 layers")
    view(page).get_by_role("button", name=ON).click()
    expect(says(page)).to_contain_text("112 layers in 97 bands")
    box = picture(page).bounding_box()

    def at(across: float, down: float) -> tuple[float, float]:
        return box["x"] + across * box["width"], box["y"] + down * box["height"]

    page.mouse.move(*at(0.06, 0.2))
    page.mouse.down()
    page.mouse.move(*at(0.1, 0.4), steps=8)
    page.mouse.move(*at(0.2, 0.8), steps=8)
    page.mouse.up()
    expect(says(page)).to_have_text(re.compile(r"^Along this .*mm line: \d+ layers in"))
    pause(page)
    ends = page.evaluate(ENDS)
    assert [round(float(part.split("%")[0])) for part in ends] == [6, 20]
    told = says(page).text_content()
    page.mouse.move(*at(0.2, 0.8))  # an end is taken up again
    page.mouse.down()
    page.mouse.move(*at(0.2, 0.5), steps=5)
    page.mouse.up()
    expect(says(page)).not_to_have_text(told)
    assert page.evaluate(ENDS)[0] == ends[0]
    page.mouse.click(*at(0.8, 0.5))  # a click brings the nearer end
    expect(page.locator(".kit-end").nth(1)).to_have_attribute(
        "aria-valuenow", re.compile(r"^(79\.\d|80)")
    )
    pause(page)
    told = says(page).text_content()
    view(page).locator(".kit-main-control input[type=range]").press("ArrowLeft")
    expect(says(page)).to_have_text(COUNTED)
    expect(says(page)).not_to_have_text(told)
    view(page).get_by_role("button", name=OFF).click()
    expect(page.locator(".kit-line").first).to_be_hidden()
    page.mouse.click(*at(0.1, 0.5))  # and the steel can be asked about again
    page.get_by_text("counted from the bottom of the stack").wait_for()
    no_traceback(page)

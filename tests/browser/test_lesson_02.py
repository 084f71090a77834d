"""Lesson 02 as a newcomer uses it: predict, observe, fold by keyboard and by mouse.

That nothing complains and nothing leaves this computer is checked by the `page` fixture
at the end of every test.
"""

import re

import pytest
from conftest import Lab
from playwright.sync_api import Page, expect

LESSON = "02_stack_and_fold.ipynb"
FOLDS = "input[type=range][aria-label='Folds']"
CELLS = "document.querySelectorAll('.jp-Cell').length"
# a checksum of the live picture's pixels, read back through a canvas
PIXELS = """async () => {
  const image = [...document.querySelectorAll('.kit-frame img')][0];
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = image.naturalWidth; canvas.height = image.naturalHeight;
  const brush = canvas.getContext('2d');
  brush.drawImage(image, 0, 0);
  const data = brush.getImageData(0, 0, canvas.width, canvas.height).data;
  let sum = 0;
  for (let i = 0; i < data.length; i += 4) sum = (sum * 31 + data[i]) % 2147483647;
  return sum;
}"""


def alt(page: Page) -> str:
    return page.locator(".kit-frame img").first.get_attribute("alt")


@pytest.fixture(name="lesson")
def fixture_lesson(lab: Lab) -> Page:
    """Give lesson 02, started, predicted and observed."""
    lab.open(LESSON)
    page = lab.start()
    page.locator(".kit-tiles input").nth(2).check()
    page.get_by_role("button", name="Observe").click()
    expect(page.locator(".kit-frame img").first).to_have_attribute(
        "alt", containing("112 layers")
    )
    page.wait_for_timeout(2000)  # the film ends and the clean picture is there
    return page


def containing(words: str) -> re.Pattern:
    """Match an attribute that contains these words."""
    return re.compile(re.escape(words))


def test_observe_is_shut_until_a_tile_is_chosen(lab: Lab):
    lab.open(LESSON)
    page = lab.start()
    assert page.locator(FOLDS).is_disabled()
    page.get_by_role("button", name="Observe").click()
    page.get_by_text("Choose one first").wait_for()
    assert page.locator(FOLDS).is_disabled()
    assert "7 layers" in alt(page)


def test_fold_slider_by_keyboard(lesson: Page):
    before, cells = lesson.evaluate(PIXELS), lesson.evaluate(CELLS)
    lesson.focus(FOLDS)
    lesson.keyboard.press("ArrowRight")
    expect(lesson.locator(".kit-frame img").first).to_have_attribute(
        "alt", containing("224 layers")
    )
    lesson.wait_for_timeout(600)
    assert lesson.evaluate(PIXELS) != before
    assert lesson.locator(FOLDS).get_attribute("aria-valuetext") == "5"
    for letter in "abxdm":  # in JupyterLab these would insert or cut cells
        lesson.keyboard.press(letter)
    lesson.keyboard.press("u")
    expect(lesson.locator(".kit-frame img").first).to_have_attribute(
        "alt", containing("112 layers")
    )
    assert lesson.evaluate(CELLS) == cells
    lesson.wait_for_timeout(600)
    assert lesson.evaluate(PIXELS) == before, "undo gives the same picture back"


def test_fold_slider_by_mouse(lesson: Page):
    before = lesson.evaluate(PIXELS)
    slider = lesson.locator(FOLDS)
    slider.scroll_into_view_if_needed()
    box = slider.bounding_box()
    middle = box["y"] + box["height"] / 2
    lesson.mouse.move(box["x"] + box["width"] * 4 / 12, middle)
    lesson.mouse.down()
    for share in (0.5, 0.7, 0.9, 0.995):
        lesson.mouse.move(box["x"] + box["width"] * share, middle, steps=4)
    lesson.mouse.up()
    expect(lesson.locator(".kit-frame img").first).to_have_attribute(
        "alt", containing("28,672 layers")
    )
    lesson.wait_for_timeout(600)
    assert lesson.evaluate(PIXELS) != before


def test_bad_value_gets_one_sentence_and_the_picture_stays(lesson: Page):
    before = lesson.evaluate(PIXELS)
    typed = lesson.get_by_label("Folds, type a value")
    typed.fill("40")
    typed.press("Enter")
    lesson.get_by_text("Folds must be from 0 to 12. Given: 40.").wait_for()
    assert lesson.evaluate(PIXELS) == before
    expect(typed).to_have_value("4")
    assert lesson.locator(".jp-RenderedText[data-mime-type*=error]").count() == 0


def test_enter_in_a_box_stays_in_the_box(lesson: Page):
    typed = lesson.get_by_label("Folds, type a value")
    typed.fill("5")
    for _ in range(3):  # JupyterLab would take a second Enter for "edit the code"
        typed.press("Enter")
    expect(lesson.locator(".kit-frame img").first).to_have_attribute(
        "alt", containing("224 layers")
    )
    expect(typed).to_be_focused()
    assert lesson.locator(".jp-Cell.jp-mod-selected.jp-mod-editMode").count() == 0
    assert lesson.get_by_text("fold.lesson()").locator("visible=true").count() == 0


def test_the_title_renames_nothing(lesson: Page):
    lesson.locator("#jp-title-panel-title").click(force=True)
    lesson.wait_for_timeout(300)
    assert lesson.locator(".jp-Dialog").count() == 0
    assert lesson.locator("#jp-title-panel-title input:focus").count() == 0


def test_click_on_steel_and_check_yourself(lesson: Page):
    lesson.locator(".kit-frame img").first.click(position={"x": 120, "y": 200})
    lesson.get_by_text("counted from the bottom of the stack").wait_for()
    answer = lesson.locator(".kit-check input[type=text]").first
    answer.fill("45")
    answer.press("Enter")
    lesson.get_by_text("multiply the pieces by the folds").wait_for()
    answer.fill("288")
    answer.press("Enter")
    lesson.get_by_text("✓ Right.").first.wait_for()

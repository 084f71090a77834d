"""Lesson 02 with the mouse, and where JupyterLab has a mind of its own.

What all lessons have in common is in `test_all_lessons.py`. That nothing complains and
nothing leaves this computer is checked by the `page` fixture at the end of every test.
"""

from conftest import Lab, listening
from lesson_page import (
    begin_film,
    box,
    containing,
    picture,
    pixels,
    slider,
    watch_film,
)
from playwright.sync_api import Page, expect


def _drag_the_slider(page: Page) -> None:
    before, asked = pixels(page), []
    folds = slider(page, "Folds")
    folds.scroll_into_view_if_needed()
    at = folds.bounding_box()
    middle = at["y"] + at["height"] / 2
    with listening(page, request=lambda request: asked.append(request.url)):
        page.mouse.move(at["x"] + at["width"] * 4 / 12, middle)
        page.mouse.down()
        for share in (0.5, 0.7, 0.9, 0.995):
            page.mouse.move(at["x"] + at["width"] * share, middle, steps=4)
        page.mouse.up()
        expect(picture(page)).to_have_attribute("alt", containing("28,672 layers"))
        assert pixels(page) != before
    # (JupyterLab's own page sign, busy or not, was two files a move)
    assert [file for file in asked if "/static/" in file] == []


# Go on moving the slider, but nowhere, once a quick picture came; give what is shown last.
_STILL_MOVING = """async ([to, moves]) => {
  const image = document.querySelector('.kit-frame img');
  const folds = document.querySelector('.kit-main-control input[type=range]');
  const put = () => folds.dispatchEvent(new Event('input', { bubbles: true }));
  const wait = (ms) => new Promise((done) => { setTimeout(done, ms); });
  folds.value = to;
  put();
  while (!image.src.startsWith('data:image/jpeg')) await wait(5);
  for (let move = 0; move < moves; move += 1) { put(); await wait(50); }
  return image.src.slice(0, 15);
}"""


def _move_on_while_the_kernel_is_slow(page: Page) -> None:
    pixels(page)
    assert page.evaluate(_STILL_MOVING, [3, 12]) == "data:image/jpeg"
    pixels(page)  # and then the clean one comes


def _press_enter_thrice_in_a_box(page: Page) -> None:
    typed = box(page, "Folds")
    typed.fill("5")
    for _ in range(3):  # JupyterLab would take a second Enter for "edit the code"
        typed.press("Enter")
    expect(picture(page)).to_have_attribute("alt", containing("224 layers"))
    expect(typed).to_be_focused()
    assert page.locator(".jp-Cell.jp-mod-selected.jp-mod-editMode").count() == 0
    assert page.get_by_text('= lesson("').locator("visible=true").count() == 0


def _find_the_kits_head(page: Page) -> None:
    """Find mark, name and title, and no file's name whose press would rename it."""
    assert page.locator(".steel-head img").evaluate("one => one.naturalWidth") > 100
    expect(page.locator(".steel-head")).to_contain_text("Pattern-welded steel")
    expect(page).to_have_title("Folding multiplies · Pattern-welded steel")
    assert (
        not page.locator("#jp-title-panel-title, #jp-MainLogo")
        .locator("visible=true")
        .all()
    )


# How far down the page is, once it has not moved for some frames.
_AT_REST = """() => new Promise((done) => {
  const pane = document.querySelector('.jp-WindowedPanel-outer');
  let same = 0, was = -1;
  const look = () => {
    same = pane.scrollTop === was ? same + 1 : 0;
    was = pane.scrollTop;
    if (same > 15) done(was); else requestAnimationFrame(look);
  };
  look();
})"""


def _scroll_away_from_the_film(page: Page) -> None:
    """Predict, and read on elsewhere while the film plays: its end leaves one there."""
    begin_film(page, "56 layers")
    page.wait_for_function("window.picturesShown > 2")
    page.mouse.wheel(0, 400)
    here = page.evaluate(_AT_REST)
    assert here > 300
    watch_film(page)
    assert page.evaluate(_AT_REST) == here


def test_mouse_enter_and_title(lab: Lab):
    lab.open("02_stack_and_fold.ipynb")
    page = lab.start()
    _scroll_away_from_the_film(page)
    page.get_by_text("The picture you chose is what you get if you").wait_for()
    _drag_the_slider(page)
    _move_on_while_the_kernel_is_slow(page)
    picture(page).click(position={"x": 120, "y": 200})
    page.get_by_text("counted from the bottom of the stack").wait_for()
    _press_enter_thrice_in_a_box(page)
    _find_the_kits_head(page)

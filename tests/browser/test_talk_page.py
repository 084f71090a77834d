"""The talk, written and given by keyboard alone; seen whole on a laptop and a tablet.

The lessons' page and the tablet's have one player: they are asked the same.
"""

import os
from collections.abc import Callable

import pytest
from conftest import Lab
from lesson_page import LAPTOP, TABLET, choose_look, containing, no_traceback
from playwright.sync_api import Locator, Page, expect
from test_accessible import OURS, grave

from kit.classroom.show import page as show
from kit.course.anvil.class_talk import class_talks

# what of the talk is cut off, scrolls, or lies outside the screen
HIDDEN = """() => {
  const found = [];
  const dialog = document.querySelector('dialog.kit-talk');
  const said = dialog.querySelector('.kit-talk-said');
  for (const part of [dialog, said]) {
    if (part.scrollHeight > part.clientHeight + 1) found.push(`scrolls: ${part.className}`);
    if (part.scrollWidth > part.clientWidth + 1) found.push(`wide: ${part.className}`);
  }
  for (const part of dialog.querySelectorAll('img, p, button')) {
    const box = part.getBoundingClientRect();
    if (box.top < 0 || box.left < 0 || box.bottom > innerHeight || box.right > innerWidth) {
      found.push(`outside: ${part.className}`);
    }
  }
  const size = (name) => parseFloat(getComputedStyle(
    dialog.querySelector(`.kit-talk-${name}`)).fontSize);
  const rest = ['leave', 'count', 'back'].map(size);
  for (const [name, least] of [['words', size('next')], ['before', 0], ['kind', 0]]) {
    if (size(name) < Math.max(least, ...rest)) found.push(`small: ${name}`);
  }
  const held = document.activeElement;
  for (const button of dialog.querySelectorAll('button')) {
    button.focus();
    const ring = getComputedStyle(button);
    const wide = parseFloat(ring.outlineOffset) + parseFloat(ring.outlineWidth);
    const it = button.getBoundingClientRect();
    if (ring.outlineStyle !== 'solid') found.push(`no ring: ${button.className}`);
    if (it.left < wide || it.right > innerWidth - wide || it.bottom > innerHeight - wide) {
      found.push(`ring outside: ${button.className}`);
    }
    for (const other of dialog.querySelectorAll('button, p, .kit-talk-count')) {
      const box = other.getBoundingClientRect();
      if (other !== button && box.right > it.left - wide && box.left < it.right + wide
        && box.bottom > it.top - wide && box.top < it.bottom + wide) {
        found.push(`ring on: ${other.className}`);
      }
    }
  }
  held.focus();
  return found;
}"""


CUT = """() => ['talk', 'stage', 'words', 'to-next'].filter((id) => {
  const box = document.getElementById(id).getBoundingClientRect();
  return box.top < 0 || box.left < 0 || box.bottom > innerHeight || box.right > innerWidth;
})"""


# in big text, from here on
BIG, WALL = ({"width": wide, "height": high} for wide, high in ((1280, 800), (1920, 1080)))


def look(page: Page, name: str) -> None:
    """Keep a picture for whoever looks, if a folder is named for it."""
    if folder := os.environ.get("KIT_LOOK"):
        page.screenshot(path=f"{folder}/talk-{name}.png")


def write(page: Page) -> None:
    """Write the three boxes, as long as they go, by keyboard."""
    press = page.keyboard.press
    page.get_by_text("What you say here", exact=True).first.focus()
    press("Enter")
    press("Tab")
    page.keyboard.type("up, u and a: how many bars? ")
    page.keyboard.type("w" + "w ow" * 60)  # the longest that a box takes
    press("Enter")
    page.keyboard.type("Eleven bars, <b>one on another</b>.")
    press("Enter")
    page.keyboard.type("Roll it.")
    press("Enter")
    expect(page.get_by_text("Kept.")).to_be_visible()


def give(page: Page, name: str) -> None:
    """Go on and back by each key, and leave; nothing is cut off or scrolls."""
    press = page.keyboard.press
    dialog = page.get_by_role("dialog")
    words = dialog.locator(".kit-talk-words")
    expect(words).to_contain_text("up, u and a: how many bars?")
    expect(dialog.get_by_role("status")).to_be_visible()
    expect(dialog.get_by_role("img")).to_have_accessible_name(containing("Its end"))
    look(page, f"{name}-ask")
    assert page.evaluate(HIDDEN) == []
    # of the picture's 1000 × 218 pixels an upright screen shows what is looked at, larger
    assert dialog.get_by_role("img").bounding_box()["height"] > 230
    page.evaluate("document.activeElement.blur()")  # as the page below may do
    press("ArrowRight")
    expect(words).to_have_text("Eleven bars, <b>one on another</b>.")
    look(page, f"{name}-say")
    assert page.evaluate(HIDDEN) == []
    assert grave(page, OURS) == []
    press("Space")
    expect(words).to_have_text("Roll it.")
    press("ArrowLeft")
    expect(words).to_contain_text("Eleven")
    press("Enter")
    expect(words).to_have_text("Roll it.")
    press("Escape")
    expect(dialog).to_be_hidden()


def there_and_back(page: Page, part: Callable[[str], Locator]) -> None:
    """Go through the class's talk by keys, to its last words and back to its first."""
    told = [
        (cue.ask if kind == "say" else "", words)
        for cue in class_talks()[0].talk
        for kind, words in cue.said.items()
        if words
    ]

    def seen(key: str, beats: list) -> list[str | None]:
        pictures = []
        for before, words in beats:
            expect(part("words")).to_have_text(words)
            expect(part("before")).to_have_text(before)
            pictures.append(part("stage").get_attribute("aria-label"))
            page.keyboard.press(key)
        return pictures

    there = [*seen("ArrowRight", told[:-1]), *seen("ArrowLeft", told[-1:])]
    assert seen("ArrowLeft", told[-2::-1]) == there[-2::-1]
    expect(part("words")).to_have_text(told[0][1])  # the first stays
    assert len(set(there)) == len(class_talks()[0].talk)


def test_a_talk_is_written_and_given_by_keyboard(lab: Lab):
    lab.open("forge.ipynb")
    page = lab.start()
    page.set_viewport_size(LAPTOP)
    begin = page.get_by_role("button", name="Give the talk")
    begin.focus()
    page.keyboard.press("Enter")
    expect(page.get_by_text("No step has a question")).to_be_visible()
    write(page)
    for size in (LAPTOP, TABLET, BIG, WALL):
        page.set_viewport_size(size)
        if size is BIG:
            choose_look(page, "big")
        look(page, f"{size['width']}-{size['height']}-boxes")
        assert grave(page, OURS) == []
        begin.focus()
        page.keyboard.press("Enter")
        give(page, f"{size['width']}-{size['height']}")
        expect(begin).to_be_focused()
    page.keyboard.press("Enter")  # and again, to its end, by a finger's way
    dialog = page.get_by_role("dialog")
    for _ in range(3):
        dialog.get_by_role("button", name="▶").click()
    expect(dialog).to_be_hidden()
    expect(page.get_by_text("That was the talk.")).to_be_visible()
    page.get_by_role("button", name="Begin with the class's talk").click()
    begin.click()
    there_and_back(page, lambda name: dialog.locator(f".kit-talk-{name}"))
    look(page, "class")
    dialog.get_by_role("button", name="Leave").click()
    expect(dialog).to_be_hidden()
    no_traceback(page)


@pytest.mark.parametrize("size", [LAPTOP, TABLET], ids=str)
def test_the_tablet_tells_a_talk_word_for_word(new_page: Page, size: dict):
    """By finger to the last picture; nothing is cut off, and then comes the card."""
    page, recipe = new_page, class_talks()[0]
    page.set_viewport_size(size)
    page.set_content(show.page(show.pieces_of([recipe])))
    page.locator("#start").click()
    there_and_back(page, lambda name: page.locator(f"#{name}"))
    for cue in recipe.talk:
        for words in filter(None, (cue.ask, cue.say, cue.clay)):
            expect(page.locator("#words")).to_have_text(words)
            assert page.evaluate(CUT) == []
            page.locator("#to-next").click()
    expect(page.locator("#take")).to_be_visible()

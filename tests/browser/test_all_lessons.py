"""Every lesson as a newcomer uses it, by keyboard alone: predict, observe, move, check.

Tab, arrows, Enter and letters do everything, and nothing they are on is out of sight.
The mouse is in `test_lesson_02.py`, a finger in `test_touch.py`. That nothing complains
and nothing leaves this computer is checked by the `page` fixture at the end of every test.
"""

import re

import pytest
from conftest import DESK, HAS_RUN, START, Lab
from keyboard_walk import (
    covered_by_what_stays,
    lost_on_the_way_down,
    settled,
    start_leads_on,
)
from lesson_page import (
    LAPTOP,
    SEEN,
    TABLET,
    WALL,
    ZOOMED,
    alt,
    box,
    choose_look,
    containing,
    count_pictures,
    faults,
    no_traceback,
    pause,
    picture,
    pixels,
    resize,
    slider,
    view,
    watch_film,
)
from playwright.sync_api import Page, expect
from test_accessible import CAPITAL, barriers, picture_at_once
from visits import VISITS, Visit

from kit.classroom.show.piece import letter_height
from kit.course.map import LESSONS
from kit.section.picture import BIG_LETTERS, LETTERS

SECOND = "06"  # where a second person predicts, too
BACK = {"ArrowLeft": "ArrowRight", "ArrowRight": "ArrowLeft"}

# The name of what the keyboard is on; a space at which no line breaks is a space.
_FOCUSED = """() => {
  const part = document.activeElement;
  const words = part.ariaLabel ?? part.labels?.[0]?.textContent ?? part.textContent;
  return words.trim().replaceAll("\u00a0", " ");
}"""


def _tab_to(page: Page, name: str) -> None:
    """Press Tab until the keyboard is on the part of this name."""
    passed = []
    for _ in range(90):  # lesson 11 with all its display settings open
        page.keyboard.press("Tab")
        words = page.evaluate(_FOCUSED)
        if words == name:
            assert settled(page)["well"], f"{name} is out of sight"
            return
        passed.append(words[:30])
    pytest.fail(f"Tab does not come to {name}: {passed}")


def _arrow_to(page: Page, name: str, first: str) -> None:
    """Tab to a group of choices by one of its names, and go to another by arrow keys."""
    _tab_to(page, first)
    page.keyboard.press("Space")
    for _ in range(8):
        if page.evaluate(_FOCUSED) == name:
            pause(page)
            return
        page.keyboard.press("ArrowRight")
    pytest.fail(f"the arrow keys do not come to {name}")


def _labels(page: Page, group: str) -> list[str]:
    told = page.locator(group).all_text_contents()
    return [words.strip().replace("\u00a0", " ") for words in told]


def _predict(page: Page, visit: Visit, *, still: bool = False) -> None:
    """Find Observe shut; then choose the right tile and observe, maybe without a film."""
    before = alt(page)
    observe = page.get_by_role("button", name="Observe")
    observe.press("Enter")
    page.get_by_text("Choose one first").wait_for()
    controls = view(page).locator(".kit-controls")
    shut = controls.locator("input:disabled")
    assert controls.locator("input").count() == shut.count() > 0
    assert alt(page) == before, "nothing is shown before the prediction"
    page.locator(START).focus()
    tiles = _labels(page, ".kit-tiles label")
    _arrow_to(page, next(t for t in tiles if visit.tile in t), tiles[0])
    count_pictures(page)
    page.set_viewport_size(LAPTOP)
    page.emulate_media(reduced_motion="reduce" if still else "no-preference")
    _tab_to(page, "Observe")
    page.keyboard.press("Enter")
    if not still:
        watch_film(page)
    page.get_by_text("You predicted it (how sure: not said).").wait_for()
    assert _hidden_after_observing(page) == []
    page.emulate_media(reduced_motion="no-preference")
    page.set_viewport_size(DESK)
    assert shut.count() == 0


# What is not in the pane as the page stands, of what answers the prediction.
_HIDDEN = """() => {
  const pane = document.querySelector('.jp-WindowedPanel-outer').getBoundingClientRect();
  const view = document.querySelector('.kit-view.kit-sliding');
  return ['.kit-frame img', '.kit-main-control', '.kit-says'].filter((part) => {
    const box = view.querySelector(part).getBoundingClientRect();
    return box.top < pane.top - 1 || box.bottom > pane.bottom + 1;
  });
}"""


def _hidden_after_observing(page: Page) -> list[str]:
    """Name what is out of sight of picture, slider and sentence, once all is laid."""
    resize(page, *page.viewport_size.values())
    return page.evaluate(_HIDDEN)


def _next_person(page: Page, visit: Visit) -> None:
    """Clear all for another person; then R is shut, as the sliders are."""
    _tab_to(page, "Next person")
    page.keyboard.press("Enter")
    page.get_by_text("All is clear for the next person").wait_for()
    expect(page.locator(".kit-tiles input").first).to_be_focused()
    expect(page.locator(".kit-tiles input:checked")).to_have_count(0)
    shown = alt(page)
    view(page).locator("img").first.focus()
    page.keyboard.press("r")
    pause(page)
    assert alt(page) == shown, "R does not show what comes"
    page.locator(START).focus()
    _predict(page, visit, still=True)


def _move_and_undo(page: Page, visit: Visit) -> None:
    expect(picture(page)).to_have_attribute("alt", containing(visit.before))
    before, words = pixels(page), alt(page)
    control, cells = slider(page, visit.control), page.locator(".jp-Cell")
    _tab_to(page, visit.control)
    page.keyboard.press(visit.arrow)
    expect(picture(page)).to_have_attribute("alt", containing(visit.after))
    assert pixels(page) != before
    value = box(page, visit.control).input_value()
    assert control.get_attribute("aria-valuetext") == value, "what is heard is true"
    many = cells.count()
    page.keyboard.type("abxdm")  # in JupyterLab these would insert or cut cells
    page.keyboard.press("u")
    expect(picture(page)).to_have_attribute("alt", words)
    assert pixels(page) == before, "undo gives the same picture back"
    assert cells.count() == many


# Count the sentences that a screen reader is told to speak.
_COUNT_SPOKEN = """() => {
  window.spoken = 0;
  new MutationObserver((changes) => {
    const lines = changes.map(({ target }) => target.closest('[aria-live=polite]'));
    window.spoken += new Set(lines.filter(Boolean)).size;
  }).observe(document.body, { childList: true, subtree: true });
}"""


def _spoken_once(page: Page, visit: Visit) -> None:
    """Move a slider on and on: one sentence is spoken, when it rests."""
    slider(page, visit.control).focus()
    page.evaluate(_COUNT_SPOKEN)
    for _ in range(5):
        page.keyboard.press(visit.arrow)
    page.wait_for_timeout(1500)
    assert page.evaluate("window.spoken") == 1
    for _ in range(5):
        page.keyboard.press(BACK[visit.arrow])
    expect(picture(page)).to_have_attribute("alt", containing(visit.before))


def _mistype(page: Page, visit: Visit) -> None:
    """Type what cannot be read, then what cannot be; nothing moves."""
    before, words = pixels(page), alt(page)
    typed = box(page, visit.control)
    value = typed.input_value()
    out_of_range = rf"^{visit.control} must be from .+ to .+\. Given: 9999\.$"
    for text, answer in (("abc", rf"^{visit.control}: .*'abc'"), ("9999", out_of_range)):
        typed.fill(text)
        typed.press("Enter")
        expect(view(page).locator(".kit-refused")).to_have_text(re.compile(answer))
        expect(typed).to_have_value(value)
        assert (pixels(page), alt(page)) == (before, words), "the picture stays"
    typed.fill("7")
    typed.press("Escape")
    expect(slider(page, visit.control)).to_be_focused()
    expect(typed).to_have_value(value)
    no_traceback(page)


def _check(page: Page, visit: Visit) -> None:
    press = page.keyboard.press
    if visit.tile:  # there are reasons to choose from
        _tab_to(page, page.locator(".kit-column label").first.text_content().strip())
        for key in ("ArrowDown", "ArrowDown", "ArrowRight"):  # past all, and back
            press(key)
            expect(page.locator(".kit-column input:checked")).to_have_count(0)
        press("Enter")
        expect(page.locator(".kit-column input:checked")).to_have_count(1)
    expect(page.locator(".kit-check input:checked")).to_have_count(0)
    _arrow_to(page, "Calculate", "Look")
    _tab_to(page, "Answer:")
    for answer, words in (
        (visit.wrong, f"what you get if you {visit.reason}"),
        (visit.right, "✓ Right."),
    ):
        press("Control+a")
        page.keyboard.type(answer)
        press("Enter")
        page.get_by_text(words).first.wait_for()


def _on_a_tablet(page: Page, visit: Visit) -> None:
    """Turn the page to a tablet's size, in small and in big type."""
    page.set_viewport_size(TABLET)
    for size in ("normal", "big"):
        bars = page.locator(".kit-bar")  # those of one page go together
        choose_look(page, size)
        many = bars.count() if size == "big" else 0
        expect(page.locator(".kit-big")).to_have_count(many)
        # what is chosen in one view is the look of the whole page
        least = page.locator(".kit-view, .jp-RenderedMarkdown > p").evaluate_all(_LETTERS)
        assert (least >= 23) == (size == "big")
        assert faults(page) == []
    pause(page)  # JupyterLab may still give the focus to what was clicked
    slider(page, visit.control).focus()
    page.keyboard.press(visit.arrow)
    expect(picture(page)).to_have_attribute("alt", containing(visit.after))


_LETTERS = "(all) => Math.min(...all.map((p) => parseFloat(getComputedStyle(p).fontSize)))"
_IN_SIGHT = """(view) => {
  view.scrollIntoView({ block: 'start' });
  const top = view.getBoundingClientRect().top;
  const low = (kind) => view.querySelector(kind).getBoundingClientRect().bottom - top;
  const pane = document.querySelector('.jp-WindowedPanel-outer').getBoundingClientRect();
  const parts = ['.kit-frame img', '.kit-main-control', '.kit-says'];
  const image = view.querySelector('.kit-frame img');
  const shown = image.getBoundingClientRect().width / image.naturalWidth;
  return [pane.height, shown, ...parts.map(low)];
}"""


def _read(wide: int, scale: float, *, big: bool) -> bool:
    """Say whether the words in a picture shown so many times as large are read."""
    if big:  # 15' of arc at 3 m, on a page 1.5 m wide
        return CAPITAL * BIG_LETTERS * scale * 1500 / wide >= letter_height(3000, 15)
    return LETTERS * scale >= 12


def out_of_sight(page: Page, *, big: bool) -> list[str]:
    """Say where picture, main slider and sentence do not fit, or words are too small."""
    found = []
    for wide, high in WALL if big else SEEN:
        resize(page, wide, high)
        for shown in page.locator(".kit-view:has(.kit-main-control)").all():
            room, scale, *lows = shown.evaluate(_IN_SIGHT)
            if max(lows) > room:
                found.append(f"{wide} × {high}: {lows} of {room}")
            if not _read(wide, scale, big=big):
                found.append(f"{wide} × {high}: pictures shown {scale:.2f} times as large")
    return found


def test_every_lesson_is_here():
    whole = {key for key, one in LESSONS.items() if key == one.number}
    assert {visit.lesson for visit in VISITS} == whole


@pytest.mark.parametrize("visit", VISITS, ids=lambda visit: visit.lesson)
def test_a_newcomer_goes_through_by_keyboard(lab: Lab, visit: Visit):
    page = lab.open(visit.notebook)
    assert picture_at_once(page)
    _tab_to(page, "▶ Start")
    page.keyboard.press("Enter")
    page.wait_for_selector(HAS_RUN)
    assert start_leads_on(page)
    if visit.tile:
        _predict(page, visit)
    if visit.lesson == SECOND:
        page.locator(START).focus()
        _next_person(page, visit)
    _move_and_undo(page, visit)
    if visit.lesson == SECOND:
        _spoken_once(page, visit)
    _mistype(page, visit)
    if visit.right:
        _check(page, visit)
    assert faults(page) == []
    assert out_of_sight(page, big=False) == []
    _on_a_tablet(page, visit)
    assert out_of_sight(page, big=True) == []
    page.set_viewport_size(ZOOMED)
    assert faults(page) == []
    assert barriers(page) == []
    page.set_viewport_size(DESK)
    choose_look(page, "normal")
    choose_look(page, "indoors")
    assert covered_by_what_stays(page) == []
    page.set_viewport_size(DESK)
    assert lost_on_the_way_down(page) == []

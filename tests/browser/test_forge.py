"""The forge, used by a child, and by keyboard alone; and what is to be made on it.

One visit: the page stays open from test to test, and all that was done is undone. What is
in sight together on it is looked at in `test_accessible.py`.
"""

from collections.abc import Iterator

import pytest
from conftest import Lab
from launching import Server
from lesson_page import (
    LAPTOP,
    TABLET,
    alt,
    choose_look,
    containing,
    faults,
    gap,
    no_traceback,
    pause,
    pixels,
)
from playwright.sync_api import Locator, Page, expect
from test_accessible import OURS, grave, violations

from kit.course.anvil.tasks import TASKS

FORGE = "forge.ipynb"
OPEN = "globalThis.jupyterapp?.shell.currentWidget?.context?.path"
MOST_ACTS = 12
LONGEST = 1500  # ms that one picture of a film stands
KEY = 90  # ms from letter to letter


@pytest.fixture
def lab(server: Server, page: Page) -> Lab:
    """Give the lessons without closing them again: whoever opens another page does."""
    return Lab(server, page)


@pytest.fixture
def anvil(lab: Lab) -> Iterator[Page]:
    """Give the forge as it was when it was opened."""
    page = lab.page
    if page.evaluate(OPEN) != FORGE:
        lab.open(FORGE)
        lab.start()
    undo = page.get_by_role("button", name="Undo (U)")
    while undo.is_enabled():
        undo.click()
        pause(page)
    assert steps(page) == ["the stack"]
    yield page
    no_traceback(page)


def says(page: Page) -> Locator:
    return page.locator(".kit-forge .kit-says").first


def steps(page: Page) -> list[str]:
    return page.locator(".kit-strip .kit-short").all_text_contents()


class Acts:
    """Counts what a child does, and sees that a picture answers every time."""

    def __init__(self, page: Page) -> None:
        self.page, self.done = page, 0

    def choose(self, key: str, word: str) -> None:
        """Choose another word in a gap."""
        before = pixels(self.page)
        gap(self.page, key).select_option(word)
        self._seen(before)

    def metal(self, bar: int, name: str) -> None:
        """Make a bar of the stack of another metal."""
        before = pixels(self.page)
        self.page.get_by_label(f"Metal of bar {bar}").select_option(name)
        self._seen(before)

    def press(self, name: str) -> None:
        """Press a button."""
        before = pixels(self.page)
        self.page.get_by_role("button", name=name, exact=True).click()
        self._seen(before)

    def _seen(self, before: int) -> None:
        self.done += 1
        for _ in range(40):  # a busy machine draws no sooner than it can
            pause(self.page)
            if pixels(self.page) != before:
                return
        pytest.fail("every act has its picture")


def test_a_childs_way(anvil: Page):
    """Three colours, fold twice, dent, flatten, cut on the slant."""
    child = Acts(anvil)
    child.press("One bar more")
    child.metal(3, "nickel")
    child.choose("next", "fold")
    child.choose("next", "draw out")
    child.choose("next", "fold")
    child.choose("next", "draw out")
    child.choose("next", "dent")
    child.choose("next", "draw out")
    child.choose("look:kind", "slant")
    assert child.done <= MOST_ACTS
    made = ["the stack", *["fold", "draw out"] * 2, "dent", "draw out"]
    assert steps(anvil) == made
    expect(says(anvil)).to_contain_text("layers")
    assert "Sawn on the slant" in alt(anvil)
    anvil.set_viewport_size(TABLET)
    pause(anvil)
    assert anvil.evaluate(WHOLE), "the step that is looked at is in sight"


def test_what_is_not_allowed_yet_is_offered(anvil: Page):
    page = anvil
    page.locator("h2", has_text="Make a bar").scroll_into_view_if_needed()
    gap(page, "next").select_option("twist")
    expect(says(page)).to_contain_text("a bar must be round")
    first = page.get_by_role("button", name="Do it: upset, round up, then twist")
    for told in (says(page), first):  # what is refused, and what helps, is in sight
        expect(told).to_be_in_viewport(ratio=1)
    first.click()
    expect(page.locator(".kit-strip [aria-current]")).to_contain_text("twist")
    assert steps(page) == ["the stack", "upset", "round up", "twist"]
    _plays_in_its_place(page)


WHOLE = """() => {
  const row = document.querySelector('.kit-strip').getBoundingClientRect();
  const step = document.querySelector('.kit-strip [aria-current]').getBoundingClientRect();
  return row.left <= step.left && step.right <= row.right; }"""
FRAME = "getComputedStyle(document.activeElement).outlineOffset"
FILM = """() => { window.kitFilm = [];
  const image = document.querySelector('.kit-forge .kit-frame img');
  const seen = () => image.decode().catch(() => {}).then(() => {
    const box = image.getBoundingClientRect();
    const card = document.querySelector('.kit-forge').offsetHeight;
    window.kitFilm.push([performance.now(), box.width, box.height, card]); });
  new MutationObserver(seen).observe(image, {attributeFilter: ['src']}); }"""


def _plays_in_its_place(page: Page) -> None:
    """See the film as large as the picture, at rest, and for a second a step."""
    pause(page)
    box = page.locator(".kit-forge .kit-frame img").bounding_box()
    page.evaluate(FILM)
    before = page.locator(".kit-forge").evaluate("card => card.offsetHeight")
    page.get_by_role("button", name="Play it").click()
    expect(says(page)).to_contain_text("3 steps")
    page.wait_for_function("window.kitFilm.length > 10")
    page.wait_for_function(f"performance.now() - window.kitFilm.at(-1)[0] > {LONGEST}")
    film = page.evaluate("window.kitFilm")
    assert {(wide, high) for _at, wide, high, _card in film} == {
        (box["width"], box["height"])
    }
    assert {card for *_, card in film} == {before}, "nothing below it jumps"
    assert film[-1][0] - film[0][0] >= 4 * 1000  # the stack and three steps, ms


def _whole_names_are_typed(page: Page) -> None:
    """Type into every kind of list; what is met on the way is not chosen."""
    typed = [
        (page.get_by_label("Metal of bar 1"), name) for name in ("15N20", "wro", "1084")
    ]
    typed += [(gap(page, "look:kind"), "slant"), (gap(page, "stack:closed"), "as they")]
    for control, name in [*typed, (gap(page, "stack:closed"), "the first")]:
        control.focus()
        page.keyboard.type(name, delay=KEY)  # at the speed of a child, and nothing pressed
        page.wait_for_timeout(1500)  # told to Python, and answered
        assert control.input_value().startswith(name)
        expect(control).to_be_focused()
    expect(
        page.get_by_role("button", name="Bar 1, 1084: arrow keys move it")
    ).to_be_visible()
    assert "Sawn on the slant" in alt(page)


def test_by_keyboard_alone(anvil: Page):
    page = anvil
    press = page.keyboard.press
    page.get_by_label("Metal of bar 1").focus()
    press("Tab")
    assert page.evaluate(FRAME) == "-3px", "a frame within the list, which clips"
    _whole_names_are_typed(page)
    gap(page, "next").focus()
    page.keyboard.type("fold")
    press("Enter")
    expect(page.locator(".kit-strip li")).to_have_count(2)
    page.wait_for_timeout(1000)  # the list is another now
    gap(page, "next").focus()
    page.keyboard.type("hammer")
    press("Enter")
    expect(page.locator(".kit-strip li")).to_have_count(3)
    here = page.locator(".kit-strip [aria-current]")
    here.focus()
    press("Alt+ArrowLeft")
    moved = ["the stack", "hammer unevenly", "fold"]
    expect(page.locator(".kit-strip .kit-short")).to_have_text(moved)
    press("ArrowRight")
    expect(here).to_contain_text("fold")
    expect(here).to_be_focused()
    expect(here).to_have_accessible_name(containing("2. Fold it. 22 layers in 21 bands"))
    press("Delete")
    expect(page.locator(".kit-strip li")).to_have_count(2)
    press("u")
    expect(page.locator(".kit-strip li")).to_have_count(3)
    assert grave(page, OURS) == []


def clean(page: Page, state: str) -> list[tuple]:
    """Give what axe-core, or an eye, finds on a laptop and a tablet, however light."""
    found = []
    for size in (LAPTOP, TABLET):
        page.set_viewport_size(size)
        pause(page)
        found += [(state, size["width"], one["id"]) for one in violations(page, OURS)]
        found += [(state, size["width"], one) for one in faults(page)]
    return found


def test_in_no_state_is_anything_barred_covered_or_cut_off(anvil: Page):
    page = anvil
    found = clean(page, "the stack")
    for verb in ("fold", "draw out", "dent", "draw out"):
        gap(page, "next").select_option(verb)
        pause(page)
    page.locator(".kit-strip button").nth(1).click()
    page.get_by_role("button", name="This weld did not take").click()
    expect(page.locator(".kit-strip")).to_contain_text("open weld")
    gap(page, "next").select_option("twist")
    expect(page.get_by_role("button", name="Do it: ")).to_be_visible()
    found += clean(page, "an open weld, and an offer")
    page.get_by_text("The code that makes this").first.click()
    choose_look(page, "layers")
    found += clean(page, "code and looks open")
    page.get_by_role("button", name="Is it this?").click()
    expect(page.locator(".kit-make-this [role=status]").first).to_contain_text("Not yet")
    assert found + clean(page, "Make this, judged") == []


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

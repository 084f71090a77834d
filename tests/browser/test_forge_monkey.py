"""The forge under random acts: never stuck, and nothing breaks below it.

Every kind of act is dealt once round; `python -m tests.bench monkey` deals on.
"""

import os
import random
from collections.abc import Iterator

import pytest
from conftest import Lab
from lesson_page import alt, no_traceback, pixels
from playwright.sync_api import Page, expect

pytestmark = pytest.mark.long
SEED = 20_261_129
PAUSE = 40  # ms: no child is quicker
MOST_TRIES = 100  # a fifth of a second each, until what was asked before is done
KEYS = (
    "ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "Home", "End", "Delete", "Escape",
    "Enter", "Alt+ArrowLeft", "Alt+ArrowRight", "Shift+ArrowDown", "u", "l", "?",
)  # fmt: skip
TYPED = ("", "abc", "-1", "9999", "1e9", "4.8", "3/16 in", "12 mm", "<b>7", "5°")
# what is done with a part that is chosen by a dice of 0 … 1, and what came of it
DEED = """([kind, first, second]) => {
  const card = document.querySelector('.kit-forge');
  const kinds = {
    choose: 'select', press: 'button', slide: 'input[type=range]', say: 'input[type=radio]',
    type: 'input[type=text]', key: 'button, select, input, [tabindex="0"]', point: 'img',
  };
  const parts = [...card.querySelectorAll(kinds[kind])]
    .filter((part) => part.offsetParent && !part.disabled);
  if (!parts.length) return '';
  const part = parts[Math.floor(first * parts.length)];
  const told = (name) => part.dispatchEvent(new Event(name, { bubbles: true }));
  if (kind === 'choose') {
    part.selectedIndex = Math.floor(second * part.options.length);
    told('change');
  } else if (kind === 'slide') {
    part.value = Math.round(second * part.max);
    told('input');
    told('change');
  } else if (kind === 'point') {
    const box = part.getBoundingClientRect();
    const [x, y] = [box.left + first * box.width, box.top + second * box.height];
    const at = { bubbles: true, clientX: x, clientY: y };
    part.dispatchEvent(new MouseEvent('click', at));
  } else if (kind === 'press' || kind === 'say') part.click();
  else part.focus();
  return part.ariaLabel || part.dataset.kitKey || part.textContent.slice(0, 30) || kind;
}"""
# Every kind of act, as often as it is dealt in one round.
CARDS = (
    *[("choose", "")] * 10, *[("press", "")] * 10, *[("slide", "")] * 4,
    *[("say", "")] * 2, *[("point", "")] * 2,
    *(("key", key) for key in KEYS), *(("type", text) for text in TYPED),
)  # fmt: skip
ACTS = int(os.environ.get("KIT_MONKEY_ACTS", f"{len(CARDS)}"))
CHECKED = 30  # acts from one look at what came of them to the next


def dealt(dice: random.Random) -> Iterator[tuple[str, str]]:
    """Deal the cards, round after round."""
    while True:
        yield from dice.sample(CARDS, len(CARDS))


def act(page: Page, card: tuple[str, str], dice: random.Random) -> str:
    """Do something; tell what."""
    kind, word = card
    name = page.evaluate(DEED, [kind, dice.random(), dice.random()])
    if kind == "key":
        page.keyboard.press(word)
    elif kind == "type" and name:
        page.keyboard.press("Control+a")
        page.keyboard.type(word)
        page.keyboard.press("Enter")
    page.wait_for_timeout(PAUSE)
    return f"{kind} {name} {word}"


def answers(page: Page) -> None:
    """See that the page still does what it is asked, once all before is done."""
    place = page.locator(".kit-strip button")
    for to, there in (("End", place.last), ("Home", place.first)):
        for _ in range(MOST_TRIES):
            page.locator(".kit-strip [aria-current]").press(to)
            page.wait_for_timeout(200)
            if there.get_attribute("aria-current"):
                break
        expect(there).to_have_attribute("aria-current", "step")
    assert "A bar" in alt(page)


def test_a_monkey_can_not_get_it_stuck(lab: Lab, complaints: list[str]):
    lab.open("forge.ipynb")
    page, done, dice = lab.start(), [], random.Random(SEED)  # noqa: S311
    cells = page.locator(".jp-Cell").count()
    cards = dealt(dice)
    for number in range(1, ACTS + 1):
        done.append(act(page, next(cards), dice))
        if number % CHECKED == 0 or number == ACTS:
            answers(page)
            assert complaints == [], done[-CHECKED:]
    pixels(page)
    no_traceback(page)
    assert page.locator(".jp-Cell").count() == cells, "no key does what JupyterLab does"

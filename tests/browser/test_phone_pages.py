"""All lessons' pages on a telephone: by keyboard, whole, no barriers, no requests.

One window, page after page. Each page has a few of its stops: what they show is asked in
`tests/test_phone.py`.
"""

import math
from concurrent.futures import ThreadPoolExecutor

import pytest
from playwright.sync_api import expect
from test_accessible import grave

from kit.basics import files
from kit.classroom.phone import page as phone
from kit.classroom.phone.piece import CHECKS, piece_of
from tests.test_phone import few

SIZES = {"light": (360, 640), "dark": (390, 844)}
# What is wider than the screen, and what is too small for a thumb.
FAULTS = """() => {
  const seen = [...document.querySelectorAll("main *, header *")]
    .map((one) => [one, one.getBoundingClientRect()]).filter(([, box]) => box.width);
  const wide = seen.filter(([, box]) => box.right > innerWidth + 1 || box.left < -1);
  const small = seen.filter(([one, box]) => one.matches("button, input, select, summary")
    && Math.min(box.width, box.height) < 44);
  return [...wide, ...small].map(([one]) => one.outerHTML.slice(0, 80));
}"""


# What is said beside the control: some of it is taken back after seconds, and a busy
# machine may look too late.
HEAR = """() => {
  window.heard = [];
  new MutationObserver(() => heard.push(byId("slider").textContent))
    .observe(byId("slider"), { childList: true });
}"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """Write every lesson's page, drawn at a few stops, and the index."""
    place = tmp_path_factory.mktemp("phone")
    with ThreadPoolExecutor(2) as two:
        made = two.map(lambda one: piece_of(one, values=few(one)), phone.PAGES.values())
        drawn = dict(zip(phone.PAGES, made, strict=True))
    for key, piece in drawn.items():
        files.write(place / phone.file_of(key), phone.page(piece))
    files.write(place / phone.INDEX, phone.index())
    return place


@pytest.fixture
def telephone(browser, folder):
    """Give what opens a page; it may complain of nothing, and ask nobody anything."""
    contexts, complaints = [], []

    def opened(light):
        wide, high = SIZES[light]
        context = browser.new_context(
            viewport={"width": wide, "height": high}, color_scheme=light, has_touch=True
        )
        contexts.append(context)
        page = context.new_page()
        page.on("console", lambda said: complaints.append(said.text))
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on(
            "request",
            lambda one: (
                one.url.startswith((folder.as_uri(), "data:")) or complaints.append(one.url)
            ),
        )
        return page

    yield opened
    for context in contexts:
        context.close()
    assert complaints == []


def answer(page, text, unit=None):
    """Type an answer as a keyboard does, and hear what is said of it."""
    page.locator("#answer").focus()
    page.keyboard.press("Control+a")
    page.keyboard.type(text)
    if unit:
        page.select_option("#unit", unit)
    page.keyboard.press("Enter")
    return page.locator("#judged").inner_text().replace("\u00a0", " ")


def sums(page, lesson, at):
    """Answer a check: with no number, by a slip, in a wrong unit, rightly, by a slip."""
    check = lesson.checks[at]
    kind, right = check.answers, check.answer(check.given)
    slip, value = next(
        (one, value)
        for one in check.slips
        if math.isfinite(value := one.value(check.given))
        and check.judge(check.given, value).ideas == (one,)
    )
    assert answer(page, "much").startswith("I cannot read 'much'")
    assert answer(page, f"{value:.12g}") == f"✗ {check.mark(value).words}"
    if "cm" in kind.spelt:
        said = answer(page, f"{right:.12g}", "cm")
        assert said.startswith("✗ Not yet. The figures are right: look at the unit. It was")
        assert f"read as {right:.12g} cm." in said
        page.select_option("#unit", kind.unit)
    assert answer(page, f"{right:.12g}") == f"✓ {check.mark(right).words}"
    again = answer(page, f"{value:.12g}")
    assert slip.hint in again
    assert "that stands" in again


def explain(page, question):
    """Choose the right reason, and hear what is said of it."""
    expect(page.locator("#found")).to_contain_text(question.observed[:40])
    right = next(at for at, one in enumerate(question.reasons) if one.right)
    page.locator("#reasons button").nth(right).focus()
    page.keyboard.press("Space")
    answered = page.locator("#reason-says").inner_text().replace("\u00a0", " ")
    assert answered == f"✓ {question.reasons[right].answer}"


def walk(page, lesson, *, first):
    """Go through a page by keys, asking at every state for faults; say them."""
    found = []

    def look(state):
        assert page.evaluate("state") == state
        found.extend(f"{state}: {one}" for one in page.evaluate(FAULTS))
        if first or state in ("observe", "card"):  # where lessons differ most
            found.extend(f"{state}: {one}" for one in grave(page))

    def press(name):
        page.locator(name).focus()
        page.keyboard.press("Enter")

    predict(page, lesson, look, press)
    assert page.evaluate("stop === told().asked")
    alt = page.locator("#stage").get_attribute("aria-label")
    assert alt == page.evaluate("told().stops[told().asked].alt")
    look("observe")
    press("#to-why")
    explain(page, lesson.question)
    look("why")
    press("#to-check")
    for at in range(CHECKS):
        sums(page, lesson, at)
        look("check")
        press("#to-card")
    look("card")
    press("#to-start")
    assert page.evaluate("[state, chosen, tries]") == ["predict", None, [0] * CHECKS]
    return found


def predict(page, lesson, look, press):
    """Choose by arrows, and come no further than the mark, which says why."""
    look("predict")
    press("#show-me")
    expect(page.locator("#hint")).to_have_text("Choose a picture first.")
    tiles = page.locator("#tiles button")
    tiles.nth(0).focus()
    for _ in range(1 + lesson.question.tiles.index(lesson.question.right) or 4):
        page.keyboard.press("ArrowRight")
    wrong = page.evaluate("chosen !== told().right")
    press("#show-me")
    assert not page.locator("#slider").inner_text()
    page.evaluate(HEAR)
    page.keyboard.press("End")  # no further than the mark, as long as it was not reached
    beyond = page.evaluate("told().asked + 1 < told().stops.length")
    held = page.evaluate("heard").count("Stopped at the mark: go on as you like.")
    assert held == beyond
    told = page.locator("#verdict").inner_text()
    assert told.startswith("✗ It is" if wrong else "✓ You saw it coming.")


@pytest.mark.parametrize("light", SIZES)
def test_all_lessons_on_a_telephone(light, telephone, folder):
    page, found = telephone(light), []
    # each lesson in one of the lights
    keys = list(phone.PAGES)[list(SIZES).index(light) :: 2]
    for key in keys:
        page.goto((folder / phone.file_of(key)).as_uri())
        walked = walk(page, phone.PAGES[key], first=key in keys[:1])
        found += [f"{key} {one}" for one in walked]
    page.goto((folder / phone.INDEX).as_uri())
    found += [*page.evaluate(FAULTS), *grave(page)]
    assert page.locator("#lessons a").count() == len(phone.PAGES)
    page.locator(f'#lessons a[href="{phone.file_of("04")}"]').focus()
    page.keyboard.press("Enter")
    expect(page.locator("#question")).to_contain_text("A round bar")
    assert found == []

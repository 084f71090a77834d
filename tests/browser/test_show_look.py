"""The show page: large, whole, without barriers; the maker's corner; the check list."""

import re
from itertools import product

import pytest
from pypdf import PdfReader
from show_tablet import SIZES, depth, maker, state
from test_accessible import grave

from kit.basics import files
from kit.classroom.show import page as show_page
from kit.classroom.show.piece import languages

# mm, the long side of a tablet of 10.1 inches and 16 : 10: 10.1 × 25.4 × 16 / √(16² + 10²)
LONG_SIDE = 217.5
UNREAD = (
    "This translation is the kit's own. Let somebody who forges and speaks the language "
    "read it before a show."
)
LEAST = min(SIZES, key=lambda size: size[0] * size[1])
QUESTION = "Ground halfway in: which face will it show?"
# Everything read or heard on the page that is an English sentence of the catalogues.
ENGLISH_LEFT = """(() => {
  const english = new Set(Object.keys(TOLD.languages.fr.words));
  const all = [...document.querySelectorAll("main *, dialog *, #still *, title")];
  const said = all.flatMap((one) => [one.getAttribute("aria-label"), one.alt,
    one.children.length ? "" : one.textContent.trim()]);
  const same = new Set(Object.entries(TOLD.languages[settings.language].words)
    .filter(([one, other]) => one === other).map(([one]) => one));
  return said.filter((words) => english.has(words) && !same.has(words));
})()"""


# What reaches out of a screen, what a finger would miss, and how many headings there are.
SEEN = """([shown, least]) => {
  const all = (kinds) => [...document.querySelectorAll(`#${shown} :is(${kinds})`)]
    .map((one) => [one, one.getBoundingClientRect()]);
  const said = all("h2, p, button:not(#start), span, figcaption, li")
    .filter(([one, box]) => box.width && box.height && one.innerText.trim());
  const out = said.filter(([, box]) =>
    box.left < -1 || box.right > innerWidth + 1 || box.bottom > innerHeight + 1);
  const small = all("button, input").filter(([, box]) =>
    Math.min(box.width, box.height) < least - 1);
  return [said.length, out.map(([one]) => one.innerText), small.map(([one]) => one.id),
    document.querySelectorAll(`#${shown} h2`).length];
}"""


def _seen_so() -> list:
    """Give all sizes, lights and languages; to the gate English, and all on the least."""
    return [
        pytest.param(
            size,
            theme,
            language,
            marks=()
            if theme == "indoor" and (language == "en" or size == LEAST)
            else pytest.mark.long,
        )
        for size, theme, language in product(SIZES, ("indoor", "sunlight"), languages())
    ]


@pytest.mark.parametrize(("size", "theme", "language"), _seen_so(), ids=str)
def test_targets_are_large_and_nothing_is_cut_off(size, theme, language, tablet):
    page = tablet(f"theme={theme}&language={language}", size)
    least = 22 * max(size) / LONG_SIDE
    for deep in range(5):
        shown = state(page)
        many, out, small, headings = page.evaluate(SEEN, [shown, least])
        assert (many > 0, out, small) == (True, [], []), shown
        if shown != "attract":
            assert headings == 1
        if deep == 1:
            page.keyboard.press("Numpad2")
        page.keyboard.press("Enter")


@pytest.mark.parametrize("theme", ["indoor", "sunlight"])
def test_axe_finds_no_barrier(theme, tablet):
    page = tablet(f"theme={theme}")
    page.clock.run_for(1500)  # the first line is there: while it comes, it is pale
    for deep in range(5):
        assert grave(page) == [], state(page)
        if deep == 1:
            page.keyboard.press("Numpad2")
        page.keyboard.press("Enter")
    maker(page)
    assert grave(page) == []


def test_the_makers_corner_by_two_fingers(tablet):
    page = tablet()
    session = page.context.new_cdp_session(page)
    points = [{"x": 20, "y": 20, "id": 1}, {"x": 1260, "y": 20, "id": 2}]
    session.send(
        "Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": points[:1]}
    )
    page.clock.run_for(4000)
    assert not page.locator("#maker").is_visible()  # one finger is a visitor
    session.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": points})
    page.clock.run_for(1500)  # the test's own time, some tenths, is counted too
    assert not page.locator("#maker").is_visible()
    page.clock.run_for(2000)
    assert page.locator("#maker").is_visible()
    session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


def test_the_makers_corner_by_keyboard_and_what_it_sets(tablet):
    page = tablet()
    page.keyboard.press("m")
    page.clock.run_for(4000)
    assert not page.locator("#maker").is_visible()  # not held
    maker(page)
    page.check('[name="theme"][value="sunlight"]')
    page.check('[name="units"][value="inch"]')
    page.check('[name="recipe"][value="2"]')
    assert int(page.locator("#touches").inner_text().split(": ")[1]) > 0
    page.click("#close")
    assert page.evaluate("document.documentElement.dataset.theme") == "sunlight"
    assert "3/16\u00a0in" not in page.locator("#said").inner_text()
    assert "5/32 in thick" in depth(page)  # 4.0 mm
    page.reload()  # kept in the address, nowhere else
    assert "5/32 in thick" in depth(page)
    assert page.evaluate("document.documentElement.lang") == "en"
    kept = page.evaluate("[localStorage.length, sessionStorage.length, document.cookie]")
    assert kept == [0, 0, ""]


@pytest.mark.parametrize("language", sorted(set(languages()) - {"en"}))
def test_all_the_way_in_another_language(language, tablet):
    words = languages()[language]["words"]
    page = tablet("idle=180")
    maker(page)
    assert not page.locator("#unread").is_visible()
    page.get_by_label(languages()[language]["name"]).check()
    assert page.locator("#unread").inner_text() == words[UNREAD]
    assert page.locator("#maker-name").inner_text() == words["Maker's corner"]
    assert grave(page) == []
    left = page.evaluate(ENGLISH_LEFT)
    page.click("#close")
    page.clock.run_for(1500)  # the first line is there
    for deep in range(5):
        left += page.evaluate(ENGLISH_LEFT)
        assert grave(page) == [], state(page)
        if deep == 1:
            assert page.locator("#question").inner_text() == words[QUESTION]
            page.keyboard.press("Numpad2")
            chosen = page.locator('[aria-checked="true"] span')
            assert words["chosen"] in chosen.evaluate(
                "one => getComputedStyle(one, '::after').content"
            )
        if deep == 2:
            page.keyboard.press("Numpad6")
            assert words["{off} off"].split("}")[1] in page.locator("#said").inner_text()
            said = page.locator("#grind").get_attribute("aria-valuetext")
            assert said == page.locator("#said").inner_text()
        page.keyboard.press("Enter")
    assert left == []
    assert page.evaluate("document.documentElement.lang") == language
    maker(page)
    page.check('[name="language"][value="en"]')
    assert page.locator("#maker-name").inner_text() == "Maker's corner"


def test_true_size_by_a_bank_card(tablet):
    page = tablet()
    maker(page)
    page.locator("#outline").scroll_into_view_if_needed()
    corner, card = page.locator("#corner").bounding_box(), page.locator("#outline")
    left = card.bounding_box()["x"]
    page.mouse.move(corner["x"] + 28, corner["y"] + 28)
    page.mouse.down()
    page.mouse.move(left + 428, corner["y"] + 28, steps=4)
    page.mouse.up()
    assert card.bounding_box()["width"] == pytest.approx(428, abs=1)  # 5 pixels a mm
    assert card.bounding_box()["height"] == pytest.approx(269.9, abs=1)  # 53.98 mm
    page.click("#larger")
    assert card.bounding_box()["width"] == pytest.approx(428 * 1.005, abs=1)
    page.click("#smaller")
    page.click("#close")
    assert re.search(r"dots=5\.00", page.url)
    page.keyboard.press("Enter")
    assert page.locator("#show-me").bounding_box()["height"] >= 22 * 5 - 1
    page.reload()
    assert page.evaluate("dots()") == pytest.approx(5, abs=0.03)


def test_left_open_the_makers_corner_closes(tablet):
    page = tablet()
    maker(page)
    page.clock.run_for(41_000)
    assert not page.locator("#maker").is_visible()
    assert state(page) == "attract"


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_check_list_prints_on_one_sheet(paper, browser, tmp_path):
    path = files.write(tmp_path / "check.html", show_page.check_page())
    page = browser.new_page()
    page.goto(path.as_uri())
    assert grave(page) == []
    page.pdf(path=tmp_path / "check.pdf", format=paper, prefer_css_page_size=False)
    sheets = PdfReader(tmp_path / "check.pdf").pages
    assert len(sheets) == 1
    assert "Went wrong last time" in sheets[0].extract_text()
    page.close()

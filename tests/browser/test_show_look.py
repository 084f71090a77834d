"""The show page: large, whole, without barriers; the maker's corner; the check list."""

import re

import pytest
from pypdf import PdfReader
from show_tablet import SIZES, depth, maker, state
from test_accessible import grave

from kit.basics import files
from kit.classroom.show import page as show_page
from kit.classroom.show.piece import languages, letter_height

# mm, the long side of a tablet of 10.1 inches and 16 : 10: 10.1 × 25.4 × 16 / √(16² + 10²)
LONG_SIDE = 217.5
UNREAD = (
    "This translation is the kit's own. Let somebody who forges and speaks the language "
    "read it before a show."
)
QUESTION = "Twisted bar, ground halfway to centre: which face?"
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


# In every language, light and state: what reaches out of the screen or out of the box it
# stands in, what lies on each other, what a finger would miss, and headings. Of the loop,
# wherever hand and blade are: what is chopped off at an edge.
SEEN = """([least, far]) => {
  const found = [];
  const boxOf = (one) => {
    const range = document.createRange();
    range.selectNodeContents(one);
    const { left, right, top, bottom } = range.getBoundingClientRect();
    const air = 0.12 * parseFloat(getComputedStyle(one).fontSize); // above the capitals
    return { left, right, top: top + air, bottom: bottom - air };
  };
  const look = (language, theme, place = state) => {
    const kinds = "h2, p, button, span, b, label, figcaption, li";
    const shown = [...document.querySelectorAll(`#${place} :is(${kinds})`)].filter((one) =>
      one.id !== "start" && one.checkVisibility({ visibilityProperty: true }));
    const words = shown.filter((one) => one.innerText.trim() && !one.children.length)
      .map((one) => [one, boxOf(one)]);
    const note = (what, one) => found.push([language, theme, piece, state, what,
      one.id || one.innerText]);
    for (const [one, box] of words) {
      if (box.left < -1 || box.right > innerWidth + 1 || (place !== "maker"
        && (box.bottom > innerHeight + 1 || box.top < -1))) note("off the screen", one);
      const hold = one.closest("button") ?? one;
      const edge = hold.getBoundingClientRect();
      if (box.left < edge.left - 1 || box.right > edge.right + 1
        || box.top < edge.top - 1 || box.bottom > edge.bottom + 1) note("out of box", one);
      for (const [other, its] of place === "maker" ? [] : words) {
        if (one !== other && one.id !== "unknown"
          && Math.min(box.right, its.right) - Math.max(box.left, its.left) > 1
          && Math.min(box.bottom, its.bottom) - Math.max(box.top, its.top) > 1) {
          note(`on ${other.id || other.innerText}`, one);
        }
      }
    }
    if (place !== state) return words.length;
    for (const one of document.querySelectorAll(`#${state} :is(button, input)`)) {
      const { width, height, right, bottom } = one.getBoundingClientRect();
      if (Math.min(width, height) < least - 1) note("small", one);
      if (right > innerWidth + 1 || bottom > innerHeight + 1) note("off the screen", one);
    }
    const held = document.activeElement;
    for (const one of document.querySelectorAll(`#${state} :is(button, input)`)) {
      one.focus({ preventScroll: true });
      const ring = getComputedStyle(one);
      if (ring.outlineStyle !== "solid") note("no ring", one);
      if (ring.outlineColor === "rgba(0, 0, 0, 0)") continue; // its handle has the ring
      const off = parseFloat(ring.outlineOffset);
      const wide = off + parseFloat(ring.outlineWidth);
      const it = one.getBoundingClientRect();
      for (const [other] of words) {
        const range = document.createRange();
        range.selectNodeContents(other);
        const box = range.getBoundingClientRect();
        const low = box.bottom - 1;
        const inside = box.left >= it.left - off && box.right <= it.right + off
          && box.top >= it.top - off && low <= it.bottom + off;
        const clear = box.right <= it.left - wide || box.left >= it.right + wide
          || low <= it.top - wide || box.top >= it.bottom + wide;
        if (!inside && !clear) note(`ring cuts ${other.id || other.innerText}`, one);
      }
    }
    held.focus({ preventScroll: true });
    if (state !== "attract" && document.querySelectorAll(`#${state} h2`).length !== 1) {
      note("headings", byId(state));
    }
    return words.length;
  };
  let said = 0;
  const scene = byId("scene").getBoundingClientRect();
  const probe = document.createElement("i"); // laid on each corner of what is cut out
  probe.style.position = "absolute";
  const cornersOf = (one) => {
    const way = getComputedStyle(one).clipPath.match(/[\\d.]+%/g);
    if (!way) return [one.getBoundingClientRect()];
    probe.style.transform = getComputedStyle(one).transform;
    return way.flatMap((left, at) => {
      if (at % 2) return [];
      [probe.style.left, probe.style.top] = [left, way[at + 1]];
      return [probe.getBoundingClientRect()];
    });
  };
  knife.append(probe);
  for (const share of [0, 1]) {
    for (const one of ["along", "drawn", "apart"]) {
      knife.style.setProperty(`--${one}`, share);
    }
    for (const one of knife.querySelectorAll("img, #handle, #cut, #hand path")) {
      if (cornersOf(one).some(({ left, right, top, bottom }) => left < scene.left
        || right > scene.right || top < scene.top || bottom > scene.bottom)) {
        found.push(["chopped off", share, one.id || one.tagName]);
      }
    }
  }
  probe.remove();
  for (const language of Object.keys(TOLD.languages)) {
    for (const dress of ["indoor mm", "indoor inch", "sunlight mm"]) {
      const [theme, units] = dress.split(" ");
      for (let bar = 0; bar < TOLD.pieces.length; bar += 1) {
        Object.assign(settings, { language, theme, units, recipe: bar });
        openShow();
        const size = parseFloat(byId("line").style.fontSize);
        if (size * 0.729 < far * dots()) found.push([language, bar, "low letters", size]);
        for (const line of rows) {
          byId("line").textContent = line.join("\\n");
          said += look(language, theme);
        }
        next();
        said += look(language, theme);
        choose(0);
        said += look(language, theme);
        next();
        for (let at = 0; at < told().stops.length; at += 1) {
          grindTo(at);
          said += look(language, theme);
        }
        next();
        said += look(language, theme);
        next();
        said += look(language, theme);
      }
      byId("still").hidden = false;
      openMaker();
      said += look(language, theme, "still") + look(language, theme, "maker");
      byId("maker").close();
    }
  }
  return [said, found];
}"""


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_targets_are_large_and_all_words_stay_in_their_boxes(size, tablet):
    page = tablet("", size)
    page.evaluate("Promise.all([...document.fonts].map((one) => one.load()))")
    least = min(22 * max(size) / LONG_SIDE, 0.2 * min(size))
    # read from 3 m; a telephone is not
    far = letter_height(3000, 15) if max(size) > 1000 else 0
    said, found = page.evaluate(SEEN, [least, far])
    assert (said > 1000, found) == (True, [])


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
    page.reload()  # kept in the address, nowhere else
    page.keyboard.press("Enter")
    assert "5/32 in thick" in depth(page)  # 4.0 mm
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

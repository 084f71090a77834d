"""Every page of the kit under axe-core: what a machine can find of barriers."""

import io

import pytest
from axe_playwright_python.sync_playwright import Axe
from conftest import DESK, ROOT, Lab
from keyboard_walk import lost_on_the_way_down, start_leads_on
from lesson_page import SEEN, WALL, choose_look, faults, gap, pause, resize
from PIL import Image
from playwright.sync_api import Page, expect
from visits import VISITS

from kit.classroom.show.piece import letter_height

NOTEBOOKS = ROOT / "notebooks"
PAGES = {path.relative_to(NOTEBOOKS).as_posix() for path in NOTEBOOKS.rglob("*.ipynb")}
LESSONS = {visit.notebook for visit in VISITS}  # test_all_lessons looks at these
OURS = {"include": [[".kit-view"], [".jp-RenderedMarkdown"]]}  # JupyterLab's own: not ours
GRAVE = ("serious", "critical")
AXE = Axe()
_RUN = "(context) => axe.run(context ?? document, { resultTypes: ['violations'] })"
CAPITAL = 0.7  # of a letter's size: least of the fonts that a page may get


def violations(page: Page, context: object = None) -> list[dict]:
    """Give all that axe-core finds; once put into a page it stays there."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE.axe_script)
    return page.evaluate(_RUN, context)["violations"]


def grave(page: Page, context: object = None) -> list[str]:
    """Give what axe-core finds serious or critical, a line each."""
    return [
        f"{one['id']}: {node['html'][:160]}"
        for one in violations(page, context)
        if one["impact"] in GRAVE
        for node in one["nodes"]
    ]


def test_the_finder_finds(lab: Lab):
    page = lab.page
    page.set_content('<html lang="en"><body><main class="kit-view"><img src="x"></main>')
    assert grave(page, OURS), "a picture without words must be found"


def barriers(page: Page) -> list[str]:
    """Give what is grave on a page, indoors and in the sun, in small and in big type."""
    found = grave(page, OURS)
    if page.locator(".kit-bar").count():
        choose_look(page, "sunlight")
        choose_look(page, "big")
        pause(page)
        found += grave(page, OURS)
    return found


_HEAD = """() => {
  const image = document.querySelector('.jp-RenderedMarkdown img');
  const pane = document.querySelector('.jp-WindowedPanel-outer').getBoundingClientRect();
  const box = image.getBoundingClientRect();
  return [image.complete && image.naturalWidth, image.alt, pane.bottom - box.bottom];
}"""


def picture_at_once(page: Page) -> bool:
    """Say whether a page not yet started shows a whole picture, told, on a small laptop."""
    desk = page.viewport_size
    page.set_viewport_size({"width": 1280, "height": 720})
    page.wait_for_function("document.querySelector('.jp-RenderedMarkdown img')?.complete")
    wide, alt, below = page.evaluate(_HEAD)
    page.set_viewport_size(desk)
    return wide >= 1000 and bool(alt) and below > 0


# What is looked at, what moves it, and the sentence that answers, on pages of other kinds.
TOGETHER = {
    "questions.ipynb": (".kit-view", ".kit-frame img", ".kit-search", ".kit-breath"),
    "forge.ipynb": (".kit-view", ".kit-frame img", ".kit-says"),
    "measure.ipynb": (".kit-view", ".kit-frame img", ".kit-choice", ".kit-says"),
    "print.ipynb": (".kit-view", ".kit-main", ".kit-says"),
    "show.ipynb": (".kit-view", ".kit-tiles", ".kit-row-of-buttons", ".kit-says"),
    "homework/h1.ipynb": (".kit-check", ".kit-ask", ".kit-row-of-buttons", ".kit-says"),
    "homework/instructor.ipynb": (".kit-view", ".kit-row-of-buttons", ".kit-says"),
    "homework/quiz.ipynb": (".kit-check", ".kit-ask", ".kit-row", ".kit-ask"),
}
SHOWN = (".kit-view", ".kit-frame img", ".kit-slider", ".kit-row-of-buttons", ".kit-says")
_TOGETHER = """(card) => {
  const view = [...document.querySelectorAll(card)][0];
  view.scrollIntoView({ block: 'start' });
  const pane = document.querySelector('.jp-WindowedPanel-outer').getBoundingClientRect();
  return [pane.height, view.getBoundingClientRect().top];
}"""


def apart(page: Page, card: str, *parts: str, sizes: tuple = SEEN) -> list[tuple]:
    """Give what does not fit one screen with the top of its card, and by how much."""
    found, desk = [], page.viewport_size
    for wide, high in sizes:
        resize(page, wide, high)
        room, top = page.evaluate(_TOGETHER, card)
        for part in parts:
            box = page.locator(f"{card} {part}").first.bounding_box()
            if box["y"] + box["height"] - top > room:
                found.append((wide, high, part, box["y"] + box["height"] - top, room))
    page.set_viewport_size(desk)
    return found


def begin(page: Page, notebook: str) -> None:
    """Bring a page to where its work begins."""
    if "/h" in notebook:
        for name in ("Course code", "Your name or number"):
            page.get_by_label(name).fill("Nobody")
        page.get_by_role("button", name="Practice paper").click()
        page.get_by_role("button", name="Check my answer").first.click()
        page.locator(".kit-check .kit-says").first.wait_for()


BENCHES = ("00_start_here.ipynb", "forge.ipynb")
ROOM = 632  # of a laptop of 720 pixels
# from the top of the card to the lower edge of what must be in sight together
_LOWEST = """() => {
  const card = document.querySelector('.kit-forge');
  const top = card.getBoundingClientRect().top;
  const parts = ['.kit-strip', '.kit-frame', '.kit-sentence', '.kit-slider-row',
    '.kit-says'];
  const all = parts.flatMap((part) => [...card.querySelectorAll(part)]);
  return Math.max(...all.map((part) => part.getBoundingClientRect().bottom)) - top;
}"""


def _forged_in_sight(page: Page) -> None:
    """Forge some steps; strip, picture, sentence and numbers stay in sight together."""
    for place in (0, 1, 3):
        if place:
            gap(page, "next").select_option("dent" if place == 1 else "draw out")
            pause(page)
        for wide, high in SEEN:
            resize(page, wide, high)
            room = ROOM if high == 720 else ROOM + 80
            assert page.evaluate(_LOWEST) <= room, (place, wide, high)
            assert faults(page) == [], (place, wide, high)


@pytest.mark.parametrize("notebook", sorted(PAGES - LESSONS))
def test_one_screen_shows_what_goes_together_and_nothing_bars_the_way(
    lab: Lab, notebook: str
):
    assert picture_at_once(lab.open(notebook))
    page = lab.start()
    assert start_leads_on(page)
    found = []
    if notebook in BENCHES:
        _forged_in_sight(page)
    if notebook in TOGETHER:
        begin(page, notebook)
        found += apart(page, *TOGETHER[notebook])
    found += barriers(page)
    if notebook in TOGETHER and page.locator(".kit-bar").count():
        found += apart(page, *TOGETHER[notebook], sizes=WALL)
    if notebook == "show.ipynb":
        page.locator(".kit-tiles label").first.click()
        page.get_by_role("button", name="Show me").click()
        page.locator(SHOWN[1]).wait_for()
        found += apart(page, *SHOWN, sizes=SEEN + WALL)
    if page.locator(".kit-bar").count():
        choose_look(page, "indoors")
        choose_look(page, "normal")
        pause(page)
    assert found + lost_on_the_way_down(page) == []


def _white_in_the_sun_and_read_from_3_m(page: Page) -> None:
    choose_look(page, "sunlight")
    pause(page)
    seen = Image.open(io.BytesIO(page.screenshot())).convert("RGB")
    left, top = (seen.width // 8, seen.height // 4)
    greys = seen.crop((left, top, seen.width - 40, seen.height)).getcolors(1_000_000)
    assert max(greys)[1] == (255, 255, 255)
    assert not any(colour == (250, 247, 240) for _, colour in greys)  # paper, indoors
    choose_look(page, "big")
    for wide in (1280, 1920):  # pixels, on a page of a metre and a half
        resize(page, wide, wide * 10 // 16)
        for words in (".jp-RenderedMarkdown p", ".kit-ask", ".kit-name", ".kit-check p"):
            letters = page.locator(words).first.evaluate(
                "one => getComputedStyle(one).fontSize"
            )
            high = CAPITAL * float(letters.removesuffix("px")) * 1500 / wide
            assert high >= letter_height(3000, 20), (words, wide)
    choose_look(page, "indoors")
    choose_look(page, "normal")
    page.set_viewport_size(DESK)


def test_all_is_white_in_the_sun_and_what_is_opened_or_shut_stays_so_on_the_next_page(
    lab: Lab,
):
    lab.open("01_cut.ipynb")
    lab.page.evaluate("localStorage.clear()")  # as for a newcomer
    page = lab.start()
    looks = page.get_by_role("button", name="▸ Units, light, text size").first
    numbers = page.get_by_role("button", name="▾ Numbers").first
    expect(page.locator(".kit-bar label").first).to_be_hidden()
    expect(page.locator(".kit-numbers").first).to_be_visible()
    for one in (looks, numbers):
        one.focus()
        page.keyboard.press("Enter")
    for another in ("03_draw_out.ipynb", None):
        expect(page.locator(".kit-bar label").first).to_be_visible()
        expect(page.locator(".kit-numbers").first).to_be_hidden()
        if another:
            _white_in_the_sun_and_read_from_3_m(page)
            lab.open(another)
            lab.start()

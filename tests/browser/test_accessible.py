"""Every page of the kit under axe-core: what a machine can find of barriers."""

import io

import pytest
from axe_playwright_python.sync_playwright import Axe
from conftest import ROOT, Lab
from lesson_page import pause
from PIL import Image
from playwright.sync_api import Page
from visits import VISITS

from kit.classroom.show.piece import letter_height

NOTEBOOKS = ROOT / "notebooks"
PAGES = {path.relative_to(NOTEBOOKS).as_posix() for path in NOTEBOOKS.rglob("*.ipynb")}
LESSONS = {visit.notebook for visit in VISITS}  # test_all_lessons looks at these
OURS = {"include": [[".kit-view"], [".jp-RenderedMarkdown"]]}  # JupyterLab's own: not ours
GRAVE = ("serious", "critical")
CAPITAL = 0.7  # of a letter's size: least of the fonts that a page may get


def grave(page: Page, context: object = None) -> list[str]:
    """Give what axe-core finds serious or critical, a line each."""
    found = Axe().run(page, context=context).response["violations"]
    return [
        f"{one['id']}: {node['html'][:160]}"
        for one in found
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
    sun = page.locator(".kit-bar label", has_text="sunlight")
    big = page.locator(".kit-bar label", has_text="big")
    if sun.count():
        sun.first.click()
        big.first.click()
        pause(page)
        found += grave(page, OURS)
    return found


_HEAD = """() => {
  const image = document.querySelector('.jp-RenderedMarkdown img');
  const pane = document.querySelector('.jp-WindowedPanel-outer').getBoundingClientRect();
  const box = image.getBoundingClientRect();
  return [image.complete && image.naturalWidth, image.alt, pane.bottom - box.bottom];
}"""


@pytest.mark.parametrize("notebook", sorted(PAGES))
def test_a_picture_is_on_the_first_screen_before_anything_is_started(
    lab: Lab, notebook: str
):
    lab.page.set_viewport_size({"width": 1280, "height": 720})
    page = lab.open(notebook)
    page.wait_for_function("document.querySelector('.jp-RenderedMarkdown img')?.complete")
    wide, alt, below = page.evaluate(_HEAD)
    assert wide >= 1000
    assert alt
    assert below > 0


@pytest.mark.parametrize("notebook", sorted(PAGES - LESSONS))
def test_no_grave_barrier(lab: Lab, notebook: str):
    lab.open(notebook)
    page = lab.start()
    assert barriers(page) == []


def test_big_type_is_read_from_3_m_on_a_page_a_metre_and_a_half_wide(lab: Lab):
    lab.open("01_cut.ipynb")
    page = lab.start()
    page.locator(".kit-bar label", has_text="big").first.click()
    for wide in (1280, 1920):
        page.set_viewport_size({"width": wide, "height": wide * 10 // 16})
        pause(page)
        for words in (".jp-RenderedMarkdown p", ".kit-ask", ".kit-name", ".kit-check p"):
            letters = page.locator(words).first.evaluate(
                "one => getComputedStyle(one).fontSize"
            )
            high = CAPITAL * float(letters.removesuffix("px")) * 1500 / wide
            assert high >= letter_height(3000, 20), (words, wide)


def test_in_the_sun_the_whole_page_is_white(lab: Lab):
    lab.open("01_cut.ipynb")
    page = lab.start()
    page.locator(".kit-bar label", has_text="sunlight").first.click()
    pause(page)
    seen = Image.open(io.BytesIO(page.screenshot())).convert("RGB")
    left, top = (seen.width // 8, seen.height // 4)
    greys = seen.crop((left, top, seen.width - 40, seen.height)).getcolors(1_000_000)
    assert max(greys)[1] == (255, 255, 255)
    assert not any(colour == (250, 247, 240) for _, colour in greys)  # paper, indoors

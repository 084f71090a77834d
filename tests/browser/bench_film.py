"""The README's moving picture: lesson 04's bench, its main slider moved by hand.

    python tests/browser/bench_film.py

opens the lesson as a user does, predicts, grinds stop by stop, and writes what it saw.
"""

import io
import tempfile
from pathlib import Path

from launching import launched
from PIL import Image
from playwright.sync_api import Page, sync_playwright
from start_button import HAS_RUN, START

ROOT = Path(__file__).resolve().parents[2]
LESSON, FILM = "04_twist.ipynb", ROOT / "notebooks/img/bench.webp"
WIDE, SHOWN, REST = 720, 140, 1400  # pixels; ms a picture, and at both ends
FASTER = 4  # of the slider's stops a picture
SETTLED = 1200  # ms until a moved slider has its clean picture
BENCH = ".kit-view:has(.kit-main-control)"
# From the bench's top to the end of the sentence that answers its main slider.
_PART = """bench => {
  const all = bench.getBoundingClientRect();
  const says = bench.querySelector('.kit-says').getBoundingClientRect();
  return {x: all.x, y: all.y, width: all.width, height: says.bottom - all.y + 2};
}"""


def frames(page: Page) -> list[Image.Image]:
    """Move the main slider from its low end to its high end, and see each picture."""
    page.locator(".kit-main-control input[type=range]").first.focus()
    page.keyboard.press("Home")
    page.wait_for_timeout(SETTLED)
    number = page.locator(".kit-main-control input[type=text]").first
    seen = {}
    while (reached := number.input_value()) not in seen:
        seen[reached] = _bench(page)
        for _ in range(FASTER):
            page.keyboard.press("ArrowRight")
        page.wait_for_timeout(SETTLED)
    return list(seen.values())


def _bench(page: Page) -> Image.Image:
    box = page.locator(BENCH).first.evaluate(_PART)
    shot = Image.open(io.BytesIO(page.screenshot(clip=box))).convert("RGB")
    return shot.resize(
        (WIDE, round(shot.height * WIDE / shot.width)), Image.Resampling.LANCZOS
    )


def opened(page: Page, address: str) -> None:
    """Open the lesson, choose a tile, observe."""
    page.goto(address)
    page.wait_for_selector(".jp-Notebook h1")
    page.click(START)
    page.wait_for_selector(HAS_RUN)
    page.locator(".kit-tiles label").nth(1).click()
    page.wait_for_timeout(400)
    page.get_by_role("button", name="Observe").click()
    page.wait_for_timeout(4000)  # the lesson's own film
    page.locator(BENCH).first.evaluate("bench => bench.scrollIntoView({block: 'start'})")


if __name__ == "__main__":
    with (
        tempfile.TemporaryDirectory() as home,
        launched(ROOT, Path(home)) as kit,
        sync_playwright() as engines,
    ):
        browser = engines.chromium.launch(executable_path="/usr/bin/chromium")
        page = browser.new_page(viewport={"width": 1280, "height": 900})
        opened(page, f"{kit.address}/doc/tree/{LESSON}?token={kit.token}")
        first, *rest = frames(page)
        browser.close()
    back = [*rest, *rest[-2::-1]]
    times = [REST, *([SHOWN] * (len(rest) - 1)), REST, *([SHOWN] * (len(rest) - 1))]
    first.save(FILM, save_all=True, append_images=back, duration=times, loop=0, quality=70)

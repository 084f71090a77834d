"""What tests ask of a lesson's page: its picture, its words, its layout."""

import re
from pathlib import Path

from playwright.sync_api import Locator, Page, expect

# Screens that a page is looked at on: a small laptop, a larger one, a tablet upright; and
# a wall, in big type. What JupyterLab's own bars leave of them is measured on the page.
LAPTOP = {"width": 1280, "height": 720}
TABLET = {"width": 800, "height": 1280}
SEEN = ((1280, 720), (1280, 800), (800, 1280))
WALL = ((1920, 1080),)
ZOOMED = {"width": 640, "height": 400}  # 1280 × 800 at 200 %

# Wait for the clean picture, a PNG: a film and a moving slider show quick JPEGs.
_CLEAN = """async () => {
  const image = document.querySelector('.kit-frame img');
  for (let tries = 0; tries < 200; tries += 1) {
    const bytes = await (await fetch(image.src)).arrayBuffer();
    if (new Uint8Array(bytes)[0] === 0x89) return;
    await new Promise((done) => { setTimeout(done, 50); });
  }
  throw new Error('the clean picture did not come');
}"""
# Count the pictures shown: every film has more than five.
_COUNT = """() => {
  const image = document.querySelector('.kit-frame img');
  window.picturesShown = 0;
  const count = () => { window.picturesShown += 1; };
  new MutationObserver(count).observe(image, { attributeFilter: ['src'] });
}"""
# a checksum of the live picture's pixels, read back through a canvas
_PIXELS = """async () => {
  const image = document.querySelector('.kit-frame img');
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = image.naturalWidth; canvas.height = image.naturalHeight;
  const brush = canvas.getContext('2d');
  brush.drawImage(image, 0, 0);
  const data = brush.getImageData(0, 0, canvas.width, canvas.height).data;
  let sum = 0;
  for (let i = 0; i < data.length; i += 4) sum = (sum * 31 + data[i]) % 2147483647;
  return sum;
}"""
_FAULTS = (Path(__file__).parent / "faults.js").read_text("utf-8")


def containing(words: str) -> re.Pattern:
    """Match an attribute that contains these words, whatever spaces keep them together."""
    return re.compile(r"\s".join(map(re.escape, words.split(" "))))


def picture(page: Page) -> Locator:
    """Find the live picture."""
    return page.locator(".kit-frame img").first


def alt(page: Page) -> str:
    """Give the words of the live picture."""
    return picture(page).get_attribute("alt")


def pixels(page: Page) -> int:
    """Wait for the clean picture and give a checksum of it."""
    page.evaluate(_CLEAN)
    return page.evaluate(_PIXELS)


def faults(page: Page) -> list[str]:
    """Say what is cut off, covered or outside its card, at the size the page has now."""
    return page.evaluate(_FAULTS)


def choose_look(page: Page, words: str) -> None:
    """Choose units, light or text size, in the row that is opened for it."""
    fold = page.locator(".kit-bar .kit-fold").first
    if fold.get_attribute("aria-expanded") == "false":
        fold.click()
    page.locator(".kit-bar label", has_text=words).first.click()


def count_pictures(page: Page) -> None:
    """Begin to count the pictures that are shown, so that a film is not missed."""
    page.evaluate(_COUNT)


def watch_film(page: Page) -> None:
    """Wait until the film has begun, and then for its end: the clean picture."""
    page.wait_for_function("window.picturesShown > 5")
    page.evaluate(_CLEAN)


def pause(page: Page) -> None:
    """Wait as long as no reader needs from a choice to the next button.

    A page keeps a changed choice back while Python answers the one before; a button
    pressed within that time, some hundredths of a second, would overtake it.
    """
    page.wait_for_timeout(250)


# Until panes, cards and pictures have kept their size for some frames.
_LAID = """() => new Promise((done) => {
  let same = 0, was = '';
  const look = () => {
    const all = document.querySelectorAll('.jp-WindowedPanel-outer, .kit-view, img');
    const boxes = [...all].map((one) => one.getBoundingClientRect());
    const now = boxes.map(({ width, height }) => `${width} ${height}`).join();
    same = now === was ? same + 1 : 0;
    was = now;
    if (same > 3) done(); else requestAnimationFrame(look);
  };
  look();
})"""


def resize(page: Page, wide: int, high: int) -> None:
    """Give the page another size and wait until all on it has its own."""
    page.set_viewport_size({"width": wide, "height": high})
    page.evaluate(_LAID)


def begin_film(page: Page, tile: str) -> None:
    """Predict with the tile above these words, and press Observe."""
    page.locator(".kit-tiles label", has_text=tile).click()
    pause(page)
    count_pictures(page)
    page.get_by_role("button", name="Observe").click()


def observe(page: Page, tile: str) -> None:
    """Predict with the tile above these words, and watch the film to its end."""
    begin_film(page, tile)
    watch_film(page)


def view(page: Page) -> Locator:
    """Find the lesson's main view; a lesson may have more below it."""
    return page.locator(".kit-view:has(.kit-controls)").first


def slider(page: Page, label: str) -> Locator:
    """Find a slider of the main view by its name."""
    return view(page).locator(f"input[type=range][aria-label='{label}']")


def box(page: Page, label: str) -> Locator:
    """Find the box beside that slider, in which a value is typed."""
    return view(page).get_by_label(f"{label}, type a value")


def gap(page: Page, key: str) -> Locator:
    """Find a bold word of a sentence of the forge."""
    return page.locator(f'[data-kit-key="{key}"]')


def no_traceback(page: Page) -> None:
    """Check that no student sees Python's own words for an error."""
    expect(page.locator(".jp-RenderedText[data-mime-type*=stderr]")).to_have_count(0)

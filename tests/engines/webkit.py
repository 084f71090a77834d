"""The tablet's page, a telephone's, a lesson and the forge in WebKit, an iPad's engine.

    xvfb-run -a python tests/engines/webkit.py

in an environment with selenium and the kit, on a machine with WebKitWebDriver. It prints
"N passed, 0 failed" and fails loudly. WebKit lays boxes out by the same rules and its own
mistakes: pictures once lay over the words of the tiles, here alone.
"""

from __future__ import annotations

import functools
import http.server
import re
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from selenium import webdriver
from selenium.common.exceptions import NoSuchElementException as Missing
from selenium.common.exceptions import StaleElementReferenceException as Stale
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.remote.webdriver import WebDriver
from selenium.webdriver.remote.webelement import WebElement
from selenium.webdriver.support.ui import WebDriverWait
from selenium.webdriver.webkitgtk.options import Options
from selenium.webdriver.webkitgtk.service import Service

from kit.basics import files
from kit.classroom.phone import page as phone
from kit.classroom.phone.piece import piece_of
from kit.classroom.show import page
from kit.classroom.show.piece import languages

PAGES = Path(__file__).parents[1] / "browser"
sys.path.append(str(PAGES))
from start_button import HAS_RUN, START  # noqa: E402  (no package)

BROWSER = next(Path("/usr/lib").glob("*/webkit2gtk-*/MiniBrowser"))
SIZES = ((1280, 860), (800, 1280))
TELEPHONE, ON_IT = (420, 800), ("01", "four blades")  # and which lessons are tried there
HIDDEN = (PAGES / "faults.js").read_text("utf-8")
ONE_WORD = 1.1  # s: letters that follow sooner are taken for the same word of a list
MOST_TIME = 600  # s, that a lesson is open
# What covers what: words that lie under a picture, words that stick out of the glass.
FAULTS = """
const shown = (one) => one.getClientRects().length > 0;
const faults = [];
for (const tile of document.querySelectorAll("#tiles button")) {
  const [picture, words] = ["img", "span"]
    .map((name) => tile.querySelector(name).getBoundingClientRect());
  const beside = picture.left >= words.right - 1 || picture.right <= words.left + 1;
  const above = picture.bottom <= words.top + 1;
  if (shown(tile) && !beside && !above) faults.push("picture over its words");
}
const all = document.querySelectorAll("main :is(h2, p, button:not(#start), span, li)");
for (const one of [...all].filter((one) => shown(one) && one.innerText.trim())) {
  const box = one.getBoundingClientRect();
  if (box.left < -1 || box.right > innerWidth + 1 || box.bottom > innerHeight + 1) {
    faults.push(`cut off: ${one.innerText}`);
  }
}
return faults;
"""


@contextmanager
def browser(size: tuple[int, int]) -> Iterator[WebDriver]:
    options = Options()
    options.binary_location = str(BROWSER)
    options.add_argument("--automation")
    driver = webdriver.WebKitGTK(options, Service("/usr/bin/WebKitWebDriver"))
    try:
        driver.set_window_size(*size)
        yield driver
    finally:
        driver.quit()


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """Serve a folder to this machine; WebDriver opens no files."""
    quiet = type("Quiet", (http.server.SimpleHTTPRequestHandler,), {"log_message": _no})
    handler = functools.partial(quiet, directory=folder)
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}"
        server.shutdown()


def _no(*_anything: object) -> None:
    """Keep quiet."""


@contextmanager
def lesson(name: str) -> Iterator[str]:
    """Open a lesson as the README says; give its address."""
    typed = [sys.executable, "-m", "kit", "--no-browser", "--lesson", name]
    kit = subprocess.Popen(typed, stdout=subprocess.PIPE, text=True)
    limit = threading.Timer(MOST_TIME, kit.kill)  # ends reading its words, too
    limit.start()
    try:
        found = (re.search(r"http://\S+", line) for line in kit.stdout)
        yield next(match[0] for match in found if match)
    finally:
        limit.cancel()
        kit.send_signal(signal.SIGINT)
        try:
            kit.wait(30)
        except subprocess.TimeoutExpired:
            kit.kill()
            kit.wait(10)


def show_page(driver: WebDriver, address: str, language: str) -> None:
    """Go once round the show page, by touch; nothing may be covered or cut off."""

    def press(name: str) -> None:
        driver.find_element(By.ID, name).click()

    def state() -> str:
        return driver.execute_script("return state")

    driver.get(f"{address}/show.html#idle=180&language={language}")
    driver.refresh()
    for name, next_step in (
        ("attract", "start"), ("predict", "show-me"), ("observe", "to-why"),
        ("why", "to-card"), ("card", "to-start"),
    ):  # fmt: skip
        assert state() == name, (state(), name)
        if name == "predict":
            driver.find_elements(By.CSS_SELECTOR, "#tiles button")[3].click()
        if name == "observe":
            driver.switch_to.active_element.send_keys(*[Keys.ARROW_RIGHT] * 4)
            said = driver.find_element(By.ID, "verdict").text
            english = "✓ You saw it coming."
            assert said == languages()[language]["words"].get(english, english), said
        assert (faults := driver.execute_script(FAULTS)) == [], (name, language, faults)
        press(next_step)
    assert state() == "attract"


def phone_page(driver: WebDriver, address: str, key: str) -> None:
    """Go through a lesson's page by keys; its pictures are there, nothing sticks out."""

    def find(name: str) -> WebElement:
        return driver.find_element(By.CSS_SELECTOR, name)

    asked = phone.PAGES[key]
    driver.get(f"{address}/{phone.file_of(key)}")
    find("#tiles button").send_keys(Keys.ARROW_RIGHT)
    find("#show-me").send_keys(Keys.ENTER)
    find("#grind").send_keys(Keys.END)
    assert driver.execute_script("return stop === told().asked"), key
    seen = "return [...strip.children].every((one) => one.naturalWidth > 0)"
    assert driver.execute_script(seen), key
    find("#to-why").send_keys(Keys.ENTER)
    found = find("#found").text.replace("\u00a0", " ")
    assert asked.question.observed[:40] in found, key
    find("#reasons button").send_keys(Keys.ENTER)
    assert find("#reason-says").text, key
    find("#to-check").send_keys(Keys.ENTER)
    check = asked.checks[0]
    right = f"{check.answer(check.given):.10g}"
    for typed, said in (("much", "I cannot read"), (right, "✓ Right.")):
        find("#answer").clear()
        find("#answer").send_keys(typed, Keys.ENTER)
        assert find("#judged").text.startswith(said), (key, typed)
        wide = "return document.documentElement.scrollWidth <= innerWidth"
        assert driver.execute_script(wide), key


def one(wait: WebDriverWait, selector: str) -> WebElement:
    """Find a part of a page once it is there."""
    return wait.until(lambda driver: driver.find_element(By.CSS_SELECTOR, selector))


def begun(driver: WebDriver, address: str) -> WebDriverWait:
    """Open a page of the lessons and press Start; give what waits for its parts."""
    # A picture or a sentence may be drawn anew between being found and being read.
    wait = WebDriverWait(driver, 90, ignored_exceptions=(Missing, Stale))
    driver.get(address)
    one(wait, START).click()
    one(wait, HAS_RUN)
    return wait


def a_lesson(driver: WebDriver, address: str) -> None:
    """Predict, observe, move a slider by its keys, answer a check."""
    wait = begun(driver, address)

    def picture() -> str:
        frame = (By.CSS_SELECTOR, ".kit-frame img")
        return wait.until(lambda _: driver.find_element(*frame).get_attribute("alt"))

    def told(words: str) -> None:
        all_said = functools.partial(driver.find_elements, By.CSS_SELECTOR, ".kit-says")
        wait.until(lambda _: any(words in each.text for each in all_said()))

    tile = one(wait, ".kit-tiles label:nth-of-type(2) input")
    driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", tile)
    tile.click()
    observe = driver.find_elements(By.CSS_SELECTOR, "button.kit-main")
    next(each for each in observe if each.text == "Observe").click()
    told("You predicted it")
    before = picture()
    slider = one(wait, ".kit-slider input[type=range]")
    driver.execute_script("arguments[0].focus()", slider)
    slider.send_keys(*[Keys.ARROW_RIGHT] * 3)
    wait.until(lambda _: picture() != before)
    lane = one(wait, ".kit-check .kit-row label:nth-of-type(3) input")
    driver.execute_script("arguments[0].click()", lane)
    one(wait, ".kit-check input[type=text]").send_keys("1.23", Keys.ENTER)
    told("Not yet")


def the_forge(driver: WebDriver, address: str) -> None:
    """Do three things to a bar by keyboard; each has its pictures, and all is in sight."""
    wait = begun(driver, address)
    picture = "return document.querySelector('.kit-forge .kit-frame img').alt"
    drawn = "return document.querySelectorAll('.kit-strip li > :not(.kit-undrawn)').length"
    for done, verb in enumerate(("fold", "hammer", "dent"), start=1):
        before = driver.execute_script(picture)
        to_do = driver.find_element(By.CSS_SELECTOR, '[data-kit-key="next"]')
        driver.execute_script("arguments[0].focus()", to_do)
        to_do.send_keys(verb, Keys.ENTER)
        wait.until(lambda _, many=done + 1: driver.execute_script(drawn) == many)
        after = driver.execute_script(picture)
        assert after != before, verb
        assert f"after {done} step" in after, after
        assert driver.execute_script(f"return ({HIDDEN})()") == [], verb
        time.sleep(ONE_WORD)


def main() -> None:
    """Run all; the last line counts."""
    passed = 0
    with tempfile.TemporaryDirectory() as folder, served(Path(folder)) as address:
        files.write(Path(folder) / "show.html", page.page(page.own_pieces()))
        for size in SIZES:
            with browser(size) as driver:
                for language in languages():
                    show_page(driver, address, language)
                    passed += 1
        for key in ON_IT:
            asked = phone.PAGES[key]
            first, *_, last = (one[asked.main] for one in asked.states())
            text = phone.page(piece_of(asked, values=sorted((first, last))))
            files.write(Path(folder) / phone.file_of(key), text)
        with browser(TELEPHONE) as driver:
            for key in ON_IT:
                phone_page(driver, address, key)
                passed += 1
    with lesson("01_cut.ipynb") as address, browser(SIZES[0]) as driver:
        a_lesson(driver, address)
        passed += 1
    with lesson("forge.ipynb") as address:
        for size in SIZES:
            with browser(size) as driver:
                the_forge(driver, address)
                passed += 1
    print(f"{passed} passed, 0 failed")


if __name__ == "__main__":
    main()

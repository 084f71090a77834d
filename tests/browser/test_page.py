"""What a user meets: one page, one Start, nothing that runs by itself."""

from pathlib import Path

import pytest
from conftest import DESK, HAS_RUN, SCRATCH, START, STRANGER, TRAPPED, Lab
from launching import Server
from playwright.sync_api import Page, expect
from scratch import lesson
from test_accessible import grave

from kit.basics.notebook_file import write

SLIDER = ".noUi-handle"
SCROLLED = "document.querySelector('.jp-WindowedPanel-outer').scrollTop"
FOCUSED = "document.activeElement.textContent"
# The letters that go into a full line: a letter is about half as wide as high.
_LETTERS_IN_A_LINE = """paragraph => {
  const size = parseFloat(getComputedStyle(paragraph).fontSize);
  return paragraph.clientWidth / (0.53 * size);
}"""


def _ran(lab: Lab) -> bool:
    return (lab.server.folder / "ran.txt").exists()


def _wait_until_ran(lab: Lab) -> None:
    for _ in range(100):
        if _ran(lab):
            return
        lab.page.wait_for_timeout(100)
    pytest.fail("the lesson did not run")


def _led_on(page: Page) -> bool:
    """Say whether the keyboard is on the first control, in sight."""
    box = page.locator(SLIDER).bounding_box()
    return page.evaluate(f"document.activeElement.matches('{SLIDER}')") and (
        88 <= box["y"] <= DESK["height"] - box["height"]
    )


def test_start_runs_the_lesson_and_leads_on_to_what_there_is_to_do(lab: Lab):
    page = lab.open(SCRATCH)
    page.wait_for_timeout(1000)
    assert not _ran(lab), "opening a page must not run it"
    lab.start()
    page.wait_for_selector(SLIDER)
    assert page.locator(".jp-Dialog").count() == 0
    page.wait_for_timeout(500)  # a late jump would come now
    assert _led_on(page)

    page.focus(SLIDER)
    page.keyboard.press("ArrowRight")
    page.get_by_text("112 layers").first.wait_for()
    page.click(".scratch-counter")
    page.get_by_text("pressed 1").wait_for()


def test_without_our_file_the_lesson_still_runs(
    server: Server, new_page: Page, complaints: list[str]
):
    """The place is lost then, which shows that the test above tests something."""
    new_page.route("**/steel-lessons/static/page.js*", lambda route: route.abort())
    lab = Lab(server, new_page)
    page = lab.open(SCRATCH)
    page.wait_for_timeout(2000)  # nobody holds Start back until Python is there
    page.click(START)
    page.wait_for_selector(SLIDER, state="attached")
    page.wait_for_function(f"{SCROLLED} > 500")
    complaints[:] = [c for c in complaints if c.startswith("outside")]
    lab.close()


def test_keyboard_alone(lab: Lab):
    page = lab.open(SCRATCH)
    for _ in range(5):
        page.keyboard.press("Tab")
        if "Start" in page.evaluate(FOCUSED):
            break
    ring = page.evaluate("getComputedStyle(document.activeElement).outline")
    assert ring.startswith("rgb(11, 85, 99) solid 3px")
    for key in ("Enter", "Space"):
        (lab.server.folder / "ran.txt").unlink(missing_ok=True)
        page.focus(START)
        page.keyboard.press(key)
        _wait_until_ran(lab)
        page.wait_for_selector(HAS_RUN)
        assert _led_on(page)

    # JupyterLab would take these letters for orders.
    parts = page.locator(".jp-Notebook .jp-Cell")
    before = parts.count()
    page.wait_for_timeout(500)  # the second run puts a new slider in place
    page.focus(SLIDER)
    page.keyboard.type("abxdd")
    parts.nth(3).click(position={"x": 900, "y": 20})
    page.keyboard.type("abxddm00")
    page.wait_for_timeout(300)
    assert parts.count() == before
    assert page.locator(".jp-Dialog").count() == 0


def test_keyboard_leads_from_a_control_to_the_code_below_it(lab: Lab):
    lab.open(SCRATCH)
    page = lab.start()
    page.wait_for_selector(SLIDER)
    page.focus(SLIDER)
    for key in ("Escape", "ArrowDown", "Enter"):
        page.keyboard.press(key)
        page.wait_for_timeout(300)
    active = page.locator(".jp-mod-editMode .jp-Cell.jp-mod-active")
    expect(active).to_contain_text("7 * 2**4")
    page.keyboard.type("print('by ' + 'hand');")
    page.keyboard.press("Shift+Enter")
    page.get_by_text("by hand").wait_for()


def test_used_lesson_leaves_its_file_as_it_was(lab: Lab, tmp_path: Path):
    file = lab.server.folder / SCRATCH
    write(lesson(), tmp_path / SCRATCH)
    text = (tmp_path / SCRATCH).read_bytes()
    page = lab.open(SCRATCH)
    written = file.stat().st_mtime_ns
    lab.start()
    page.wait_for_selector(SLIDER)
    page.focus(SLIDER)
    page.keyboard.press("End")
    page.get_by_text("1792 layers").wait_for()
    page.click("h1")
    page.keyboard.press("Control+s")
    for _ in range(50):
        page.wait_for_timeout(100)
        if file.stat().st_mtime_ns != written:
            break
    page.wait_for_timeout(300)  # the server writes in two goes
    assert file.stat().st_mtime_ns != written, "the lesson was not saved"
    assert file.read_bytes() == text
    assert not list(lab.server.folder.rglob(".ipynb_checkpoints"))


@pytest.mark.parametrize(
    ("name", "told"),
    [(STRANGER, "Somebody else’s page."), (TRAPPED, "This page was changed.")],
)
def test_strange_page_says_so_and_start_asks(lab: Lab, name: str, told: str):
    page = lab.open(name)
    line = page.get_by_role("note")
    expect(line).to_contain_text(told)
    expect(line).to_contain_text(
        "If you press Start or run a part of it, its code runs on this computer"
    )
    page.wait_for_timeout(1500)
    assert not page.evaluate("window.caught === true")
    page.click(START)
    question = page.get_by_role("dialog", name=told)
    expect(question.get_by_role("button", name="Do not start")).to_be_focused()
    assert grave(page, {"include": [[".steel-whose"], [".steel-question"]]}) == []
    for no in ("Escape", "Enter"):
        page.keyboard.press(no)
        question.wait_for(state="hidden")
        page.wait_for_timeout(300)
        assert lab.server.ask("/api/kernels") == [], "no Python before the yes"
        assert not _ran(lab)
        page.click(START)
    question.get_by_role("button", name="Start it").click()
    page.wait_for_selector(HAS_RUN)
    assert _ran(lab)
    page.click(START)  # asked once
    page.wait_for_timeout(300)
    expect(question).to_have_count(0)
    stored = (lab.server.folder / name).read_text("utf-8")
    assert told not in stored
    assert '"whose"' not in stored


def test_every_way_to_run_a_strange_page_asks(lab: Lab):
    page = lab.open(STRANGER)
    for key in ("Shift+Enter", "Control+Enter"):
        page.locator(".jp-CodeCell").nth(1).click()
        page.keyboard.press(key)
        page.get_by_role("dialog").get_by_role("button", name="Do not start").click()
        page.wait_for_timeout(300)
    page.get_by_text("Run this part").first.click()
    page.get_by_role("dialog").get_by_role("button", name="Do not start").click()
    assert lab.server.ask("/api/kernels") == []


def test_a_page_of_the_kit_asks_nothing_fits_and_keeps_its_code_shut(lab: Lab):
    lab.open(SCRATCH)
    page = lab.start()
    expect(page.get_by_role("note")).to_have_count(0)
    for hidden in (".jp-InputPrompt", ".jp-Placeholder", ".jp-Collapser"):
        assert page.locator(f".jp-Notebook {hidden}:visible").count() == 0
    page.get_by_text("56 layers").click()  # the numbers of a hidden cell
    page.keyboard.press("Enter")
    expect(page.locator(".jp-CodeCell").first.locator(".jp-Placeholder")).to_have_count(1)
    expect(page.locator(".jp-mod-editMode")).to_have_count(0)
    for width, height in ((1280, 800), (800, 1280)):
        page.set_viewport_size({"width": width, "height": height})
        line = page.eval_on_selector(".jp-RenderedMarkdown p", _LETTERS_IN_A_LINE)
        assert 45 < line < 85
        sideways = "page => page.scrollWidth - page.clientWidth"
        assert page.eval_on_selector(".jp-WindowedPanel-outer", sideways) <= 0

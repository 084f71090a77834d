"""What a user meets: one page, one Start, nothing that runs by itself."""

import pytest
from conftest import SCRATCH, START, STRANGER, TRAPPED, Lab

SLIDER = ".noUi-handle"
SCROLLED = "document.querySelector('.jp-WindowedPanel-outer').scrollTop"
FOCUSED = "document.activeElement.textContent"


def _ran(lab: Lab) -> bool:
    return (lab.server.folder / "ran.txt").exists()


def test_start_runs_the_lesson_and_keeps_the_readers_place(lab: Lab):
    page = lab.open(SCRATCH)
    page.wait_for_timeout(1000)
    assert not _ran(lab), "opening a page must not run it"
    lab.start()
    page.wait_for_selector(SLIDER)
    assert page.locator(".jp-Dialog").count() == 0
    page.wait_for_timeout(500)  # a late jump would come now
    assert page.evaluate(SCROLLED) == 0
    assert "Start" in page.evaluate(FOCUSED)

    page.focus(SLIDER)
    page.keyboard.press("ArrowRight")
    page.get_by_text("112 layers").first.wait_for()
    page.click(".scratch-counter")
    page.get_by_text("pressed 1").wait_for()


def test_without_our_file_the_lesson_still_runs(lab: Lab, complaints: list[str]):
    """The place is lost then, which shows that the test above tests something."""
    lab.page.route("**/steel-lessons/static/page.js*", lambda route: route.abort())
    page = lab.open(SCRATCH)
    page.wait_for_timeout(2000)  # nobody holds Start back until Python is there
    page.click(START)
    page.wait_for_selector(SLIDER, state="attached")
    page.wait_for_function(f"{SCROLLED} > 500")
    complaints[:] = [c for c in complaints if c.startswith("outside")]


@pytest.mark.parametrize("key", ["Enter", "Space"])
def test_keyboard_alone(lab: Lab, key: str):
    page = lab.open(SCRATCH)
    for _ in range(5):
        page.keyboard.press("Tab")
        if "Start" in page.evaluate(FOCUSED):
            break
    ring = page.evaluate("getComputedStyle(document.activeElement).outline")
    assert ring.startswith("rgb(11, 85, 99) solid 3px")
    page.keyboard.press(key)
    page.wait_for_selector(SLIDER)
    assert page.evaluate(SCROLLED) == 0


def test_letters_are_not_orders(lab: Lab):
    page = lab.open(SCRATCH)
    lab.start()
    before = page.locator(".jp-Notebook .jp-Cell").count()
    page.focus(SLIDER)
    page.keyboard.type("abxdd")
    page.locator(".jp-Cell").nth(3).click(position={"x": 900, "y": 20})
    page.keyboard.type("abxddm00")
    page.wait_for_timeout(300)
    assert page.locator(".jp-Notebook .jp-Cell").count() == before
    assert page.locator(".jp-Dialog").count() == 0


def test_used_lesson_leaves_its_file_as_it_was(lab: Lab):
    file = lab.server.folder / SCRATCH
    text, written = file.read_bytes(), file.stat().st_mtime_ns
    lab.open(SCRATCH)
    page = lab.start()
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


@pytest.mark.parametrize("name", [STRANGER, TRAPPED])
def test_strange_page_does_not_run(lab: Lab, name: str):
    page = lab.open(name)
    page.wait_for_timeout(1500)
    assert not page.evaluate("window.caught === true")
    assert not _ran(lab)
    page.click(START)
    page.get_by_text("This document is not trusted").wait_for()
    page.get_by_role("button", name="Cancel").click()
    page.wait_for_timeout(500)
    assert not _ran(lab)


@pytest.mark.parametrize(("width", "height"), [(1280, 800), (800, 1280)])
def test_page_fits_and_is_quiet(lab: Lab, width: int, height: int):
    lab.page.set_viewport_size({"width": width, "height": height})
    page = lab.open(SCRATCH)
    lab.start()
    page.wait_for_selector(SLIDER)
    for hidden in (".jp-InputPrompt", ".jp-Placeholder", ".jp-Collapser"):
        assert page.locator(f".jp-Notebook {hidden}:visible").count() == 0
    paragraph = page.locator(".jp-RenderedMarkdown p").last
    letters = page.evaluate(
        "p => p.clientWidth / (parseFloat(getComputedStyle(p).fontSize) * 0.53)",
        paragraph.element_handle(),
    )
    assert 45 < letters < 85
    sideways = "e => e.scrollWidth - e.clientWidth"
    assert page.eval_on_selector(".jp-WindowedPanel-outer", sideways) <= 0

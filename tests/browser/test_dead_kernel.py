"""Python dies in mid-work: the page says so and how to go on, and nothing is lost."""

import os
import signal
from collections.abc import Iterator
from pathlib import Path

import pytest
from conftest import Lab
from lesson_page import containing, gap, picture, pixels
from playwright.sync_api import BrowserContext, Page, expect

BENCH, HOMEWORK = "00_start_here.ipynb", "homework/h1.ipynb"
FOLDED = "22 layers of 1084 and 15N20. Its end: 21 dark and bright bands"


@pytest.fixture(scope="module")
def window(profile: BrowserContext) -> Iterator[Page]:
    """Give a window of its own: JupyterLab begins anew on it, and is not used again."""
    page = profile.new_page()
    yield page
    page.close()


def kill_python(lab: Lab) -> None:
    """End the page's kernel as a full memory would."""
    (session,) = lab.server.ask("/api/sessions")
    wanted = session["kernel"]["id"]
    for process in Path("/proc").glob("[0-9]*"):
        try:
            command = (process / "cmdline").read_bytes().decode()
        except OSError:
            continue
        if "ipykernel" in command and wanted in command:
            os.kill(int(process.name), signal.SIGKILL)
            return
    pytest.fail("the kernel's process was not found")


def told(page: Page):
    """Find the line about Python at the page's top."""
    return page.locator(".steel-stopped[role=alert]")


def dismiss(page: Page) -> None:
    """Answer JupyterLab's own dialog, if it comes."""
    button = page.locator(".jp-Dialog button.jp-mod-accept")
    button.wait_for(timeout=20_000)
    button.click()


def paper(page: Page) -> None:
    """Ask for the same paper."""
    page.get_by_label("Course code").fill("FORGE-A")
    page.get_by_label("Your name or number").fill("Student One")
    page.get_by_role("button", name="Give me my paper").click()
    page.get_by_label("Answer 1:").wait_for()


def test_a_lesson_says_that_python_stopped_and_brings_back_what_was_set(lab: Lab):
    lab.open(BENCH)
    page = lab.start()
    expect(told(page)).to_be_hidden()
    gap(page, "next").select_option("fold")
    expect(picture(page)).to_have_attribute("alt", containing(FOLDED))
    pixels(page)  # at rest
    kill_python(lab)
    dismiss(page)
    expect(told(page)).to_contain_text("Python stopped.")
    expect(told(page)).to_contain_text("Press Start again")
    expect(told(page)).to_be_in_viewport()
    lab.start()
    expect(told(page)).to_be_hidden()
    page.get_by_role("button", name="Bring back my").click()
    expect(picture(page)).to_have_attribute("alt", containing(FOLDED))


def test_nothing_is_called_right_that_nobody_checked(lab: Lab, complaints: list[str]):
    lab.open(HOMEWORK)
    page = lab.start()
    paper(page)
    row = page.locator(".kit-check").first
    row.get_by_label("Answer 1:").fill("17")
    row.get_by_role("button", name="Check my answer").click()
    expect(row.locator(".kit-says")).to_contain_text("✗")
    row.get_by_label("Answer 1:").press_sequentially("0")
    expect(row.locator(".kit-says")).to_have_text("Not checked yet.")
    row.get_by_label("Answer 1:").press("Backspace")
    row.get_by_role("button", name="Check my answer").click()
    expect(row.locator(".kit-says")).to_contain_text("✗")  # the same again is told again
    kill_python(lab)
    dismiss(page)
    expect(told(page)).to_be_in_viewport()
    row.get_by_label("Answer 1:").fill("704")
    row.get_by_role("button", name="Check my answer").click()
    expect(row.locator(".kit-says")).to_have_text("Not checked yet.")
    lab.start()
    expect(told(page)).to_be_hidden()
    paper(page)
    expect(
        page.locator(".kit-says", has_text="Your draft of 1 answers is back")
    ).to_be_visible()
    expect(page.get_by_label("Answer 1:")).to_have_value("17")
    # JupyterLab's own, of a button that was pressed while Python was not there
    complaints[:] = [one for one in complaints if one != "script: Cannot send"]

"""Hostile pages in a launched kit: nothing runs before somebody has said yes."""

import json
import os
import re
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from urllib.error import HTTPError, URLError
from urllib.parse import quote
from urllib.request import urlopen

import pytest
from attack import MARK, stored_models
from conftest import GO, HAS_RUN, ROOT, START, copy_of_the_kit, listening
from launching import Server, free_port, launched
from playwright.sync_api import Browser, BrowserContext, Page, Request, expect
from strange_files import VIEWED, changed, lay
from strange_pages import BROKEN, PAGES

CARRIER = "01_cut"  # as the kit brought it, and stored models put into it
CHANGED = "03_draw_out"  # a page of the kit that somebody changed
SECONDS, MEGABYTES = 2, 300
QUIET = 700  # milliseconds, in which a page would have begun to do what it wants
SHORT = 150  # what comes later than this is caught on the next page of the window
TRIPWIRE = "tripwire.txt"
SEEN = ".jp-Document:not(.lm-mod-hidden)"
THERE = """path => {
  const context = jupyterapp.shell.currentWidget?.context;
  return document.querySelector('.jp-Dialog')
    || (context?.path === path && context.isReady);
}"""
PLAIN = "raw"  # to begin with
OURS = re.compile(r"(http|ws)://127\.0\.0\.1[:/]|data:|blob:|attachment:|chrome")


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Give the user's home, where the tripwire is."""
    place = tmp_path_factory.mktemp("home")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("KIT_TRIPWIRE", str(place / TRIPWIRE))
        patch.setenv("PYTHONPATH", str(ROOT))
        yield place


@pytest.fixture(scope="module")
def kit(home: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """Launch the kit as a reader does, with strangers' pages among the lessons."""
    clone = tmp_path_factory.mktemp("clone")
    copy_of_the_kit(clone)
    lessons = clone / "notebooks"
    lay(lessons)
    for name, change in ((CARRIER, dict), (CHANGED, changed)):
        file = lessons / f"{name}.ipynb"
        page = change(json.loads(file.read_text("utf-8")))
        page["metadata"]["widgets"] = stored_models()
        file.write_text(json.dumps(page), "utf-8")
    with launched(clone, home) as running:
        yield running


@pytest.fixture(scope="module")
def window(profile: BrowserContext) -> Iterator[Page]:
    """Give one window for all pages: JupyterLab is read from the disk only once."""
    page = profile.new_page()
    yield page
    page.close()


def _peak(process: int, *, from_now: bool = False) -> float:
    """Give the most memory that a process had, in MB; 0 where that cannot be asked."""
    place = Path(f"/proc/{process}")
    if not place.is_dir():
        return 0
    if from_now:
        (place / "clear_refs").write_text("5")
    lines = (place / "status").read_text().splitlines()
    return next(int(line.split()[1]) for line in lines if "VmHWM" in line) / 1024


def _worked(process: int) -> float:
    """Give the seconds that a process has worked; of the clock where that is not told."""
    place = Path(f"/proc/{process}/stat")
    if not place.exists():
        return time.monotonic()
    user, system = place.read_text().rpartition(")")[2].split()[11:13]
    return (int(user) + int(system)) / os.sysconf("SC_CLK_TCK")


def _answered(kit: Server, file: str) -> None:
    """Ask the server for a file, whatever it answers; `ask` itself waits 20 s at most."""
    before, began = _peak(kit.process, from_now=True), _worked(kit.process)
    with suppress(HTTPError):
        kit.ask(f"/api/contents/{quote(file)}")
    assert _worked(kit.process) - began < SECONDS
    assert _peak(kit.process) - before < MEGABYTES


def _address(kit: Server, file: str) -> str:
    return f"{kit.address}/doc/tree/{quote(file)}?token={kit.token}"


def _open(kit: Server, window: Page, file: str, shown: str) -> list[str]:
    """Open a file as a click on its name does; give what was asked of elsewhere."""
    asked, refused = [], []

    def failed(request: Request) -> None:
        if request.failure == "csp":
            refused.append(request.url)

    with listening(
        window, request=lambda request: asked.append(request.url), requestfailed=failed
    ):
        if not window.url.startswith(f"{kit.address}/doc/"):
            window.goto(_address(kit, f"{PLAIN}.ipynb"))
            window.wait_for_selector(".steel-whose")
        window.evaluate(GO, file)
        window.wait_for_function(THERE, arg=file)
        window.wait_for_selector(shown)
        window.wait_for_timeout(SHORT)
    if (dialog := window.locator(".jp-Dialog")).count():
        dialog.get_by_role("button").last.click()
    return [url for url in asked if not OURS.match(url) and url not in refused]


def _nothing_happened(kit: Server, window: Page) -> None:
    assert window.evaluate("window.tripped") is None
    assert window.title() != MARK
    assert not (kit.home / TRIPWIRE).exists()
    assert MARK not in str(kit.ask("/api/contents"))
    with pytest.raises(HTTPError, match="404"):
        kit.ask("/api/terminals")


def test_file_as_it_is_can_not_reach_the_server(kit: Server, window: Page):
    """A link may lead to it; scripts in it run, if at all, as on a page from nowhere."""
    for name in ("evil.html", "evil.svg"):
        window.goto(f"{kit.address}/files/{name}?token={kit.token}")
        window.wait_for_timeout(QUIET)
    assert MARK not in str(kit.ask("/api/contents"))
    assert kit.ask("/api/kernels") == []


@pytest.mark.parametrize("name", [*PAGES, CHANGED])
def test_strange_page_does_nothing(kit: Server, window: Page, name: str):
    _answered(kit, f"{name}.ipynb")
    assert _open(kit, window, f"{name}.ipynb", f"{SEEN} .steel-whose") == []
    told = "This page was changed." if name == CHANGED else "Somebody else’s page."
    expect(window.get_by_role("note")).to_contain_text(told)
    _nothing_happened(kit, window)
    assert kit.ask("/api/kernels") == [], "no Python for it"


@pytest.mark.parametrize("name", [*BROKEN, "linked"])
def test_broken_page_does_nothing(kit: Server, window: Page, name: str):
    _answered(kit, f"{name}.ipynb")
    _open(kit, window, f"{name}.ipynb", f".jp-Dialog, {SEEN} .steel-whose")
    _nothing_happened(kit, window)
    assert kit.ask("/api/kernels") == []


@pytest.mark.parametrize("name", VIEWED)
def test_other_file_does_nothing(kit: Server, window: Page, name: str):
    _answered(kit, name)
    assert _open(kit, window, name, f"{SEEN}, .jp-Dialog") == []
    _nothing_happened(kit, window)


def test_none_of_them_did_anything_later(kit: Server, window: Page):
    window.wait_for_timeout(QUIET)
    _nothing_happened(kit, window)
    assert kit.ask("/api/kernels") == []


def test_orders_to_jupyterlab_are_not_carried_out(kit: Server, window: Page):
    _open(kit, window, "commands.ipynb", f"{SEEN} .steel-whose")
    for button in window.locator("button.try").all():
        button.click()
        window.wait_for_timeout(200)
    expect(window.locator(".jp-Dialog, dialog[open], .jp-CodeConsole")).to_have_count(0)
    _nothing_happened(kit, window)
    assert kit.ask("/api/kernels") == []


def test_page_of_the_kit_is_the_kits_without_what_was_put_into_it(
    kit: Server, window: Page
):
    """It gets its Python at once, and that imports nothing from beside the page."""
    assert _open(kit, window, f"{CARRIER}.ipynb", f"{SEEN} .jp-Notebook h1") == []
    expect(window.locator(SEEN).get_by_role("note")).to_have_count(0)
    window.click(f"{SEEN} {START}")
    window.wait_for_selector(f"{SEEN} {HAS_RUN}", timeout=60_000)
    window.locator(f"{SEEN} .kit-view").first.wait_for()
    _nothing_happened(kit, window)


def test_after_the_yes_only_the_page_itself_runs(kit: Server, window: Page):
    """That its code trips the wire now shows that the wire is there."""
    _open(kit, window, "stored_views.ipynb", f"{SEEN} .steel-whose")
    window.click(f"{SEEN} {START}")
    window.get_by_role("button", name="Start it").click()
    window.wait_for_selector(f"{SEEN} {HAS_RUN}", timeout=60_000)
    window.wait_for_timeout(QUIET)
    ran = (kit.home / TRIPWIRE).read_text("utf-8").split()
    (kit.home / TRIPWIRE).unlink()
    assert set(ran) == {f"{MARK}__main__"}
    _nothing_happened(kit, window)  # the stored controls are not brought to life


def test_folder_of_a_stranger_entered_and_opened(home: Path, window: Page, tmp_path: Path):
    lay(tmp_path)
    (tmp_path / "kit.py").unlink()  # `python -m kit` would be this: README says so
    with launched(tmp_path, home, "--folder", ".") as kit:
        window.goto(_address(kit, "stored_models.ipynb"))
        window.wait_for_selector(".steel-whose")
        window.wait_for_timeout(QUIET)
        _nothing_happened(kit, window)
        assert kit.ask("/api/kernels") == []
        assert not (tmp_path / f"{MARK}.txt").exists()


def test_in_a_plain_jupyterlab_the_same_page_does_what_it_wants(
    browser: Browser, tmp_path: Path
):
    """Without this the tests above might be about a page that can do nothing."""
    name = "stored_models.ipynb"
    (tmp_path / name).write_text(json.dumps(PAGES["stored_models"]), "utf-8")
    port = free_port()
    address = f"http://127.0.0.1:{port}"
    options = (
        "--no-browser",
        f"--port={port}",
        "--IdentityProvider.token=a",
        "--allow-root",
    )
    command = [
        sys.executable,
        "-m",
        "jupyterlab",
        *options,
        f"--ServerApp.root_dir={tmp_path}",
    ]
    page = browser.new_page()
    lab = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        for _ in range(150):
            with suppress(URLError):
                urlopen(f"{address}/api/status?token=a", timeout=10)  # noqa: S310
                break
            time.sleep(0.2)
        page.goto(f"{address}/doc/tree/{name}?token=a")
        page.wait_for_function("window.tripped === 1")
        page.wait_for_timeout(QUIET)
        assert (tmp_path / f"{MARK}.txt").exists()
    finally:
        page.close()
        lab.kill()

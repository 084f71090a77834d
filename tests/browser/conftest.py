"""A launched kit and a browser, for tests that look at the page as a user does.

The kit is launched from a copy, with the lessons of the repository and a few
scratch notebooks beside them, so that no test can change a lesson.
"""

import json
import os
import re
import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from urllib.error import HTTPError

import pytest
from launching import Server, launched
from playwright.sync_api import (
    Browser,
    BrowserContext,
    BrowserType,
    ConsoleMessage,
    Page,
    Request,
    expect,
    sync_playwright,
)
from playwright.sync_api import Error as PlaywrightError
from scratch import lesson, trap
from show_tablet import tablets
from start_button import HAS_RUN, START

from kit.basics.notebook_file import file_text, write
from kit.course.pages import LIST, fingerprint
from kit.launch.list_own import listing

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
sys.path.append(str(ROOT / "tests" / "hostile"))
SCRATCH = "90_scratch.ipynb"  # listed as the kit's own
TRAPPED = "91_trapped.ipynb"  # listed as well, but scripts were put into it since
BROKEN = "92_broken.ipynb"  # listed, but half of the file is gone
STRANGER = "stranger.ipynb"  # not listed
_CLOSE = "for (const open of [...jupyterapp.shell.widgets('main')]) open.dispose()"
GO = "path => { jupyterapp.commands.execute('docmanager:open', { path }); }"
# Other tests may keep the processor busy meanwhile; what comes is waited for no longer.
expect.set_options(timeout=20_000)
_READ = ".jp-Notebook .jp-RenderedMarkdown h1"
DESK = {"width": 1280, "height": 800}
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Leave all that needs a browser to the gate, but for one lesson gone through."""
    for item in items:
        ours = item.path.parent == HERE and item.path.name != "test_lesson_02.py"
        if ours and not item.get_closest_marker("long"):
            item.add_marker(pytest.mark.gate)


@dataclass(frozen=True)
class Lab:
    """The lessons in a browser."""

    server: Server
    page: Page

    @property
    def url(self) -> str:
        """The address of the running kit, without a page."""
        return self.server.address

    @property
    def token(self) -> str:
        """The word that opens it."""
        return self.server.token

    def open(self, notebook: str) -> Page:
        """Open a notebook, in JupyterLab if it is there, and wait until it can be read."""
        inside = self.page.url.startswith(f"{self.url}/doc/")
        if inside:
            self.close()
        scratch = self.server.folder / SCRATCH
        if scratch.exists():  # it saves itself, and a test may have left it half typed
            write(lesson(), scratch)
        if inside:
            with suppress(PlaywrightError):  # a failed test may have left a dialog behind
                self.page.evaluate(GO, notebook)
                self.page.wait_for_selector(_READ, timeout=10_000)
                return self.page
        self.page.goto(f"{self.url}/doc/tree/{notebook}?token={self.token}")
        self.page.wait_for_selector(_READ)
        return self.page

    def start(self) -> Page:
        """Press Start on a page just opened and wait until all cells have run."""
        self.page.click(START)
        self.page.wait_for_selector(HAS_RUN)
        return self.page

    def close(self) -> None:
        """Close what is open, and end its Python: the next would be given the same."""
        with suppress(PlaywrightError):  # a page of another kind may be there, or none
            self.page.evaluate(_CLOSE)
        for session in self.server.ask("/api/sessions"):
            with suppress(HTTPError):  # JupyterLab was quicker
                self.server.ask(f"/api/sessions/{session['id']}", method="DELETE")


def copy_of_the_kit(folder: Path) -> None:
    """Copy what a clone has, and add the scratch notebooks."""
    # (what Python compiles meanwhile has another name at first)
    half_written = shutil.ignore_patterns("*.pyc.*")
    shutil.copytree(ROOT / "kit", folder / "kit", ignore=half_written)
    shutil.copytree(ROOT / "notebooks", folder / "notebooks")
    shutil.copy(ROOT / "pyproject.toml", folder)
    notebooks = folder / "notebooks"
    write(lesson(), notebooks / SCRATCH)
    since = fingerprint(lesson("Trap"))
    own = listing(notebooks) + f"{since}  {TRAPPED}\n{since}  {BROKEN}\n"
    (folder / LIST.relative_to(ROOT)).write_text(own, "utf-8")
    (notebooks / BROKEN).write_text(file_text(lesson())[:500], "utf-8")
    # A name of its own: JupyterLab's trust goes by the whole content of a notebook.
    (notebooks / STRANGER).write_text(file_text(lesson("Stranger")), "utf-8")
    (notebooks / TRAPPED).write_text(file_text(trap()), "utf-8")
    settings = folder / "kit/launch/settings/labconfig/page_config.json"
    shown = json.loads(settings.read_text("utf-8")) | {"exposeAppInBrowser": True}
    settings.write_text(json.dumps(shown), "utf-8")


def hostile_settings(home: Path) -> dict:
    """Give a Jupyter configuration that would break the lessons if it were read."""
    return {"ServerApp": {"root_dir": str(home), "base_url": "/elsewhere/"}}


def _hostile_home(home: Path) -> None:
    """Make a home with such a configuration."""
    (home / ".jupyter").mkdir(parents=True)
    text = json.dumps(hostile_settings(home))
    (home / ".jupyter" / "jupyter_server_config.json").write_text(text)


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """Launch the kit on the files themselves, so that a test can see what they become."""
    folder = tmp_path_factory.mktemp("clone")
    home = tmp_path_factory.mktemp("home")
    copy_of_the_kit(folder)
    _hostile_home(home)
    with launched(folder, home, "--edit") as running:
        yield running


def _browser_path(own: str) -> str | None:
    """Find the computer's browser, or the one that Playwright brought.

    Debian's package without windows is the same engine for a tenth less work.
    """
    for name in (
        "chromium-headless-shell", "chromium", "chromium-browser", "google-chrome",
    ):  # fmt: skip
        if found := shutil.which(name):
            return found
    return own if Path(own).exists() else None


@pytest.fixture(scope="session")
def chromium() -> Iterator[tuple[BrowserType, dict]]:
    """Give the browser that shows nothing; skip without one, but never in CI."""
    with sync_playwright() as playwright:
        path = _browser_path(playwright.chromium.executable_path)
        if path is None:
            reason = "no Chromium found: apt install chromium"
            if os.environ.get("CI") == "true":
                pytest.fail(reason)
            pytest.skip(reason)
        yield playwright.chromium, {"executable_path": path, "args": FLAGS}


@pytest.fixture(scope="session")
def profile(
    chromium: tuple[BrowserType, dict], tmp_path_factory: pytest.TempPathFactory
) -> Iterator[BrowserContext]:
    """Start a browser with one profile for all tests, kept on the disk while they run.

    JupyterLab's own files are fetched once and compiled once: a browser keeps what it
    compiled only where it may write, and a page opens with a quarter less work then.
    """
    kind, options = chromium
    folder = tmp_path_factory.mktemp("profile")
    context = kind.launch_persistent_context(folder, viewport=DESK, **options)
    yield context
    context.close()


@pytest.fixture(scope="session")
def browser(chromium: tuple[BrowserType, dict]) -> Iterator[Browser]:
    """Start a browser for profiles of a test's own: a tablet's, a stranger's."""
    kind, options = chromium
    browser = kind.launch(**options)
    yield browser
    browser.close()


@pytest.fixture
def complaints() -> list[str]:
    """Collect what must not be: errors, of Python too, requests to other computers."""
    return []


@contextmanager
def listening(page: Page, **notes: Callable) -> Iterator[Page]:
    """Hear of a page's events, by name, for a while: the window is that of all tests."""
    for event, note in notes.items():
        page.on(event, note)
    yield page
    for event, note in notes.items():
        page.remove_listener(event, note)


@contextmanager
def watched(page: Page, complaints: list[str]) -> Iterator[Page]:
    """Note what must not be on a page, and what Python sends of an error unseen."""

    def heard(frame: str | bytes) -> None:
        words = frame if isinstance(frame, str) else frame.decode(errors="replace")
        _, error, said = words.partition("Traceback (most recent call last)")
        if error:
            complaints.append(f"python: {said[-2000:]}")

    def said(message: ConsoleMessage) -> None:
        if message.type == "error":
            complaints.append(f"console: {message.text}")

    def asked(request: Request) -> None:
        if not re.match(r"(https?|wss?)://127\.0\.0\.1[:/]|data:|blob:", request.url):
            complaints.append(f"outside: {request.url}")

    with listening(
        page,
        websocket=lambda socket: socket.on("framereceived", heard),
        console=said,
        pageerror=lambda error: complaints.append(f"script: {error}"),
        request=asked,
    ):
        yield page


@pytest.fixture
def new_page(profile: BrowserContext, complaints: list[str]) -> Iterator[Page]:
    """Open an empty page; at the end there must be no complaints."""
    page = profile.new_page()
    with watched(page, complaints):
        yield page
    page.close()
    assert complaints == []


@pytest.fixture(scope="session")
def window(profile: BrowserContext) -> Page:
    """Give one window for all lessons, as a reader has: JupyterLab begins once."""
    window = profile.new_page()
    # A page that a test left in the middle of its save was closed for the next one.
    left = window.locator('.jp-Dialog[aria-label*="Disposed"]')
    window.add_locator_handler(left, lambda found: found.get_by_role("button").last.click())
    return window


@pytest.fixture
def page(window: Page, complaints: list[str]) -> Iterator[Page]:
    """Give the window; at the end there must be no complaints."""
    window.set_viewport_size(DESK)
    with watched(window, complaints):
        yield window
    assert complaints == []


@pytest.fixture
def tablet(browser: Browser, tmp_path: Path) -> Iterator[Callable[..., Page]]:
    """Give what opens the show page on a tablet, with settings in its address."""
    with tablets(browser, tmp_path) as opened:
        yield opened


@pytest.fixture
def lab(server: Server, page: Page) -> Iterator[Lab]:
    """Give the lessons in a browser, without anything running from another test."""
    (server.folder / "ran.txt").unlink(missing_ok=True)
    open_lab = Lab(server, page)
    yield open_lab
    open_lab.close()

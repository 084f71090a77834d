"""What the launched kit does, asked without a browser."""

import json
import os
import signal
import subprocess
import sys
import time
from contextlib import suppress
from pathlib import Path
from urllib.error import HTTPError
from urllib.parse import urlsplit
from urllib.request import url2pathname, urlopen

import pytest
from conftest import SCRATCH, STRANGER, TRAPPED, hostile_settings
from launching import Server, launched, started

from kit.basics.notebook_file import is_tidy
from kit.course.views.rehearse import TESTED


def test_terminal_says_where_and_how_to_stop(server: Server):
    first, address, stop = server.lines
    assert first == "The lessons are open at"
    assert address.startswith(f"{server.address}/doc/tree/")
    assert stop == "To stop: press Ctrl and C together in this window."


def test_no_page_hears_that_it_is_tested(server: Server):
    """Or its last cell would rehearse: seconds in which no student's page is busy."""
    kernel = server.ask("/api/kernels", method="POST")
    for told in Path("/proc").glob("[0-9]*/cmdline"):
        with suppress(OSError):
            if kernel["id"] in told.read_text("utf-8", errors="replace"):
                around = told.with_name("environ").read_text("utf-8", errors="replace")
                assert TESTED not in around
    server.ask(f"/api/kernels/{kernel['id']}", method="DELETE")


def test_a_program_started_in_the_background_hears_the_interrupt():
    """A shell has SIGINT ignored there, and Python hands that on to its children."""
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        waits = [sys.executable, "-c", "import time; time.sleep(60)"]
        process = started(waits, stderr=subprocess.DEVNULL)
        assert signal.getsignal(signal.SIGINT) is signal.SIG_IGN
    finally:
        signal.signal(signal.SIGINT, before)
    try:
        time.sleep(1)
        process.send_signal(signal.SIGINT)
        assert process.wait(timeout=20) != 0
    finally:
        process.kill()


def test_stranger_without_the_token_gets_nothing(server: Server):
    with pytest.raises(HTTPError, match="403"):
        urlopen(f"{server.address}/api/contents", timeout=20)  # noqa: S310


@pytest.mark.skipif(os.name == "nt", reason="the stand-in for a browser is a shell's")
def test_the_browsers_command_line_does_not_hold_the_word_that_opens_the_kit(
    server: Server, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """Every user of a computer can read what programs are called with."""
    browser, called = tmp_path / "browser", tmp_path / "called.txt"
    words = f'#!/bin/sh\necho "$@" > {called}.part\nmv {called}.part {called}\n'
    browser.write_text(words)
    browser.chmod(0o755)
    monkeypatch.setenv("BROWSER", str(browser))
    with launched(server.folder.parent, tmp_path, browser="") as other:
        for _ in range(100):
            if called.exists():
                break
            time.sleep(0.1)
        address = called.read_text().strip()
        assert other.token not in address
        leads_on = Path(url2pathname(urlsplit(address).path))
        assert other.token in leads_on.read_text("utf-8")
        house = leads_on.parents[1]
        assert house.name.startswith("steel-")
        assert house.stat().st_mode & 0o077 == 0, "nobody else may look into it"


def test_users_configuration_is_neither_read_nor_touched(server: Server):
    # It would have moved the lessons to another folder and another address.
    names = {item["name"] for item in server.ask("/api/contents")["content"]}
    assert SCRATCH in names
    # beside it a homework page that another test used keeps its papers: that is its job
    found = [path for path in (server.home / ".jupyter").rglob("*") if path.is_file()]
    assert found == [server.home / ".jupyter" / "jupyter_server_config.json"]
    assert json.loads(found[0].read_text()) == hostile_settings(server.home)


def test_settings_are_in_force(server: Server):
    listed = server.ask("/lab/api/settings")["settings"]
    settings = {item["id"]: item["schema"].get("properties") for item in listed}
    tracker = settings["@jupyterlab/notebook-extension:tracker"]
    assert tracker["windowingMode"]["default"] == "none"
    assert tracker["autoStartDefaultKernel"]["default"] is True
    news = settings["@jupyterlab/apputils-extension:notification"]
    assert news["fetchNews"]["default"] == "false"
    assert news["checkForUpdates"]["default"] is False


@pytest.mark.parametrize(
    ("name", "trusted"), [(SCRATCH, True), (TRAPPED, False), (STRANGER, False)]
)
def test_only_the_kits_own_notebooks_are_trusted(server: Server, name: str, trusted: bool):
    cells = server.ask(f"/api/contents/{name}")["content"]["cells"]
    marks = {c["metadata"]["trusted"] for c in cells if c["cell_type"] == "code"}
    assert marks == {trusted}


def test_saving_tidies_the_kits_own_notebooks_only(server: Server):
    for name, tidied in ((SCRATCH, True), (STRANGER, False)):
        file = server.folder / name
        before = file.read_bytes()
        model = server.ask(f"/api/contents/{name}")
        model["content"]["metadata"]["signature_of_use"] = "13:07"
        model["content"]["cells"][-1]["metadata"]["scrolled"] = True
        server.ask(f"/api/contents/{name}", method="PUT", content=model)
        assert (file.read_bytes() == before) is tidied
        assert is_tidy(file) is tidied
        file.write_bytes(before)


def test_every_launch_begins_with_fresh_lessons(server: Server):
    """What a reader does to a lesson reaches no file, and is gone at the next launch."""
    clone, name = server.folder.parent, "01_cut.ipynb"
    before = {path.name: path.read_bytes() for path in server.folder.glob("*.ipynb")}
    for launch in range(2):
        with launched(clone, server.home) as other:
            lessons = {item["name"] for item in other.ask("/api/contents")["content"]}
            assert name in lessons, f"launch {launch}"
            other.ask(f"/api/contents/{name}", "PATCH", {"path": "0.1875"})
            other.ask("/api/contents/02_stack_and_fold.ipynb", "DELETE")
    after = {path.name: path.read_bytes() for path in server.folder.glob("*.ipynb")}
    assert after == before

"""Every page is played through in a kernel, as a reader would: nothing fails in it.

What fails where a control is moved ends no cell: only a kernel's messages tell of it.
"""

from collections.abc import Iterator
from pathlib import Path

import pytest
from jupyter_client import BlockingKernelClient
from jupyter_client.manager import start_new_kernel

from kit.course.map import LESSONS
from tests.rehearsals import PAGES

ROOT = Path(__file__).parents[1]
FOLDER = ROOT / "notebooks"


@pytest.fixture(name="kernel", scope="module")
def fixture_kernel() -> Iterator[BlockingKernelClient]:
    manager, client = start_new_kernel(cwd=ROOT)
    yield client
    client.stop_channels()
    manager.shutdown_kernel(now=True)


def failures(kernel: BlockingKernelClient, code: str) -> list[str]:
    """Run code; give what its kernel told of errors."""
    told: list[str] = []

    def heard(message: dict) -> None:
        content = message["content"]
        if message["msg_type"] == "error":
            told.append("\n".join(content["traceback"]))
        elif content.get("name") == "stderr":
            told.append(content["text"])

    kernel.execute_interactive(code, timeout=300, output_hook=heard)
    return told


def test_every_page_is_rehearsed() -> None:
    pages = {path.stem for path in FOLDER.rglob("*.ipynb")}
    lessons = {page for page in pages if page[:2] in LESSONS}
    assert pages - lessons <= set(PAGES)


@pytest.mark.parametrize("page", PAGES)
def test_nothing_fails_where_a_page_is_played_through(page, kernel) -> None:
    played = f"from tests.rehearsals import rehearse; rehearse({page!r})"
    assert failures(kernel, played) == []


def test_what_fails_where_a_control_is_moved_is_found(kernel) -> None:
    """In a callback, which a kernel swallows."""
    press = "from ipywidgets import Button; b = Button(); b.on_click(lambda _: 1 / 0)"
    (told,) = failures(kernel, f"{press}; b.click()")
    assert "ZeroDivisionError" in told

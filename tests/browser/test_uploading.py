"""Photographs handed to a page: large ones open, too large ones get a sentence.

No message may be larger than a server takes that nobody has set up for us, as on a hub.
"""

import io
from pathlib import Path

import numpy as np
import pytest
from conftest import Lab
from lesson_page import picture
from PIL import Image
from playwright.sync_api import Page, WebSocket, expect

LIMIT = 10 * 1024 * 1024  # bytes: Tornado's websocket_max_message_size by default
SAYS = ".kit-says"


def noise(side: int) -> bytes:
    """Make a picture that no format makes smaller: 3 bytes a pixel."""
    dots = np.random.default_rng(1).integers(0, 256, (side, side, 3), np.uint8)
    stream = io.BytesIO()
    Image.fromarray(dots).save(stream, "png")
    return stream.getvalue()


SMALL, LARGE = noise(300), noise(2000)
TOO_LARGE = LARGE + bytes(33_000_000)


def choose(page: Page, file: Path, content: bytes) -> None:
    """Press the button and choose a file."""
    file.write_bytes(content)
    with page.expect_file_chooser() as chooser:
        page.get_by_role("button", name="Open a photograph").click()
    chooser.value.set_files(file)


@pytest.fixture
def sent(page: Page) -> list[int]:
    """Note how large the messages are that a page sends."""
    sizes: list[int] = []

    def note(socket: WebSocket) -> None:
        socket.on("framesent", lambda frame: sizes.append(len(frame)))

    page.on("websocket", note)
    return sizes


@pytest.fixture
def measuring(lab: Lab, sent: list[int]) -> Page:
    lab.open("measure.ipynb")
    page = lab.start()
    assert sent
    return page


def opened(page: Page, side: int) -> None:
    expect(picture(page)).to_have_attribute(
        "alt", f"A photograph of {side} by {side} pixels, no scale yet, with 0 marks."
    )


def test_twelve_megabytes_open_more_is_refused_and_the_next_one_opens(
    measuring: Page, sent: list[int], tmp_path: Path
):
    assert len(LARGE) > 12_000_000
    choose(measuring, tmp_path / "large.png", LARGE)
    opened(measuring, 2000)
    assert 1_000_000 < max(sent) < LIMIT
    assert len(TOO_LARGE) > 45_000_000
    for name, content, told in (
        ("huge.png", TOO_LARGE, "at most 40 MB. Given: 'huge.png' with 45 MB."),
        ("words.jpg", b"only words\n" * 9, "cannot read 'words.jpg' as a picture"),
        ("none.jpg", b"", "cannot read 'none.jpg' as a picture"),
    ):
        choose(measuring, tmp_path / name, content)
        expect(measuring.locator(SAYS).first).to_contain_text(told)
        choose(measuring, tmp_path / "small.png", SMALL)
        opened(measuring, 300)
        expect(measuring.locator(SAYS).first).to_contain_text("The photograph is open.")
    assert max(sent) < LIMIT

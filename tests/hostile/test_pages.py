"""What the launched kit's server makes of strangers' pages before a browser sees them."""

import asyncio
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from strange_files import lay
from strange_pages import BROKEN, PAGES
from tornado.web import HTTPError

from kit.launch.contents import _REFUSED, Contents

pytestmark = pytest.mark.gate


@pytest.fixture(scope="module")
def contents(tmp_path_factory: pytest.TempPathFactory) -> Contents:
    folder = tmp_path_factory.mktemp("pages")
    lay(folder)
    return Contents(root_dir=str(folder))


@pytest.mark.parametrize("name", [*PAGES, *BROKEN])
def test_a_page_that_is_opened_can_be_saved(contents: Contents, name: str):
    """It saves itself every few seconds: what cannot be saved would complain as often."""
    file = f"{name}.ipynb"

    async def open_and_save() -> str:
        try:
            given = await contents.get(file)
        except HTTPError as refusal:
            return f"{refusal.status_code} {refusal.log_message}"
        await contents.save(given, file)
        return "saved"

    before = (Path(contents.root_dir) / file).read_bytes()
    with ThreadPoolExecutor(1) as threads:  # a browser test here keeps a loop running
        answer = threads.submit(asyncio.run, open_and_save()).result(60)
    if answer != "saved":
        assert answer == f"400 {_REFUSED.format(file)}"
        assert (Path(contents.root_dir) / file).read_bytes() == before

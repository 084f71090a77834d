"""What the launched kit's server gives to a page, and what it writes from one."""

import asyncio
import copy
import json
from collections.abc import Coroutine
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from nbformat.v4 import new_code_cell, new_notebook, new_output

from kit.basics.notebook_file import file_text, tidy
from kit.course.pages import fingerprint
from kit.launch.contents import Contents

OWN = "02_fold.ipynb"
STRANGE = "stranger.ipynb"
MODELS = {"application/vnd.jupyter.widget-state+json": {"state": {"a": {"_esm": "x"}}}}


def page(code: str = "7", **metadata: object) -> dict:
    html = new_output("display_data", {"text/html": "<b>7</b>"})
    cell = new_code_cell(code, id="a", outputs=[html], metadata={"trusted": True})
    return new_notebook(cells=[cell], metadata=metadata)


@pytest.fixture
def contents(tmp_path: Path) -> Contents:
    return Contents(root_dir=str(tmp_path), own={OWN: fingerprint(page())})


def put(contents: Contents, name: str, notebook: dict) -> None:
    (Path(contents.root_dir) / name).write_text(file_text(notebook), "utf-8")


def done(work: Coroutine) -> dict:
    """Wait for work in a thread: a browser test in this process keeps a loop running."""
    with ThreadPoolExecutor(1) as threads:
        return threads.submit(asyncio.run, work).result(60)


def read(contents: Contents, name: str) -> dict:
    return done(contents.get(name))["content"]


def save(contents: Contents, name: str, notebook: dict) -> dict:
    model = {"type": "notebook", "format": "json", "content": notebook}
    done(contents.save(copy.deepcopy(model), name))
    return json.loads((Path(contents.root_dir) / name).read_text("utf-8"))


def told(notebook: dict) -> str:
    return notebook["metadata"]["steel"]["whose"]


@pytest.mark.parametrize("name", [OWN, STRANGE])
@pytest.mark.parametrize("code", ["7", "8"])
def test_no_stored_models_come_in_or_go_out(contents: Contents, name: str, code: str):
    put(contents, name, page(code, widgets=MODELS))
    given = read(contents, name)
    assert "widgets" not in given["metadata"]
    stored = save(contents, name, given | {"metadata": {"widgets": MODELS, "steel": 7}})
    assert stored["metadata"].keys() & {"widgets", "steel"} == set()


def test_whose_a_page_is_and_what_is_trusted(contents: Contents):
    for name, code, found in ((OWN, "7", "own"), (OWN, "8", "changed")):
        put(contents, name, page(code))
        assert told(read(contents, name)) == found
    put(contents, STRANGE, page(steel={"whose": "own"}))
    given = read(contents, STRANGE)
    assert told(given) == "strange"
    assert given["cells"][0]["metadata"]["trusted"] is False


def test_what_a_reader_makes_of_a_page_of_the_kit_stays_the_kits(contents: Contents):
    put(contents, OWN, page())
    given = read(contents, OWN)
    given["cells"][0]["source"] = "7 * 2"
    assert save(contents, OWN, given) == json.loads(file_text(tidy(given)))
    assert told(read(contents, OWN)) == "own"


@pytest.mark.parametrize("mark", [None, "own", {"whose": "own"}, ["own"], 7])
def test_no_page_can_say_that_it_is_the_kits(contents: Contents, mark: object):
    """JupyterLab itself would sign a page without results as soon as it is saved."""
    stranger = new_notebook(cells=[new_code_cell("8", id="a")], metadata={"steel": mark})
    put(contents, OWN, page())
    assert told(read(contents, OWN)) == "own"
    for name in (OWN, STRANGE):
        save(contents, name, stranger)
        assert told(read(contents, name)) == {OWN: "changed", STRANGE: "strange"}[name]


def test_strangers_files_are_saved_as_they_are(contents: Contents):
    used = page("8", mine="13:07")
    put(contents, STRANGE, used)
    assert save(contents, STRANGE, read(contents, STRANGE)) == json.loads(file_text(used))

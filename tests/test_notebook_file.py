"""The kit's own notebooks: using a lesson must not change its file."""

import copy
import json
from pathlib import Path

import nbformat
import pytest
from nbformat.v4 import new_code_cell, new_markdown_cell, new_notebook, new_output

from kit.basics.notebook_file import file_text, is_harmless, is_tidy, tidy, write


@pytest.fixture
def used() -> dict:
    """Make a notebook as JupyterLab has it after a lesson."""
    widget = {"application/vnd.jupyter.widget-view+json": {"model_id": "1"}}
    kept = [
        new_output("execute_result", {"text/plain": "112"}, execution_count=7),
        new_output("display_data", widget),
    ]
    cells = [
        new_markdown_cell("# Folding", metadata={"editable": False}, id="a"),
        new_code_cell(
            "view",
            id="b",
            execution_count=6,
            outputs=[new_output("display_data", widget)],
            metadata={
                "jupyter": {"source_hidden": True, "outputs_hidden": False},
                "execution": {"iopub.status.busy": "13:07"},
                "trusted": True,
            },
        ),
        new_code_cell(
            "7 * 2**4",
            id="c",
            execution_count=7,
            outputs=kept,
            metadata={"tags": ["keep_output"], "scrolled": True},
        ),
    ]
    metadata = {
        "kernelspec": {"name": "my-own", "display_name": "Mine"},
        "language_info": {"name": "python", "version": "3.11.2"},
        "widgets": {"state": {}},
    }
    return new_notebook(cells=cells, metadata=metadata)


def test_tidy_takes_out_what_comes_and_goes(used: dict):
    text, view, numbers = tidy(used)["cells"]
    assert text["metadata"] == {"editable": False}
    assert view["outputs"] == []
    assert view["execution_count"] is None
    assert view["metadata"] == {"jupyter": {"source_hidden": True}, "trusted": True}
    assert [o["data"] for o in numbers["outputs"]] == [{"text/plain": "112"}]
    assert numbers["execution_count"] == 1
    assert numbers["outputs"][0]["execution_count"] == 1
    assert numbers["metadata"] == {"tags": ["keep_output"]}
    assert tidy(used)["metadata"] == {
        "kernelspec": {
            "display_name": "Python 3 (ipykernel)",
            "language": "python",
            "name": "python3",
        },
        "language_info": {"name": "python"},
    }


def test_tidy_leaves_text_and_code_alone(used: dict):
    before = copy.deepcopy(used)
    after = tidy(used)
    assert used == before
    for old, new in zip(used["cells"], after["cells"], strict=True):
        for field in ("id", "cell_type", "source"):
            assert new[field] == old[field]


def test_tidy_twice_is_tidy_once(used: dict):
    assert tidy(tidy(used)) == tidy(used)


def test_file_is_what_the_server_writes(used: dict):
    """In a file long texts are lists of lines; both forms give the same letters."""
    used["cells"][0]["source"] = "# Folding\n\n7 × 2⁴\n"
    used["cells"][0]["attachments"] = {"a.svg": {"image/svg+xml": "<svg>\n</svg>"}}
    data = {"text/html": "<b>\n7</b>", "image/png": "iVBOR\n", "application/json": [7]}
    used["cells"][2]["outputs"] += [
        new_output("stream", text="112\nlayers"),
        new_output("display_data", data),
        new_output("error", ename="Cold", evalue="too cold", traceback=["a\n", "b"]),
    ]
    text = file_text(used)
    assert text == nbformat.writes(used) + "\n"
    assert file_text(json.loads(text)) == text


def test_written_notebook_is_tidy(used: dict, tmp_path: Path):
    file = tmp_path / "lesson.ipynb"
    write(used, file)
    assert is_tidy(file)
    assert "trusted" not in file.read_text("utf-8")
    assert [path.name for path in tmp_path.iterdir()] == ["lesson.ipynb"]
    file.write_text(file_text(used), "utf-8")
    assert not is_tidy(file)


@pytest.mark.parametrize(
    ("kind", "harmless"),
    [
        ("text/plain", True),
        ("image/png", True),
        ("text/html", False),
        ("image/svg+xml", False),
        ("application/javascript", False),
        ("application/vnd.jupyter.widget-view+json", False),
    ],
)
def test_stored_results_that_could_do_something(kind: str, harmless: bool):
    output = new_output("display_data", {"text/plain": "7", kind: "7"})
    cells = [new_markdown_cell("text"), new_code_cell("7", outputs=[output])]
    assert is_harmless(new_notebook(cells=cells)) is harmless

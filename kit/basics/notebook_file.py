"""
Keep the kit's own notebooks tidy, so that using a lesson does not change its file.

A tidy notebook holds its text and code, no results but those of cells tagged
``keep_output``, and nothing about the computer or the moment it was last run on.
"""

import copy
import json
from pathlib import Path
from typing import Any

from kit.basics import files
from kit.basics.told import kept

KEEP_OUTPUT = "keep_output"
_NOTEBOOK_METADATA = {
    "kernelspec": {
        "display_name": "Python 3 (ipykernel)",
        "language": "python",
        "name": "python3",
    },
    "language_info": {"name": "python"},
}
# `trusted` is the server's own mark: it never reaches the file, but without it
# a page would lose its trust each time it is saved.
_CELL_METADATA = {"deletable", "editable", "nbgrader", "tags", "trusted"}
# Pictures and plain text cannot do anything by themselves; HTML and scripts can.
_HARMLESS = {"text/plain", "image/png", "image/jpeg"}
_ALSO_TEXT = {"application/javascript", "image/svg+xml"}
_WIDGET = "application/vnd.jupyter.widget-view+json"


def tidy(notebook: dict[str, Any]) -> dict[str, Any]:
    """
    Take out of a notebook what comes and goes with each use.

    Parameters
    ----------
    notebook : dict
        A notebook of format 4, as read from its file. It is left as it is.

    Returns
    -------
    dict
        The same text and code, without results, counts, times and the state of
        the controls. Cells tagged ``keep_output`` keep their results, counted 1. In the
        text no line breaks between a number and its unit.
    """
    result = copy.deepcopy(notebook)
    result["metadata"] = copy.deepcopy(_NOTEBOOK_METADATA)
    for cell in result["cells"]:
        cell["metadata"] = _tidy_metadata(cell["metadata"])
        if cell["cell_type"] == "code":
            _tidy_results(cell)
        elif cell["cell_type"] == "markdown":
            cell["source"] = kept("".join(cell["source"]))
    return result


def _tidy_metadata(metadata: dict[str, Any]) -> dict[str, Any]:
    kept = {name: metadata[name] for name in metadata if name in _CELL_METADATA}
    shut = {
        name: True
        for name in ("outputs_hidden", "source_hidden")
        if metadata.get("jupyter", {}).get(name)
    }
    if shut:
        kept["jupyter"] = shut
    return kept


def _tidy_results(cell: dict[str, Any]) -> None:
    if KEEP_OUTPUT not in cell["metadata"].get("tags", ()):
        cell["outputs"] = []
        cell["execution_count"] = None
        return
    # A control without its state would be an empty box.
    cell["outputs"] = [o for o in cell["outputs"] if _WIDGET not in o.get("data", {})]
    cell["execution_count"] = 1
    for output in cell["outputs"]:
        if "execution_count" in output:
            output["execution_count"] = 1


def is_harmless(notebook: dict[str, Any]) -> bool:
    """
    Tell whether the stored results can do nothing by themselves.

    Parameters
    ----------
    notebook : dict
        A notebook of format 4.

    Returns
    -------
    bool
        True if they are plain text and pictures only.
    """
    outputs = [o for cell in notebook["cells"] for o in cell.get("outputs", ())]
    return all(_HARMLESS.issuperset(output.get("data", {})) for output in outputs)


def file_text(notebook: dict[str, Any]) -> str:
    """
    Write a notebook the one way it stands in a file.

    Parameters
    ----------
    notebook : dict
        A notebook of format 4.

    Returns
    -------
    str
        Letter by letter what JupyterLab's server writes: sorted names, one blank
        per level, long texts line by line, a last newline.
    """
    result = copy.deepcopy(notebook)
    for cell in result["cells"]:
        cell["source"] = _lines(cell["source"])
        cell["metadata"].pop("trusted", None)
        outputs = cell.get("outputs", ())
        for output in outputs:
            if "text" in output:
                output["text"] = _lines(output["text"])
        bundles = [output["data"] for output in outputs if "data" in output]
        for bundle in (*cell.get("attachments", {}).values(), *bundles):
            for kind in bundle:
                if kind.startswith("text/") or kind in _ALSO_TEXT:
                    bundle[kind] = _lines(bundle[kind])
    options = {"sort_keys": True, "indent": 1, "ensure_ascii": False}
    return json.dumps(result, separators=(",", ": "), **options) + "\n"


def _lines(text: str | list[str]) -> list[str]:
    """Split a text into lines, whether it comes whole or already split."""
    return "".join(text).splitlines(keepends=True)


def is_tidy(path: Path) -> bool:
    """
    Tell whether saving this notebook would leave its file as it is.

    Parameters
    ----------
    path : Path
        The notebook's file.

    Returns
    -------
    bool
        True if not one byte would change.
    """
    text = path.read_text(encoding="utf-8")
    return file_text(tidy(json.loads(text))) == text


def write(notebook: dict[str, Any], path: Path) -> None:
    """
    Write a notebook to its file, tidied.

    Parameters
    ----------
    notebook : dict
        A notebook of format 4.
    path : Path
        The file; it is replaced in one go, so a power cut leaves the old one.

    Raises
    ------
    KitError
        If it cannot be written.
    """
    files.write(path, file_text(tidy(notebook)))

"""Hostile files that lie beside a page, and the folder that holds them all."""

import json
from pathlib import Path

from attack import IMAGE, PYTHON, SCRIPT, SVG
from strange_pages import BROKEN, PAGES, page, text

_HTML = f"<!doctype html><title>a</title>{IMAGE}<script>{SCRIPT}</script>{SVG}"
_VEGA = {
    "$schema": "https://vega.github.io/schema/vega-lite/v5.json",
    "data": {"url": "http://evil.invalid/g.json"},
    "mark": {"type": "bar", "tooltip": IMAGE},
}
# What JupyterLab has a way to show.
VIEWED = {
    "evil.html": _HTML,
    "evil.svg": SVG,
    "evil.md": f"# A text\n\n{IMAGE}\n\n<script>{SCRIPT}</script>\n",
    "evil.js": SCRIPT,
    "evil.csv": f'=cmd|" /C calc"!A0,{IMAGE}\n' * 3,
    "evil.json": json.dumps({"__proto__": {"polluted": 1}, IMAGE: IMAGE}),
    "evil.vl.json": json.dumps(_VEGA),
    "evil.pdf": f"%PDF-1.4\n1 0 obj<</OpenAction<</S/JavaScript/JS({SCRIPT})>>>>endobj",
    "evil.py": PYTHON,
}
# What Python would import first if it looked into the folder of a page.
_SHADOWS = (
    *("IPython", "anywidget", "ipykernel", "ipykernel_launcher", "ipywidgets"),
    *("jupyter_server", "jupyterlab", "kit", "nbformat", "numpy", "pydantic", "traitlets"),
    *("sitecustomize", "usercustomize", "jupyter_lsp", "notebook_shim", "tornado"),
)
# Settings that would have Jupyter or IPython run a stranger's code.
_CONFIG = (
    "jupyter_config",
    "jupyter_server_config",
    "ipython_config",
    "jupyter_lab_config",
)
_KERNEL = {
    "argv": ["python", "-c", PYTHON],
    "display_name": "Python 3",
    "language": "python",
}
_OPEN = {"ServerApp": {"token": "", "disable_check_xsrf": True, "terminals_enabled": True}}


def _settings(folder: Path) -> None:
    for name in _CONFIG:
        (folder / f"{name}.py").write_text(PYTHON, "utf-8")
        (folder / f"{name}.json").write_text(json.dumps(_OPEN), "utf-8")
    for place in ("kernels/python3", "share/jupyter/kernels/python3"):
        (folder / place).mkdir(parents=True)
        (folder / place / "kernel.json").write_text(json.dumps(_KERNEL), "utf-8")
    for place in ("profile_default/startup", ".ipython/profile_default/startup"):
        (folder / place).mkdir(parents=True)
        (folder / place / "00.py").write_text(PYTHON, "utf-8")
    extension = folder / "labextensions" / "steel-lessons"
    (extension / "static").mkdir(parents=True)
    built = {"load": "static/page.js", "extension": "./extension"}
    package = {"name": "steel-lessons", "jupyterlab": {"_build": built}}
    (extension / "package.json").write_text(json.dumps(package), "utf-8")
    (extension / "static" / "page.js").write_text(SCRIPT, "utf-8")
    copies = folder / ".ipynb_checkpoints"
    copies.mkdir()
    (copies / "stored_models-checkpoint.ipynb").write_text(json.dumps(page()), "utf-8")


def lay(folder: Path) -> None:
    """Put every hostile page and file into a folder."""
    for name, notebook in PAGES.items():
        (folder / f"{name}.ipynb").write_text(json.dumps(notebook), "utf-8")
    for name, stored in BROKEN.items():
        (folder / f"{name}.ipynb").write_bytes(stored)
    for name, words in VIEWED.items():
        (folder / name).write_text(words, "utf-8")
    for name in _SHADOWS:
        (folder / f"{name}.py").write_text(PYTHON, "utf-8")
    _settings(folder)
    (folder / "for_ever").symlink_to(folder)
    (folder / "linked.ipynb").symlink_to(folder / "nowhere.ipynb")


def changed(own: dict) -> dict:
    """Give a page of the kit with one more cell."""
    return own | {"cells": [*own["cells"], text(IMAGE)]}

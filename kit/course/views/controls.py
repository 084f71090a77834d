"""The three controls that ipywidgets lacks: live picture, slider, radio choice.

Each is a few lines of JavaScript beside this file, loaded from disk: no bundler, no
network. Why they exist stands at the top of each.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import anywidget
import traitlets

HERE = Path(__file__).parent


class Picture(anywidget.AnyWidget):
    """A picture with alt text; shows only the newest frame.

    It sends ``{"event": "rest"}`` when frames stop coming, and ``{"event": "point",
    "x": 0…1, "y": 0…1}`` when a place is clicked or reached with the arrow keys.
    """

    _esm = HERE / "picture.js"
    _css = HERE / "look.css"
    frame = traitlets.Bytes(b"").tag(sync=True)
    film = traitlets.List(traitlets.Bytes()).tag(sync=True)
    alt = traitlets.Unicode("").tag(sync=True)


class Slider(anywidget.AnyWidget):
    """A named slider with its own stops, and a box to type an exact value in.

    It sends ``{"typed": text}`` when something was typed.
    """

    _esm = HERE / "slider.js"
    label = traitlets.Unicode().tag(sync=True)
    help = traitlets.Unicode().tag(sync=True)
    stops = traitlets.List(traitlets.Float()).tag(sync=True)
    value = traitlets.Float().tag(sync=True)
    readout = traitlets.Unicode().tag(sync=True)
    disabled = traitlets.Bool(False).tag(sync=True)
    cue = traitlets.Bool(False).tag(sync=True)


class Choice(anywidget.AnyWidget):
    """One of several, as a radio group; with pictures, as tiles. -1: none yet."""

    _esm = HERE / "choice.js"
    _css = HERE / "look.css"
    label = traitlets.Unicode().tag(sync=True)
    options = traitlets.List(traitlets.Unicode()).tag(sync=True)
    pictures = traitlets.List(traitlets.Bytes()).tag(sync=True)
    alts = traitlets.List(traitlets.Unicode()).tag(sync=True)
    value = traitlets.Int(-1).tag(sync=True)
    disabled = traitlets.Bool(False).tag(sync=True)
    cue = traitlets.Bool(False).tag(sync=True)

    def __init__(self, label: str, options: list[str], **more: Any) -> None:
        super().__init__(label=label, options=options, **more)

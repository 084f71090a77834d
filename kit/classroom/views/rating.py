"""One written answer on the instructor's page, and the three marks for it."""

from __future__ import annotations

import html
from collections.abc import Callable
from typing import Any

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.classroom.homework.judged import RUBRIC
from kit.classroom.homework.marking import Marks
from kit.classroom.homework.reading import claims, rated
from kit.course.views.parts import spoken

WIDE = {"style": {"description_width": "11em"}, "layout": {"width": "100%"}}


class WrittenRow(widgets.VBox):
    """What one student wrote, and three keys for its marks."""

    def __init__(self, one: Marks, rate: Callable[[Marks, tuple[int, ...]], str]) -> None:
        super().__init__()
        self.add_class("kit-check")
        self.one, self._rate = one, rate
        head = f"{one.done.set}, {one.done.student}"
        own = "".join("–" if key is None else str(key) for key in one.done.ratings)
        text = html.escape(one.done.words).replace("\n", "<br>")
        task = one.paper.homework.judged
        ticked = "".join(f"<li>{html.escape(line)}</li>" for line in claims(one))
        question = html.escape(task.ask(one.paper.values, Units.MM))
        words = widgets.HTML(
            f"<p><b>{html.escape(head)}</b> <i>{question}</i></p>"
            f"<ul>{ticked}</ul><p>{text}</p>"
        )
        self.three = widgets.Text(
            value="".join(map(str, one.read)),
            description="Three marks",
            placeholder=f"0, 1 or 2 each; rated by the writer: {own or 'not'}",
            continuous_update=False,
            **WIDE,
        )
        self.three.observe(self.rate, names="value")
        self.says = widgets.HTML(spoken(" ".join(RUBRIC)))
        self.children = [words, self.three, self.says]

    def rate(self, _change: Any = None) -> None:
        """Keep the three keys."""
        try:
            self.says.value = spoken(self._rate(self.one, rated(self.three.value)))
        except KitError as refused:
            self.says.value = spoken(str(refused), refused=True)

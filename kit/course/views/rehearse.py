"""Play a lesson through by itself, so that a test of its notebook meets every control."""

import os
from collections.abc import Callable
from typing import Any, get_args

from kit.course.anvil.acts import VERBS
from kit.course.views import forge_lines as lines
from kit.course.views.base import View
from kit.course.views.check import CheckYourself
from kit.course.views.controls import Slider, every_option
from kit.course.views.forge import Forge
from kit.course.views.forge_files import ForgeFiles
from kit.course.views.lesson import lesson as parts_of
from kit.course.views.predict import Explain, Predict
from kit.shop.recipes.talk import Kind

TESTED = "PYTEST_CURRENT_TEST"  # pytest sets it, and the kernel of a notebook inherits it
TAKEN_BACK = 3  # acts; that all can be is `tests/test_forge_view.py`'s to say
NONSENSE = ("abc", "", "-3", "400", "1e99", "<b>")


def rehearse(lesson: str | Callable[[], tuple], *, always: bool = False) -> str:
    """Make a lesson afresh, use every control to both ends, and say so.

    The lesson on the page is left alone. It takes seconds in which the page would not
    answer, so it is done when the notebook is tested, or `always` if asked for; to a
    reader it does and says nothing.
    """
    if not always and TESTED not in os.environ:
        return ""
    parts = parts_of(lesson) if isinstance(lesson, str) else lesson()
    for part in parts:
        for kind, play in _PLAYS.items():
            if isinstance(part, kind):
                play(part)
        if hasattr(part, "rehearse"):  # what only this page has
            part.rehearse()
    return "Every control was moved to both ends and back, every tile and check was tried."


def _predict(predict: Predict) -> None:
    predict.observe_now()  # refused: nothing was chosen
    for _person in range(2):
        predict.next_person()
        for tile in range(len(predict.tiles.options)):
            predict.tiles.value = tile
        predict.sure.value = 2
        predict.observe_now()


def _explain(explain: Explain) -> None:
    for reason in range(len(explain.reasons.options)):
        explain.reasons.value = reason


def sweep(view: View) -> None:
    """Move each control of a view to both ends and back; type nonsense; undo."""
    for control in view.controls.values():
        slides = isinstance(control, Slider)
        ends = control.stops if slides else range(len(control.options))
        start = control.value
        for value in (ends[0], ends[-1], start):
            control.value = value
        if slides:
            for text in NONSENSE:
                control._handle_custom_msg({"typed": text}, [])  # noqa: SLF001
    every_option(view.looks.choices)
    view.line.toggle()
    for press in (view.work_out, view.read_out, view.undo, view.reset, view.rest):
        press()
    view.line.toggle()


def _check(checks: CheckYourself) -> None:
    for row in checks.rows:
        for lane in (0, 1, 2):
            row.lane.value = lane
            for offer in range(len(row.offered.options)):
                row.offered.value = offer
            for text in (*NONSENSE, *row.offered.options):
                row.answer.value = text


def _forge(forge: Forge) -> None:
    """Do everything once, with every number at both ends; then take some of it back."""
    for name in VERBS:
        forge.add(name)  # refused, some of them
        forge.do_first()
        for key in lines.numbers(forge.desk):
            forge.pick(key)
            for stop in (forge.slider.stops[0], forge.slider.stops[-1]):
                forge.slider.value = stop
            for text in NONSENSE:
                forge.slider._handle_custom_msg({"typed": text}, [])  # noqa: SLF001
    for kind in get_args(Kind):
        forge.set("look:kind", kind)
    forge.metal.value = forge.ends.value = 1
    forge.code.opened = True
    forge.move(-1)
    forge.miss()
    forge.take_out()
    for _ in range(TAKEN_BACK):
        forge.undo()
    forge.redo()
    forge.rest()


def _files(files: ForgeFiles) -> None:
    for place in range(len(files.named.options)):
        files.named.value = place
    for text in NONSENSE:
        files.typed.value = text
        files.read_line()
    files.hand_on()


_PLAYS: dict[type, Callable[[Any], None]] = {
    Predict: _predict,
    Explain: _explain,
    CheckYourself: _check,
    View: sweep,
    Forge: _forge,
    ForgeFiles: _files,
}

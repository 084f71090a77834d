"""A lesson on the screen: its parts, made from its one class."""

import ipywidgets as widgets

from kit.course.map import ASKING, lesson_of
from kit.course.views.base import View
from kit.course.views.check import CheckYourself
from kit.course.views.extended import BoughtView, EtchingView, FoldView
from kit.course.views.predict import Predict

# Pages that need more than their lesson says, by its key.
PAGES: dict[str, type[View]] = {"02": FoldView, "09": EtchingView, "bought": BoughtView}


def view_of(key: str) -> View:
    """Make the view of a lesson, or of a part of one, by its number or name."""
    return PAGES.get(key, View)(lesson_of(key))


def lesson(key: str, beside: View | None = None) -> tuple[widgets.Widget, ...]:
    """Give the parts of a lesson, ready to be shown one below another.

    Parameters
    ----------
    key : str
        Its number, as "04", or the name of a part, as "weld".
    beside : View, optional
        A view above it on the page: units, light and type go with that one.

    Returns
    -------
    tuple
        If its page asks first (`ASKING`): prediction, view, explanation, checks.
        Otherwise the view, and checks if it has any.
    """
    view = view_of(key)
    asked = view.lesson
    if beside is not None:
        view.looks.follow(beside.looks)
    checks = (CheckYourself(*asked.checks, view=view),) if asked.checks else ()
    (beside or view).checks += checks
    if key not in ASKING:
        return (view, *checks)
    predict = Predict(asked.question, view, asked.states())
    return (predict, view, predict.explain, *checks)

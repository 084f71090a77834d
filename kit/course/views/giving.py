"""What gives way on a page when a control is moved so that values do not go together."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from kit.basics.errors import KitError
from kit.course.lessons.base import Job

LINE = 130  # signs that stand in one line of a laptop; ours


def give_way(view: Any, moved: Collection[str], *, meant: bool) -> tuple[Job, str]:
    """Let what no longer fits give way, and say so.

    Parameters
    ----------
    view : View
    moved : collection of str
        The keys of what was moved.
    meant : bool
        Whether it was set or typed, and not dragged: that very number is meant.

    Returns
    -------
    job : Job
        What fits: the one object of this move.
    gave : str
        What went where, and why; nothing if all fits.

    Raises
    ------
    KitError
        If what was meant does not fit.
    """
    state, units = view.state, view.typed_in or view.units
    job, why = view.lesson.fitted(state, units)
    fitted = job.values
    gave = [
        setting for setting in view.settings if fitted[setting.key] != state[setting.key]
    ]
    if not gave:
        return job, ""
    if meant and any(setting.key in moved for setting in gave):
        raise KitError(why)
    view.place(fitted)
    why = why.partition(" Given:")[0]
    # what was dragged to its end has reached something, too
    at_end = {setting.key for setting in gave} == set(moved)
    reached = job.remarked(*moved, units) if at_end else ""
    if reached and len(f"{reached} {why}") <= LINE:
        return job, f"{reached} {why}"
    told = [
        f"{one.label.strip()} is now {one.show(fitted[one.key], units)}" for one in gave
    ]
    return job, f"{' and '.join(told)}. {why}"


def take_typed(view: Any, key: str, message: dict) -> None:
    """Set a slider to what was typed beside it; say why not, or how it was read."""
    control = view.controls[key]
    setting = next(setting for setting in view.settings if setting.key == key)
    view.typed_in = setting.typed_in(message, view.units)
    refused = setting.take(control, message, view.units)
    view.typed_in = None
    told = refused or setting.note(control, message, view.units)
    if told:
        view.say(told, refused=bool(refused))

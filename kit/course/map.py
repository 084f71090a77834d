"""The map: all lessons and their parts, gathered from their folder, in their order.

Nothing lists a lesson by hand: a file in `kit/course/lessons` that holds one is enough.
"""

import importlib
import pkgutil

from kit.basics.errors import KitError
from kit.course import lessons
from kit.course.lessons.base import Lesson


def _gathered() -> dict[str, type[Lesson]]:
    for module in pkgutil.iter_modules(lessons.__path__):
        importlib.import_module(f"{lessons.__name__}.{module.name}")
    found = sorted(Lesson.__subclasses__(), key=lambda one: (one.number, one.key))
    return {one.key: one for one in found}


LESSONS = _gathered()
# Lessons whose pages ask first. A part stands behind its lesson's question, the bought bar
# is the reader's own; what they would ask is asked where they stand alone: on a telephone.
ASKING = {key: one for key, one in LESSONS.items() if one.question and key.isdigit()}


def lesson_of(key: str) -> type[Lesson]:
    """Find a lesson, or a part of one, by its number or name.

    Raises
    ------
    KitError
        If there is none.
    """
    if key not in LESSONS:
        msg = f"There is no lesson {key[:20]!r}. There are: {', '.join(LESSONS)}."
        raise KitError(msg)
    return LESSONS[key]

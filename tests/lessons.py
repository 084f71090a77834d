"""All lessons: what laws run over."""

from collections.abc import Callable
from typing import NamedTuple

from kit.course.lessons.base import Job
from kit.course.map import LESSONS
from kit.course.views.base import View
from kit.course.views.lesson import view_of
from kit.course.views.settings import Pick, Setting, settings_of


class Known(NamedTuple):
    """What can be set, how it is drawn, and the view that shows it."""

    settings: tuple[Setting | Pick, ...]
    job: type[Job]
    scene: Callable
    view: Callable[[], View]


KNOWN = {
    lesson.__name__: Known(
        settings_of(lesson), lesson, lesson.scene, lambda key=key: view_of(key)
    )
    for key, lesson in LESSONS.items()
}

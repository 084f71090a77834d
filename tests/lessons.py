"""All lessons: what laws run over, and what their checks must know."""

import re
from collections.abc import Callable, Collection
from typing import NamedTuple

import pytest
from PIL import Image

from kit.basics.units import Units
from kit.course.check import Check
from kit.course.lessons.base import Lesson
from kit.course.lessons.scene import Scene
from kit.course.map import LESSONS
from kit.course.views import base, controls
from kit.course.views.base import View
from kit.course.views.lesson import view_of
from kit.course.views.settings import Pick, Setting, settings_of
from kit.forge.billet import Billet
from kit.section import trace
from kit.section.half import SMALL, apart
from kit.section.picture import encode


class Known(NamedTuple):
    """What can be set, how it is drawn, and the view that shows it."""

    settings: tuple[Setting | Pick, ...]
    job: type[Lesson]
    scene: Callable
    view: Callable[[], View]


KNOWN = {
    lesson.__name__: Known(
        settings_of(lesson), lesson, lesson.scene, lambda key=key: view_of(key)
    )
    for key, lesson in LESSONS.items()
}


_drawn: dict[tuple, Scene] = {}
_encoded: dict[tuple, tuple] = {}


def draw_once(patch: pytest.MonkeyPatch) -> None:
    """Draw no state of a lesson twice: for tests of what is done with pictures."""
    draw = Lesson.as_seen

    def kept(job: Lesson, units: Units, **how: object) -> Scene:
        fine = apart(SMALL, SMALL)
        key = (type(job), *job.values.items(), units, fine, repr(sorted(how.items())))
        if key not in _drawn:
            _drawn[key] = draw(job, units, **how)
        return _drawn[key]

    def once(image: Image.Image, *, moving: bool = False) -> bytes:
        key = id(image), moving
        if key not in _encoded:
            _encoded[key] = image, encode(image, moving=moving)  # its number stays its own
        return _encoded[key][1]

    patch.setattr(Lesson, "as_seen", kept)
    for module in (base, controls):
        patch.setattr(module, "encode", once)


def see_once(patch: pytest.MonkeyPatch) -> dict:
    """See no surface of a bar twice, until what is given back, all that was, is emptied."""
    seen: dict[tuple, list] = {}
    see = trace.see_in_bands

    def once(billet: Billet, surface: trace.Surface, tones: object, **how: object) -> list:
        key = billet, surface, repr(tones), apart(SMALL, SMALL), *how.values()
        if key not in seen:
            seen[key] = list(see(billet, surface, tones, **how))
        return seen[key]

    patch.setattr(trace, "see_in_bands", once)
    return seen


def judges(check: Check, right: str | Collection[str], slips: Collection[str]) -> None:
    """Assert that a check takes what is right and knows each slip, telling no answer.

    `slips` are texts of unlike ideas, or lead from texts to the codes of ideas.
    """
    answers = [right] if isinstance(right, str) else right
    for text in answers:
        assert check.mark(text).right, text
    verdicts = {text: check.mark(text) for text in slips}
    for text, verdict in verdicts.items():
        assert not verdict.right, text
        for answer in answers:
            told = rf"(?<![\w.]){re.escape(answer)}(?!\.?\w)"
            assert not re.search(told, verdict.words), verdict.words
    codes = [verdict.found.code for verdict in verdicts.values()]
    assert all(codes)
    assert len(set(codes)) == len(codes)
    if isinstance(slips, dict):
        assert codes == list(slips.values())
    assert [check.mark(offer).right for offer in check.offers()].count(True) == 1


def value_of(scene, start):
    """Give the number of a scene whose name begins so."""
    return next(one.value for one in scene.numbers if one.name.startswith(start))

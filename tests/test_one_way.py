"""In inches a control and what is said of it tell a length in one way: a law."""

import re

import pytest

from kit.basics.units import Units, format_length
from kit.course.map import LESSONS
from kit.course.views.settings import Setting, settings_of

INCHES = (Units.INCH_FRACTION, Units.INCH_DECIMAL)


def stands_in(length, words):
    """Say whether a length stands in words: 1/4 in does not in 2 1/4 in."""
    return re.search(rf"(?<![\d./])(?<!\d ){re.escape(length)}\b", words)


def said(job, scene, key, units):
    """Give all that is said of a lesson: workings are sums, told as they come out right."""
    return {
        "sentence": scene.says,
        "alt text": scene.alt,
        "remark": job.remarked(key, units),
        **{one.name: one.value for one in scene.numbers},
    }


def states(lesson, units):
    """Give a lesson as it begins, and with its main slider where it stops then."""
    yield {}
    main = next((s for s in settings_of(lesson) if s.key == lesson.main), None)
    if isinstance(main, Setting):
        stops = main.stops(units)
        for at in (len(stops) // 3, 2 * len(stops) // 3):
            yield {main.key: stops[at] if main.kind != "count" else int(stops[at])}


@pytest.mark.parametrize("units", INCHES, ids=lambda units: units.name)
@pytest.mark.parametrize("key", LESSONS)
def test_a_control_and_what_is_said_tell_a_length_in_one_way(key, units):
    """Unless that length is told its control's way there, too: two lengths read alike."""
    lesson, other = LESSONS[key], []
    for state in states(lesson, units):
        job = lesson.fitted({**lesson().values, **state}, units)[0]
        scene = job.as_seen(units)
        for one in settings_of(lesson):
            length = getattr(job, one.key)
            if not (isinstance(one, Setting) and one.kind == "length" and length):
                continue
            shown = one.show(length, units)
            ways = {format_length(length, way) for way in INCHES} - {shown}
            for place, words in said(job, scene, one.key, units).items():
                if not stands_in(shown, words) and any(stands_in(w, words) for w in ways):
                    other.append((one.key, shown, place, words[:160]))
    assert not other

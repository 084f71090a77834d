"""What to change so that a brief is met: tried on the steel before it is said.

Each control of a brief is moved towards both its ends, a stop at a time and then in longer
strides, as long as the design comes no farther from what is wanted. What meets the brief is
advised, or else what comes nearest; what helps nothing is never said.
"""

import math
from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from pydantic.fields import FieldInfo

from kit.basics.declare import allowed_range
from kit.basics.errors import KitError

# How to say that a control is moved to more, and to less.
SAID = {
    "across": ("take a thicker bar", "take a thinner bar"),
    "turn": ("twist less tightly", "twist tighter"),
    "ground": ("grind more", "grind less"),
    "layers": ("take more layers", "take fewer layers"),
    "spine": ("take a thicker spine", "take a thinner spine"),
    "height": ("take a higher blade", "take a lower blade"),
    "core": ("take a thicker core", "take a thinner core"),
    "forged": ("take a thicker spine", "take a thinner spine"),
    "blade": ("take a higher blade", "take a lower blade"),
    "cycles": ("stack it more often", "stack it less often"),
    "crop": ("crop more", "crop less"),
    "scale": ("let more scale off", "keep the scale thinner"),
}


class Advice(NamedTuple):
    """A change that was tried, and brings a design nearer to its brief.

    Attributes
    ----------
    key : str
        The control.
    value : float
        To which it was moved.
    meets : bool
        Whether that alone meets the brief.
    words : str
        "grind less".
    """

    key: str
    value: float
    meets: bool
    words: str


def tried(
    missing: Callable[..., float],
    fields: Mapping[str, FieldInfo],
    chosen: Mapping[str, float],
    quick: Callable[..., float],
) -> Advice | None:
    """Find the change of one control that helps most.

    Parameters
    ----------
    missing : callable
        From the brief's values to how far the design is from what is wanted: 0 when it is
        met. What it refuses is as far off as can be.
    fields : mapping
        The controls, by their keys, in the order in which they are tried.
    chosen : mapping
        Their present values.
    quick : callable
        The same measured coarsely: it finds what to try, `missing` tries it.

    Returns
    -------
    Advice or None
        None if no change of one control helps.
    """
    here, start = _far(missing, chosen), _far(quick, chosen)
    found = []
    for key, field in fields.items():
        for words, end in zip(SAID[key][::-1], allowed_range(field), strict=True):
            last, value = start, chosen[key]
            for stop in _stops(field, chosen[key], end):
                now = _far(quick, {**chosen, key: stop})
                if now > last:
                    break
                last, value = now, stop
                if now == 0:
                    break
            if last < start:
                found.append((last, len(found), key, value, words))
    for _, _, key, value, words in sorted(found):
        now = _far(missing, {**chosen, key: value})
        if now < here:
            return Advice(key, value, now == 0, words)
    return None if quick is missing else tried(missing, fields, chosen, missing)


def _far(missing: Callable[..., float], values: Mapping[str, float]) -> float:
    try:
        return missing(*values.values())
    except KitError:
        return math.inf


def _stops(field: FieldInfo, here: float, end: float) -> Iterator[float]:
    """Give where a slider stops on its way to one end: the next, then ever farther."""
    extra = field.json_schema_extra or {}
    step, back = extra.get("step", 1), end < here
    if "stops" in extra:
        low, high = sorted((here, end))
        way = sorted((one for one in extra["stops"] if low <= one <= high), reverse=back)
        way = [one for one in way if one != here]  # none, where it stands at that end
    else:
        count = int(abs(end - here) / step + 1e-9)
        way = range(1, count + 1)
    apart = 1
    while apart <= len(way):
        stop = way[apart - 1]
        if "stops" not in extra:
            stop = field.annotation(round(here + (-step if back else step) * stop, 6))
        yield stop
        apart *= 2

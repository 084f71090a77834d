"""A heat: how hot, and for how long."""

from __future__ import annotations

from kit.basics.declare import Declared, quantity


class Heat(Declared):
    """Time in the fire before a step; for a weld, with the pieces laid together.

    Leaves out: heating up and cooling down, and that the middle of a bar is behind its
    faces. The minutes are those at the full temperature.

    Examples
    --------
    >>> Heat(celsius=1150, minutes=5).minutes
    5.0
    """

    celsius: float = quantity(
        "Temperature", "of the whole bar", low=700, high=1500, unit="°C"
    )
    minutes: float = quantity(
        "Minutes hot", "at that temperature", low=0, high=10_000, unit="minutes"
    )

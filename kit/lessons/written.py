"""Small lengths as a smith writes them: hundredths of a millimetre, not micrometres."""

from __future__ import annotations

from kit.units import Units, format_length


def thin(mm: float, units: Units) -> str:
    """Write a small depth in millimetres, or in decimal inches, throughout.

    Examples
    --------
    >>> thin(0.05, Units.MM), thin(0.05, Units.INCH_FRACTION)
    ('0.05 mm', '0.0020 in')
    """
    if units is Units.MM:
        return f"{round(mm, 4):g} mm"
    return format_length(mm, Units.INCH_DECIMAL)

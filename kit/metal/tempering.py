"""What belongs to every hardening: oil that burns, and the temper that must follow.

One source for cards, papers, pages and lessons. Who hardens reads the data sheet of the
steel and of the oil first, by local rules, and learns it from somebody qualified.
"""

from __future__ import annotations

from kit.metal.hardening import SOURCE as WINDOW_SOURCE
from kit.metal.hardening import span

# °C, 350 to 450 °F: a data sheet of O1 ("temper without delay"), seen in a copy; one of
# 1095 goes on to 260 °C. Stainless steels and tools of high alloy have others.
HEATS = (176.7, 232.2)
SOURCE = "tempering: a data sheet of O1; how often and how long: common practice, no source"

BRITTLE = "straight from the quench a blade is brittle and can break in the hand"
THEN = "Then temper at once."
AT_ONCE = f"Temper at once: {BRITTLE}, when it falls, or by itself."
TEMPER = (
    f"{AT_ONCE} Simple steels about {span(HEATS)}, an hour or two, twice; the data sheet "
    "goes first."
)
QUENCH_OIL = (
    "Hot oil can flash and burn: stay far below the flash point on the oil's own sheet; "
    "deep metal tank with a lid, away from walls; the blade under wholly and at once; an "
    "extinguisher for burning oil, of the class your rules name; never water."
)
OIL_SOURCE = "common practice, no source"


def sources() -> str:
    """Say where the heats of a hardening come from, in one sentence."""
    return f"Sources: {WINDOW_SOURCE}; {SOURCE}."

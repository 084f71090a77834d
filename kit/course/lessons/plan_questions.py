"""What lesson 10 asks: the prediction, the checks, and the move that answers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from kit.course.check import Check
from kit.course.lesson import Question, Reason
from kit.course.lessons.plan import Job
from kit.course.lessons.plan_drawing import beside
from kit.course.lessons.plan_ideas import (
    AREA,
    BACKWARDS,
    FORWARDS,
    INVERTED,
    LOSSES,
    NO_LOSS,
    ONCE,
    SAME,
    SHORT_ONLY,
    TENTH,
    UNCHANGED,
    forward_working,
    plan_of,
    volume_working,
)

if TYPE_CHECKING:
    from PIL import Image

GIVEN = Job().given
PLAN = plan_of(GIVEN)
CUT = BACKWARDS.value(GIVEN)  # mm, as long as the pieces of this plan are
LONG, WIDE, THIN = PLAN.wanted.length, PLAN.wanted.width, PLAN.wanted.thickness


def tile(length: float) -> tuple[Image.Image, str]:
    """Draw a stack so long above the bar wanted."""
    sheet = beside(length, PLAN)
    return (
        sheet.image,
        f"A stack {length:.0f} mm long above a thin bar {LONG:g} mm long.",
    )


def question() -> Question:
    """Ask how long to cut the pieces."""
    return Question(
        ask=(
            f"{PLAN.outer_pieces} pieces of {PLAN.outer.steel} and {PLAN.inner_pieces} of "
            f"{PLAN.inner.steel} make a stack {PLAN.stack_thickness:.1f} mm thick. It is "
            f"to become a bar of {LONG:g} × {WIDE:g} × {THIN:g} mm: welded, then three "
            f"times drawn to {PLAN.draw_to:g} mm, cut in two and stacked. How long must "
            "the pieces be cut?"
        ),
        given=GIVEN,
        tiles=(NO_LOSS, TENTH, ONCE, BACKWARDS),
        right=BACKWARDS,
        show=lambda length: f"{length:.0f} mm",
        draw=tile,
        observed=(
            f"{CUT:.0f} mm: more than twice what volume alone asks for. "
            f"{PLAN.grams_in:.0f} g go in and {PLAN.grams_out:.0f} g come out."
        ),
        reasons=(
            Reason(
                "Each weld, each pair of crops, each cut is paid again; crops cost most.",
                True,
                "Yes. Of a bar that is doubled three times the ends are cropped four "
                "times, early ones from a thick bar. Scale is less than half of it.",
            ),
            Reason(
                "Hot steel shrinks under the hammer.",
                False,
                "Its volume stays. What is missing lies on the floor: scale, ends, dust.",
            ),
            Reason(
                "Nearly all of it burns away as scale.",
                False,
                "Set both kinds of scale to nothing, then the crops. Which saves more?",
            ),
        ),
    )


# The move that answers the question: losses grow from nothing to what they are.
FILM = [
    {**GIVEN, **{kind: round(GIVEN[kind] * frame / 12, 4) for kind in LOSSES}}
    for frame in range(13)
]

DIRTY = {**GIVEN, "weld_scale": 0.16, "start": CUT}
OTHER = {**GIVEN, "weld_scale": 0.04, "start": CUT}
PLAIN = {**GIVEN, "length": 300.0, "thickness": 4.0, "thick_a": 3.5, "thick_b": 1.8}
PLAIN_OTHER = {**GIVEN, "length": 200.0, "thickness": 6.0}

SHORT_BAR = Check(
    ask=(
        f"The pieces were cut to {CUT:.0f} mm. But the fire is dirty: welding heats cost "
        "0.16 mm a face instead of 0.08. How long is the bar at the end?"
    ),
    given=DIRTY,
    right=FORWARDS,
    slips=(UNCHANGED, SHORT_ONLY),
    kind="length",
    prompt="How many welding heats are there, and from how thick a bar is scale lost?",
    working=forward_working,
    other=OTHER,
    tips=(
        "Set 0.16 mm at station 3. The pieces would have to be longer. Then choose.",
        f"Set 0.16 mm, then shorten the bar wanted until the pieces are {CUT:.0f} mm.",
        "Forwards: six faces at each of eight heats, and it is drawn out in between.",
    ),
)

VOLUME_ONLY = Check(
    ask=(
        "For a rough guess: with no losses at all, how long is a stack 30 mm thick that "
        "becomes a bar 300 mm long and 4 mm thick, of the same width?"
    ),
    given=PLAIN,
    right=AREA,
    slips=(INVERTED, SAME),
    kind="length",
    prompt="What stays the same while a bar is drawn out?",
    working=volume_working,
    other=PLAIN_OTHER,
    tips=(
        "Set all losses to nothing at stations 3 and 4, and 3.5 and 1.8 mm at station 1.",
        "Set the same and read what to cut. 5 % is near enough.",
        "Length times thickness stays. 2 % is near enough.",
    ),
)

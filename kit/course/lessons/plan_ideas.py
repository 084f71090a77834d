"""Ways of thinking about how much steel a bar takes, right and wrong.

Given: what a `Job` declares, in mm and counts, and `start`, the length that pieces were
cut to, where that is known.
"""

from __future__ import annotations

from kit.basics.units import format_length
from kit.course.lesson import Given, ideas_of
from kit.forge.stack import DEMO_INNER, DEMO_OUTER
from kit.shop.plan import Plan
from kit.shop.work import Losses, Rack, Wanted

_idea = ideas_of("10")
LOSSES = ("weld_scale", "forge_scale", "clean_up", "crop", "kerf", "grind")


def plan_of(given: Given) -> Plan:
    """Make the plan that some given values describe."""
    return Plan(
        outer=Rack(
            steel=DEMO_OUTER.steel, thickness=given["thick_a"], width=given["width"]
        ),
        inner=Rack(
            steel=DEMO_INNER.steel, thickness=given["thick_b"], width=given["width"]
        ),
        outer_pieces=round(given["pieces_a"]),
        inner_pieces=round(given["pieces_b"]),
        wanted=Wanted(
            length=given["length"], width=given["width"], thickness=given["thickness"]
        ),
        cycles=round(given["cycles"]),
        draw_to=given["draw_to"],
        losses=Losses(**{kind: given[kind] for kind in LOSSES}),
    )


def start_length(given: Given) -> float:
    """Give the length to cut every piece to, rounded up, mm."""
    return float(plan_of(given).start_length)


def no_loss_length(given: Given) -> float:
    """Give the length that volume alone asks for, mm."""
    return plan_of(given).losing(**dict.fromkeys(LOSSES, 0)).exact_length


def paid_once(given: Given) -> float:
    """Pay every loss once, as if there were only one weld, mm."""
    plan = plan_of(given)
    values = {name: getattr(plan, name) for name in Plan.model_fields}
    return Plan(**{**values, "cycles": 0}).exact_length


def ends_at(given: Given) -> float:
    """Give the finished length from pieces cut to `start`, mm."""
    return plan_of(given).length_from(given["start"])


def length_working(given: Given) -> list[str]:
    """Work the start length out backwards, one line a cycle."""
    plan = plan_of(given)
    length = plan.wanted.length
    lines = [f"wanted: {format_length(length)}; now back through every loss"]
    for work in reversed(plan.works):
        length = work.length_before(length)
        if work.name == "weld":
            lines.append(
                f"before a weld at {_section(work.before)}: {format_length(length)}"
            )
    lines.append(f"cut: {plan.start_length} mm, rounded up")
    return lines


def forward_working(given: Given) -> list[str]:
    """Work the finished length out forwards, one line a cycle."""
    plan, length = plan_of(given), given["start"]
    lines = [f"pieces of {format_length(length)}; now forwards through every loss"]
    for work in plan.works:
        length = work.length_after(length)
        if work.name == "cut and stack":
            lines.append(f"stacked again: {format_length(length)}")
    lines.append(f"finished: {format_length(length)}")
    return lines


def volume_working(given: Given) -> list[str]:
    """Work the length out from volume alone."""
    plan = plan_of(given)
    wanted, thick = plan.wanted, plan.stack_thickness
    return [
        "length × thickness stays, for a width that stays",
        f"{wanted.length:g} × {wanted.thickness:g} = length × {thick:g} mm",
        f"length = {format_length(no_loss_length(given))}",
    ]


def _section(section: tuple[float, float]) -> str:
    width, thickness = section
    return f"{width:.1f} × {thickness:.1f} mm"


BACKWARDS = _idea("BACKWARDS", "pay every loss, each time", start_length, "")
NO_LOSS = _idea(
    "NO_LOSS",
    "reckon with volume alone, as if nothing were lost",
    no_loss_length,
    "What became of the scale under the anvil, and of the ends in the scrap?",
    "Weigh the floor sweepings.",
)
TENTH = _idea(
    "TENTH",
    "add a tenth for everything",
    lambda given: 1.1 * no_loss_length(given),
    "Count the crops alone: two ends, and how many times?",
)
ONCE = _idea(
    "ONCE",
    "pay every loss once, though there is a weld after each stacking",
    paid_once,
    "How often does the bar go into the fire, and under the saw?",
)
FORWARDS = _idea("FORWARDS", "go forwards through every loss", ends_at, "")
UNCHANGED = _idea(
    "UNCHANGED",
    "leave the length as it was planned, whatever the fire takes",
    lambda given: given["length"],
    "The scale is twice as thick. Where does that steel come from?",
)
SHORT_ONLY = _idea(
    "SHORT_ONLY",
    "give how much is missing instead of how long it is",
    lambda given: given["length"] - ends_at(given),
    "That is what is missing. How long is the bar?",
)
AREA = _idea("AREA", "keep length times thickness", no_loss_length, "")
INVERTED = _idea(
    "INVERTED",
    "divide the thicknesses the wrong way round",
    lambda given: given["length"] * plan_of(given).stack_thickness / given["thickness"],
    "Is the stack longer or shorter than the bar?",
)
SAME = _idea(
    "SAME",
    "cut the pieces as long as the bar",
    lambda given: given["length"],
    "The stack is far thicker than the bar.",
)

"""Ways of thinking about how much steel a bar takes, right and wrong; lesson 10's checks.

Given: what the lesson's controls hold, in mm and counts, and `start`, the length that
pieces were cut to, where that is known.
"""

from kit.basics.units import format_length, rounded
from kit.course.check import Check
from kit.course.lesson import Given, ideas_of
from kit.forge.stack import DEMO_INNER, DEMO_OUTER
from kit.forge.steels import GRADES
from kit.shop.plan import Plan
from kit.shop.work import Losses, Rack, Wanted

_idea = ideas_of("10")
STEELS = tuple(GRADES)
OUTER, INNER = (STEELS.index(bars.steel) for bars in (DEMO_OUTER, DEMO_INNER))
LOSSES = ("weld_scale", "forge_scale", "clean_up", "crop", "kerf", "grind")
# The class's bar: what the controls begin with.
GIVEN = {
    "pieces_a": DEMO_OUTER.count,
    "pieces_b": DEMO_INNER.count,
    "thick_a": DEMO_OUTER.thickness,
    "thick_b": DEMO_INNER.thickness,
    "stock_width": 38.1,
    "length": 254,
    "width": 38.1,
    "thickness": 5,
    "cycles": 3,
    "draw_to": 16,
    "weld_scale": 0.08,
    "forge_scale": 0.03,
    "clean_up": 0.25,
    "crop": 6,
    "kerf": 2,
    "grind": 0.5,
}


def plan_of(given: Given) -> Plan:
    """Make the plan that some given values describe."""
    wide = given["stock_width"]
    outer, inner = (
        STEELS[round(given.get(key, begun))]
        for key, begun in (("steel_a", OUTER), ("steel_b", INNER))
    )
    return Plan(
        outer=Rack(steel=outer, thickness=given["thick_a"], width=wide),
        inner=Rack(steel=inner, thickness=given["thick_b"], width=wide),
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
        f"{wanted.length:g} mm × {wanted.thickness:g} mm = length × {thick:g} mm",
        f"length = {format_length(no_loss_length(given))}",
    ]


def _section(section: tuple[float, float]) -> str:
    width, thickness = section
    return f"{width:.1f} mm × {thickness:.1f} mm"


BACKWARDS = _idea("BACKWARDS", "pay every loss, each time", start_length)
NO_LOSS = _idea(
    "NO_LOSS",
    "reckon with volume alone, as if nothing were lost",
    no_loss_length,
    "What became of the scale under the anvil, and of the ends in the scrap?",
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
FORWARDS = _idea("FORWARDS", "go forwards through every loss", ends_at)
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
AREA = _idea("AREA", "keep length times thickness", no_loss_length)
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

PLAN = plan_of(GIVEN)
CUT = BACKWARDS.value(GIVEN)  # mm, as long as the pieces of this plan are
DIRTY = {**GIVEN, "weld_scale": 0.16, "start": CUT}
OTHER = {**GIVEN, "weld_scale": 0.04, "start": CUT}
PLAIN = {**GIVEN, "length": 300.0, "thickness": 4.0, "thick_a": 3.5, "thick_b": 1.8}
PLAIN_OTHER = {**GIVEN, "length": 200.0, "thickness": 6.0}

SHORT_BAR = Check(
    ask=(
        f"The pieces were cut to {rounded(CUT)} mm. But the fire is dirty: welding heats "
        "cost 0.16 mm a face instead of 0.08. How long is the bar at the end?"
    ),
    given=DIRTY,
    right=FORWARDS,
    slips=(UNCHANGED, SHORT_ONLY),
    kind="length",
    prompt="How many welding heats are there, and from how thick a bar is scale lost?",
    working=forward_working,
    other=OTHER,
    tips=(
        "Set 0.16 mm under 4. The pieces would have to be longer. Then choose.",
        f"Set 0.16 mm, then shorten the bar wanted until the pieces are {rounded(CUT)} mm.",
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
        "Set 3.5 and 1.8 mm under 1, and all losses to nothing under 4 and 5.",
        (
            "Set what is asked, without losses, and read what to cut. "
            "An answer within 5 % counts."
        ),
        "Length times thickness stays. An answer within 2 % counts.",
    ),
)

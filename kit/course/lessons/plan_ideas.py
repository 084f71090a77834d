"""Ways of thinking about how much steel a bar takes, right and wrong; lesson 10's checks.

Given: what the lesson's controls hold, in mm and counts, and `start`, the length that
pieces were cut to, where that is known.
"""

from kit.basics.units import format_length
from kit.course.lesson import Given
from kit.course.worded import Worded
from kit.forge.stack import DEMO_INNER, DEMO_OUTER
from kit.forge.steels import GRADES
from kit.shop.plan import Plan
from kit.shop.work import Losses, Rack, Wanted

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


PLAN = plan_of(GIVEN)
CUT = start_length(GIVEN)  # mm, as long as the pieces of this plan are
TOLD = Worded(__file__, "10", plan=PLAN, cut=CUT)

BACKWARDS = TOLD.idea("BACKWARDS", start_length)
NO_LOSS = TOLD.idea("NO_LOSS", no_loss_length)
TENTH = TOLD.idea("TENTH", lambda given: 1.1 * no_loss_length(given))
ONCE = TOLD.idea("ONCE", paid_once)
FORWARDS = TOLD.idea("FORWARDS", ends_at)
UNCHANGED = TOLD.idea("UNCHANGED", lambda given: given["length"])
SHORT_ONLY = TOLD.idea("SHORT_ONLY", lambda given: given["length"] - ends_at(given))
AREA = TOLD.idea("AREA", no_loss_length)
INVERTED = TOLD.idea(
    "INVERTED",
    lambda given: given["length"] * plan_of(given).stack_thickness / given["thickness"],
)
SAME = TOLD.idea("SAME", lambda given: given["length"])

DIRTY = {**GIVEN, "weld_scale": 0.16, "start": CUT}
OTHER = {**GIVEN, "weld_scale": 0.04, "start": CUT}
PLAIN = {**GIVEN, "length": 300.0, "thickness": 4.0, "thick_a": 3.5, "thick_b": 1.8}
PLAIN_OTHER = {**GIVEN, "length": 200.0, "thickness": 6.0}

SHORT_BAR = TOLD.check(
    "SHORT_BAR",
    given=DIRTY,
    right=FORWARDS,
    slips=(UNCHANGED, SHORT_ONLY),
    kind="length",
    working=forward_working,
    other=OTHER,
)

VOLUME_ONLY = TOLD.check(
    "VOLUME_ONLY",
    given=PLAIN,
    right=AREA,
    slips=(INVERTED, SAME),
    kind="length",
    working=volume_working,
    other=PLAIN_OTHER,
)

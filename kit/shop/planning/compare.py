"""Plans compared: which loss costs most, and whether pieces are long enough."""

from __future__ import annotations

from kit.basics.units import Units, format_length
from kit.forge.stack import DEMO_INNER, DEMO_OUTER
from kit.shop.planning.plan import Plan
from kit.shop.planning.rack import Rack, Wanted


def sensitivity(plan: Plan) -> dict[str, float]:
    """Say how much shorter the pieces could be without each loss, mm, worst first."""
    kinds = ("weld_scale", "forge_scale", "clean_up", "crop", "kerf", "grind")
    whole = plan.exact_length
    saved = {kind: whole - plan.losing(**{kind: 0}).exact_length for kind in kinds}
    return dict(sorted(saved.items(), key=lambda pair: -pair[1]))


def example() -> Plan:
    """Plan the class's bar: 254 × 38.1 × 5 mm of the demo's stack."""
    outer, inner = (
        Rack(steel=bars.steel, thickness=bars.thickness, width=38.1)
        for bars in (DEMO_OUTER, DEMO_INNER)
    )
    return Plan(
        outer=outer,
        inner=inner,
        wanted=Wanted(length=254, width=38.1, thickness=5.0),
    )


def short_of(plan: Plan, start: float, units: Units = Units.MM) -> str:
    """Say in one sentence whether pieces of a length are enough."""
    left = plan.length_from(start) - plan.wanted.length
    if left >= 0:
        return f"Enough: the bar ends {format_length(left, units)} longer than wanted."
    return f"Not enough: the bar ends {format_length(-left, units)} short."

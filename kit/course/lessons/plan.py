"""Lesson 10: plan a billet, from the rack to the bar, through every loss."""

from __future__ import annotations

from typing import ClassVar

from kit.basics.declare import Declared, quantity
from kit.basics.units import Units, format_cut_length, format_length
from kit.course.lesson import Given
from kit.course.lessons import drawing, plan_drawing
from kit.course.lessons.job import Job as Base
from kit.course.lessons.plan_ideas import length_working, no_loss_length, plan_of
from kit.course.lessons.scene import Number, Scene
from kit.forge.stack import DEMO_INNER, DEMO_OUTER
from kit.section.picture import Sheet
from kit.shop.plan import Plan, cut_list, sensitivity
from kit.shop.work import PLACEHOLDER, Losses, Wanted

SAID = {
    "weld_scale": "scale at welding heat",
    "forge_scale": "scale at forging heat",
    "clean_up": "clean-up before stacking",
    "crop": "crops",
    "kerf": "saw cuts",
    "grind": "the final grind",
}


def _same(owner: type[Declared], key: str, name: str, default: float) -> float:
    """Declare a setting as the planner declares it, so that ranges can not differ."""
    field = owner.model_fields[key]
    low, high = (
        next(getattr(m, end) for m in field.metadata if hasattr(m, end))
        for end in ("ge", "le")
    )
    unit = (field.json_schema_extra or {}).get("unit", "")
    return quantity(name, field.description, low=low, high=high, unit=unit, default=default)


class Job(Base):
    """The rack, the bar wanted, and what the shop loses."""

    pieces_a: int = _same(Plan, "outer_pieces", "Pieces of 1084", DEMO_OUTER.count)
    pieces_b: int = _same(Plan, "inner_pieces", "Pieces of 15N20", DEMO_INNER.count)
    thick_a: float = quantity(
        "1084, thick",
        "of a bar on the rack",
        low=1,
        high=10,
        unit="mm",
        default=DEMO_OUTER.thickness,
    )
    thick_b: float = quantity(
        "15N20, thick",
        "of a bar on the rack",
        low=0.5,
        high=10,
        unit="mm",
        default=DEMO_INNER.thickness,
    )
    length: float = _same(Wanted, "length", "Bar wanted, long", 254)
    width: float = quantity(
        "Wide", "of the stock and of the bar", low=15, high=80, unit="mm", default=38.1
    )
    thickness: float = quantity(
        "Bar wanted, thick", "ground clean", low=2, high=12, unit="mm", default=5
    )
    cycles: int = _same(Plan, "cycles", "Cut and stack", 3)
    draw_to: float = _same(Plan, "draw_to", "Draw to", 16)
    weld_scale: float = _same(Losses, "weld_scale", "Scale, welding", 0.08)
    forge_scale: float = _same(Losses, "forge_scale", "Scale, forging", 0.03)
    clean_up: float = _same(Losses, "clean_up", "Clean-up", 0.25)
    crop: float = _same(Losses, "crop", "Crop, each end", 6)
    kerf: float = _same(Losses, "kerf", "Saw cut", 2)
    grind: float = _same(Losses, "grind", "Final grind", 0.5)

    gives: ClassVar = ("draw_to", "thickness", "pieces_a", "length")

    def check(self, units: Units) -> None:
        """Refuse what can not be forged."""
        del units  # the planner's own sentence
        cut_list(plan_of(self.given))

    @property
    def given(self) -> Given:
        """The values that the formulas know."""
        return {name: float(getattr(self, name)) for name in type(self).model_fields}


def scene(*, units: Units = Units.MM, sunlit: bool = False, **settings: float) -> Scene:
    """Plan the bar; draw the staircase, where the steel went, what to saw; and numbers.

    `settings` are those of `Job`; what is left out stands as it is there.
    """
    job = Job.asked(settings, units)
    plan = plan_of(job.given)
    stages = plan.stages()
    sheet = Sheet(drawing.COLUMNS, drawing.ROWS, sunlit=sunlit)
    plan_drawing.draw(sheet, plan, stages, units)
    return Scene(
        image=sheet.image,
        alt=_alt(plan, units),
        numbers=_numbers(job.given, plan, units),
    )


def _numbers(given: Given, plan: Plan, units: Units) -> tuple[Number, ...]:
    billet = plan.billet
    layer = plan.wanted.thickness / billet.layers
    cut = format_cut_length(plan.start_length, units)
    return (
        Number("Cut every piece", cut, length_working(given)),
        Number(
            "Weight in, out",
            f"{plan.grams_in:.0f} g, {plan.grams_out:.0f} g",
            _weighed(plan),
        ),
        Number(
            "Yield",
            f"{100 * plan.share_out:.0f} %",
            [
                "yield = weight out / weight in",
                f"= {plan.grams_out:.0f} / {plan.grams_in:.0f}",
                f"= {100 * plan.share_out:.0f} %",
            ],
        ),
        Number(
            "Layers (bands)",
            f"{billet.layers:,} ({billet.bands:,})",
            [
                "every cut-and-stack doubles the layers",
                f"{plan.pieces} × 2^{plan.cycles} = {billet.layers:,}",
                "where like meets like there is one band for two layers",
            ],
        ),
        Number(
            "One layer",
            format_length(layer, units),
            [
                "mean layer = thickness / layers",
                f"= {plan.wanted.thickness:g} mm / {billet.layers:,}",
                f"= {format_length(layer)}",
            ],
        ),
    )


def _weighed(plan: Plan) -> list[str]:
    wide, thick = plan.works[0].before
    start, wanted = f"{plan.start_length} × {wide:g} × {thick:.4g} mm", plan.wanted
    long = plan.length_from(plan.start_length)
    end = f"{long:.1f} × {wanted.width:g} × {wanted.thickness:g} mm"
    return [
        f"weight = length × width × thickness × {plan.density:.2f} g/cm³",
        f"in: {start} gives {plan.grams_in:.0f} g",
        f"out: {end} gives {plan.grams_out:.0f} g",
    ]


def _alt(plan: Plan, units: Units) -> str:
    lost = plan_drawing.lost_by_reason(plan.stages())
    went = ", ".join(f"{reason} {grams:.0f} grams" for reason, grams in lost.items())
    wanted = " by ".join(
        format_length(side, units)
        for side in (plan.wanted.length, plan.wanted.width, plan.wanted.thickness)
    )
    return (
        f"A staircase of weight going down from {plan.grams_in:.0f} grams of cut pieces to "
        f"a bar of {plan.grams_out:.0f} grams, {wanted}, over {plan.cycles + 1} welds. "
        f"Lost: {went or 'nothing'}. "
        f"To saw: {plan.outer_pieces} pieces of {plan.outer.steel} and "
        f"{plan.inner_pieces} of {plan.inner.steel}, each "
        f"{format_cut_length(plan.start_length, units)}."
    )


def remark(changed: str, state: dict[str, float], units: Units = Units.MM) -> str:
    """Say what a change of one control did, where that is the point of it."""
    job = Job(**state)
    plan = plan_of(job.given)
    if changed in ("pieces_a", "pieces_b") and abs(job.pieces_a - job.pieces_b) > 1:
        return (
            f"{job.pieces_a:g} and {job.pieces_b:g} pieces can not lie in turn: like lies "
            "on like somewhere, and makes one band."
        )
    saved = sensitivity(plan)
    worst = next(iter(saved))
    if not saved[worst]:
        return "Nothing is lost: volume alone. No shop is like that."
    if changed in SAID:
        return f"{_less(changed, saved[changed], units)} {PLACEHOLDER}"
    if changed == "cycles":
        return (
            "Every stacking doubles the layers and pays scale, crops and a saw cut again."
        )
    if changed == "length":
        short = format_length(no_loss_length(job.given), units)
        return f"Volume alone would ask for {short}. The rest pays the losses."
    most = format_length(saved[worst], units)
    return f"Most would be saved on {SAID[worst]}: {most} of every piece."


def _less(kind: str, saved: float, units: Units) -> str:
    less = format_length(saved, units)
    return f"Without {SAID[kind]} every piece could be {less} shorter."

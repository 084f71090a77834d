"""Lesson 10: plan a billet, from the rack to the bar, through every loss."""

from functools import cached_property
from typing import Any, ClassVar

from PIL import Image

from kit.basics.declare import Declared, allowed_range, choice, quantity
from kit.basics.told import about, counted
from kit.basics.units import Units, format_cut_length, format_length, format_weight
from kit.course.lesson import Given
from kit.course.lessons import drawing
from kit.course.lessons import plan_ideas as ideas
from kit.course.lessons.base import Lesson
from kit.course.lessons.plan_drawing import beside, grams_lost, reasons, stairs, stock
from kit.course.lessons.plan_ideas import GIVEN, INNER, LOSSES, OUTER, PLAN, STEELS
from kit.course.lessons.scene import FORGED, Number, Part, Scene, weighed
from kit.forge.steels import steel
from kit.metal.cautions import heaviest
from kit.section.picture import Sheet
from kit.shop.plan import Plan, sensitivity
from kit.shop.plan_told import unlike
from kit.shop.sawing import cut_list
from kit.shop.work import PLACEHOLDER, SHOP_LOSSES, Losses, Wanted

GUESSED = "Our losses are placeholders: weigh your own."
SAID = {
    "weld_scale": "scale at welding heat",
    "forge_scale": "scale at forging heat",
    "clean_up": "clean-up before stacking",
    "crop": "crops",
    "kerf": "saw cuts",
    "grind": "the final grind",
}


def _same(
    owner: type[Declared], key: str, name: str, mine: str = "", **slider: float
) -> Any:
    """Declare a control as the planner declares it, so that ranges cannot differ."""
    field = owner.model_fields[key]
    low, high = allowed_range(field)
    unit = (field.json_schema_extra or {}).get("unit", "")
    return quantity(
        name, field.description, low=low, high=high, unit=unit,
        default=GIVEN[mine or key], **slider,
    )  # fmt: skip


def tile(length: float) -> tuple[Image.Image, str]:
    """Draw a stack so long, mm, above half of the bar wanted; and say it."""
    long = f"{PLAN.wanted.length:g} mm long"
    alt = f"A stack {length:.0f} mm long above half of a thin bar {long}."
    return beside(length, PLAN).image, alt


class PlanLesson(Lesson):
    """The rack, the bar wanted, and what the shop loses: a staircase of weight."""

    key: ClassVar = "10"
    title: ClassVar = "From the rack to the bar"
    main: ClassVar = "weld_scale"
    phone: ClassVar = (Part(0, 0, 665, 296), Part(655, 0, 1000, 260))
    look: ClassVar = ""
    cues: ClassVar = ("weld_scale", "cycles")

    pieces_a: int = _same(Plan, "outer_pieces", "Outer pieces", "pieces_a")
    pieces_b: int = _same(Plan, "inner_pieces", "Inner pieces", "pieces_b")
    thick_a: float = quantity(
        "Outer bars' thickness", "as they are on the rack", low=1, high=10, unit="mm",
        default=GIVEN["thick_a"], step=0.025,
    )  # fmt: skip
    thick_b: float = quantity(
        "Inner bars' thickness", "as they are on the rack", low=0.5, high=10, unit="mm",
        default=GIVEN["thick_b"], step=0.0125,
    )  # fmt: skip
    stock_width: float = quantity(
        "Bar width", "of the bars on the rack", low=15, high=80, unit="mm",
        default=GIVEN["stock_width"], step=0.1, inch=1 / 8,
    )  # fmt: skip
    length: float = _same(Wanted, "length", "Finished length", inch=1 / 8)
    width: float = quantity(
        "Finished width", "ground clean", low=15, high=80, unit="mm",
        default=GIVEN["width"], step=0.1, inch=1 / 8,
    )  # fmt: skip
    thickness: float = quantity(
        "Finished thickness", "ground clean", low=2, high=12, unit="mm",
        default=GIVEN["thickness"], step=0.1, inch=1 / 64,
    )  # fmt: skip
    cycles: int = _same(Plan, "cycles", "Cut and stack")
    draw_to: float = _same(Plan, "draw_to", "Draw to", step=0.5)
    weld_scale: float = _same(
        Losses, "weld_scale", "Lost as scale, each weld", step=0.01, inch=1 / 1000
    )
    forge_scale: float = _same(
        Losses, "forge_scale", "Lost as scale, each heat", step=0.01, inch=1 / 1000
    )
    clean_up: float = _same(Losses, "clean_up", "Clean-up", step=0.05, inch=1 / 64)
    crop: float = _same(Losses, "crop", "Crop, each end", step=0.5, inch=1 / 64)
    kerf: float = _same(Losses, "kerf", "Saw cut", step=0.1, inch=1 / 64)
    grind: float = _same(Losses, "grind", "Final grind", step=0.05, inch=1 / 64)
    steel_a: int = choice("Outer steel", STEELS, default=OUTER)
    steel_b: int = choice("Inner steel", STEELS, default=INNER)

    gives: ClassVar = (
        "draw_to", "thickness", "pieces_a", "length", "cycles", "width", "stock_width",
    )  # fmt: skip
    stations: ClassVar = {
        "1 Rack": ("thick_a", "thick_b", "stock_width"),
        "2 Bar wanted": ("length", "width", "thickness"),
        "3 Stack": ("pieces_a", "pieces_b", "cycles", "draw_to"),
        "4 Fire": ("weld_scale", "forge_scale"),
        "5 Saw and grind": ("clean_up", "crop", "kerf", "grind"),
    }
    behind: ClassVar = {"Other steels": ("steel_a", "steel_b")}
    fine: ClassVar = PLACEHOLDER
    shuts: ClassVar = {
        "It is stacked once: never drawn and cleaned to be stacked again.": (
            lambda job: not job.cycles, "draw_to", "clean_up"
        ),
        "One piece of each, stacked once: nothing is sawn.": (
            lambda job: job.pieces_a == job.pieces_b == 1 and not job.cycles, "kerf"
        ),
    }  # fmt: skip

    question: ClassVar = ideas.TOLD.question(
        given=ideas.GIVEN,
        tiles=(ideas.NO_LOSS, ideas.TENTH, ideas.ONCE, ideas.BACKWARDS),
        right=ideas.BACKWARDS,
        show=lambda length: f"{length:.0f} mm",
        draw=tile,
    )
    # losses grow from nothing to what they are
    film: ClassVar = tuple(
        {kind: round(GIVEN[kind] * frame / 12, 4) for kind in LOSSES} for frame in range(13)
    )
    checks: ClassVar = (ideas.SHORT_BAR, ideas.VOLUME_ONLY)

    @property
    def given(self) -> Given:
        """The values that the formulas know."""
        return self.model_dump()

    @cached_property
    def plan(self) -> Plan:
        """All that is done to the steel, from the rack to the bar."""
        return ideas.plan_of(self.given)

    def check(self, units: Units) -> None:
        """Refuse what cannot be forged."""
        # the planner's own sentence
        cut_list(self.plan)
        self.plan.billet.size  # noqa: B018  (every step refuses for itself)

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Draw the staircase, where the steel went, and what to saw; with the numbers."""
        # told or not: until then nothing is lost, which gives nothing away
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, **paper)
        stages = self.plan.stages()
        stairs(sheet, stages, units)
        reasons(sheet, self.plan, units)
        stock(sheet, self.plan, units)
        cut = format_cut_length(self.plan.start_length, units)
        return Scene(
            image=sheet.image,
            alt=lambda: self._alt(units),
            numbers=self._numbers(units),
            says=(
                f"Cut every piece {cut} long: {100 * self.plan.share_out:.0f} % becomes "
                "bar."
            ),
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say which loss costs most, and what a change of the bar asks for."""
        cut = format_cut_length(self.plan.start_length, units)
        if changed in ("steel_a", "steel_b"):
            plan, heat = self.plan, about(self.plan.works[0].celsius)
            weight = format_weight(plan.grams_in, units)
            steels = f"Outside {plan.outer.steel}, inside {plan.inner.steel}"
            told = f"{steels}: welded at {heat}, {weight} go in."
            pair = steel(plan.outer.steel), steel(plan.inner.steel)
            return f"{told} {heaviest(*pair)}".rstrip()
        alike = unlike(self.plan) if changed in ("pieces_a", "pieces_b") else ""
        return alike or self._costs(changed, cut, units)

    def _costs(self, changed: str, cut: str, units: Units) -> str:
        saved = sensitivity(self.plan)
        worst = next(iter(saved))
        if not saved[worst]:
            return "Nothing is lost: volume alone. No shop is like that."
        if changed in SAID:
            if not saved[changed]:
                return f"Nothing goes by {SAID[changed]}: every piece is cut {cut} long."
            return _less(changed, saved[changed], units)
        if changed == "cycles":
            welds = "1 weld pays" if not self.cycles else f"{self.cycles + 1} welds pay"
            return (
                f"{welds} scale, crops and saw cuts, each anew: cut every piece {cut} long."
            )
        if changed == "length":
            short = format_length(ideas.no_loss_length(self.given), units)
            return f"Volume alone would ask for {short}. The rest pays the losses."
        most = format_length(saved[worst], units)
        return f"Cut {cut}. Most would be saved on {SAID[worst]}: {most} of every piece."

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        plan, billet = self.plan, self.plan.billet
        layer = plan.wanted.thickness / billet.layers
        cut = format_cut_length(plan.start_length, units)
        lost = (FORGED, SHOP_LOSSES)
        grams = _in_and_out(plan.grams_in, plan.grams_out)
        return (
            Number("Cut every piece", cut, ideas.length_working(self.given), lost),
            Number(
                "Weight in, out", grams, _weighed(plan), (SHOP_LOSSES, *weighed(billet))
            ),
            Number(
                "Yield",
                f"{100 * plan.share_out:.0f} %",
                [
                    "yield = weight out / weight in",
                    f"= {plan.grams_out:.0f} / {plan.grams_in:.0f}",
                    f"= {100 * plan.share_out:.0f} %",
                ],
                lost,
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

    def _alt(self, units: Units) -> str:
        plan = self.plan
        lost = grams_lost(plan).items()
        went = ", ".join(f"{reason} {grams} grams" for reason, grams in lost)
        wanted = " by ".join(
            format_length(side, units)
            for side in (plan.wanted.length, plan.wanted.width, plan.wanted.thickness)
        )
        return (
            f"A staircase of weight going down from {plan.grams_in:.0f} grams of cut "
            f"pieces to a bar of {plan.grams_out:.0f} grams, {wanted}, over "
            f"{counted(plan.cycles + 1, 'weld')}. Lost: {went or 'nothing'}. To saw: "
            f"{counted(plan.outer_pieces, 'piece')} of {plan.outer.steel} and "
            f"{plan.inner_pieces} of {plan.inner.steel}, each "
            f"{format_cut_length(plan.start_length, units)}."
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


def _less(kind: str, saved: float, units: Units) -> str:
    less = format_length(saved, units)
    return f"Without {SAID[kind]} every piece could be {less} shorter. {GUESSED}"


def _in_and_out(come: float, out: float) -> str:
    """Tell two weights, grams, in one unit."""
    return f"{format_weight(come, beside=out)}, {format_weight(out)}"

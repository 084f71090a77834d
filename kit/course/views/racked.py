"""Plan from one's own rack: bars typed or opened, what they give, what is left of them."""

import html
from collections.abc import Callable, Sequence
from typing import Any

import ipywidgets as widgets
import traitlets

from kit.basics.declare import allowed_range
from kit.basics.errors import KitError
from kit.basics.told import counted, refusing_in
from kit.basics.typed import parse_lengths
from kit.basics.units import Units, typed_in
from kit.course.lessons.plan import PlanLesson
from kit.course.lessons.plan_ideas import GIVEN, LOSSES, plan_of
from kit.course.lessons.rack_drawing import drawn
from kit.course.views.base import View
from kit.course.views.controls import Picture, blank, button, in_a_row
from kit.course.views.said import Says, Text, download
from kit.course.views.upload import Upload
from kit.forge.stack import DEMO_INNER, DEMO_OUTER
from kit.shop import rack
from kit.shop.from_rack import FromRack, planned_from
from kit.shop.plan import Plan
from kit.shop.plan_told import from_the_rack, told

EXAMPLE = tuple(
    rack.OnRack(steel=one.steel, thickness=one.thickness, width=38.1, length=508)
    for one in (DEMO_OUTER, DEMO_INNER)
)
SIDES = ("length", "width", "thickness")  # of the bar wanted
HOW = (
    rack.OnRack(**{**EXAMPLE[0].model_dump(), "count": 2, "length": 914.4, "price": 9.5}),
)


class Racked(widgets.VBox):
    """The bars one has, the plan above made from them, and the rack as it is afterwards.

    Parameters
    ----------
    view : View
        Of lesson 10. What is lost is set there, and the bar wanted too, which may be typed
        here; it gets both, and the bars chosen, unless it waits for a prediction.

    Attributes
    ----------
    units : Units
        The page's, or those the rack was typed in: the page's question keeps its own.
    value : (Plan, tuple of OnRack) or None
        What was planned last, and from which bars.
    """

    value = traitlets.Any(None, allow_none=True)

    def __init__(self, view: View) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.view, self.units = view, view.units
        self.wanted = blank("The bar I want:", wide="28em", named="8em")
        self.bars = widgets.Textarea(
            value=rack.to_lines(EXAMPLE, view.units),
            description="My bars:",
            layout={"width": "100%", "height": "7em"},
        )
        self.upload = Upload("Open a rack file", ".json", rack.MOST_BYTES, self._uploaded)
        self.says, self.picture, self.out = Says(), Picture(), Text()
        press = button("Plan from my rack", self.work_out, "kit-main")
        self.children = [
            self.wanted, self.bars, in_a_row(press, self.upload), self.says, self.picture,
            self.out,
        ]  # fmt: skip
        self._above = ""
        self._put_away()
        view.looks.unit_choice.observe(self._new_units, "value")
        for side in SIDES:
            view.controls[side].observe(self._wanted_above, "value")
        self._new_units()

    def work_out(self, _button: Any = None) -> None:
        """Choose bars for the plan above, and say what they give, in what was typed."""

        def typed() -> tuple[rack.OnRack, ...]:
            unit = self.view.units.unit
            bars = rack.from_lines(self.bars.value, unit)
            self.units = self.view.units
            if self.units is Units.MM:  # where it begins: nobody chose it
                self.units = rack.units_of(self.bars.value, unit)
            if self.units is Units.MM:
                self.units = typed_in(self._sides())
            return bars

        self._try(typed)

    def rehearse(self) -> None:
        """Plan from what is there, from nothing, and from nonsense."""
        for line in (self.bars, self.wanted):
            begun = line.value
            for text in ("", "abc", rack.to_lines(HOW), begun):
                line.value = text
                self.work_out()

    def _uploaded(self) -> None:
        def given() -> tuple[rack.OnRack, ...]:
            bars = rack.from_bytes(self.upload.given().content)
            self.bars.value = rack.to_lines(bars, self.units)
            return bars

        self._try(given)

    def _new_units(self, _change: Any = None) -> None:
        """Tell all again in the page's units; what somebody typed stays as it was typed."""
        units = self.units = self.view.units
        if self.wanted.value in ("", *map(self._above_in, Units)):
            self._wanted_above()
        if self.bars.value in (rack.to_lines(EXAMPLE, one) for one in Units):
            self.bars.value = rack.to_lines(EXAMPLE, units)
        self.bars.placeholder = rack.to_lines(HOW, units)
        if self.value is not None:
            self._tell(planned_from(*self.value, units), self.value[1])
            return
        self.says.tell(
            "The lines are an example: write your own bars over them, a line a bar. How "
            f"many, steel, thickness × width × length, price: {self.bars.placeholder}"
        )

    def _try(self, given: Callable[[], Sequence[rack.OnRack]]) -> None:
        self.value = None
        try:
            bars = given()
            with refusing_in(self.units):
                wished = self._wished()
                made = planned_from(wished, bars, self.units)
        except KitError as refused:
            self.says.tell(str(refused), refused=True)
            self._put_away()
            return
        self._above = self._set(made.plan)
        self.value = wished, tuple(bars)
        self._tell(made, bars)

    def _put_away(self) -> None:
        self.out.value, self.picture.layout.display = "", "none"

    def _wanted_above(self, _change: Any = None) -> None:
        """Write the bar that is wanted above."""
        self.wanted.value = self._above_in(self.view.units)

    def _above_in(self, units: Units) -> str:
        return rack.typed_sides((self.view.state[side] for side in SIDES), units)

    def _sides(self) -> list[float]:
        unit = self.view.units.unit
        return parse_lengths(self.wanted.value, len(SIDES), "The bar wanted", unit)

    def _wished(self) -> Plan:
        """Plan the bar typed; before the prediction, with the losses of the class."""
        given = {**self.view.state, **dict(zip(SIDES, self._sides(), strict=True))}
        if self.view.locked:  # the picture above begins with nothing lost
            given |= {kind: GIVEN[kind] for kind in LOSSES}
        return plan_of(given)

    def _set(self, plan: Plan) -> str:
        """Put what is planned on the sliders above, where they reach so far; say how."""
        if self.view.locked:
            pieces = f"{plan.outer_pieces} and {plan.inner_pieces} pieces"
            return (
                f"Reckoned with {pieces}, cut and stacked {counted(plan.cycles, 'time')}, "
                "and our losses: to change that, predict and press Observe above."
            )
        outer, inner = (
            round(sum(bar.thickness for bar in bars) / len(bars), 4) for bars in plan.bars
        )
        chosen = {"thick_a": outer, "thick_b": inner, "stock_width": plan.width}
        chosen |= {side: getattr(plan.wanted, side) for side in SIDES}
        ends = {key: allowed_range(PlanLesson.model_fields[key]) for key in chosen}
        if not all(ends[key][0] <= size <= ends[key][1] for key, size in chosen.items()):
            return "The sliders of the plan above do not reach so far: it stays."
        typed = self.wanted.value
        self.view.set(**chosen)
        self.wanted.value = typed  # it stays as it was typed
        mean = "The plan above has the mean thickness of each steel's pieces."
        return mean * plan.mixed

    def _tell(self, made: FromRack, bars: Sequence[rack.OnRack]) -> None:
        units = self.units
        self.picture.lay(drawn(made, units, **self.view.looks.paper))
        self.picture.layout.display = None
        first, *more = told(made, units)
        sawn, left = from_the_rack(made, units)
        rows = [f"<p>{html.escape(words)}</p>" for words in (*more, self._above) if words]
        rows += [_list("Saw:", sawn), _list("Left on the rack:", left)]
        for name, kept in (("my-rack", bars), ("my-rack-afterwards", made.left)):
            if kept:
                data = rack.to_json(kept).encode()
                file = f"{name}.json"
                rows.append(download(f"Save {file}", file, "application/json", data))
        self.out.value = "".join(rows)
        self.says.tell(first, refused=bool(made.missing))


def _list(title: str, rows: Sequence[str]) -> str:
    items = "".join(f"<li>{html.escape(row)}</li>" for row in rows)
    return f"<p>{title}</p><ul>{items}</ul>" if rows else ""

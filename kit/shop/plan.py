"""Plan a billet: from the bar you want back to the lengths to cut, through every loss."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from functools import cached_property
from typing import Any, NamedTuple

from pydantic import ValidationInfo, field_validator, model_validator

from kit.basics.claim import Claim, Kind
from kit.basics.declare import Declared, quantity
from kit.basics.errors import KitError
from kit.basics.told import listed
from kit.basics.units import SOLD
from kit.forge.billet import Billet
from kit.forge.stack import DEMO_INNER, DEMO_OUTER, Layer, Stack
from kit.forge.steels import steel
from kit.forge.steps import CutAndStack, DrawOut
from kit.forge.steps.base import Place, Size
from kit.shop.work import (
    Losses,
    Rack,
    Section,
    Wanted,
    Work,
    cleaned,
    cropped,
    drawn,
    halved,
    heat_of,
    scaled,
    stock_sizes,
)

LEAST = 0.3  # mm of thickness that must be left of a bar; ours
GROUND_FLUSH = Claim(
    says="Bars that are not quite as wide as the others of a stack are ground flush with "
    "them before it is welded. How much a smith grinds off is illustrative: we found no "
    "source. Bars sold by the inch and by the millimetre differ by nearly as much.",
    kind=Kind.PRACTICE,
    unit="mm",
    holds=("FLUSH",),
    told=("ground flush", "of one width, or nearly"),
)
FLUSH = 1.0


class Stage(NamedTuple):
    """A piece of work with the bar before and after, and its weight, grams."""

    work: Work
    before: Size
    after: Size
    grams_before: float
    grams_after: float


class Plan(Declared):
    """Cut-and-stack planned with honest losses, forwards and backwards.

    The stack is welded; then, as often as `cycles` says, it is drawn to `draw_to`,
    cropped, cleaned, sawn in two, stacked and welded again; at last it is drawn to
    the bar wanted plus what the final grind takes, cropped and ground.

    The stack is as wide as its narrowest bar; what stands out is ground flush first.
    Of one steel some pieces may come from bars of another thickness: `outer_mixed` and
    `inner_mixed` name a bar for each of them, the rest come from `outer` and `inner`. The
    thick pieces lie outside (ours), where scale and grinder take most, and what has no
    pair in the middle.

    Leaves out: burrs, a bad weld, tapered ends, steel of the two kinds scaling
    differently, what sticks to the saw. The width is forged back to the width wanted
    each time it is drawn out.

    Examples
    --------
    >>> from kit.shop.plan import example
    >>> plan = example()
    >>> plan.start_length, round(plan.grams_in), round(plan.grams_out)
    (102, 823, 380)
    """

    outer: Rack
    inner: Rack
    outer_pieces: int = quantity(
        "Pieces A", "of the outer steel", low=1, high=15, default=DEMO_OUTER.count
    )
    inner_pieces: int = quantity(
        "Pieces B", "of the inner steel", low=1, high=15, default=DEMO_INNER.count
    )
    wanted: Wanted
    cycles: int = quantity(
        "Cut and stack", "how often the bar is halved and stacked", low=0, high=6, default=3
    )
    draw_to: float = quantity(
        "Draw to", "thickness before each stacking", low=8, high=25, unit="mm", default=16
    )
    losses: Losses = Losses()
    outer_mixed: tuple[Rack, ...] = ()
    inner_mixed: tuple[Rack, ...] = ()

    @field_validator("outer_mixed", "inner_mixed")
    @classmethod
    def _in_order(cls, bars: tuple[Rack, ...], known: ValidationInfo) -> tuple[Rack, ...]:
        """Thin ones first; what comes from the same bar as the rest needs no mention."""
        rest = known.data.get((known.field_name or "").removesuffix("_mixed"))
        others = (bar for bar in bars if bar != rest)
        return tuple(sorted(others, key=lambda bar: (bar.thickness, bar.width, bar.length)))

    @model_validator(mode="after")
    def _possible(self) -> Plan:
        wide = self.widths
        if wide[-1] - self.width > FLUSH + SOLD:
            msg = (
                "The bars of a stack must be of one width, or nearly: what stands out is "
                f"ground flush, up to {FLUSH:g} mm. Given: {self.width:g} and "
                f"{wide[-1]:g} mm."
            )
            raise KitError(msg)
        for bar, pieces, bars in zip(
            (self.outer, self.inner), (self.outer_pieces, self.inner_pieces), self.bars,
            strict=True,
        ):  # fmt: skip
            if len(bars) > pieces or {one.steel for one in bars} != {bar.steel}:
                msg = (
                    f"Of {pieces} pieces of {bar.steel} at least one comes from its own "
                    f"bar, and all are {bar.steel}. Given: {len(bars)} pieces of "
                    f"{', '.join(dict.fromkeys(one.steel for one in bars))}."
                )
                raise KitError(msg)
        for work in self.works:
            self._check(work)
        return self

    def _check(self, work: Work) -> None:
        if min(work.after) < LEAST:
            msg = (
                f"At '{work.name}' less than {LEAST:g} mm of the bar would be left. Start "
                "with thicker or more pieces, or lose less."
            )
            raise KitError(msg)
        if work.name == "draw to size" and work.stretch < 1 - 1e-9:
            before, after = work.before, work.after
            short = listed(
                word
                for word, side, wanted in (
                    ("thin", before.thickness, after.thickness),
                    ("narrow", before.width, after.width),
                )
                if side < wanted
            )
            msg = (
                f"A bar {before.thickness:.1f} mm thick and {before.width:.1f} mm wide "
                f"cannot be drawn out to {after.thickness:.1f} and {after.width:.1f} mm: "
                f"it is too {short}. Take more pieces or wider bars, or draw it thinner."
            )
            raise KitError(msg)

    @cached_property
    def bars(self) -> tuple[tuple[Rack, ...], tuple[Rack, ...]]:
        """The bar that every piece is sawn from, of the outer and of the inner steel."""
        outer, inner = self.outer_mixed, self.inner_mixed
        return (
            (*[self.outer] * max(1, self.outer_pieces - len(outer)), *outer),
            (*[self.inner] * max(1, self.inner_pieces - len(inner)), *inner),
        )

    @cached_property
    def stock(self) -> list[tuple[Rack, int]]:
        """Every kind of bar with the number of its pieces, the outer steel's first."""
        return [one for bars in self.bars for one in Counter(bars).items()]

    @cached_property
    def widths(self) -> list[float]:
        """Every width of its bars, mm, the narrowest first."""
        return stock_sizes(bar.width for bars in self.bars for bar in bars)

    @property
    def width(self) -> float:
        """Of the stack, mm: the narrowest bar's."""
        return self.widths[0]

    @property
    def mixed(self) -> bool:
        """Whether pieces of one steel are of several thicknesses."""
        return any(
            len(stock_sizes(bar.thickness for bar in bars)) > 1 for bars in self.bars
        )

    @property
    def stack_thickness(self) -> float:
        """Of the stack on the bench, mm."""
        return sum(count * bar.thickness for bar, count in self.stock)

    @cached_property
    def works(self) -> tuple[Work, ...]:
        """All the work in order; sections do not depend on the length."""
        loss, wanted = self.losses, self.wanted
        steels = self.outer.steel, self.inner.steel
        welded, drawn_out = (heat_of(name, steels) for name in ("weld", "draw out"))
        done: list[Work] = []
        section = Section(self.width, self.stack_thickness)

        def do(work: Work) -> None:
            nonlocal section
            done.append(work)
            section = work.after

        if len(self.widths) > 1:
            do(self._flush())
        for cycle in range(self.cycles + 1):
            last = cycle == self.cycles
            do(scaled(section, "weld", loss.weld_scale, loss.weld_heats, welded))
            heats = loss.last_heats if last else loss.forge_heats
            do(scaled(section, "draw out", loss.forge_scale, heats, drawn_out))
            thick = wanted.thickness + 2 * loss.grind if last else self.draw_to
            do(drawn(section, Section(wanted.width, thick)))
            do(cropped(section, loss.crop))
            if last:
                do(cleaned(section, loss.grind, "final grind", "final grind"))
            else:
                do(cleaned(section, loss.clean_up, "clean up", "clean-up"))
                do(halved(section, loss.kerf))
        return tuple(done)

    def _flush(self) -> Work:
        """Grind the bars that are wider flush with the narrowest."""
        area = sum(count * bar.thickness * bar.width for bar, count in self.stock)
        return Work(
            name="grind flush",
            reason="clean-up",
            done_at=(Place.GRINDER,),
            before=Section(area / self.stack_thickness, self.stack_thickness),
            after=Section(self.width, self.stack_thickness),
        )

    @cached_property
    def exact_length(self) -> float:
        """The length of every piece that gives the bar wanted exactly, mm."""
        length = self.wanted.length
        for work in reversed(self.works):
            length = work.length_before(length)
        return length

    @property
    def start_length(self) -> int:
        """The same, rounded up to whole millimetres: the length to cut."""
        return math.ceil(self.exact_length - 1e-9)

    def length_from(self, start: float) -> float:
        """Give the finished length from a stack so long, mm.

        Raises
        ------
        KitError
            If nothing would be left.
        """
        length = float(start)
        for work in self.works:
            length = work.length_after(length)
            if length <= 0:
                msg = (
                    f"From pieces {start:g} mm long nothing is left at '{work.name}'. For "
                    f"this bar they must be {self.start_length} mm long."
                )
                raise KitError(msg)
        return length

    def reached(self, start: float) -> float:
        """Give the finished length as `length_from` does; 0 if nothing is left."""
        try:
            return self.length_from(start)
        except KitError:
            return 0.0

    @cached_property
    def density(self) -> float:
        """Mean density of the stack, g/cm³."""
        heavy = [
            count * bar.thickness * steel(bar.steel).density for bar, count in self.stock
        ]
        return sum(heavy) / self.stack_thickness

    def grams(self, size: Size) -> float:
        """Weigh a bar of this stack, grams."""
        return size.volume * self.density / 1000

    def stages(self, start: float | None = None) -> list[Stage]:
        """Give every piece of work with sizes and weights, from a length in mm."""
        length = self.start_length if start is None else start
        self.length_from(length)
        rows = []
        for work in self.works:
            before, after = work.sizes(length)
            rows.append(Stage(work, before, after, self.grams(before), self.grams(after)))
            length = after.length
        return rows

    @property
    def grams_in(self) -> float:
        """Weight of the pieces as cut, grams."""
        return self.stages()[0].grams_before

    @property
    def grams_out(self) -> float:
        """Weight of the finished bar, grams: a little longer than wanted."""
        return self.stages()[-1].grams_after

    @property
    def share_out(self) -> float:
        """Yield: what comes out of what goes in, 0 … 1."""
        return self.grams_out / self.grams_in

    @cached_property
    def billet(self) -> Billet:
        """The same bar for the forge on screen, without its losses."""
        stack = Stack(layers=self._layers(), length=self.start_length, width=self.width)
        billet = Billet(source=stack)
        steps = []
        for _ in range(self.cycles):
            steps += [
                DrawOut(thickness=self.draw_to, width=self.wanted.width),
                CutAndStack(),
            ]
        last = DrawOut(thickness=self.wanted.thickness, width=self.wanted.width)
        return billet.then(*steps, last)

    @property
    def pieces(self) -> int:
        """In the stack."""
        return self.outer_pieces + self.inner_pieces

    def _layers(self) -> list[Layer]:
        """Spread the inner steel evenly between the outer."""
        share = self.pieces / self.inner_pieces
        inside = {math.floor((number + 0.5) * share) for number in range(self.inner_pieces)}
        outer, inner = (
            iter([Layer(steel=bars[0].steel, thickness=t) for t in _thick_outside(bars)])
            for bars in self.bars
        )
        return [next(inner if at in inside else outer) for at in range(self.pieces)]

    def losing(self, **changes: float) -> Plan:
        """Plan the same bar with other losses."""
        return self._with(losses=Losses(**{**self.losses.model_dump(), **changes}))

    def made_of(self, outer: Sequence[Rack], inner: Sequence[Rack]) -> Plan:
        """Plan the same bar from other bars: of each steel one for all pieces, or each."""
        mixed = {"outer_mixed": tuple(outer[1:]), "inner_mixed": tuple(inner[1:])}
        return self._with(outer=outer[0], inner=inner[0], **mixed)

    def _with(self, **changes: Any) -> Plan:
        return Plan(**{name: getattr(self, name) for name in Plan.model_fields} | changes)


def without_pair(bars: Sequence[Rack]) -> list[float]:
    """Give every thickness of which there is an odd number, mm, the greatest first.

    With one at most, bars of one steel can lie alike from above and from below.
    """
    many = Counter(bar.thickness for bar in bars)
    return sorted((thick for thick, count in many.items() if count % 2), reverse=True)


def _thick_outside(bars: Sequence[Rack]) -> list[float]:
    """Order thicknesses, mm: pairs, the greatest outside, and the odd ones between."""
    odd = without_pair(bars)
    pairs = Counter(bar.thickness for bar in bars) - Counter(odd)
    below = [
        thick for thick in sorted(pairs, reverse=True) for _ in range(pairs[thick] // 2)
    ]
    return [*below, *odd[::2], *reversed(odd[1::2]), *reversed(below)]


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
        outer=outer, inner=inner, wanted=Wanted(length=254, width=38.1, thickness=5.0)
    )

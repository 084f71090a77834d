"""Plan a billet: from the bar you want back to the lengths to cut, through every loss.

And what to saw from which bar of the rack: pieces, kerfs, offcuts, weights.
"""

from __future__ import annotations

import math
from functools import cached_property, partial
from typing import Any, NamedTuple

from pydantic import model_validator

from kit.basics.declare import Declared, quantity
from kit.basics.errors import KitError
from kit.basics.told import one_way
from kit.basics.typed import parse_length
from kit.basics.units import (
    Units,
    format_cut_length,
    format_length,
    format_stock,
    format_weight,
)
from kit.forge.billet import Billet
from kit.forge.stack import DEMO_INNER, DEMO_OUTER, Layer, Stack
from kit.forge.steels import steel
from kit.forge.steps import CutAndStack, DrawOut
from kit.forge.steps.base import Size
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
)

LEAST = 0.3  # mm of thickness that must be left of a bar; ours


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

    @model_validator(mode="after")
    def _possible(self) -> Plan:
        if abs(self.outer.width - self.inner.width) > 1e-9:
            msg = (
                "The bars of a stack must be of one width. Given: "
                f"{self.outer.width:g} and {self.inner.width:g} mm."
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
            msg = (
                f"A bar {work.before.thickness:.1f} mm thick and "
                f"{work.before.width:.1f} mm wide cannot be drawn out to "
                f"{work.after.thickness:.1f} and {work.after.width:.1f} mm: it is too thin "
                "already. Take more pieces or wider bars, or draw it thinner."
            )
            raise KitError(msg)

    @property
    def stack_thickness(self) -> float:
        """Of the stack on the bench, mm."""
        return (
            self.outer_pieces * self.outer.thickness
            + self.inner_pieces * self.inner.thickness
        )

    @cached_property
    def works(self) -> tuple[Work, ...]:
        """All the work in order; sections do not depend on the length."""
        loss, wanted = self.losses, self.wanted
        steels = self.outer.steel, self.inner.steel
        welded, drawn_out = (heat_of(name, steels) for name in ("weld", "draw out"))
        done: list[Work] = []
        section = Section(self.outer.width, self.stack_thickness)

        def do(work: Work) -> None:
            nonlocal section
            done.append(work)
            section = work.after

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

    @property
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

    @property
    def density(self) -> float:
        """Mean density of the stack, g/cm³."""
        outer = self.outer_pieces * self.outer.thickness
        inner = self.inner_pieces * self.inner.thickness
        dense = [steel(bar.steel).density for bar in (self.outer, self.inner)]
        return (outer * dense[0] + inner * dense[1]) / (outer + inner)

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
        stack = Stack(
            layers=self._layers(), length=self.start_length, width=self.outer.width
        )
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
        bars = [self.inner if at in inside else self.outer for at in range(self.pieces)]
        return [Layer(steel=bar.steel, thickness=bar.thickness) for bar in bars]

    def losing(self, **changes: float) -> Plan:
        """Plan the same bar with other losses."""
        return self._with(losses=Losses(**{**self.losses.model_dump(), **changes}))

    def made_of(self, outer: Rack, inner: Rack) -> Plan:
        """Plan the same bar from other bars of the rack."""
        return self._with(outer=outer, inner=inner)

    def _with(self, **changes: Any) -> Plan:
        return Plan(**{name: getattr(self, name) for name in Plan.model_fields} | changes)


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


class Sawn(NamedTuple):
    """One bar of the rack and what is sawn from it."""

    rack: Rack
    pieces: int
    length: float  # of each piece, mm
    kerf: float  # of each cut, mm
    offcut: float  # mm

    @property
    def grams(self) -> float:
        """Weight of the pieces, without kerfs, grams."""
        volume = self.pieces * self.length * self.rack.width * self.rack.thickness
        return volume * steel(self.rack.steel).density / 1000


def cut_list(plan: Plan) -> list[Sawn]:
    """Share the pieces of a plan out over whole stock bars.

    Raises
    ------
    KitError
        If a piece is longer than the bars are sold.
    """
    each, cut = plan.start_length, plan.losses.kerf
    bars = ((plan.outer, plan.outer_pieces), (plan.inner, plan.inner_pieces))
    return [sawn for rack, count in bars for sawn in shared_out(rack, count, each, cut)]


def shared_out(rack: Rack, count: int, each: int, cut: float) -> list[Sawn]:
    """Share some pieces, `each` mm long, out over whole bars; every cut so wide in mm.

    Raises
    ------
    KitError
        If a piece is longer than the bars are sold.
    """
    if each > rack.length:
        msg = (
            f"Pieces of {each} mm cannot be cut from bars {rack.length:g} mm long. "
            "Take more pieces, or a longer bar."
        )
        raise KitError(msg)
    bars = []
    while count:
        bars.append(sawn_from(rack, count, each, cut))
        count -= bars[-1].pieces
    return bars


def sawn_from(rack: Rack, count: int, each: float, cut: float) -> Sawn | None:
    """Saw at most `count` pieces from one bar, as above; None if it is too short for one.

    A piece that ends exactly at the end of the bar needs no cut there.
    """
    here = min(count, math.floor((rack.length + cut) / (each + cut) + 1e-9))
    if here < 1:
        return None
    used = here * each + min(here * cut, rack.length - here * each)
    return Sawn(rack, here, each, cut, rack.length - used)


def in_words(sawn: Sawn, units: Units = Units.MM) -> str:
    """Say one line of the cut list; inches are rounded up to 1/32, never down.

    Examples
    --------
    >>> from kit.shop.plan import example
    >>> in_words(cut_list(example())[0])
    '1084, 3.18 mm × 38.1 mm: 6 × 102 mm = 612 mm, 6 saw cuts of 2.0 mm, 376 mm left; 581 g'
    """
    return one_way(partial(_sawn_in_words, sawn), units)


def section_in_words(thickness: float, width: float, units: Units) -> str:
    """Write T × W of a bought bar, mm, as it is sold.

    Examples
    --------
    >>> section_in_words(1.5875, 40, Units.INCH_FRACTION)
    '0.062 in × 1.575 in'
    """
    sides = (thickness, width)
    return one_way(lambda to: " × ".join(format_stock(one, to) for one in sides), units)


def _sawn_in_words(sawn: Sawn, units: Units) -> str:
    rack = sawn.rack
    long = format_cut_length(sawn.length, units)
    each = max(sawn.length, parse_length(long))  # as it is sawn: rounded up
    total = format_cut_length(each * sawn.pieces, units)
    kerf = format_length(sawn.kerf, units)
    left = format_length(max(0.0, sawn.offcut - sawn.pieces * (each - sawn.length)), units)
    cuts = sawn.pieces if sawn.offcut > 0 else sawn.pieces - 1
    return (
        f"{rack.steel}, {section_in_words(rack.thickness, rack.width, units)}: "
        f"{sawn.pieces} × {long} = {total}, "
        f"{cuts} saw cuts of {kerf}, {left} left; {format_weight(sawn.grams)}"
    )

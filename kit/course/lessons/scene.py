"""A scene: what a view shows for one setting of its controls; and what steel is gone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache
from typing import Any, NamedTuple

from PIL import Image

from kit.basics.claim import Claim, Kind, known
from kit.basics.told import in_units, working_in_units
from kit.basics.units import Units, format_length
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steels import steel
from kit.metal import described, etch
from kit.metal.described import Described
from kit.section.half import whole
from kit.section.picture import Sheet
from kit.section.trace import Face, Surface, bar_at
from kit.shop.losses import lost, started, weight

LEAST = 1e-6  # mm³: below it is rounding


FORGED = Claim(
    says="It is reckoned from the bar's own sizes and steps alone; scale is not counted.",
    kind=Kind.DERIVED,
    source="every step is an exact map that keeps volume, tried in the kit's own tests",
)


class Number(NamedTuple):
    """One line of the numbers panel, how it was worked out, and how its parts are known."""

    name: str
    value: str
    working: list[str]
    claims: tuple[Claim, ...] = (FORGED,)


def aloud(numbers: Iterable[Number]) -> str:
    """Write numbers, each with its mark, for those who listen.

    Examples
    --------
    >>> aloud([Number("Layers", "12", [])])
    'Layers: 12 (derived).'
    """
    told = (known(f"{one.name}: {one.value}", one.claims) for one in numbers)
    return f"{'. '.join(told)}."


class Part(NamedTuple):
    """What of a picture is cut out for a telephone: pixels of it, and how much smaller."""

    left: int
    top: int
    right: int
    low: int
    scale: float = 1.0


@dataclass(frozen=True, eq=False)  # arrays do not compare
class Panel:
    """A traced surface on the sheet, so that a place on it can be asked about."""

    billet: Billet
    surface: Surface
    corner: tuple[int, int]
    face: Face | None = None

    @classmethod
    def laid(
        cls, sheet: Sheet, billet: Billet, surface: Surface, corner: tuple[int, int]
    ) -> Panel:
        """Lay a bar's steel on a sheet, in the tones that its steels etch in."""
        face = etch.seen(billet, surface)
        sheet.steel(face, corner, surface)
        return cls(billet, surface, corner, face)

    @cached_property
    def shows(self) -> Described:
        """What can be seen on it, measured on the drawn face."""
        return described.of(self.face, self.surface.pixel)

    def own(self, column: float, row: float) -> tuple[float, float]:
        """Give the surface's column and row of a pixel of the whole picture."""
        return column - self.corner[0], row - self.corner[1]


class Later:
    """Words of a scene that may be given as what makes them, once they are asked for."""

    def __set_name__(self, _owner: type, name: str) -> None:
        self.name = name

    def __set__(self, scene: Any, words: str | Callable[[], str]) -> None:
        vars(scene)[self.name] = words

    def __get__(self, scene: Any, _owner: type | None = None) -> str:
        if scene is None:
            raise AttributeError(self.name)  # it has no default
        words = vars(scene)[self.name]
        if callable(words):
            words = vars(scene)[self.name] = words()
        return words


@dataclass(frozen=True, kw_only=True)
class Scene:
    """A picture with its words.

    Parameters
    ----------
    image : PIL image
    alt : str, or a callable that makes it
        The picture in words, made from the state: only a picture at rest needs them.
    numbers : tuple of Number
        At most five.
    says : str
        One sentence for the status line; may be empty.
    panels : tuple of Panel
        Where steel was drawn.
    clays : mapping
        What each steel is called where the bar is shown in clay.
    """

    image: Image.Image
    alt: str | Callable[[], str] = Later()
    numbers: tuple[Number, ...]
    says: str = ""
    panels: tuple[Panel, ...] = ()
    clays: Mapping[str, str] = field(default_factory=dict)

    def called(self, steel: str) -> str:
        """Give what a steel is called in this picture."""
        return self.clays.get(steel, steel)

    def worded(self, sentence: str) -> str:
        """Speak of clay where a sentence speaks of steel, if this is a bar of clay."""
        return sentence.replace("steel", "clay") if self.clays else sentence

    @property
    def invites(self) -> str:
        """What can be done with the picture, where there is nothing else to say."""
        if not self.panels:
            return "Move a control."
        return (
            "Move a control. Click the steel to see which bar it came from; L counts along "
            "a line."
        )

    def pixel(self, across: float, down: float) -> tuple[float, float]:
        """Give the column and row of a place, given as shares 0 … 1 of the picture."""
        return across * self.image.width - 0.5, down * self.image.height - 0.5

    def told_in(self, units: Units) -> Scene:
        """Tell in the reader's units what is written in mm: words, numbers, workings."""
        numbers = (
            one._replace(
                name=in_units(one.name, units),
                value=in_units(one.value, units),
                working=working_in_units(one.working, units),
            )
            for one in self.numbers
        )
        return replace(
            self,
            alt=lambda: in_units(self.alt, units),
            numbers=tuple(numbers),
            says=in_units(self.says, units),
        )

    def at(self, across: float, down: float, units: Units) -> str:
        """Say what steel is at a place, given as shares 0 … 1 of the picture."""
        pixel = self.pixel(across, down)
        for panel in self.panels:
            billet, surface = panel.billet, panel.surface
            place = tuple(round(part) for part in panel.own(*pixel))
            inside = 0 <= place[0] < surface.columns and 0 <= place[1] < surface.rows
            if not inside:
                continue
            look = surface.look(place[1], place[1] + 1, float)
            if look.cover[0, place[0] + 1] > 0.5:
                point = tuple(float(axis[0, place[0] + 1]) for axis in look.points)
                stack, bar = bar_at(billet, point)
                name = self.called(stack.layers[bar].steel)
                return f"{name}: {_placed(stack, bar, point, units)}"
        return self.worded("No steel there. Click the steel to see which bar it came from.")


def keep(
    sheet: Sheet,
    at: tuple[int, int],
    size: tuple[int, int],
    draw: Callable[..., None],
    *asked: Any,
) -> None:
    """Lay a part of the picture that most moves leave as it was: drawn once, and kept.

    Parameters
    ----------
    sheet : Sheet
    at, size : (int, int)
        Its upper left corner, and how wide and high it is, pixels.
    draw : callable
        Draws it on a sheet of its own; it is told what is `asked`, all of it hashable.
    """
    part = _kept(draw, size, sheet.sunlit, sheet.letters, sheet.look, asked)
    sheet.image.paste(part.image, at)
    sheet.image.info |= part.image.info
    sheet.words += [
        (at[0] + left, at[1] + top, at[0] + right, at[1] + low)
        for left, top, right, low in part.words
    ]


@lru_cache(maxsize=24)
def _kept(draw: Callable[..., None], size: tuple, *how: Any) -> Sheet:
    sunlit, letters, look, asked = how
    part = Sheet(*size, sunlit=sunlit, letters=letters, look=look)
    with whole():
        draw(part, *asked)
    return part


def _placed(stack: Stack, bar: int, point: tuple[float, float, float], units: Units) -> str:
    x, y, z = point
    y_side = "right" if y >= 0 else "left"
    z_side = "above" if z >= 0 else "below"
    return (
        f"bar {bar + 1} of {len(stack.layers)}, counted from "
        f"the bottom of the stack. {format_length(x, units)} along the bar, "
        f"{format_length(abs(y), units)} {y_side} of its middle, "
        f"{format_length(abs(z), units)} {z_side} it."
    )


def steel_gone(billet: Billet, *, face: float = 0.0) -> Number:
    """Say how much of the steel was cut or ground away, step by step.

    Parameters
    ----------
    billet : Billet
    face : float
        What is ground off its face for the picture, as a share of the finished bar.
    """
    start = started(billet)
    taken: Counter[str] = Counter()
    for row in lost(billet):
        taken[row.how or row.step] += row.volume
    taken["ground off the face"] += (start - taken.total()) * face
    gone = taken.total()
    working = [
        f"{name}: {volume:,.0f} mm³ of {start:,.0f} mm³ = {100 * volume / start:.1f} %"
        for name, volume in taken.items()
        if volume > LEAST
    ]
    if not working:
        working = ["forging moves steel and takes none away (scale is not counted)"]
    share = f"{round(100 * gone / start, 1):g} %"
    if len(working) > 1:
        working.append(f"together = {share}")
    working.append(f"left: about {weight(billet) * (1 - face):,.0f} g")
    return Number("Steel cut or ground away so far", share, working, weighed(billet))


def weighed(billet: Billet) -> tuple[Claim, ...]:
    """Give what a weight of a bar relies on: its steps, and how dense its steels are."""
    return (FORGED, *map(steel, dict.fromkeys(billet.source.steels)))

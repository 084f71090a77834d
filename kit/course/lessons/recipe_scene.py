"""Any recipe, looked at: the bar as a solid, and its face ground as deep as you like."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from kit.basics.declare import choice, quantity
from kit.basics.units import Units, format_length
from kit.course.lessons import drawing
from kit.course.lessons.base import Job as Base
from kit.course.lessons.scene import Number, Panel, Scene
from kit.forge.losses import share_lost, weight
from kit.forge.patterns import PATTERNS
from kit.metal import etch
from kit.metal.described import Described
from kit.section.block import Block
from kit.section.picture import GHOST, QUIET, Sheet
from kit.section.surface import shown_at
from kit.section.trace import see

if TYPE_CHECKING:
    from kit.forge.recipes.recipe import Recipe

SOLID = (10, 40, 480, 330)  # left, top, columns, rows
FACE = (510, 70, 470, 250)
LOOKS = ("as it is usually shown", "face", "end", "side")


class Job(Base):
    """Which recipe of the list, and how it is looked at."""

    which: int = choice("Pattern", [one.name for one in PATTERNS])
    look: int = choice("View", LOOKS)
    ground: float = quantity(
        "Ground towards the middle", "how deep the face on the right lies", low=0,
        high=100, unit="%", default=0,
    )  # fmt: skip

    def draw(self, units: Units, *, recipe: Recipe, **paper: Any) -> Scene:
        """Draw a recipe's bar, and one of its faces."""
        billet = recipe.billet
        look = LOOKS[self.look]
        if self.look == 0:
            shown = {one.name: one.shown for one in PATTERNS}
            look = shown.get(recipe.name, "face")
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, **paper)
        left, top, columns, rows = SOLID
        sheet.text(recipe.name[:46], (20, 10), size=18)
        block = Block.fitted(billet.size, columns, rows)
        sheet.steel(see(billet, block, etch.tones(billet.source.steels)), (left, top))
        sheet.scale_bar((24, drawing.ROWS - 14), block.pixel, units)
        face, depth = _face(sheet, recipe, look, self.ground, units)
        return Scene(
            image=sheet.image,
            alt=_alt(recipe, look, depth, face.shows, units),
            numbers=_numbers(recipe, units),
            panels=(Panel(billet, block, SOLID[:2]), face),
        )


def _face(
    sheet: Sheet, recipe: Recipe, look: str, ground: float, units: Units
) -> tuple[Panel, float]:
    """Draw the face on the right; give it, and how deep it lies, mm."""
    billet, tones = recipe.billet, etch.tones(recipe.billet.source.steels)
    left, top, columns, rows = FACE
    depth = _depth(recipe, ground) if look == "face" else 0.0
    face = shown_at(billet, look, columns, rows)
    if look == "face":
        x, y, _ = face.centre
        height = (billet.size.thickness / 2 - 1e-3) - depth * 0.999
        face = replace(face, centre=(x, y, height))
    off = f", {format_length(depth, units)} ground off" if depth else ""
    sheet.text(f"its {look}{off}", (left, 10), size=18)
    seen = see(billet, face, tones)
    sheet.steel(seen, (left, top))
    sheet.box((left, top), (left + columns, top + rows), ink=GHOST)
    sheet.scale_bar((left, top + rows + 40), face.pixel, units)
    sheet.text(
        "tones illustrative",
        (left + columns, top + rows + 30),
        size=15,
        ink=QUIET,
        anchor="ra",
    )
    return Panel.drawn(billet, face, FACE[:2], seen), depth


def _depth(recipe: Recipe, ground: float) -> float:
    return recipe.billet.size.thickness / 2 * ground / 100


def _numbers(recipe: Recipe, units: Units) -> tuple[Number, ...]:
    billet = recipe.billet
    size = " × ".join(format_length(side, units) for side in billet.size)
    steps = [step.step for step in billet.steps]
    return (
        Number("Size", size, ["after the last step"]),
        Number("Layers", f"{billet.layers:,}", ["pieces of steel, folds multiplied in"]),
        Number("Steps", f"{len(billet)}", [", ".join(steps) or "none: only stacked"]),
        Number(
            "Ground away",
            f"{100 * share_lost(billet):.0f} %",
            ["what grinding and cropping took; forging takes nothing here"],
        ),
        Number("Weight", f"{weight(billet):,.0f} g", ["volume × mean density"]),
    )


def _alt(
    recipe: Recipe, look: str, depth: float, shows: Described | None, units: Units
) -> str:
    billet = recipe.billet
    steps = ", ".join(step.step for step in billet.steps) or "nothing yet"
    steels = " and ".join(dict.fromkeys(billet.source.steels))
    return (
        f"{recipe.name}: a bar of {steels}, {billet.layers:,} layers, made by {steps}. On "
        f"the left the solid, on the right its {look}, {format_length(depth, units)} deep: "
        f"it shows {shows}."
    )

"""A bar of one's own on a lesson's bench: the solid, its face and its end, counted."""

from typing import Any

from kit.basics.told import counted
from kit.basics.units import Units, format_length
from kit.course.lessons.scene import Number, Panel, Scene, weighed
from kit.forge.billet import Billet
from kit.section.block import Block
from kit.section.picture import Sheet
from kit.section.surface import face_depth, shown_at
from kit.shop.losses import weight

COLUMNS, ROWS = 1000, 412  # pixels, as those below
SOLID = (560, 330)
FACE, END = (390, 132), (390, 120)
RIGHT = 590  # where the faces begin


def own_bar(billet: Billet, units: Units = Units.MM, **paper: Any) -> Scene:
    """Draw any bar: as a solid, its face from above, and its end.

    Parameters
    ----------
    billet : Billet
    units : Units
    **paper
        As `Sheet` has it: sunlit, letters, look.
    """
    sheet = Sheet(COLUMNS, ROWS, **paper)
    size = billet.size
    shown = min(size.length, 4 * max(size.width, size.thickness))
    solid = Block.fitted(size, *SOLID, span=(size.length - shown, size.length))
    panels = [_laid(sheet, billet, solid, (10, 40), "Your own bar", units)]
    top_of_it = "face", f"Its face, from above{ground_off(billet, units)}"
    for name, words, top, (columns, rows) in (
        (*top_of_it, 40, FACE),
        ("end", "Its end", 246, END),
    ):
        plane = shown_at(billet, name, columns, rows)
        panels.append(_laid(sheet, billet, plane, (RIGHT, top), words, units))
    sizes = " × ".join(format_length(part, units) for part in size)
    return Scene(
        image=sheet.image,
        alt=(
            f"Your own bar, {sizes}, of {counted(billet.layers, 'layer')} and "
            f"{counted(billet.bands, 'band')}. "
            f"{top_of_it[1]}: {panels[1].shows}. Its end shows {panels[2].shows}."
        ),
        numbers=(
            Number("Length × width × thickness", sizes, ["by its steps"]),
            Number("Layers", f"{billet.layers:,}", ["as the trade counts them"]),
            Number("Bands", f"{billet.bands:,}", ["like steel that met like is one band"]),
            Number(
                "Weight",
                f"{weight(billet):.0f} g",
                ["less what was ground off"],
                weighed(billet),
            ),
        ),
        says="Your own bar lies on the bench. Move a control to have the lesson's back.",
        panels=tuple(panels),
    )


def _laid(
    sheet: Sheet,
    billet: Billet,
    surface: Block,
    at: tuple[int, int],
    words: str,
    units: Units,
) -> Panel:
    sheet.text(words, (at[0] + 10, at[1] - 30), size=18)
    sheet.scale_bar((at[0] + 14, at[1] + surface.rows + 24), surface.pixel, units)
    return Panel.laid(sheet, billet, surface, at)


def ground_off(billet: Billet, units: Units = Units.MM) -> str:
    """Say below "the face" what was ground off to have one; of a flat bar, nothing."""
    deep = face_depth(billet)
    return f", {format_length(deep, units)} ground off" if deep else ""

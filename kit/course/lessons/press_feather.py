"""Lesson 05's feather: a tall block, split by a wedge, welded again and drawn out."""

from kit.basics.units import Units, format_length, in_figures
from kit.course.lessons import press_drawing as drawing
from kit.course.lessons.press_ideas import figure
from kit.course.lessons.scene import Number, Panel, steel_gone
from kit.forge.billet import Billet
from kit.forge.stack import Layer, Stack
from kit.forge.steps import DrawOut, Split
from kit.section.picture import ACCENT, Sheet
from kit.section.surface import Plane, fitting

TALL = 10  # times the bar: the block that a feather is split in
BLOCK = 84.0  # mm, its width
FEATHER = 40.0  # mm, its width once it is drawn out
STRETCH = 2.5  # how much longer it is drawn along the split
LONGEST = 200.0  # mm
ROWS = 394  # pixels
BARBS = (
    "The barbs of the feather are layers that the wedge dragged along. Their curve is "
    "illustrative: no measured one was found."
)


def split(source: Stack, drag: float, reach: float) -> Billet:
    """Split a block, ten times as tall as the bar, with a wedge; drag and reach in mm."""
    bars = [
        Layer(steel=bar.steel, thickness=in_figures(bar.thickness * TALL))
        for bar in source.layers
    ]
    block = Stack(layers=bars, length=30, width=BLOCK)
    return Billet(source=block).then(Split(drag=drag, reach=reach))


def drawn_out(block: Billet) -> Billet:
    """Draw the split block out along the split."""
    long = in_figures(min(STRETCH * block.size.thickness, LONGEST))
    return block.then(DrawOut(thickness=long, width=FEATHER))


def draw(
    sheet: Sheet, split: Billet, drawn: Billet, layer: float, units: Units
) -> tuple[Panel, ...]:
    """Draw the end of a tall block, split, ground true and drawn out; layers in mm."""
    block = split[:0]
    pixel = fitting(block.size.thickness / ROWS, block.size.width / 300)
    panels = []
    for billet, left, name in (
        (block, 12, "The end of a tall block"),
        (split, 350, "Split, welded again, ground true"),
        (drawn, 740, "Drawn out: the blade's face"),
    ):
        size = billet.size
        columns = round(size.width / pixel)
        half = min(size.thickness / 2 / pixel, ROWS / 2)
        centre = (size.length / 2, pixel / 4, 0.0)  # aside: see surface.shown_at
        end = Plane.facing(size, "end", centre, (columns, ROWS), pixel)
        top = 56
        sheet.text(name, (left, 6), size=18)
        panels.append(Panel.laid(sheet, billet, end, (left, top)))
        middle = top + ROWS / 2
        sheet.box((left - 1, middle - half - 1), (left + columns, middle + half))
        if billet is not block:
            place = left + columns / 2
            for edge, out in ((middle - half - 3, -18), (middle + half + 3, 18)):
                sheet.line([(place, edge), (place, edge + out)], ink=ACCENT, width=3)
    words = f"The layers of the block are {format_length(layer, units)} thick."
    drawing.foot(sheet, f"{words} Right: a piece. Marks: the quill.", pixel, units)
    return tuple(panels)


def alt(block: Billet, drag: float, face: Panel, units: Units) -> str:
    """Tell the picture in words; the drag in mm."""
    return (
        f"Left, the end of a tall block of {block.layers} flat layers. In the "
        f"middle, the same after a wedge was driven down it: from both sides the "
        f"layers sweep in and down to the split, by {format_length(drag, units)}. Right, "
        f"a piece of it drawn "
        f"out: on the blade's face they run into a quill in the middle like the "
        f"barbs of a feather, ever steeper. That face shows {face.shows}."
    )


def numbers(
    block: Billet, drawn: Billet, drag: float, layer: float, units: Units
) -> tuple[Number, ...]:
    """Give what the wedge did, and what is left; drag and layer in mm."""
    tall, left = block.source.thickness, block.size.thickness
    long = drawn.size.thickness
    return (
        Number(
            "Drag of the wedge", format_length(drag, units), [f"{TALL} × the depth set"]
        ),
        Number(
            "Layers that one barb crosses",
            figure(drag / layer),
            ["= drag / layer", f"= {drag:g} mm / {layer:g} mm"],
        ),
        Number(
            "Height left after grinding true",
            format_length(left, units),
            [
                "= block - drag: notch above and ridge below come off",
                f"= {tall:g} mm - {drag:g} mm",
            ],
        ),
        Number(
            "Length of the feather, drawn out",
            format_length(long, units),
            [f"= height × {long / left:.3g}", f"= {left:g} mm × {long / left:.3g}"],
        ),
        steel_gone(block),
    )

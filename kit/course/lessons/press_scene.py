"""Lesson 05 on one sheet: picture, words and numbers."""

from __future__ import annotations

from kit.basics.units import Units, format_length
from kit.course.lessons import press_drawing
from kit.course.lessons.lost import steel_gone
from kit.course.lessons.press import DRILL, GROOVE, TALL, TOOLS, WAYS, WEDGE, Job
from kit.course.lessons.scene import Number, Panel, Scene
from kit.section.picture import Sheet

FIRST_ORDER = (
    "Columns of metal are squeezed straight down here (first order): narrow dents in thick "
    "bars stay shallower than this. Check against clay."
)
NAMES = ("drill points", "bowls of a ball", "grooves")


def scene(*, units: Units = Units.MM, sunlit: bool = False, **values: float) -> Scene:
    """Hollow the bar both ways, level it, grind it; show faces, sections and numbers."""
    done = Job.asked(values, units)
    sheet = Sheet(press_drawing.COLUMNS, press_drawing.ROWS, sunlit=sunlit)
    if done.tool == WEDGE:
        panels = press_drawing.feather(sheet, done, units)
        return Scene(
            image=sheet.image,
            alt=_feather_alt(done, panels[-1], units),
            numbers=_feather_numbers(done, units),
            says="The barbs of the feather are layers that the wedge dragged along. Their "
            "curve is illustrative: no measured one was found.",
            panels=panels,
        )
    panels = press_drawing.both(sheet, done, units)
    at = press_drawing.LEFTS[done.way]
    framed = next(panel for panel in panels if panel.corner[0] == at)
    return Scene(
        image=sheet.image,
        alt=_alt(done, framed, units),
        numbers=_numbers(done, units),
        says=_thinner(done, units) or FIRST_ORDER,
        panels=panels,
    )


def _figure(value: float) -> str:
    return f"{round(value, 1):g}"


def _alt(job: Job, face: Panel, units: Units) -> str:
    deep = format_length(job.chosen.deep, units)
    across = format_length(job.across, units)
    ground = f", {format_length(job.ground, units)} ground off" if job.ground else ""
    lines = "rungs with lines" if job.tool == GROOVE else "rings"
    left = f"{_figure(job.left)} {lines} are left of each hollow"
    if job.chosen.deep == 0:
        left = "there is no hollow"
    order = ("the deepest layer", "the top layer")
    return (
        f"Two bars side by side, each seen from above and, below that, in section: "
        f"{NAMES[job.tool]} {across} wide and {deep} deep in layers of "
        f"{format_length(job.layer, units)}; left {WAYS[0]}, with {order[0]} in the "
        f"middle, right {WAYS[1]}, with {order[1]} in the middle. Framed: "
        f"{WAYS[job.way]}{ground}; {left}, and the face shows {face.shows}. "
        f"The section runs {format_length(job.line / 200 * job.spacing, units)} "
        f"beside the middle of the hollows."
    )


def _numbers(job: Job, units: Units) -> tuple[Number, ...]:
    deepest = job.chosen.dents.deepest
    thinnest = Number(
        "Thinnest place, with its hollows",
        format_length(job.size.thickness - deepest, units),
        [
            "= bar before - hollows at their deepest, both faces together",
            f"= {job.size.thickness:g} mm - {deepest:.2f} mm",
        ],
    )
    gone = steel_gone(job.ground_bar)
    return _rings(job), _spacing(job, units), _left(job), thinnest, gone


def _rings(job: Job) -> Number:
    solid = job.relief(job.way, 0) / job.layer
    deep = f"depth: {job.chosen.deep:.2f} mm, as chosen"
    if job.tool == DRILL:
        deep = (
            f"depth: {job.across / 2:g} mm / tan(59°) = {job.chosen.deep:.2f} mm, because "
            "a common drill's point is 118°"
        )
    return Number(
        "Lines in half a rung" if job.tool == GROOVE else "Rings",
        _figure(job.rings),
        [
            deep,
            "rings = depth / layer",
            f"= {job.chosen.deep:.2f} mm / {job.layer:g} mm = {job.rings:.2f}",
            f"on the solid drawn here: {solid:.2f}; {_why_rings(job)}",
        ],
    )


def _left(job: Job) -> Number:
    return Number(
        "Left after grinding",
        _figure(job.left),
        [
            "= rings × (1 - ground off / bar)",
            f"= {job.rings:.2f} × (1 - {job.ground:g} / {job.thickness:.3g})",
            f"= {job.left:.2f}",
            f"on the solid: {job.relief(job.way, job.ground) / job.layer:.2f}",
        ],
    )


def _why_rings(job: Job) -> str:
    if job.chosen.way == "cut":
        return "the same, if no hollow of the other face lies below"
    return "metal pushed out of the dents lifts what is between them before it is ground"


def _spacing(job: Job, units: Units) -> Number:
    if job.tool == GROOVE:
        return Number(
            "Whole rungs a side, on 200 mm",
            f"{job.rungs}",
            [
                f"200 mm / {job.spacing:g} mm = {200 / job.spacing:.1f}",
                "the first half a spacing from the end; cut ones do not count",
            ],
        )
    first = job.across / 2 / job.rings if job.rings else 0.0
    solid = job.rim(job.way) / job.rings if job.rings else 0.0
    why = (
        f"on the solid drawn here: {solid:.2f} mm. Levelling moves metal into the "
        f"hollows, and forging thinner spreads everything × {job.spread:.2f}"
    )
    return Number(
        "Ring spacing, as cut" if job.tool == DRILL else "Ring spacing, mean",
        format_length(first, units) if first else "no rings",
        [
            "= radius / rings (for a drill point = layer × tan(59°))",
            f"= {job.across / 2:g} mm / {job.rings:.2f} = {first:.2f} mm",
            why,
        ],
    )


def _thinner(job: Job, units: Units) -> str:
    if job.thickness > job.after - 1e-6:
        return ""
    return (
        f"Once it is level this bar is only {format_length(job.thickness, units)} thick, "
        f"so it is left at that."
    )


def _feather_alt(job: Job, face: Panel, units: Units) -> str:
    drag = format_length(job.depth * TALL, units)
    return (
        f"Left, the end of a tall block of {job.split.layers} flat layers. In the "
        f"middle, the same after a wedge was driven down it: from both sides the "
        f"layers sweep in and down to the split, by {drag}. Right, a piece of it drawn "
        f"out: on the blade's face they run into a quill in the middle like the "
        f"barbs of a feather, ever steeper. That face shows {face.shows}."
    )


def _feather_numbers(job: Job, units: Units) -> tuple[Number, ...]:
    drag, layer = job.depth * TALL, job.layer * TALL
    split, long = job.split, job.feather.size.thickness
    left = split.size.thickness
    return (
        Number(
            "Drag of the wedge", format_length(drag, units), [f"{TALL} × the depth set"]
        ),
        Number(
            "Layers that one barb crosses",
            _figure(drag / layer),
            ["= drag / layer", f"= {drag:g} mm / {layer:g} mm"],
        ),
        Number(
            "Height left after grinding true",
            format_length(left, units),
            [
                "= block - drag: notch above and ridge below come off",
                f"= {split.source.thickness:g} mm - {drag:g} mm",
            ],
        ),
        Number(
            "Length of the feather, drawn out",
            format_length(long, units),
            [f"= height × {long / left:.3g}", f"= {left:g} mm × {long / left:.3g}"],
        ),
        steel_gone(split),
    )


def remark(changed: str, state: dict[str, float]) -> str:
    """Say what a change of one control did, where that is the point of it."""
    if state["tool"] == WEDGE:
        return ""
    if state["tool"] != DRILL and state["depth"] == 0:
        return "No hollow, no map: the face shows one layer."
    if changed == "depth" and state["tool"] == DRILL:
        return (
            "A drill point's depth follows from its width: the depth here is for the "
            f"other tools than the {TOOLS[DRILL]}."
        )
    return {
        "way": (
            "Nearly the same rings, in the opposite order: pressed and ground, the top "
            "layer is in the middle; cut and forged flat, the deepest."
        ),
        "ground": (
            "The relief falls evenly to the far face: at half the thickness, half of the "
            "rings are left."
        ),
        "line": "The section moved with the line: beside the hollow less is bent.",
    }.get(changed, "")

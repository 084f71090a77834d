"""Pictures of blades for the cards, drawn by the engine."""

from collections.abc import Sequence

from kit.course.lessons.bevels import BEFORE, BLADE, BevelsLesson
from kit.course.lessons.bevels_drawing import seen_blade
from kit.course.lessons.drawing import TRUE_SIZE
from kit.course.lessons.san_mai import SanMaiLesson
from kit.course.lessons.san_mai_ideas import line
from kit.course.lessons.san_mai_line import SPARE
from kit.course.lessons.scene import Panel, Scene
from kit.course.questions.card import Measures
from kit.metal import etch
from kit.metal.eye import EYE_300
from kit.section.blade import Blade
from kit.section.picture import ACCENT, INK, QUIET, Sheet

WIDE = 1000  # columns of every picture
SHOWN = (466, 124)  # columns and rows of one of four blades
CLOSE = 40.0  # mm from the heel: the middle of the enlarged clad blade
SIDE = 290  # rows of a scene of lesson 06 that show the blade's side


def finer_and_finer(layers: Sequence[int], measures: Measures) -> Scene:
    """Draw one blade with more and more layers, about true size."""
    sheet = Sheet(WIDE, 376, **measures.paper)
    panels, words = [], []
    for number, count in enumerate(layers):
        job = BevelsLesson(layers=count)
        left, top = 20 + (number % 2) * 490, 34 + (number // 2) * 176
        panels.append(_near_the_tip(sheet, job, (left, top)))
        spacing = job.crossed.spacing
        fine = spacing < EYE_300
        apart = f"lines {measures.fine(spacing)} apart" + (": too fine" if fine else "")
        sheet.text(f"{count:,} layers: {apart}", (left, top - 28), size=19)
        words.append(f"{count:,} layers, {apart}")
    note = "The same blade, about true size at full width; the finish is illustrative."
    sheet.text(note, (20, 372), size=16, ink=QUIET, anchor="ls")
    alt = (
        "One blade drawn four times, each with flat layers of two steels through the same "
        f"thickness: {'; '.join(words)}. The more layers, the closer the lines on its "
        "bevel, until the face is even grey."
    )
    return Scene(image=sheet.image, alt=alt, numbers=(), panels=tuple(panels))


def _near_the_tip(sheet: Sheet, job: BevelsLesson, at: tuple[int, int]) -> Panel:
    size = job.billet.size
    columns, rows = SHOWN
    tip = (size.length + job.grind.outline.length) / 2
    view = Blade(
        grind=job.grind,
        size=size,
        centre=(tip - (columns / 2 - 12) * TRUE_SIZE, 0.0),
        columns=columns,
        rows=rows,
        pixel=TRUE_SIZE,
    )
    face, surface = seen_blade(job.billet, view, job.share)
    sheet.blade(face, at, surface)
    return Panel(job.billet, surface, at)


def bar_and_blade(bought: int, measures: Measures) -> Scene:
    """Draw a bar as it is bought, and below it the blade that is ground from it."""
    sheet = Sheet(WIDE, 2 * SIDE, **measures.paper)
    both = [
        BevelsLesson.scene(
            bought=bought, shown=shown, told=False,
            units=measures.units, **measures.paper,
        )
        for shown in (BEFORE, BLADE)
    ]  # fmt: skip
    panels = []
    for number, scene in enumerate(both):
        top = number * SIDE
        sheet.image.paste(scene.image.crop((0, 0, WIDE, SIDE)), (0, top))
        (left, row), first = scene.panels[0].corner, scene.panels[0]
        panels.append(Panel(first.billet, first.surface, (left, row + top)))
    alt = f"Above: {both[0].alt} Below: {both[1].alt}"
    return Scene(image=sheet.image, alt=alt, numbers=(), panels=tuple(panels))


def sharpened(strip: float, worn: float, measures: Measures) -> Scene:
    """Draw the side of a clad blade with what a stone takes, at first and in years.

    Parameters
    ----------
    strip, worn : float
        How high a strip a stone touches, and how much of the edge is gone in the end, mm.
    measures : Measures
    """
    job = SanMaiLesson()
    sheet = Sheet(WIDE, 430, **measures.paper)
    view, at = _at_the_edge(job), (20, 16)
    low = -job.height / 2
    steel = etch.seen(job.billet, view)
    sheet.steel(steel, at, view)
    height, right = line(job.given), at[0] + view.columns
    level = {up: at[1] + view.place((0.0, low + up, 0.0))[1]
             for up in (0.0, strip, worn, height)}  # fmt: skip
    marks = (
        (height, level[height], INK, f"the core's line, {measures.tenth(height)} up"),
        (
            worn,
            level[height] + 64,
            ACCENT,
            f"the edge when {measures.tenth(worn)} are gone:",
        ),
        (strip, level[strip] - 2, INK, f"a stone touches {measures.tenth(strip)}"),
        (0.0, level[0.0] + 18, INK, "the edge when new"),
    )
    for up, y, ink, words in marks:
        sheet.dashes(
            (at[0], level[up]), (right, level[up]), ink=sheet.page, width=3, dash=9
        )
        sheet.line([(right, level[up]), (right + 26, y)], ink=ink, width=2)
        sheet.text(words, (right + 32, y), size=20, anchor="lm", ink=ink)
    after = f"the line is then {measures.tenth(height - worn)} from it"
    sheet.text(after, (right + 32, marks[1][1] + 25), size=20, anchor="lm", ink=ACCENT)
    sheet.scale_bar((24, 418), view.pixel, measures.units)
    alt = (
        "The side of a clad blade, enlarged, edge down. The core's line runs "
        f"{measures.tenth(height)} above the edge. A dashed line {measures.tenth(strip)} "
        "up marks what a sharpening stone touches. Another shows the edge when "
        f"{measures.tenth(worn)} of the blade are gone: the core's line is then "
        f"{measures.tenth(height - worn)} from it."
    )
    return Scene(
        image=sheet.image, alt=alt, numbers=(), panels=(Panel(job.billet, view, at),)
    )


def _at_the_edge(job: SanMaiLesson) -> Blade:
    """Look closely at the lower half of a blade's side."""
    rows, pixel = 350, 0.05
    return Blade(
        grind=job.blade.grind,
        size=job.billet.size,
        heel=SPARE,
        centre=(SPARE + CLOSE, -job.height / 2 + rows * pixel / 2 - 0.4),
        columns=600,
        rows=rows,
        pixel=pixel,
    )

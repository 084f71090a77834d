"""Card 33: what a stone takes off a clad blade, and off one patterned to its edge."""

from dataclasses import dataclass, replace

import numpy as np

from kit.course.lessons.bevels import BevelsLesson
from kit.course.lessons.san_mai import SanMaiLesson
from kit.course.lessons.san_mai_ideas import line
from kit.course.lessons.san_mai_line import SPARE
from kit.course.lessons.scene import Panel, Scene
from kit.course.questions.card import Measures
from kit.course.questions.faces import POLISHED, WIDE
from kit.metal import etch
from kit.section.blade import Blade
from kit.section.picture import ACCENT, INK, QUIET, Sheet
from kit.section.surface import Look, Moved
from kit.shop.bought import RAINDROP

CLOSE = 40.0  # mm from the heel: the middle of what is enlarged
COLUMNS, PIXEL = 600, 0.05  # pixels, and mm of each
BELOW = 0.4  # mm of the picture below the edge
GAP = 8  # pixels between a strip just honed and the same etched again


@dataclass(frozen=True)
class Honed(Moved):
    """A blade's side whose lowest strip, mm high, a stone has ground to a sharp edge."""

    surface: Blade
    strip: float

    def look(self, first: int, last: int, dtype: type = np.float32) -> Look:
        """See pixel rows; the strip falls straight from the bevel to nothing."""
        look, grind = self.surface.look(first, last, dtype), self.surface.grind
        x, y, z = look.points
        above = np.maximum(y + grind.outline.height / 2, 0)
        at_top = grind.half(x - self.surface.heel, np.full_like(above, self.strip))
        honed = np.where(above < self.strip, at_top * above / self.strip, z)
        return look._replace(points=(x, y, honed.astype(dtype)))


def sharpened(strip: float, worn: float, measures: Measures) -> Scene:
    """Draw what a stone takes off the sides of two blades, edge down.

    Parameters
    ----------
    strip, worn : float
        How high a strip a stone touches, and how much of the edge is gone in the end, mm.
    measures : Measures
    """
    sheet = Sheet(WIDE, 574, **measures.paper)
    clad, told = _clad(sheet, strip, worn, measures)
    patterned = _patterned(sheet, strip, measures)
    sheet.scale_bar((24, 564), PIXEL, measures.units)
    alt = (
        f"Two blades enlarged, edge down. Above, a clad blade: {told} Below, a blade "
        "whose raindrop pattern runs down to the edge, drawn twice. Left, just "
        f"sharpened: the lowest {measures.tenth(strip)} is bare and the pattern ends "
        "above it. Right, etched again: the pattern runs on through that strip, its "
        "lines closer together there."
    )
    return Scene(image=sheet.image, alt=alt, numbers=(), panels=(clad, *patterned))


def _clad(sheet: Sheet, strip: float, worn: float, measures: Measures) -> tuple[Panel, str]:
    job, at = SanMaiLesson(), (20, 40)
    view = Blade(
        grind=job.blade.grind, size=job.billet.size, heel=SPARE,
        **_close(SPARE, job.height, 230),
    )  # fmt: skip
    sheet.text("Clad: the core is plain, and the edge is core", (20, 8), size=20)
    sheet.steel(etch.seen(job.billet, view), at, view)
    height, right = line(job.given), at[0] + COLUMNS
    level = {up: at[1] + view.place((0.0, up - job.height / 2, 0.0))[1]
             for up in (0.0, strip, worn, height)}  # fmt: skip
    gone, after = measures.tenth(worn), measures.tenth(height - worn)
    up = measures.tenth(height)
    marks = (
        (height, level[height], INK, f"the core's line, {up} up"),
        (worn, level[height] + 56, ACCENT, f"the edge when {gone} are gone:"),
        (strip, level[strip] - 2, INK, f"a stone touches {measures.tenth(strip)}"),
        (0.0, level[0.0] + 18, INK, "the edge when new"),
    )
    for mark, y, ink, words in marks:
        ends = (at[0], level[mark]), (right, level[mark])
        sheet.dashes(*ends, ink=sheet.page, width=3, dash=9)
        sheet.line([ends[1], (right + 26, y)], ink=ink, width=2)
        sheet.text(words, (right + 32, y), size=20, anchor="lm", ink=ink)
    words = f"the line is then {after} from it"
    place = (right + 32, marks[1][1] + 25)
    sheet.text(words, place, size=20, anchor="lm", ink=ACCENT)
    told = (
        f"the core's line runs {up} above the edge. A dashed line {measures.tenth(strip)} "
        f"up marks what a sharpening stone touches. Another shows the edge when {gone} of "
        f"the blade are gone: the core's line is then {after} from it."
    )
    return Panel(job.billet, view, at), told


def _patterned(sheet: Sheet, strip: float, measures: Measures) -> tuple[Panel, ...]:
    """Draw a strip of raindrop just honed, and etched again beside it."""
    job = BevelsLesson(bought=RAINDROP)
    size = job.billet.size
    heel = (size.length - job.grind.outline.length) / 2
    whole = Blade(grind=job.grind, size=size, heel=heel, **_close(heel, job.height, 160))
    view = replace(whole, columns=(COLUMNS - GAP) // 2)
    honed = Honed(view, strip)
    again = etch.seen(job.billet, honed)
    level = view.place((0.0, strip - job.height / 2, 0.0))[1]
    bare = np.arange(view.rows)[:, None] > level
    just = again._replace(tone=np.where(bare, POLISHED, again.tone))
    sheet.text("Patterned down to the edge", (20, 308), size=20)
    panels = []
    halves = ((just, "just sharpened"), (again, "etched again"))
    for number, (face, words) in enumerate(halves):
        at = (20 + number * (view.columns + GAP), 364)
        sheet.text(words, (at[0], 336), size=19, ink=QUIET)
        sheet.steel(face, at, honed)
        panels.append(Panel(job.billet, honed, at))
    right, y = 20 + COLUMNS, 364 + level
    sheet.line([(right, y), (right + 26, y - 40)], ink=INK, width=2)
    told = (
        f"the stone bares {measures.tenth(strip)};",
        "etched, its layers are back",
    )
    for row, words in enumerate(told):
        place = (right + 32, y - 40 + 25 * row)
        sheet.text(words, place, size=20, anchor="lm")
    return tuple(panels)


def _close(heel: float, height: float, rows: int) -> dict[str, object]:
    """Look closely at a blade's lowest part."""
    centre = (heel + CLOSE, -height / 2 + rows * PIXEL / 2 - BELOW)
    return {"centre": centre, "columns": COLUMNS, "rows": rows, "pixel": PIXEL}

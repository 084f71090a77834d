"""The picture at the head of every notebook: it is seen before anything was started.

It shows what the page is about and gives no prediction away: the stack that a bar is
forged from, or a pattern that is not asked about.
"""

import io
from collections.abc import Callable
from dataclasses import replace
from typing import NamedTuple

from PIL import Image

from kit.basics.told import counted, listed
from kit.course.anvil.look import Look, scene
from kit.course.lessons.bevels import BevelsLesson
from kit.course.lessons.bevels_drawing import seen_blade
from kit.course.lessons.scene import Scene
from kit.course.map import LESSONS
from kit.course.mark import TOLD, mark
from kit.forge.billet import Billet
from kit.forge.stack import Stack, demo_stack
from kit.forge.steps import DrawOut, Fold, Hammer
from kit.metal import described, etch
from kit.section.blade import Blade
from kit.section.picture import STEEL, SUNLIT_PAGE, Sheet
from kit.section.surface import shown_at
from kit.section.trace import Face, Surface
from kit.shop.bought import RAINDROP
from kit.shop.patterns import PATTERNS

WIDE, HIGH = 1000, 120  # pixels
TILE = 136  # pixels at the left end: there stands the mark
LONG = WIDE - TILE
QUALITY = 35  # of JPEG: 26 kB at most, and the steel is still steel
INSIDE = 0.98  # of the bar: its rim is not seen


class Drawn(NamedTuple):
    """A picture, the same in words, and its file."""

    image: Image.Image
    alt: str

    @property
    def file(self) -> bytes:
        """A JPEG."""
        out = io.BytesIO()
        self.image.save(out, "JPEG", quality=QUALITY, optimize=True)
        return out.getvalue()


Head = Callable[[], Drawn]


def _cut(billet: Billet, look: str) -> Drawn:
    """Fill the strip with a face of a bar, etched and lit."""
    size = billet.size
    along, across = {
        "face": (size.length, size.width),
        "side": (size.length, size.thickness),
        "split": (size.thickness, size.width),
    }[look]
    pixel = INSIDE * min(along / LONG, across / HIGH)
    plane = shown_at(billet, look, LONG, HIGH)
    plane = replace(plane, pixel=pixel, centre=(size.length / 2, *plane.centre[1:]))
    face = etch.seen(billet, plane)
    return _drawn(face, plane, f"The {look} of a bar", billet)


def _drawn(face: Face, surface: Surface, what: str, billet: Billet) -> Drawn:
    sheet = Sheet(WIDE, HIGH, look=STEEL)
    sheet.box((0, 0), (WIDE, HIGH), fill=SUNLIT_PAGE, ink=None)
    sheet.steel(face, (TILE, (HIGH - surface.rows) // 2), surface)
    signed = mark(HIGH - 16, SUNLIT_PAGE)
    left = (TILE - signed.width) // 2
    sheet.image.paste(signed, (left, (HIGH - signed.height) // 2))
    names = listed(dict.fromkeys(billet.source.steels))
    shows = described.of(face, surface.pixel)
    alt = f"{what} of {counted(billet.layers, 'layer')} of {names}. It shows {shows}."
    return Drawn(sheet.image, f"{alt} {TOLD}")


def _pattern(name: str, look: str = "face") -> Head:
    found = next(one for one in PATTERNS if one.name == name)
    return lambda: _cut(found.forge(), look)


def _stacked(stack: Callable[[], Stack]) -> Head:
    """Show the side of a stack, as a long bar of it looks."""

    def head() -> Drawn:
        made = stack()
        length = made.thickness * LONG / HIGH
        return _cut(Billet(source=made.model_copy(update={"length": length})), "side")

    return head


def _begun(key: str) -> Head:
    """Show the stack of a lesson's bar."""
    return _stacked(lambda: LESSONS[key].scene().panels[0].billet.source)


def _blade() -> Drawn:
    """Show a blade of a bar that was bought; asked is for one of flat layers."""
    billet, grind, share = BevelsLesson(bought=RAINDROP).ground
    view = Blade.fitted(grind, billet.size, LONG, HIGH)
    return _drawn(*seen_blade(billet, view, share), "A blade", billet)


# By the notebook's name, without its folder.
HEADS: dict[str, Head] = {
    "00_start_here": _pattern("random"),
    "01_cut": _begun("01"),
    "02_stack_and_fold": _begun("02"),
    "03_draw_out": _begun("03"),
    "04_twist": _pattern("star"),
    "05_press_and_cut": _pattern("ladder"),
    "06_bevels": _blade,
    "07_san_mai": _pattern("wavy core", "side"),
    "08_carbon_and_nickel": _stacked(
        lambda: Stack.alternate(
            "1084", "15N20", pieces=6, thickness=2, length=120, width=20
        )
    ),
    "09_etch_and_eye": _pattern("random"),
    "10_plan_a_billet": _stacked(demo_stack),
    "11_read_and_design": _pattern("medium twist"),
    "h1": _pattern("random"),
    "h2": _pattern("medium twist"),
    "h3": _pattern("raindrop"),
    "h4": _pattern("tight twist"),
    "h5": _pattern("star"),
    "instructor": _pattern("ladder"),
    "quiz": _pattern("low twist"),
    "bought": _pattern("ladder"),
    "measure": _pattern("low twist"),
    "print": _pattern("feather", "split"),
    "questions": _pattern("raindrop"),
    "forge": _pattern("tight twist"),
    "show": _pattern("star"),
}


def head(name: str) -> Drawn:
    """Draw the picture at the head of a notebook.

    Parameters
    ----------
    name : str
        Of the notebook, without folder and ending. A lesson that is not listed shows its
        stack.
    """
    return (HEADS.get(name) or _begun(name[:2]))()


def first_forging() -> Scene:
    """Draw the README's picture: the demo's stack, three folds, one shallow cut."""
    stack = demo_stack()
    blows = [Hammer(depth=5.5, spacing=25, seed=seed) for seed in range(1, 5)]
    bar = Billet(source=stack).then(blows[0])
    for blow in blows[1:]:
        bar = bar.then(Fold(), DrawOut(thickness=stack.thickness), blow)
    look = Look(kind="slant", angle=4)
    return scene(bar.then(DrawOut(thickness=12)), look, look=STEEL)

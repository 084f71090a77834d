"""One line of code, one picture: for the cells in which a lesson shows its code."""

import html
import math
from dataclasses import dataclass

from PIL import Image

from kit.basics.files import address_of
from kit.forge.billet import Billet
from kit.metal import described, etch
from kit.section.block import Block
from kit.section.picture import STEEL, Sheet, encode, on_any_page, seen_as
from kit.section.surface import Plane
from kit.section.trace import Face, Surface


@dataclass(frozen=True)
class Still:
    """A picture that carries its words; a notebook shows both."""

    image: Image.Image
    alt: str

    def _repr_html_(self) -> str:
        """Show it on whatever ground the page has: its own is clear."""
        source = address_of(encode(on_any_page(self.image)), "image/png")
        return f'<img alt="{html.escape(self.alt)}" src="{source}">'


def show(billet: Billet, surface: Surface, *, look: str = STEEL) -> Still:
    """Draw what a surface of a billet shows once it is etched.

    Parameters
    ----------
    billet : Billet
    surface : Plane or Block
        For example ``cut(billet, angle=30)``.
    look : str
        "steel", etched and under a lamp, or "layers", flat as a diagram has them.

    Examples
    --------
    >>> from kit import Billet, Stack, cut
    >>> block = Billet(source=Stack.alternate("1084", "15N20", pieces=9, thickness=4.0))
    >>> show(block, cut(block, angle=30)).alt
    'A flat cut at 30 degrees to the faces of a bar of 9 layers and 9 bands. It shows
    9 dark and bright bands running from left to right. Shown as etched steel, under
    a lamp.'
    """
    sheet = Sheet(surface.columns, surface.rows, look=look)
    face = etch.seen(billet, surface)
    sheet.steel(face, (0, 0), surface)
    return Still(sheet.image, _alt(billet, surface, face) + seen_as(sheet.image))


def _alt(billet: Billet, surface: Surface, face: Face) -> str:
    bar = f"a bar of {described.counts(billet.layers, billet.bands)}"
    if isinstance(surface, Block):
        return f"The solid: {bar}."
    shows = f"It shows {described.of(face, surface.pixel)}."
    if not isinstance(surface, Plane):
        return f"A ground face of {bar}. {shows}"
    lean = math.degrees(math.acos(min(1.0, math.hypot(surface.right[2], surface.up[2]))))
    return f"A flat cut at {90 - lean:g} degrees to the faces of {bar}. {shows}"

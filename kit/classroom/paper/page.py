"""A page drawn in millimetres, its words and tables, and pages bound into one file.

One layout serves A4 and Letter: the live area, 190 × 259 mm, fits both with margins of
10 mm. Print dialogs shrink pages unless told otherwise, so every page that is measured on
carries bars of 100 mm and 4 in, across and down, and the outline of a bank card.
matplotlib takes a second to come, so it is fetched where something is drawn.
"""

import io
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from PIL import Image

from kit.basics.claim import Kind, marked, meaning
from kit.basics.errors import KitError
from kit.basics.files import whole
from kit.basics.told import in_units
from kit.basics.typed import MM_PER_INCH
from kit.basics.units import Units
from kit.classroom.paper.lines import (
    BODY,
    FAMILIES,
    LEADING,
    POINT,
    files,
    lines_of,
    width_of,
)
from kit.course.mark import mark

FIGURES = 5  # points, on a ruler
PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}  # mm: ISO 216; ANSI Y14.1
LIVE = (190.0, 259.0)  # mm
CARD = (85.60, 53.98, 3.18)  # mm: ISO/IEC 7810 ID-1, with its rounded corners
MEASURED = 186.0  # mm down: below it a page that is measured on has its bars and its card
INK, QUIET = "#000000", "#555555"
HAIR, LINE = 0.25, 0.4  # mm
MARK, MARK_DOTS = 10.0, 118  # mm wide; dots high: 300 an inch
EXPLAINED = (6.5, 6, 5.5, 5)  # points, of what the marks mean: the largest for one line
BESIDE_BARS = 176.0  # mm: left of the bars that prove a page's scale

Place = tuple[float, float]


class Page:
    """One sheet. Places are mm from the upper left corner of the live area, y down.

    Parameters
    ----------
    paper : str
        "A4" or "Letter".
    title : str
        Its heading; may be empty.
    scaled : bool
        Whether it is measured on: draws the bars that prove its scale.
    units : Units
        In these every length is told that is written in mm.
    handed : bool
        Whether it is handed to a buyer, who cannot open a claim: it has no marks, and
        the sheets that come with it say what it rests on.

    Attributes
    ----------
    of : str
        What it is a sheet of, if that is not all that is printed with it: a lesson.
    """

    def __init__(
        self,
        paper: str = "A4",
        title: str = "",
        *,
        scaled: bool = False,
        units: Units = Units.MM,
        handed: bool = False,
    ) -> None:
        from matplotlib.figure import Figure  # noqa: PLC0415

        if paper not in PAPERS:
            msg = f"Paper can be {' or '.join(PAPERS)}. Given: {str(paper)[:20]}."
            raise KitError(msg)
        wide, tall = PAPERS[paper]
        self.figure = Figure(figsize=(wide / MM_PER_INCH, tall / MM_PER_INCH))
        left, top = (wide - LIVE[0]) / 2, (tall - LIVE[1]) / 2
        self.axes = self.figure.add_axes((0, 0, 1, 1))
        self.axes.set_xlim(-left, wide - left)
        self.axes.set_ylim(tall - top, -top)
        self.axes.axis("off")
        self.title = self.of = ""
        self.units = Units.MM  # the bars are what they are
        self.y = 0.0
        self.scaled = scaled
        self.handed = handed
        self._marks: set[Kind] = set()
        self._meaning: Any = None
        self._seen: dict[int, tuple[Image.Image, list]] = {}
        if title:
            self.head(title, ruled=units)
        if scaled:
            self.rules()
        self.units = units

    def head(
        self, title: str, *, ruled: Units | None = None, room: float = LIVE[0]
    ) -> None:
        """Begin a sheet: the kit's mark, the title, and below it a ruler, true to size."""
        self.title = title
        self.signed((0, -0.6))
        self.y = self.write(title, (MARK + 3, 0), room - MARK - 3, size=18, bold=True)
        if ruled is not None:
            self.ruler((0, self.y + 0.4), LIVE[0], inch=ruled is not Units.MM)
            self.y += 5

    def signed(self, at: Place, width: float = MARK) -> None:
        """Lay the kit's mark on the page, so many mm wide."""
        self.picture(mark(MARK_DOTS, "white"), at, width)

    def ruler(
        self,
        at: Place,
        long: float,
        *,
        inch: bool = False,
        up: bool = False,
        side: float = 1.0,
    ) -> None:
        """Draw a ruler true to size, in mm or in sixteenths of an inch.

        Parameters
        ----------
        at : (float, float)
            Its zero.
        long : float
            mm, to the right, or up the page.
        inch, up : bool
        side : float
            Its ticks point down or right; if negative up or left.
        """
        from matplotlib.patches import PathPatch  # noqa: PLC0415
        from matplotlib.path import Path as Outline  # noqa: PLC0415

        step, every = (MM_PER_INCH / 16, (16, 8, 4, 2)) if inch else (1.0, (10, 5, 5))
        ticks = []
        for tick in range(int(long / step + 1e-6) + 1):
            far, deep = tick * step, 0.8 + 0.5 * sum(tick % one == 0 for one in every)
            ends = [(far, 0.0), (far, deep * side)]
            ticks += [(y, -x) for x, y in ends] if up else ends
            if tick % every[0] == 0 and not up and far < long - step:
                words = (
                    f"{tick // 16 if inch else tick}" if tick else "in" if inch else "mm"
                )
                top = at[1] + (1.1 if side > 0 else -2.9)
                self.letter(words, (at[0] + far + 0.4, top), FIGURES)
        places = [(at[0] + x, at[1] + y) for x, y in ticks]
        outline = Outline(places, [Outline.MOVETO, Outline.LINETO] * (len(ticks) // 2))
        style = {"fill": False, "edgecolor": INK, "linewidth": HAIR / POINT}
        self.axes.add_artist(PathPatch(outline, **style))
        self.line(at, (at[0], at[1] - long) if up else (at[0] + long, at[1]))

    def wide(self, words: str, size: float = BODY, *, bold: bool = False) -> float:
        """Measure a line as this page tells it, mm."""
        return width_of(in_units(words, self.units), size, bold=bold)

    def tall(
        self, words: str, width: float = LIVE[0], size: float = BODY, *, bold: bool = False
    ) -> float:
        """Give how much room words take down this page, mm."""
        lines = lines_of(in_units(words, self.units), width, size, bold=bold)
        return len(lines) * LEADING * size * POINT

    def write(
        self,
        words: str,
        at: Place | None = None,
        width: float | None = None,
        *,
        size: float = BODY,
        bold: bool = False,
        ink: str = INK,
    ) -> float:
        """Write lines, broken at a width in mm; give where the next line goes.

        Without a place, below what was written last; without a width, up to the right
        edge of the live area.
        """
        x, y = (0.0, self.y) if at is None else at
        wide = LIVE[0] - x if width is None else width
        self._explain(marked(words))
        for line in lines_of(in_units(words, self.units), wide, size, bold=bold):
            self.letter(line, (x, y), size, bold=bold, color=ink)
            y += LEADING * size * POINT
        if at is None:
            self.y = y
        return y

    def _explain(self, kinds: set[Kind]) -> None:
        """Say once on a page what the marks on it mean, as soon as they stand there."""
        if kinds <= self._marks:
            return
        self._marks |= kinds
        if self._meaning is not None:
            self._meaning.remove()
        told = meaning(self._marks)
        room, y = (BESIDE_BARS, MEASURED + 0.9) if self.scaled else (LIVE[0], LIVE[1] + 0.5)
        fits = (size for size in EXPLAINED if width_of(told, size) <= room)
        self._meaning = self.letter(told, (0, y), next(fits, EXPLAINED[-1]), color=QUIET)

    def letter(
        self, words: str, at: Place, size: float, *, bold: bool = False, **how: Any
    ) -> Any:
        """Set one line as it is, in points; `how` as matplotlib's text has it."""
        style = {"va": "top", "fontfamily": FAMILIES, "fontsize": size, **how}
        files("normal")  # the typeface is known from here on
        weight = "bold" if bold else "normal"
        return self.axes.text(*at, words.replace("$", r"\$"), fontweight=weight, **style)

    def line(
        self, *places: Place, width: float = LINE, ink: str = INK, dash: bool = False
    ) -> None:
        """Draw a line through places; its width in mm."""
        x, y = zip(*places, strict=True)
        style = (0, (4, 3)) if dash else "-"
        self.axes.plot(
            x, y, color=ink, linewidth=width / POINT, linestyle=style, solid_capstyle="butt"
        )

    def box(
        self,
        at: Place,
        size: Place,
        *,
        fill: str = "none",
        width: float = LINE,
        corner: float = 0,
        ink: str = INK,
    ) -> None:
        """Draw a rectangle; `at` is its upper left corner; all in mm."""
        from matplotlib.patches import FancyBboxPatch, Rectangle  # noqa: PLC0415

        edge = ink if width else "none"  # a PDF draws a line of no width as thin as it can
        style = {"facecolor": fill, "edgecolor": edge, "linewidth": width / POINT}
        if corner:
            inner = (at[0] + corner, at[1] + corner)
            sides = (size[0] - 2 * corner, size[1] - 2 * corner)
            round_it = f"round,pad={corner},rounding_size={corner}"
            shape = FancyBboxPatch(inner, *sides, boxstyle=round_it, **style)
        else:
            shape = Rectangle(at, *size, **style)
        self.axes.add_artist(shape)  # the page's limits are set: none are looked for

    def shape(
        self, places: Sequence[Place], *, fill: str = "none", width: float = LINE
    ) -> None:
        """Draw a closed figure, its line as wide as said, in mm."""
        from matplotlib.patches import Polygon  # noqa: PLC0415

        self.axes.add_artist(
            Polygon(
                places, closed=True, facecolor=fill, edgecolor=INK, linewidth=width / POINT
            )
        )

    def squares(self, boxes: Sequence[tuple[Place, Place]]) -> None:
        """Fill many rectangles black as one figure: upper left corners and sizes, mm."""
        from matplotlib.patches import PathPatch  # noqa: PLC0415
        from matplotlib.path import Path as Outline  # noqa: PLC0415

        around = [(0, 0), (1, 0), (1, 1), (0, 1), (0, 0)]
        places = [
            (x + wide * right, y + tall * down)
            for (x, y), (wide, tall) in boxes
            for right, down in around
        ]
        one = [Outline.MOVETO, *[Outline.LINETO] * 3, Outline.CLOSEPOLY]
        outline = Outline(places, one * len(boxes))
        self.axes.add_artist(PathPatch(outline, facecolor="black", edgecolor="none"))

    def picture(self, image: Image.Image, at: Place, width: float) -> float:
        """Lay a picture on the page, so many mm wide; give where it ends below."""
        height = width * image.height / image.width
        shown = self.axes.imshow(
            image.convert("RGB"),
            extent=(at[0], at[0] + width, at[1] + height, at[1]),
            interpolation="none",
            aspect="auto",
            zorder=0,
        )
        # a picture that stands on a page four times is in its file once
        usual, (_, kept) = shown.make_image, self._seen.setdefault(id(image), (image, []))

        def made(*how: Any, **more: Any) -> tuple:
            whole, *where = usual(*how, **more)
            if not more.get("unsampled"):
                return whole, *where
            kept[:] = kept or [whole]
            return kept[0], *where

        shown.make_image = made
        return at[1] + height

    def rules(self) -> None:
        """Draw the bars of 100 mm and 4 in, both ways, the card, and the warning."""
        right, foot = LIVE
        for name, long, aside in (("100 mm", 100.0, 0.0), ("4 in", 4 * MM_PER_INCH, 7.0)):
            y, x = foot - aside, right - aside
            for start, up in (((0, y), False), ((x, foot - 12), True)):
                self.ruler(start, long, inch=name.endswith("in"), up=up, side=-1)
            self.write(name, at=(long + 2, y - 2), size=9)
            middle = (x - 2.6, foot - 12 - long / 2)
            self.letter(name, middle, 9, rotation=90, ha="right", va="center")
        self.write(
            "Print at 100 % (actual size). If the bars are not 100 mm and 4 in, do not "
            "measure on this page.",
            at=(118, foot - 9),
            width=60,
            size=8,
        )
        self._card()

    def _card(self) -> None:
        """Draw the outline of a bank card, to lay one on."""
        wide, tall, corner = CARD
        at = (0, MEASURED + 4)
        self.box(at, (wide, tall), corner=corner, width=HAIR)
        self.write("A bank card fits here exactly.", at=(at[0] + 8, at[1] + 4), size=8)

    def makers_mark(self, at: Place, side: float, given: Image.Image | None = None) -> None:
        """Leave room for the maker's own mark, or lay the picture of it there."""
        if given is None:
            self.box(at, (side, side), width=HAIR, ink=QUIET)
            self.write("maker's mark", (at[0] + 1, at[1] + side - 3.2), size=6, ink=QUIET)
            return
        shape = [edge / max(given.size) * side for edge in given.size]
        left, top = (
            start + (side - edge) / 2 for start, edge in zip(at, shape, strict=True)
        )
        self.picture(given, (left, top), shape[0])

    def foot(self, words: str) -> None:
        """Write a small line under everything."""
        self.write(words, at=(0, LIVE[1] + 3), size=7, ink=QUIET)

    def number(self, of: str, which: int, most: int) -> None:
        """Say above everything what it is a sheet of, and which of how many."""
        words = f"{of}: page {which} of {most}"
        at = (LIVE[0] - self.wide(words, 7), -4.0)
        self.write(words, at, LIVE[0], size=7, ink=QUIET)


STYLE = {
    "pdf.fonttype": 42,  # real letters: a reader can search and copy them
    "text.parse_math": False,
}


def bind(
    pages: Sequence[Page],
    path: Path,
    title: str,
    progress: Callable[[float], None] | None = None,
) -> Path:
    """Write pages to a PDF. A half-written file is never left behind.

    Parameters
    ----------
    pages : sequence of Page
    path : Path
    title : str
        In the file's properties.
    progress : callable, optional
        Told the share that is done.

    Raises
    ------
    KitError
        If the file cannot be written.
    """
    import matplotlib as mpl  # noqa: PLC0415
    from matplotlib.backends.backend_pdf import PdfPages  # noqa: PLC0415

    about = {"Title": title, "Creator": "pattern-welding kit", "CreationDate": None}
    bound = io.BytesIO()  # a disk that is full would leave matplotlib's stream in pieces
    with mpl.rc_context(STYLE), PdfPages(bound, metadata=about) as book:
        for number, page in enumerate(pages, 1):
            book.savefig(page.figure)
            if progress:
                progress(number / len(pages))
    with whole(path) as part:
        part.write_bytes(bound.getbuffer())
    return path

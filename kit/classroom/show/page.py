"""The show page: pieces to pictures to one file that needs nothing else."""

from __future__ import annotations

import io
import json
from collections.abc import Callable, Sequence
from functools import cache, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from kit import course
from kit.basics.errors import KitError
from kit.basics.files import address_of
from kit.basics.letters import BOLD, FAMILY, REGULAR
from kit.basics.told import NO_BREAK, kept
from kit.classroom.paper.checklists import CHECKS
from kit.classroom.show.cut_piece import cut_piece
from kit.classroom.show.own_piece import may_be_shown, own_piece, talk_piece
from kit.classroom.show.piece import (
    ENGLISH,
    GREYS,
    THEMES,
    Picture,
    Piece,
    Said,
    Talk,
    languages,
    letter_height,
    seen,
    voices,
)
from kit.classroom.show.rings_piece import rings_piece
from kit.classroom.show.twist_piece import twist_piece
from kit.course import mark
from kit.metal.dangers import LEARN
from kit.section.outline import Outline
from kit.section.picture import LAYERS
from kit.section.trace import Face
from kit.shop.recipes.recipe import Recipe

if TYPE_CHECKING:
    from jinja2 import Environment

HERE = Path(__file__).parent
MOST_BYTES = 6_000_000  # ours
MOST_PIECES = 3  # ours
FEWER_GREYS = (GREYS, 8, 4)  # tried one after another until the page is small enough
IDLE = (15, 30, 180)  # seconds untouched: least, usual, most
PLAYER = Path(course.__file__).with_name("player.js")
OWN = ("attract.js", "maker.js", "touch.js", "tablet.js")
SCRIPTS = (PLAYER, *(HERE / name for name in OWN))
# Capitals that are read from 3 m in passing: 15 mm, 17 minutes of arc; 17.5 mm would be
# the 20 minutes that easy reading takes (common practice, no source). At arm's length
# (0.85 m) the same angle is 5 mm.
FAR, NEAR = 15.0, letter_height(850, 20)
CARD = (85.60, 53.98)  # mm, a bank card: ISO/IEC 7810:2019, ID-1
TARGET = 22.0  # mm: least width of what is touched (common practice, no source)
# The bar at rest is shown as a blade, and cut so far along: our own shape, drawn to please.
BLADE = Outline(family="drop", length=200, height=62, point=46)
CUT = 54  # % of its length
SAMPLES = 80  # along each line of a part: so fine that no corner is seen
ROOM = 2  # % above the blade and below: no steel is at the rim of a round bar's picture
Progress = Callable[[float], None]


def own_pieces() -> list[Piece]:
    """Give the three pieces that the kit brings."""
    return [twist_piece(), rings_piece(), cut_piece()]


def pieces_of(recipes: Sequence[Recipe]) -> list[Piece | Talk]:
    """Give the pieces of a maker's recipes; without any, the kit's own three.

    Raises
    ------
    KitError
        More than three, or one whose faces are too much alike: if it can be known,
        before anything is drawn.
    """
    if len(recipes) > MOST_PIECES:
        msg = f"A show has at most {MOST_PIECES} recipes. Given: {len(recipes)}."
        raise KitError(msg)
    for recipe in recipes:
        may_be_shown(recipe)
    return [piece_of(recipe) for recipe in recipes] or own_pieces()


def piece_of(recipe: Recipe) -> Piece | Talk:
    """Give the piece of a maker's recipe: its talk, or the bar to be ground.

    Raises
    ------
    KitError
        A bar without a talk whose faces are too much alike.
    """
    return talk_piece(recipe) if recipe.talk else own_piece(recipe)


def page(
    pieces: Sequence[Piece | Talk],
    *,
    theme: str = "indoor",
    units: str = "mm",
    language: str = ENGLISH,
    idle: int = IDLE[1],
    progress: Progress | None = None,
) -> str:
    """Make the page.

    Parameters
    ----------
    pieces : sequence of Piece or Talk
        One to three.
    theme : str
        One of `THEMES`; both are in the page.
    units : str
        A key of `kit.classroom.show.piece.UNITS`; both are in the page.
    language : str
        A key of `languages`; all are in the page.
    idle : int
        Seconds untouched until it asks whether somebody is there, 15 … 180.
    progress : callable, optional
        Told the share that is done, 0 … 1.

    Raises
    ------
    KitError
        If it would be larger than 6 MB.
    """
    trace = cache(Picture.face)
    for greys in FEWER_GREYS:
        words = told(pieces, greys, progress, trace)
        words |= {"theme": theme, "units": units, "language": language, "idle": idle}
        words["cards"] = "table"
        text = _filled("show.html.jinja", told=words)
        if len(text.encode()) < MOST_BYTES:
            return text
    msg = (
        f"The page would be larger than {MOST_BYTES // 1_000_000} MB, because the patterns "
        "are very fine: give fewer recipes, or coarser ones, which also read better from "
        "afar."
    )
    raise KitError(msg)


def check_page() -> str:
    """Make the list to tick off before the show, one sheet of A4 or Letter."""
    return _filled("check.html.jinja", checks=CHECKS, learn=LEARN)


def told(
    pieces: Sequence[Piece | Talk],
    greys: int = GREYS,
    progress: Progress | None = None,
    trace: Callable[[Picture], Face] = Picture.face,
) -> dict[str, Any]:
    """Draw all pictures and say everything, for the page's script.

    What is said is there in every language and in both units: [language][units].

    Parameters
    ----------
    pieces : sequence of Piece or Talk
    greys : int
        In a picture, 2 … 15.
    progress : callable, optional
        Told the share that is done, 0 … 1.
    trace : callable
        From a picture to its face.
    """
    tiled = [piece for piece in pieces if isinstance(piece, Piece)]
    total = sum(len(piece.stops) for piece in pieces) + len(pieces) - len(tiled)
    total += sum(len(one.tiles) for one in tiled)
    done = 0

    def picture(one: Picture, **how: Any) -> dict[str, Any]:
        nonlocal done
        how["face"] = trace(one)
        drawn = {theme: _data(seen(one, theme, greys, **how)) for theme in THEMES}
        done += 1
        if progress:
            progress(done / total)
        return {"says": _said(one.says), "alt": _said(one.alt), "seen": drawn}

    return {
        "pieces": [_piece(piece, picture) for piece in pieces],
        "letters": {"far": FAR, "near": NEAR},
        "target": TARGET,
        "card": CARD,
        "cardSays": _said(lambda voice: " × ".join(map(voice.length, CARD))),
        "languages": languages(),
        "idleRange": IDLE,
    }


def _piece(piece: Piece | Talk, picture: Callable[..., dict]) -> dict[str, Any]:
    asked = isinstance(piece, Piece)
    shown = {
        "name": _said(piece.name),
        "lines": [_said(line) for line in piece.lines],
        "stops": [picture(stop, ground_shows=asked) for stop in piece.stops],
    }
    if not asked:
        rest = picture(piece.rest, ground_shows=False)
        return shown | {"talk": [cue.said for cue in piece.cues], "rest": rest}
    return shown | {
        "question": _said(piece.question),
        "slider": _said(piece.slider),
        "asked": piece.asked,
        # a dull skin, or an edge, would tell which tile was ground
        "tiles": [picture(tile, ground_shows=False, look=LAYERS) for tile in piece.tiles],
        "right": piece.right,
        "why": _said(piece.why),
        "number": _said(piece.number),
        "counts": _said(piece.counts),
    }


def _said(says: Said) -> dict[str, dict[str, str]]:
    return {
        language: {units: says(voice) for units, voice in both.items()}
        for language, both in voices().items()
    }


def _data(drawn: bytes) -> str:
    kind = "png" if drawn.startswith(b"\x89PNG") else "webp"
    return address_of(drawn, f"image/{kind}")


def letters_as_css(words: str) -> str:
    """Give the kit's typeface in a page's own style, with the signs of some words only."""
    return _letters(frozenset(words.upper() + words.lower()))


@lru_cache(maxsize=16)  # a page made again, in other words of the same signs
def _letters(own: frozenset[str]) -> str:
    from fontTools.subset import Options, Subsetter  # noqa: PLC0415  (only here)
    from fontTools.ttLib import TTFont  # noqa: PLC0415

    rules, signs = [], {*map(chr, range(32, 127)), NO_BREAK, *own}
    for file, weight in ((REGULAR, "400"), (BOLD, "600 900")):
        with TTFont(file) as font:
            part = Subsetter(Options(layout_features=["kern"], hinting=False))
            part.populate(text="".join(signs))
            part.subset(font)
            font.flavor, out = "woff", io.BytesIO()
            font.save(out)
        source = address_of(out.getvalue(), "font/woff")
        rules.append(
            f'@font-face {{ font-family: "{FAMILY}"; font-weight: {weight}; '
            f'src: url("{source}"); }}'
        )
    return "\n".join(rules)


def blade_in_css() -> str:
    """Give the blade's two parts, before the cut and behind it, as a style's own values."""
    # a hair more than its part: between the two no line is seen while they are one
    parts = {"heel": _part(0, CUT + 0.3), "tip": _part(CUT, 100)}
    return f"--cut: {CUT}%; " + " ".join(f"--{key}: {one};" for key, one in parts.items())


def _part(start: float, end: float) -> str:
    share = np.linspace(start, end, SAMPLES)
    along = share / 100 * BLADE.length
    lines = [line.above / BLADE.height for line in (BLADE.spine(along), BLADE.edge(along))]
    spine, edge = (100 - ROOM - (100 - 2 * ROOM) * line for line in lines)
    places = [*zip(share, spine, strict=True), *zip(share[::-1], edge[::-1], strict=True)]
    return f"polygon({', '.join(f'{x:.2f}% {y:.2f}%' for x, y in places)})"


def _filled(name: str, **values: Any) -> str:
    words = (HERE / name).read_text("utf-8") + json.dumps(values, ensure_ascii=False)
    return (
        templates(HERE)
        .get_template(name)
        .render(
            letters=letters_as_css(words),
            mark=_data(mark.png()),
            blade=blade_in_css(),
            style=(HERE / "show.css").read_text("utf-8"),
            script="\n".join(file.read_text("utf-8") for file in SCRIPTS),
            **values,
        )
    )


def templates(folder: Path) -> Environment:
    """Give the templates of a folder; no number parts from its unit in what they fill in.

    What is marked safe, a script or a style, stays as it is.
    """
    from jinja2 import (  # noqa: PLC0415  (only such pages need it)
        Environment,
        FileSystemLoader,
        StrictUndefined,
    )

    made = Environment(
        loader=FileSystemLoader(folder),
        autoescape=True,
        finalize=lambda out: kept(out) if type(out) is str else out,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    # ° and – as themselves: what keeps words together looks for them
    made.policies["json.dumps_kwargs"] = {"sort_keys": True, "ensure_ascii": False}
    made.filters["kept"] = lambda words: type(words)(kept(words))
    return made

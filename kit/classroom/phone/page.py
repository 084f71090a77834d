"""The pages of a folder for telephones: each lesson, an index, and codes to print."""

from __future__ import annotations

import base64
import hashlib
import io
import json
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit
from zipfile import ZIP_DEFLATED, ZipFile

from kit.basics.errors import KitError
from kit.basics.files import address_of, write
from kit.basics.units import Units
from kit.classroom import show
from kit.classroom.paper.code import side_of, square_code
from kit.classroom.paper.page import LIVE, Page, bind
from kit.classroom.phone.piece import QUALITY, LessonPiece, Progress, piece_of
from kit.classroom.show.page import letters_as_css, templates
from kit.course import mark
from kit.course.map import ASKING

HERE, PLAYER = Path(__file__).parent, Path(show.__file__).parent / "player.js"
MOST_BYTES = 3_000_000  # of a page, for a telephone on the road
INDEX, CODES = "index.html", "codes.pdf"
NAME = "Pattern-welded steel, lesson by lesson"
STEPS = ("Guess", "Look", "Why")
LAST = "Talk"
FACE = 240  # pixels of a lesson's picture in the index
LONGEST_ADDRESS = 200  # letters, ours
CELL = (63.0, 62.0)  # mm, of one code on the sheet


def file_of(key: str) -> str:
    """Give the name of a lesson's page.

    Examples
    --------
    >>> file_of("04")
    'lesson-04.html'
    """
    return f"lesson-{key.replace(' ', '-')}.html"


def page(piece: LessonPiece) -> str:
    """Make a lesson's page, its pictures as good as `MOST_BYTES` allows.

    Raises
    ------
    KitError
        If the coarsest pictures are too large.
    """
    for quality in QUALITY:
        told = {"pieces": [piece.told(quality)]}
        checks = len(told["pieces"][0]["checks"])
        sums = [f"Try {at}" for at in range(1, checks + 1)]
        text = _filled(
            "page.html.jinja",
            script=_script(),
            piece=told["pieces"][0],
            steps=[*STEPS, *sums, LAST],
            told=told,
        )
        if len(text.encode()) <= MOST_BYTES:
            return text
    msg = (
        f"The page of lesson {piece.lesson.key} would be larger than "
        f"{MOST_BYTES // 1_000_000} MB: give its picture fewer stops, or a smaller part."
    )
    raise KitError(msg)


def entry(piece: LessonPiece) -> dict[str, str]:
    """Give what the index says of a lesson's page, and its picture."""
    lesson = piece.lesson
    told = {"number": lesson.number, "name": lesson.title}
    return told | {"file": file_of(lesson.key), "face": _face(piece)}


def index(lessons: Sequence[Mapping[str, str]]) -> str:
    """Make the page that leads to all lessons, of each its `entry`."""
    return _filled(
        "index.html.jinja", script="", name=NAME, sentence=mark.SENTENCE, lessons=lessons
    )


def make(
    folder: Path,
    *,
    units: Units = Units.MM,
    address: str = "",
    paper: str = "A4",
    progress: Progress | None = None,
) -> list[Path]:
    """Write every lesson's page into a folder, an index, and codes if it has an address.

    Parameters
    ----------
    folder : Path
        It is made if it is not there; files of these names in it are written over.
    units : Units
        Of lengths; a picture has them in its words, so a set of pages has one kind.
    address : str
        Where the folder will be on the web, "http://…"; without it there are no codes.
    paper : str
        Of the codes.
    progress : callable, optional
        Told the share that is done, 0 … 1.

    Raises
    ------
    KitError
        If the address is none.
    """
    base = checked(address)
    tell = progress or (lambda _share: None)
    lessons, made = [], []
    for at, (key, lesson) in enumerate(ASKING.items()):
        part = _part(tell, at / len(ASKING), 1 / len(ASKING))
        piece = piece_of(lesson, units, part)
        made.append(write(folder / file_of(key), page(piece)))
        lessons.append(entry(piece))
    made.append(write(folder / INDEX, index(lessons)))
    if base:
        made.append(codes(folder / CODES, base, paper))
    return made


def packed(path: Path, **how: Any) -> Path:
    """Write all that `make` makes, as it is told, into one ZIP, in a folder of its name."""
    folder = path.with_suffix("")
    folder.mkdir()
    made = make(folder, **how)
    with ZipFile(path, "w", ZIP_DEFLATED) as pack:
        for one in made:
            pack.write(one, f"{folder.name}/{one.name}")
    return path


def _part(progress: Progress, start: float, wide: float) -> Progress:
    """Give the progress of one part of a work: never done before its very end."""
    return lambda share: progress(start + wide * share)


def checked(address: str) -> str:
    """Give an address that ends in a slash, or nothing for nothing.

    Raises
    ------
    KitError
        If it is no address of the web.

    Examples
    --------
    >>> checked("http://192.168.1.5:8000")
    'http://192.168.1.5:8000/'
    """
    given = address.strip()
    if not given:
        return ""
    parts = urlsplit(given)
    plain = given.isascii() and not any(sign.isspace() for sign in given)
    if parts.scheme not in ("http", "https") or not parts.netloc or not plain:
        msg = (
            "An address begins with http:// or https://, such as "
            f"https://example.org/steel/. Given: {given[:60]!r}."
        )
        raise KitError(msg)
    if len(given) > LONGEST_ADDRESS:
        msg = f"An address has at most {LONGEST_ADDRESS} letters. Given: {len(given)}."
        raise KitError(msg)
    return given.rstrip("/") + "/"


def codes(path: Path, base: str, paper: str = "A4") -> Path:
    """Print a square code for each lesson, and one for the index, to cut out.

    Parameters
    ----------
    path : Path
        A PDF.
    base : str
        The folder's address, as `checked` gives it.
    paper : str
    """
    named = [(NAME, INDEX)]
    named += [(f"{one.number} {one.title}", file_of(key)) for key, one in ASKING.items()]
    sheet, left = Page(paper, "Lessons for a telephone: point its camera at a code"), 0
    pages = [sheet]
    columns = int(LIVE[0] // CELL[0])
    top = sheet.y
    for name, file in named:
        if left == columns:
            left, top = 0, top + CELL[1]
        if top + CELL[1] > LIVE[1]:
            sheet, top = Page(paper, "Lessons for a telephone"), 0.0
            pages.append(sheet)
            top = sheet.y
        place = (left * CELL[0], top)
        side = side_of(base + file)
        square_code(sheet, base + file, place)
        sheet.write(name, (place[0] + 2, top + side), CELL[0] - 4, size=9)
        left += 1
    return bind(pages, path, "lessons for a telephone")


def _face(piece: LessonPiece) -> str:
    """Give the picture of a lesson before its prediction, small."""
    image = piece.before.image.copy()
    image.thumbnail((FACE, FACE))
    out = io.BytesIO()
    image.save(out, "WEBP", quality=QUALITY[0])
    return address_of(out.getvalue(), "image/webp")


@cache
def _script() -> str:
    """Give the player, what judges an answer, and the layout of a telephone."""
    files = (PLAYER, HERE / "check.js", HERE / "phone.js")
    return "\n".join(file.read_text("utf-8") for file in files)


def _filled(file: str, *, script: str, **values: Any) -> str:
    """Fill a page; it may run its own script and style alone, and ask nobody anything."""
    words = (
        (HERE / file).read_text("utf-8")
        + script
        + json.dumps(_words(values), ensure_ascii=False)
    )
    style = letters_as_css(words) + (HERE / "phone.css").read_text("utf-8")
    policy = (
        "default-src 'none'; img-src data:; font-src data:; base-uri 'none'; "
        f"form-action 'none'; style-src {_hash(style)}; script-src {_hash(script)}"
    )
    how = {"style": style, "script": script, "policy": policy}
    picture = address_of(mark.png(64), "image/png")
    return templates(HERE).get_template(file).render(**how, mark=picture, **values)


def _words(values: Any) -> Any:
    """Leave the pictures out, whose letters say nothing."""
    if isinstance(values, dict):
        return [_words(one) for one in values.values()]
    if isinstance(values, (list, tuple)):
        return [_words(one) for one in values]
    return "" if isinstance(values, str) and values.startswith("data:") else values


def _hash(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"

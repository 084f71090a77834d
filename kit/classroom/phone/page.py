"""The pages of a folder for telephones: each lesson, an index, and codes to print."""

import base64
import hashlib
import io
from functools import cache
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit
from zipfile import ZIP_DEFLATED, ZipFile

from kit.basics.errors import KitError
from kit.basics.files import address_of, write
from kit.basics.units import Units
from kit.classroom.paper.code import side_of, square_code
from kit.classroom.paper.page import HAIR, LIVE, QUIET, Page, bind
from kit.classroom.phone.piece import QUALITY, LessonPiece, Progress, piece_of, texts
from kit.classroom.show.page import PLAYER, letters_as_css, templates
from kit.classroom.show.piece import ENGLISH, languages
from kit.course import mark
from kit.course.heads import HEADS, LONG, TILE, head
from kit.course.map import LESSONS

HERE = Path(__file__).parent
MOST_BYTES = 3_000_000  # of a page, for a telephone on the road
INDEX, CODES = "index.html", "codes.pdf"
NAME = "Pattern-welded steel, lesson by lesson"
FACE = 480  # pixels of a lesson's picture in the index
# A page asks, and its slider is its lesson's main one, moved as in its film. Made to order
# has none: four designs of three controls each do not fit a telephone; the index says so.
PAGES = {key: one for key, one in LESSONS.items() if one.question and one.main and one.film}
LONGEST_ADDRESS = 200  # letters, ours
HINT = "where the pages will be; without it there are no codes to print"
CELL, SIDE = (47.5, 58.0), 45.0  # mm, of one code on the sheet; of its square at most
MODULE = 1.0  # mm: a small square of the code, if the address is not too long


def file_of(key: str) -> str:
    """Give the name of a lesson's page.

    Examples
    --------
    >>> file_of("04")
    'lesson-04.html'
    """
    return f"lesson-{key.replace(' ', '-')}.html"


def page(piece: LessonPiece, language: str = ENGLISH) -> str:
    """Make a lesson's page, its pictures as good as `MOST_BYTES` allows.

    Parameters
    ----------
    piece : LessonPiece
    language : str
        Of buttons and hints, a key of `kit.classroom.show.piece.languages`. The lesson
        itself is in English.

    Raises
    ------
    KitError
        If the coarsest pictures are too large.
    """
    words = languages()[language]["words"]
    for quality in QUALITY:
        told = {"pieces": [piece.told(quality)], "language": language, "words": words}
        text = _filled(
            "page.html.jinja",
            script=_script(),
            piece=told["pieces"][0],
            told=told,
            language=language,
            words=words,
        )
        if len(text.encode()) <= MOST_BYTES:
            return text
    msg = (
        f"The page of lesson {piece.lesson.key} would be larger than "
        f"{MOST_BYTES // 1_000_000} MB: give its picture fewer stops, or a smaller part."
    )
    raise KitError(msg)


def index() -> str:
    """Make the page that leads to all lessons; a part stands below its lesson."""
    lessons = [
        {
            "number": _number(key),
            "name": one.title,
            "file": file_of(key),
            "face": _face(key) if key == one.number else "",
        }
        for key, one in PAGES.items()
    ]
    left = [one.title for key, one in LESSONS.items() if key not in PAGES]
    return _filled(
        "index.html.jinja",
        script="",
        name=NAME,
        sentence=mark.SENTENCE,
        lessons=lessons,
        left=left,
    )


def make(
    folder: Path,
    *,
    units: Units = Units.MM,
    address: str = "",
    paper: str = "A4",
    language: str = ENGLISH,
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
    language : str
        Of buttons and hints; see `page`.
    progress : callable, optional
        Told the share that is done, 0 … 1.

    Raises
    ------
    KitError
        If the address is none.
    """
    base = checked(address)
    tell = progress or (lambda _share: None)
    made = []
    for at, (key, lesson) in enumerate(PAGES.items()):
        part = _part(tell, at / len(PAGES), 1 / len(PAGES))
        text = page(piece_of(lesson, units, part), language)
        made.append(write(folder / file_of(key), text))
    made.append(write(folder / INDEX, index()))
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
    named += [
        (f"{_number(key)} {one.title}".strip(), file_of(key)) for key, one in PAGES.items()
    ]
    module = min(MODULE, *(SIDE / side_of(base + file, 1.0) for _, file in named))
    columns, pages, place = int(LIVE[0] // CELL[0]), [], (0.0, LIVE[1])
    for at, (name, file) in enumerate(named):
        left, top = at % columns * CELL[0], place[1] + CELL[1] * (at % columns == 0)
        if top + CELL[1] > LIVE[1]:
            pages.append(Page(paper, "Lessons for a telephone: point its camera at a code"))
            left, top = 0.0, pages[-1].y
        place = (left, top)
        pages[-1].box(place, CELL, width=HAIR, ink=QUIET)  # to cut along
        high = square_code(pages[-1], base + file, (left + 1, top + 1), module)
        pages[-1].write(name, (left + 3, top + 1 + high), CELL[0] - 5, size=9)
    return bind(pages, path, "lessons for a telephone")


def _number(key: str) -> str:
    """Give the number of a whole lesson; a part has none, nor a page by name."""
    return key if key.isdigit() else ""


def _face(key: str) -> str:
    """Give the picture at the head of a lesson's notebook, small, without its mark."""
    name = next(one for one in HEADS if one.startswith(key))
    image = head(name).image
    image = image.crop((TILE, 0, TILE + LONG, image.height))
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
    words = (HERE / file).read_text("utf-8") + script + "".join(texts(values))
    style = letters_as_css(words) + (HERE / "phone.css").read_text("utf-8")
    policy = (
        "default-src 'none'; img-src data:; font-src data:; base-uri 'none'; "
        f"form-action 'none'; style-src {_hash(style)}; script-src {_hash(script)}"
    )
    how = {"style": style, "script": script, "policy": policy}
    picture = address_of(mark.png(64), "image/png")
    return templates(HERE).get_template(file).render(**how, mark=picture, **values)


def _hash(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"

"""Files: a stranger's small JSON or CSV read with bounds, our own written whole.

Whatever is written takes the old file's place at once, or not at all. What is written as
CSV no spreadsheet takes for a formula. A file can stand whole in an address of a page.
"""

import base64
import csv
import io
import json
import os
import re
import shutil
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from kit.basics.errors import KitError

ENDING = ".json"
MOST_BYTES = 256 * 1024  # ours: many times the largest recipe or hand-in
MOST_DEPTH = 12  # of brackets in brackets
MOST_DIGITS = 30  # of a number
MOST_VALUES = 10_000  # more are not in the largest recipe
# What stands in quotes, to its end or the file's: it always matches, none is tried twice.
_IN_QUOTES = re.compile(r'"(?:[^"\\]+|\\.)*(?:"|\\?\Z)', re.DOTALL)


def content(path: Path, what: str, most: int = MOST_BYTES) -> bytes:
    """Read a file, if it is a plain one and not too large.

    Parameters
    ----------
    path : Path
    what : str
        To name it in a sentence: "a hand-in".
    most : int
        Bytes that it may have.

    Raises
    ------
    KitError
        If it is no file (a folder, a pipe, a device), too large, or cannot be read.
    """
    try:
        if not path.is_file():
            msg = f"'{path.name[:60]}' cannot be read as {what}: it is no file."
            raise KitError(msg)
        with path.open("rb") as file:
            found = file.read(most + 1)
    except OSError:
        msg = f"'{path.name[:60]}' cannot be read as {what}."
        raise KitError(msg) from None
    _check_size(len(found), what, most)
    return found


def files(folder: Path, what: str, most: int, but: str = "") -> list[Path]:
    """Give the .json files of a folder, not of folders within it, by name.

    Parameters
    ----------
    folder : Path
    what : str
        To name them in a sentence: "hand-ins".
    most : int
        Files that there may be.
    but : str
        Files that call themselves of this format are left out: they lie there rightly.

    Raises
    ------
    KitError
        If it is no folder, cannot be read, or has too many.
    """
    try:
        found = [path for path in folder.iterdir() if path.suffix.lower() == ENDING]
    except (OSError, ValueError):  # a NUL in its name is a ValueError
        msg = f"'{folder.name[:60]}' is no folder of {what} that can be read."
        raise KitError(msg) from None
    if len(found) > most:
        msg = f"A folder can have at most {most} {what}. Given: {len(found)}."
        raise KitError(msg)
    kept = (path for path in found if not (but and _is_of(path, but)))
    return sorted(kept, key=lambda path: path.stem)


def _is_of(path: Path, form: str) -> bool:
    """Say whether a file calls itself one of a format, at a glance."""
    try:
        if not path.is_file():  # a pipe would wait for ever
            return False
        with path.open("rb") as file:
            return f'"format": "{form}"'.encode() in file.read(200)
    except OSError:
        return False


def decoded(found: bytes, what: str, most: int = MOST_BYTES) -> str:
    """Give the text of a file, or of an upload, from its bytes.

    Raises
    ------
    KitError
        If there are too many bytes, or they are not text in UTF-8.
    """
    _check_size(len(found), what, most)
    try:
        return found.decode("utf-8-sig")
    except UnicodeDecodeError:
        msg = f"That cannot be read as {what}: it must be text, saved as UTF-8."
        raise KitError(msg) from None


def text(path: Path, what: str, most: int = MOST_BYTES) -> str:
    """Read a file's text; refuse as `content` and `decoded` do."""
    return decoded(content(path, what, most), what, most)


def rows(written: str, what: str, delimiter: str = ",") -> Iterator[tuple[int, list[str]]]:
    """Read CSV line by line: the line's number, and its cells without spaces around.

    Lines with nothing in them are left out.

    Raises
    ------
    KitError
        If it is no CSV.
    """
    lines = csv.reader(io.StringIO(written), delimiter=delimiter)
    try:
        for line in lines:
            cells = [cell.strip() for cell in line]
            if any(cells):
                yield lines.line_num, cells
    except csv.Error:
        msg = f"That cannot be read as {what}: it must be CSV, a line for each."
        raise KitError(msg) from None


def values(written: str, what: str, form: str, version: int) -> dict[str, Any]:
    """Read JSON of one format and one version; refuse as `of_format` does."""
    found = of_format(written, what, form)
    made = found.pop("version", None)
    if isinstance(made, bool) or made != version:
        msg = f"This kit reads version {version} of {what}. Given: {str(made)[:20]}."
        raise KitError(msg)
    return found


def of_format(
    written: str, what: str, form: str, *, depth: int = MOST_DEPTH
) -> dict[str, Any]:
    """Read JSON: no deep brackets, no name twice, no endless numbers; of one format.

    Parameters
    ----------
    written : str
    what : str
        To name it in a sentence: "a hand-in".
    form : str
        What it must call its "format"; the rest is given back.
    depth : int
        How deep brackets may lie in one another.

    Raises
    ------
    KitError
        In one sentence, whatever is wrong with it.
    """
    _check_size(len(written), what)
    _check_size(len(written.encode("utf-8", "replace")), what)
    signs = _IN_QUOTES.sub("", written)
    if _depth(signs) > depth:
        msg = f"That is not {what}: its brackets lie too deep in one another."
        raise KitError(msg)
    if signs.count(",") > MOST_VALUES:
        msg = f"That is not {what}: it has more than {MOST_VALUES} values."
        raise KitError(msg)
    try:
        found = json.loads(
            written,
            object_pairs_hook=_once,
            parse_constant=_no_constant,
            parse_int=_short_int,
        )
    except (ValueError, RecursionError):
        msg = f"That is not {what}: it is not written as the kit writes its files."
        raise KitError(msg) from None
    if not isinstance(found, dict) or found.pop("format", None) != form:
        msg = f"That is not {what} of this kit: it must say 'format': '{form}'."
        raise KitError(msg)
    return found


def _check_size(size: int, what: str, most: int = MOST_BYTES) -> None:
    if size > most:
        limit = f"{most // 1024} kilobytes"
        if most > 1_000_000:
            limit = f"{most // 1_000_000} megabytes"
        msg = f"As {what} a file has at most {limit}."
        raise KitError(msg)


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    named = dict(pairs)
    if len(named) < len(pairs):
        msg = "a name comes twice"
        raise ValueError(msg)
    return named


def _no_constant(name: str) -> None:
    msg = f"{name} is no number"
    raise ValueError(msg)


def _short_int(digits: str) -> int:
    if len(digits) > MOST_DIGITS:
        msg = "a number has too many figures"
        raise ValueError(msg)
    return int(digits)


def _depth(signs: str) -> int:
    """Count how deep brackets lie in one another."""
    deep = deepest = 0
    for sign in signs:
        if sign in "[{":
            deep += 1
            deepest = max(deepest, deep)
        elif sign in "]}":
            deep -= 1
    return deepest


@contextmanager
def whole(path: Path) -> Iterator[Path]:
    """Give a place beside a file to write it; at the end it takes the file's place.

    Whatever stops the work, an old file stays and nothing half-written is left. The place
    has the file's name, in a new folder that nobody else has, so that no neighbour is
    touched, no link is followed and two runs do not meet. It may become a folder itself.

    Parameters
    ----------
    path : Path
        Of the file; its folder must be there.

    Raises
    ------
    KitError
        If the file cannot be written.
    """
    room = None
    try:
        room = Path(tempfile.mkdtemp(prefix=".part-", dir=path.parent))
        part = room / path.name
        yield part
        _settle(part)
        part.replace(path)
    except OSError as error:
        msg = f"'{path.name[:60]}' cannot be written: {error.strerror or error}."
        raise KitError(msg) from None
    finally:
        if room is not None:
            shutil.rmtree(room, ignore_errors=True)


def write(path: Path, text: str, encoding: str = "utf-8") -> Path:
    """Write a text as it is, line ends too: whole, or not at all; refuse as `whole`.

    A sign that cannot be written, half of a pair, becomes a question mark.
    """
    with whole(path) as part:
        part.write_text(text, encoding, errors="replace", newline="")
    return path


def _settle(part: Path) -> None:
    """See the file onto the disk before it takes another's place: power may fail."""
    if part.is_file():
        with part.open("rb+") as file:
            os.fsync(file.fileno())


# A cell that begins with one of these is worked out by spreadsheets: OWASP, "CSV
# Injection". An apostrophe before it makes it text.
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")


def safe(cell: object, decimal: str = ".") -> str:
    """Give a cell's text as nothing but text; numbers stay as they are.

    Examples
    --------
    >>> safe("=2+2"), safe("Student One"), safe(-0.5), safe(4.5, ",")
    ("'=2+2", 'Student One', '-0.5', '4,5')
    """
    if isinstance(cell, (int, float)):
        return f"{cell:.6g}".replace(".", decimal) if isinstance(cell, float) else str(cell)
    text = " ".join(str(cell).replace("\0", "").splitlines())
    return f"'{text}" if text.lstrip().startswith(_FORMULA) else text


def to_csv(
    head: Sequence[str],
    rows: Iterable[Sequence[object]],
    between: str = ",",
    decimal: str = ".",
) -> str:
    """Write a table as CSV, every cell safe.

    Parameters
    ----------
    head, rows : sequence
    between, decimal : str
        What stands between cells, and the decimal sign: spreadsheets of many countries
        want ";" and ",".
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n", delimiter=between)
    for row in (head, *rows):
        writer.writerow([safe(cell, decimal) for cell in row])
    return out.getvalue()


def address_of(data: bytes, kind: str) -> str:
    """Write a file as an address that holds it (RFC 2397): a page needs no other file.

    Parameters
    ----------
    data : bytes
    kind : str
        Its media type, such as "image/png".

    Examples
    --------
    >>> address_of(b"steel", "text/plain")
    'data:text/plain;base64,c3RlZWw='
    """
    return f"data:{kind};base64,{base64.b64encode(data).decode()}"

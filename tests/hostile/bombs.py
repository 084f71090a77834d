"""Files and lines that a stranger might hand in: bombs, wrong encodings, links.

Each name says what is wrong with it. The tripwire is a file that links lead to: it must
stay as it is.
"""

from __future__ import annotations

import os
import socket
from collections.abc import Iterator
from pathlib import Path

from kit.shop.recipes.shorthand import MOST_LETTERS, sealed

LARGE = 200_000  # bytes: less than any JSON reader's limit
TRIPWIRE = "tripwire"
UNTOUCHED = b"untouched \x00\xff\xfe\n"
MOST_SEALED = MOST_LETTERS - 7  # letters of a line before its check sum
HUGE = 3 * 1024**3  # bytes of a file with nothing but a hole in it
FORMATS = {
    "hand-in": "pattern-welding homework",
    "quiz": "pattern-welding quiz",
    "recipe": "pattern-welding recipe",
    "losses": "pattern-welding-kit losses",
    "coupons": "kit-coupons-1",
}


def _quotes() -> Iterator[tuple[str, str]]:
    yield "quotes that never close", '"a' * (LARGE // 2) + '"'
    yield "a quote and only backslashes", '"' + "\\" * (LARGE + 1)
    yield "quotes of backslashes", '{"a": ' + '"\\' * (LARGE // 2)
    yield "escaped quotes, open", '"' + '\\"' * (LARGE // 2)
    yield "text in quotes, open", '{"a": "' + "x" * LARGE
    yield "quotes after quotes", '""' * (LARGE // 2)
    yield "quotes and letters by turns, open", '"' + 'a\\\\"b"' * (LARGE // 6)
    yield "single quotes", "'" * LARGE


def _brackets() -> Iterator[tuple[str, str]]:
    yield "brackets opened", "[" * LARGE
    yield "braces opened", '{"a":' * (LARGE // 5)
    yield "brackets and braces opened", '[{"a":' * (LARGE // 6)
    yield "brackets closed", "]" * LARGE
    yield "brackets in a row", "[" + "[]," * (LARGE // 3) + "[]]"
    yield "brackets in open quotes", '["' + "[" * LARGE
    yield "brackets as deep as is allowed", "[" * 12 + "]" * 12


def _named(form: str) -> Iterator[tuple[str, str]]:
    """Give what says that it is of one format and version."""
    head = f'{{"format": "{form}", "version": 1'
    nines = "9" * (LARGE - 200)
    yield f"{form}, digits", f'{head}, "redraw": {nines}}}'
    yield f"{form}, digits after the point", f'{head}, "redraw": 0.{nines}}}'
    yield f"{form}, a power without end", f'{head}, "redraw": 1e{nines[:9]}}}'
    yield f"{form}, no number", f'{head}, "redraw": NaN}}'
    many = ",".join(f'"{number}": 0' for number in range(LARGE // 14))
    yield f"{form}, names", f"{head}, {many}}}"
    yield f"{form}, a name twice", head + ', "a": 1' * 1000 + "}"
    yield f"{form}, a long name", f'{head}, "{"n" * (LARGE - 200)}": 1}}'
    yield f"{form}, a list without end", f'{head}, "answers": [{"1," * (LARGE // 3)}1]}}'
    yield f"{form}, half a letter", f'{head}, "student": "\\ud800"}}'


def _tables() -> Iterator[tuple[str, str]]:
    yield "commas", "," * LARGE
    yield "semicolons", ";" * LARGE
    yield "a cell without end", "student\n" + '"' + "x" * LARGE
    yield "cells of quotes", "student\n" + '"",""' * (LARGE // 5)
    yield "a heading and a long name", "student\n" + "n" * LARGE
    yield "a name that turns the line round", "student\nSt\u202eudent One\n"
    yield "a name of no letters", "student\n\u200b\u200b\n"
    yield "the same name again and again", "student\n" + "One\n" * (LARGE // 4)
    yield "more names than a school has", "".join(f"N{n}\n" for n in range(LARGE // 8))
    yield "nothing but NULs", "\0" * LARGE
    yield "a NUL in a name", "student\nOne\0Two\n"
    yield "returns without lines", "a\rb\r" * 1000 + "\r\r"


def texts() -> dict[str, str]:
    """Give every bomb that is text, by what it is."""
    found = [*_quotes(), *_brackets(), *_tables()]
    found += [one for form in FORMATS.values() for one in _named(form)]
    return dict(found)


def contents() -> dict[str, bytes]:
    """Give every bomb as bytes; sizes and encodings among them."""
    plain = '{"format": "pattern-welding homework", "version": 1}'
    found = {name: text.encode("utf-8") for name, text in texts().items()}
    found |= {
        f"in {code}": plain.encode(code)
        for code in ("utf-16", "utf-16-le", "utf-16-be", "utf-32")
    }
    return found | {
        "too large by far": b"[" + b"0," * 5_000_000,
        "no UTF-8": b'{"format": "\xff\xc3\x28\xa0\xa1"}',
        "half a letter in UTF-8": b'{"a": "\xed\xa0\x80"}',
        "letters written too long": b"student\n\xc0\xaf\xc0\xaf\n",
        "a mark of order twice": b"\xef\xbb\xbf\xef\xbb\xbf{}",
        "a picture": b"\x89PNG\r\n\x1a\n" + os.urandom(1000),
    }


def make(folder: Path) -> dict[str, Path]:
    """Write all of it into a folder, a folder each; give the files by what they are."""
    tripwire = folder / TRIPWIRE
    tripwire.write_bytes(UNTOUCHED)
    made = {}
    for number, (name, content) in enumerate(contents().items()):
        made[name] = _place(folder, number)
        made[name].write_bytes(content)
    for number, (name, plant) in enumerate(LINKS.items(), 1000):
        made[name] = _place(folder, number)
        plant(made[name], tripwire)
    return made


def lines() -> dict[str, str]:
    """Give what somebody might type or paste into one line."""
    return dict(_typed()) | {
        f"sealed, {name}": sealed(" ".join(line[:MOST_SEALED].split()))
        for name, line in _lines()
    }


def _typed() -> Iterator[tuple[str, str]]:
    yield "nothing", ""
    yield "a million letters", "x" * 1_000_000
    yield "a million figures", "9" * 1_000_000
    yield "figures that just fit", "9" * 40
    yield "figures behind the point", "0." + "9" * 38
    yield "a fraction of nothing", "1/0"
    yield "a fraction of figures", "9" * 18 + " " + "9" * 9 + "/" + "9" * 9
    yield "a power", "1e99"
    yield "a power without end", "1e" + "9" * 30
    yield "no number", "nan"
    yield "no end", "-inf"
    yield "figures of other scripts", "٣٤ mm ²³"
    yield "quotes", "'\"" * 20
    yield "backslashes", "\\" * 40
    yield "brackets", "[" * 40
    yield "a formula", "=cmd|' /C calc'!A0"
    yield "turned round", "\u202e5.4 mm"
    yield "half a letter", "\ud800"
    yield "a NUL", "4\0"
    yield "lines", "4\n5\r6\x85"
    yield "spaces without end", " " * 100_000 + "4"
    yield "signs without end", "+-" * 50_000
    yield "x after x", "x" * 50 + "4"
    yield "crosses without end", "4x" * 100_000
    yield "commas without end", "4," * 100_000
    yield "a tilde and no more", " ~ "
    yield "tildes without end", " ~ " * 50_000
    yield "an option", "--out"
    yield "a path upwards", "../" * 30 + "etc/passwd"
    yield "a very long path", "a/" * 5000 + "a.png"


def _lines() -> Iterator[tuple[str, str]]:
    """Give recipes' and plans' lines, to be sealed with a right check sum."""
    yield "runs of many bars", "150x38: " + ", ".join(["999*(1084 3, 15N20 1)"] * 200)
    yield "runs in a bundle", _bundle("150x38: 999*(1084 3), 1*(15N20 1)", 16)
    yield "bundles in bundles", _bundle(_bundle("5x2: 999*(1084 9)", 16), 16)
    yield "bundles without end", "[" * 5000
    yield "bars without end", "150x38: " + "1084 3, " * 800
    yield "a name without end", "150x38: " + "a " * 2900 + "3"
    yield "figures in a size", "9" * 5000 + "x38: 1084 3, 15N20 3"
    yield "figures in a bar", "150x38: 1084 " + "9" * 5000
    yield "figures in a run", "150x38: " + "9" * 5000 + "*(1084 3)"
    yield "steps without end", "150x38: 1084 3, 15N20 3" + " | fold" * 800
    yield "a step's name without end", "150x38: 1084 3, 15N20 3 | " + "fold " * 1000
    yield "figures in a step", "150x38: 1084 3, 15N20 3 | draw out thickness=" + "9" * 5000
    yield "values without end", "150x38: 1084 3, 15N20 3 | draw out " + "a=1 " * 1400
    yield "heat without end", f"150x38: 1084 3, 15N20 3 | fold @{'9' * 5000}C/5min"
    yield "pieces cut small", "150x38: 1084 3, 15N20 3 | cut and stack pieces=" + "9" * 12
    bars = "7*(1084 3x38x1000), 6*(15N20 1.5x38x1000)"
    work = "cycles=3 draw_to=16 | crop=6"
    yield "plan, figures", f"plan {'9' * 5000}x38x5: {bars} | {work}"
    yield "plan, pieces", f"plan 254x38x5: {'9' * 5000}{bars} | {work}"
    yield "plan, a name", f"plan 254x38x5: 7*({'a ' * 2500}1084 3x38x1000) | {work}"
    yield "plan, a power", f"plan 254x38x5: {bars} | cycles=3 draw_to=1e-999 | crop=6"
    yield "plan, losses", f"plan 254x38x5: {bars} | {work}" + " crop=6" * 700
    yield "plan, points", f"plan 254x38x5: {bars} | cycles=3 draw_to=1.6.1.6 | crop=-"
    yield "plan, cycles", f"plan 254x38x5: {bars} | cycles={'9' * 4000} draw_to=9 | crop=6"


def _bundle(line: str, bars: int) -> str:
    return f"[{' + '.join([line] * bars)}]"


def _place(folder: Path, number: int) -> Path:
    room = folder / f"{number:04d}"
    room.mkdir()
    return room / "given"


def _hole(place: Path, _tripwire: Path) -> None:
    with place.open("wb") as file:
        file.truncate(HUGE)


def _loop(place: Path, _tripwire: Path) -> None:
    place.symlink_to(place.name)


def _socket(place: Path, _tripwire: Path) -> None:
    here = Path.cwd()
    os.chdir(place.parent)  # a socket's path must be short
    try:
        with socket.socket(socket.AF_UNIX) as made:
            made.bind(place.name)
    finally:
        os.chdir(here)


LINKS = {
    "three gigabytes of nothing": _hole,
    "a link to the tripwire": lambda place, tripwire: place.symlink_to(tripwire),
    "a link to endless zeros": lambda place, _: place.symlink_to("/dev/zero"),
    "a link to endless noise": lambda place, _: place.symlink_to("/dev/urandom"),
    "a link to the terminal": lambda place, _: place.symlink_to("/dev/tty"),
    "a link to nothing": lambda place, _: place.symlink_to("not there"),
    "a link to itself": _loop,
    "a pipe that nobody fills": lambda place, _: os.mkfifo(place),
    "a socket": _socket,
    "a folder": lambda place, _: place.mkdir(),
}

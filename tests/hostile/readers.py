"""Let every reader read one bomb after another; tell time, memory and words.

``python readers.py FOLDER`` prints one line of JSON for each file that `bombs.make` makes
in the folder, or for each of `bombs.lines` that is typed. Each reader has a process of
its own, and they begin as copies of one, so that the kit is imported once.
"""

from __future__ import annotations

import contextlib
import io
import json
import multiprocessing
import os
import resource
import shutil
import signal
import sys
import time
from collections.abc import Callable, Iterable
from pathlib import Path

import bombs

from kit.__main__ import main
from kit.basics import files
from kit.basics.errors import KitError
from kit.classroom.homework import hand_in, quiz, ratings, roster
from kit.classroom.homework.marking import mark_folder
from kit.classroom.homework.paper import draw
from kit.classroom.homework.quiz_items import ITEMS
from kit.classroom.homework.sets import SETS
from kit.classroom.homework.sitting import Sitting
from kit.metal import coupons
from kit.shop import photograph, plan_line, weighed_losses
from kit.shop.recipes import recipe
from kit.shop.recipes.shorthand import from_line

HANG = 10  # s by the wall, after which a reader is stopped
MOST_ADDRESSES = 2 * 1024**3  # bytes: a reader without bounds shall not take the machine
STATUS, CLEAR = Path("/proc/self/status"), Path("/proc/self/clear_refs")


def told(*typed: str) -> None:
    """Run a command; raise what it says in one line, if it refuses."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = main(list(typed))
    if code:
        raise KitError(err.getvalue().removesuffix("\n"))


def as_file(path: Path, ending: str) -> Path:
    """Give a bomb the ending that its reader asks for; a link stays a link."""
    return path.rename(path.with_suffix(ending))


def in_a_folder(path: Path, report: Callable[[Path], Iterable[str]]) -> None:
    """Read a folder with one bomb in it, and raise the one remark about it."""
    remarks = list(report(as_file(path, ".json").parent))
    raise KitError("\n".join(remarks))


def _out(path: Path, name: str) -> str:
    return str(path.parent / name)


FILES: dict[str, Callable[[Path], object]] = {
    "hand-in": hand_in.read,
    "quiz sheet": quiz.read,
    "recipe": recipe.load,
    "roster": roster.read_roster,
    "ratings": ratings.load,
    "losses": weighed_losses.load,
    "coupons": lambda path: coupons.parsed(
        files.content(path, coupons.WHAT, coupons.LARGEST)
    ),
    "photograph": photograph.opened,
    "measure": lambda path: told("measure", str(path)),
    "folder of hand-ins": lambda path: in_a_folder(
        path, lambda folder: mark_folder(folder).remarks or quiz.read_folder(folder)[1]
    ),
    "folder of quiz sheets": lambda path: in_a_folder(
        path, lambda folder: quiz.read_folder(folder)[1] or mark_folder(folder).remarks
    ),
    "render": lambda path: told(
        "render", str(as_file(path, ".json")), "--out", _out(path, "a.png")
    ),
    "paper --recipe": lambda path: told(
        "paper", "card", "--recipe", str(as_file(path, ".json")),
        "--out", _out(path, "a.pdf"),
    ),
    "show --recipe": lambda path: told(
        "show", "--out", _out(path, "a.html"), "--recipe", str(as_file(path, ".json"))
    ),
    "film": lambda path: told(
        "film", str(as_file(path, ".json")), "--out", _out(path, "a.gif")
    ),
    "plan --losses": lambda path: told("plan", "--losses", str(path)),
    "mark --roster": lambda path: told(
        "mark", "--key", "H1", "--course", "A", "--roster", str(path),
        "--out", _out(path, "key.csv"),
    ),
    "mark --ratings": lambda path: told("mark", str(path.parent), "--ratings", str(path)),
}  # fmt: skip


def _answer(code: str) -> Callable[[str], object]:
    """Answer every part of a paper; raise a refusal when all were asked."""

    def answer(text: str) -> None:
        sitting = Sitting(draw(SETS[code], "A", "One"))
        with contextlib.ExitStack() as refused:  # all are asked, whatever one says
            for part in SETS[code].parts:
                refused.callback(sitting.answer, part.number, text)

    return answer


def _option(*typed: str) -> Callable[[str], object]:
    return lambda text: told(*typed[:-1], f"{typed[-1]}={text}")


LINES: dict[str, Callable[[str], object]] = {
    "a recipe's line": from_line,
    "a plan's line": plan_line.from_line,
    "a count in the quiz": ITEMS[2].code,
    "a roster's text": roster.roster,
    **{f"answers to {code}": _answer(code) for code in SETS},
    "a recipe's name": lambda text: told("render", text, "--out=no/a.png"),
    "a page to print": lambda text: told("paper", text, "--out=a.pdf"),
    "a command": told,
    "two options": lambda text: told("plan", "--wanted", text, text),
    **{
        " ".join(("typed:", *typed)): _option(*typed)
        for typed in (
            ("plan", "--wanted"), ("plan", "--outer"), ("plan", "--inner"),
            ("plan", "--pieces"), ("plan", "--stock-length"), ("plan", "--cycles"),
            ("plan", "--draw-to"), ("plan", "--losses"), ("plan", "--start"),
            ("plan", "--units"), ("plan", "--nothing"),
            ("render", "star", "--out"), ("render", "star", "--out=a.png", "--size"),
            ("render", "star", "--out=no/a.png", "--view"),
            ("film", "star", "--out=no/a.gif", "--rate"),
            ("film", "star", "--out=no/a.gif", "--of"),
            ("paper", "votes", "--out"), ("paper", "card", "--out=no/a.pdf", "--recipe"),
            ("paper", "wall", "--out=a.pdf", "--lesson"),
            ("show", "--out=no/a.html", "--recipe"), ("show", "--out=no/a.html", "--idle"),
            ("show", "--out=no/a.html", "--language"),
            ("mark", ".", "--course"), ("mark", ".", "--ratings"), ("mark", ".", "--csv"),
            ("mark", "--roster=a.csv", "--out=a.csv", "--course=A", "--key"),
            ("mark", "--key=H1", "--out=a.csv", "--course=A", "--roster"),
            ("measure", "none.png", "--line"), ("--port",), ("--lesson",),
        )
    },
}  # fmt: skip


def asked(reader: Callable[[object], object], given: object) -> dict[str, object]:
    """Read one thing; give what came of it, in how long and in how much memory."""
    with contextlib.suppress(OSError):
        CLEAR.write_text("5")  # the peak from now on
    # of the processor: others at work count not; what only waits is stopped by HANG
    start = time.process_time()
    signal.alarm(HANG)
    try:
        reader(given)
        kind, words = "accepted", ""
    except KitError as refused:
        kind, words = "refused", str(refused)
    except BaseException as fault:  # noqa: BLE001
        kind, words = type(fault).__name__, str(fault)[:300]
    finally:
        signal.alarm(0)
    seconds = time.process_time() - start
    return {"kind": kind, "words": words, "seconds": seconds, "megabytes": _peak()}


def _peak() -> float:
    """Give the most memory since the mark was set, MB; 0 where it cannot be known."""
    try:
        found = STATUS.read_text()
    except OSError:
        return 0.0
    return int(found.split("VmHWM:")[1].split()[0]) / 1024


def _stop(*_: object) -> None:
    msg = f"no answer in {HANG} s"
    raise TimeoutError(msg)


def run(name: str, given: dict[str, object]) -> None:
    """Read everything with one reader; print a line for each."""
    signal.signal(signal.SIGALRM, _stop)
    resource.setrlimit(resource.RLIMIT_AS, (MOST_ADDRESSES, MOST_ADDRESSES))
    for what, one in given.items():
        answer = {"reader": name, "what": what, **asked((LINES | FILES)[name], one)}
        sys.stdout.write(json.dumps(answer) + "\n")
        sys.stdout.flush()
        if isinstance(one, Path) and what not in bombs.LINKS:
            shutil.rmtree(one.parent)


LONGEST = 60  # s, for all that one reader is given


def run_all(folder: Path) -> None:
    """Run each reader in a copy of this process and in a folder of its own."""
    lines, fork = bombs.lines(), multiprocessing.get_context("fork")
    for number, name in enumerate((*LINES, *FILES)):
        place = folder / str(number)
        place.mkdir()
        os.chdir(place)
        child = fork.Process(target=_run, args=(name, lines, place))
        child.start()
        child.join(LONGEST)  # what it did not print is missed by who reads it
        child.kill()


def _run(name: str, lines: dict, place: Path) -> None:
    run(name, lines if name in LINES else bombs.make(place))


if __name__ == "__main__":
    run_all(Path(sys.argv[1]))

"""`python -m kit mark`: a class's hand-ins, marked; files are read, never run."""

import argparse
import codecs
from collections.abc import Sequence
from functools import partial
from pathlib import Path

from kit.basics.errors import KitError
from kit.basics.files import write
from kit.basics.units import UNITS, Units
from kit.classroom.homework import quiz
from kit.classroom.homework.class_table import LEGEND, class_table, missing
from kit.classroom.homework.key import answer_key, key_csv
from kit.classroom.homework.marking import Marked, mark_folder, marks_csv
from kit.classroom.homework.quiz import MEANT, SHORT, report
from kit.classroom.homework.ratings import RATINGS, to_read
from kit.classroom.homework.ratings import load as ratings_of
from kit.classroom.homework.roster import read_roster
from kit.classroom.homework.sets import SETS, homework
from kit.classroom.homework.talk import NO_PROOF, talk
from kit.classroom.paper import homework_papers
from kit.launch.command import parts

OURS = b"Set,Student,", b"Student,Sets handed in,"  # how a key and marks begin


def add(parser: argparse.ArgumentParser) -> None:
    """Declare what can be asked for."""
    parser.add_argument(
        "folder", nargs="?", help="the folder with the hand-ins, or with quiz sheets"
    )
    parser.add_argument("--course", help="only this course; others are told of")
    parser.add_argument("--csv", metavar="FILE.csv", help="marks, a row a student, go here")
    parser.add_argument(
        "--ratings",
        metavar="FILE.csv",
        help="marks for written answers: a heading set,student,ratings, then lines such as "
        "H1,Student One,210 (otherwise ratings.csv in the folder, if it is there)",
    )
    parser.add_argument(
        "--words", action="store_true", help="lay what students wrote side by side"
    )
    parser.add_argument(
        "--quiz", action="store_true", help="report the quiz, before against after"
    )
    parser.add_argument(
        "--key",
        choices=tuple(SETS),
        help="instead: the answer key of a set for a --roster, as --out key.csv or .pdf",
    )
    parser.add_argument(
        "--papers",
        choices=tuple(SETS),
        help="instead: print everybody's own paper of a set for a --roster, as --out x.pdf",
    )
    parser.add_argument(
        "--roster",
        metavar="FILE.csv",
        help="one student a line: who is missing; or see --key",
    )
    parser.add_argument(
        "--out", metavar="FILE", help="write here: .txt, or a --key or --papers"
    )
    parser.add_argument("--units", choices=UNITS, default="mm")


def idle(options: argparse.Namespace) -> dict[str, str]:
    """Name the options that change nothing as the others stand, and why."""
    of_folder = "csv", "ratings", "words", "quiz"
    if options.key or options.papers:
        why = "a key and papers are made from the --roster alone."
        both = {"papers": "a --key is asked for."} if options.key else {}
        return dict.fromkeys(of_folder, why) | both
    why = {"units": "only a --key and --papers tell lengths."}
    if options.quiz:
        quiz = "the quiz is reported for the whole folder."
        why |= dict.fromkeys(("csv", "ratings", "words", "roster"), quiz)
    return why


def run(options: argparse.Namespace) -> str:
    """Mark; give the tables as text."""
    if options.key or options.papers:
        return _for_roster(options)
    return parts.answered(options.out, partial(_of_folder, options))


def _of_folder(options: argparse.Namespace) -> str:
    if not options.folder:
        msg = "Name the folder with the hand-ins: python -m kit mark FOLDER."
        raise KitError(msg)
    folder = Path(options.folder)
    if options.quiz:
        return quiz_report(folder, options.course)
    beside = Path(options.ratings) if options.ratings else folder / RATINGS
    ratings = ratings_of(beside) if options.ratings or beside.is_file() else {}
    students = read_roster(Path(options.roster)) if options.roster else []
    marked = mark_folder(folder, options.course, ratings)
    if options.csv:
        path = _no_other(parts.target(options.csv, (".csv",)))
        write(path, marks_csv(marked.marks, students), "utf-8-sig")
    lines = told(marked, words=options.words)
    for code in marked.codes if students else ():
        gone, strange = missing(marked.marks, code, students)
        if gone:
            lines.append(f"{code}: nothing from {', '.join(gone)}.")
        if strange:
            lines.append(f"{code}: not on the roster: {', '.join(map(repr, strange))}.")
    return "\n".join(lines) or "There is no hand-in there."


def told(marked: Marked, *, words: bool = False) -> list[str]:
    """Write class tables and remarks as lines of text."""
    lines = []
    for code in marked.codes:
        table = class_table(marked.marks, code, marked.aside)
        lines += [f"{code}  {homework(code).title}", *_columns([table.head, *table.rows])]
        lines.append(LEGEND)
        lines += _listed("What to teach again:", table.reteach)
        lines += _listed("Other slips in the table:", table.named)
        lines += _listed("Designs that do not meet their brief:", table.designs)
        lines += _listed("Wrong answers that no slip explains:", table.clusters)
        if words:
            for student, text, own in to_read(marked.marks, code):
                lines += ["", f"{student} ({_rated(own)}):", text]
        lines.append("")
    lines += _listed(f"To talk about ({NO_PROOF.lower().rstrip('.')}):", talk(marked))
    return lines + _listed("To look at:", marked.remarks)


def _rated(own: tuple[int | None, ...]) -> str:
    shown = ", ".join("–" if one is None else str(one) for one in own)
    return f"rates it {shown}" if own else "has not rated it"


def quiz_report(folder: Path, course: str | None) -> str:
    """Report a folder of quiz sheets as text."""
    sheets, remarks = quiz.read_folder(folder, course)
    found = report(sheets)
    over = ["", quiz.WHEN[0], "", "", quiz.WHEN[1], "", "", ""]
    lines = _columns([over, ["Item", *SHORT, *SHORT, "gain"], *found.rows()])
    lines += [MEANT, found.compared]
    return "\n".join([*lines, *_listed("To look at:", remarks)])


def _columns(rows: Sequence[Sequence[str]]) -> list[str]:
    widths = [max(len(row[at]) for row in rows) for at in range(len(rows[0]))]
    return [
        "  ".join(cell.ljust(wide) for cell, wide in zip(row, widths, strict=True)).rstrip()
        for row in rows
    ]


def _listed(head: str, lines: Sequence[str]) -> list[str]:
    return [head, *(f"  {line}" for line in lines)] if lines else []


def _no_other(path: Path) -> Path:
    """Refuse to write over a table that is none of ours: a roster, ratings, one's own."""
    try:
        with path.open("rb") as file:
            head = file.read(40)
    except FileNotFoundError:
        return path
    except OSError:
        head = b""
    if not head.removeprefix(codecs.BOM_UTF8).startswith(OURS):
        msg = (
            f"'{path.name[:60]}' is there already, and is no table of this kind: give "
            "another name."
        )
        raise KitError(msg)
    return path


def _for_roster(options: argparse.Namespace) -> str:
    if not (options.roster and options.out and options.course):
        msg = "A key and papers need --course, --roster FILE.csv and --out FILE."
        raise KitError(msg)
    students, units = read_roster(Path(options.roster)), UNITS[options.units]
    task = homework(options.key or options.papers)
    path = parts.target(options.out, (".csv", ".pdf") if options.key else (".pdf",))
    if options.papers:
        homework_papers.write_papers(task, options.course, students, path, units=units)
        return f"{path}: {task.code} for {len(students)} students. Print at 100 %."
    _write_key(path, task, options.course, students, units)
    return f"{path}: the key of {task.code} for {len(students)} students. Keep it apart."


def _write_key(
    path: Path, task: object, course: str, students: list[str], units: Units
) -> None:
    key = answer_key(task, course, students, units)
    if path.suffix.lower() == ".pdf":
        homework_papers.write_key(task, course, key, path, units)
        return
    write(_no_other(path), key_csv(task, key), "utf-8-sig")

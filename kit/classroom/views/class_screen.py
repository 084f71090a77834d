"""A class on one screen: who handed in, what to teach again, whom to talk with."""

import html
from collections.abc import Sequence

from kit.basics.told import counted
from kit.classroom.homework.class_table import LEGEND, Table, class_table, missing
from kit.classroom.homework.marking import Marked
from kit.classroom.homework.sets import homework
from kit.classroom.homework.talk import NO_PROOF
from kit.course.views.said import small_print, table_rows

AGAIN = 3  # things to teach again that are seen at once, ours
SEEN = 5  # other lines that are seen at once, ours


def class_screen(
    marked: Marked, code: str, students: Sequence[str], talk: Sequence[str]
) -> str:
    """Write one set of a marked class as HTML.

    Parameters
    ----------
    marked : Marked
    code : str
        "H1" …
    students : sequence of str
        The roster; () where there is none.
    talk : sequence of str
        What to talk about, of all sets: see `kit.classroom.homework.talk`.
    """
    table = class_table(marked.marks, code, marked.aside)
    own = [line.removeprefix(f"{code}: ") for line in talk if line.startswith(f"{code}: ")]
    again = _listed(table.reteach, AGAIN, "more") or "<p>No slip was given twice.</p>"
    reasons = (
        _listed(own, SEEN, "more") + small_print(NO_PROOF) if own else "<p>Nobody.</p>"
    )
    parts = (
        ("Handed in", _handed_in(marked, code, students)),
        ("Teach again", again),
        ("Talk with", reasons),
    )
    boxes = "".join(
        f"<section><p><b>{head}</b></p>{told}</section>" for head, told in parts
    )
    return (
        f'<div class="kit-class">{boxes}</div>{_table(table, code)}{small_print(LEGEND)}'
        + _folded("Other slips in the table", table.named)
        + _folded("Wrong answers that no slip explains", table.clusters)
    )


def not_counted(remarks: Sequence[str]) -> str:
    """Write as HTML which files were not counted, and why; folded, for it may be many."""
    return _folded(f"Not counted: {counted(len(remarks), 'file')}", remarks)


def _handed_in(marked: Marked, code: str, students: Sequence[str]) -> str:
    many = sum(one.done.set == code for one in marked.marks)
    if not students:
        told = f"<p>{counted(many, 'student')}.</p>"
        return told + small_print("With a roster, here stands who is missing.")
    gone, strange = missing(marked.marks, code, students)
    told = f"<p>{len(students) - len(gone)} of {counted(len(students), 'student')}.</p>"
    for words, names in (("Missing", gone), ("Not on the roster", strange)):
        if names:
            told += f"<p>{words} ({len(names)}): {html.escape(', '.join(names))}.</p>"
    return told


def _table(table: Table, code: str) -> str:
    """Write the table, the class's own rows above the students': it may be long."""
    name = html.escape(f"{code} {homework(code).title}")
    head = "".join(f'<th scope="col">{html.escape(cell)}</th>' for cell in table.head)
    whole, students = table.rows[-2:], table.rows[:-2]
    return (
        f'<div class="kit-table kit-long" role="region" tabindex="0" aria-label="{name}">'
        f"<table><caption>{name}</caption><thead><tr>{head}</tr></thead>"
        f"<tbody>{table_rows(whole)}</tbody><tbody>{table_rows(students)}</tbody></table></div>"
    )


def _listed(lines: Sequence[str], seen: int, more: str) -> str:
    """Write lines as a list, the first of them seen at once."""
    shown, rest = lines[:seen], lines[seen:]
    items = "".join(f"<li>{html.escape(line)}</li>" for line in shown)
    return (f"<ul>{items}</ul>" if items else "") + _folded(f"{len(rest)} {more}", rest)


def _folded(head: str, lines: Sequence[str]) -> str:
    """Write lines below words that open them; nothing if there are none."""
    if not lines:
        return ""
    items = "".join(f"<li>{html.escape(line)}</li>" for line in lines)
    return f"<details><summary>{html.escape(head)}</summary><ul>{items}</ul></details>"

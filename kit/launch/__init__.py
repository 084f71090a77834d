"""
Open the lessons: JupyterLab, set up for people who came for steel.

Nothing heavy is imported here: a missing package must be told in one sentence,
and that is only possible before the first import of it.
"""

import sys
from pathlib import Path

from kit.course.pages import find_lesson, fresh_copy, lessons_folder
from kit.launch.house import (
    DEFAULT_PORT,
    check_packages,
    choose_port,
    room_needed,
    temporary_house,
)

__all__ = ["DEFAULT_PORT", "open_lessons"]


def open_lessons(
    port: str | None = None,
    lesson: str | None = None,
    folder: Path | None = None,
    *,
    browser: bool = True,
    edit: bool = False,
) -> None:
    """
    Open the lessons in the browser and stay until the user stops them.

    Parameters
    ----------
    port : str, optional
        The number at the end of the address, as typed: 1024 to 65535.
    lesson : str, optional
        The lesson to open first: ``"02"``, ``"2"`` or its whole name.
    folder : Path, optional
        Another folder of notebooks. The kit did not bring them, so it neither
        trusts nor tidies them.
    browser : bool
        False prints the address and opens nothing.
    edit : bool
        True opens the kit's own files, for those who build on it. Otherwise the
        lessons are a copy, fresh every time, which no one can spoil.

    Raises
    ------
    KitError
        If a package is missing, the port is taken or impossible, the lesson or folder
        is not there, or the disk is full.
    """
    # `python -m kit` puts the folder it is typed in before all others. A stranger's file
    # may lie there under the name of a package; a clone's kit is then found as the last.
    sys.path.sort(key=lambda place: place in {"", str(Path.cwd())})
    check_packages()
    lessons = lessons_folder(folder)
    first = find_lesson(lessons.folder, lesson)
    free_port, port_note = choose_port(port)
    with temporary_house() as house:
        # JupyterLab reads some folders of its own while it is imported, so the
        # import has to wait until they point into the temporary house. It comes with a
        # reader of addresses in all alphabets, half of the time it takes to open, that
        # what checks its messages can do without, and nothing of ours has any.
        sys.modules.setdefault("rfc3987_syntax", None)
        from kit.launch.server import serve  # noqa: PLC0415

        if folder is None and not edit:
            with room_needed():
                lessons = fresh_copy(lessons, house / "lessons")
        serve(
            lessons, first, free_port, house, notes=(port_note,), browser=browser, edit=edit
        )

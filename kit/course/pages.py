"""Which folder of notebooks is opened, and which of them the kit brought itself.

The kit's own pages are known by name and by what is in them. `own_pages.txt` holds a
fingerprint of each, because anybody can put a notebook into the folder, or change one that
is there: whatever it says about itself, it must not be trusted.
``python -m kit.launch.list_own`` writes it anew.
"""

import hashlib
import shutil
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from kit.basics.errors import KitError
from kit.basics.notebook_file import file_text, tidy

PACKAGE = Path(__file__).resolve().parent.parent


@dataclass(frozen=True)
class Lessons:
    """
    A folder of notebooks, ready to be opened.

    Parameters
    ----------
    folder : Path
        Where the notebooks are.
    own : mapping of str to str
        The fingerprints of those the kit brought, by their names, as
        ``"02_stack_and_fold.ipynb"`` or ``"homework/…"``: see `own_pages`.
        Only these are trusted, and tidied when saved.
    """

    folder: Path
    own: Mapping[str, str]


def clone_root() -> Path | None:
    """Return the folder of a clone of the kit, or None for an installed kit."""
    root = PACKAGE.parent
    return root if (root / "pyproject.toml").is_file() else None


def lessons_folder(wanted: Path | None = None) -> Lessons:
    """
    Find the notebooks to open.

    Parameters
    ----------
    wanted : Path, optional
        Another folder of notebooks. None of them is the kit's own.

    Returns
    -------
    Lessons
        In a clone the folder beside the package; otherwise the one that was
        installed with it.
    """
    if wanted is not None:
        if not wanted.is_dir():
            msg = f"There is no folder {wanted}. Give a folder that holds notebooks."
            raise KitError(msg)
        return Lessons(wanted.resolve(), {})
    root = clone_root()
    folder = root / "notebooks" if root else PACKAGE / "notebooks"
    if not folder.is_dir():
        msg = f"The lessons should be in {folder}, but it is not there; install again."
        raise KitError(msg)
    return Lessons(folder, own_pages())


def fresh_copy(lessons: Lessons, copy: Path) -> Lessons:
    """
    Copy the lessons to a new folder, so that nothing done to a page can spoil them.

    Links stay behind: through one a page could lead out of the folder, or never end.

    Parameters
    ----------
    lessons : Lessons
        Those of the clone, or those installed.
    copy : Path
        A folder that is not there yet.

    Returns
    -------
    Lessons
        The same, in the copy.
    """
    shutil.copytree(lessons.folder, copy, ignore=_no_lessons)
    return Lessons(copy, lessons.own)


def _no_lessons(folder: str, names: list[str]) -> list[str]:
    """Name what is hidden, a link, or neither file nor folder."""
    here = {name: Path(folder, name) for name in names}
    return [
        name
        for name, path in here.items()
        if name.startswith(".")
        or path.is_symlink()
        or not (path.is_file() or path.is_dir())
    ]


def notebook_names(folder: Path) -> list[str]:
    """
    List the notebooks of a folder and of the folders in it, the former first.

    Parameters
    ----------
    folder : Path
        A folder of notebooks.

    Returns
    -------
    list of str
        Paths inside the folder, with forward slashes on every system.
    """
    inside = (file.relative_to(folder) for file in folder.rglob("*.ipynb"))
    seen = (path for path in inside if not any(p.startswith(".") for p in path.parts))
    return [path.as_posix() for path in sorted(seen, key=lambda p: (len(p.parts), p))]


def find_lesson(folder: Path, wanted: str | None = None) -> str:
    """
    Find a notebook by its number or its name.

    Parameters
    ----------
    folder : Path
        Where the notebooks are.
    wanted : str, optional
        ``"02"``, ``"2"``, ``"02_stack_and_fold"`` or the whole file name; by
        default the first notebook.

    Returns
    -------
    str
        The notebook's path inside the folder.
    """
    names = notebook_names(folder)
    if not names:
        msg = f"There are no notebooks in {folder}. Give a folder that holds some."
        raise KitError(msg)
    if wanted is None:
        return names[0]
    start = wanted.zfill(2) if wanted.isdigit() else wanted
    for name in names:
        stem = Path(name).stem
        if wanted in {name, stem} or stem.startswith(f"{start}_"):
            return name
    listed = ", ".join(Path(name).stem for name in names)
    msg = f"There is no lesson {wanted}. The lessons are: {listed}."
    raise KitError(msg)


LIST = Path(__file__).parent / "own_pages.txt"
Whose = Literal["own", "changed", "strange"]


def fingerprint(notebook: dict[str, Any]) -> str:
    """
    Sum up a notebook's text, code and kept results.

    Parameters
    ----------
    notebook : dict
        A notebook of format 4. What comes and goes with use does not count.

    Returns
    -------
    str
        SHA-256, 64 letters.
    """
    return hashlib.sha256(file_text(tidy(notebook)).encode()).hexdigest()


def own_pages() -> dict[str, str]:
    """
    Read which pages came with the kit.

    Returns
    -------
    dict
        The fingerprint of each, by its path inside the folder of lessons.
    """
    lines = LIST.read_text(encoding="utf-8").splitlines()
    return {name: found for found, name in (line.split(maxsplit=1) for line in lines)}


def whose(name: str, notebook: dict[str, Any], own: Mapping[str, str]) -> Whose:
    """
    Tell who made a page.

    Parameters
    ----------
    name : str
        Its path inside the opened folder.
    notebook : dict
        What is in it, of format 4.
    own : mapping
        The pages that came with the kit: see `own_pages`.

    Returns
    -------
    str
        ``"own"``; ``"changed"`` if it has the name of an own page and holds something
        else; otherwise ``"strange"``.
    """
    if name not in own:
        return "strange"
    try:
        known = fingerprint(notebook) == own[name]
    except (KeyError, TypeError, ValueError, AttributeError, RecursionError):
        known = False  # the kit writes no notebook that cannot be read
    return "own" if known else "changed"

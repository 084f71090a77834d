"""
The kit's own pages, known by name and by what is in them.

`own_pages.txt` holds a fingerprint of each, because anybody can put a notebook into
the folder, or change one that is there: whatever it says about itself, it must not be
trusted. ``python -m kit.launch.list_own`` writes it anew.
"""

import hashlib
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal

from kit.basics.notebook_file import file_text, tidy

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

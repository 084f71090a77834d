"""
`python -m kit.launch.list_own` writes the fingerprints of the kit's pages anew.

For those who build on the kit, after a change to a lesson: see `kit.course.own`.
"""

from pathlib import Path

import nbformat

from kit.course.own import LIST, fingerprint
from kit.course.pages import PACKAGE, notebook_names


def listing(folder: Path) -> str:
    """
    Give the fingerprints of all pages in the folder of lessons.

    Parameters
    ----------
    folder : Path
        The kit's own notebooks, and no others.

    Returns
    -------
    str
        A page a line, as ``sha256sum`` writes them.
    """
    pages = {name: nbformat.read(folder / name, 4) for name in notebook_names(folder)}
    return "".join(f"{fingerprint(page)}  {name}\n" for name, page in pages.items())


if __name__ == "__main__":
    LIST.write_text(listing(PACKAGE.parent / "notebooks"), encoding="utf-8", newline="\n")

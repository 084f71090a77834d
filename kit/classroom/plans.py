"""What a lesson's own page says to who teaches it: its plan, its vote, what to bring.

The words are the notebooks' own, read from the notebooks: nothing is written twice.
"""

import json
import re
from functools import lru_cache

from kit.basics.errors import KitError
from kit.course.pages import lessons_folder

TEACH = "Teach it in 45 minutes"
WITH = "With clay and with steel"
_VOTE = re.compile(r'Vote: "(?P<asked>[^"]+)"')


@lru_cache(maxsize=16)
def sections(number: str) -> dict[str, str]:
    """Give the text of a lesson's notebook by its headings.

    Raises
    ------
    KitError
        If the notebook is not there or cannot be read.
    """
    folder = lessons_folder().folder
    found = sorted(folder.glob(f"{number}_*.ipynb"))
    try:
        cells = json.loads(found[0].read_text("utf-8"))["cells"]
    except (IndexError, OSError, ValueError, KeyError):
        msg = f"The notebook of lesson {number[:10]!r} cannot be read in {folder.name!r}."
        raise KitError(msg) from None
    text = "\n\n".join(
        "".join(cell["source"]) for cell in cells if cell.get("cell_type") == "markdown"
    )
    parts = re.split(r"^#{1,3} +(.+?)\s*$", text, flags=re.MULTILINE)
    return dict(zip(parts[1::2], (part.strip() for part in parts[2::2]), strict=True))


def table(text: str) -> list[tuple[str, ...]]:
    """Give the rows of the first table in a text, without its heading."""
    rows = [line.strip() for line in text.splitlines() if line.strip().startswith("|")]
    cells = [tuple(map(plain, row.strip("|").split("|"))) for row in rows[2:]]
    return [row for row in cells if any(row)]


def paragraphs(text: str) -> list[str]:
    """Give what is no table, paragraph by paragraph."""
    kept = [line for line in text.splitlines() if not line.strip().startswith("|")]
    parts = re.split(r"\n\s*\n|\n(?=> \*? ?)", "\n".join(kept))
    return [words for part in parts if (words := plain(part))]


def plain(words: str) -> str:
    """Take the marks of a notebook out of words.

    Examples
    --------
    >>> plain("**2**, see [lesson 01](01_cut.ipynb) and *why*</details>")
    '2, see lesson 01 and why'
    """
    words = re.sub(r"<[^>]+>|^> ?(\* )?", "", words, flags=re.MULTILINE)
    words = re.sub(r"\[([^\]]+)\]\([^)]*\)", r"\1", words)
    words = re.sub(r"(\*\*|\*|`)([^*`\s](?:[^*`]*[^*`\s])?)\1", r"\2", words)
    return " ".join(words.replace("\\|", "|").split())


def vote(number: str) -> str:
    """Give what a class votes on in a lesson, as its plan asks it."""
    told = (cell for row in table(sections(number)[TEACH]) for cell in row)
    return next(filter(None, map(_VOTE.search, told)))["asked"]

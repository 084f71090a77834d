"""
`python -m kit.launch.list_own` writes anew what follows from the lessons.

For those who build on the kit, after a change to a page: the picture at the head of each,
the links from lesson to lesson, the dangers, the questions of each, what its words rest on,
the README's table and the fingerprints of all, see `kit.course.pages`. The table's words
are those of the map in lesson 00.
"""

import json
import re
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import pairwise
from pathlib import Path

import nbformat

from kit.basics.claim import claims_told
from kit.basics.notebook_file import write
from kit.course.heads import head
from kit.course.map import ASKING, LESSONS
from kit.course.pages import LIST, PACKAGE, find_lesson, fingerprint, notebook_names
from kit.course.questions import CARDS
from kit.metal.dangers import DANGERS

START = "00"
KNOWN = "<details><summary>How do you know what this page says?</summary>"
ASKED = "**People ask, and [a card](questions.ipynb) answers, in one breath:**"
ROW = r"^\| \d\d \| \[.*?\]\((.*?)\) \| .*? \|"  # of the map: its time is left out


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


def table(folder: Path, readme: str) -> str:
    """Give the README with the map's rows in its table of lessons."""
    with _cells(folder / find_lesson(folder, START)) as cells:
        words = "\n".join(cell["source"] for cell in cells)
    rows = "\n".join(
        match[0].replace(f"]({match[1]})", f"](notebooks/{match[1]})")
        for match in re.finditer(ROW, words, re.MULTILINE)
    )
    return re.sub(
        r"(?:^\| (?!00)\d\d \| .*\n)+", lambda _old: f"{rows}\n", readme, flags=re.MULTILINE
    )


def lead_on(folder: Path) -> None:
    """Write the links at the end of each lesson: the one before, the next, the start."""
    numbers = [START, *ASKING]
    links = {key: f"[{key} {_title(key)}]({find_lesson(folder, key)})" for key in numbers}
    after = {one: f"**Next:** {links[other]}" for one, other in pairwise(numbers)}
    before = {other: f"**Before:** {links[one]}" for one, other in pairwise(numbers)}
    for key in numbers:
        with _cells(folder / find_lesson(folder, key)) as cells:
            last = next(c for c in cells[::-1] if c["cell_type"] == "markdown")
            led = r"\*\*(?:Before|Next):\*\* \[[^]]*\]\([^)]*\)(?: · )?"
            rest = re.sub(led, "", last["source"])
            parts = [part[key] for part in (before, after) if key in part]
            last["source"] = " · ".join([*parts, *filter(None, [rest.strip()])])


def list_dangers(folder: Path) -> None:
    """Write the words of the dangers that a page names anew: `kit.metal.dangers`."""
    for name in notebook_names(folder):
        with _cells(folder / name) as cells:
            for cell in cells:
                cell["source"] = re.sub(
                    r"^> \* \*\*(.*?)\.\*\* .*$",
                    lambda named: DANGERS[named[1].lower()].line,
                    cell["source"],
                    flags=re.MULTILINE,
                )


def list_questions(folder: Path) -> None:
    """Write at the end of each lesson what people ask of it, and the breath of its card."""
    for key in ASKING:
        told = [(card, card.told().breath) for card in CARDS if card.lesson == key]
        lines = [f"* {card.number} *{card.question}* {breath}" for card, breath in told]
        with _cells(folder / find_lesson(folder, key)) as cells:
            asked = next(cell for cell in cells if cell["source"].startswith(ASKED))
            asked["source"] = "\n".join([ASKED, "", *lines])


def list_claims(folder: Path) -> None:
    """Write on each page how its sentences are known, and those of its lessons."""
    for name in notebook_names(folder):
        with _cells(folder / name) as cells:
            known = [cell for cell in cells if cell["source"].startswith(KNOWN)]
            for cell in known:
                told = claims_told(words_of(Path(name).stem[:2], cells))
                lines = [f"* {claim.says} *{claim.how}*" for claim in told]
                cell["source"] = "\n".join([KNOWN, "", *lines, "", "</details>"])


def words_of(key: str, cells: list[dict]) -> str:
    """Give what a page says, and what the lessons on it do: their modules' texts."""
    told = [cell["source"] for cell in cells if cell["cell_type"] == "markdown"]
    for lesson in LESSONS.values():
        if lesson.number[:2] == key:
            stem = lesson.__module__.rpartition(".")[2]
            modules = sorted((PACKAGE / "course/lessons").glob(f"{stem}*.py"))
            code = (path.read_text("utf-8") for path in modules)
            told += (re.sub(r'"\s*\n\s*f?"', "", words) for words in code)
            beside = (path.with_suffix(".txt") for path in modules)
            words = (path.read_text("utf-8") for path in beside if path.exists())
            told += (re.sub(r"\n +", " ", one) for one in words)
    return "\n".join(words for words in told if not words.startswith(KNOWN))


def picture_heads(folder: Path) -> None:
    """Draw the picture at the head of each page, and write it under the title."""
    for name in notebook_names(folder):
        path, drawn = folder / name, head(Path(name).stem)
        picture = folder / "img" / f"{path.stem}.jpg"
        if not picture.is_file() or picture.read_bytes() != drawn.file:
            picture.write_bytes(drawn.file)
        way = "../" * name.count("/")
        with _cells(path) as (first, *_rest):
            words = re.sub(r"!\[[^]]*\]\([^)]*\)\n\n", "", first["source"])
            title, rest = words.split("\n", 1)
            first["source"] = f"{title}\n\n![{drawn.alt}]({way}img/{picture.name})\n{rest}"


def _title(key: str) -> str:
    return "Start here" if key == START else ASKING[key].title


@contextmanager
def _cells(path: Path) -> Iterator[list[dict]]:
    """Give the cells of a page, their words in one piece; what changed is written."""
    page = json.loads(path.read_text("utf-8"))
    cells = page["cells"]
    old = ["".join(cell["source"]) for cell in cells]
    for cell, words in zip(cells, old, strict=True):
        cell["source"] = words
    yield cells
    if [cell["source"] for cell in cells] != old:
        write(page, path)


if __name__ == "__main__":
    notebooks, readme = PACKAGE.parent / "notebooks", PACKAGE.parent / "README.md"
    picture_heads(notebooks)
    lead_on(notebooks)
    list_dangers(notebooks)
    list_questions(notebooks)
    list_claims(notebooks)
    written = table(notebooks, readme.read_text("utf-8"))
    readme.write_text(written, encoding="utf-8", newline="\n")
    LIST.write_text(listing(notebooks), encoding="utf-8", newline="\n")

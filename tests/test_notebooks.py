"""The notebooks as documents: tidy, linked, short cells, nothing from the network."""

import json
import re
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from kit.basics.notebook_file import is_tidy
from kit.basics.told import plain
from kit.course.check import worked
from kit.course.heads import head
from kit.course.map import LESSONS as MAP
from kit.course.pages import own_pages
from kit.course.views.lesson import view_of

ROOT = Path(__file__).parents[1]
FOLDER = ROOT / "notebooks"
NOTEBOOKS = sorted(FOLDER.rglob("*.ipynb"))
LESSONS = [path for path in NOTEBOOKS if re.match(r"(0[1-9]|1\d)_", path.name)]
START = FOLDER / "00_start_here.ipynb"
MOST_BYTES = 26_000  # of a picture: 24 of them are fetched with the kit
KEYS = "**With the keyboard:** Esc leaves a slider or a button"
WORDS = (
    *("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve"),
)
HEADINGS = [
    "## Predict",
    "## Observe",
    "## Explain",
    "## See the code",
    "## Check yourself",
    "## On your own",
    "## Show it in two minutes",
    "## Teach it in 45 minutes",
    "## With clay and with steel",
    "## Where the model is wrong",
]


def name_of(path: Path) -> str:
    return path.name


def cells(path: Path) -> list[dict]:
    return json.loads(path.read_text(encoding="utf-8"))["cells"]


def text(path: Path) -> str:
    found = ("".join(c["source"]) for c in cells(path) if c["cell_type"] == "markdown")
    return plain("\n".join(found))


def figures(words: str) -> list[float]:
    return [float(one) for one in re.findall(r"\d+(?:\.\d+)?", words)]


def tells_count(words: str, count: str, noun: str) -> re.Match[str] | None:
    """Find so many of them, in figures or in a word, as in a sentence or a list."""
    number = count if int(count) >= len(WORDS) else f"(?:{count}|{WORDS[int(count)]})"
    before = rf"\b{number} (?:(?!mm\b)\w+ )?{noun}s?\b"
    after = rf"\b{noun}s? (?:\d+ of )?{number}\b(?!\.\d)"
    return re.search(f"(?i){before}|{after}", words)


def tagged(path: Path, tag: str) -> list[dict]:
    return [cell for cell in cells(path) if tag in cell["metadata"].get("tags", [])]


@pytest.mark.parametrize("path", NOTEBOOKS, ids=name_of)
def test_notebook_is_stored_tidy_and_small(path):
    assert is_tidy(path), f"{path.name}: save it through the kit (basics/notebook_file.py)"
    assert path.stat().st_size < 60_000
    notebook = json.loads(path.read_text(encoding="utf-8"))
    assert notebook["metadata"]["kernelspec"]["name"] == "python3"
    assert "widgets" not in notebook["metadata"]
    names = [cell.get("id") for cell in notebook["cells"]]
    assert all(names), "JupyterLab gives such a cell a name: the page is not ours then"
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("path", NOTEBOOKS, ids=name_of)
def test_code_cells_are_short_and_plain(path):
    for cell in cells(path):
        if cell["cell_type"] == "code":
            source = "".join(cell["source"])
            assert len([line for line in source.splitlines() if line.strip()]) <= 12
            assert not re.search(r"^\s*[%!]", source, re.MULTILINE), "no magics"


@pytest.mark.parametrize("path", NOTEBOOKS, ids=name_of)
def test_numbers_are_compared_where_they_are_read(path):
    numbers = tagged(path, "nbval-check-output")
    assert numbers
    for cell in numbers:
        assert "keep_output" in cell["metadata"]["tags"]
        assert "jupyter" not in cell["metadata"], "it is in sight, and so is what it prints"
        assert cell["execution_count"] is not None, "nbval compares counted cells only"
        assert any(output.get("text") for output in cell["outputs"])
    assert "tests itself" not in text(path)


@pytest.mark.parametrize("path", NOTEBOOKS, ids=name_of)
def test_controls_are_moved_in_what_stands_below_the_last_words(path):
    found = cells(path)
    words = max(at for at, cell in enumerate(found) if cell["cell_type"] == "markdown")
    # one cell more where a channel's thousand waiting messages would not hold them all
    assert found[words + 1 :] == tagged(path, "drives-controls") != []
    for cell in found[words + 1 :]:
        assert cell["metadata"]["jupyter"] == {"source_hidden": True}
        said = re.findall(r"print\((?!\s*rehearse\()", "".join(cell["source"]))
        assert not said, "it says nothing to a reader"


@pytest.mark.parametrize("path", LESSONS, ids=name_of)
def test_nothing_in_a_plan_takes_longer_than_its_slot(path):
    """A wait told in figures fits between the minutes of its row, or was begun before."""
    for start, end, words in re.findall(r"(?m)^\| (\d+)–(\d+) \| (.*) \|$", text(path)):
        for waits in re.findall(r"((?:\d+,? (?:and )?)*\d+) minutes", words):
            assert max(figures(waits)) <= int(end) - int(start), words
        assert not re.search(r"\d hours?\b(?! before)", words), words


ELEMENTS = {"C": "carbon", "Ni": "nickel", "Mn": "manganese", "Cr": "chromium"}


@pytest.mark.parametrize("path", NOTEBOOKS, ids=name_of)
def test_the_words_above_a_cell_name_the_elements_that_it_prints(path):
    for above, below in pairwise(cells(path)):
        told = "".join("".join(one.get("text", "")) for one in below.get("outputs", []))
        printed = re.findall(r"(?m)^(C|Ni|Mn|Cr): ", told)
        named = [n for n in ELEMENTS.values() if n in "".join(above["source"]).lower()]
        assert not printed or named == [ELEMENTS[one] for one in printed], path.name


@pytest.mark.parametrize("path", [START, *LESSONS], ids=name_of)
def test_code_takes_the_bar_from_the_bench_and_lays_ones_own_on_it(path):
    found = cells(path)
    sources = ["".join(cell["source"]) for cell in found]
    at = next(n for n, words in enumerate(sources) if words.startswith("## See the code"))
    assert found[at + 1]["cell_type"] == "code"
    assert KEYS in sources[at], "how the cell is reached and run by keyboard"
    lines = [
        line
        for line in sources[at + 1].splitlines()
        if line and not line.startswith(("from ", "import "))
    ]
    if path == START or view_of(path.name[:2]).shown.panels:
        assert (lines[0], lines[-1]) == ("bar = view.bar", "view.take(bar)")
        assert any(line.startswith("bar = bar") for line in lines[1:-1])
    else:
        assert "view.take" not in "".join(sources), "a bench without a bar takes none"


BENCHES = [
    ("".join(below["source"]), "".join(above["source"]))
    for path in NOTEBOOKS
    for above, below in pairwise(cells(path))
    if below["cell_type"] == "code" and "\n1. " in "".join(above["source"])
]


@pytest.mark.parametrize("bench", BENCHES)
def test_where_start_leads_past_numbered_steps_the_bench_says_what_is_next(bench):
    code, steps = bench
    page: dict = {}
    exec(code, page)  # noqa: S102  (the kit's own)
    (asked,) = re.findall(r"(?:At|at|Point at|choose) [^.]+\.", page["view"].says.value)
    named = set(re.findall(r"\w+", asked)) & set(re.findall(r"\w+", steps))
    assert len(named) > 4, "in the words of the page"


@pytest.mark.parametrize("path", LESSONS, ids=name_of)
def test_no_words_wait_for_what_the_reader_has_done(path):
    """What is written or printed stays; that a bench is shut is said by the bench."""
    printed = (
        "".join(o.get("text", ())) for c in cells(path) for o in c.get("outputs", ())
    )
    words = text(path) + "\n".join(printed)
    assert re.findall(r"[^.]*\bhave predicted\b[^.]*\.", words) == []


@pytest.mark.parametrize("path", NOTEBOOKS, ids=name_of)
def test_start_button_caution_and_links(path):
    words = text(path)
    assert 'data-commandlinker-command="notebook:run-all-cells"' in words
    assert "> **Caution.**" in words
    assert not re.search(r"<img|<script|https?://", words), "nothing remote"
    for link in re.findall(r"\]\(([^)#]+)\)", words):
        assert (path.parent / link).is_file(), f"{path.name}: {link} leads nowhere"


@pytest.mark.parametrize("path", NOTEBOOKS, ids=name_of)
def test_a_picture_that_the_kit_draws_now_stands_under_the_title(path):
    """Made anew by `python -m kit.launch.list_own`."""
    title, _, picture = "".join(cells(path)[0]["source"]).split("\n")[:3]
    assert title.startswith("# ")
    alt, link = re.fullmatch(r"!\[(.+)\]\((.+)\)", picture).groups()
    drawn, stored = head(path.stem), path.parent / link
    assert alt == drawn.alt
    assert stored.stat().st_size <= MOST_BYTES
    now, then = (
        np.asarray(Image.open(one), float) for one in (BytesIO(drawn.file), stored)
    )
    assert now.shape == then.shape
    assert np.abs(now - then).mean() < 1  # of 255; another machine's JPEG
    assert now.std() > 20, "something is to be seen in it"


@pytest.mark.parametrize("path", LESSONS, ids=name_of)
def test_lesson_has_all_its_parts_in_order(path):
    words = text(path)
    places = [words.find(heading) for heading in HEADINGS]
    assert -1 not in places, HEADINGS[places.index(-1)]
    assert places == sorted(places)
    for need in (
        "**What you'll make:**",
        "**What you'll learn:**",
        "**What you'll need:**",
    ):
        assert need in words


@pytest.mark.parametrize("path", LESSONS, ids=name_of)
def test_nothing_is_told_before_it_is_predicted(path):
    """Words above ask, and those in sight below; the right numbers stand nowhere."""
    above = text(path).partition("## Observe")[0]
    learn = above.partition("**What you'll learn:**")[2].partition("\n")[0]
    # "that it is so" and "why it is so" both say that it is so
    assert not re.search(r"\bwhy (?!not\b)\w|[,;:] (and )?that\b", learn), learn
    question = MAP[path.name[:2]].question
    given = set(figures(question.ask)) | set(map(float, question.given.values()))
    right = question.show(worked(question.right, question.given))
    told = {number for number in figures(right) if number % 1 or number > 3} - given
    printed = "\n".join(
        "".join(output.get("text", ""))
        for cell in tagged(path, "keep_output")
        for output in cell["outputs"]
    )
    asked = text(path).partition("## Explain")[0]  # what to observe is in sight too
    assert not told & set(figures(asked)), (right, asked)
    assert not told & set(figures(printed)), (right, printed)
    for count, noun in re.findall(r"(?<![\d.])(\d+) ([a-z]{3,}?)s?\b", right):
        for words in (asked, printed):  # a given of as many mm is no excuse for a count
            assert not tells_count(words, count, noun), (right, words)


def test_a_count_that_is_told_is_found():
    """In words, in figures, in what was printed; and not in another number."""
    for words in (
        "of the six rings",
        "6 bright rings",
        "Rings 6; Left",
        "one ring, Six rings",
    ):
        assert tells_count(words, "6", "ring"), words
    for words in ("16 rings", "6 mm, rings", "Rings 6.5", "sixty rings"):
        assert not tells_count(words, "6", "ring"), words


def test_what_to_do_first_stands_above_the_start_button():
    """Start goes on to the bench: whoever pressed it does not see what it passed."""
    before, _button, after = text(START).partition("<button data-commandlinker")
    assert re.findall(r"^\d\. ", before, re.MULTILINE)
    assert not re.findall(r"^\d\. ", after, re.MULTILINE)
    assert "*draw out* (hammer" in before, "a word of the trade is told where it is met"


def test_map_of_lessons_and_readme_list_exactly_the_files():
    for listing, prefix in (
        (text(START), ""),
        (_readme(), "notebooks/"),
    ):
        listed = set(re.findall(rf"\({prefix}(\d\d_\w+\.ipynb)\)", listing))
        assert listed >= {path.name for path in LESSONS}
        assert listed <= {path.name for path in NOTEBOOKS}


def test_every_notebook_is_known_to_the_launcher():
    names = {path.relative_to(FOLDER).as_posix() for path in NOTEBOOKS}
    assert names == set(own_pages())


def _readme() -> str:
    return (ROOT / "README.md").read_text(encoding="utf-8")

"""One spelling, one name: what the kit says to people, and what it says of itself.

The spellings are those of English dictionaries (cannot, hairline, halfway, offcut,
calliper: from memory); a format's name is written as its own standard writes it.
"""

import json
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
ENDINGS = {".py", ".md", ".ipynb", ".json", ".js", ".css", ".jinja", ".toml", ".txt"}
FILES = sorted(
    path
    for path in (*ROOT.glob("*.*"), *ROOT.glob(".ci/*"), *ROOT.glob("[knt]*/**/*.*"))
    if path.is_file()
    and path.parent.name != "asked"  # as people type
    and (path.suffix in ENDINGS or path.parent.name == ".ci")
)
FORMATS = "pdf|json|csv|png|gif|mp4"
# What was written once, and what is written now. A gap may be the end of a line, in a text
# or in the code.
GAP = r"""[\s"'#f]+"""
OLD = {
    "cannot": rf"(?i)\bcan{GAP}not\b(?!{GAP}only)",
    "hairline": rf"(?i)\bhair(-|{GAP})lines?\b",
    "halfway": r"(?i)\bhalf(-\s*| )way\b",
    "offcut": r"(?i)\boff(-\s*| )cuts?\b",
    "calliper": r"(?i)\bcalipers?\b",
    "wireless": r"(?i)\bwi-?fi\b",
    "an eye resolves": rf"(?i)\beyes?\b(,?{GAP}\w+){{0,3}}?{GAP}splits?\b",
    "we found no source": rf"(?i)\bno(body| one){GAP}(has|had){GAP}(ever{GAP})?publish"
    rf"|publish\w*{GAP}by{GAP}no(body|{GAP}one)\b",
    "where clay misleads": rf"(?i)\bclay{GAP}lies\b",
    "a format's name": rf"\(`?\.({FORMATS})`?\)|\ban? `?\.({FORMATS})\b",
    "a format in capitals": rf"(?<=[a-z] )({FORMATS}|Pdf|Json|Csv|Png|Gif|Mp4)s?(?= [a-z])",
}
OLD["a comma in thousands"] = r"""(?<![\d"'.] )(?<![\w"'.])[1-9]\d{0,2} (000|\d{3} mm)\b"""
# What strangers to the kit stumbled on when it stood on a button, a label or a page.
PUZZLING = (
    *("Its bars", "Bar across", "stripes there are", "Stacked from an", "Way of joining"),
    *("Since then", "Finish before", "Carbon gets", "Time hot", "Read the numbers out"),
    *("Start afresh", "Question before", "No question holds", "Take the marks off"),
    *("A fresh one, to practise", "As the legends tell", "Whoever calls a blade"),
    *("To come out, T", "No rack and no losses", "Held open by", "a visitor curious"),
    *("why it is dear", "seaside rock", "Nothing was lost. Try that", "as high is the dot"),
    *("(first order)", "; first order,", "forging number", "Tell its heat"),
    *("four signs are a check", "Scale, welding", "Scale, forging", "(JSON)"),
    *("read as JSON", "no JSON text", "it is JSON", "are known so", "is known so"),
    *("get there doubled", "exactly worked out for round"),
)
OLD["words that a stranger reads"] = "|".join(map(re.escape, PUZZLING))


def strings(value):
    """Give every string of parsed JSON; a list of strings is one text."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, list) and all(isinstance(each, str) for each in value):
        yield "".join(value) if value and value[0].endswith("\n") else "\n".join(value)
    elif isinstance(value, list | dict):
        for each in value.values() if isinstance(value, dict) else value:
            yield from strings(each)


def text_of(path):
    """Give what stands in a file: of a notebook, what its reader sees of it."""
    written = path.read_text("utf-8")
    if path == Path(__file__):
        before, after = written.split("PUZZLING = (", maxsplit=1)
        written = before + after.split("\n)\n", maxsplit=1)[1]
    if path.suffix not in {".ipynb", ".json"}:
        return written
    return "\n\n".join(strings(json.loads(written)))


def found(text):
    """Give the old spellings in a text, by what is written now."""
    hits = {now: [m[0] for m in re.finditer(old, text)] for now, old in OLD.items()}
    return {now: old for now, old in hits.items() if old}


def test_one_spelling():
    every = {str(path.relative_to(ROOT)): found(text_of(path)) for path in FILES}
    assert {name: old for name, old in every.items() if old} == {}


@pytest.mark.parametrize(
    ("text", "now"),
    [
        ('"this can "\n        f"not be"', "cannot"),
        ("# it can\n# not be", "cannot"),
        ("Half" + "-way in", "halfway"),
        ("a good eye " + "splits one minute", "an eye resolves"),
        ("an eye can " + "still split it", "an eye resolves"),
        ("a film can be an ." + "mp4", "a format's name"),
        ("Open losses (." + "json)", "a format's name"),
        ("e^(-148" + " 000 / T)", "a comma in thousands"),
        ("save the " + "pdf there", "a format in capitals"),
        ("Time" + " hot", "words that a stranger reads"),
    ],
)
def test_the_law_sees_what_it_should(text, now):
    assert list(found(text)) == [now]


def test_the_law_leaves_alone_what_is_right():
    right = (
        "It can not only fold: --out x.pdf, import json, a JSON file, the split is wide."
    )
    assert found(right) == {}

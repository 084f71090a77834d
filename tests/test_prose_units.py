"""What a notebook's prose measures it gives twice: 16 mm (5/8 in), 1090 °C (1994 °F).

Prose cannot follow the switch of units, so whoever works in inches, °F or ounces reads
the other figure beside it. Typed words (`3/16 in`) stay as they are typed, and so do
nanometres: no shop measures atoms in inches.
"""

import re
from fractions import Fraction

import pytest
from test_notebooks import NOTEBOOKS, name_of, text
from test_told import listed, mixed

from kit.basics.told import said
from kit.basics.typed import MM_PER_INCH, POUND
from kit.basics.units import Units
from kit.course.questions import CARDS, Measures

NUMBER = r"\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?"
MANY = rf"(?:{NUMBER})(?:(?:, and |, | and | to | or | by | × | → |–)(?:{NUMBER}))*"
METRIC = re.compile(
    rf"(?<![\w./])(?P<given>{MANY})[ \u00a0](?P<unit>mm|cm|µm|m|cm³|mm³|g|kg|°C)(?![\w²³/])"
    r"(?:(?: \(|,? or )(?P<told>[^()]*? ?(?P<into>in³|in|ft|oz|lb|°F)))?"
)
GRADES = re.compile(r"\b(?:1[05]\d\d|15N20)\b")  # 1084 is no length
INTO = {  # how many of a unit one of ours is
    ("mm", "in"): 1 / MM_PER_INCH,
    ("cm", "in"): 10 / MM_PER_INCH,
    ("µm", "in"): 0.001 / MM_PER_INCH,
    ("m", "ft"): 1000 / MM_PER_INCH / 12,
    ("cm³", "in³"): (10 / MM_PER_INCH) ** 3,
    ("mm³", "in³"): MM_PER_INCH**-3,
    ("g", "oz"): 16 / POUND,
    ("g", "lb"): 1 / POUND,
    ("kg", "lb"): 1000 / POUND,
}
TOLD = re.compile(r"(?:(\d+) )?(\d+/\d+)|(\d[\d,]*(?:\.(\d+))?)")


def numbers(words):
    """Give what is told, and how far it may be off: half of its last figure or part."""
    for whole, fraction, decimal, behind in TOLD.findall(words):
        if fraction:
            yield float(int(whole or 0) + Fraction(fraction)), 1 / 64
        else:
            yield float(decimal.replace(",", "")), 0.5 * 10.0 ** -len(behind)


def same(given, unit, told, into):
    """Say whether both figures are the same quantity, one by one."""
    ours = [float(one.replace(",", "")) for one in re.findall(NUMBER, given)]
    theirs = list(numbers(told))
    if len(ours) != len(theirs):
        return False
    if (unit, into) == ("°C", "°F"):  # a temperature, or a difference of two
        pairs = [(one, other) for one, (other, _) in zip(ours, theirs, strict=True)]
        return any(
            all(abs(one * 1.8 + add - other) <= 0.5 for one, other in pairs)
            for add in (0, 32)
        )
    if (unit, into) not in INTO:
        return False
    each = zip(ours, theirs, strict=True)
    size = INTO[unit, into]
    return all(abs(one * size - other) <= half * 1.001 for one, (other, half) in each)


def prose(path):
    """Give a notebook's words without what is code, and without their marks."""
    bare = re.sub(r"```.*?```|`[^`]*`|<[^>]*>|\]\([^)]*\)", "", text(path), flags=re.DOTALL)
    return GRADES.sub("", bare.replace("*", ""))


@pytest.mark.parametrize("path", NOTEBOOKS, ids=name_of)
def test_prose_tells_every_measure_in_both_units(path):
    words = prose(path)
    bare = [
        words[max(0, one.start() - 30) : one.end() + 30].replace("\n", " ")
        for one in METRIC.finditer(words)
        if not (one["told"] and same(one["given"], one["unit"], one["told"], one["into"]))
    ]
    assert bare == []


@pytest.mark.parametrize("path", NOTEBOOKS, ids=name_of)
def test_no_sentence_of_prose_writes_inches_in_two_ways(path):
    lines = [("prose", line) for line in re.split(r"[\n|]", prose(path))]
    assert listed(mixed(lines)) == ""


TOOLS = re.compile(r"(?:drill|point|ball|round|marble)s?\b")
SIZED = re.compile(rf"({NUMBER})\s(?:mm|in) \(([^()]*)\) ?(?={TOOLS.pattern})")


def test_a_tools_size_is_told_as_in_questions_and_on_paper():
    """A drill of 0.236 in is not one of 15/64 in: who reckons with that is off."""
    found = [one for path in NOTEBOOKS for one in SIZED.findall(prose(path))]
    assert found
    told = [(mm, inches.replace("\u00a0", " ")) for mm, inches in found]
    assert [one for one in told if said(float(one[0]), Units.INCH_FRACTION) != one[1]] == []
    (card,) = (one for one in CARDS if one.number == 19)
    drill = card.told(Measures(Units.INCH_FRACTION)).answer
    assert f"A drill point {said(6, Units.INCH_FRACTION)} wide" in drill


def test_the_law_sees_what_is_missing_or_wrong():
    told = "a bar 16 mm thick", "16 mm (3/4 in)", "16 to 4 mm (5/8 to 5/32 in)"
    found = [METRIC.search(one) for one in told]
    assert not found[0]["told"]
    kept = [same(one["given"], one["unit"], one["told"], one["into"]) for one in found[1:]]
    assert kept == [False, True]

"""The search finds the right card first for what people type."""

from pathlib import Path

import pytest

from kit.course.questions import CARDS, find, nearest

ASKED = Path(__file__).parent / "asked"
MISSED = 1 / 10  # of the questions by somebody who has not seen the code
HARDER = 1 / 4  # of those by who set the rule: blunt, and all by the same hand
ASTRAY = 1 / 8  # of what no card answers may open one


def written(name):
    """Read a file of questions: numbers of the cards that answer, what is typed."""
    lines = (ASKED / f"{name}.txt").read_text("utf-8").splitlines()
    rows = [line.split("\t") for line in lines if line and not line.startswith("#")]
    return [([int(one) for one in numbers.split(",")], words) for numbers, words in rows]


def wrong(rows):
    """Give the questions for which another card, or none (0), comes first."""
    first = {words: next((card.number for card in find(words)), 0) for _, words in rows}
    return {
        words: (numbers, first[words])
        for numbers, words in rows
        if first[words] not in numbers
    }


def test_what_we_wrote_down_finds_its_card_first():
    rows = written("here")
    assert len(rows) >= 60
    assert {one for numbers, _ in rows for one in numbers} == {
        card.number for card in CARDS
    }
    assert wrong(rows) == {}


@pytest.mark.parametrize(
    ("name", "missed"),
    [
        ("before", MISSED),
        ("stranger", MISSED),
        ("passer_by", MISSED),
        ("counter", HARDER),
        ("last", HARDER),
        ("crowd", MISSED),
        ("by_ear", MISSED),
        ("heard", HARDER),
    ],
)
def test_what_was_written_unseen_mostly_finds_its_card_first(name, missed):
    rows = [row for row in written(name) if missed == MISSED or row[0] != [0]]
    assert len(wrong(rows)) <= missed * len(rows), wrong(rows)


def test_what_is_off_the_topic_seldom_opens_a_card():
    names = ("before", "passer_by", "counter", "last", "crowd", "by_ear", "heard")
    rows = [row for name in names for row in written(name)]
    astray = [words for numbers, words in rows if numbers == [0]]
    opened = [words for words in astray if find(words)]
    assert len(opened) <= ASTRAY * len(astray), opened
    assert all(nearest(words) for words in ("how do i cast a bronze bell", *opened))


# A quality and its lack: who asks for the one asks about the other.
LACKS = (
    ("strong", "weak"), ("stronger", "weaker"), ("strength", "weakness"),
    ("sturdy", "flimsy"), ("tough", "brittle"), ("sharp", "blunt"), ("hard", "soft"),
    ("thick", "thin"), ("is it strong", "is it weak"),
    ("stronger than steel", "weaker than steel"),
)  # fmt: skip


@pytest.mark.parametrize(("quality", "lack"), LACKS)
def test_a_lack_finds_what_its_quality_finds(quality, lack):
    """The card that comes first for one is among the first three for the other."""
    there, missing = find(quality)[:3], find(lack)[:3]
    assert {there[0], *missing[:1]} & {*there} & {*missing}


def test_one_sentence_late_in_a_story_is_read():
    story = "we were at the market with my mother and it was raining all day long and then "
    assert find(f"{story} my dishwasher, may it go in there")[0].number == 32

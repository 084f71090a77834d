"""Pages for telephones: every lesson has one, and its checks judge as the engine does."""

import base64
import hashlib
import math
import random
import re
from bisect import bisect
from functools import lru_cache
from zipfile import ZipFile

import pytest
from markupsafe import escape
from pypdf import PdfReader

from kit.basics.claim import gathered, marked
from kit.basics.errors import KitError
from kit.basics.told import in_units, kept
from kit.basics.units import Units
from kit.classroom.phone import page
from kit.classroom.phone import piece as pieces
from kit.classroom.phone.judging import READ, judging
from kit.classroom.phone.piece import (
    CHECKS,
    QUALITY,
    STOPS,
    cards_of,
    piece_of,
    stops_of,
    verdicts,
)
from kit.classroom.views.printing import telephones
from kit.course.answers import KINDS
from kit.course.check import EXAMPLE, EXAMPLE_FROM, NOT_YET, STANDS
from kit.course.heads import HEADS, head
from kit.course.map import LESSONS
from kit.course.questions import CARDS
from tests.printed import COMMAND
from tests.test_told_claims import untold
from tests.test_words_in_pictures import Noted, noted  # noqa: F401  (a fixture)

ASKED = [(key, at) for key, one in page.PAGES.items() for at in range(len(one.checks))]
NARROW, LEAST = 328, 11  # pixels of a small telephone's picture, and of its letters


def few(lesson):
    """Give the ends of what is asked of a lesson: a page of two or three stops."""
    first, last = (
        state[lesson.main] for state in (lesson.states()[0], lesson.states()[-1])
    )
    return sorted({first, last, stops_of(lesson)[0]})


@lru_cache(maxsize=1)
def one_page():
    """Give a lesson's page, and what it was made of."""
    lesson = page.PAGES["10"]
    piece = piece_of(lesson, values=few(lesson))
    return piece, page.page(piece)


def test_every_lesson_and_part_has_a_page():
    """But what has no one slider; the index says so."""
    left = [one.title for one in LESSONS.values() if one.key not in page.PAGES]
    assert left == ["Made to order"]
    for lesson in page.PAGES.values():
        assert lesson.film
        assert lesson.phone


@pytest.mark.parametrize("key", page.PAGES)
def test_a_page_predicts_explains_asks_and_tells(key):
    """All that issue 20 asks of each: what is missing of one has a name here."""
    lesson = page.PAGES[key]
    question = lesson.question
    assert question, "no prediction"
    assert len(question.tiles) >= 3
    assert [one.right for one in question.reasons].count(True) == 1
    assert len(lesson.checks) >= CHECKS
    for check in lesson.checks[:CHECKS]:
        assert len(check.slips) >= 2
        assert all(slip.name and slip.hint for slip in check.slips)
    assert cards_of(lesson), "nothing for two minutes at a table"


def test_a_card_stands_on_one_page_and_on_its_own():
    """A part's talk is about the part, its lesson's about the rest."""
    stands = [card.number for lesson in page.PAGES.values() for card in cards_of(lesson)]
    assert sorted(stands) == sorted(card.number for card in CARDS)
    for card in CARDS:
        assert not card.part or not card.part.isdigit()


def test_the_index_names_every_lesson_and_cuts_no_word(noted):  # noqa: F811
    """Its pictures are steel alone: at their size no word could be read."""
    text = page.index()
    for lesson in LESSONS.values():
        assert lesson.title in text
    for key in page.PAGES:
        assert f'href="{page.file_of(key)}"' in text
    drawn = [head(one).image for one in HEADS if one.split("_")[0] in page.PAGES]
    sheets = [sheet for sheet in noted if any(sheet.image is one for one in drawn)]
    assert (
        len(sheets)
        == len(drawn)
        == sum(key == one.number for key, one in page.PAGES.items())
    )
    assert not any(sheet.words for sheet in sheets)


@pytest.mark.parametrize("key", page.PAGES)
def test_a_control_has_stops_enough_and_those_that_are_asked_about(key):
    """A count has as many as it has values; what does not fit is not among them."""
    lesson = page.PAGES[key]
    stops = stops_of(lesson)
    whole = lesson.model_fields[lesson.main].annotation is int
    assert len(stops) >= STOPS or (whole and stops == list(range(stops[0], stops[-1] + 1)))
    assert len(stops) <= 2.1 * STOPS
    assert stops == sorted(set(stops))
    for state in (lesson.states()[0], lesson.states()[-1]):
        assert state[lesson.main] in stops
    last = lesson.states()[-1]
    for value in (stops[0], stops[-1]):
        lesson.asked({**last, lesson.main: value}, Units.MM)  # it is not refused


@pytest.mark.parametrize("key", page.PAGES)
def test_a_telephone_shows_whole_words_large_enough(key, noted):  # noqa: F811
    """No part of a picture cuts through a word, nor makes one too small to be read.

    And each side that is asked about is named in every part that shows both.
    """
    lesson = page.PAGES[key]
    parts = lesson.phone
    ask = lesson.question.ask if lesson.question else ""
    sides = set(re.findall(r"\b(?:left|right)\b", ask))
    wide = max((part.right - part.left) * part.scale for part in parts)
    for value in few(lesson)[:2]:
        scene = lesson.scene(
            **{**lesson.states()[-1], lesson.main: value}, letters=pieces.BIG_LETTERS
        )
        sheet = next(one for one in noted if one.image is scene.image)
        assert isinstance(sheet, Noted)
        shown = [[shows(parts, place) for place in ends] for ends in sheet.led]
        assert all(start == end for start, end in shown), "dashes lead off the picture"
        for left, top, right, low, scale in parts:
            named = set()
            assert 0 <= left < right <= scene.image.width
            assert 0 <= top < low <= scene.image.height
            for words in sheet.words:
                inside = [
                    min(words[2], right) - max(words[0], left),
                    min(words[3], low) - max(words[1], top),
                ]
                if min(inside) <= 4:  # pixels, of an accent
                    continue
                size = words[2] - words[0], words[3] - words[1]
                assert inside[0] >= size[0] - 2, (words, (left, top, right, low))
                assert inside[1] >= size[1] - 6, (words, (left, top, right, low))
                assert sheet.letters * scale * NARROW / wide >= LEAST
                named.add(sheet.told[words])
            assert sides <= named


def shows(parts, place):
    """Say whether a place of a whole picture is in what a telephone shows of it."""
    x, y = place
    return any(left <= x <= right and top <= y <= low for left, top, right, low, _ in parts)


# What a telephone's part of the picture shows of what words point at: looked at as a PNG.
POINTED = {
    "03": {"length", "layers"},
    "05": {"section"},
    "06": {"spine"},
    "skin deep": {"sides"},
    "07": {"section"},
}


@pytest.mark.parametrize("key", [key for key, one in page.PAGES.items() if one.question])
def test_words_point_at_nothing_that_a_telephone_leaves_out(key):
    question = page.PAGES[key].question
    told = [
        *(one.answer for one in question.reasons),
        *(one.hint for one in question.tiles),
    ]
    at = re.findall(r"(?:[Ll]ook at|[Cc]ompare) (?:the|its) (?:two )?(\w+)", " ".join(told))
    assert set(at) <= POINTED.get(key, set())


def test_no_page_names_a_command():
    """Who reads it holds a telephone: the page is named."""
    piece, text = one_page()
    whole = re.sub(r"<(style|script).*?</\1>", "", text, flags=re.DOTALL)
    said = [
        whole,
        str(piece.told(QUALITY[-1])),
        *(text for card in CARDS for text in card.told()[:4]),
    ]
    for lesson in page.PAGES.values():
        said += [one for check in lesson.checks for one in (check.prompt, *check.tips)]
        if lesson.question:
            said += [one.answer for one in lesson.question.reasons]
            said += [one.hint for one in lesson.question.tiles]
    assert [found[0] for words in said for found in COMMAND.finditer(words)] == []


def looked_up(told, answer):
    """Find in a page's data what is said of an answer, as `check.js` does."""
    at = bisect([zone[0] for zone in told["zones"]], answer) - 1
    for zone in told["zones"][max(0, at - 1) : at + 1]:
        if zone[0] <= answer <= zone[1]:
            return told["says"][zone[2]]
    return told["else"]


def answers_to(check, dice):
    """Give answers of every kind: what is right, each slip, near them, mistaken units."""
    values = [check.answer(check.given), *check.slip_values(check.given).values()]
    kind = check.answers
    for value in filter(math.isfinite, values):
        yield from (value, *kind.rounded(value))
        wide = kind.tolerance(value) or 1e-6
        yield from (value + share * wide for share in (-1.01, -0.99, 0.5, 0.99, 1.01))
        for factor in kind.factors:
            yield from (value * factor, value / factor, 1.01 * value * factor)
    largest = max(map(abs, filter(math.isfinite, values)))
    yield from (dice.uniform(0, 2 * largest) for _ in range(60))
    yield from (0.0, -values[0], float(round(values[0])), float(math.ceil(values[0])))


@pytest.mark.parametrize(("key", "at"), ASKED, ids=str)
def test_a_page_judges_as_the_answer_engine(key, at):
    check = page.PAGES[key].checks[at]
    dice = random.Random(f"{key}{at}")  # noqa: S311  (no secret)
    for units in (Units.MM, Units.INCH_FRACTION):
        told = judging(check, units)
        for answer in answers_to(check, dice):
            found = check.judge(check.given, answer)
            said = looked_up(told, answer)
            assert (said["right"], said["code"]) == (found.earns, found.code), answer
            words = check.words(found, check.given, units=units)
            if not found.unit:  # there the page says again what was typed
                start = "" if found.earns else f"{NOT_YET} "
                assert start + said["words"] == words
                stood = check.words(found, check.given, units=units, stands=STANDS)
                assert found.earns or stood == f"{told['notThis']} {said['words']} {STANDS}"
        wrong = check.judge(check.given, 1.2345678e11)
        third = check.words(wrong, check.given, units=units, tries=EXAMPLE_FROM)
        assert third.endswith(f"\n{told['example']}")
        assert told["example"].startswith(EXAMPLE.strip())


@pytest.mark.parametrize("name", KINDS)
def test_what_a_page_offers_as_units_is_read_so(name):
    kind = KINDS[name]
    assert not kind.spelt or kind.spelt[kind.unit] == 1
    for unit, size in kind.spelt.items():
        assert kind.value(f"3.5 {unit}") == pytest.approx(3.5 * size)


def test_a_wrong_unit_is_told_with_what_was_typed():
    told = judging(page.PAGES["01"].checks[0], Units.MM)
    assert READ in next(one["words"] for one in told["says"] if one["code"] == "UNIT")
    assert dict(told["units"])["in"] == 25.4


def test_a_page_stands_alone_and_may_run_nothing_but_its_own_script():
    _, text = one_page()
    assert len(text.encode()) < page.MOST_BYTES
    assert not re.search(r'(?:src|href|action)="(?!data:|index\.html")', text)
    assert "@import" not in text
    assert "http://" not in text.replace("http://www.w3.org", "")
    policy = re.search(r'Security-Policy" content="(.+?)"', text)[1].replace("&#39;", "'")
    for kind in ("style", "script"):
        part = re.search(rf"<{kind}>(.*?)</{kind}>", text, re.DOTALL)[1]
        digest = base64.b64encode(hashlib.sha256(part.encode()).digest()).decode()
        assert f"{kind}-src 'sha256-{digest}'" in policy
    assert policy.startswith("default-src 'none'")
    body = text.partition("<body")[2].rpartition("<script>")[0]
    parted = re.findall(r"\d (?:mm|µm|in|\d+/\d+)\b(?! [a-z]+ )", body)
    assert "\u00a0mm" in body
    assert not parted, "no line ends between a number and its unit"


def test_a_page_says_how_its_figures_are_known():
    piece, text = one_page()
    beside = r'<p class="number">.*?</p>\s*<p class="small">(.*?)</p>'
    told = [marked(words) for words in re.findall(beside, text, re.DOTALL)]
    assert told == [{one.kind for one in card.claims} for card in cards_of(piece.lesson)]
    numbers = piece.lesson.scene(**piece.lesson.states()[-1]).numbers
    known = marked(re.search(r"How do you know\?</span> (.*?)</p>", text)[1])
    assert known >= {one.kind for number in numbers for one in number.claims}
    assert len(known) > 1


def test_a_page_says_how_its_sentences_are_known():
    """All but what is believed and wrong, and its cautions, which say who decides."""
    piece, text = one_page()
    told = piece.told(QUALITY[-1])
    listed = [says for says, _how in told["rests"]]
    claims = [c for c in gathered().values() if in_units(c.says, Units.MM) in listed]
    assert len(claims) == len(listed) > 1
    said = [card[one] for card in told["cards"] for one in ("breath", "answer")]
    said += [
        told["fine"],
        *(stop[one] for stop in told["stops"] for one in ("says", "alt")),
    ]
    said += [answer for _words, _right, answer in told["reasons"]]
    assert [one for words in said for one in untold(words, tuple(claims))] == []
    last = text.rpartition("<details>")[2]
    assert all(escape(kept(says)) in last for says in listed)


def test_words_are_escaped(monkeypatch):
    piece, _ = one_page()
    monkeypatch.setattr(piece.lesson, "title", "</script><b>&amp;")
    text = page.page(piece)
    assert "</script><b>" not in text
    assert "&lt;/script&gt;&lt;b&gt;&amp;amp;" in text


def test_a_wrong_tile_is_told_what_it_comes_from():
    for question in filter(None, (one.question for one in page.PAGES.values())):
        told = list(verdicts(question))
        for idea, words in zip(question.tiles, told, strict=True):
            assert words.startswith(question.observed)
            assert idea is question.right or idea.hint in words


def test_nothing_is_shown_before_the_prediction_that_gives_it_away():
    """The index, and a question that points at a picture, show the film's first."""
    lesson = page.PAGES["05"]  # its control begins where the answer is seen already
    piece = piece_of(lesson, values=few(lesson))
    assert piece.start == piece.asked
    assert piece.before.alt != piece.stops[piece.start].alt
    first = lesson.scene(**lesson.states()[0], letters=pieces.BIG_LETTERS)
    assert piece.before.alt.startswith(first.alt)


def test_too_large_a_page_is_refused_in_a_sentence(monkeypatch):
    piece, _ = one_page()
    monkeypatch.setattr(page, "MOST_BYTES", 1000)
    monkeypatch.setattr(page, "QUALITY", (20,))
    with pytest.raises(KitError, match="lesson 10 would be larger"):
        page.page(piece)


@pytest.mark.parametrize(
    "address",
    ["example.org", "file:///c/x", "javascript:alert(1)", "http://", "http://a b"],
)
def test_what_is_no_address_is_refused(address):
    with pytest.raises(KitError, match="begins with http"):
        page.checked(address)


def test_the_command_writes_pages_index_and_codes(tmp_path, monkeypatch, capsys):
    from kit.__main__ import main

    monkeypatch.setattr(page, "PAGES", {"10": page.PAGES["10"]})
    monkeypatch.setattr(pieces, "stops_of", few)
    out = tmp_path / "phone"
    typed = ["pages", "--out", str(out), "--address", "https://example.org/steel"]
    assert main(typed) == 0
    assert "2 pages" in capsys.readouterr().out
    names = {path.name for path in out.iterdir()}
    assert names == {"lesson-10.html", page.INDEX, page.CODES}
    assert 'href="lesson-10.html"' in (out / page.INDEX).read_text("utf-8")
    assert "From the rack to the bar" in PdfReader(out / page.CODES).pages[0].extract_text()
    assert main([*typed[:-1], "ftp://x"]) == 1
    assert main(["pages", "--out", str(tmp_path / "no" / "no")]) == 1
    (tmp_path / "file").write_text("")
    assert main(["pages", "--out", str(tmp_path / "file")]) == 1
    assert capsys.readouterr().err.count("\n") == 3


def test_the_print_room_packs_them_into_one_file(tmp_path, monkeypatch):
    monkeypatch.setattr(page, "PAGES", {"10": page.PAGES["10"]})
    monkeypatch.setattr(pieces, "stops_of", few)
    made = telephones()._make("", 0, 1, 0)(tmp_path / "lessons.zip", lambda _share: None)
    with ZipFile(made) as packed:
        assert packed.namelist() == ["lessons/lesson-10.html", "lessons/index.html"]
        assert "38.1 mm" not in packed.read("lessons/lesson-10.html").decode()


def test_all_codes_are_on_the_sheets(tmp_path):
    path = page.codes(tmp_path / "codes.pdf", page.checked("https://example.org/s"))
    said = "".join(sheet.extract_text() for sheet in PdfReader(path).pages)
    for lesson in page.PAGES.values():
        assert lesson.title.split()[-1] in said

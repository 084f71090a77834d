"""Whatever a lesson says is in the reader's units: in inches no mm, and the other way."""

import itertools
import math
import random
import re
from functools import lru_cache

import pytest

from kit.basics.errors import KitError
from kit.basics.told import in_units, said
from kit.basics.typed import parse_length
from kit.basics.units import Units
from kit.classroom.homework.paper import draw
from kit.classroom.homework.sets import SETS
from kit.course.answers import KINDS as ANSWERS
from kit.course.lessons import scene
from kit.course.map import LESSONS
from kit.course.views.settings import Pick
from kit.section.half import half_as_fine
from kit.section.picture import Sheet
from tests.lessons import KNOWN, see_once
from tests.test_lesson_laws import begun, ends, forget

NAMES = [lesson.__name__ for lesson in LESSONS.values()]
INCHES = (Units.INCH_FRACTION, Units.INCH_DECIMAL)
METRIC = re.compile(
    r"(?:\d|\bin) ?(?:mm|µm|nm|m)\b(?!\)²)|\b(?:milli|micro|nano)met|[\d.] ?[cm]m[²³]"
    r"|\d (?:k?g|grams)\b|g/[cm]m³"
)
# "in" is a small word, too: only what can be nothing but a length
INCH = re.compile(
    r"(?:\d+/\d+|\d+\.\d+) in\b(?! (?:a|the|every|one|its|all|turn)\b)|\binch"
)
BOTH = re.compile(
    r"[\d.]+ mm \([^()]* in\)|[\d/.]+ in \([^()]* mm\)"
    r"|[\d.]+ (?:oz|lb) \([\d,.]+ (?:k?g|grams)\)"
)
_MORE = r"(?: (?:×|by|to|and|or) [\d ./]+)* in\b"  # 1/8 × 1 1/2 × 4 in
FRACTION = re.compile(rf"\d/\d+(?={_MORE})")
DECIMAL = re.compile(rf"\d\.\d+(?={_MORE})")
AMOUNT = re.compile(r"(?<![\w.])\d+(?:\.\d+)? (mm|µm|nm)\b")
FAR = re.compile(r"(?<![\w.,])(?:\d{4,}|\d{1,3}(?:,\d{3})+)(?:\.\d+)? ?mm\b")
NO_COMMA = re.compile(r"(?<![\d.,])(?<!EN )(?!52100)[1-9]\d{4,}(?![\d.])")
SUMS = ("working", "verdict")  # a sum stays in one unit from line to line
# A bar's three sides, and a cut list, share a unit, as a drawing's do: the law below this.
BARS = {"DrawLesson", "PlanLesson"}


def states(name):
    """Give states of a lesson: as it begins, each control at its ends, some at random."""
    kind, dice = KNOWN[name], random.Random(name)  # noqa: S311  (no secret)
    found = [begun(name)]
    for setting in kind.settings:
        found += [{**begun(name), setting.key: end} for end in ends(setting)]
    for _ in range(6):
        found.append(
            {one.key: dice.choice((*ends(one), one.start)) for one in kind.settings}
        )
    for state in found:
        yield kind.job.fitted(state, Units.MM)[0].values


@lru_cache
def drawn_in_all(name):
    """Draw every state in all units, one after the other: they see the same steel."""
    found = {units: (set(), []) for units in Units}
    with pytest.MonkeyPatch.context() as patch, half_as_fine():  # what is written is whole
        seen = see_once(patch)
        for state in states(name):
            seen.clear()
            for units, (texts, workings) in found.items():
                forget(scene.__name__)  # a drawing that is kept has words, too
                _draw(KNOWN[name], state, units, texts, workings)
    return found


def drawn(name, units):
    """Give what a lesson's scenes say, all that is written in them, and the workings."""
    return drawn_in_all(name)[units]


def _draw(kind, state, units, texts, workings):
    write = Sheet.text

    def kept(sheet, words, *more, **how):
        texts.add(("picture", words))
        write(sheet, words, *more, **how)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Sheet, "text", kept)
        shown, job = kind.scene(**state, units=units), kind.job(**state)
    texts |= {("alt", shown.alt), ("says", shown.says)}
    for number in shown.numbers:
        workings.append(number.working)
        texts |= {("number", number.name), ("number", number.value)}
        texts |= {("working", line) for line in number.working}
    texts |= {("remark", job.remarked(one.key, units)) for one in kind.settings}


def refused(kind, state, units):
    """Give the sentence with which a state is refused, or nothing."""
    try:
        kind.job.asked(state, units)
    except KitError as refused:
        return str(refused)
    return ""


def refusals(name, units):
    """Give the sentences with which values that do not go together are refused."""
    kind = KNOWN[name]
    for one, other in itertools.combinations(kind.settings, 2):
        for low, high in itertools.product(ends(one), ends(other)):
            state = {**begun(name), one.key: low, other.key: high}
            yield "refusal", refused(kind, state, units)


def labels(name, units):
    """Give names, helps and choices of the controls."""
    for setting in KNOWN[name].settings:
        yield "label", setting.label
        if isinstance(setting, Pick):
            for option in setting.options:
                yield "option", option
        else:
            yield "help", setting.help
            yield "readout", setting.show(setting.high, units)


def asked(key, units):
    """Give what a lesson asks and answers, as its page tells it."""
    lesson = LESSONS[key]
    told = [("fine", lesson.fine)]
    if lesson.question:
        question = lesson.question
        told += [("ask", question.ask), ("observed", question.observed)]
        told += [("tile", question.show(value)) for value in question.values()]
        told += [("tile alt", question.draw(value)[1]) for value in question.values()]
        told += [("reason", one) for r in question.reasons for one in (r.words, r.answer)]
        told += [("hint", f"{idea.name} {idea.hint}") for idea in question.tiles]
    for check in lesson.checks:
        told += [("check", check.ask), *(("tip", tip) for tip in check.tips)]
        told += [("working", line) for line in check.working(check.other)]
        told += [("hint", f"{idea.name} {idea.hint}") for idea in check.slips]
        told += [("offer", offer) for offer in check.offers(units)]
        for tries, offer in itertools.product((1, 2, 3), check.offers(units)):
            told.append(("verdict", check.mark(offer, tries=tries, units=units).words))
    return [(where, in_units(words, units)) for where, words in told]


def wrong(texts, units):
    """Give what is not in these units, or has its thousands without a comma.

    An offer may be typed, where a comma is a decimal one: 12,345 is a dozen and a bit.
    """
    sign = INCH if units is Units.MM else METRIC
    return sorted(
        {
            (where, words)
            for where, words in texts
            if sign.search(BOTH.sub("", words))
            or (where != "offer" and NO_COMMA.search(words))
        }
    )


def mixed(texts):
    """Give the sentences that write some inches as fractions and some as decimals."""
    found = {
        (where, sentence)
        for where, words in texts
        for sentence in re.split(r"(?<=[.!?])\s+", words)
        if FRACTION.search(sentence) and DECIMAL.search(sentence)
    }
    return sorted(found)


SIGNS = {"×": "*", "^": "**", "°": "*math.pi/180", "sin": "math.sin", "tan": "math.tan"}


def worked_out(words):
    """Work out one side of a working in its own units, or give None if it is words."""
    if not re.search(r"\d", words) or re.search(
        r"[a-z]{3,}|[%,;:²…]|m²", words.replace("sin", "").replace("tan", "")
    ):
        return None
    bare = re.sub(r"(\d+) (\d+/\d+) in", r"(\1+\2)", words)
    bare = re.sub(r"(?<![\d.])(\d+/\d+) in", r"(\1)", bare)
    bare = bare.replace(" µm", "*1e-3").replace(" nm", "*1e-6")
    bare = re.sub(r"\s*\b(in|mm)\b", "", bare)
    bare = bare.replace("2 pi", "2*math.pi")
    for sign, word in SIGNS.items():
        bare = bare.replace(sign, word)
    try:
        return float(eval(bare.strip(), {"math": math}))  # noqa: S307  (our own text)
    except (SyntaxError, NameError, ZeroDivisionError, TypeError):
        return None


def sums(lines):
    """Give neighbours that a working sets equal: both sides of each = that are sums."""
    before = None
    for line in lines:
        parts = line.split("=")
        first = line.strip().startswith("=")
        found = [worked_out(part) for part in parts[1 if first else 0 :]]
        chain = ([before] if first else []) + found
        for one, other in itertools.pairwise(chain):
            if one is not None and other is not None:
                yield line, one, other
        before = found[-1] if found else None


def listed(found):
    """Write what was found, for the one who is to mend it."""
    return "\n".join(f"{where}: {words}" for where, words in found)


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("name", NAMES)
def test_scenes_and_refusals_are_in_the_readers_units(name, units):
    texts = [*drawn(name, units)[0], *refusals(name, units), *labels(name, units)]
    found = wrong(texts, units)
    assert not found, listed(found)


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("key", LESSONS)
def test_prediction_and_checks_are_in_the_readers_units(key, units):
    found = wrong(asked(key, units), units)
    assert not found, listed(found)


@pytest.mark.parametrize("name", NAMES)
def test_no_sentence_of_a_scene_writes_inches_in_two_ways(name):
    """What is measured is a decimal, what is bought or marked out may be a fraction."""
    texts, workings = drawn(name, Units.INCH_FRACTION)
    whole = [("working", "\n".join(lines)) for lines in workings]
    found = mixed([*texts, *whole, *refusals(name, Units.INCH_FRACTION)])
    assert not found, listed(found)


@pytest.mark.parametrize("key", LESSONS)
def test_no_question_writes_inches_in_two_ways(key):
    found = mixed(asked(key, Units.INCH_FRACTION))
    assert not found, listed(found)


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("key", LESSONS)
def test_tiles_and_offers_stay_apart_in_any_units(key, units):
    texts = asked(key, units)
    tiles = [words for where, words in texts if where == "tile"]
    assert len(set(tiles)) == len(tiles)


@pytest.mark.parametrize("name", NAMES)
def test_one_text_does_not_change_between_mm_and_microns(name):
    """Lengths within three decades of one another are told in one unit."""
    found = []
    for where, words in drawn(name, Units.MM)[0]:
        told = [(one[1], parse_length(one[0])) for one in AMOUNT.finditer(words)]
        pairs = itertools.combinations([one for one in told if one[1]], 2)
        if any(a[0] != b[0] and 1e-3 < a[1] / b[1] < 1e3 for a, b in pairs):
            found.append((where, words))
    assert not found, listed(sorted(found))


@pytest.mark.parametrize("key", LESSONS)
def test_no_sentence_says_in_mm_what_people_say_in_metres(key):
    """Nobody stands 3000 mm away."""
    name, mm = LESSONS[key].__name__, Units.MM
    texts = {*drawn(name, mm)[0], *refusals(name, mm), *labels(name, mm), *asked(key, mm)}
    found = [(at, words) for at, words in texts if at not in SUMS and FAR.search(words)]
    assert bool(found) == (name in BARS), listed(sorted(found))


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("key", LESSONS)
def test_a_working_comes_out_in_the_readers_units(key, units):
    """A length left without its unit would stay in mm among inches."""
    workings = [check.working(check.other) for check in LESSONS[key].checks]
    workings = [[in_units(line, units) for line in lines] for lines in workings]
    for lines in [*workings, *drawn(LESSONS[key].__name__, units)[1]]:
        for line, one, other in sums(lines):
            slack = 0.006 + 0.02 * max(abs(one), abs(other))
            assert abs(one - other) <= slack, (lines, line, one, other)


def test_what_gives_both_is_told_in_one():
    words = (
        "20 mm (25/32 in) long, 4 to 8 mm (5/32 to 5/16 in), 57.6 cm³ (3.5 in³), or 2 mm"
    )
    told = "25/32 in long, 5/32 to 5/16 in, 3.5 in³, or 5/64 in"
    assert in_units(f"{words}, or 5/64 in", Units.INCH_FRACTION) == told
    assert in_units("20 mm (25/32 in) of 0.1 mm", Units.INCH_FRACTION) == (
        "0.787 in of 0.00394 in"
    )
    assert in_units("104 g (3.7 oz)", Units.INCH_DECIMAL) == "3.7 oz (104 g)"


def test_lengths_that_share_a_unit_are_told_one_by_one():
    inch = Units.INCH_DECIMAL
    assert in_units("4.2, 3.6 and 5 mm", inch) == "0.165 in, 0.142 in and 0.197 in"
    assert in_units("8 × 4 × 2 mm", inch) == "0.315 in × 0.157 in × 0.079 in"
    assert in_units("2 × 25.4 mm", inch) == "2 × 1.000 in"
    assert in_units("2 × 25.4 mm (2 × 1 in), thin", inch) == "2 × 1 in, thin"
    assert (
        in_units("P800, 3 layers, 5 layers/cm², 25 °C", inch)
        == "P800, 3 layers, 5 layers/cm², 25 °C"
    )
    assert in_units("1,234 mm³ of 16,387.064 mm³", inch) == "0.0753 in³ of 1 in³"


@pytest.mark.parametrize("units", INCHES)
@pytest.mark.parametrize("mm", [0.00001, 0.0016, 0.05, 0.25, 0.4, 3.175, 6.92, 12.7, 300])
def test_what_is_told_may_be_reckoned_with(mm, units):
    told = in_units(f"It is {mm:f} mm thick.", units)
    length = re.search(r"It is (.* in) thick", told)[1]
    assert parse_length(length) == pytest.approx(mm, rel=5.5e-3)
    assert parse_length(said(mm, units)) == pytest.approx(mm, rel=5.5e-3)


def as_told(values, asked, units):
    """Give values as a reader has them whose lengths are told in other units."""
    told = dict(values)
    for name, value in values.items():
        if isinstance(value, float) and re.search(rf"(?<![\d.]){said(value)}", asked):
            told[name] = parse_length(in_units(said(value), units))
    return told


@pytest.mark.parametrize("units", INCHES)
@pytest.mark.parametrize("key", LESSONS)
def test_who_reckons_with_a_checks_inches_is_right(key, units):
    for check in LESSONS[key].checks:
        right = check.right.value(check.given)
        told = as_told(check.given, in_units(check.ask, Units.MM), units)
        assert ANSWERS[check.kind].is_answer(check.right.value(told), right), check.ask


@pytest.mark.parametrize("units", INCHES)
@pytest.mark.parametrize("code", SETS)
def test_who_reckons_with_a_papers_inches_is_right(code, units):
    """Whoever works a part out right with what stands on the paper has its mark."""
    for number in range(150):
        paper = draw(SETS[code], "FORGE-A", f"Student {number}")
        for part in paper.homework.parts:
            if part.options:
                continue
            told = as_told(paper.values, part.ask(paper.values), units)
            right, found = (
                part.right.value(part.picked(given)) for given in (paper.values, told)
            )
            assert ANSWERS[part.kind].is_answer(found, right), (number, part.number, told)

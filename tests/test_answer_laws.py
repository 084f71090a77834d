"""Laws over every question with a number: lessons' checks, homework's parts, the quiz."""

import hashlib
import importlib
import itertools
import json
import math
import pkgutil
import re

import pytest

import kit.course.lessons
from kit.basics.errors import KitError
from kit.basics.told import in_units, said
from kit.basics.typed import MM_PER_INCH, parse_length
from kit.basics.units import Units
from kit.classroom.homework.paper import draw
from kit.classroom.homework.quiz_items import ITEMS, RIGHT
from kit.classroom.homework.sets import SETS
from kit.course.answers import BLANK, KINDS, filled
from kit.course.check import LANES, STANDS, UNIT, Check, Own
from kit.course.map import LESSONS
from tests.all_at_once import for_all
from tests.test_workings import MOST_PLACES, sums, too_long

NAMES = 200  # papers a set
UNITS_SAID = ("mm", "m", "µm", "°", "min", "g", "°C", "°F", "%")


CHECKS = {
    f"{key} {place}": check
    for key, lesson in LESSONS.items()
    for place, check in enumerate(lesson.checks)
}
PARTS = {f"{code} {one.number}": (code, one) for code in SETS for one in SETS[code].parts}
each = pytest.mark.parametrize("name", [*CHECKS, *PARTS])
each_check = pytest.mark.parametrize("name", CHECKS)


@pytest.fixture(scope="module")
def papers():
    return {
        code: [
            draw(SETS[code], "FORGE-A", f"Invented {one}").values for one in range(NAMES)
        ]
        for code in SETS
    }


def asked(name, papers, most=NAMES):
    """Give a question, and the values it is asked with."""
    if name in CHECKS:
        return CHECKS[name], [CHECKS[name].given]
    code, part = PARTS[name]
    return part, papers[code][:most]


def test_no_check_is_left_out():
    """Whatever check a lesson's file has stands on some lesson's page."""
    asked_somewhere = [id(check) for check in CHECKS.values()]
    for module in pkgutil.iter_modules(kit.course.lessons.__path__, "kit.course.lessons."):
        for name, value in vars(importlib.import_module(module.name)).items():
            assert not isinstance(value, Check) or id(value) in asked_somewhere, name


@each
def test_what_the_kit_writes_it_accepts(name, papers):
    """The key's own answer, typed back on a page in any units; and each slip's number."""
    question, given = asked(name, papers)
    worked = [(one, question.answer(one), question.slip_values(one)) for one in given]
    for (values, right, wrong), units in itertools.product(worked, Units):
        text = str(int(right)) if question.options else question.written(right, units)
        assert question.marked(values, text, units=units).right, (values, text)
        for idea in question.slips:
            value = wrong[idea.code]
            if not math.isfinite(value) or question.options:
                continue
            text = question.written(value, units)
            if len(text) <= 40 and not question.answers.is_written(
                question.read(text), right
            ):
                found = question.marked(values, text, units=units).found
                assert not found.earns, (values, idea.code, text)
                assert idea in found.ideas, (values, idea.code, text, found)


@each
def test_a_coarse_guess_is_not_taken_for_a_rounded_answer(name, papers):
    """Only the value's own rounding counts, and it is never more than 5 % off."""
    question, given = asked(name, papers, 20)
    if not question.is_length:
        return
    for values in given:
        right = question.answer(values)
        for text in ("0", "0 in", "0.0 in", "0.1 in", "1 in", "1/64 in", "1/4 in", "1"):
            answer = parse_length(text)
            if abs(answer / right - 1) > 0.05:
                assert not question.marked(values, text).right
        steps = [1 / 64, 1 / 32, 0.1, 0.01, 0.001]
        for inches in (step * round(right / MM_PER_INCH / step) for step in steps):
            if question.marked(values, f"{inches:.6f} in").right:
                assert inches * MM_PER_INCH == pytest.approx(right, rel=0.05)


@each
def test_the_worked_example_is_never_the_questions_own(name, papers):
    """Not its answer, and no result on a line that is shown."""
    question, given = asked(name, papers)
    *_, last, _ = question.working(question.other)
    found = re.search(r"= ([\d.,]*\d)[^\d=]*$", last)
    numbers = [float(found[1].replace(",", ""))] if found else []
    for values in given:
        right = question.answer(values)
        assert question.tells_apart(values), values
        for number in numbers:
            assert not question.answers.is_answer(number, right), (values, last, right)
            if question.answers is KINDS["count"]:
                assert int(number) != right, (values, last, right)


@each
def test_the_working_comes_out_at_the_answer(name, papers):
    """Its last line, which a student fills in and an answer sheet prints, is accepted."""
    question, given = asked(name, papers)
    if question.options:
        return
    for values in given:
        picked = question.picked(values)
        for line, places in sums(question.working(picked)):
            assert places < MOST_PLACES, (values, line)
        last = question.working(picked)[-1].removesuffix(" to 1")
        figures, unit = re.findall(r"(\d[\d,]*\.?\d*)\s*([^\d\s.,]*)", last)[-1]
        text = f"{figures.replace(',', '')} {unit if unit in UNITS_SAID else ''}"
        assert question.marked(values, text).right, (values, last, text)


@each
def test_no_answer_is_told_in_more_figures_than_a_person_reads(name, papers):
    question, given = asked(name, papers, 20)
    for values, units in itertools.product(given, Units):
        for value in (question.answer(values), *question.slip_values(values).values()):
            if math.isfinite(value):
                told = in_units(question.written(value, units), units)
                assert not too_long(told), told


@pytest.mark.parametrize("key", [key for key, one in LESSONS.items() if one.question])
def test_no_tile_is_told_in_more_figures_than_a_person_reads(key):
    question = LESSONS[key].question
    for units in Units:
        told = in_units(" ".join(map(question.show, question.values())), units)
        assert not too_long(told), told


@each_check
def test_a_check_is_fit_to_be_asked(name):
    check = CHECKS[name]
    assert check.tells_apart(check.given)
    offers = check.offers()
    assert len(set(offers)) == len(offers)
    assert [check.mark(offer).right for offer in offers].count(True) == 1
    assert len(list(filter(None, check.tips))) == 3


# what an answer is sought by, and nothing that the bench begins with
SOUGHT = {"times", "goal", "limit", "band"}
BY_HAND = re.compile(r"\b([Pp]aper|cards|[Dd]raw|drawing|[Cc]ut the core|[Ll]esson)\b")


@pytest.mark.parametrize("lane", ["Look", "Measure"])
@each_check
def test_who_looks_or_measures_is_told_to_set_what_the_bench_does_not_show(name, lane):
    """The picture beside these lanes is the bench's: of whatever stands there."""
    check, tip = CHECKS[name], CHECKS[name].tips[LANES.index(lane)]
    begun = set(LESSONS[name.rpartition(" ")[0]].begun().values())
    named = {float(figures) for figures in re.findall(r"\d+\.?\d*", tip)}
    given = {value for key, value in check.given.items() if key not in SOUGHT}
    told = re.search(r"\bset\b", tip, re.IGNORECASE) or BY_HAND.search(tip)
    assert told or "on the bench" in check.ask or given <= begun | named, tip


# How a question's own bar is set on the bench, and what is read there.
BLADE = {"spine": 5, "edge": 0.5, "height": 36, "layers": 83}
CORED = {
    "left": 1.5,
    "core": 1.5,
    "right": 1.5,
    "thickness": 4.5,
    "edge": 0.5,
    "height": 30,
}
DRAWN = {"length": 160, "width": 40, "start": 36, "thickness": 12, "spread": 0, "loss": 10}
TWISTED = {"across": 20, "turn": 80}
READ = {
    "01 0": ({"thickness": 2, "angle": 25}, "Band width on the cut: (.*)"),
    "02 0": ({"pieces": 9, "folds": 5}, r"Layers \(.*\): (.*)"),
    "02 1": ({"pieces": 9, "folds": 5}, r"Bands \(.*\): (.*)"),
    "weld 0": ({"folds": 5}, "The bad one, on this end: (.*) lines"),
    "03 0": (DRAWN, "Length.*→ (.*)"),
    "03 1": (DRAWN, "the dot is (.*) times as long as high"),
    "03 2": ({"start": 32, "thickness": 16, "spread": 0}, "Line at 45°: (.*)"),
    "04 0": (TWISTED, "Line angle on the middle line: (.*)"),
    "04 1": ({**TWISTED, "ground": 5}, "Line angle on the middle line: (.*)"),
    "06 0": (BLADE, r"Lines on each side: (\d+)"),
    "06 1": (BLADE, "Line spacing on the bevel: (.*)"),
    "07 0": (CORED, "Line left / right: (.*) /"),
    "07 1": (CORED, "Largest permissible offset: (.*)"),
    "07 2": ({**CORED, "off": 0.35}, "Line left / right: (.*) /"),
    "08 0": ({"layer": 0.5}, "Carbon even in: (.*)"),
    "08 2": ({"celsius": 1000}, "Carbon even in: (.*)"),
    "11 0": ({"start": 0, "end": 18, "lean": 42}, "lies above the axis: (.*)"),
    "bought 0": ({"spine": 3.5, "skin": 0.4}, "Buy (.*?) (?:to|or)"),
    "bought 1": ({"layers": 40, "edge": 0.6}, "Buy .* to (.*?):"),
}


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("name", READ)
def test_what_the_bench_says_of_a_questions_own_bar_is_right(name, units):
    """A reader set it, read "to 6.8 mm", typed that, and was told: Not yet."""
    check, (state, words) = CHECKS[name], READ[name]
    scene = LESSONS[name.rpartition(" ")[0]].scene(units=units, **state)
    told = [f"{one.name}: {one.value}" for one in scene.numbers]
    found = next(filter(None, (re.search(words, one) for one in [scene.says, *told])))[1]
    answer, offers = check.read(found, units), check.offers(units)
    nearest = min(offers, key=lambda one: abs(check.read(one, units) - answer))
    assert check.mark(nearest, units=units).right, (found, offers)
    if units is Units.MM:  # in inches a bar is bought in whole 1/32
        assert check.mark(found).right, found


@each_check
def test_what_a_tip_says_counts_counts(name):
    """As near as a lane says is near enough, an answer typed in that lane is right."""
    check = CHECKS[name]
    right = check.answer(check.given)
    for lane, tip in zip(LANES, check.tips, strict=True):
        for share in re.findall(r"within (\d+) % counts", tip):
            for off in (1 - int(share) / 101, 1 + int(share) / 101):
                found = check.judge(check.given, right * off, measured=lane == "Measure")
                assert found.earns, (lane, tip, right * off)


HOW_MANY_TIMES = re.compile(r"(?i)how many times (as|longer|thinner|wider|higher)\b")


@each
def test_a_ratio_is_read_as_people_write_one(name, papers):
    question, given = asked(name, papers, 1)
    ask = question.ask if name in CHECKS else filled(question.ask, given[0])
    ratio = question.answers is KINDS["ratio"]
    assert ratio or not HOW_MANY_TIMES.search(ask), ask
    if ratio:
        written = question.written(question.answer(given[0]))
        for text in ("{}x", "{} x", "x{}", "× {}", "{}×", "{} times", "{} : 1", "{} X"):
            assert question.marked(given[0], text.format(written)).right, text
        for text in ("x", "times", "x2x", "2 timesx", "x x 2"):
            with pytest.raises(KitError, match=r"Give .*such as \d"):
                question.read(text)


@each
def test_a_known_slip_is_named_whatever_the_try(name, papers):
    question, given = asked(name, papers, 20)
    for values in given:
        for idea in question.slips:
            value = question.slip_values(values)[idea.code]
            if not math.isfinite(value):
                continue
            for tries in range(1, 6):
                found = question.judge(values, value)
                words = question.words(found, values, tries=tries)
                assert f"what you get if you {idea.name}" in words or (
                    len(found.ideas) > 1 and idea.name in words
                )
                assert (BLANK in words) == (tries >= 3)


@each
def test_right_figures_in_a_wrong_unit_are_told_at_once(name, papers):
    question, given = asked(name, papers, 20)
    for values, factor in itertools.product(given, question.answers.factors):
        for answer in (question.answer(values) * factor, question.answer(values) / factor):
            found = question.judge(values, answer)
            assert not found.earns
            if not found.ideas:
                assert found.code == UNIT
                assert "look at the unit" in question.words(found, values, tries=1)


@pytest.mark.parametrize("unit", ["", "cm", "m", "µm", "in", "thou"])
@pytest.mark.parametrize("page", [Units.MM, Units.INCH_DECIMAL])
def test_millimetres_under_any_other_name_are_a_wrong_unit(unit, page):
    """Figures of mm, with another unit behind them or on a page in inches."""
    check = next(one for one in CHECKS.values() if one.ask.startswith("Layers 2.0 mm"))
    verdict = check.mark(f"4.73 {unit}", units=page)
    assert (verdict.right, verdict.found.code) in {(True, ""), (False, UNIT)}
    assert verdict.right == (unit == "" and page is Units.MM)


@each
def test_nothing_is_said_of_slips_that_it_is_not(name, papers):
    """An answer that no idea gives: asked back, then seen, then an example."""
    question, given = asked(name, papers, 5)
    if question.options:
        return
    for values in given:
        answer = 3.7 * question.answer(values) + 11
        while (found := question.judge(values, answer)).code or found.earns:
            answer += 7.3
        first, second, third = (
            question.words(found, values, tries=tries) for tries in (1, 2, 3)
        )
        assert first == f"Not yet. {question.prompt}"
        assert second.endswith(question.prompt)
        assert third.startswith(second)
        assert BLANK in third
        assert "none of the usual" not in third
        assert STANDS in question.words(found, values, tries=2, stands=STANDS)


LENGTHS = {  # of what is given in a set, in mm
    "H1": "T t",
    "H2": "L T t d p q stretch",
    "H3": "D t S E H c d",
    "H4": "thick_a thick_b layer distance",
    "H5": "thick_a thick_b length width thickness crop kerf grind s q",
}


@pytest.mark.parametrize("code", SETS)
def test_working_from_what_the_question_says_is_right(code, papers):
    """Its given lengths are rounded where it is asked in inches; that does no harm."""
    for values in papers[code]:
        read = dict(values)
        for key in LENGTHS[code].split():
            read[key] = parse_length(said(values[key], Units.INCH_DECIMAL))
        answers = {part.number: part.answer(read) for part in SETS[code].parts}
        for part in SETS[code].parts:
            own = Own(answers[part.carry.part], True) if part.carry else None
            found = part.judge(values, answers[part.number], own=own)
            assert found.outcome == "right", (values, part.number, answers)


@pytest.mark.parametrize("code", SETS)
def test_one_code_is_one_idea_within_a_set(code):
    """A teacher's table and the key tell ideas by their code."""
    names = {}
    for part in SETS[code].parts:
        codes = [idea.code for idea in part.slips]
        assert len(set(codes)) == len(codes)
        for idea in part.slips:
            assert names.setdefault(idea.code, idea.name) == idea.name, part.number


@pytest.mark.parametrize("item", ITEMS, ids=lambda item: item.name)
def test_the_quiz_reads_as_homework_does(item):
    """What it offers it codes, in every spelling that a homework's count may have."""
    for place, option in enumerate(item.options, 1):
        number = int(option.words) if item.given else place
        for text in (f"{number}", f" {number} ", f"{number}.0", number):
            assert item.code(text) == option.code
    right = [option for option in item.options if option.code == RIGHT]
    assert len(right) == 1
    for text in ("", "abc", "9" * 400, None, "1.5", "-3"):
        assert item.code(text) == ""


DRAWN = {
    "H1": "eddfbb7490f536e3",
    "H2": "216b1bd7739b36c9",
    "H3": "52acbfea899916c9",
    "H4": "d34b175a17f1e011",
    "H5": "4177432381c23209",
}


@pytest.mark.parametrize("code", SETS)
def test_papers_are_those_that_were_handed_out(code, papers):
    """An old hand-in's paper is drawn again: whatever moves its values spoils its marks."""
    text = json.dumps(papers[code], sort_keys=True)
    assert hashlib.sha256(text.encode()).hexdigest()[:16] == DRAWN[code]


@for_all(itertools.product(KINDS, ["50 stone", "abc", "--3", "½½", "3/0", "nan", "50 %%"]))
def test_what_cannot_be_read_is_told_with_what_is_allowed(kind, typed):
    with pytest.raises(KitError) as refused:
        KINDS[kind].value(typed)
    assert repr(typed) in str(refused.value)
    assert re.search(r"\bGive .*such as \d|asked for in °", str(refused.value))

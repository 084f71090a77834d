"""What people type: good, odd and hostile; hints by cause; carried marks."""

from itertools import product

import pytest

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.classroom.homework.paper import Paper, draw
from kit.classroom.homework.sets import SETS
from kit.classroom.homework.sitting import KEPT, Sitting
from kit.course.answers import COUNT, LENGTH
from kit.course.check import CARRIED, RIGHT, WRONG, Own
from tests.all_at_once import for_all
from tests.test_homework_sample import SAMPLES

HUGE = "9" * 10**7  # a number of ten million figures; as many as memory allows do the same
BAD = [
    "", "   ", "lots", "twelve", "1e999999", "1e99", HUGE, HUGE + " mm", "٣٤ mm", "0x10",
    "1/0", "3/0 in", "nan", "inf", "-", "+", "1..2", "1,2,3", "4 furlongs", "=1+1",
    "__import__('os')", "\x00", "1\n2", "½½", "π", None, True, [], {}, b"4", object(),
    float("nan"), float("inf"), 10**400, -(10**400), 1e300, 2 + 1j,
]  # fmt: skip


def sample(code):
    return Paper(
        homework=SETS[code],
        course="FORGE-A",
        student="Student One",
        redraw=0,
        values=SAMPLES[code],
        attempts=0,
    )


def told(code, number, text, **how):
    return SETS[code].part(number).marked(SAMPLES[code], text, **how)


@for_all(product(SETS, BAD))
def test_bad_text_gives_one_sentence_and_no_try(code, text):
    sitting = Sitting(draw(SETS[code], "FORGE-A", "Student One"))
    for part in SETS[code].parts:
        with pytest.raises(KitError) as refused:
            sitting.answer(part.number, text)
        words = str(refused.value)
        assert words.endswith(".")
        assert "\n" not in words
        assert len(words) < 300
    assert sitting.tries == []
    assert sitting.results == {}


def test_a_number_too_long_for_python_to_write_is_refused():
    """`str()` of an integer with more than 4,300 figures is an error in Python itself."""
    with pytest.raises(KitError, match="too large"):
        COUNT.value(10**5000)
    with pytest.raises(KitError, match="too large"):
        LENGTH.value("999999999999999 m")


@pytest.mark.parametrize(
    ("code", "number", "text"),
    [
        ("H1", 1, "704"),
        ("H1", 1, "704 layers"),
        ("H1", 1, 704),
        ("H1", 3, "6.39"),
        ("H1", 3, "6,39 µm"),
        ("H1", 3, "0.00639 mm"),
        ("H1", 3, "0.00025164 in"),
        ("H1", 5, "6"),
        ("H1", 5, "6,0 mm"),
        ("H1", 5, "0.6 cm"),
        ("H1", 5, "15/64 in"),  # 5.95 mm
        ("H2", 1, "31.54 cm"),
        ("H2", 2, "4.59 : 1"),
        ("H2", 2, "4.6 to 1"),
        ("H2", 3, "35.7°"),
        ("H2", 3, "0.6228 rad"),
        ("H3", 3, "28"),
        ("H3", 3, "26"),
        ("H4", 1, "1177 °C"),
        ("H4", 1, "1176.7"),
        ("H4", 2, "54 °F"),
        ("H4", 3, "0.6 %"),
        ("H4", 3, "0.60"),
        ("H4", 4, "2.4"),
        ("H4", 4, "143 s"),
        ("H4", 5, "145 µm"),
    ],
)
def test_the_same_right_answer_in_many_ways(code, number, text):
    assert told(code, number, text).found.outcome == RIGHT


@pytest.mark.parametrize(
    ("code", "number", "text", "slip"),
    [
        ("H1", 5, "152", "UNIT"),  # 6.0 × 25.4
        ("H1", 5, "0.236", "UNIT"),  # 6.0 / 25.4
        ("H2", 1, "0.3154", "UNIT"),  # metres
        ("H2", 3, "0.62", "RADIANS"),
        ("H2", 4, "0.494", "UNIT"),
        ("H3", 2, "333", "UNIT"),
        ("H4", 3, "0.006", "UNIT"),
        ("H4", 4, "142.7", "SECONDS"),
        ("H1", 3, "0.0064", "UNIT_MM"),
    ],
)
def test_unit_slips(code, number, text, slip):
    assert told(code, number, text).found.code == slip
    if slip == "UNIT":
        assert "look at the unit" in told(code, number, text).words


def test_the_question_itself_is_no_answer():
    """2150 °F is what was given; in °C it is asked for. The same with a step."""
    for number, text in ((1, "2150 °F"), (1, "2150 F"), (2, "30 °C"), (2, "30C")):
        with pytest.raises(KitError, match="asked for in"):
            told("H4", number, text)


def test_bare_numbers_mean_what_the_page_is_set_to():
    assert told("H1", 5, "0.236", units=Units.INCH_DECIMAL).found.outcome == RIGHT
    assert told("H1", 5, "0.236").found.outcome == WRONG
    assert told("H1", 5, "15/64", units=Units.MM).found.outcome == RIGHT


def test_a_ruler_may_be_five_per_cent_off_unless_a_slip_explains_it():
    assert told("H1", 5, "6.25").found.outcome == WRONG
    assert told("H1", 5, "6.25", measured=True).found.outcome == RIGHT
    assert told("H1", 1, "725", measured=True).found.outcome == WRONG


def test_hints_name_the_cause_at_once_and_give_an_example_at_the_third_try():
    first, second, third = (told("H1", 5, "5.2", tries=tries).words for tries in (1, 2, 3))
    assert first == second
    assert "tan for sin" in first
    assert "It gives a cut with bands 5.2 mm wide." in first
    assert third.startswith(first)
    assert "6 mm / sin(15°)" in third  # other numbers
    assert third.splitlines()[-1].startswith("…")
    assert "23.2" not in third


def test_an_unknown_wrong_answer_still_gets_a_question():
    second = told("H1", 5, "77", tries=2)
    assert second.found.code == ""
    assert second.words.endswith("?")


def test_a_later_part_takes_an_earlier_slip_along():
    """The class table's "Two": folds added, then the method right twice."""
    sitting = Sitting(sample("H1"))
    assert sitting.answer(1, "77").found.code == "FOLD_ADDS"
    bands, layer = sitting.answer(2, str(77 - 63)), sitting.answer(3, "58.4")
    assert (bands.found.outcome, layer.found.outcome) == (CARRIED, CARRIED)  # 4500 / 77
    assert "Method right" in bands.words
    assert sitting.score == 2
    assert sitting.answer(1, "704").found.outcome == RIGHT
    assert sitting.answer(3, "6.39").found.outcome == RIGHT
    assert sitting.score == 3


@pytest.mark.parametrize(
    ("code", "number", "earlier", "own", "then"),
    [
        ("H2", 4, 3, 55.2, "47.2"),  # tan(47.2°) = tan(55.2°) × 6 / 8
        ("H3", 4, 3, 54.0, "0.594"),  # the bevel shared among 54
        ("H3", 6, 5, 24.9, "21.3"),  # 0.2 mm across is 3.56 mm up
    ],
)
def test_carried_values_by_hand(code, number, earlier, own, then):
    part = SETS[code].part(number)
    assert part.carry.part == earlier
    found = part.marked(SAMPLES[code], then, own=Own(own, False)).found
    assert found.outcome == CARRIED


def test_a_slip_on_top_of_a_carried_value_is_known():
    part = SETS["H1"].part(3)
    found = part.marked(SAMPLES["H1"], "0.0584", own=Own(77, False)).found
    assert found.code == "UNIT_MM"


def test_carrying_on_from_a_right_answer_is_right():
    """H5: 3 % off in part 1 is right; the cut list that follows from it is right, too."""
    sitting = Sitting(draw(SETS["H5"], "FORGE-A", "Student One"))
    paper = sitting.paper
    start = 1.025 * SETS["H5"].part(1).answer(paper.values)
    assert sitting.answer(1, f"{start:.1f}").found.outcome == RIGHT
    used = paper.values["pieces_a"] * (start + paper.values["kerf"])
    assert sitting.answer(2, f"{used:.1f}").found.outcome == RIGHT


@pytest.mark.parametrize("own", [0.0, -5.0, 1e12, 1e-300])
def test_nothing_follows_from_nonsense(own):
    for code, task in SETS.items():
        values = draw(task, "FORGE-A", "Student One").values
        for part in task.parts:
            if part.carry:
                found = part.judge(values, 123.456, own=Own(own, False))
                assert found.outcome in (WRONG, CARRIED), code


def test_a_mark_once_earned_is_kept():
    sitting = Sitting(sample("H1"))
    sitting.answer(4, "4")
    sitting.answer(4, "5")
    sitting.answer(4, "14")
    assert sitting.score == 1
    assert sitting.results[4].tries == 2
    assert [one.text for one in sitting.tries] == ["4", "5", "14"]


def test_a_wrong_try_after_a_right_one_says_that_the_mark_is_kept():
    sitting = Sitting(sample("H1"))
    assert KEPT not in sitting.answer(4, "4").words
    assert sitting.answer(4, "5").words.startswith("Right. ")
    assert KEPT in sitting.answer(4, "14").words
    assert KEPT in sitting.answer(4, "20").words


def test_large_numbers_are_written_out():
    assert SETS["H1"].part(3).written(3168.0) == "3168 µm"
    assert SETS["H5"].part(3).written(1119.1) == "1119 g"


def test_choices():
    part = SETS["H5"].part(6)
    values = draw(SETS["H5"], "FORGE-A", "Student One").values
    right = part.answer(values)
    assert part.marked(values, str(int(right))).found.outcome == RIGHT
    assert part.marked(values, "2").found.code == "SPINE_ALONE"
    assert "judge by the spine as it is. Name two" in part.marked(values, "2").words
    for text in ("0", "7", "1.5"):
        with pytest.raises(KitError):
            part.marked(values, text)

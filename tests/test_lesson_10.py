"""Lesson 10: what its pictures and its marking say, against sums done by hand."""

import re
from collections import Counter
from itertools import pairwise

import pytest
from lessons import judges

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.course.lessons import plan_ideas as ideas
from kit.course.lessons.plan import PlanLesson
from kit.course.lessons.plan_drawing import lost_by_reason
from kit.course.lessons.plan_ideas import LOSSES, STEELS
from kit.course.views.lesson import view_of
from kit.forge.steels import steel
from kit.metal import etch
from kit.section.picture import Sheet


def numbers(**settings):
    """Give the numbers panel by name."""
    return {number.name: number.value for number in PlanLesson.scene(**settings).numbers}


def test_the_class_bar():
    shown = numbers()
    assert shown["Cut every piece"] == "102 mm"
    assert shown["Weight in, out"] == "823 g, 380 g"
    assert shown["Yield"] == "46 %"
    assert shown["Layers (bands)"] == "88 (81)"  # 11 × 2³, and (11 - 1) × 2³ + 1
    assert shown["One layer"] == "56.8 µm"  # 5 mm / 88


def test_no_losses_is_volume_alone():
    none = numbers(**dict.fromkeys(LOSSES, 0))
    assert none["Cut every piece"] == "48 mm"  # 254 × 5 / 26.9875 = 47.06, rounded up
    assert none["Yield"] == "100 %"


def test_inches_and_millimetres_agree_to_a_thirty_second():
    shown = {n.name: n.value for n in PlanLesson.scene(units=Units.INCH_FRACTION).numbers}
    assert shown["Cut every piece"] == "4 1/32 in"
    assert 0 <= (4 + 1 / 32) * 25.4 - 102 <= 25.4 / 32


def test_what_the_picture_says_was_lost_adds_up():
    planned = PlanLesson(crop=9).plan
    lost = lost_by_reason(planned.stages())
    assert sum(lost.values()) == pytest.approx(planned.grams_in - planned.grams_out)
    # two ends of 9 mm, four times, of bars 38.1 mm wide and 16 (three times) or 6 mm thick
    crops = 2 * 9 * 38.1 * (3 * 16 + 6) * 7.85e-3
    assert lost["crops"] == pytest.approx(crops, rel=1e-6)
    alt = PlanLesson.scene(crop=9).alt
    assert f"crops {crops:.0f} grams" in alt
    come, out = re.search(r"from (\d+) grams .* a bar of (\d+) grams", alt).groups()
    went = sum(map(int, re.findall(r"(\d+) grams", alt.partition("Lost: ")[2])))
    assert int(come) - went == int(out)


@pytest.mark.parametrize("without", ["", *LOSSES, "every loss"])
@pytest.mark.parametrize("cycles", [0, 3])
def test_every_stair_has_the_letter_of_what_took_it(monkeypatch, cycles, without):
    written = []
    monkeypatch.setattr(
        Sheet, "text", lambda _self, words, *_at, **_how: written.append(words)
    )
    lost = {name: 0 for name in LOSSES if without in (name, "every loss")}
    job = PlanLesson(cycles=cycles, **lost)
    job.draw(Units.MM)
    stages = [one for one in job.plan.stages() if one.grams_before - one.grams_after > 1e-6]
    key = dict(words.split("  ") for words in written if "  " in words)
    assert [key.get(one) for one in written if one in key] == [
        stage.work.reason for stage in stages
    ]
    told = next((one for one in written if "what took it" in one), "")
    assert ("letters:" in told) == bool(key), "what is not there is not explained"
    assert ("numbers:" in told) == any(one.isdigit() for one in written)


def test_tiles_are_ideas_that_differ():
    values = PlanLesson.question.values()
    assert values[0] == pytest.approx(254 * 5 / 26.9875)
    assert values[1] == pytest.approx(1.1 * values[0])
    assert values[3] == 102
    assert min(b - a for a, b in pairwise(values)) > 3


@pytest.mark.parametrize(
    ("check", "right", "wrong"),
    [
        (ideas.SHORT_BAR, "224.7", {"254": "UNCHANGED", "29.3": "SHORT_ONLY"}),
        (ideas.VOLUME_ONLY, "40", {"2250": "INVERTED", "300": "SAME"}),
    ],
)
def test_answers_are_marked_with_reasons(check, right, wrong):
    judges(check, right, wrong)


def test_an_impossible_bar_leaves_the_old_picture():
    shown = view_of("10")
    before = shown.picture.alt
    shown.set(pieces_a=1, pieces_b=1, thick_a=1, thick_b=0.5, thickness=12, draw_to=25)
    assert shown.picture.alt == before
    assert "too thin" in shown.says.value
    with pytest.raises(KitError, match="must be from"):
        PlanLesson.scene(length=1)


def test_the_answering_film_ends_where_the_controls_stand():
    assert PlanLesson.states()[-1] == PlanLesson().given
    assert PlanLesson.film[0]["crop"] == 0


def test_remarks_name_the_dearest_loss():
    assert "crops" in PlanLesson().remark("pieces_a")
    assert "placeholders" in PlanLesson().remark("kerf")
    assert "No shop" in PlanLesson(**dict.fromkeys(LOSSES, 0)).remark("crop")


@pytest.mark.parametrize("steels", [("15N20", "1084"), ("L6", "1095"), ("O1", "nickel")])
def test_the_pieces_to_saw_are_as_bright_as_their_steels_etch(monkeypatch, steels):
    """Six pieces of the outer and five of the inner steel, whatever steels they are."""
    fills, box = Counter(), Sheet.box

    def kept(sheet, *places, fill=None, **how):
        fills[fill] += 1
        return box(sheet, *places, fill=fill, **how)

    monkeypatch.setattr(Sheet, "box", kept)
    outer, inner = map(STEELS.index, steels)
    PlanLesson(steel_a=outer, steel_b=inner).draw(Units.MM)
    tones = {count: int(fill[1:3], 16) for fill, count in fills.items() if count in (6, 5)}
    brighter = [etch.reflectance(steel(name)) for name in steels]
    assert (tones[6] > tones[5]) == (brighter[0] > brighter[1])

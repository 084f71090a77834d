"""A shop's own losses: weighed, opened, kept; the plan on the page follows."""

import base64
import re

import pytest

from kit.basics.units import Units
from kit.course.lessons.plan import PlanLesson
from kit.course.views.lesson import view_of
from kit.course.views.weighing import Weighing
from kit.shop import weighed_losses
from kit.shop.work import Losses


def test_two_weights_become_the_losses_of_the_plan():
    page = Weighing(view_of("10"))
    real = PlanLesson(weld_scale=0.12, forge_scale=0.05).plan.stages(102)
    for text, stage in zip(page.grams, real, strict=False):
        text.value = f"{stage.grams_after:.2f} g"
    page.work_out()
    assert page.view.controls["weld_scale"].value == pytest.approx(0.12, abs=0.001)
    assert page.view.controls["forge_scale"].value == pytest.approx(0.05, abs=0.002)
    coded = re.search(r"base64,([^\"]+)", page.out.value).group(1)
    kept = weighed_losses.from_json(base64.b64decode(coded).decode())
    assert kept.weld_scale == pytest.approx(0.12, abs=0.001)


def test_who_works_in_inches_weighs_in_ounces_and_reads_inches():
    ounce = 28.349523125  # g: a sixteenth of the pound of 1959
    told = []
    for units, weight in ((Units.MM, "798"), (Units.INCH_DECIMAL, f"{798 / ounce:.4f} oz")):
        page = Weighing(view_of("10"))
        page.view.looks.unit_choice.value = list(Units).index(units)
        page.grams[0].value = weight
        page.work_out()
        told.append(re.search(r"Scale ([\d.]+) (mm|in) a face", page.says.value))
    (mm, metric), (inches, imperial) = (found.groups() for found in told)
    assert (metric, imperial) == ("mm", "in")
    assert float(inches) * 25.4 == pytest.approx(float(mm), rel=0.01)
    assert "mm" not in page.says.value
    page.grams[0].value = "9999"
    page.work_out()
    assert "kit-refused" in page.says.value
    assert not re.search(r"(?<!\()\b[\d,.]+ g\b", page.says.value), "pounds come first"


def test_the_same_weight_gives_the_same_answer_however_often_it_is_asked():
    page = Weighing(view_of("10"))
    page.grams[0].value = "798"
    told = []
    for _ in range(3):
        page.work_out()
        told.append(page.says.value)
    assert told[0] == told[1] == told[2]
    assert "Scale 0.1" in told[0]


def test_a_file_is_opened():
    page = Weighing(view_of("10"))
    page.upload.take("a.json", weighed_losses.to_json(Losses(crop=9)).encode())
    assert page.view.controls["crop"].value == 9


@pytest.mark.parametrize("text", ["", "abc", "-3", "9999", "nan", "<b>"])
def test_nonsense_gets_one_sentence(text):
    page = Weighing(view_of("10"))
    before = page.view.picture.alt
    page.grams[0].value = text
    page.work_out()
    assert "kit-refused" in page.says.value
    assert "<b>" not in page.says.value
    assert page.view.picture.alt == before


def test_bad_files_get_one_sentence():
    page = Weighing(view_of("10"))
    for bad in (b"", b"[]", b"\xff", b"[" * 9000, b'{"format": "soup"}'):
        page.upload.take("a.json", bad)
        assert "kit-refused" in page.says.value


def test_it_rehearses():
    page = Weighing(view_of("10"))
    page.rehearse()
    assert "Scale 0.08" in page.says.value

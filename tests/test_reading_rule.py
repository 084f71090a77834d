"""One reading rule: a bare fraction is an inch fraction, wherever a length is typed.

1 in = 25.4 mm exactly: international yard and pound agreement, 1959.
"""

import argparse
import copy
import html
import json
import pickle
import re
from inspect import isabstract
from itertools import product
from pathlib import Path

import pytest
from ipywidgets import HTML

import kit
import kit.course.lessons.san_mai
import kit.forge.flaw
import kit.shop.bought
from kit.basics.declare import Declared, allowed_range
from kit.basics.errors import KitError
from kit.basics.typed import parse_length, parse_lengths
from kit.basics.units import Units
from kit.course.answers import LENGTH
from kit.course.check import Check
from kit.course.lesson import Idea
from kit.course.views.check import CheckRow
from kit.course.views.lesson import BoughtView, view_of
from kit.course.views.measuring import MeasuringView
from kit.course.views.settings import Setting
from kit.forge.billet import Billet
from kit.forge.stack import demo_stack
from kit.forge.steps import DrawOut
from kit.launch.command.plan import add as plan_command
from kit.launch.command.plan import plan_of
from kit.section.outline import Outline
from kit.shop.plan import Plan
from tests.all_at_once import for_all

INCH = 25.4
OUTLINE = Outline(family="drop", length=100, height=25)
FRACTIONS = {
    "5/16": 5 / 16,
    "1/4": 1 / 4,
    "½": 1 / 2,
    "1 1/2": 1.5,
    "1-1/8": 1.125,
    " 3⁄16 ": 3 / 16,
}
THICK = Check(
    ask="",
    given={},
    right=Idea(
        code="", name="measure it", formula=lambda _: 5 / 16 * INCH, hint="", lesson="00"
    ),
    slips=(),
    kind="length",
    prompt="",
    working=lambda _: ["thickness = 5/16 in"],
    other={},
    tips=("", "", ""),
)
WIDE = Setting(key="a", label="A", help="", kind="length", low=0, high=999, step=1, start=1)


def planned(*words: str) -> Plan:
    """Read a command line."""
    parser = argparse.ArgumentParser()
    plan_command(parser)
    return plan_of(parser.parse_args(["--wanted", "254x38.1x5", *words]))


def marked_off(text: str, units: Units) -> float:
    """Type the length between two marks on a photograph."""
    view = MeasuringView()
    view.looks.unit_choice.value = list(Units).index(units)
    view.doing.value = 1
    for place in ((0.1, 0.5), (0.6, 0.5)):
        view.mark(*place)
    marks = view.measured.given("scale")
    view.length.value = text
    view.do()
    return view.measured.scale.pixel * (marks[1][0] - marks[0][0])


def sized(text: str, units: Units) -> float:
    """Type one of two lengths, on a command line."""
    return parse_lengths(f"9 mm x {text}", 2, "A bar", units.unit)[1]


READERS = {
    "typed": lambda text, units: parse_length(text, units.unit),
    "slider": WIDE.read,
    "check": THICK.read,
    "homework": LENGTH.value,
    "command line": sized,
    "marks": marked_off,
}


@for_all(product(READERS, FRACTIONS, Units))
def test_a_bare_fraction_is_an_inch_fraction_everywhere(reader, text, units):
    read = READERS[reader](text, units)
    assert read == pytest.approx(FRACTIONS[text] * INCH, rel=1e-9)


@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize(("text", "mm"), [("3/4 mm", 0.75), ("1/2 cm", 5), ("4.5", 4.5)])
def test_what_has_a_unit_or_no_fraction_stays_as_it_was(reader, text, mm):
    assert READERS[reader](text, Units.MM) == pytest.approx(mm)


def test_a_bar_from_the_rack_in_sixteenths():
    assert planned("--outer", "1084:3/16").outer.thickness == pytest.approx(3 / 16 * INCH)


def test_one_function_knows_the_rule():
    """Who looks for a fraction's stroke in typed text reads by a rule of his own."""
    for path in Path(kit.__file__).parent.rglob("*.py"):
        found = re.findall(r'"/" in \w+', path.read_text("utf-8"))
        assert not found or path.name == "typed.py", f"{path.name}: {found}"


@pytest.mark.parametrize(
    ("typed", "low", "high"),
    [
        ("3", "0 in", "9/16 in"),
        ("7/8", "0 in", "9/16 in"),
        ("0.7 in", "0 in", "0.590 in"),
        ("30", "0 mm", "15.0 mm"),
        ("3 cm", "0 mm", "15.0 mm"),
    ],
)
def test_a_refusal_answers_in_the_units_that_were_typed(typed, low, high):
    view = view_of("04")
    if typed == "3":
        view.looks.unit_choice.value = 1
    view.controls["ground"]._handle_custom_msg({"typed": typed}, [])
    assert f"must be from {low} to {high}. Given: {typed}." in html.unescape(
        view.says.value
    )


@pytest.mark.parametrize(
    ("box", "typed", "words"),
    [
        ("wide", "1000 in", "19.69 in wide. Given: 1000 in"),
        ("wide", "3000", "The picture must be from 10.0 mm to 500 mm wide. Given: 3000"),
        ("high", "8 mm", "The face must be from 10.0 mm to 500 mm high. Given: 8 mm"),
    ],
)
def test_so_do_the_sides_of_a_photograph(box, typed, words):
    view = BoughtView()
    getattr(view, box).value = typed
    with pytest.raises(KitError, match=re.escape(words)):
        view.side(getattr(view, box))


def test_what_was_read_is_shown_back_as_what_it_is():
    view = view_of("04")
    view.controls["ground"]._handle_custom_msg({"typed": "5/16"}, [])
    assert view.controls["ground"].readout == "7.94 mm"
    assert "5/16 is a fraction of an inch here: 7.94 mm." in view.says.value
    row = CheckRow(THICK, HTML())
    row.answer.value = "5/16"
    assert "✓ Right. " in row.says.value
    assert " 5/16 is a fraction of an inch here: 7.94 mm." in row.says.value


def test_a_plain_number_may_be_a_fraction_and_is_no_length():
    drag = Setting(
        key="a", label="A", help="", kind="factor", low=0, high=9, step=1, start=1
    )
    assert drag.read("3/2 ×", Units.MM) == 1.5


def lengths_declared(owner=Declared):
    """Give every class of the kit that can be made, with a length that it bounds."""
    for kind in owner.__subclasses__():
        fields = {} if isabstract(kind) else kind.model_fields
        for name, field in fields.items():
            if (field.json_schema_extra or {}).get("unit") == "mm":
                yield pytest.param(kind, name, field, id=f"{kind.__module__}.{name}")
        yield from lengths_declared(kind)


NEEDED = {
    "steel": "1084",
    "layers": demo_stack().layers,
    "outline": OUTLINE,
    "bars": (Billet(source=demo_stack()),) * 2,
    "billet": Billet(source=demo_stack()),
    "pattern": Billet(source=demo_stack()),
    "way": "cut and forged",
}


def others(kind, name):
    """Give plain values for what a declared class needs beside one of its lengths."""
    given = {}
    for other, field in kind.model_fields.items():
        low, _ = allowed_range(field)
        if other != name and field.is_required():
            given[other] = NEEDED.get(other, low)
    return given


@for_all(one.values for one in lengths_declared())
def test_a_refusal_answers_in_the_units_typed(kind, name, field):
    if kind is Plan:
        pytest.skip("it needs bars; its lengths are typed in the next test")
    low, high = allowed_range(field)
    for typed, shown in (
        ("999999 in", r"from ([-\d.]+) to ([-\d.]+) in"),
        ("999999 mm", f"from {low:g} to {high:g} mm".replace("+", r"\+")),
    ):
        with pytest.raises(KitError) as refused:
            kind(**others(kind, name), **{name: parse_length(typed)})
        said = re.match(f"{field.title} must be {shown}. Given: 99999", str(refused.value))
        assert said, refused.value
        for end in said.groups():  # what is said is allowed
            assert low - 1e-9 <= float(end) * 25.4 <= high + 1e-9
            assert min(abs(float(end) * 25.4 - limit) for limit in (low, high)) < 0.0026


@pytest.mark.parametrize("units", [Units.INCH_FRACTION, Units.INCH_DECIMAL])
def test_a_slider_takes_the_limits_that_it_tells(units):
    for setting in view_of("04").settings:
        if getattr(setting, "kind", "") == "length":
            for text in setting._limits(units):
                assert setting.low <= setting.read(text, units) <= setting.high


def test_the_command_answers_in_the_units_typed():
    with pytest.raises(KitError, match=r"from 0\.7875 to 78\.7401 in. Given: 999 inch"):
        planned("--wanted=999 x 1 1/2 x 3/16 inch")


def test_what_was_typed_in_inches_is_a_plain_number_to_all_else():
    typed = parse_length("3/16 in")
    assert typed == 4.7625
    assert json.dumps({"mm": typed}) == '{"mm": 4.7625}'
    assert copy.deepcopy(typed) == pickle.loads(pickle.dumps(typed)) == 4.7625  # noqa: S301
    assert type(DrawOut(thickness=typed).thickness * 2) is float

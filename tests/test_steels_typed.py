"""Wherever a steel's name is typed, capitals, spaces and hyphens do not matter."""

import json
import re

import pytest
from test_laws import kinds_of

from kit.__main__ import main
from kit.basics.declare import Declared
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steels import GRADES
from kit.metal.coupons import Coupon
from kit.shop import plan_line, rack
from kit.shop.plan import example
from kit.shop.recipes import shorthand
from kit.shop.work import Rack

PAIR = ("1084", "15N20")
OTHERS = {
    "thickness": 3, "width": 30, "length": 900, "minutes": 5, "bath": "usual",
    "reflectance": 0.3, "date": "2025-03-31",
}  # fmt: skip
SPELLED = [
    str.lower,
    str.upper,
    lambda name: re.sub(r"(?<=\d)(?=[A-Za-z])|(?<=[A-Za-z])(?=\d)", " ", name),
    lambda name: f"{name[:2]}-{name[2:]}".lower() if len(name) > 2 else name.lower(),
    lambda name: f"{name[:2]} {name[2:]}" if len(name) > 2 else name,
]
spelled = pytest.mark.parametrize("spell", SPELLED)
NAMED = [kind for kind in kinds_of(Declared) if "steel" in kind.model_fields]


def test_everything_that_names_a_steel_is_asked():
    assert {Rack, rack.OnRack, Coupon} <= set(NAMED)


@spelled
@pytest.mark.parametrize("kind", NAMED, ids=lambda kind: kind.__name__)
def test_what_is_declared_keeps_the_name_stamped_on_the_bar(kind, spell):
    values = {key: value for key, value in OTHERS.items() if key in kind.model_fields}
    for name in GRADES:
        assert kind(steel=spell(name), **values).steel == name


@spelled
def test_a_rack_typed_or_kept_in_a_file(spell):
    for name in GRADES:
        bars = rack.from_lines(f"2 * {name}: 3 x 38 x 900 mm")
        assert rack.from_lines(f"2 * {spell(name)}: 3 x 38 x 900 mm") == bars
        kept = json.loads(rack.to_json(bars))
        kept["bars"][0]["steel"] = spell(name)
        assert rack.from_json(json.dumps(kept)) == bars


@spelled
def test_a_printed_line_of_a_recipe_or_a_plan_typed_again(spell):
    bar, alike = (
        Billet(source=Stack.alternate(*PAIR, pieces=7, thickness=thick))
        for thick in (3.0, 16 / 7)
    )
    for made, way in ((bar, shorthand), (alike, shorthand), (example(), plan_line)):
        line = way.to_line(made)
        assert "1084" in line
        typed = re.sub("|".join(PAIR), lambda name: spell(name[0]), line)
        assert way.from_line(typed) == made


@spelled
def test_the_command_answers_the_same(spell, capsys):
    said = []
    for names in (PAIR, tuple(map(spell, PAIR))):
        bars = [f"--bar=6 * {name}: 1/8 x 1 1/2 x 12 in" for name in names]
        assert not main(["plan", *bars])
        first = capsys.readouterr().out
        outer, inner = (f"{name}:1/8in" for name in names)
        assert not main(["plan", "--outer", outer, "--inner", inner])
        said.append((first, capsys.readouterr().out))
    assert said[0] == said[1]

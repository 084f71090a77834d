"""Who types inches is refused in inches, by the side that really fails."""

import itertools
import re

import pytest

from kit.__main__ import main
from kit.basics.errors import KitError
from kit.basics.told import plain
from kit.course.views.lesson import lesson
from kit.course.views.racked import Racked
from kit.shop.plan import Plan, example
from kit.shop.work import Rack

# What cannot be forged, in inches and in mm: options of `plan` beside one another.
IMPOSSIBLE = {
    "too narrow": (
        [
            "--wanted=10 x 2 x 3/8 in",
            "--bar=6 * 1084: 1/8 x 1 x 36 in",
            "--bar=6 * 15N20: 1/16 x 1 x 36 in",
        ],
        [
            "--wanted=250x50x9",
            "--bar=6 * 1084: 3 x 25 x 900",
            "--bar=6 * 15N20: 2 x 25 x 9e2",
        ],
    ),
    "too thin": (
        ["--wanted=10 x 1 x 3/8 in", "--pieces=1+1"],
        ["--wanted=250x25x9", "--pieces=1+1"],
    ),
    "outer alone": (["--pieces=1+1", "--outer=1084:1/16"], ["--pieces=1+1"]),
    "drawn to": (["--draw-to=1in", "--pieces=1+1"], ["--draw-to=25", "--pieces=1+1"]),
    "stock": (["--stock-width=1/2in"], ["--stock-width=12"]),
    "start": (["--start=1in"], ["--start=25mm"]),
    "wanted": (["--wanted=200x1x1/4 in"], ["--wanted=5000x30x5"]),
    "no colon": (["--bar=15N20 1/16 x 1 x 12"], ["--bar=15N20 1.5 x 25 x 300 mm"]),
    "no colon, inch": (["--bar=15N20 2 x 1 x 12 inch"], ["--bar=15N20 2 x 25 x 300"]),
    "no colon, bare": (["--units=in", "--bar=15N20 .06 x 1 x 12"], ["--bar=15N20 2 x 25"]),
}
MM, INCH = re.compile(r"\d mm\b"), re.compile(r"\d in\b")


@pytest.mark.parametrize("inches", [True, False], ids=["inches", "mm"])
@pytest.mark.parametrize("name", IMPOSSIBLE)
def test_the_command_refuses_in_the_unit_that_was_typed(name, inches, capsys):
    assert main(["plan", *IMPOSSIBLE[name][not inches]])
    said = capsys.readouterr().err
    own, other = (INCH, MM) if inches else (MM, INCH)
    assert own.search(said), said
    assert not other.search(said), said


@pytest.mark.parametrize("name", ["too narrow", "no colon", "no colon, inch"])
def test_the_field_of_the_page_too(name):
    field = Racked(lesson("10")[1])
    bars = [one for one in IMPOSSIBLE[name][0] if one.startswith("--bar")]
    field.wanted.value = "10 x 2 x 3/8 in"
    field.bars.value = "\n".join(one.removeprefix("--bar=") for one in bars)
    field.work_out()
    assert "refused" in field.says.value
    said = plain(field.says.value)
    assert INCH.search(said)
    assert not MM.search(said)


def test_what_cannot_be_drawn_out_is_refused_by_the_side_that_fails():
    told = set()
    for thick, width, wide, draw in itertools.product(
        (0.5, 2, 6), (12, 25, 60), (12, 38, 80), (8, 16, 25)
    ):
        bar = Rack(steel="1084", thickness=thick, width=width)
        wanted = example().wanted.model_copy(update={"width": wide})
        try:
            Plan(outer=bar, inner=bar, wanted=wanted, draw_to=draw)
        except KitError as refused:
            said = str(refused)
        else:
            continue
        if "cannot be drawn" not in said:
            continue
        before, across, after, over = map(float, re.findall(r"\d+\.\d", said))
        assert ("thin" in said.partition("too ")[2][:15]) == (before < after), said
        assert ("narrow" in said) == (across < over), said
        told.add((before < after, across < over))
    assert len(told) == 3, "too thin, too narrow, and both"

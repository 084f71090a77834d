"""The forge's page without a browser: what is asked of it, however wild, is answered."""

import os
import random
import re
from time import monotonic
from typing import get_args

import numpy as np
import pytest
from smith import BARS, act, random_history

from kit.basics.errors import KitError
from kit.course.anvil.acts import VERBS, why_not
from kit.course.anvil.class_talk import class_talks
from kit.course.anvil.history import History
from kit.course.anvil.sentence import Gap, parts
from kit.course.views import forge as forge_module
from kit.course.views import forge_lines as lines
from kit.course.views.first_forging import DONE, LAST, led, what_next
from kit.course.views.forge import Forge
from kit.forge.billet import Billet
from kit.forge.stack import Layer, Stack
from kit.forge.steels import GRADES
from kit.forge.steps import DrawOut, Fold, Twist
from kit.shop.patterns import PATTERNS
from kit.shop.recipes.talk import Kind

ACTS = int(os.environ.get("KIT_SMITH_ACTS", "100"))  # `python -m tests.bench monkey`: more


@pytest.mark.parametrize("seed", range(2))
def test_any_smith_is_answered(seed):
    forge, dice = Forge(), random.Random(seed)  # noqa: S311
    for _ in range(ACTS):
        act(forge, dice)
        history = forge.desk.history
        assert forge.says.value
        assert forge.picture.alt
        assert len(forge.strip.entries) == len(history.stages)
        assert forge.shown.panels[0].billet == forge.bar == forge.desk.stage.bar


@pytest.mark.parametrize("seed", range(3))
def test_every_act_can_be_taken_back_and_done_again(seed):
    forge, dice = Forge(), random.Random(seed)  # noqa: S311
    first = forge.desk
    for _ in range(60):
        act(forge, dice)
    last = forge.desk
    steps = 0
    while forge.undo():
        steps += 1
    assert forge.desk == first
    while forge.redo():
        steps -= 1
    assert (forge.desk, steps) == (last, 0)


@pytest.mark.parametrize("name", VERBS)
def test_the_slider_is_for_the_main_number_of_each_step_or_hidden(name):
    forge = Forge()
    forge.add("fold")
    assert forge._slides.layout.display == "none", "a fold has nothing to set but its heat"
    if why_not(name, forge.bar):
        return
    forge.add(name)
    told = [part for part in parts(forge.desk.act) if isinstance(part, Gap)]
    held = [one.title for one in told if not one.options and one.value is not None]
    shown = forge.slider.label if forge._slides.layout.display != "none" else ""
    assert shown == (held[0] if held else "")


@pytest.mark.gate
@pytest.mark.parametrize("name", VERBS)
@pytest.mark.parametrize("kind", get_args(Kind))
def test_a_step_that_is_chosen_brings_its_own_number_however_the_bar_is_looked_at(
    name, kind
):
    forge = Forge(next(bar for bar in BARS.values() if not why_not(name, bar)))
    forge.add(name)
    at = forge.desk.at
    for before in (at, 0):  # the look is chosen at the step itself, or at another
        forge.strip._handle_custom_msg({"at": before}, [])
        forge.set("look:kind", kind)
        looked, done = forge.desk.look, len(forge._past)
        forge.strip._handle_custom_msg({"at": at}, [])
        assert len(forge._past) == done + (before != at), "to stay is nothing to undo"
        numbers = lines.numbers(forge.desk)
        own = [
            one.title
            for key, one in numbers.items()
            if key.startswith("act:") and one.value is not None
        ]
        assert not own or forge.slider.label == own[0]
        if own:
            forge.slider.value = forge.slider.stops[-2]
            assert forge.desk.look == looked


def test_the_first_forging_is_led_to_its_pattern_and_no_further():
    forge, plain = led(Forge()), Forge()
    for _ in range(9):
        asked = re.search(r"of 4: .*(And then|Look at its), choose ([\w ]+)\.", forge.said)
        if asked and asked[1] == "And then":
            forge.add(asked[2])
            plain.add(asked[2])
        elif asked:
            forge.set("look:kind", asked[2])
        elif "6°" in forge.said:
            forge.set("look:angle", "6")
    assert forge.bar == plain.bar
    assert len(forge.desk.history.acts) == 6
    assert (forge.desk.look.kind, forge.desk.look.angle) == ("slant", 6)
    assert forge.said.endswith(LAST)
    plain.set("look:kind", "slant")
    assert LAST not in plain.said
    asked, motif = re.search(r"make the second bar (\w+)", LAST)[1], forge.desk.motif
    alike = motif.put(1, motif.bars[1].model_copy(update={"steel": asked}))
    for at in (0, 6):  # what was asked is done: nothing asks for it again
        assert what_next(forge.desk.stacked(alike).goes(at)) == DONE
    forge.undo()
    assert "Your first forging, 4 of 4" in forge.said  # the bench's own steps are others
    forge.add("twist")
    assert "Step" not in forge.said


def test_a_drag_is_one_act_and_a_refusal_none():
    forge = Forge()
    forge.add("fold")
    forge.add("draw out")
    before = forge.desk
    forge.pick("act:thickness")
    for stop in forge.slider.stops[10:20]:
        forge.slider.value = stop
    forge.undo()
    assert forge.desk == before
    forge.add("twist")
    assert "kit-refused" in forge.says.value
    assert forge.desk == before
    forge.set("act:thickness", 1e9)
    assert "kit-refused" in forge.says.value
    assert forge.desk == before


def test_a_long_row_is_drawn_in_stretches_between_which_wishes_are_heard(monkeypatch):
    monkeypatch.setattr("kit.course.views.forge_page.STRETCH", 0)

    def drawn_on() -> int:
        asked = forge.strip.asked
        forge.strip._handle_custom_msg({"more": True}, [])
        return forge.strip.asked - asked

    forge = Forge()
    forge.take(random_history(3).history.bar)
    forge.rest()
    last = len(forge.desk.history.acts)
    assert forge.strip.drawn < last, "the page asks for the rest"
    assert [drawn_on() for _ in range(last)] == [1] * (last - 1) + [0]
    assert forge.strip.drawn == last + 1
    old = forge.strip.sprite
    forge.do(forge.desk.goes(2))
    forge.take_out()
    forge.rest()
    forge.undo()
    assert drawn_on() == 0, "another bar lies there: no stretch of the old one is drawn"
    forge.rest()
    while drawn_on():
        pass
    assert forge.strip.sprite == old


def test_while_a_slider_moves_the_row_stays_and_afterwards_it_is_told():
    forge = Forge()
    forge.add("fold")
    forge.add("draw out")
    forge.pick("act:thickness")
    before = forge.strip.entries
    forge.slider.value = forge.slider.stops[10]
    assert forge.strip.entries == before
    forge.rest()
    assert forge.strip.entries[:2] == before[:2]
    assert forge.strip.entries[2] != before[2]


@pytest.mark.parametrize("kind", get_args(Kind))
def test_in_clay_nothing_is_told_of_steel(kind):
    forge = Forge()
    forge.lay(class_talks()[0])
    forge.metal.value = 1
    told = []
    for at in (0, len(forge.desk.history.acts)):
        forge.do(forge.desk.goes(at))
        forge.set("look:kind", kind)
        forge.rest()
        told += [forge.said, forge.picture.alt, forge.strip.entries[at]["says"]]
        forge.line.toggle()
        told += [forge.said, forge.picture.counted.get("words", "")]
        for place in (0.3, 0.01):
            forge.picture._handle_custom_msg({"event": "point", "x": place, "y": 0.5}, [])
            told.append(forge.said)
        forge.picture.line = [0.01, 0.02, 0.02, 0.02]
        told.append(forge.said)
        forge.line.toggle()
    metals = [one for one in told if re.search(rf"steel|{'|'.join(GRADES)}", one)]
    assert metals == []


def test_an_offer_goes_with_the_sentence_that_it_belongs_to():
    forge = Forge()
    forge.add("twist")
    assert forge.offer_button.layout.display == ""
    forge.line.toggle()
    assert forge.offer_button.layout.display == "none"


def test_a_look_brings_its_number_and_arrows_change_it():
    forge = Forge()
    forge.add("fold")
    forge.set("look:kind", "slant")
    assert forge.slider.label == "Angle"
    before = forge.desk.look.angle
    forge.seen._handle_custom_msg({"pick": "look:angle", "way": -1}, [])
    assert forge.desk.look.angle < before


def test_a_weld_that_did_not_take_is_told():
    forge = Forge()
    forge.add("fold")
    forge.miss()
    assert "did not take" in forge.says.value
    assert "To weld" not in forge.says.value
    assert forge.strip.entries[1]["count"] == "open weld"


def test_what_no_longer_fits_is_kept_and_told():
    forge = Forge()
    for name in ("twist",):
        forge.add(name)
        forge.do_first()
    made = forge.desk.history.acts
    forge.strip._handle_custom_msg({"at": 1}, [])
    forge.strip._handle_custom_msg({"remove": 2}, [])  # it is no longer rounded up
    assert "no longer fits" in forge.says.value
    assert len(forge.desk.history.acts) == len(made) - 1
    assert forge.strip.entries[-1]["refused"]
    forge.undo()
    assert forge.desk.history.acts == made


def test_an_earlier_number_changes_all_that_follows():
    forge = Forge()
    for name in ("draw out", "fold", "draw out"):
        forge.add(name)
    forge.strip._handle_custom_msg({"at": 1}, [])
    forge.set("act:thickness", 20.0)
    stages = forge.desk.history.stages
    assert stages[1].size.thickness == 20
    assert stages[2].size.thickness == 40
    assert len(stages) == 4


def test_a_bar_is_taken_with_its_history_and_what_is_none_is_refused():
    forge = Forge()
    bar = forge.bar.then(Fold(), DrawOut(thickness=20))
    forge.take(bar)
    assert forge.bar == bar
    assert forge.desk.history == History.of(bar)
    for wish in ("a bar", None, Twist(turn_length=60)):
        with pytest.raises(KitError, match="takes a bar"):
            forge.take(wish)
    assert forge.bar == bar


def test_clay_is_told_in_clay_and_looks_otherwise():
    forge = Forge()
    steel = np.asarray(forge.shown.image)
    forge.metal.value = 1
    assert "black clay I" in forge.says.value
    assert [bar["steel"] for bar in forge.bars.bars] == ["black clay I", "white clay II"]
    assert np.abs(np.asarray(forge.shown.image, float) - steel).max() > 10
    forge.bars._handle_custom_msg({"add": True}, [])
    forge.bars._handle_custom_msg({"bar": 2, "steel": "grey clay III"}, [])
    assert len(forge.desk.motif.metals) == 3


def live(forge):
    return {one.description for one in forge.buttons.children if not one.disabled}


def test_only_what_does_something_now_is_live():
    forge = Forge()
    assert live(forge) == set()
    for name in ("fold", "draw out"):
        forge.add(name)
    undo, earlier, out, play = (
        "Undo (U)",
        "◀ Move earlier",
        "Take this step out",
        "▶ Play it",
    )
    assert live(forge) == {undo, earlier, out, play}
    forge.undo()
    assert live(forge) == {undo, "Redo", out, play, "This weld did not take"}
    forge.redo()
    forge.do(forge.desk.goes(1))
    assert live(forge) == {undo, "Move later ▶", out, play, "This weld did not take"}
    forge.set("look:kind", "face")
    while forge.undo():
        pass
    assert live(forge) == {"Redo"}


def test_a_double_click_on_an_offer_is_one_wish(monkeypatch):
    """What stood below the offer moves up under the pointer: no step is lost by it."""
    forge = Forge()
    forge.add("twist")
    forge.offer_button.click()
    made = forge.desk.history
    assert len(made.acts) == 3
    for one in (forge.offer_button, *forge.buttons.children):
        one.click()
        assert forge.desk.history == made, one.description
    monkeypatch.setattr(
        forge_module, "monotonic", lambda: monotonic() + forge_module.DOUBLE
    )
    next(one for one in forge.buttons.children if "out" in one.description).click()
    assert len(forge.desk.history.acts) == 2


def test_a_list_is_called_to_a_screen_reader_what_is_written_before_it():
    forge = Forge()
    for line in (forge.next, forge.seen):
        text, control = line.parts[:2]
        assert text["text"].startswith(control["title"])


def test_of_a_round_bar_it_is_said_why_its_face_is_not_at_its_top():
    forge = Forge()
    forge.set("look:kind", "face")
    assert "no flat" not in str(forge.seen.parts)
    forge.add("twist")
    forge.do_first()
    assert "a round bar has no flat at 0" in str(forge.seen.parts)


@pytest.mark.parametrize(
    ("metals", "alike"),
    [
        (("1084", "15N20", "nickel"), "15N20 and nickel"),
        (("1084", "1095", "15N20"), "1084 and 1095"),
        (("1084", "15N20"), ""),
    ],
)
def test_metals_that_look_alike_are_told_at_every_step(metals, alike):
    """Who sees two tones is told of three metals: below the picture, and in its words."""
    layers = [Layer(steel=one, thickness=4.0) for one in metals * 3]
    forge = Forge(Billet(source=Stack(layers=layers, length=150, width=40)))
    for name in ("fold", "draw out", "hammer unevenly"):
        forge.add(name)
    for at in range(4):
        forge.do(forge.desk.goes(at))
        for words in (forge.says.value, forge.picture.alt):
            assert ("etch nearly alike" in words) == bool(alike), (at, words)
            assert not alike or f"{alike} etch nearly alike." in words
    forge.metal.value = 1
    assert "nearly alike" not in forge.says.value + forge.picture.alt, "clay is told apart"


@pytest.mark.parametrize("known", PATTERNS, ids=lambda known: known.name)
def test_a_bare_stack_that_is_given_lies_on_the_anvil(known):
    """A bar without a step is empty as a list is, and still a bar."""
    stack = known.forge()[:0]
    assert Forge(stack).bar == stack


@pytest.mark.parametrize(
    ("second", "folds", "why"),
    [
        ("1084", 1, "faint weld lines"),
        ("15N20", 9, "finer than this picture can show"),
    ],
)
def test_a_picture_without_bands_says_why(second, folds, why):
    """And one with bands does not; both are told to who sees it and who hears it."""
    stack = Stack.alternate("1084", second, pieces=11, thickness=2)
    forge = Forge()
    for times in (0, folds):
        bar = Billet(source=stack).then(*[Fold(), DrawOut(thickness=12)] * times)
        forge.take(bar)
        even = bool(times) or second == "1084"
        assert ("without bands" in forge.picture.alt) == even
        for told in (forge.said, forge.picture.alt):
            assert (why in told) == even

"""The class's talk is true: the numbers that it tells are those of its bars."""

import math
import re

import pytest

from kit.course.anvil.acts import Laid
from kit.course.anvil.class_talk import class_talks, plans
from kit.course.anvil.desk import Desk
from kit.forge.steps import Fold

NUMBERS = {
    "one": 1, "two": 2, "three": 3, "five": 5, "six": 6, "nine": 9, "ten": 10, "twenty": 20,
    "once": 1, "twice": 2, "half": 0.5,
}  # fmt: skip


def numbers(text):
    """Give the numbers that a text tells, in words or figures."""
    found = re.findall(r"\d+(?:\.\d+)?|[a-z]+", text.lower())
    return [NUMBERS.get(one) or float(one) for one in found
            if one in NUMBERS or one[0].isdigit()]  # fmt: skip


def told(recipe, stage):
    """Give the numbers of the question and of the sentence."""
    cue = next(cue for cue in recipe.talk if cue.stage == stage)
    return numbers(cue.ask), numbers(cue.say)


def test_the_first_bar_has_what_is_said_of_it():
    first, _ = class_talks()
    history = Desk.of_recipe(first).history
    stages, acts = history.stages, history.acts
    metals = {layer.steel for layer in history.source.layers}
    layers = [stage.tally.layers for stage in stages]
    assert [layers[at] for at in (0, 2, 4)] == [5, 10, 20]  # two folds
    assert sum(isinstance(act, Fold) for act in acts) == 2
    assert [act.step for act in acts[-2:]] == ["dent", "draw out"]  # dented, flattened
    assert told(first, 0) == ([layers[0], len(metals), 1], [layers[2], 2])
    assert told(first, 2) == ([layers[2], stages[2].tally.bands], [1])
    assert told(first, 4) == ([layers[4]], [1])
    last = next(cue for cue in first.talk if cue.stage == len(acts))
    assert last.look.kind == "slant"  # cut on the slant
    layer = stages[-1].size.thickness / layers[-1]
    spread = 1 / math.sin(math.radians(last.look.angle))  # Euclid: a slanting cut
    asked, answer = told(first, len(acts))
    assert asked == pytest.approx([layer])
    assert answer == [math.ceil(layer * spread), last.look.angle, math.ceil(spread)]
    assert layer * spread > 0.95 * answer[0]  # "nearly"
    assert spread > 0.95 * answer[-1]
    for fold in (2, 4):  # "rolled to half the thickness", then folded
        before = stages[fold - 2].size.thickness
        assert stages[fold - 1].size.thickness == pytest.approx(before / 2)


def test_the_second_bar_has_what_is_said_of_it():
    _, second = class_talks()
    history = Desk.of_recipe(second).history
    twist, laid = history.acts[2], history.acts[-1]
    assert told(second, 0) == ([len(history.source.layers)], [])
    assert history.source == Desk.of_recipe(class_talks()[0]).history.source  # the same
    steels = [layer.steel for layer in history.source.layers]
    assert steels == steels[::-1]  # alike from both sides: half a turn brings it back
    asked, answer = told(second, 3)
    assert asked == [1, twist.turn_length]
    assert answer == [twist.turn_length / 2, 0.5]
    assert isinstance(laid, Laid)
    assert told(second, 5)[0] == [laid.pieces, 1]
    hands = [next(step.hand for step in bar.steps if step.step == "twist")
             for bar in history.bar.source.bars]  # fmt: skip
    assert hands[1] not in (hands[0], hands[2])  # the middle one
    assert hands[0] == hands[2]


def test_all_that_is_said_is_short_and_spoken():
    said = [getattr(cue, kind) for one in class_talks() for cue in one.talk
            for kind in ("ask", "say", "clay")]  # fmt: skip
    said += [text for plan in plans() for part in plan.parts for text in part[1:]]
    assert len(said) > 30
    for text in said:
        for sentence in re.split(r"(?<=[.?!])\s", text):
            assert len(sentence.split()) <= 25


def test_the_plans_keep_to_the_clock():
    for plan, lasts in zip(plans(), (2 * 60, 45 * 60), strict=True):
        starts = [part.at for part in plan.parts]
        assert plan.lasts == lasts
        assert starts[0] == 0
        assert starts == sorted(set(starts))
        assert starts[-1] < lasts

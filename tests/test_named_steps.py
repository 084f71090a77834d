"""Steps are called what they do to this bar; what a smith could not do is warned of."""

import pytest
from smith import random_history

from kit.basics.units import Units
from kit.classroom.paper.operations import of_billet
from kit.course.anvil.history import History
from kit.course.anvil.sentence import entry, short
from kit.metal.working_heat import warned
from kit.shop.patterns import PATTERNS, pattern


def walked(bar):
    """Give the history of a bar, and of each bar laid in it."""
    yield History.of(bar)
    for one in dict.fromkeys(getattr(bar.source, "bars", ())):
        yield from walked(one)


@pytest.mark.parametrize("name", [*(known.name for known in PATTERNS), *range(20)])
def test_a_step_is_called_what_it_does_to_this_bar(name):
    """What is drawn out gets longer, what is upset does not: in history, card and talk."""
    bar = (
        random_history(name).history.bar if isinstance(name, int) else pattern(name).forge()
    )
    for history in walked(bar):
        steps = len(history.bar.steps)
        rows = of_billet(history.bar)[-steps:] if steps else []
        for at, row in zip(range(len(history.stages) - steps, 99), rows, strict=False):
            before, after = (history.stages[at - one].size for one in (1, 0))
            for said in (
                short(history, at),
                row.work,
                entry(history, at, Units.MM).lower(),
            ):
                if said.startswith("draw out on end"):
                    assert before.thickness < after.thickness == max(after), said
                elif said.startswith("draw out"):
                    assert after.length >= before.length * (1 - 1e-9), said
                elif said.startswith("upset"):
                    assert after.length <= before.length * (1 + 1e-9), said


@pytest.mark.parametrize("name", [known.name for known in PATTERNS])
def test_the_kits_own_bars_are_made_as_a_smith_can_make_them(name):
    """Nothing is done to them that the kit itself warns of, but the twist it says it of."""
    for history in walked(pattern(name).forge()):
        for at, act in enumerate(history.acts, 1):
            told = warned(act, history.stages[at - 1].size)
            assert not told or (name == "tight twist" and "torsion" in told), told

"""Make this, on its page: what the judge takes on, open welds, the last try kept."""

import re

import pytest
from test_make_this import (
    CHEVRONS,
    ELEVEN,
    FLAT,
    NEAR_MISSES,
    ROUTES,
    SLANT,
    STARS,
    every_task,
    stacked,
    twisted,
)

from kit.basics.errors import KitError
from kit.course.anvil import judge, void
from kit.course.anvil.acts import Laid
from kit.course.anvil.tasks import TASKS, Seen
from kit.course.lessons.twist import TwistLesson
from kit.course.lessons.twist_drawing import line_angle
from kit.course.views.forge import Forge
from kit.course.views.said import Says
from kit.course.views.tasks import MakeThis
from kit.forge.billet import Billet, fold_and_draw
from kit.forge.steps import DrawOut, Fold, Grind, Hammer, RoundUp, Twist

MOST_WORK = 15e6  # places followed back, each by one step: a second or two


HAMMERED = [Hammer(depth=0.5, spacing=25, seed=seed) for seed in range(180)]
HOSTILE = {
    "hammered 180 times": lambda: ELEVEN.then(*HAMMERED),
    "hammered 40 times": lambda: ELEVEN.then(*HAMMERED[:40]),
    "twisted to and fro": lambda: ELEVEN.then(
        DrawOut(thickness=15, width=15),
        RoundUp(),
        *[Twist(turn_length=400, hand=hand) for hand in ("right", "left") * 90],
    ),
    "twisted, then folded 12 times": lambda: fold_and_draw(
        twisted(ELEVEN, 15, 60), folds=12
    ),
    "bundles of bundles": lambda: Laid(pieces=16, laid="stacked").done_to(
        Laid(pieces=8).done_to(ELEVEN)
    ),
}


@every_task
@pytest.mark.parametrize("bar", HOSTILE)
def test_no_bar_takes_more_work_than_was_agreed(task, bar, monkeypatch):
    done, follow = [], Billet.follow

    def counted(self, points):
        done.append(points[0].size * max(1, len(self) - self.level))
        return follow(self, points)

    monkeypatch.setattr(Billet, "follow", counted)
    try:
        judged = task.judged(HOSTILE[bar]())
        told = judged.met or judged.told(None)
    except KitError as refused:
        told = re.search(r"at most \d+ .*Given: \d+", str(refused))
        done += [MOST_WORK] * bool(done)  # refused before the work, not after it
    assert told
    assert sum(done) < MOST_WORK
    assert done or bar != "hammered 40 times"


@pytest.mark.parametrize("turn", [20, 60, 200])
@pytest.mark.parametrize("ground", [0.5, 3])
def test_the_judge_and_lesson_04_measure_a_chevron_alike(turn, ground):
    # two ways: lines that are seen, and two specks of steel that are followed
    bar = TwistLesson(across=16, turn=turn, drawn=1.3, neighbour=2).billet
    height = bar.size.thickness / 2 - ground
    seen = abs(judge.slant(bar, height, bar.size.width / 4))
    assert seen == pytest.approx(line_angle(bar, height), abs=0.05)


# A bar that is each task, made with a weld in it.
WELDED = {
    FLAT: FLAT.example(),
    **{task: ROUTES[task]["folded first"] for task in (SLANT, STARS, CHEVRONS)},
}


@every_task
def test_a_bar_with_an_open_weld_is_not_it_and_is_told_so(task):
    forge = Forge(WELDED[task])
    page = MakeThis(forge)
    page.choice.value = TASKS.index(task)
    history = forge.desk.history
    weld = next(at for at in range(len(history.stages)) if void.join_at(history, at))
    forge.do(forge.desk.goes(weld))
    forge.miss()
    forge.do(forge.desk.goes(len(history.acts)))
    page.judge()
    assert (
        "Not yet, because the number of open welds is 1; wanted: just 0." in page.says.value
    )
    assert page.measured.value.count("not yet") == 1
    forge.undo()
    forge.undo()
    forge.undo()
    forge.do(forge.desk.goes(len(history.acts)))
    page.judge()
    assert f"This is it. {task.why}" in page.says.value


def test_a_weld_that_was_ground_away_is_open_no_more():
    forge = Forge(stacked(8, 3).then(Fold(), Grind(top=23.5)))
    forge.do(forge.desk.goes(1))
    forge.miss()
    history = forge.desk.history
    open_at = [Seen(one.bar, void.flaws(history, at)).open_welds
               for at, one in enumerate(history.stages)]  # fmt: skip
    assert open_at == [0, 1, 1]
    deeper = history.changed(2, Grind(top=26))  # the weld lay 24 mm below the top
    assert Seen(deeper.bar, void.flaws(deeper, 2)).open_welds == 0


def test_a_bar_that_takes_too_long_is_refused_on_the_page_and_the_last_try_stays():
    page = MakeThis(Forge())
    page.judge()
    before = page.now.judged
    page.forge.take(HOSTILE["hammered 180 times"]())
    page.judge()
    assert "at most 40 steps" in page.says.value
    assert page.now.judged is before


@pytest.fixture(scope="module")
def page():
    return MakeThis(Forge())


def test_the_page_judges_what_lies_on_the_anvil_and_says_why(page):
    page.choice.value = 0
    page.judge()
    assert "Not yet, because the number of bands is 11" in page.says.value
    page.forge.take(NEAR_MISSES[FLAT]["the number of bands"])
    page.judge()
    assert "Nearer, because the number of bands is 24 now and was 11" in page.says.value
    assert "24" in page.measured.value
    page.forge.take(ROUTES[FLAT]["folded once"])
    page.judge()
    assert f"This is it. {FLAT.why}" in page.says.value
    assert isinstance(page.says, Says), "it is announced"


def test_each_task_keeps_its_own_last_try_and_its_two_hints(page):
    page.choice.value = 1
    assert page.now.judged is None
    for words in SLANT.hints:
        assert not page.hint_button.disabled
        page.hint()
        assert words in page.says.value
    assert page.hint_button.disabled
    page.hint()  # says nothing new
    page.choice.value = 2
    assert not page.hint_button.disabled
    page.choice.value = 1
    assert page.hint_button.disabled


def test_inches_and_big_letters_reach_the_tasks():
    page = MakeThis(Forge())
    page.judge()
    small = page.picture.frame
    page.forge.looks.type_choice.value = 1
    assert page.picture.frame != small
    assert "kit-big" in page._dom_classes
    page.hint()
    assert "0.5 mm" in page.says.value
    page.forge.looks.unit_choice.value = 2
    for part in (page.asked.value, page.measured.value, page.says.value):
        assert not re.search(r"\bmm\b", part)
        assert " in" in part
    for choice in page.forge.looks.choices:
        choice.value = 0


def test_the_picture_has_both_bars_in_words(page):
    page.choice.value = 3
    assert "chevrons" in page.picture.alt
    assert "None yet." in page.picture.alt
    page.forge.take(STARS.example())
    page.judge()
    assert "None yet." not in page.picture.alt

"""Laws over all lessons: values are declared once, refused in a sentence, and give way."""

import hashlib
import itertools
import random
import re
import sys
from collections import Counter
from contextlib import suppress
from functools import cache

import pytest

from kit.basics.declare import allowed_range
from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.course.map import LESSONS
from kit.course.views import base, controls
from kit.course.views.base import View
from kit.course.views.lesson import PAGES, view_of
from kit.course.views.settings import Pick, Setting
from kit.forge.billet import Billet
from kit.section.half import half_as_fine
from tests.all_at_once import for_all
from tests.lessons import KNOWN

EVERY = [(name, s) for name, known in KNOWN.items() for s in known.settings]
CONTROLS = for_all(EVERY)
LESSONS_OWN = "kit.course.lessons"
MOST_ASKED = 1_500  # times a move, any function of the kit; ours


def ends(setting):
    """Give the first, the last and the lowest and highest value of a control."""
    if isinstance(setting, Pick):
        return 0, len(setting.options) - 1
    return setting.low, setting.high


def begun(name):
    """Give the state that a view begins with."""
    return {setting.key: setting.start for setting in KNOWN[name].settings}


def one_sentence(refused):
    """Say whether a refusal is short, on one line, and no word of Python's."""
    words = str(refused)
    return "\n" not in words and len(words) < 250 and "Error" not in words


def test_every_view_of_its_own_is_a_lessons():
    assert set(View.__subclasses__()) == set(PAGES.values())


@CONTROLS
def test_slider_and_lesson_know_the_same_range(name, setting):
    kind = KNOWN[name]
    low, high = ends(setting)
    field = kind.job.model_fields[setting.key]
    assert field.default == setting.start
    assert allowed_range(field) == (low, high)


def refuses(wish):
    """Say whether a wish is refused in one sentence; let any other error out."""
    try:
        wish()
    except KitError as refused:
        return one_sentence(refused)
    return False


@CONTROLS
def test_a_scene_refuses_loose_values_in_one_sentence(name, setting):
    scene = KNOWN[name].scene
    low, high = ends(setting)
    beyond = max(1.0, 0.01 * (high - low))
    loose = [low - beyond, high + max(beyond, 10), float("nan"), float("inf"), "much", None]
    if isinstance(setting, Pick) or setting.kind == "count":
        loose.append(low + 0.5)
    for value in loose:
        assert refuses(lambda value=value: scene(**{setting.key: value})), value


@pytest.mark.parametrize("name", KNOWN)
def test_a_scene_refuses_a_value_it_does_not_know(name):
    assert refuses(lambda: KNOWN[name].scene(anvil=3))


@pytest.mark.parametrize("name", KNOWN)
def test_whatever_a_control_holds_another_can_be_moved(name):
    """Two controls at any of their ends, in any order: what no longer fits gives way."""
    kind = KNOWN[name]
    for held, moved in itertools.permutations(kind.settings, 2):
        for one, other in itertools.product(ends(held), ends(moved)):
            state = {**begun(name), held.key: one}
            state = kind.job.fitted(state, Units.MM)[0].values
            job, why = kind.job.fitted({**state, moved.key: other}, Units.MM)
            after = job.values
            kind.job.asked(after, Units.MM)
            gave = {key for key in after if after[key] != {**state, moved.key: other}[key]}
            assert gave <= set(kind.job.gives)
            assert bool(gave) == bool(why)


@pytest.mark.parametrize("name", KNOWN)
def test_no_walk_from_end_to_end_is_refused(name):
    """Control after control goes to one of its ends: always something can give way."""
    dice = random.Random(f"{name}1")  # noqa: S311  (no secret)
    kind, state = KNOWN[name], begun(name)
    for _ in range(30 * len(kind.settings)):  # so long, and one in 600 is met
        moved = dice.choice(kind.settings)
        wish = {**state, moved.key: dice.choice(ends(moved))}
        state = kind.job.fitted(wish, Units.MM)[0].values


@pytest.mark.parametrize("name", KNOWN)
def test_what_fits_is_drawn(name):
    """States at random, many of them at the ends of controls, each fitted, then drawn."""
    dice = random.Random(name)  # noqa: S311  (no secret)
    kind = KNOWN[name]
    for _ in range(5):
        state = {s.key: dice.choice((*ends(s), s.start)) for s in kind.settings}
        state = kind.job.fitted(state, Units.MM)[0].values
        scene = KNOWN[name].scene(**state)
        assert scene.alt
        assert not scene.says.startswith("Illustrative"), "what is guessed stands in `fine`"


LENGTHS = re.compile(r"(?<![\w./])\d[\d. /]* in\b(?! (?:the|a|one)\b)")


@pytest.mark.parametrize("key", LESSONS)
def test_no_two_lengths_are_told_in_the_same_fraction(key):
    """What differs as a decimal differs as a fraction: "above 9/32 in, needs 9/32 in"."""
    kind, dice = KNOWN[LESSONS[key].__name__], random.Random(key)  # noqa: S311  (no secret)
    for _ in range(60):
        wish = {one.key: dice.choice(stops(one)) for one in kind.settings}
        job = kind.job.fitted(wish, Units.MM)[0]
        main = job.main or kind.settings[0].key
        fraction, fine = (
            [one.strip() for one in LENGTHS.findall(job.remarked(main, units))]
            for units in (Units.INCH_FRACTION, Units.INCH_DECIMAL)
        )
        assert len(set(fraction)) >= len(set(fine)), job.remarked(main, Units.INCH_FRACTION)


@pytest.mark.parametrize("key", LESSONS)
def test_a_lesson_names_the_slider_below_its_picture(key):
    """It is one of its numbers; briefs ask for four things, and have four."""
    lesson = LESSONS[key]
    if key == "briefs":
        return
    settings = {setting.key: setting for setting in KNOWN[lesson.__name__].settings}
    assert isinstance(settings[lesson.main], Setting)


@pytest.mark.parametrize("key", LESSONS)
def test_at_most_four_controls_are_seen_beside_the_main_one_and_every_one_somewhere(key):
    view = view_of(key)
    behind = LESSONS[key].behind.values()
    assert all(1 <= len(keys) <= 4 for keys in behind)
    assert not {*LESSONS[key].cues} & {one for keys in behind for one in keys}
    seen = {view.main, *(view.controls[one] for keys in behind for one in keys)}
    if LESSONS[key].stations:
        for station in range(len(view.stations.options)):
            view.stations.value = station
            assert 1 <= len(view.panel.children) <= 4
            seen |= set(view.panel.children)
    else:
        assert len(view.panel.children) <= 4
        seen |= set(view.panel.children)
    assert seen >= set(view.controls.values())


@pytest.fixture
def unpacked(monkeypatch):
    """Show pixels by their digest: alike where they are, and no PNG is packed for it."""

    def digest(image, *, moving=False):
        return hashlib.blake2b(image.tobytes()).digest() + bytes(moving)

    for module in (base, controls):
        monkeypatch.setattr(module, "encode", digest)


@pytest.mark.usefixtures("unpacked")
@pytest.mark.parametrize("name", KNOWN)
def test_a_move_makes_one_object_and_forges_no_bar_twice(name, monkeypatch):
    """What was found to fit is drawn, remarked upon and written; nothing is tried twice.

    Where values that go together are sought, each is a bar to be tried.
    """
    view, job, made, forged = KNOWN[name].view(), KNOWN[name].job, [], []
    view.code.opened = True
    ask, then = job.asked, Billet.then

    def asked(values, units):
        made.append(tuple(values.items()))
        return ask(values, units)

    def forging(self, *steps):
        bar = then(self, *steps)
        forged.append((self, bar))
        return bar

    monkeypatch.setattr(job, "asked", asked)
    monkeypatch.setattr(Billet, "then", forging)
    for one in KNOWN[name].settings:
        for other in {*ends(one)} - {view.state[one.key]}:
            forget()
            made.clear()
            forged.clear()
            wish = {**view.state, one.key: other}
            view.controls[one.key].value = other
            assert made
            assert len(set(made)) == len(made), one.key
            if view.state == wish:  # nothing gave way, nothing was refused
                twice = [pair for at, pair in enumerate(forged) if pair in forged[:at]]
                assert not twice, (one.key, other, len(forged))


@pytest.mark.usefixtures("unpacked")
@pytest.mark.parametrize("name", KNOWN)
def test_a_move_works_nothing_out_thousands_of_times(name):
    """Counted, not timed: what is asked for so often has to be kept."""
    view, calls = KNOWN[name].view(), Counter()

    def called(frame, event, _given):
        ours, code = frame.f_globals.get("__name__", ""), frame.f_code
        if event == "call" and ours.startswith("kit.") and code.co_name[0] != "<":
            calls[code] += 1

    main = view.lesson.main or KNOWN[name].settings[0].key
    first, *_, last = spread(next(one for one in KNOWN[name].settings if one.key == main))
    view.controls[main].value = first
    sys.setprofile(called)
    try:
        view.controls[main].value = last
    finally:
        sys.setprofile(None)
    assert max(calls.values()) < MOST_ASKED, calls.most_common(3)


@cache
def kept(_modules):
    """Give what lessons keep from picture to picture; anew when a module was read."""
    ours = [part for name, part in sys.modules.items() if name.startswith(LESSONS_OWN)]
    parts = (part for module in ours for part in vars(module).values())
    return {id(part): part for part in parts if hasattr(part, "cache_clear")}


def forget(own=""):
    """Empty it, or only what modules keep whose names begin so."""
    for part in kept(len(sys.modules)).values():
        if part.__module__.startswith(own):
            part.cache_clear()


@pytest.mark.usefixtures("unpacked")
@pytest.mark.parametrize("name", KNOWN)
def test_at_rest_a_picture_is_whole_and_the_numbers_of_a_move_are_true(name):
    """While it moves it is half as fine; nothing of that is kept, or measured.

    And a control that can be moved changes something.
    """
    view, still = KNOWN[name].view(), KNOWN[name].view()  # one moves, one never does
    dice = random.Random(name)  # noqa: S311  (no secret)
    for one in reversed(KNOWN[name].settings):
        state, shut, before = view.state, one.key in view.job.idle, seen(view)
        forget()
        stops = getattr(view.controls[one.key], "stops", None)
        view.controls[one.key].value = dice.choice(stops or list(range(*ends(one))) or [0])
        moved = view.shown.numbers
        view.rest()
        forget()
        still.begin(view.state)
        assert still.state == view.state
        assert still.shown.numbers == moved, one.key
        assert still.picture.frame == view.picture.frame, one.key
        assert still.picture.alt == view.picture.alt
        if not shut and view.state != state and seen(view) == before:
            assert changes(name, state, one), (one.key, state)


@pytest.mark.parametrize("name", KNOWN)
def test_a_picture_is_described_when_it_rests_and_before_only_if_it_is_asked(name):
    """Nobody reads a description of what moves: to make it took a tenth of a move."""
    view, sent = KNOWN[name].view(), []
    view.picture.observe(lambda change: sent.append(change["new"]), names="alt")
    moved = view.controls[KNOWN[name].job.main or KNOWN[name].settings[0].key]
    places = [one for one in getattr(moved, "stops", (0, 1)) if one != moved.value]
    for moved.value in places[:2]:
        assert callable(vars(view.shown)["alt"]), "it is made although nobody asked"
    assert view.picture.alt.startswith(view.shown.alt), "who asks is told of what is shown"
    assert not sent
    view.rest()
    assert sent == [view.picture.alt]


def seen(view):
    """Give what a reader has before them."""
    return view.shown.numbers, view.shown.says, view.picture.frame


def stops(setting):
    """Give all values at which a control can stand."""
    if isinstance(setting, Pick):
        return list(range(len(setting.options)))
    return setting.stops(Units.MM)


def spread(setting):
    """Give values of a control all over its range, its ends first."""
    every = stops(setting)
    if isinstance(setting, Pick):
        return every[::-1]
    return [every[round(share * (len(every) - 1))] for share in (0, 1, 0.5, 0.25, 0.75)]


def changes(name, state, setting):
    """Say whether any value of a control changes picture, numbers or sentence.

    None: none does, but some cannot be with the others as they are, and moves them.
    """

    def drawn(**other):
        scene = KNOWN[name].scene(**{**state, **other})
        return scene.numbers, scene.says, scene.image

    found = False
    with half_as_fine():
        before = drawn()
        for value in spread(setting):
            try:
                if value != state[setting.key] and drawn(**{setting.key: value}) != before:
                    return True
            except KitError:  # noqa: PERF203  (each value on its own)
                found = None
    return found


SHUT = [(name, why) for name, known in KNOWN.items() for why in known.job.shuts]


@pytest.mark.parametrize(("name", "why"), SHUT)
def test_a_control_is_shut_only_where_it_changes_nothing(name, why):
    """Where its reason holds: as it begins, with one control elsewhere, or with many."""
    kind, start = KNOWN[name], begun(name)
    dice = random.Random(why)  # noqa: S311  (no secret)
    moved = [{s.key: value} for s in kind.settings for value in spread(s)]
    many = ({s.key: dice.choice(ends(s)) for s in kind.settings} for _ in range(200))
    wishes = itertools.chain(({}, *moved), many)
    jobs = (kind.job.fitted({**start, **wish}, Units.MM)[0] for wish in wishes)
    job = next(job for job in jobs if why in job.idle.values())
    for setting in kind.settings:
        if job.idle.get(setting.key) == why:
            assert not changes(name, job.values, setting), setting.key


@pytest.mark.long
@pytest.mark.parametrize("name", KNOWN)
def test_a_control_is_shut_where_it_changes_nothing_and_only_there(name):
    """States at random, most controls at an end."""
    dice, kind = random.Random(name), KNOWN[name]  # noqa: S311  (no secret)
    for _ in range(20):
        state = {s.key: dice.choice((*ends(s), s.start)) for s in kind.settings}
        job = kind.job.fitted(state, Units.MM)[0]
        for setting in kind.settings:
            with suppress(KitError):  # it can be set so, and not be drawn
                found = changes(name, job.values, setting)
                assert found is not False or setting.key in job.idle, (
                    setting.key,
                    job.values,
                )
                assert not (found and setting.key in job.idle), (setting.key, job.values)

"""The forge's model: sentences, what must come first, a history that loses nothing."""

import math
import random
import re
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from PIL import Image
from smith import BARS, SQUARE, STACKED, TWISTED, random_history

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.course.anvil import clay, void
from kit.course.anvil.acts import VERBS, Laid, begun, done, first, name_of, why_not
from kit.course.anvil.desk import Desk, shortly
from kit.course.anvil.history import History
from kit.course.anvil.look import Look, scene
from kit.course.anvil.motif import Motif
from kit.course.anvil.play import CELL, Row, scale
from kit.course.anvil.sentence import Gap, does, entry, parts, short, spoken
from kit.course.as_code import as_code
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.flaw import Flaw
from kit.forge.stack import Layer, Stack, demo_stack
from kit.forge.steels import GRADES
from kit.forge.steps import (
    CutAndStack,
    DrawOut,
    Fold,
    Place,
    QuarterTurn,
    RoundUp,
    SquareUp,
    Twist,
)
from kit.section.picture import to_srgb
from kit.section.surface import shown_at
from kit.section.welds import hair_lines
from kit.shop.losses import weight
from kit.shop.patterns import PATTERNS
from kit.shop.recipes.recipe import from_json, to_json

LEFT_OUT = {"step", "heat"}


@pytest.mark.parametrize("name", VERBS)
def test_the_sentence_of_every_act_names_all_its_values(name):
    bar = next(bar for bar in BARS.values() if not why_not(name, bar))
    act = begun(name, bar)
    gaps = {part.key for part in parts(act) if isinstance(part, Gap)}
    hot = {"minutes"} if Place.FIRE in act.done_at and not isinstance(act, Laid) else set()
    assert gaps == (set(type(act).model_fields) - LEFT_OUT) | hot
    for units in Units:
        words = spoken(act, units)
        assert words.startswith(f"Now {name}")
        assert not re.search(r"[{}]|  | ,|None", words)
        assert len(words.split()) <= 30
        line = (part if isinstance(part, str) else part.shown(units) for part in parts(act))
        assert " not " not in "".join(line), "no step tells over and over what was not done"
    for part in parts(act):
        if isinstance(part, Gap) and part.value is not None and not part.options:
            for units in Units:
                stops = part.stops(units)
                assert part.low - 1e-9 <= stops[0] < stops[-1] <= part.high + 1e-9
                assert part.value in stops
                assert 2 <= len(stops) <= 300
                for value in stops[:: len(stops) // 4]:  # no knob springs from the hand
                    there = replace(part, value=value).stops(units)
                    assert abs(there.index(value) - stops.index(value)) <= 1


def test_a_step_that_says_nothing_has_a_sentence_of_its_titles(monkeypatch):
    monkeypatch.setattr(Twist, "says", "")
    words = spoken(Twist(turn_length=60))
    told = "length for one turn 60.0 mm, hand right, uneven 0%, dice throw 1."
    assert words == f"Now twist: {told}"


@pytest.mark.parametrize("name", VERBS)
@pytest.mark.parametrize("bar", BARS)
def test_what_must_come_first_makes_it_possible(name, bar):
    bar = BARS[bar]
    refused = why_not(name, bar)
    try:
        before = first(begun(name, bar), bar)
    except KitError:
        return
    assert bool(before) <= bool(refused)
    if refused and not isinstance(begun(name, bar), Laid):
        assert before, f"nothing helps: {refused}"
    for act in before:
        bar = done(act, bar)
    if before or not refused:
        done(begun(name, bar), bar)


@pytest.mark.parametrize("known", PATTERNS, ids=lambda known: known.name)
def test_every_pattern_has_a_history_that_makes_it(known):
    bar = known.forge()
    assert History.of(bar).bar == bar


@pytest.mark.parametrize("seed", range(20))
def test_a_random_history_is_found_again_in_its_bar(seed):
    history = random_history(seed).history
    found = History.of(history.bar)
    assert found.bar == history.bar
    done_ones = zip(history.acts, history.stages[1:], strict=True)
    assert found.acts == tuple(act for act, stage in done_ones if not stage.refused)
    for at, stage in enumerate(history.stages):
        assert stage.size == stage.bar.size
        assert stage.tally == stage.bar.tally
        assert entry(history, at, Units.MM)
        assert does(history, at, Units.INCH_FRACTION)


LOSING = {
    f"{name}, {kind}": Desk.of(bar).then(begun(name, bar)).history
    for name in VERBS
    for kind, bar in BARS.items()
    if not why_not(name, bar)
}


@pytest.mark.parametrize("name", [*LOSING, *range(20)])
def test_a_step_that_changes_the_weight_says_by_how_much_and_why(name):
    history = LOSING[name] if name in LOSING else random_history(name).history
    weights = [round(weight(stage.bar)) for stage in history.stages]
    for at, (before, after) in enumerate(pairwise(weights), 1):
        told = does(history, at, Units.MM)
        gone = f"It takes {before - after:,} g away: {history.acts[at - 1].takes}."
        assert (gone in told) == (before != after), told
        assert ("away" in told) == (before != after), told


@pytest.mark.parametrize("seed", range(20))
def test_what_is_refused_is_passed_over_and_kept(seed):
    draw = random.Random(seed)  # noqa: S311
    acts = list(random_history(seed).history.acts)
    draw.shuffle(acts)
    history = History(demo_stack(), tuple(acts))
    bar = STACKED
    for act, stage in zip(acts, history.stages[1:], strict=True):
        told = ""
        try:
            bar = done(act, bar)
        except KitError as refused:
            told = str(refused)
        assert stage.refused == told
        assert stage.bar == bar
    assert history.acts == tuple(acts)


@pytest.mark.parametrize("seed", range(12))
def test_insert_remove_and_move_lose_nothing(seed):
    draw = random.Random(seed)  # noqa: S311
    desk = random_history(seed, acts=6)
    for _ in range(40):
        desk = desk.goes(draw.randint(-2, 12))
        held = sorted(map(spoken, desk.history.acts))
        kind = draw.choice(("move", "add", "out"))
        if kind == "move":
            moved = desk.moved(desk.at, draw.choice((-1, 1)))
            assert sorted(map(spoken, moved.history.acts)) == held
        elif kind == "add":
            moved = desk.then(Fold())
            assert sorted(map(spoken, moved.history.acts)) == sorted(
                [*held, "Now fold it."]
            )
            assert moved.without(moved.at) == desk
        else:
            moved = desk.without(desk.at)
            assert len(moved.history.acts) == len(held) - (desk.at > 0)
        desk = moved
        assert 0 <= desk.at <= len(desk.history.acts)
        assert len(desk.history.stages) == len(desk.history.acts) + 1


def test_pieces_laid_together_are_pieces_of_the_bar():
    act = Laid(pieces=3, turned="every second of the other hand")
    bar = act.done_to(TWISTED)
    each = TWISTED.size.length / 3
    # a point of the second piece, followed back to the stack by the other hand's twist
    other = SQUARE.then(RoundUp(), Twist(turn_length=60, hand="left"), SquareUp())
    point = tuple(np.array([part]) for part in (4.0, 1.5, 2.0))
    assert np.allclose(bar.undo(point), point)  # the bundle is its source
    inner = bar.source.bars[1].undo(point)
    assert np.allclose(inner, other.undo((point[0] + each, *point[1:])))
    assert bar.size.width == pytest.approx(3 * TWISTED.size.width)
    assert bar.size.volume == pytest.approx(TWISTED.size.volume)
    over = Laid(pieces=2, laid="stacked", turned="every second turned over").done_to(
        STACKED
    )
    assert over.source.bars[1].steps[-1] == QuarterTurn(quarters=2)
    assert over.tally.layers == 2 * STACKED.tally.layers
    with pytest.raises(KitError, match="only if the bar was twisted"):
        act.done_to(STACKED)


def test_a_weld_that_did_not_take_is_carried_on():
    acts = (DrawOut(thickness=16), Fold(), DrawOut(thickness=16))
    history = History(demo_stack(), acts, missed=frozenset({2}))
    bar = history.bar
    surface = shown_at(bar, "end", 300, 120)
    found = void.flaws(history, 3)
    dark = void.lines(bar, surface, found)
    alone = hair_lines(bar, surface, [Flaw.whole(bar, step=2)])
    assert dark.max() > 0.05
    assert np.array_equal(dark, alone)
    assert void.flaws(history, 1) == [[]]  # before the fold there is no weld
    # and into pieces that are laid together: the gap is in every one of them
    laid = History(demo_stack(), (*acts, Laid(pieces=3)), missed=frozenset({2}))
    wide = shown_at(laid.bar, "end", 900, 120)
    lines = void.lines(laid.bar, wide, void.flaws(laid, 4))
    thirds = np.array_split(lines.max(axis=0), 3)
    assert all(third[20:-20].max() > 0.05 for third in thirds)
    assert void.join_at(history, 2)
    assert not void.join_at(history, 3)


def whole(history: History) -> Image.Image:
    row = Row()
    row.begin(history)
    assert row.draw()
    return row.image


def test_a_row_drawn_bit_by_bit_or_after_a_change_is_the_same():
    acts = (DrawOut(thickness=13.5), Fold(), CutAndStack(pieces=2), DrawOut(thickness=13.5))
    history = History(demo_stack(), acts)
    row = Row()
    row.begin(history)
    stretches = 1
    while not row.draw(0):
        stretches += 1
    assert stretches == len(history.stages)
    assert row.image == whole(history)
    for other in (
        history.changed(4, DrawOut(thickness=14)),
        history.changed(1, DrawOut(thickness=9)),
        history.removed(2),
        history.inserted(4, Fold()),
        replace(history, source=demo_stack(width=30)),
    ):
        row.begin(other)
        row.draw()
        assert row.image == whole(other)


def test_ends_stand_at_one_scale():
    history = History(
        demo_stack(), (DrawOut(thickness=13.5), Fold(), CutAndStack(pieces=2))
    )
    image = np.asarray(whole(history).convert("L"))
    pixel = scale(history)
    for at, stage in enumerate(history.stages):
        cell = image[:, at * CELL[0] : (at + 1) * CELL[0]] < 250
        wide, high = (
            np.ptp(np.flatnonzero(cell.any(0))),
            np.ptp(np.flatnonzero(cell.any(1))),
        )
        assert wide * pixel == pytest.approx(stage.size.width, abs=3 * pixel)
        assert high * pixel == pytest.approx(stage.size.thickness, abs=3 * pixel)


def test_five_clays_differ_in_lightness():
    # by contrast as WCAG 2.2 measures it: (lighter + 0.05) / (darker + 0.05)
    tones = sorted(clay.CLAYS.values())
    ratios = [(b + 0.05) / (a + 0.05) for a, b in pairwise(tones)]
    assert min(ratios) > 1.5
    assert len({int(grey) for grey in to_srgb(np.array(tones))}) == len(tones)


def test_no_two_metals_are_one_clay_however_many_there_are():
    names = list(clay.clays(GRADES).values())
    marks = [name.split()[-1] for name in names]
    assert marks == ["I" * strokes for strokes in range(1, len(GRADES) + 1)]


def test_a_motif_is_found_again_and_refuses_what_is_none():
    bars = (Layer(steel="1084", thickness=4), Layer(steel="15N20", thickness=2))
    for times, closed in ((1, False), (5, True), (40, False)):
        motif = Motif(bars, times, closed)
        assert Motif.of(motif.stack) == motif
    three = Motif((*bars, Layer(steel="1018", thickness=3)))
    assert three.moved(2, 0).metals == ["1018", "1084", "15N20"]
    assert Motif.of(Stack.alternate("1084", "15N20", pieces=7, thickness=3)).closed
    for bad in ({"bars": ()}, {"bars": bars, "times": 0}, {"bars": bars[:1]}):
        with pytest.raises(KitError):
            Motif(**bad)


@pytest.mark.parametrize("kind", ["end", "side", "face", "slant", "bevel", "solid"])
@pytest.mark.parametrize("bar", BARS)
def test_every_look_at_every_bar_shows_steel(kind, bar):
    for values in ({}, {"ground": 200, "angle": 2, "bevel": 90}, {"bevel": 2, "angle": 90}):
        looked = Look(kind=kind, **values)
        in_clay = scene(BARS[bar], looked, Units.INCH_FRACTION, as_clay=True)
        drawn = scene(BARS[bar], looked, Units.INCH_FRACTION)
        told = drawn.alt
        for steel, name in clay.clays(BARS[bar].source.steels).items():
            told = told.replace(steel, name)
        assert in_clay.alt == told
        surface = drawn.panels[0].surface
        cover = surface.look(0, surface.rows).cover
        assert (cover > 0.99).mean() > 0.05
        assert drawn.alt
        assert not re.search(r"\b1 (step|bar|layer|band)s\b", drawn.alt)


def test_a_bundle_that_no_act_makes_stays_as_it_came():
    bars = (STACKED.then(DrawOut(thickness=20)), STACKED.then(DrawOut(thickness=20)))
    bar = Billet(source=Bundle(bars=bars), steps=(DrawOut(thickness=15),))
    history = History.of(bar)
    assert history.source == bar.source
    assert [name_of(act) for act in history.acts] == ["draw out"]
    assert Desk.of(bar).motif is None


HOT = [name for name in VERBS if not why_not(name, STACKED)]


@pytest.mark.parametrize("name", HOT)
def test_a_heat_is_set_in_the_sentence_seen_in_the_picture_and_taken_out_again(name):
    desk = Desk.of(STACKED).then(begun(name, STACKED))
    gaps = {part.key: part for part in parts(desk.act) if isinstance(part, Gap)}
    if Place.FIRE not in desk.act.done_at or isinstance(desk.act, Laid):
        assert "minutes" not in gaps
        return
    assert gaps["minutes"].value is None
    assert "heat" not in spoken(desk.act)
    hot = desk.set("minutes", 30).set("celsius", 1100)
    assert (hot.act.heat.celsius, hot.act.heat.minutes) == (1100, 30)
    assert hot.history.bar.size == desk.history.bar.size
    assert ", heat 30 min at 1100 °C (2012 °F)" in spoken(hot.act)
    assert from_json(to_json(hot.recipe("hot"))).billet == hot.history.bar
    assert "Heat(" in as_code(hot.history.bar)
    one, other = (scene(bar.history.bar, Look(kind="end")).image for bar in (desk, hot))
    assert (one.tobytes() != other.tobytes()) == (hot.history.bar.layers > 1)
    told = does(hot.history, hot.at, Units.MM)
    assert "In its heat carbon got 0.3" in told  # √(D t), by hand below
    assert hot.set("minutes", None).act == desk.act
    with pytest.raises(KitError, match="melt"):
        hot.set("celsius", 1500)


def test_what_is_told_of_a_heat_is_reckoned_by_hand():
    """√(D t) at 1100 °C for 20 minutes.

    Carbon: D = 2.3e-5 m²/s · exp(-148000 / (8.314 · 1373.15)); Callister, as in
    `kit.metal.diffusion`.
    """
    far = 1e3 * math.sqrt(2.3e-5 * math.exp(-148e3 / 8.314 / 1373.15) * 1200)
    desk = Desk.of(STACKED).then(begun("fold", STACKED)).set("minutes", 20)
    told = does(desk.set("celsius", 1100).history, 1, Units.MM)
    assert f"carbon got {far:.3g} mm" in told


@pytest.mark.parametrize("bar", BARS)
@pytest.mark.parametrize("name", VERBS)
def test_an_offer_names_its_steps_as_the_history_then_does(name, bar):
    desk = Desk.of(BARS[bar])
    if acts := desk.offers(name, here=False):
        offered, then = shortly(acts, desk.stage.bar), desk.then(*acts)
        names = [short(then.history, at) for at in range(desk.at + 1, then.at + 1)]
        assert offered == f"{', '.join(names[:-1])}, then {names[-1]}"

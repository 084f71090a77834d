"""Counts that cannot stray: a line through the bar, the tally, and plain sampling agree.

The plain way undoes every step at 120,000 places of the line and looks where the bar of
the stack, or the place along it, jumps; nothing of the engine is used.
"""

import numpy as np
import pytest
from steps import stack

from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Stack
from kit.forge.steps import (
    CutAndStack,
    Dent,
    DrawOut,
    Fold,
    FourWay,
    Grind,
    GrindRound,
    Groove,
    Hammer,
    Layers,
    QuarterTurn,
    RoundUp,
    Split,
    SquareUp,
    Twist,
    Upset,
)

PLACES = 120_000
JUMP = 0.05  # mm along the stack, from place to place: a weld


def some_step(draw, billet, *, tilting):
    """Draw a step that this bar may take."""
    length, width, thickness = billet.size
    share = draw.uniform
    kinds = {
        "draw out": lambda: DrawOut(thickness=thickness * share(0.4, 1.3)),
        "upset": lambda: Upset(length=length * share(0.6, 1)),
        "fold": Fold,
        "cut and stack": lambda: CutAndStack(pieces=int(draw.integers(2, 4))),
        "crop": lambda: Grind(ends=length * share(0.01, 0.1)),
        "sides": lambda: Grind(sides=width * share(0.01, 0.15)),
        "top": lambda: Grind(top=thickness * share(0.01, 0.3)),
        "bottom": lambda: Grind(bottom=thickness * share(0, 0.2), top=thickness * 0.02),
        "nothing": Grind,
        "over": lambda: QuarterTurn(quarters=2),
        "edge": lambda: QuarterTurn(quarters=int(draw.choice([1, 3]))),
        "hammer unevenly": lambda: Hammer(
            depth=0.08 * thickness, spacing=share(15, 40), seed=int(draw.integers(99))
        ),
    }
    if tilting:
        kinds |= {
            "grind round": GrindRound,
            "round": RoundUp,
            "twist": lambda: Twist(turn_length=share(40, 90)),
            "square": SquareUp,
            "ladder": lambda: Groove(way="cut and forged", across=8, depth=1, spacing=17),
            "balls": lambda: Dent(way="cut and forged", across=9, depth=2, spacing=16),
            "split": lambda: Split(drag=thickness * 0.3, reach=width * 0.1),
            "four-way": FourWay,
        }
    return kinds[draw.choice(list(kinds))]()


def forging(draw, *, tilting, steps=None):
    """Draw a history of 1 to 12 steps; one that the bar cannot take is left out."""
    pieces = int(draw.integers(2, 8))
    bars = (float(draw.uniform(2, 5)), float(draw.uniform(1, 4)))
    billet = Billet(source=stack(pieces, bars, length=300.0, width=26.0))
    for _ in range(steps or draw.integers(1, 13)):
        try:
            more = billet.then(some_step(draw, billet, tilting=tilting))
        except KitError:
            continue
        if more.layers <= 600 and more.size.length > 20:
            billet = more
    return billet


def through(billet):
    """Give a line square to the layers, in a place that no weld runs along."""
    length, width, thickness = billet.size
    x, aside = 0.3717 * length, 0.0 if billet.size.round else 0.0913
    if billet.tally.rolled:
        return (x, -width / 2, aside * thickness), (x, width / 2, aside * thickness)
    return (x, aside * width, -thickness / 2), (x, aside * width, thickness / 2)


def plainly(billet, start, end):
    """Count pieces and bands the plain way, in bundles too."""
    share = (np.arange(PLACES) + 0.5) / PLACES
    points = tuple(a + (b - a) * share for a, b in zip(start, end, strict=True))
    place, along, names = looked_up(billet, points)
    new = (np.diff(place) != 0) | (np.abs(np.diff(along)) > JUMP)
    return 1 + int(new.sum()), 1 + int(np.count_nonzero(names[1:] != names[:-1]))


def looked_up(billet, points):
    before, halves = points, 0
    for step, size in zip(billet.steps[::-1], billet.sizes[-2::-1], strict=True):
        if isinstance(step, Split):  # welded again where it was split: no jump is left
            halves = 2 * halves + (before[1] >= 0)
        before = step.undo(before, size)
    if isinstance(billet.source, Bundle):
        axis = 1 if billet.source.laid == "side by side" else 2
        place, along = np.zeros(PLACES, int), np.zeros(PLACES)
        names = np.full(PLACES, "", object)
        breadths = [bar.size[axis] for bar in billet.source.bars]
        base = -sum(breadths) / 2
        for number, (bar, breadth) in enumerate(
            zip(billet.source.bars, breadths, strict=True)
        ):
            own = list(before)
            own[axis] = before[axis] - base - breadth / 2
            mine = (before[axis] >= base) & (before[axis] < base + breadth)
            found = looked_up(bar, tuple(own))
            place[mine] = 10**5 * (number + 1) + found[0][mine]
            along[mine], names[mine] = found[1][mine], found[2][mine]
            base += breadth
        return place + 10**6 * halves, along, names
    heights = np.cumsum([bar.thickness for bar in billet.source.layers])
    bars = np.searchsorted(heights, before[2] + heights[-1] / 2)
    bars = np.clip(bars, 0, len(heights) - 1)
    return bars + 100 * halves, before[0], np.array(billet.source.steels, object)[bars]


@pytest.mark.parametrize("seed", range(120))
def test_the_tally_agrees_with_a_line_through_the_bar_wherever_it_counts(seed):
    draw = np.random.default_rng(seed)
    billet = forging(draw, tilting=seed % 3 == 0)
    counted = [stage for stage in range(len(billet) + 1) if billet.tallies[stage].even]
    for stage in counted:
        bar = billet[:stage]
        found = bar.census(*through(bar))
        assert (found.layers, found.bands) == (bar.layers, bar.bands), bar.steps
        assert found.mean == pytest.approx(bar.mean_layer)
        if bar.tally.lie is Layers.FLAT:
            pieces = bar.tally.pieces
            thin = pieces.thinnest * bar.across / pieces.height
            assert found.thinnest == pytest.approx(thin)


@pytest.mark.parametrize("seed", range(120, 180))
def test_the_census_agrees_with_plain_sampling_after_any_step(seed):
    draw = np.random.default_rng(seed)
    billet = forging(draw, tilting=True)
    if seed % 3 == 0:  # and in a bundle of it with another, forged on
        fitted = Grind(ends=(billet.size.length - 20) / 2)
        try:
            one = billet.then(fitted)
            other = one.then(QuarterTurn(quarters=2))
            laid = "stacked" if seed % 2 else "side by side"
            billet = Billet(source=Bundle(bars=(one, other), laid=laid)).then(Fold())
        except KitError:  # a round bar
            pass
    length, width, thickness = billet.size
    inner = 0.49 / (2**0.5 if billet.size.round else 1)
    start = (0.21 * length, -inner * width, -inner * thickness)
    end = (0.53 * length, 0.8 * inner * width, inner * thickness)
    found = billet.census(start, end)
    layers, bands = plainly(billet, start, end)
    # a piece thinner than a place may be passed over by the plain way
    thin = np.diff(found.borders) < 2 * found.borders[-1] / PLACES
    assert layers <= found.layers <= layers + 2 * thin.sum()
    assert bands <= found.bands <= bands + 2 * thin.sum()
    assert found.borders[-1] == pytest.approx(np.linalg.norm(np.subtract(end, start)))
    assert len(found.steels) == found.layers == len(found.borders) - 1


def test_a_crop_between_folds_changes_no_count():
    # By hand: 9 bars, folded twice, 36 layers, 33 bands.
    folded = Billet(source=stack(9, 3.0, length=300.0))
    for between in (Grind(ends=7.5), Grind(), Grind(sides=2)):
        bar = folded.then(Fold(), between, Fold())
        assert (bar.layers, bar.bands) == (36, 33)


def test_a_slanting_line_meets_layers_longer():
    # At 30° to the layers a line is 1/sin 30° = 2 times as long in each.
    bar = Billet(source=stack(9, 3.0))
    run = 13.5 / np.tan(np.radians(30))
    found = bar.census((75 - run, 0, -13.5), (75 + run, 0, 13.5))
    assert found.layers == 9
    assert [found.mean, found.thinnest] == pytest.approx([6, 6])


def test_a_line_that_turns_back_enters_a_layer_again():
    # By hand: nine bars on edge, bent nowhere, met along the bar: one piece of steel.
    bar = Billet(source=stack(9, 3.0))
    assert bar.census((5, 0, 1), (145, 0, 1)).layers == 1
    # In a bar twisted by half a turn a line along it meets the stack and goes back.
    square = Billet(source=stack(9, 2.0, length=100.0, width=18.0))
    twisted = square.then(RoundUp(), Twist(turn_length=200))
    found = twisted.census((0, 8, 0), (100, 8, 0))
    assert found.layers == 9  # from the middle bar past three to the top one, and back
    assert found.steels[0] == found.steels[-1]


def test_a_million_layers_are_followed_and_no_more():
    stacked = Billet(source=stack(10, 3.0))
    fine = stacked.then(*(Fold(), DrawOut(thickness=30)) * 16)
    found = fine.census(*through(fine))
    assert (found.layers, found.bands) == (10 * 2**16, 9 * 2**16 + 1)
    finer = fine.then(*(Fold(), DrawOut(thickness=30)) * 2)
    with pytest.raises(KitError, match="At most 1,000,000 layers can be followed"):
        finer.census(*through(finer))


@pytest.mark.parametrize(
    ("start", "end"),
    [
        ((0, 0, 40), (150, 0, 40)),
        ((10, 0, 0), (10, 0, 0)),
        ((10, 0), (20, 0)),
        ((10, 0, float("nan")), (20, 0, 0)),
    ],
)
def test_a_line_beside_the_bar_is_refused_in_one_sentence(start, end):
    with pytest.raises(KitError) as refused:
        Billet(source=stack(9, 3.0)).census(start, end)
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize("before", [(), (FourWay(),), (FourWay(), FourWay())], ids=len)
@pytest.mark.parametrize("later", [(FourWay(),), (FourWay(), FourWay())], ids=len)
def test_every_piece_of_a_piece_is_told_from_every_other(before, later):
    # Each FourWay lays four pieces together, each with four of the bundle's two bars.
    laid = Stack.alternate("1084", "15N20", pieces=8, thickness=5.0, length=800, width=40)
    bar = Billet(source=laid).then(*before, DrawOut(thickness=20, width=40))
    bundle = Billet(source=Bundle(bars=(bar, bar), laid="stacked")).then(*later)
    places = (np.arange(600) + 0.5) / 600 - 0.5
    y, z = np.meshgrid(places * bundle.size.width, places * bundle.size.thickness)
    points = np.full_like(y, 0.4 * bundle.size.length), y, z
    inside, code, *_ = bundle.taken_apart(points)
    which = bundle.source.which(inside)
    own = [bar.follow(bundle.source.own(one, inside)).piece for one in (0, 1)]
    told = np.stack([code, which.astype(np.uint64), np.where(which, own[1], own[0])])
    pieces = np.unique(told.reshape(3, -1), axis=1).shape[1]
    assert pieces == 2 * 4 ** (len(before) + len(later))
    assert len(np.unique(bundle.follow(points).piece)) == pieces

"""Counts, sizes and limits of a billet, against hand sums and a line through the steel.

Layers are counted as the trade does (pieces of steel), bands as they can be told
apart (like steel on like steel is one).
"""

import itertools
import math

import numpy as np
import periodictable
import pytest
from steps import forged, stack, undone

from kit.basics.errors import KitError
from kit.forge.billet import Billet, fold_and_draw
from kit.forge.stack import Layer, Stack, demo_stack
from kit.forge.steps import CutAndStack, DrawOut, Fold, Hammer, QuarterTurn
from kit.section import surface


def counted(billet, samples=40):
    """Count layers and bands along a line through the bar, knowing nothing of tallies.

    A place in the stack is a bar *and* a distance along it: where two leaves meet,
    the distance jumps even if the bar does not. Steps must leave the layers flat.
    """
    count = samples * billet.layers
    z = ((np.arange(count) + 0.5) / count - 0.5) * billet.size.thickness
    line = np.full(count, 0.317 * billet.size.length), np.full(count, 0.1), z
    bars, (along, *_) = undone(billet, line)
    pieces = list(zip(bars.tolist(), np.round(along, 6).tolist(), strict=True))
    names = [billet.source.steels[bar] for bar in bars]
    return [1 + sum(a != b for a, b in itertools.pairwise(c)) for c in (pieces, names)]


def test_four_bars_folded_twice():
    # By hand: 4, 8, 16; each fold lays like on like in the middle: 4, 7, 13.
    billet = forged(4, 2)
    assert (billet.layers, billet.bands) == (16, 13)


def test_thirteen_bars_folded_five_times():
    # Common practice, no source: 13 × 2^5 = 416 layers; (13 - 1) × 32 + 1 = 385 bands.
    billet = forged(13, 5)
    assert (billet.layers, billet.bands) == (416, 385)
    assert counted(billet) == [416, 385]


@pytest.mark.parametrize("pieces", [2, 3, 4, 7, 9, 11])
@pytest.mark.parametrize("folds", range(7))
def test_the_band_formula_and_a_line_through_the_steel(pieces, folds):
    billet = forged(pieces, folds)
    expected = [pieces * 2**folds, (pieces - 1) * 2**folds + 1]
    assert [billet.layers, billet.bands] == expected
    assert counted(billet) == expected


@pytest.mark.parametrize(
    ("pieces", "restack", "times", "layers", "bands"),
    [
        # Makers report 5, 15, 45, 135, 405; common practice, no source. Five bars
        # end in like steel, so each of the 80 joints between stacks is one band less.
        (5, 3, 4, 405, 325),
        (8, 2, 4, 128, 128),  # an even stack: unlike meets unlike, nothing is lost
        (7, 2, 2, 28, 25),  # makers report 7, 28; common practice, no source
        (6, 5, 2, 150, 150),
        (3, 10, 1, 30, 21),
        (4, 1, 3, 4, 4),
    ],
)
def test_restacking(pieces, restack, times, layers, bands):
    billet = forged(pieces, times, restack)
    assert (billet.layers, billet.bands) == (layers, bands)
    assert counted(billet) == [layers, bands]


def test_like_faces_merge_fold_by_fold():
    # 7, 13, 25, 49, 97, 193: n becomes 2n - 1 where the two faces meet. Derived.
    billet = forged(7, 5)
    bands = [billet[: 2 * folds].bands for folds in range(6)]
    assert bands == [7, 13, 25, 49, 97, 193]


@pytest.mark.parametrize(
    "steps",
    [
        (Fold(), CutAndStack(pieces=3), DrawOut(thickness=20), Fold()),
        (
            CutAndStack(pieces=4),
            Fold(),
            DrawOut(thickness=9, width=20),
            CutAndStack(pieces=2),
        ),
        (QuarterTurn(quarters=2), Fold(), CutAndStack(pieces=2)),
        (QuarterTurn(), DrawOut(thickness=30), QuarterTurn(quarters=3), Fold(), Fold()),
        (QuarterTurn(), QuarterTurn(), Fold(), CutAndStack(pieces=3)),
    ],
)
@pytest.mark.parametrize("pieces", [4, 5])
def test_mixed_histories_are_counted_as_they_are(pieces, steps):
    billet = Billet(source=stack(pieces), steps=steps)
    assert [billet.layers, billet.bands] == counted(billet)


@pytest.mark.parametrize("quarters", [(1, 1), (2,), (3, 3), (1, 3), (1, 2, 1), (2, 2)])
def test_the_steels_on_the_two_faces(quarters):
    turns = (QuarterTurn(quarters=quarter) for quarter in quarters)
    billet = Billet(source=stack(4)).then(*turns)
    skin = billet.size.thickness / 2 * np.array([-0.999, 0.999])
    bars, _ = undone(billet, (np.full(2, 50.0), np.zeros(2), skin))
    assert [billet.tally.pieces.bottom, billet.tally.pieces.top] == [
        stack(4).steels[b] for b in bars
    ]


def test_layers_on_edge_are_not_multiplied():
    # Set on edge, a fold lays every layer against itself: nothing new to count.
    billet = Billet(source=stack(6)).then(QuarterTurn(), Fold(), Fold())
    assert (billet.layers, billet.bands) == (6, 6)
    assert billet.mean_layer == pytest.approx(3)
    back = billet.then(QuarterTurn(quarters=3), Fold())
    assert (back.layers, back.bands) == (12, 11)


def test_prefixes_are_the_billet_after_each_step():
    billet = forged(11, 5, thickness=6)
    layers = [billet[:stage].layers for stage in range(len(billet) + 1)]
    assert layers == [11, 22, 22, 44, 44, 88, 88, 176, 176, 352, 352, 352]
    assert [billet[:stage].size for stage in range(12)] == list(billet.sizes)
    assert len(billet[:-1]) == 10
    assert billet[:] == billet
    assert len(billet.then(Fold())) == 12
    assert len(billet) == 11  # it stays as it was


@pytest.mark.parametrize("name", ["census", "follow", "tally", "unfolded", "level"])
def test_billets_stay_equal_whatever_was_asked_of_them(name):
    one, other = forged(4, 2), forged(4, 2)
    asked = {
        "census": lambda bar: bar.census((9, 0, -5), (9, 0, 5)),
        "follow": lambda bar: bar.follow(tuple(np.zeros((3, 2)))),
    }.get(name, lambda bar: getattr(bar, name))
    asked(one)
    assert one == other
    asked(other)
    assert one == other
    assert hash(one) == hash(other)


def test_sizes_at_every_stage():
    # By hand. 11 bars of 3 mm: 33 mm. Fold: half as long, twice as thick. Drawn to
    # 33 mm again it is as long as before; to 6 mm: 150 × 33 / 6 = 825 mm.
    billet = forged(11, 2, thickness=6)
    stages = [(150, 38.1, 33), (75, 38.1, 66)] * 2 + [(150, 38.1, 33), (825, 38.1, 6)]
    turned = billet.then(
        CutAndStack(pieces=3), QuarterTurn(), DrawOut(thickness=20, width=9)
    )
    stages += [(275, 38.1, 18), (275, 18, 38.1), (150 * 38.1 * 33 / 180, 9, 20)]
    assert np.array(turned.sizes) == pytest.approx(np.array(stages))


def test_mean_and_thinnest_layer():
    # Six bars of 1/8 in and five of 1/16 in: 17/16 in. Drawn to 6 mm, five folds:
    # 32 stacks of 0.1875 mm; a thin bar is a seventeenth of a stack.
    billet = Billet(source=demo_stack())
    billet = fold_and_draw(billet, folds=5, thickness=6)
    assert billet.mean_layer == pytest.approx(6 / 352)
    pieces = billet.tally.pieces
    assert pieces.thinnest / pieces.height * 6 == pytest.approx(6 / 32 / 17)


@pytest.mark.parametrize(
    ("height", "area", "strain"), [(62, 2375, 0.190), (49, 3005, 0.426), (36, 4091, 0.734)]
)
def test_upsetting_keeps_the_volume(height, area, strain):
    # Groover, Fundamentals of Modern Manufacturing, bulk deformation, example on
    # upsetting: a round 50 mm in diameter and 75 mm high; V = 147 262 mm³. Its
    # figures from memory; they are plain arithmetic. Here the bar is square, of the
    # same section: how the section is shaped does not enter. The height is ours
    # through the thickness.
    side = 50 * math.sqrt(math.pi) / 2
    upright = Billet(source=stack(2, 37.5, length=side, width=side))
    assert upright.size.volume == pytest.approx(147_262, abs=1)
    growth = math.sqrt(75 / height)
    upset = upright.then(DrawOut(thickness=height, width=side * growth))
    assert upset.size.length * upset.size.width == pytest.approx(area, abs=1)
    assert upset.size.volume == pytest.approx(147_262, abs=1)
    assert math.log(75 / upset.size.thickness) == pytest.approx(strain, abs=5e-4)


def test_the_legend_of_a_million_layers():
    # 2 × 2^19 = 1 048 576; 5 mm shared among them is 4.77 nm. Plain arithmetic.
    billet = forged(2, 19, thickness=5)
    assert billet.layers == 1_048_576
    assert billet.mean_layer * 1e6 == pytest.approx(4.768, abs=5e-4)


def test_steel_can_be_divided_down_to_its_atoms_and_no_further():
    # Iron is body-centred cubic with a = 0.2866 nm (ASM Handbook vol. 2, properties of
    # pure metals; from memory; periodictable, which has 0.287, agrees): atoms touch
    # along the diagonal, so one is √3/2 a = 0.248 nm across.
    iron = periodictable.Fe.crystal_structure
    assert iron["symmetry"] == "BCC"
    atom = math.sqrt(3) / 2 * iron["a"] * 1e-7  # mm
    fits = 0.5 / atom  # layers in a bar of half a millimetre
    assert 2 * 2**19 < fits < 4 * 2**19
    assert forged(2, 19, thickness=0.5).layers == 2**20
    with pytest.raises(KitError, match=r"2,097,152 layers in 0\.5 mm .* atom of iron"):
        forged(4, 19, thickness=0.5)
    with pytest.raises(KitError, match="thinner than one atom"):
        forged(2, 19).then(
            DrawOut(thickness=1), CutAndStack(pieces=10), DrawOut(thickness=1)
        )


def test_the_limit_of_the_atom_holds_across_the_bar_as_well():
    # 5 × 2^20 layers set on edge and 1 mm together: 0.19 nm each, thinner than an atom.
    edge = forged(5, 20, thickness=6).then(QuarterTurn())
    with pytest.raises(KitError, match="atom of iron"):
        edge.then(DrawOut(thickness=30, width=1))
    # 20 mm together they are 3.8 nm each, however thin the bar is the other way.
    thin = edge.then(DrawOut(thickness=0.5, width=20))
    assert thin.mean_layer == pytest.approx(20 / (5 * 2**20))


BAD = [
    (lambda: stack(0), "from 2 to 1000 bars.*Given: 0"),
    (lambda: stack(1), "from 2 to 1000 bars.*Given: 1"),
    (lambda: Stack(layers=stack(2).layers[:1]), "from 2 to 1000 bars.*Given: 1"),
    (lambda: stack(10**6), "from 2 to 1000 bars.*Given: 1000000"),
    (lambda: Stack(layers=stack(2).layers * 501), "2 to 1000 bars.*Given: 1002"),
    (lambda: stack("many"), "from 2 to 1000 bars.*Given: many"),
    (lambda: Layer(steel="tin", thickness=3), "called 'tin'. Known: .*15N20"),
    (lambda: stack(4, "abc"), "Thickness of a bar.* 0.01 to 100 mm. Given: abc"),
    (lambda: stack(4, -3), "from 0.01 to 100 mm. Given: -3"),
    (lambda: stack(4, float("nan")), "from 0.01 to 100 mm. Given: nan"),
    (lambda: stack(4, (3.0,)), "Thickness.*Given: .*3.0"),
    (lambda: stack(4, length=0), "Length.*from 5 to 5000 mm. Given: 0"),
    (lambda: forged(4, -3), "Folds.*number from 0 to 20. Given: -3"),
    (lambda: forged(4, 40), "Folds.*number from 0 to 20. Given: 40"),
    (lambda: forged(4, 1.5), "Folds.*number from 0 to 20. Given: 1.5"),
    (lambda: forged(4, "two"), "Folds.*number from 0 to 20. Given: two"),
    (lambda: forged(4, True), "Folds.*number from 0 to 20. Given: True"),
    (lambda: forged(4, 2, 0), "Pieces.*number from 1 to 10. Given: 0"),
    (lambda: forged(4, 2, "x"), "Pieces.*number from 1 to 10. Given: x"),
    (lambda: forged(4, 2, thickness="abc"), "Draw .* 0.5 to 200 mm. Given: abc"),
    (lambda: forged(4, 2, thickness=0), "Draw .* 0.5 to 200 mm. Given: 0"),
    (lambda: forged(4, 2, thickness=-1), "Draw .* 0.5 to 200 mm. Given: -1"),
    (lambda: sawn(angle=0), "angle must be from 2 to 90 degrees.*Given: 0"),
    (lambda: sawn(angle=400), "angle must be from 2 to 90 degrees.*Given: 400"),
    (lambda: sawn(angle="abc"), "angle must be from 2 to 90 degrees.*Given: abc"),
    (lambda: sawn(angle=45, position=101), "from 0 to 100 %.*Given: 101"),
    (lambda: folded(10_000), "from 0 to 200 steps. Given: 10000"),
    (lambda: folded(1).then("twice"), "Steps.*Given: twice"),
    (lambda: Billet(source="a bar"), "Source.*Given: a bar"),
    (lambda: folded(1).then(Hammer(depth=9, spacing=9)), "to 5.40 mm.*Given: 9"),
    (lambda: folded(2)[1], r"as billet\[:3\]. Given: 1"),
    (lambda: folded(2)[1:], r"as billet\[:3\]. Given: slice"),
    (lambda: folded(2)[:"3"], r"as billet\[:3\]. Given: slice"),
    (lambda: folded(2)[:2.5], r"as billet\[:3\]. Given: slice"),
    (lambda: folded(2)[:True], r"as billet\[:3\]. Given: slice"),
    (lambda: stack(4, [3, 1, 2]), "Thickness must be one number or two.*Given: "),
]


def sawn(**where):
    return surface.cut(forged(4, 2).size, **where)


def folded(times):
    return Billet(source=stack(4), steps=(Fold(),) * times)


@pytest.mark.parametrize(("wish", "words"), BAD, ids=[words for _, words in BAD])
def test_bad_input_gets_one_plain_sentence(wish, words):
    with pytest.raises(KitError, match=words) as refused:
        wish()
    assert "\n" not in str(refused.value)
    assert len(str(refused.value)) < 300

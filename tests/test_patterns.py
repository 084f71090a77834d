"""Named patterns: each can be forged, and shows the symmetry that its name promises."""

import numpy as np
import pytest

from kit import Billet, Bundle, Hammer, KitError
from kit.forge.steels import steel
from kit.metal import etch
from kit.metal.diffusion import spread
from kit.metal.hardening import EDGE_CARBON
from kit.section.surface import shown_at
from kit.section.trace import see
from kit.shop.patterns import PATTERNS, pattern

NAMES = [known.name for known in PATTERNS]


def evenly(billet):
    """Forge the same bar as a machine would: no blow uneven, no hand that strays."""
    strays = ("wander", "differ", "uneven")
    steps = tuple(
        step.model_copy(update={name: 0 for name in strays if hasattr(step, name)})
        for step in billet.steps
        if not isinstance(step, Hammer)
    )
    source = billet.source
    if isinstance(source, Bundle):
        source = Bundle(bars=tuple(map(evenly, source.bars)), laid=source.laid)
    return Billet(source=source, steps=steps)


def seen(name, columns=360, rows=200, made=lambda billet: billet):
    known = pattern(name)
    billet = made(known.forge())
    plane = shown_at(billet, known.shown, columns, rows)
    face = see(billet, plane, etch.tones(billet.source.steels))
    return billet, plane, face


def steel_of(face):
    """Cut out the rectangle of the picture that is all steel."""
    rows, columns = np.where(face.cover > 0.999)
    return face.tone[rows.min() : rows.max() + 1, columns.min() : columns.max() + 1]


@pytest.mark.parametrize("name", NAMES)
def test_every_pattern_can_be_forged_and_seen(name):
    _, _, face = seen(name)
    assert np.isfinite(face.tone).all()
    assert np.ptp(steel_of(face)) > 0.5, "dark and bright"
    assert pattern(name.upper()).note


def test_the_line_of_plain_san_mai_is_as_sharp_as_its_note_says():
    """Ten minutes at welding heat: nickel stays, and carbon has no soft side to go to."""
    known = pattern("san mai, plain")
    assert "line between is sharp" in known.note
    layers = known.forge().source.layers
    assert all(steel(one.steel).nominal["C"] > EDGE_CARBON for one in layers)
    assert spread("Ni", 1150, 10) < min(one.thickness for one in layers) / 1000


def test_names_are_one_each():
    assert len(set(NAMES)) == len(NAMES)


def test_unknown_name():
    with pytest.raises(KitError, match="no pattern called 'zebra'"):
        pattern("zebra")


def lay_at(billet, plane):
    """Say how high above the axis what the face shows lay before rungs were made, mm."""
    points = plane.look(0, plane.rows, float).points
    for step, size in reversed(list(zip(billet.steps, billet.sizes, strict=False))[-2:]):
        points = step.undo(points, size)
    return points[2]


@pytest.mark.parametrize(("name", "apart"), [("ladder", 12.0), ("star", 25.4 / 2)])
def test_rungs_and_stars_come_at_their_distance(name, apart):
    """The strongest repeat along the bar is the spacing the recipe names.

    On a forged ground no tone repeats; what repeats is how deep the rungs reached.
    """
    billet, plane, face = seen(name, columns=900)
    deep = lay_at(billet, plane) if name == "ladder" else steel_of(face)
    line = deep.mean(axis=0)
    line = line - line.mean()
    match = np.correlate(line, line, "full")[line.size - 1 :]
    low, high = round(0.6 * apart / plane.pixel), round(1.5 * apart / plane.pixel)
    best = low + int(np.argmax(match[low:high]))
    assert best * plane.pixel == pytest.approx(apart, rel=0.05)


def test_composite_mirrors_in_its_middle_seam_but_for_the_hand():
    tone = steel_of(seen("multi-bar composite", made=evenly)[2])
    np.testing.assert_allclose(tone, tone[::-1], atol=0.1)
    tone = steel_of(seen("multi-bar composite", columns=900, rows=500)[2])
    assert np.abs(tone - tone[::-1]).mean() > 0.1


def way_of_lines(tone):
    """Say how lines run in each of 3 × 6 parts: the tensor's angle, degrees."""
    down, right = np.gradient(tone)
    parts = [np.array_split(rows, 6, axis=1) for rows in np.array_split(
        np.stack([down * right, right**2 - down**2], axis=-1), 3)]  # fmt: skip
    sums = np.array([[part.sum(axis=(0, 1)) for part in row] for row in parts])
    return np.degrees(np.arctan2(2 * sums[..., 0], sums[..., 1])) / 2


def test_feather_is_alike_on_both_sides_and_never_mirrored():
    """Barbs lean alike both ways; a wedge driven by hand mirrors none to the pixel."""
    tone = steel_of(seen("feather", columns=1800, rows=700)[2])
    half = len(tone) // 2
    above, below = (way_of_lines(part) for part in (tone[:half], tone[: -half - 1 : -1]))
    assert above == pytest.approx(below, abs=15)
    assert np.abs(tone[:half] - tone[: -half - 1 : -1]).mean() > 0.1


def test_a_barb_leans_ever_more_until_it_runs_along_the_quill():
    billet = pattern("feather").forge()
    half, nudge = billet.size.width / 2, 1e-4

    def lean(share):
        """Give the angle between a layer and the way across the feather, degrees."""
        y, z = np.full((2, 4), 0.3)
        y += share * half - 0.3 + np.array([-nudge, nudge, 0, 0])
        z += np.array([0, 0, -nudge, nudge])
        _, _, height = billet.undo((np.full(4, 20.0), y, z))
        across, along = np.ptp(height[:2]), np.ptp(height[2:])
        return np.degrees(np.arctan2(across, along))

    leans = [lean(share) for share in (0.95, 0.6, 0.3, 0.1, 0.01)]
    assert leans == sorted(leans)
    assert leans[0] < 60
    assert leans[-1] > 85


def test_mosaic_turns_into_itself_but_for_the_hand():
    off = []
    for made in (evenly, lambda billet: billet):
        tone = steel_of(seen("four-way mosaic", columns=200, rows=200, made=made)[2])
        side = min(tone.shape)
        tone = tone[:side, :side]
        off.append(np.abs(tone - np.rot90(tone)).mean())
    assert off[0] < 0.06 < off[1] < 0.25


def test_core_is_in_the_middle_and_waves_when_pressed():
    flat = steel_of(seen("san mai, plain", made=evenly)[2])
    wavy = steel_of(seen("wavy core")[2])
    for tone, even in ((flat, True), (wavy, False)):
        dark = tone < 0.4
        heights = dark.argmax(axis=0) + dark.sum(axis=0) / 2
        assert (np.ptp(heights) < 2) == even
        assert heights.mean() == pytest.approx(tone.shape[0] / 2, rel=0.15)


def test_low_medium_and_tight_differ_in_tightness():
    counts = []
    for name in ("low twist", "medium twist", "tight twist"):
        middle = steel_of(seen(name, columns=900)[2])
        line = middle[middle.shape[0] // 2]
        counts.append(np.count_nonzero(np.diff(line > line.mean())))
    assert counts == sorted(counts)
    assert counts[2] > 2 * counts[0]

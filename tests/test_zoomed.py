"""Zoomed in until a pixel is finer than any table, against plain sampling."""

import numpy as np
import pytest
from steps import sampled

from kit.forge.billet import Billet, fold_and_draw
from kit.forge.stack import Layer, Stack, demo_stack
from kit.forge.steps import DrawOut
from kit.section.surface import Plane, cut
from kit.section.trace import see

TONES = {"1084": 0.0, "15N20": 1.0}
FOIL = [("1084", 8.0), ("15N20", 0.01), ("1084", 13.0), ("15N20", 0.05), ("1084", 9.0)]


def foil(folds):
    stack = Stack(layers=[Layer(steel=name, thickness=thick) for name, thick in FOIL])
    return fold_and_draw(Billet(source=stack), folds=folds)


def across(billet, height, pixel, lean):
    """Look at a foil, square across or leaning in both directions of the picture."""
    sine, cosine = np.sin(lean), np.cos(lean)
    return Plane(
        size=billet.size,
        centre=(0.4 * billet.size.length, 0.3, height),
        right=(0.0, cosine, sine),
        up=(0.0, -sine, cosine),
        columns=60,
        rows=60,
        pixel=pixel,
    )


@pytest.mark.parametrize("pixels", ["mean", "fine"])
@pytest.mark.parametrize("pixel", [5e-3, 1.5e-3, 5e-4, 1e-4, 2e-5])
@pytest.mark.parametrize("lean", [0.0, 0.4])
@pytest.mark.parametrize("folds", [0, 1, 3])
def test_a_foil_is_seen_as_it_is(pixels, pixel, lean, folds):
    billet = foil(folds)
    z = (8.005 / 30.06 - 0.5) * billet.size.thickness / 2**folds
    z -= billet.size.thickness * (0.5 - 0.5 / 2**folds)  # the lowest stack
    plane = across(billet, z, pixel, lean)
    seen = see(billet, plane, TONES, pixels=pixels).tone
    assert -1e-6 <= seen.min() <= seen.max() <= 1 + 1e-6
    reference = sampled(billet, plane)
    assert 0 < reference.mean() < 1 or pixel <= 1e-4
    assert np.sqrt(np.mean((seen - reference) ** 2)) < 0.05


@pytest.mark.parametrize("pixels", ["mean", "fine"])
def test_thousands_of_layers_on_a_shallow_cut(pixels):
    # 11 × 2^9 = 5,632 layers in 5 mm, met at 2°: a layer is 25 pixels of 1 µm long.
    bar = Billet(source=demo_stack())
    billet = fold_and_draw(bar, folds=9).then(DrawOut(thickness=5))
    assert billet.layers == 5632
    plane = cut(billet, angle=2, columns=20, rows=400, pixel=1e-3)
    seen = see(billet, plane, TONES, pixels=pixels).tone
    assert np.sqrt(np.mean((seen - sampled(billet, plane)) ** 2)) < 0.05

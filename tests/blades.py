"""What tests of the blade share: a knife, the bar it is ground from, its bevels."""

from dataclasses import replace
from typing import get_args

import numpy as np
import pytest
from steps import stack

from kit.forge.billet import Billet
from kit.forge.steps import Size
from kit.section.grind import KINDS, BladeGrind
from kit.section.outline import Family, Outline

TONES = {"1084": 0.0, "15N20": 1.0}
KNIFE = Outline(family="drop", length=150, height=30)
BAR = Size(length=200.0, width=40.0, thickness=5.0)
BEVELS = {  # mm; flat and 4.0 mm thick down to 0.4 mm unless told otherwise
    "flat": {},
    "part-height": {"bevel": 16},
    "hollow": {"bevel": 18, "wheel": 127},
    "convex": {"bevel": 22},
}
each_kind = pytest.mark.parametrize("kind", KINDS)
each_family = pytest.mark.parametrize("family", get_args(Family))


def ground(kind="flat", outline=KNIFE, **more):
    """Grind a knife with a bevel of a kind."""
    return BladeGrind(outline=outline, kind=kind, **{**BEVELS[kind], "plunge": 1, **more})


def thick(grind, along, above):
    """Give a blade's thickness, mm, 0 beside its outline."""
    along, above = np.asarray(along, float), np.asarray(above, float)
    low, high = grind.outline.edge(along).above, grind.outline.spine(along).above
    inside = (along >= 0) & (along <= grind.outline.length)
    inside = inside & (above >= low) & (above <= high)
    return np.where(inside, 2 * grind.half(along, above), 0.0)


def closer(view, times, spot):
    """Look at a blade through a loupe: what is at `spot`, mm, stays in its place."""
    both = zip(view.centre, spot, strict=True)
    centre = tuple(there + (here - there) / times for here, there in both)
    return replace(view, pixel=view.pixel / times, centre=centre)


def flat_bar(layers=80, thickness=4.0):
    """Lay thin bars flat, dark and bright in turn."""
    bars = stack(layers, thickness / layers, length=200, width=40)
    return Billet(source=bars)


def area(view):
    """Measure the steel in a picture, mm²."""
    return view.look(0, view.rows).cover[:, 1:-1].sum() * view.pixel**2


def edges(column):
    """Find where tones pass halfway between dark and bright, in pixels."""
    above = column > 0.5
    rows = np.flatnonzero(above[1:] != above[:-1])
    return rows + (0.5 - column[rows]) / (column[rows + 1] - column[rows])

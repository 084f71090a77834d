"""General tools asked to do the same, in one run: ratios to the engine's mean."""

import importlib.util
import logging
from functools import partial

import numpy as np

from kit.forge.billet import Billet
from kit.forge.steps import Hammer
from kit.section.surface import Plane
from kit.section.trace import see
from tests.bench import pieces
from tests.bench.clock import once, table, timed

SMALL = 120  # side of the picture that is held against 16 × 16 samples
DOTS = 100  # an inch
STREWN = 3000  # points that a geological model is told the height of
ELEMENTS = 20_000


def report() -> None:
    """Draw contours of the height; fit a folded layered model."""
    _contours()
    _geology()


def _contours() -> None:
    """Fill contours of the very height that the engine averages, one for each edge."""
    rows = []
    for name, billet in pieces.HISTORIES.items():
        plane = pieces.face(billet)
        height = billet.follow(pieces.points(plane)).height
        drawing = once(lambda height=height, billet=billet: contoured(billet, height))
        mean = timed(partial(see, billet, plane, pieces.TONES)).median
        truth = pieces.sampled(billet, small := pieces.face(billet, SMALL))
        off = pieces.rms(
            contoured(billet, billet.follow(pieces.points(small)).height), truth
        )
        rows.append((name, drawing, mean, drawing / mean, off))
    head = ("history", "contourf, ms/Mpx", "mean", "÷ mean", "rms to 16 × 16")
    table("matplotlib contourf, its field given (not timed)", head, rows)


def contoured(billet: Billet, height: np.ndarray) -> np.ndarray:
    """Fill contours of a height, in stacks, with the tones of the bars."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    source = billet.source
    stacks = billet.layers // source.tally.layers
    tones = [pieces.TONES[name] for name in source.steels]
    edges = [source.edges if copy % 2 == 0 else 1 - source.edges for copy in range(stacks)]
    levels = np.unique(np.concatenate([np.sort(e) + c for c, e in enumerate(edges)]))
    greys = np.concatenate([tones if c % 2 == 0 else tones[::-1] for c in range(stacks)])
    rows, columns = height.shape
    figure = Figure(figsize=(columns / DOTS, rows / DOTS), dpi=DOTS)
    canvas = FigureCanvasAgg(figure)
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set_axis_off()
    colours = [str(grey) for grey in greys]
    axes.contourf(height[::-1], levels=levels, colors=colours, antialiased=True)
    axes.set(xlim=(-0.5, columns - 0.5), ylim=(-0.5, rows - 0.5))
    canvas.draw()
    return np.asarray(canvas.buffer_rgba())[..., 0] / 255


def _geology() -> None:
    """Fit a layered model to points of a wavy stack, and cut it."""
    if importlib.util.find_spec("LoopStructural") is None:
        print("\nLoopStructural is not installed here: pip install LoopStructural.")
        return
    billet = pieces.rack().then(Hammer(depth=3, spacing=40, seed=4))
    plane = pieces.face(billet)
    models = []
    fitting = once(lambda: models.append(fitted(billet)))
    heights = []
    cutting = once(lambda: heights.append(evaluated(models[0], plane)))
    mean = timed(partial(see, billet, plane, pieces.TONES)).median
    wrong = pieces.looked_up(billet, heights[0]) != pieces.plain(
        billet, pieces.points(plane)
    )
    row = (
        f"{billet.layers} wavy layers, {STREWN} points, {ELEMENTS} elements",
        fitting,
        cutting,
        mean,
        (fitting + cutting) / mean,
        cutting / mean,
        100 * float(wrong.mean()),
    )
    head = (
        "model",
        "fit, ms",
        "cut, ms/Mpx",
        "mean",
        "all ÷ mean",
        "cut ÷ mean",
        "% wrong",
    )
    table("LoopStructural, a folded layered model (no welds, no folds over)", head, [row])


def fitted(billet: Billet) -> object:
    """Tell a geological model the height in the stack at strewn points."""
    import pandas as pd
    from LoopStructural import GeologicalModel

    logging.disable(logging.WARNING)  # it reports every step it takes

    _, width, thickness = billet.size
    share = np.random.default_rng(1).random((3, STREWN))
    low = np.array([0, -width / 2, -thickness / 2])
    x, y, z = low[:, None] + share * np.array(billet.size)[:, None]
    height = billet.undo((x, y, z))[2] / thickness + 0.5
    data = pd.DataFrame({"X": x, "Y": y, "Z": z, "val": height})
    data["feature_name"] = "height"
    model = GeologicalModel(low, low + np.array(billet.size))
    model.data = data
    model.create_and_add_foliation(
        "height", interpolatortype="FDI", nelements=ELEMENTS, buffer=0.1
    )
    model.update()
    return model["height"]


def evaluated(feature: object, plane: Plane) -> np.ndarray:
    """Read the model's height at every pixel."""
    places = np.stack([part.ravel() for part in pieces.points(plane)], axis=1)
    height = feature.evaluate_value(places)
    return height.reshape(plane.rows, plane.columns)

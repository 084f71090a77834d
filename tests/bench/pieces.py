"""The bars and faces that are measured, and the plain ways to see them."""

import numpy as np

from kit.forge.billet import Billet, fold_and_draw
from kit.forge.stack import demo_stack
from kit.forge.steps import Dent, DrawOut, Fold, Hammer, RoundUp, SquareUp, Twist
from kit.section.surface import Plane, cut

TONES = {"1084": 0.0, "15N20": 1.0}
FINISHED = 6.0  # mm
FINE = 16  # samples a side of a pixel, for the reference


def rack() -> Billet:
    """Weld the demo's stack."""
    return Billet(source=demo_stack())


def flat(folds: int = 5) -> Billet:
    """Fold and draw: 352 layers after five folds."""
    return fold_and_draw(rack(), folds=folds, thickness=FINISHED)


def wavy(folds: int = 5) -> Billet:
    """Do the same, with hammer blows after the first and the fourth fold."""
    billet = rack()
    back = DrawOut(thickness=billet.size.thickness)
    for fold in range(folds):
        billet = billet.then(Fold(), back)
        if fold in (0, 3):
            billet = billet.then(Hammer(depth=1.5, spacing=20, seed=fold))
    return billet.then(DrawOut(thickness=FINISHED))


def reference() -> Billet:
    """Do all that a bar may go through: the history that the targets are meant for."""
    billet = rack()
    back = DrawOut(thickness=billet.size.thickness)
    for fold in range(5):
        blows = (Hammer(depth=1.5, spacing=20, seed=fold),) if fold else ()
        billet = billet.then(*blows, Fold(), back)
    return billet.then(
        DrawOut(thickness=16, width=16),
        RoundUp(),
        Twist(turn_length=50),
        SquareUp(),
        DrawOut(thickness=10, width=24),
        Dent(way="cut and forged", across=8, depth=3, spacing=11, faces="top"),
        Hammer(depth=0.5, spacing=20, seed=9),
    )


REFERENCE = "reference history, 352 layers"
HISTORIES = {
    "folds and cut, 352 layers": flat(),
    "with blows, 352 layers": wavy(),
    REFERENCE: reference(),
}


def face(billet: Billet, side: int = 1000, *, layers_a_pixel: float = 0.35) -> Plane:
    """Cut at 25°, near enough to the middle that the picture is all steel."""
    pixel = layers_a_pixel * billet.mean_layer / np.sin(np.radians(25))
    return cut(
        billet.size, angle=25, position=37, columns=side, rows=side, pixel=float(pixel)
    )


def points(plane: Plane, fine: int = 1) -> tuple[np.ndarray, ...]:
    """Give the middle of every pixel (or of fine × fine parts), double precision."""
    column = (np.arange(plane.columns * fine) + 0.5) / fine - plane.columns / 2
    row = plane.rows / 2 - (np.arange(plane.rows * fine) + 0.5) / fine
    across, up = np.meshgrid(column * plane.pixel, row * plane.pixel)
    return tuple(
        plane.centre[axis] + across * plane.right[axis] + up * plane.up[axis]
        for axis in range(3)
    )


def plain(billet: Billet, places: tuple[np.ndarray, ...]) -> np.ndarray:
    """Look points up the straightforward way: undo each step, search the bars."""
    for step, size in zip(billet.steps[::-1], billet.sizes[-2::-1], strict=True):
        places = step.undo(places, size)
    return looked_up(billet, places[2] / billet.source.thickness + 0.5)


def looked_up(billet: Billet, height: np.ndarray) -> np.ndarray:
    """Search the bars for heights in the stack, 0 … 1; give their tones."""
    tones = np.array([TONES[name] for name in billet.source.steels])
    bar = np.searchsorted(billet.source.edges, height, side="right") - 1
    return tones[np.clip(bar, 0, len(tones) - 1)]


def sampled(billet: Billet, plane: Plane, fine: int = FINE) -> np.ndarray:
    """Average fine × fine points in every pixel."""
    picture = plain(billet, points(plane, fine))
    return picture.reshape(plane.rows, fine, plane.columns, fine).mean(axis=(1, 3))


def rms(one: np.ndarray, other: np.ndarray) -> float:
    """Give the root mean square of a difference."""
    return float(np.sqrt(np.mean((one - other) ** 2)))

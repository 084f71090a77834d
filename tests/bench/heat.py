"""Carbon through 11 bars, 5 folds and 6 heats: the series, our cells, a general library.

The true answer is the plain sum of thousands of cosines. All are asked for the mean content
of the same cells; time and error stand side by side, from one run.
"""

import importlib.util
from collections.abc import Callable
from functools import partial

import numpy as np

from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.forge.steps import DrawOut, Fold
from kit.forge.steps.base import Heat
from kit.metal.activity import spread_out
from kit.metal.cells import cells
from kit.metal.diffusion import diffusivity
from kit.metal.evening import contents_of, mean_contents
from kit.metal.soak import Evened, evened, heats_of
from tests.bench.clock import once, table, timed

FOLDS = 5
HEAT = Heat(celsius=1230, minutes=2)
MOST_WAVES = 3000
# cells in a stack, steps in time for each heat
OWN = ((340, 10), (1700, 20), (17_000, 40))
THEIRS = ((340, 20), (340, 80), (1700, 80), (17_000, 20), (17_000, 80))


def report() -> None:
    """Solve the same history in each way; set the series at the same cells beside it."""
    billet = history()
    rows, series = [], {}
    for count in sorted({count for count, _ in (*OWN, *THEIRS)}):
        edges = np.linspace(0, 1, count + 1)
        work = partial(exactly, billet, edges)
        series[count] = timed(work, 60).best
        rows.append(row("series", billet, edges, "-", series[count], work()))
    for name, ways, work in (("own cells", OWN, by_cells), ("fipy", THEIRS, by_fipy)):
        if name == "fipy" and importlib.util.find_spec("fipy") is None:
            print("\nfipy is not installed here: pip install fipy.")
            continue
        work(billet, np.linspace(0, 1, 18), 1)  # warm up
        for count, steps in ways:
            edges = np.linspace(0, 1, count + 1)
            found: list[np.ndarray] = []
            asked = partial(_kept, found, work, billet, edges, steps)
            taken = min(once(asked) for _ in range(2))
            rows.append(row(name, billet, edges, steps, taken, found[0], series[count]))
    head = ("way", "cells", "steps a heat", "best ms", "rms error", "most", "÷ series")
    table("11 bars, 5 folds, 6 heats: carbon, errors in parts of the start", head, rows)
    ready = timed(partial(cells, billet), 15)
    row_ready = ("cells for the engine, five elements", len(cells(billet).edges) - 1)
    table(
        "made ready for a picture", ("what", "cells", "best ms"), [(*row_ready, ready.best)]
    )


def _kept(found: list, work: Callable, *given: object) -> None:
    found.append(work(*given))


def history() -> Billet:
    """Weld 11 bars; fold, weld and draw five times."""
    source = Stack.alternate("1095", "mild", pieces=11, thickness=(3.175, 1.5875))
    weld = DrawOut(thickness=source.thickness, heat=HEAT)
    billet = Billet(source=source, steps=(weld,))
    return billet.then(*((Fold(heat=HEAT), DrawOut(thickness=source.thickness)) * FOLDS))


def row(
    name: str,
    billet: Billet,
    edges: np.ndarray,
    steps: object,
    taken: float,
    found: np.ndarray,
    series: float | None = None,
) -> tuple:
    """Hold a result against the true one."""
    contrast = np.ptp(contents_of(billet.source, "C"))
    off = np.abs(found - truth(billet, edges)) / contrast
    ratio = "1" if series is None else taken / series
    rms = float(np.sqrt(np.mean(off**2)))
    errors = (f"{rms:.1e}", f"{float(off.max()):.1e}")
    return (name, len(edges) - 1, steps, taken, *errors, ratio)


def truth(billet: Billet, edges: np.ndarray) -> np.ndarray:
    """Add up cosines one by one until nothing is left of them."""
    source = billet.source
    contents, soak = contents_of(source, "C"), evened("C", heats_of(billet)).inside
    means = np.full(len(edges) - 1, np.diff(source.edges) @ contents)
    for wave in np.pi * np.arange(1, MOST_WAVES):
        left = np.exp(-(wave**2) * soak)
        if left < 1e-18:
            break
        strength = -2 / wave * np.sin(wave * source.edges[1:-1]) @ np.diff(contents)
        means += strength * left / wave * np.diff(np.sin(wave * edges)) / np.diff(edges)
    return means


def exactly(billet: Billet, edges: np.ndarray) -> np.ndarray:
    """Ask the series."""
    return mean_contents(billet.source, "C", evened("C", heats_of(billet)), edges)


def by_cells(billet: Billet, edges: np.ndarray, steps: int) -> np.ndarray:
    """Go through the heats with the kit's own finite volumes."""
    carbon = mean_contents(billet.source, "C", Evened(0.0), edges)
    for celsius, minutes, thickness, _joined in heats_of(billet):
        speed = diffusivity("C", celsius)
        carbon = spread_out(edges * thickness, carbon, speed, minutes, steps=steps)
    return carbon


def by_fipy(billet: Billet, edges: np.ndarray, steps: int) -> np.ndarray:
    """Go through the heats with fipy: heights in stacks, time in D t / h²."""
    import fipy

    count = len(edges) - 1
    carbon = fipy.CellVariable(
        mesh=fipy.Grid1D(nx=count, dx=1 / count),
        value=mean_contents(billet.source, "C", Evened(0.0), edges),
    )
    equation = fipy.TransientTerm() == fipy.DiffusionTerm(coeff=1.0)
    for soak in heats_of(billet):
        whole = evened("C", [soak]).inside
        for step in np.diff(whole * np.linspace(0, 1, steps + 1) ** 2):
            equation.solve(var=carbon, dt=float(step), solver=fipy.LinearLUSolver())
    return np.array(carbon.value)

"""Why a small step in carbon stays between plain and nickel steel.

Carbon does not even out its percentage but its *activity*: how hard it pushes to get out.
Nickel and silicon raise it, chromium, manganese and molybdenum lower it. So carbon settles
a little higher in the plain steel, for ever.

Holds for a few per cent of alloy in austenite near 1000 °C. Leaves out: that most factors
shrink by a tenth to a quarter from 1000 to 1250 °C, what carbon itself does to them, and
carbides: in stainless steel they take up far more carbon.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

import numpy as np

from kit.forge.billet import Billet
from kit.metal.cells import Cells, cells
from kit.metal.diffusion import agren, diffusivity
from kit.metal.evening import mean_contents
from kit.metal.finite_volume import Speed, spread_out
from kit.metal.soak import Evened, Soak, heats_of

# Added to the logarithm (base ten) of carbon's activity by one per cent of weight.
# Gunnarson, Härterei-Technische Mitteilungen 22 (1967) 292, used in the control of
# carburising furnaces: from memory. tests/test_activity.py finds them again, to 0.015,
# from published descriptions of austenite.
FACTORS: Mapping[str, float] = MappingProxyType(
    {"Si": 0.055, "Mn": -0.013, "Cr": -0.040, "Ni": 0.014, "Mo": -0.013}
)
SOURCE = "alloy factors: Gunnarson 1967, from memory, compared with published austenites"


def activity_factor(contents: Mapping[str, float | np.ndarray]) -> float | np.ndarray:
    """Give by how much a steel's alloy multiplies the activity of its carbon.

    Parameters
    ----------
    contents : mapping
        Weight per cent by element, as `Grade.nominal`; arrays are taken cell by cell.
        Elements without a factor count as none.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> plain, nickel = (activity_factor(steel(n).nominal) for n in ("1084", "15N20"))
    >>> round(float(nickel / plain), 3)
    1.08
    """
    known = (FACTORS[name] * part for name, part in contents.items() if name in FACTORS)
    return 10.0 ** sum(known, np.float64(0))


def at_rest(carbon: np.ndarray, factors: np.ndarray, widths: np.ndarray) -> np.ndarray:
    """Give the carbon in each layer once its activity is even; none is lost.

    Parameters
    ----------
    carbon, factors, widths : arrays (n,)
        Weight per cent, `activity_factor`, and thickness (any unit) of each layer.
    """
    level = (widths @ carbon) / (widths @ (1 / factors))
    return level / factors


def carbon_by_activity(
    billet: Billet, later: Iterable[Soak] = (), *, follow_carbon: bool = True
) -> Cells:
    """Give the contents of one stack after all heats, with carbon evened by activity.

    The other elements are those of `cells`; their final blur is taken for all heats.
    Between stacks that lie the same way up nothing passes (unlike in `cells`).

    Parameters
    ----------
    billet : Billet
        Of a stack.
    later : iterable of Soak
        Heats after bundling.
    follow_carbon : bool
        Let the diffusivity follow the carbon (`agren`) instead of the simple table.

    Raises
    ------
    KitError
        As `heats_of`.
    """
    soaks = heats_of(billet, later)
    edges, contents = cells(billet, later)
    if not soaks:
        return Cells(edges, contents)
    others = {name: part for name, part in contents.items() if name != "C"}
    factors = np.broadcast_to(activity_factor(others), len(edges) - 1)
    carbon = mean_contents(billet.source, "C", Evened(0.0), edges)
    for celsius, minutes, thickness, _joined in soaks:
        speed = _speed(celsius, follow_carbon=follow_carbon)
        carbon = spread_out(
            edges * thickness, carbon, speed, minutes, factors=factors, steps=60
        )
    return Cells(edges, {**contents, "C": carbon})


def _speed(celsius: float, *, follow_carbon: bool) -> Speed:
    if not follow_carbon:
        return float(diffusivity("C", celsius))
    return lambda carbon: agren(celsius, carbon)

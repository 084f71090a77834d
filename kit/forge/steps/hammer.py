"""Hammer blows: no face is struck twice alike, and layers inside go wavy."""

import math
from collections.abc import Callable
from functools import cached_property
from typing import ClassVar, Literal

import numpy as np

from kit.basics.declare import quantity
from kit.basics.errors import KitError
from kit.forge.steps.base import Place, Points, Size, Step
from kit.forge.steps.by_hand import chance, seed
from kit.forge.steps.tally import Layers

Wave = tuple[np.ndarray, np.ndarray]

# Wave lengths drawn, in distances between blows, and share of the depth: how the bar
# lies on the anvil, the blow, the hammer's edge. Illustrative.
SCALES = ((1.3, 2.0, 0.5), (0.7, 1.0, 0.3), (0.35, 0.5, 0.2))
FEWEST, MOST = len(SCALES), 9
# Of more waves than those, in distances between blows; each within 15 %. Illustrative.
LONGEST, SHORTEST = 2.2, 0.3
OBLIQUE = 1.2  # waves run at up to 50° to the bar's length
STEEPEST = 0.9  # slope of a wave, of what would fold a layer over itself
NEWTON_TURNS = 40


class Hammer(Step):
    """Forge by hand and dress the faces flat again: the layers between stay wavy.

    The waviness is a sum of long, middling and short waves in different directions,
    drawn from the seed, so that no two forgings are alike and each can be made again.
    Of three waves one sees the pattern repeat; of more one does not.
    Layers move most halfway between the faces and not at all on them.

    How it keeps volume: in every slice along the bar the metal is moved by a
    generating function S = X z + F(X, y) g(z) with g = T/4 - z²/T. Such a map is
    area-preserving whatever F is (Goldstein, *Classical Mechanics*, canonical
    transformations, type 2), and undoing it is one quadratic equation.

    Leaves out: where real dies leave their marks (see Groove). Blows bend the
    bar's ends a little; the bar is counted as straight all the same, so in a short bar
    cut and stacked several times as much as a fifth of it can come from beyond an
    earlier end, shown as if the bar had gone on there: crop the ends, as a smith does.
    The depth is the user's; we found no published figure: illustrative.
    """

    step: Literal["hammer unevenly"] = "hammer unevenly"
    depth: float = quantity(
        "Depth of the waves", "how far a layer halfway in is pushed at most",
        low=0, high=20, unit="mm",
    )  # fmt: skip
    spacing: float = quantity(
        "Distance between blows", "typical, along the bar", low=2, high=200, unit="mm"
    )
    seed: int = seed("forging")
    waves: int = quantity(
        "Waves", "how many lie over each other, from long to short",
        low=FEWEST, high=MOST, default=FEWEST,
    )  # fmt: skip

    order = 50
    to_measure = False
    keeps = Layers.WAVY
    takes = ""
    done_at = (Place.FIRE,)
    nothing: ClassVar[dict] = {"depth": 0, "spacing": 20}
    says = ", waves {depth} deep, blows {spacing} apart, dice throw {seed}, {waves} waves"
    makes = "Inside the layers wave; on the two faces they stay flat."
    usual: ClassVar[dict] = {"depth": lambda size: size.thickness / 8, "spacing": 25}

    def size_after(self, size: Size) -> Size:
        """Keep the size; refuse waves too steep for the thickness."""
        self.refuse_round(size)
        most = STEEPEST * size.thickness / 4
        if self.depth > most:
            msg = (
                f"Depth of the waves must be from 0 to {most:.2f} mm in a bar "
                f"{size.thickness:.2f} mm thick. Given: {self.depth:g} mm."
            )
            raise KitError(msg)
        return size

    def do(self, points: Points, size: Size) -> Points:
        """Push the layers up and down, and what is above and below aside."""
        x, y, z = points
        x, z = _push(x, z, size.thickness, lambda new: self._waves(new, y, size))
        return x, y, z

    def undo(self, points: Points, size: Size) -> Points:
        """Pull them back."""
        x, y, z = points
        x, z = _pull(x, z, size.thickness, self._waves(x, y, size))
        return x, y, z

    def _waves(self, x: np.ndarray, y: np.ndarray, size: Size) -> Wave:
        """Give F and its slope p along the bar; p T/4 never exceeds the depth."""
        total, slope = np.zeros_like(x), np.zeros_like(x)
        angle, term = np.empty_like(x), np.empty_like(x)
        for share, number, aside, phase in self._table:
            steepest = share * 4 * self.depth / size.thickness
            np.multiply(x, number, out=angle)
            np.multiply(y, aside, out=term)
            angle += term
            angle += phase
            np.sin(angle, out=term)
            term *= steepest / number
            total += term
            np.cos(angle, out=angle)
            angle *= steepest
            slope += angle
        return total, slope

    @property
    def _scales(self) -> tuple[tuple[float, float, float], ...]:
        """Give each wave's shortest and longest length, and its share of the depth."""
        if self.waves == FEWEST:
            return SCALES
        steps = self.waves - 1
        lengths = [
            LONGEST * (SHORTEST / LONGEST) ** (index / steps) for index in range(self.waves)
        ]
        return tuple((0.85 * one, 1.15 * one, one / sum(lengths)) for one in lengths)

    @cached_property
    def _table(self) -> list[tuple[float, float, float, float]]:
        """Draw each wave: its share, number along and across the bar (per mm), phase."""
        draw = chance(self.seed)
        table = []
        for shortest, longest, share in self._scales:
            apart = shortest + (longest - shortest) * draw()
            number = 2 * math.pi / (self.spacing * apart)
            aside = number * OBLIQUE * (2 * draw() - 1)
            table.append((share, number, aside, 2 * math.pi * draw()))
        return table


def _pull(along: np.ndarray, z: np.ndarray, thickness: float, wave: Wave) -> Wave:
    """Undo one push: the root of a quadratic that lies in the bar."""
    total, slope = wave
    half = slope * (thickness / -4)
    half += z
    root = slope * half
    root *= -4 / thickness
    root += 1
    # inside the bar the root is real; points beside it have no past and stay quiet
    np.maximum(root, 0, out=root)
    np.sqrt(root, out=root)
    root += 1
    half /= root  # half of the height before
    moved = total * half
    moved *= -4 / thickness
    moved += along
    half *= 2
    return moved, half


def _push(
    along: np.ndarray,
    z: np.ndarray,
    thickness: float,
    wave_at: Callable[[np.ndarray], Wave],
) -> Wave:
    """Do one push: find the new place by Newton's rule, then the new height."""
    lean = z * (-2 / thickness)
    new = along
    for _ in range(NEWTON_TURNS):
        total, slope = wave_at(new)
        change = (new + total * lean - along) / (1 + slope * lean)
        new = new - change
        if np.max(np.abs(change), initial=0) < 1e-13 * thickness:
            break
    _, slope = wave_at(new)
    return new, z + slope * (thickness / 4 - z * z / thickness)

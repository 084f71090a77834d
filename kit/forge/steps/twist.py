"""Twist a round bar; round a square one up first, square it up again after."""

import math
from abc import abstractmethod
from typing import ClassVar, Literal

import numpy as np

from kit.basics.declare import quantity
from kit.basics.errors import KitError
from kit.forge.steps.base import Place, Points, RoundSize, Size, Step
from kit.forge.steps.by_hand import chance, seed
from kit.forge.steps.tally import Layers

# Strength of the corner flow, in half-widths: found by trying which one makes a round
# bar into the section that holds the largest true square. See tests/test_twist.py.
CORNER = 0.1325
BEYOND = 1.9  # half-widths; the corner of a square is at 1.41, of a round bar at 1.13
# Hot spots and cold ones: how far apart, mm, each within a fifth; and their shares.
HOT_SPOTS = ((110, 0.5), (60, 0.3), (35, 0.2))  # illustrative
TRUE_SQUARE = 0.9757  # side of that square over the side of a square of equal area
# Common practice, no source, and no number: so the model keeps the length.
NO_LONGER = "Length is kept, our simplification: a shop's comes out thinner and longer."


class RoundUp(Step):
    """Forge the corners of a square bar in until it is round.

    The corners flow inwards and the flats outwards; the middle hardly moves. It is
    the flow of the stream function y³z - yz³, by halves that are each exact, so area
    is kept to the last figure and undoing it is the same flow backwards. (Strang,
    *On the construction and comparison of difference schemes*, 1968, for the
    splitting; from memory.)

    Leaves out: a smith's own way with corners, and that the bar gets longer by it. A
    true square comes out round to within 3 % of its radius; the bar counts as round from
    here on.
    """

    step: Literal["round up"] = "round up"

    order = 70
    makes = f"The corners flow in; in the middle the layers hardly move. {NO_LONGER}"
    keeps = Layers.TILTED
    takes = ""
    done_at = (Place.FIRE,)
    nothing = None
    says = " the bar"

    def size_after(self, size: Size) -> Size:
        """Give a round bar of the same section and length."""
        if size.round or not size.even:
            shape = "round" if size.round else f"{size.width:.1f} × {size.thickness:.1f} mm"
            first = "" if size.round else ": draw it out as wide as thick first"
            msg = (
                f"Only a square bar can be rounded up{first}. Given: a bar that is {shape}."
            )
            raise KitError(msg)
        across = 2 * math.sqrt(size.width * size.thickness / math.pi)
        return RoundSize(size.length, across, across)

    def do(self, points: Points, size: Size) -> Points:
        """Push the corners in."""
        return _flow(points, size.thickness / 2, CORNER)

    def undo(self, points: Points, size: Size) -> Points:
        """Pull the corners out."""
        return _flow(points, size.thickness / 2, -CORNER)


class SquareUp(Step):
    """Forge a round bar square and grind it true.

    The flow of RoundUp, backwards. What it makes of a round bar is square to within
    2.4 % inwards (beside the corners) and 3.9 % outwards; the largest true square in it
    has 0.9757 of the side, and that is what is left: 4.8 % of the section is ground off.

    Leaves out: the same as RoundUp.
    """

    step: Literal["square up"] = "square up"

    order = 100
    makes = "Four corners flow out; in the middle the layers hardly move."
    keeps = Layers.TILTED
    takes = "ground true after squaring up"
    done_at = (Place.FIRE, Place.GRINDER)
    nothing = None
    says = " the bar"

    def size_after(self, size: Size) -> Size:
        """Give the true square bar that is left after grinding."""
        self.refuse_flat(size)
        side = TRUE_SQUARE * math.sqrt(math.pi) / 2 * size.thickness
        return Size(size.length, side, side)

    def do(self, points: Points, size: Size) -> Points:
        """Pull four corners out."""
        return _flow(points, math.sqrt(math.pi) / 4 * size.thickness, -CORNER)

    def undo(self, points: Points, size: Size) -> Points:
        """Push the corners in again."""
        return _flow(points, math.sqrt(math.pi) / 4 * size.thickness, CORNER)


class Turned(Step):
    """What turns every slice of a round bar about the axis, by an angle of its own."""

    keeps = Layers.TILTED
    takes = ""

    def size_after(self, size: Size) -> Size:
        """Keep the size; refuse a bar that is not round, unless nothing is turned."""
        if np.any(self.angle(np.array([1.0]))):
            self.refuse_flat(size)
        return size

    @abstractmethod
    def angle(self, x: np.ndarray) -> np.ndarray:
        """Give the angle at each place along the bar, radians, top towards -y."""

    def do(self, points: Points, size: Size) -> Points:
        """Turn every slice."""
        return _rotated(points, self.angle(points[0]))

    def undo(self, points: Points, size: Size) -> Points:
        """Turn every slice back."""
        return _rotated(points, -self.angle(points[0]))


class Twist(Turned):
    """Turn one end of a round bar against the other.

    Every slice turns by an angle that grows evenly along the bar: the torsion of a
    round bar, in which slices stay flat and radii straight (Coulomb; any text on
    strength of materials). Shear strain at radius r is 2 pi r / turn length.

    By hand no bar is hot alike all along, and a hot spot twists more: the turn of each
    slice then grows by waves drawn from the seed. How uneven is illustrative.

    Leaves out: shortening, an axis that wanders, scale bursting off.
    """

    step: Literal["twist"] = "twist"
    turn_length: float = quantity(
        "Length for one turn", "along the bar, for 360°", low=3, high=10000, unit="mm"
    )
    hand: Literal["right", "left"] = "right"
    uneven: float = quantity(
        "Uneven", "how much more or less it turns where it is hotter or colder; 0: evenly",
        low=0, high=50, unit="%", default=0,
    )  # fmt: skip
    seed: int = seed("hand")

    order = 80
    done_at = (Place.FIRE,)
    nothing = None
    says = (
        " it, one turn in {turn_length}, {hand} hand, {uneven} uneven (dice throw {seed})"
    )
    makes = "The layers turn with the bar, and lie on the slant wherever it is cut."
    usual: ClassVar[dict] = {  # ours: easily seen, and a turn and a half on a short bar
        "turn_length": lambda size: min(3.5 * size.thickness, size.length / 1.5)
    }

    def angle(self, x: np.ndarray) -> np.ndarray:
        """Grow along the bar; a right hand twist climbs like a common screw."""
        turn = 2 * math.pi / self.turn_length
        draw, place = chance(self.seed), x
        for long, share in HOT_SPOTS if self.uneven else ():
            number = 2 * math.pi / (long * (0.8 + 0.4 * draw()))
            phase = 2 * math.pi * draw()
            far = self.uneven / 100 * share / number
            place = place + far * (np.sin(x * number + phase) - math.sin(phase))
        return place * (turn if self.hand == "right" else -turn)


class SetOnTheBias(Turned):
    """Turn a round bar about its length by any angle, before it is squared up.

    With 45° the next square section has the old corners on its flats: the bar on the
    diagonal. Nothing is deformed. Leaves out: nothing.
    """

    step: Literal["set on the bias"] = "set on the bias"
    degrees: float = quantity(
        "Angle", "about the bar's length, top towards +y", low=-180, high=180, unit="°"
    )

    order = 90
    done_at = ()
    nothing: ClassVar[dict] = {"degrees": 0}
    says = ", turned by {degrees}"
    usual: ClassVar[dict] = {"degrees": 45}
    makes = "The layers stay as they are, but other sides of the bar become its faces."

    def angle(self, x: np.ndarray) -> np.ndarray:
        """Give the same everywhere."""
        return np.full_like(x, -math.radians(self.degrees))


def _rotated(points: Points, angle: np.ndarray) -> Points:
    x, y, z = points
    cosine, sine = np.cos(angle), np.sin(angle)
    return x, y * cosine - z * sine, y * sine + z * cosine


def _flow(points: Points, half: float, strength: float) -> Points:
    """Flow along the stream function y³z - yz³, lengths in half-widths."""
    x, y, z = points
    # far beyond the bar the flow runs off to infinity; nobody looks there
    y, z = (np.clip(part, -BEYOND * half, BEYOND * half) for part in (y, z))
    y, z = _half_flow(y, z, strength / 2, half)
    z, y = _half_flow(z, y, strength, half)
    y, z = _half_flow(y, z, strength / 2, half)
    return x, y, z


def _half_flow(a: np.ndarray, b: np.ndarray, time: float, half: float) -> tuple:
    """Follow a' = a³, b' = -3 a² b exactly (the flow of a³ b), in half-widths."""
    left = a * a
    left *= -2 * time / half**2
    left += 1
    np.maximum(left, 1e-3, out=left)
    root = np.sqrt(left)
    left *= root
    left *= b
    return a / root, left

"""What dents, grooves and drilled hollows share: made in the faces, then levelled."""

from __future__ import annotations

import math
from abc import abstractmethod
from functools import cached_property
from typing import ClassVar, Literal, NamedTuple

from pydantic import model_validator

from kit.basics.declare import quantity
from kit.basics.errors import KitError
from kit.forge.steps.base import Place, Points, Size, Step
from kit.forge.steps.by_hand import Wander, seed, wander
from kit.forge.steps.dents import ROWS, Dents
from kit.forge.steps.marks import Eased, Mark
from kit.forge.steps.tally import Layers

DEEPEST = 0.5  # of the thickness
NOTHING = {"way": "cut and forged", "across": 8, "spacing": 12, "depth": 0}
STRUCK = (-1, -1 / 3, 1 / 3, 1)  # ours: how deep by hand, the deepest last
LEFT = 0.1  # of the thickness, under dents of both faces
FARTHEST = 0.25  # of the spacing: a hollow that is farther off is another's


BY_HAND = (
    "{spacing} apart, {faces}, {wander}, {differ} off (dice throw {seed}), "
    "thick {thickness}"
)


class Levels(NamedTuple):
    """Thickness of the bar on the way, mm: with dents, flat, and as it is left."""

    dented: float
    flat: float
    left: float


class Hollows(Step):
    r"""Make hollows in the faces, and level the faces again.

        pressed and ground              cut and forged
        ‾‾‾‾\___/‾‾‾‾  ground to        ‾‾‾‾\   /‾‾‾‾  the hollow
        ----\___/----  the bottom of    ---- \_/ ----  comes up to
        ----\___/----  the hollows      -------------  the face

    What the level face shows is a map of the hollows: rings or rungs, one line for
    each layer. Pressed and ground, a ring's middle is the top layer; cut and forged,
    it is the deepest the tool reached: so the way is always said.

    Columns of metal between the faces are squeezed or stretched as a whole, so what is
    left of the pattern falls evenly to nothing at the far face: half of the rings are
    left at half the thickness. To keep volume the columns move aside: along the bar by
    the generating function S = X z + F(X, y) z with F the exact integral of the tool's
    shape (Goldstein, *Classical Mechanics*, canonical transformations), and across it
    by a second one for what each line along the bar has too much. A quadratic one,
    S = X z + F z² / 2T, would die out faster, with a quarter left at half the
    thickness; ours was taken because it agrees with the first-order rule of the trade
    and because it meets any tool's shape exactly. Which is nearer to steel is not known.

    Leaves out: that narrow dents in a thick bar stay shallower than this (die pressure
    does not reach through: indentation of a thick body, any text on plasticity); bulging
    sides; a rim thrown up around a dent; that hollows which lie off their places by hand
    make the sides bulge a little and are cut by the bar's edges unlike even ones: of them
    sizes and losses are told as if they lay in their places. A hollow that is struck deeper
    than meant is wider, as the same tool leaves it: see Rimmed and Drill. A ball's bowl
    is drawn as a parabola: for a bowl 6 mm wide and 1.8 mm deep at most 0.17 mm from a true
    ball. Forged thinner than level, the bar spreads alike in length and width. Depths of ⅓
    to ½ of the thickness are common practice, no source.
    """

    way: Literal["cut and forged", "pressed and ground"]
    across: float = quantity(
        "Tool across", "width of a hollow at the face, as deep as meant",
        low=3, high=20, unit="mm",
    )  # fmt: skip
    spacing: float = quantity(
        "Spacing", "from hollow to hollow along the bar", low=6, high=40, unit="mm"
    )
    faces: Literal["top", "bottom", "opposite", "staggered"] = "staggered"
    wander: float = wander(
        "how far a hollow may lie from its place, each way; 0: evenly, as a machine does",
        high=10,
    )
    differ: float = quantity(
        "Depth by hand",
        "how much deeper or shallower than meant a hollow may be; 0: all are alike",
        low=0, high=40, unit="%", default=0,
    )  # fmt: skip
    seed: int = seed("hand")
    thickness: float | None = quantity(
        "Thickness after",
        "forged to this thickness once it is level; left out, just level",
        low=0.5, high=200, unit="mm", default=None,
    )  # fmt: skip

    keeps = Layers.TILTED
    takes = "hollows cut out or ground level"
    done_at = (Place.FIRE, Place.GRINDER)
    makes = "The layers bend around each hollow, and the level face cuts through them."
    usual: ClassVar[dict] = {"way": "pressed and ground", "across": 8, "spacing": 12}

    @abstractmethod
    def struck(self, share: float) -> Mark:
        """Give what the tool leaves, sunk to a share of the depth that is meant."""

    @property
    def mark(self) -> Mark:
        """What the tool leaves, sunk as deep as meant."""
        return self.struck(1.0)

    @model_validator(mode="after")
    def _apart(self) -> Hollows:
        if self.wander > FARTHEST * self.spacing:
            msg = (
                f"Hollows {self.spacing:g} mm apart can lie at most "
                f"{FARTHEST * self.spacing:g} mm from their places. "
                f"Given: {self.wander:g} mm."
            )
            raise KitError(msg)
        widest = (ROWS if self.mark.rows else 1) * self.spacing
        # a rounded rim lies outside, too, and the deepest is the widest
        widest *= self.across / 2 / self.dents.marks[-1].radius
        if self.across > widest * (1 + 1e-9):
            msg = (
                f"Hollows {self.spacing:g} mm apart can be at most {widest:.2f} mm across, "
                f"or they run into each other. Given: {self.across:g} mm."
            )
            raise KitError(msg)
        return self

    @property
    def cut(self) -> bool:
        """Whether the hollows are cut, not pressed."""
        return self.way == "cut and forged"

    @property
    def deep(self) -> float:
        """Depth of a hollow, mm."""
        return self.mark.depth

    @property
    def dents(self) -> Dents:
        """The hollows as they are struck, one deeper than the other, each in its place."""
        return self._dents

    @cached_property  # not by its own name: pydantic would take it for a value
    def _dents(self) -> Dents:
        off = self.differ / 100
        shares = [1 + off * share for share in STRUCK] if off else [1.0]
        marks = tuple(self.struck(share) for share in shares)
        return Dents(marks, self.spacing, self.faces, self.seed)

    @property
    def deepest(self) -> float:
        """Depth of the deepest that a hand may make, mm."""
        return self.dents.marks[-1].depth

    def levels(self, size: Size) -> Levels:
        """Give the bar's thickness on the way, from its size before."""
        met = self.dents.faces_met(size.length, size.width)
        mean = self.dents.mean(size.width) if any(met) else 0.0
        if self.cut:
            return Levels(size.thickness, size.thickness - mean, size.thickness - mean)
        dented = size.thickness + mean
        return Levels(dented, size.thickness, dented - sum(self._ground(size)))

    def _length(self, size: Size, levels: Levels) -> float:
        """Give the level bar's length: it keeps the volume, part hollows and all."""
        if not any(self.dents.faces_met(size.length, size.width)):
            return size.length
        area, whole = levels.dented * size.width, size.volume
        if self.cut:
            hollows = self.dents.volume(size.length, size.width)
            return (whole - hollows) / (levels.flat * size.width)
        length = size.length
        for _ in range(4):  # the longer the bar, the more of the next hollow is on it
            length = (whole + self.dents.volume(length, size.width)) / area
        return length

    def size_after(self, size: Size) -> Size:
        """Give the level bar; refuse hollows that it cannot take."""
        self.refuse_round(size)
        most = DEEPEST * size.thickness
        if self.deepest > most * (1 + 1e-9):
            msg = (
                f"Hollows can be from 0 to {most:.2f} mm deep, half of a bar "
                f"{size.thickness:.2f} mm thick. Given: {self.deepest:.2f} mm "
                "at the deepest."
            )
            raise KitError(msg)
        left = size.thickness - self.dents.deepest
        level = self.levels(size).left
        if left < LEFT * size.thickness * (1 - 1e-9):
            msg = (
                f"The hollows of the two faces would meet: at least "
                f"{LEFT * size.thickness:.2f} mm of the bar's {size.thickness:.2f} mm must "
                f"be left between them. Given: hollows that leave {max(left, 0):.2f} mm."
            )
            raise KitError(msg)
        if level < LEFT * size.thickness:
            msg = (
                f"Ground down to the bottom of its dents the bar must stay at least "
                f"{LEFT * size.thickness:.2f} mm thick. Given: dents that leave "
                f"{max(level, 0):.2f} mm."
            )
            raise KitError(msg)
        length = self._length(size, self.levels(size))
        if self.thickness is None:
            return size._replace(length=length, thickness=level)
        if self.thickness > level * (1 + 1e-9):
            msg = (
                f"Thickness after can be at most {level:.2f} mm, as it is once it is "
                f"level. Given: {self.thickness:g} mm."
            )
            raise KitError(msg)
        wider = math.sqrt(level / self.thickness)
        return Size(length * wider, size.width * wider, self.thickness)

    def do(self, points: Points, size: Size) -> Points:
        """Make the hollows, level the faces, forge to thickness."""
        levels = self.levels(size)
        x, y, z = self._flattened(points, size, levels, away=self.cut)
        wider, thinner = self._forged(levels)
        return x * wider, y * wider, (z + self._lowered(size)) * thinner

    def undo(self, points: Points, size: Size) -> Points:
        """Take the metal back into the bar without hollows."""
        levels = self.levels(size)
        wider, thinner = self._forged(levels)
        x, y, z = points
        level = x / wider, y / wider, z / thinner - self._lowered(size)
        return self._flattened(level, size, levels, away=not self.cut)

    def _flattened(
        self, points: Points, size: Size, levels: Levels, *, away: bool
    ) -> Points:
        """Take the hollows away, or bring them into the flat bar."""
        if not any(self.dents.faces_met(size.length, size.width)):
            return points
        move = self.dents.flatten if away else self.dents.unflatten
        if not self.wander:
            return move(points, levels.dented, levels.flat)
        x, y, z = points
        x, y, z = move((*self._hand.moved(x, y), z), levels.dented, levels.flat)
        return *self._hand.back(x, y), z

    @cached_property  # its waves are drawn once, not for every band of a picture
    def _hand(self) -> Wander:
        """How the hollows lie off their places."""
        return Wander(self.wander, self.spacing, self.seed)

    def _ground(self, size: Size) -> tuple[float, float]:
        """How much is ground off the top and the bottom: a face without dents stays."""
        top, bottom = (
            self.deepest * met for met in self.dents.faces_met(size.length, size.width)
        )
        return top, bottom

    def _lowered(self, size: Size) -> float:
        """How far the middle of the ground bar lies below the middle of the pressed."""
        if self.cut:
            return 0.0
        top, bottom = self._ground(size)
        return (top - bottom) / 2

    def _forged(self, levels: Levels) -> tuple[float, float]:
        thinner = 1.0 if self.thickness is None else self.thickness / levels.left
        return math.sqrt(1 / thinner), thinner


class Rimmed(Hollows):
    """Hollows of a ball or a round, as deep as one likes; rims may be rounded over.

    By hand one is struck deeper and its mouth is wider: a circle's chord so deep.
    """

    depth: float = quantity("Depth", "of the hollow", low=0, high=50, unit="mm")
    shoulder: float = quantity(
        "Rim", "how wide it is rounded over; 0: sharp", low=0, high=10, unit="mm", default=0
    )

    nothing: ClassVar[dict] = NOTHING
    says = " it, {way}: {across} wide, {depth} deep, rim {shoulder}, " + BY_HAND
    usual: ClassVar[dict] = {
        **Hollows.usual,
        "depth": lambda size: min(size.thickness / 3, 4),  # a ball's half at most
        "shoulder": 2,
    }

    @model_validator(mode="after")
    def _rounded(self) -> Rimmed:
        half = self.across / 2
        if self.shoulder > half:
            msg = (
                f"The rim of a hollow {self.across:g} mm across can be rounded over at "
                f"most {half:g} mm. Given: {self.shoulder:g} mm."
            )
            raise KitError(msg)
        return self

    def _left_by(self, sharp: type[Mark], eased: type[Eased], share: float) -> Mark:
        """Give the mark of a tool, sharp or with its rim rounded over."""
        half, deep = self.across / 2, self.depth * share
        if deep and share != 1:
            ball = ball_of(self.across, self.depth)
            chord = min(deep, ball / 2)
            half = math.sqrt(chord * (ball - chord))
        return eased.of(half, deep, self.shoulder) if self.shoulder else sharp(half, deep)


def ball_of(across: float, depth: float) -> float:
    """Give the diameter of the ball, or round, that leaves a hollow, mm.

    Of a circle, half a chord squared is its height times what is left of the diameter:
    Euclid III, 35. Past its middle a ball leaves no more than its own width.
    """
    deep = min(depth, across / 2)
    return across**2 / (4 * deep) + deep

"""Lesson 01: where the cut meets the layers.

Given: t, the layer's thickness in mm, and a, the cut's angle to the layers in degrees;
or times, how many times as wide as the layer a band is.
"""

import math
from functools import cached_property, partial
from typing import Any, ClassVar

from PIL import Image

from kit.basics.declare import quantity
from kit.basics.told import one_way
from kit.basics.units import STOCK_THICKNESSES_INCH, Units, format_length, in_three
from kit.course.lesson import Given
from kit.course.lessons import drawing
from kit.course.lessons.base import Lesson
from kit.course.lessons.scene import Number, Part, Scene
from kit.course.worded import Worded
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.metal import etch
from kit.metal.described import Described
from kit.section.picture import Sheet
from kit.section.surface import cut


def working(given: Given) -> list[str]:
    """Work the band width out, line by line, in mm."""
    t, a = given["t"], given["a"]
    sine = math.sin(math.radians(a))
    return [
        "band width = layer / sin(angle)",
        f"= {t:g} mm / sin({a:g}°)",
        f"= {t:g} mm / {sine:.4f}",
        f"= {in_three(t / sine)} mm",
    ]


def _sine(given: Given) -> float:
    return math.sin(math.radians(given["a"]))


TOLD = Worded(__file__, "01")

SPREAD = TOLD.idea("SPREAD", lambda given: given["t"] / _sine(given))
NO_CHANGE = TOLD.idea("NO_CHANGE", lambda given: given["t"])
COS_FOR_SIN = TOLD.idea(
    "COS_FOR_SIN", lambda given: given["t"] / math.cos(math.radians(given["a"]))
)
MULTIPLIED = TOLD.idea("MULTIPLIED", lambda given: given["t"] * _sine(given))
TAN_FOR_SIN = TOLD.idea(
    "TAN_FOR_SIN", lambda given: given["t"] / math.tan(math.radians(given["a"]))
)
RADIANS = TOLD.idea("RADIANS", lambda given: given["t"] / abs(math.sin(given["a"])))
THRICE = TOLD.idea("THRICE", lambda given: math.degrees(math.asin(1 / given["times"])))
TAN_FOR_ANGLE = TOLD.idea(
    "TAN_FOR_ANGLE", lambda given: math.degrees(math.atan(1 / given["times"]))
)
COMPLEMENT = TOLD.idea(
    "COMPLEMENT", lambda given: math.degrees(math.acos(1 / given["times"]))
)
LINEAR = TOLD.idea("LINEAR", lambda given: 90 / given["times"])


BAND_WIDTH = TOLD.check(
    "BAND_WIDTH",
    given={"t": 2.0, "a": 25.0},
    right=SPREAD,
    slips=(TAN_FOR_SIN, COS_FOR_SIN, MULTIPLIED, NO_CHANGE, RADIANS),
    kind="length",
    working=working,
    other={"t": 3.0, "a": 35.0},
)


def _angle_working(given: Given) -> list[str]:
    times = given["times"]
    return [
        "spread = 1 / sin(angle)",
        f"{times:g} = 1 / sin(angle)",
        f"so sin(angle) = 1 / {times:g}",
        f"angle = {math.degrees(math.asin(1 / times)):.1f}°",
    ]


THREE_TIMES = TOLD.check(
    "THREE_TIMES",
    given={"times": 3.0},
    right=THRICE,
    slips=(TAN_FOR_ANGLE, COMPLEMENT, LINEAR),
    kind="angle",
    working=_angle_working,
    other={"times": 2.0},
)


WIDTH = 60.0  # mm, of a block of our own
LEAST_LENGTH = 160.0
SHALLOW = 6.0  # degrees: from here a band is ten times as wide as its layer
ANGLE = quantity(
    "Cut angle to the layers",
    "90° is straight across; near 0° the saw runs along the layers",
    low=2, high=90, unit="°", default=90, step=0.5,
)  # fmt: skip
POSITION = quantity(
    "Cut position along the bar", "where the cut crosses the bar's middle", low=0,
    high=100, unit="%", default=50,
)  # fmt: skip


def block(*, layers: int, thickness: float) -> Billet:
    """Stack a block of 1084 and 15N20 in turn, flat, as clay sheets lie in a brick.

    Parameters
    ----------
    layers : int
        2 to 1000.
    thickness : float
        Of each layer, mm.
    """
    length = max(LEAST_LENGTH, 1.2 * layers * thickness)
    stack = Stack.alternate(
        "1084", "15N20", pieces=layers, thickness=thickness, length=length, width=WIDTH
    )
    return Billet(source=stack)


def tile(width: float) -> tuple[Image.Image, str]:
    """Draw the cut face, true to size, that has bands so wide, mm; and say it."""
    billet = block(layers=max(2, math.ceil(40 / width)), thickness=width)
    plane = cut(billet.size, angle=90, columns=200, rows=150, pixel=drawing.TRUE_SIZE)
    sheet = Sheet(200, 150)
    sheet.steel(etch.seen(billet, plane), (0, 0))
    alt = f"A cut face with dark and bright bands {width:.1f} mm wide, left to right."
    return sheet.image, alt


class CutLesson(Lesson):
    """A block of flat layers, and a saw that cuts at any angle."""

    key: ClassVar = "01"
    title: ClassVar = "Where the cut meets the layers"
    main: ClassVar = "angle"
    phone: ClassVar = (Part(0, 0, 590, 412),)
    cues: ClassVar = ("angle", "position")

    angle: float = ANGLE
    position: float = POSITION
    layers: int = quantity(
        "Layers in the stack", "dark and bright in turn", low=3, high=25, default=9
    )
    thickness: float = quantity(
        "Layer thickness", "of every layer", low=0.5, high=6, unit="mm", default=4,
        step=0.1, inch=STOCK_THICKNESSES_INCH,
    )  # fmt: skip

    question: ClassVar = TOLD.question(
        given={"t": 4.0, "a": 30.0},
        tiles=(NO_CHANGE, SPREAD, COS_FOR_SIN, MULTIPLIED),
        right=SPREAD,
        show=lambda width: f"bands {format_length(width, Units.MM)}",
        draw=tile,
    )
    # the saw leans over from square to 30°
    film: ClassVar = tuple(
        {"angle": round(60 + 30 * math.cos(math.pi * frame / 13), 1)} for frame in range(14)
    )
    checks: ClassVar = (BAND_WIDTH, THREE_TIMES)

    @cached_property
    def billet(self) -> Billet:
        """The block, before it is sawn."""
        return block(layers=self.layers, thickness=self.thickness)

    @property
    def given(self) -> dict[str, float]:
        """What the workings need: thickness in mm, angle in degrees."""
        return {"t": self.thickness, "a": self.angle}

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Saw the block and show it, its cut face, and the numbers."""
        # told or not: until then it is sawn square, which gives nothing away
        sheet = Sheet(drawing.COLUMNS, drawing.ROWS, **paper)
        panels = drawing.sawn_block(sheet, self.billet, self.angle, self.position, units)
        return Scene(
            image=sheet.image,
            alt=lambda: one_way(partial(self._alt, panels[-1].shows), units),
            numbers=self._numbers(units),
            says=one_way(self._says, units),
            panels=panels,
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what the cut, the layers and the place did to the bands."""
        layer = format_length(self.thickness, units)
        if changed == "position":
            return self._along()
        if changed == "layers":
            high = format_length(self.billet.size.thickness, units)
            return (
                f"{self.layers} layers of {layer}: {high} high, each band as wide as "
                "before."
            )
        if changed == "angle" and self.angle == drawing.SQUARE:
            return "A square cut shows the layers at their true thickness."
        if changed == "angle" and self.angle <= SHALLOW:
            return (
                f"At {self.angle:g}° the saw runs nearly along the layers: each shows "
                f"{SPREAD.value(self.given) / self.thickness:.3g} times as wide as "
                "it is."
            )
        return self._says(units) if changed in {"angle", "thickness"} else ""

    def _along(self) -> str:
        size, run = self.billet.size, 0.0
        if self.angle < drawing.SQUARE:
            run = size.thickness / 2 / math.tan(math.radians(self.angle))
        middle = self.position / 100 * size.length
        where = f"Sawn at {self.position:g} % of its length"
        if run and not run <= middle <= size.length - run:
            return f"{where} the slanting cut runs out through the bar's end: less is left."
        return f"{where} the face did not change: flat layers are alike all along the bar."

    def _says(self, units: Units) -> str:
        layer = format_length(self.thickness, units)
        width = format_length(SPREAD.value(self.given), units)
        return f"Cut at {self.angle:g}°, a layer of {layer} shows as a band {width} wide."

    def _alt(self, shows: Described | None, units: Units) -> str:
        layer = format_length(self.billet.mean_layer, units)
        width = format_length(SPREAD.value(self.given), units)
        return (
            f"A block of {self.layers} alternating dark and bright layers, each {layer} "
            f"thick, sawn at {self.angle:g} degrees to the layers. Beside it the cut face "
            f"shows {shows}; each band is {width} wide. Next to it a faint strip of the "
            f"same block cut square, with bands of {layer}."
        )

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        t, a = self.thickness, self.angle
        sine = math.sin(math.radians(a))
        width = t / sine
        stretch, words = drawing.stretch(units)
        return (
            Number(
                "Band width on the cut",
                format_length(width, units),
                working(self.given),
            ),
            Number(
                "Spread",
                f"× {1 / sine:.3g}",
                ["spread = 1 / sin(angle)", f"= 1 / sin({a:g}°)", f"= {1 / sine:.3g}"],
            ),
            Number(
                f"Bands in {words} of face",
                f"{stretch / width:.3g}",
                [
                    f"bands = {words} / band width",
                    f"= {words} / {width:.4g} mm",
                    f"= {stretch / width:.3g}",
                ],
            ),
        )

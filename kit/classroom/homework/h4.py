"""Homework H4: heat, atoms and etch, after lessons 08 and 09.

Given: fahrenheit, a temperature; step, a difference in °C; bars_a, thick_a, bars_b,
thick_b, a stack of 1084 and 15N20, mm; layer in mm, celsius; distance in mm.
"""

import math

import numpy as np

from kit.basics.claim import Claim, Kind
from kit.basics.typed import ABSOLUTE_ZERO, parse_temperature
from kit.basics.units import difference_in_fahrenheit, in_fahrenheit, in_three, rounded
from kit.classroom.homework.designs import SHARP_NICKEL
from kit.classroom.homework.judged import BETTER_STEEL
from kit.classroom.homework.paper import Homework
from kit.classroom.homework.tasks import Told
from kit.course.lesson import Given
from kit.course.lessons import carbon_ideas as walking
from kit.forge.stack import Layer, Stack
from kit.forge.steels import steel
from kit.metal.diffusion import TABLE, diffusivity
from kit.metal.evening import contents_of
from kit.metal.eye import EYE

PLAIN, BRIGHT = "1084", "15N20"
FREEZES = Claim(
    says="Water freezes at 0 °C, which is 32 °F.",
    kind=Kind.MEMORY,
    source="textbooks of physics; at the pressure of the air",
    told=("Water freezes",),
)
TOLD = Told(__file__, "08")


def nickel_of_bright() -> float:
    """Give the nickel in 15N20, weight per cent."""
    return steel(BRIGHT).nominal["Ni"]


def mean_nickel(given: Given) -> float:
    """Give the mean nickel of a stack, counted by thickness, per cent."""
    bars = [Layer(steel=PLAIN, thickness=given["thick_a"])] * round(given["bars_a"])
    bars += [Layer(steel=BRIGHT, thickness=given["thick_b"])] * round(given["bars_b"])
    stack = Stack(layers=bars, length=100, width=30)
    return float(np.diff(stack.edges) @ contents_of(stack, "Ni"))


def _thickness(given: Given) -> tuple[float, float]:
    return given["bars_a"] * given["thick_a"], given["bars_b"] * given["thick_b"]


def celsius_working(given: Given) -> list[str]:
    """Work °F into °C."""
    hot = given["fahrenheit"]
    return [
        "°C = (°F - 32) / 1.8",
        f"= ({hot:g} - 32) / 1.8 = {hot - 32:g} / 1.8",
        f"= {rounded(CELSIUS.value(given))} °C",
    ]


def step_working(given: Given) -> list[str]:
    """Work a step in °C into °F."""
    return [
        "a step of 1 °C is a step of 1.8 °F; where the scales begin does not matter",
        f"= {given['step']:g} × 1.8 °F",
        f"= {in_three(STEP.value(given))} °F",
    ]


def nickel_working(given: Given) -> list[str]:
    """Work the mean nickel out."""
    (plain, bright), nickel = _thickness(given), nickel_of_bright()
    thin = given["thick_b"]
    return [
        f"1084: {given['bars_a']:g} × {given['thick_a']:g} = {plain:g} mm without nickel",
        f"15N20: {given['bars_b']:g} × {thin:g} = {bright:g} mm with {nickel:g} %",
        f"mean = {bright:g} × {nickel:g} / ({plain:g} + {bright:g})",
        f"= {mean_nickel(given):.2f} %",
    ]


def eye_working(given: Given) -> list[str]:
    """Work the finest width out."""
    far = given["distance"]
    return [
        "one arc-minute is a sixtieth of a degree",
        f"width = distance × tan(1/60°) = {far:g} mm × 0.0002909",
        f"= {in_three(EYE.finest(far))} mm",
    ]


def _too_cold_by_zero(given: Given) -> float:
    """Give the minutes of somebody who takes °C for kelvin."""
    speed = diffusivity("C", given["celsius"])
    return walking.minutes(given) * speed / TABLE["C"].at(given["celsius"] + ABSOLUTE_ZERO)


CELSIUS = TOLD.idea(
    "CELSIUS", lambda given: parse_temperature(f"{given['fahrenheit']:g} F")
)
NO_32 = TOLD.idea("NO_32", lambda given: given["fahrenheit"] / 1.8)
ADD_32 = TOLD.idea("ADD_32", lambda given: (given["fahrenheit"] + 32) / 1.8)
INVERTED = TOLD.idea("INVERTED", lambda given: in_fahrenheit(given["fahrenheit"]))
STEP = TOLD.idea("STEP", lambda given: difference_in_fahrenheit(given["step"]))
ADDED_32 = TOLD.idea("ADDED_32", lambda given: in_fahrenheit(given["step"]))
STEP_INVERTED = TOLD.idea("STEP_INVERTED", lambda given: given["step"] / 1.8)
SAME_STEP = TOLD.idea("SAME_STEP", lambda given: given["step"])
NICKEL = TOLD.idea("NICKEL", mean_nickel)
COUNTED_SHEETS = TOLD.idea(
    "COUNTED_SHEETS",
    lambda g: nickel_of_bright() * g["bars_b"] / (g["bars_a"] + g["bars_b"]),
)
RATIO = TOLD.idea(
    "RATIO", lambda g: nickel_of_bright() * _thickness(g)[1] / _thickness(g)[0]
)
UNMIXED = TOLD.idea("UNMIXED", lambda _given: nickel_of_bright())
SECONDS = TOLD.idea("SECONDS", lambda given: 60 * walking.minutes(given))
NOT_SQUARED = TOLD.idea(
    "NOT_SQUARED", lambda given: walking.minutes(given) / given["layer"]
)
HALF_LAYER = TOLD.idea(
    "HALF_LAYER", lambda given: walking.minutes({**given, "layer": given["layer"] / 2})
)
KELVIN_FORGOTTEN = TOLD.idea("KELVIN_FORGOTTEN", _too_cold_by_zero)
FINEST = TOLD.idea("FINEST", lambda given: EYE.finest(given["distance"]))
DEGREE_NOT_MINUTE = TOLD.idea(
    "DEGREE_NOT_MINUTE", lambda given: given["distance"] * math.tan(math.radians(1))
)
HALF_ANGLE = TOLD.idea("HALF_ANGLE", lambda given: EYE.finest(given["distance"]) / 2)
EYE_RADIANS = TOLD.idea("EYE_RADIANS", lambda given: given["distance"] * math.tan(1 / 60))


# Of our own, for worked examples.
OTHER = {
    "fahrenheit": 1600.0,
    "step": 12.0,
    "bars_a": 3.0,
    "thick_a": 6.0,
    "bars_b": 2.0,
    "thick_b": 1.0,
    "layer": 0.6,
    "celsius": 1050.0,
    "distance": 2000.0,
}


PARTS = (
    TOLD.part(
        1,
        kind="celsius",
        right=CELSIUS,
        slips=(NO_32, ADD_32, INVERTED),
        working=celsius_working,
        other=OTHER,
    ),
    TOLD.part(
        2,
        kind="step in fahrenheit",
        right=STEP,
        slips=(ADDED_32, STEP_INVERTED, SAME_STEP),
        working=step_working,
        other=OTHER,
    ),
    TOLD.part(
        3,
        kind="share",
        pick=lambda values: {**values, "nickel": nickel_of_bright()},
        right=NICKEL,
        slips=(COUNTED_SHEETS, RATIO, UNMIXED),
        working=nickel_working,
        other=OTHER,
    ),
    TOLD.part(
        4,
        kind="minutes",
        right=walking.TIME,
        slips=(SECONDS, NOT_SQUARED, HALF_LAYER, KELVIN_FORGOTTEN),
        working=walking.minutes_working,
        other=OTHER,
    ),
    TOLD.part(
        5,
        kind="length",
        right=FINEST,
        slips=(DEGREE_NOT_MINUTE, HALF_ANGLE, EYE_RADIANS),
        working=eye_working,
        other=OTHER,
    ),
)

H4 = Homework(
    code="H4",
    title="Heat, atoms and etch",
    lessons=("08", "09"),
    sizes={
        "fahrenheit": (1450, 1500, 1700, 1850, 1900, 2000, 2050, 2100),
        "step": (20, 25, 30, 40, 50),
        "bars_a": (4, 5, 6, 7, 8),
        "thick_a": (3.0, 4.0, 5.0),
        "bars_b": (3, 4, 5, 6),
        "thick_b": (1.5, 2.0, 2.5),
        "layer": (0.1, 0.15, 0.2, 0.25, 0.3),
        "celsius": (1050, 1075, 1100, 1125, 1150),
        "distance": (300, 400, 500, 700, 1000, 1500),
        "sheet": (0.01, 0.015, 0.02, 0.03, 0.04),
    },
    parts=PARTS,
    design=SHARP_NICKEL,
    judged=BETTER_STEEL,
)

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
from kit.classroom.homework.tasks import Part
from kit.course.lesson import Given, ideas_of
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
_walk, _eye, _heat = ideas_of("08"), ideas_of("09"), ideas_of("08")


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


CELSIUS = _heat(
    "RIGHT",
    "take off 32 and divide by 1.8",
    lambda given: parse_temperature(f"{given['fahrenheit']:g} F"),
)
NO_32 = _heat(
    "NO_32",
    "only divide by 1.8",
    lambda given: given["fahrenheit"] / 1.8,
    "Water freezes at 32 °F. What would your way say of that?",
)
ADD_32 = _heat(
    "ADD_32",
    "add 32 where it is to be taken off",
    lambda given: (given["fahrenheit"] + 32) / 1.8,
    "Water freezes at 32 °F and at 0 °C. Try your way on that.",
)
INVERTED = _heat(
    "INVERTED",
    "go the other way, from °C to °F",
    lambda given: in_fahrenheit(given["fahrenheit"]),
    "Is the number in °C larger or smaller than the one in °F?",
)
STEP = _heat(
    "RIGHT",
    "multiply the step by 1.8",
    lambda given: difference_in_fahrenheit(given["step"]),
)
ADDED_32 = _heat(
    "ADDED_32",
    "add 32 to a difference",
    lambda given: in_fahrenheit(given["step"]),
    "A step of nothing in °C: how large is it in °F?",
)
STEP_INVERTED = _heat(
    "STEP_INVERTED",
    "divide by 1.8",
    lambda given: given["step"] / 1.8,
    "Which degree is the smaller one? Then it takes more of them.",
)
SAME_STEP = _heat(
    "SAME",
    "leave the number as it is",
    lambda given: given["step"],
    "From freezing to boiling water: 100 steps of °C. How many of °F?",
)
NICKEL = _walk("RIGHT", "weigh each steel by its thickness", mean_nickel)
COUNTED_SHEETS = _walk(
    "COUNTED_SHEETS",
    "count the bars and not how thick they are",
    lambda g: nickel_of_bright() * g["bars_b"] / (g["bars_a"] + g["bars_b"]),
    "Does a thin bar bring as much steel as a thick one?",
)
RATIO = _walk(
    "RATIO",
    "divide by the other steel alone, not by both",
    lambda g: nickel_of_bright() * _thickness(g)[1] / _thickness(g)[0],
    "A share is a part of the whole. What is the whole stack?",
)
UNMIXED = _walk(
    "UNMIXED",
    "give the nickel of the bright steel alone",
    lambda _given: nickel_of_bright(),
    "Spread out over all of the stack, does it stay as much?",
)
SECONDS = _walk(
    "SECONDS",
    "give seconds where minutes are asked for",
    lambda given: 60 * walking.minutes(given),
    "D has seconds in it. What is asked for?",
)
NOT_SQUARED = _walk(
    "NOT_SQUARED",
    "leave the thickness unsquared, in mm",
    lambda given: walking.minutes(given) / given["layer"],
    "Time goes with the way times the way.",
)
HALF_LAYER = _walk(
    "HALF_LAYER",
    "put half the layer in",
    lambda given: walking.minutes({**given, "layer": given["layer"] / 2}),
    "In this formula the whole layer stands, from weld to weld.",
)
KELVIN_FORGOTTEN = _walk(
    "KELVIN_FORGOTTEN",
    "put °C where kelvin belongs",
    _too_cold_by_zero,
    "From absolute zero, how hot is it?",
)
FINEST = _eye("RIGHT", "take one arc-minute", lambda given: EYE.finest(given["distance"]))
DEGREE_NOT_MINUTE = _eye(
    "DEGREE_NOT_MINUTE",
    "take a degree for an arc-minute",
    lambda given: given["distance"] * math.tan(math.radians(1)),
    "How many minutes has a degree? Could you not resolve lines a pencil wide?",
)
HALF_ANGLE = _eye(
    "HALF_ANGLE",
    "take half the angle",
    lambda given: EYE.finest(given["distance"]) / 2,
    "The angle goes from one side of the line to its other side.",
)
EYE_RADIANS = _eye(
    "RADIANS",
    "leave the calculator on radians",
    lambda given: given["distance"] * math.tan(1 / 60),
    "Set it to degrees and press the same keys.",
)


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
    Part(
        number=1,
        question="A chart gives {fahrenheit} °F. How hot is that in °C?",
        kind="celsius",
        right=CELSIUS,
        slips=(NO_32, ADD_32, INVERTED),
        prompt="Where does each scale put freezing water, and how large are its degrees?",
        shows="{}",
        working=celsius_working,
        other=OTHER,
    ),
    Part(
        number=2,
        question=(
            "The forge gets {step} °C hotter than it was. By how many °F is it hotter?"
        ),
        kind="step in fahrenheit",
        right=STEP,
        slips=(ADDED_32, STEP_INVERTED, SAME_STEP),
        prompt="It is a step, not a temperature. Which degree is the larger one?",
        shows="a step of {}",
        working=step_working,
        other=OTHER,
    ),
    Part(
        number=3,
        question=(
            "A stack has {bars_a} bars of 1084, {thick_a:mm} thick and without nickel, "
            "and {bars_b} bars of 15N20, {thick_b:mm} thick, with "
            f"{nickel_of_bright():g} % nickel. All are as wide. How much nickel does "
            "the whole stack have on average, in per cent?"
        ),
        kind="share",
        right=NICKEL,
        slips=(COUNTED_SHEETS, RATIO, UNMIXED),
        prompt="How much of the whole stack's thickness holds nickel?",
        shows="{} nickel",
        working=nickel_working,
        other=OTHER,
    ),
    Part(
        number=4,
        question=(
            "Layers of 1084 and 15N20, all {layer:mm} thick, are held at {celsius} °C "
            "({celsius:F}). Carbon is 95 % even between them after t = 3.0 h² / (π² D), "
            "with D = 2.3·10⁻⁵ m²/s × e^(-148,000 / (8.314 T)) and T in kelvin. How many "
            "minutes is that?"
        ),
        kind="minutes",
        right=walking.TIME,
        slips=(SECONDS, NOT_SQUARED, HALF_LAYER, KELVIN_FORGOTTEN),
        prompt="What does the time go with: the layer, or the layer times the layer?",
        shows="{} in the fire",
        working=walking.minutes_working,
        other=OTHER,
    ),
    Part(
        number=5,
        question=(
            "A good eye resolves one arc-minute. How wide is the finest line it resolves "
            "from {distance:away} away?"
        ),
        kind="length",
        right=FINEST,
        slips=(DEGREE_NOT_MINUTE, HALF_ANGLE, EYE_RADIANS),
        prompt="How many arc-minutes has a degree?",
        shows="lines {} wide",
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

"""Homework H4: heat, atoms and etch, after lessons 08 and 09."""

from __future__ import annotations

from kit.basics.units import Units, format_temperature
from kit.classroom.homework import h4_ideas as ideas
from kit.classroom.homework.designs_heat import SHARP_NICKEL
from kit.classroom.homework.judged import BETTER_STEEL
from kit.classroom.homework.paper import Homework
from kit.classroom.homework.part import Part
from kit.course.answers import said
from kit.course.lesson import Given
from kit.course.lessons import carbon_ideas as walking

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


def _ask_celsius(values: Given, _units: Units) -> str:
    return f"A chart gives {values['fahrenheit']:g} °F. How hot is that in °C?"


def _ask_step(values: Given, _units: Units) -> str:
    return (
        f"The forge gets {values['step']:g} °C hotter than it was. By how many °F is it "
        "hotter?"
    )


def _ask_nickel(values: Given, units: Units) -> str:
    thick, thin = said(values["thick_a"], units), said(values["thick_b"], units)
    return (
        f"A stack has {values['bars_a']:.0f} bars of 1084, {thick} thick and without "
        f"nickel, and {values['bars_b']:.0f} bars of 15N20, {thin} thick, with "
        f"{ideas.nickel_of_bright():g} % nickel. All are as wide. How much nickel does the "
        "whole stack have on average, in per cent?"
    )


def _ask_minutes(values: Given, units: Units) -> str:
    heat, hot = values["celsius"], format_temperature(values["celsius"], "F")
    return (
        f"Layers of 1084 and 15N20, all {said(values['layer'], units)} thick, are held at "
        f"{heat:g} °C ({hot}). After how many minutes is carbon 95 % even between them? "
        "(t = 3.0 h² / (π² D), D = 2.3·10⁻⁵ m²/s × e^(-148 000 / (8.314 T)), T in kelvin)"
    )


def _ask_eye(values: Given, units: Units) -> str:
    return (
        "A good eye splits one arc-minute. How wide is the finest line it splits from "
        f"{said(values['distance'], units)} away?"
    )


PARTS = (
    Part(
        number=1,
        ask=_ask_celsius,
        kind="celsius",
        right=ideas.CELSIUS,
        slips=(ideas.NO_32, ideas.ADD_32, ideas.INVERTED),
        prompt="Where does each scale put freezing water, and how large are its degrees?",
        shows="{}",
        working=ideas.celsius_working,
        other=OTHER,
    ),
    Part(
        number=2,
        ask=_ask_step,
        kind="step in fahrenheit",
        right=ideas.STEP,
        slips=(ideas.ADDED_32, ideas.STEP_INVERTED, ideas.SAME_STEP),
        prompt="It is a step, not a temperature. Which degree is the larger one?",
        shows="a step of {}",
        working=ideas.step_working,
        other=OTHER,
    ),
    Part(
        number=3,
        ask=_ask_nickel,
        kind="share",
        right=ideas.NICKEL,
        slips=(ideas.COUNTED_SHEETS, ideas.RATIO, ideas.UNMIXED),
        prompt="How much of the whole stack's thickness holds nickel?",
        shows="{} nickel",
        working=ideas.nickel_working,
        other=OTHER,
    ),
    Part(
        number=4,
        ask=_ask_minutes,
        kind="minutes",
        right=walking.TIME,
        slips=(
            ideas.SECONDS,
            ideas.NOT_SQUARED,
            ideas.HALF_LAYER,
            ideas.KELVIN_FORGOTTEN,
        ),
        prompt="What does the time go with: the layer, or the layer times the layer?",
        shows="{} in the fire",
        working=walking.minutes_working,
        other=OTHER,
    ),
    Part(
        number=5,
        ask=_ask_eye,
        kind="length",
        right=ideas.FINEST,
        slips=(ideas.DEGREE_NOT_MINUTE, ideas.HALF_ANGLE, ideas.EYE_RADIANS),
        prompt="How many arc-minutes has a degree?",
        shows="lines {} wide",
        working=ideas.eye_working,
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

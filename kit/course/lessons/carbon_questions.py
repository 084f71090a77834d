"""What lesson 08 asks: the prediction, the checks, and the move that answers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from kit.course.check import Check
from kit.course.lesson import Question, Reason
from kit.course.lessons.carbon import Job
from kit.course.lessons.carbon_ideas import (
    A_LITTLE,
    AS_MANY,
    BOTH,
    CARBON,
    COOLER,
    CUBED,
    LINEAR,
    NEITHER,
    NICKEL,
    NICKEL_TIME,
    ONLY_CARBON,
    ONLY_NICKEL,
    SAME_TIME,
    TIME,
    TIMES,
    minutes_working,
    times_working,
)
from kit.section.picture import ACCENT, INK, QUIET, Sheet

if TYPE_CHECKING:
    from PIL import Image

WORDS = {0: "neither", CARBON: "only carbon", NICKEL: "only nickel", 3: "both even"}
LEFT, WIDE, TOP, HIGH = (12, 108), 80, 38, 84


def tile(expected: float) -> tuple[Image.Image, str]:
    """Draw the two profiles that somebody with this idea expects after the fire."""
    sheet = Sheet(200, 150)
    for left, bit, name in zip(LEFT, (CARBON, NICKEL), ("carbon", "nickel"), strict=True):
        even = bool(round(expected) & bit)
        sheet.box((left, TOP), (left + WIDE, TOP + HIGH), ink=QUIET)
        sheet.text(name, (left, TOP - 24), size=16)
        level = (TOP + 18, TOP + HIGH - 18)
        stairs = [
            (left + WIDE * (layer + part) / 4, level[layer % 2])
            for layer in range(4)
            for part in (0, 1)
        ]
        for number in range(0, 8, 2):
            sheet.dashes(stairs[number], stairs[number + 1], ink=ACCENT)
        middle = TOP + HIGH / 2
        flat = [(left, middle), (left + WIDE, middle)]
        sheet.line(flat if even else stairs, ink=INK, width=3)
    words = WORDS[round(expected)]
    return sheet.image, f"Carbon and nickel over four layers after the fire: {words}."


def question() -> Question:
    """Ask what ten minutes at welding heat even out."""
    return Question(
        ask=(
            "Layers of 1084 and 15N20, each 0.25 mm thick, are ten minutes at 1150 °C "
            "(2102 °F). The steels differ in carbon and in nickel. What has evened out "
            "between the layers?"
        ),
        given=Job().given,
        tiles=(ONLY_CARBON, BOTH, NEITHER, ONLY_NICKEL),
        right=ONLY_CARBON,
        show=lambda expected: WORDS[round(expected)],
        draw=tile,
        observed=(
            "Carbon is level; it takes 3.7 minutes. Nickel stands as it was stacked: it "
            "got 0.0016 mm far and would take 54 days. The etch goes by nickel, so the "
            "pattern is still there."
        ),
        reasons=(
            Reason(
                "Carbon sits between the iron atoms; nickel must swap places with them.",
                True,
                "Yes. A small atom slips from gap to gap. A large one waits for an empty "
                "place beside it, some twenty thousand times as long.",
            ),
            Reason(
                "Nickel is held fast by the weld.",
                False,
                "The weld is no wall: carbon went straight through it.",
            ),
            Reason(
                "There is less carbon than nickel, so it was used up.",
                False,
                "None was used up. Add the carbon of all layers before and after.",
            ),
        ),
    )


# The move that answers the question: the minutes pass.
FILM = [{**Job().model_dump(), "minutes": float(minute)} for minute in range(11)]

HALF = {"layer": 0.5, "celsius": 1150.0, "minutes": 10.0}
COOL = {"layer": 0.25, "celsius": 1000.0, "minutes": 10.0}

THICKER = Check(
    ask=(
        "Layers 0.5 mm thick at 1150 °C (2102 °F): after how many minutes is carbon 95 % "
        "even?"
    ),
    given=HALF,
    right=TIME,
    slips=(LINEAR, NICKEL_TIME),
    kind="minutes",
    prompt="It was 3.7 minutes for half as thick a layer. How much farther is the way now?",
    working=minutes_working,
    other={"layer": 1.0, "celsius": 1100.0, "minutes": 10.0},
    tips=(
        "Set the layer to 0.5 mm and read how long carbon takes. Then choose.",
        "Find 0.5 mm on the chart of times. 5 % is near enough.",
        "Time goes with the square of the layer. 2 % is near enough.",
    ),
)
SQUARE = Check(
    ask="A layer is four times as thick as another. How many times as long does it take?",
    given={"times": 4.0},
    right=TIMES,
    slips=(AS_MANY, CUBED),
    kind="count",
    prompt="Twice as thick takes four times as long. And twice that?",
    working=times_working,
    other={"times": 3.0},
    tips=(
        "Set a layer, read the minutes, set one four times as thick. Then choose.",
        "Read two times off the chart and divide.",
        "It goes with the square.",
    ),
)
LOWER = Check(
    ask=(
        "Layers 0.25 mm thick, but at 1000 °C (1832 °F): after how many minutes is the "
        "carbon 95 % even?"
    ),
    given=COOL,
    right=COOLER,
    slips=(SAME_TIME, A_LITTLE),
    kind="minutes",
    prompt="Cooler atoms push less often. Is it a little slower, or much slower?",
    working=minutes_working,
    other={"layer": 0.25, "celsius": 1050.0, "minutes": 10.0},
    tips=(
        "Set the heat to 1000 °C and read how long carbon takes. Then choose.",
        "Set the same and read it off the chart. 5 % is near enough.",
        "D = 2.3e-5 m²/s × exp(-148 000 / (8.314 × kelvin)). 2 % is near enough.",
    ),
)

"""Homework H1: counting and cutting, after lessons 01 and 02."""

from __future__ import annotations

from kit.basics.units import Units
from kit.classroom.homework.designs import BANDS
from kit.classroom.homework.h1_ideas import (
    LAYER,
    MULTIPLIED,
    UNIT_MM,
    USED_BANDS,
    USED_N0,
    bands_working,
    folds_working,
    layer_working,
)
from kit.classroom.homework.judged import SELLERS
from kit.classroom.homework.paper import Homework
from kit.classroom.homework.part import Carry, Part
from kit.course.answers import said
from kit.course.lesson import Given, Idea
from kit.course.lessons import cut_ideas as cutting
from kit.course.lessons import fold_ideas as folding

FOLDS_ASKED = Idea(
    code="RIGHT",
    name="count doublings until the goal is reached",
    formula=folding.fewest_folds,
    hint="",
    lesson="02",
)
BANDS_ASKED = Idea(
    code="RIGHT",
    name="count one band for two like faces",
    formula=folding.bands,
    hint="",
    lesson="02",
)
OTHER = {"n": 5.0, "k": 4.0, "T": 3.0, "goal": 70.0, "t": 6.0, "a": 15.0}


def _own_layers(given: Given, own: float) -> Given:
    """Take the layers of part 1 as the student has them: as if from other pieces."""
    return {**given, "n": own / 2 ** given["k"]}


def _ask_layers(values: Given, _units: Units) -> str:
    return (
        f"A stack of {values['n']:.0f} pieces is folded {values['k']:.0f} times, each time "
        "doubled over on itself. How many layers has it then, as the trade counts: in "
        "pieces of steel?"
    )


def _ask_bands(_values: Given, _units: Units) -> str:
    return (
        "In that stack the two steels lay in turn. Where it is doubled over, like meets "
        "like and looks like one. How many bands can be seen on its end?"
    )


def _ask_layer(values: Given, units: Units) -> str:
    return (
        f"The billet is forged to a bar {said(values['T'], units)} thick. How thick is a "
        "layer on average, counted in pieces, in micrometres (µm)? You may write another "
        "unit behind the number."
    )


def _ask_folds(values: Given, _units: Units) -> str:
    return (
        f"From {values['n']:.0f} pieces at least {values['goal']:.0f} layers are wanted. "
        "What is the smallest number of folds?"
    )


def _ask_band(values: Given, units: Units) -> str:
    return (
        f"Layers {said(values['t'], units)} thick are cut at {values['a']:g}° to the "
        "layers. How wide is a band on the cut?"
    )


PARTS = (
    Part(
        number=1,
        ask=_ask_layers,
        kind="count",
        right=folding.LAYERS,
        slips=(
            folding.FOLD_PLUS_N,
            folding.FOLD_PLUS_2N,
            folding.FOLD_ADDS,
            folding.FOLD_TIMES_2N,
            folding.ONE_FOLD_SHORT,
            folding.BANDS_NOT_PIECES,
            folding.POWER_SWAPPED,
        ),
        prompt="What happens to all the layers there are, each time the bar is folded?",
        shows="an end with {} layers",
        working=folding.working,
        other=OTHER,
    ),
    Part(
        number=2,
        ask=_ask_bands,
        kind="count",
        right=BANDS_ASKED,
        slips=(folding.PIECES_NOT_BANDS, folding.MINUS_ONE_ONCE, folding.LINES_NOT_BANDS),
        prompt="At how many places does like lie on like when the last fold is done?",
        shows="an end with {} bands",
        working=bands_working,
        other=OTHER,
        carry=Carry(1, _own_layers),
    ),
    Part(
        number=3,
        ask=_ask_layer,
        kind="microns",
        right=LAYER,
        slips=(UNIT_MM, USED_N0, USED_BANDS, MULTIPLIED),
        prompt="Among how many layers is the thickness of the bar shared out?",
        shows="layers of {}",
        working=layer_working,
        other=OTHER,
        carry=Carry(1, _own_layers),
    ),
    Part(
        number=4,
        ask=_ask_folds,
        kind="count",
        right=FOLDS_ASKED,
        slips=(folding.ROUNDED_DOWN, folding.LINEAR, folding.SUBTRACTED),
        prompt="Say the count after each fold aloud. When is it enough for the first time?",
        shows="{} folds",
        working=folds_working,
        other=OTHER,
    ),
    Part(
        number=5,
        ask=_ask_band,
        kind="length",
        right=cutting.SPREAD,
        slips=(
            cutting.TAN_FOR_SIN,
            cutting.COS_FOR_SIN,
            cutting.MULTIPLIED,
            cutting.NO_CHANGE,
            cutting.RADIANS,
        ),
        prompt="How far must the saw travel through one layer if it goes in on a slant?",
        shows="a cut with bands {} wide",
        working=cutting.working,
        other=OTHER,
        # sin(30 rad) is nearly -1, so both give the layer's own thickness
        joint=(frozenset(("RADIANS", "NO_CHANGE")),),
    ),
)

H1 = Homework(
    code="H1",
    title="Counting and cutting",
    lessons=("01", "02"),
    sizes={
        "n": (7, 9, 11, 13, 15, 17),
        "k": (5, 6, 7),
        "T": (3.5, 4.0, 4.5, 5.0, 6.0),
        "goal": (150, 200, 250, 300, 400, 500),
        "t": (1.5, 2.5, 3.0, 3.5, 4.0, 5.0),
        "a": (18, 22, 25, 30, 35, 50),
        "bar": (5.0, 6.0, 7.0, 8.0),
    },
    parts=PARTS,
    design=BANDS,
    judged=SELLERS,
)

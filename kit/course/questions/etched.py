"""Cards 11 and 13: what the acid does, and whether it lasts."""

from __future__ import annotations

from functools import cache

from kit.course.lessons.bevels import Job
from kit.course.lessons.scene import Scene
from kit.course.questions import faces, relief
from kit.course.questions.card import Card, Measures, Values
from kit.metal.bite import ILLUSTRATIVE

MINUTES = 10.0
ACID = (
    "Etchant burns eyes and skin and stains for good: goggles, gloves, fresh air, by the "
    "rules of the place; never at a public table. Spent, it is waste, not for the drain."
)


@cache
def _bitten() -> Values:
    dark, bright = relief.rates()
    step = relief.step_after(MINUTES)
    return {
        "dark": 1000 * dark,
        "bright": 1000 * bright,
        "minutes": MINUTES,
        "step": step,
        "micrometres": 1000 * step,
    }


def _growing(measures: Measures) -> Scene:
    return relief.growing((0.0, MINUTES / 2, MINUTES), measures)


@cache
def _again() -> Values:
    layer = Job().layer
    dark, _bright = relief.rates()
    lost = dark * MINUTES
    return {
        "dark": 1000 * dark,
        "minutes": MINUTES,
        "lost": lost,
        "micrometres": 1000 * lost,
        "layer": layer,
        "layer_micrometres": 1000 * layer,
        "share": 100 * lost / layer,
    }


def _worn(measures: Measures) -> Scene:
    lost = relief.rates()[0] * MINUTES
    return faces.worn_and_back(faces.bar(0.5, 50.0), 4.0, lost, measures)


CARDS = (
    Card(
        number=11,
        question="What does the acid do?",
        belief="It draws the pattern, or burns it in.",
        answer="It eats both steels, one faster than the other, and leaves the one dark "
        "and the other bright. So it makes steps and shades where two steels already lay "
        "side by side. On one steel alone it makes no pattern. With the rates that the kit "
        "makes up the step is {step:fine} after {minutes:g} minutes.",
        breath="It develops the picture, as with a photograph. It does not draw it.",
        name="Step between the steels after {minutes:g} min",
        value="{step:fine}",
        working=(
            "step = (rate of the dark steel - rate of the bright one) × time",
            "= ({dark:.1f} - {bright:.1f}) µm a minute × {minutes:g} min",
            "= {micrometres:.0f} µm = {step:fine}",
        ),
        values=_bitten,
        picture=_growing,
        keywords="etch ferric chloride etchant bath relief depth dip vinegar coffee time",
        mark=ILLUSTRATIVE,
        caution=ACID,
        lesson="09",
    ),
    Card(
        number=13,
        question="Will it wear off? Can it be brought back?",
        belief="Once it is gone, it is gone.",
        answer="What wears is the step and the dark oxide; the layers go on below. Clean "
        "it, sand it evenly, etch it again, and the pattern is back. With the rates that "
        "the kit makes up another etch eats {lost:fine} of the dark steel. A layer of this "
        "blade is {layer:fine} thick, and below it lies the next.",
        breath="The ink wears off, the book does not: it can be etched again.",
        name="What another etch takes",
        value="{micrometres:.0f} µm, {share:.0f} % of one layer",
        working=(
            "{dark:.1f} µm a minute × {minutes:g} min = {micrometres:.0f} µm",
            "one layer: {layer_micrometres:.0f} µm",
            (
                "{micrometres:.0f} / {layer_micrometres:.0f} = {share:.0f} %; sanding "
                "before it takes more than the etch"
            ),
        ),
        values=_again,
        picture=_worn,
        keywords="fade faded scratch restore renew refresh etch lasting permanent old dull "
        "polish",
        mark=ILLUSTRATIVE,
        caution=ACID,
        lesson="09",
    ),
)

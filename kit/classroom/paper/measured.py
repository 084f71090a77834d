"""The sheet on which what was predicted meets what was measured, and asks why."""

import math

from kit.basics.claim import marks
from kit.basics.units import Units, format_length, format_weight
from kit.classroom.paper import operations
from kit.classroom.paper.kinds import Asked, Kind
from kit.classroom.paper.page import LIVE, Page
from kit.classroom.paper.table import BOX, Table
from kit.classroom.paper.told import weighed
from kit.forge.billet import Billet
from kit.forge.steps import Dent, Drill, Grind, Hammer, SquareUp, Twist
from kit.shop.losses import weight
from kit.shop.plan import Plan
from kit.shop.recipes.recipe import Recipe

YOURS = "(predict it)"
HOW = {
    "length": "rule, between the sawn ends",
    "mass": "scales, dry and clean",
    "thickness": "calliper, three places, the mean",
    "angle": "protractor on the middle line of the face",
    "spacing": "rule, ten lines or five stars, divide",
    "rings": "count across one drop, with a loupe",
    "line height": "calliper, from the edge up, five places",
}


def measured_sheet(asked: Asked) -> list[Page]:
    """Give one page: predicted by the kit where it knows, left to predict where not."""
    given = asked.about
    called = given.name if isinstance(given, Recipe) else "a planned bar"
    page = asked.page("Predicted, measured, why?")
    page.write(f"Bar: {called}.    Name:                              Date:")
    if missed := operations.not_taken(operations.of_any(given, asked.units)):
        page.write(missed, bold=True)
    page.write(
        "Fill in what is missing under Predicted before you look. Difference = "
        "measured less predicted. Why: name one thing, and how you would find out. "
        f"How what is predicted is known: {marks(weighed(given.billet))}.",
        size=10,
    )
    page.y += 2
    known = predicted(given, asked.units)
    Table(
        ("What", "How", "Predicted", "Measured", "Difference", "Why?"),
        (23, 34, 30, 27, 27, 49),
        size=10,
        least=30,
        foot=LIVE[1] - 12,
        rows=[
            (what.capitalize(), how, known.get(what, f"{BOX}\n\n{YOURS}"), BOX, BOX, BOX)
            for what, how in HOW.items()
        ],
    ).draw(page)
    page.foot("A difference is a finding. Weigh and measure cold; hot steel is longer.")
    return [page]


def predicted(given: Plan | Recipe, units: Units = Units.MM) -> dict[str, str]:
    """Say what the kit expects, by the names in `HOW`; what it cannot know is left out."""
    if isinstance(given, Plan):
        size = given.stages()[-1].after
        grams = given.grams_out
    else:
        size, grams = given.billet.size, weight(given.billet)
    known = {
        "length": format_length(size.length, units),
        "mass": format_weight(grams, units)
        + ("" if isinstance(given, Plan) else ", scale not counted"),
        "thickness": format_length(size.thickness, units),
    }
    return known | _twisted(given.billet, units) | _pressed(given.billet)


def _twisted(billet: Billet, units: Units) -> dict[str, str]:
    """Give the angle of the lines on the top face and the distance of the stars.

    Lines on a face h from the axis lean by atan(2 π h / turn): one turn goes once round.
    Known only while nothing but squaring up and grinding came after the twist; of a bar
    twisted or hammered unevenly its mean is told.
    """
    place = next((n for n, s in enumerate(billet.steps) if isinstance(s, Twist)), None)
    if place is None:
        return {}
    turn = billet.steps[place].turn_length
    high = billet.sizes[place].thickness / 2
    about = "about " if billet.steps[place].uneven else ""
    after = zip(billet.steps[place + 1 :], billet.sizes[place + 2 :], strict=True)
    for step, size in after:
        if isinstance(step, SquareUp):
            high = size.thickness / 2
        elif isinstance(step, Grind):
            high -= step.top
        elif isinstance(step, Hammer):
            about = "about "
        else:
            return {}
    stars = f"stars {about}{format_length(turn / 2, units)}"
    if high < turn / 1000:
        return {"spacing": stars}
    angle = math.degrees(math.atan(2 * math.pi * high / turn))
    return {"angle": f"{about}{angle:.1f}°", "spacing": stars}


def _pressed(billet: Billet) -> dict[str, str]:
    """Give the most rings that a drop can have: the layers that it goes through."""
    for place, step in enumerate(billet.steps):
        before = billet[:place]
        if isinstance(step, (Dent, Drill)) and before.tally.flat:
            rings = step.deep / (before.size.thickness / before.layers)
            return {"rings": f"at most {rings:.0f}"}
    return {}


PRINTS = (Kind("measured", "predicted, measured, why?", measured_sheet, "bar"),)

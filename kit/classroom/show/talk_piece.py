"""A maker's own talk as a piece: one picture after another, and what is said at each.

The words are the maker's, in one language; the page says only its own in the others.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from kit.classroom.show.own_piece import described
from kit.classroom.show.piece import COLUMNS, ROWS, TILE, Picture, Talk, phrase
from kit.course.anvil.desk import Desk
from kit.course.anvil.look import Look
from kit.metal import etch
from kit.section.trace import see

if TYPE_CHECKING:
    from kit.forge.billet import Billet
    from kit.shop.recipes.recipe import Recipe
    from kit.shop.recipes.talk import Looked


def talk_piece(recipe: Recipe) -> Talk:
    """Make the piece of a recipe that has a talk. Leaves out: welds that did not take.

    Raises
    ------
    KitError
        If the talk is of steps that the bar does not have.
    """
    stages = Desk.of_recipe(recipe).history.stages
    stops = [_stop(stages[cue.stage].bar, cue.look) for cue in recipe.talk]
    name = f"{recipe.name[:1].upper()}{recipe.name[1:]}"
    layers = recipe.billet.layers
    return Talk(
        name=lambda _voice: name,
        lines=(
            phrase("How was it made?"),
            lambda voice: voice("{layers} layers", layers=voice.number(layers)),
            phrase("Touch and look"),
        ),
        stops=tuple(stops if len(stops) > 1 else stops * 2),
        cues=recipe.talk,
    )


def _stop(bar: Billet, looked: Looked) -> Picture:
    look = Look(**dict(looked))
    small = see(bar, look.plane(bar, *TILE), etch.tones(bar.source.steels))
    bright, bands = described(small.tone * small.cover)

    def alt(voice: object) -> str:
        return voice(
            "A face of dark and bright steel: {bright} % bright, {bands} bands along its "
            "middle.",
            bright=bright,
            bands=bands,
        )

    surface = look.plane(bar, COLUMNS, ROWS)
    return Picture(billet=bar, surface=surface, says=lambda _voice: "", alt=alt)

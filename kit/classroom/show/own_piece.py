"""A maker's own recipe on the show page: its talk, or the bar ground to its middle.

A talk's words are the maker's, in one language; the page says only its own in the others.
"""

from collections.abc import Sequence
from itertools import combinations
from typing import NamedTuple

import numpy as np

from kit.basics.errors import KitError
from kit.classroom.show.piece import (
    COLUMNS,
    ROWS,
    STOPS,
    TILE,
    Picture,
    Piece,
    Said,
    Talk,
    Voice,
    from_above,
    ground,
    phrase,
    taken_off,
)
from kit.course.anvil import void
from kit.course.anvil.desk import Desk
from kit.course.anvil.history import History
from kit.course.anvil.look import Look
from kit.course.lesson import ideas_of
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.flaw import Flaw
from kit.forge.steps import Grind, Twist
from kit.forge.steps.hollows import Hollows
from kit.metal import etch
from kit.section.trace import Surface
from kit.shop.patterns import PATTERNS
from kit.shop.recipes.recipe import Recipe
from kit.shop.recipes.talk import Cue

ASKED = STOPS // 2
# what a weld's step is called; a law asks for every step that welds
WELDS = {
    "fold": phrase("fold"),
    "cut and stack": phrase("cut and stack"),
}
LEAST_CHANGE = 0.02  # of white, between two tiles: less, and they cannot be told apart

_idea = ideas_of("show")

# Given: q ground off and T, how far to the middle of the bar, mm. Each idea leads to the
# depth whose face it takes for the one at q.
THERE = _idea("RIGHT", "look at the layers where the cut is", lambda given: given["q"])
UNCHANGED = _idea(
    "UNCHANGED",
    "look only at the skin and think the inside is the same",
    lambda _given: 0.0,
    "Grind a little. Does the face stay as it was?",
)
MIDDLE_ALREADY = _idea(
    "MIDDLE_ALREADY",
    "expect the middle as soon as the skin is off",
    lambda given: given["T"],
    "Grind on and see when the middle comes.",
)
HARDLY_IN = _idea(
    "HARDLY_IN",
    "take half the way for the whole",
    lambda given: given["q"] / 2,
    "How far was ground off, and how far is it to the middle?",
)
IDEAS = (UNCHANGED, HARDLY_IN, THERE, MIDDLE_ALREADY)


def may_be_shown(recipe: Recipe) -> None:
    """Refuse, before anything is drawn, what is known not to make a piece.

    Raises
    ------
    KitError
        A talk of steps that the bar does not have; a pattern that no face shows.
    """
    if recipe.talk:
        Desk.of_recipe(recipe)
        return
    known = next((one for one in PATTERNS if one.name == recipe.name), None)
    if known is not None and known.shown != "face":
        msg = (
            f"The show grinds a bar's face, and '{recipe.name[:40]}' shows its pattern "
            "elsewhere: give a recipe whose face changes, such as a twist, ladder or "
            "raindrop."
        )
        raise KitError(msg)


def own_piece(recipe: Recipe) -> Piece:
    """Make the piece of a recipe.

    Raises
    ------
    KitError
        As `may_be_shown`, or if its faces are too much alike to ask about.
    """
    may_be_shown(recipe)
    billet = recipe.billet
    deep = billet.size.thickness / 2
    given = {"q": deep * ASKED / (STOPS - 1), "T": deep}
    smalls = [_small(billet, idea.value(given)) for idea in IDEAS]
    _told_apart(recipe, [steel for _, steel in smalls])
    gaps = _open(recipe)
    stops = [_stop(recipe, deep * stop / (STOPS - 1), gaps) for stop in range(STOPS)]
    question, why = _asked(billet)
    return Piece(
        name=_name(recipe),
        question=question,
        slider=phrase("Grind it to the mark"),
        stops=tuple(stops),
        asked=ASKED,
        tiles=tuple(_untold(billet, *small, gaps) for small in smalls),
        right=IDEAS.index(THERE),
        why=why,
        number=lambda voice: _layers(voice, billet),
        counts=_counts(recipe, gaps),
    )


def _name(recipe: Recipe) -> Said:
    return lambda _voice: f"{recipe.name[:1].upper()}{recipe.name[1:]}"


def _asked(billet: Billet) -> tuple[Said, Said]:
    """Ask about a bar of this kind, and say in 18 words at most why its face changes."""
    if _from_the_skin(billet):
        return phrase("Twisted bar, ground halfway to centre: which face?"), phrase(
            "Nearer the middle the steel moved less for the same turn; lines run along it."
        )
    if any(isinstance(step, Hollows) for step in billet.steps):
        return phrase("Hollowed bar, ground halfway in: which face?"), phrase(
            "Hollows forged flat leave rings or rungs; deeper in, less of them is left."
        )
    return phrase("Ground halfway to the middle: which face?"), phrase(
        "Every depth cuts the same layers in other places, as contour lines on a map."
    )


def _from_the_skin(billet: Billet) -> bool:
    """Say whether the bar, or each bar in it, was twisted, and its middle is the axis."""
    source = billet.source
    steps = [*(source.bars[0].steps if isinstance(source, Bundle) else ()), *billet.steps]
    twists = [at for at, step in enumerate(steps) if isinstance(step, Twist)]
    if not twists:
        return False
    ground_off = [step for step in steps[twists[-1] :] if isinstance(step, Grind)]
    axis = sum(step.top - step.bottom for step in ground_off) / 2  # above the middle
    return abs(axis) < billet.size.thickness / 8


class Gaps(NamedTuple):
    """Welds that did not take: as a picture keeps them, and the steps they were made in."""

    found: tuple[tuple[Flaw, ...], ...] = ()
    missed: Sequence[tuple[int, str]] = ()

    def after(self, words: str, voice: Voice) -> str:
        """Say behind other words which welds did not take, as the forge numbers them."""
        told = (
            voice(
                "The weld of step {step} ({name}) did not take.",
                step=step,
                name=WELDS[name](voice),
            )
            for step, name in self.missed
        )
        return " ".join([words, *told])


def _open(recipe: Recipe) -> Gaps:
    """Find the welds of the whole bar that did not take."""
    history = Desk.of_recipe(recipe).history
    return _gaps(history, len(history.acts))


def _gaps(history: History, stage: int) -> Gaps:
    found = tuple(map(tuple, void.flaws(history, stage)))  # so a face is traced but once
    return Gaps(found, void.missed(history, stage))


def _counts(recipe: Recipe, gaps: Gaps) -> Said:
    """Say what its layers are counted from, and which welds did not take."""
    pieces = _pieces(recipe)
    if not gaps.missed:
        return pieces
    return lambda voice: gaps.after(f"{pieces(voice)}.", voice)


def _pieces(recipe: Recipe) -> Said:
    source = recipe.billet.source
    if isinstance(source, Bundle):
        bars = len(source.bars)
        return lambda voice: voice("in each of {bars} bars, welded together", bars=bars)
    count = len(source.steels)
    if count == 1:
        return phrase("from one piece of steel")
    return lambda voice: voice("from a stack of {pieces} pieces of steel", pieces=count)


def _layers(voice: Voice, billet: Billet) -> str:
    if billet.layers == 1:
        return voice("1 layer")
    return voice("{layers} layers", layers=voice.number(billet.layers))


def _bands(voice: Voice, bands: int) -> str:
    return voice("1 band") if bands == 1 else voice("{bands} bands", bands=bands)


def _stop(recipe: Recipe, off: float, gaps: Gaps) -> Picture:
    billet = recipe.billet
    bright, bands, _ = described(_small(billet, off)[1])

    def alt(voice: Voice) -> str:
        face = voice(
            "{name}, {layers}, from above, {ground}: {bright} % bright, {bands} along "
            "its middle.",
            name=recipe.name,
            layers=_layers(voice, billet),
            ground=ground(voice, off),
            bright=bright,
            bands=_bands(voice, bands),
        )
        return gaps.after(face, voice)

    surface = from_above(billet, billet.size.thickness / 2 - off)
    return Picture(
        billet=billet,
        surface=surface,
        says=taken_off(off, "The face"),
        alt=alt,
        found=gaps.found,
    )


def _small(billet: Billet, off: float) -> tuple[Surface, np.ndarray]:
    """Look at the face with so much ground off, mm: a tile, and its tones, 0 … 1."""
    surface = from_above(billet, billet.size.thickness / 2 - off, size=TILE)
    return surface, _steel(billet, surface)


def _steel(billet: Billet, surface: Surface) -> np.ndarray:
    face = etch.seen(billet, surface)
    return face.tone * face.cover


def described(face: np.ndarray) -> tuple[int, int, int]:
    """Count what there is to see: per cent that are bright, bands along and across."""
    bright = face > (face.min() + face.max()) / 2
    lines = (one[len(one) // 2] for one in (bright, bright.T))
    along, across = (1 + int(np.count_nonzero(np.diff(line))) for line in lines)
    return round(100 * bright.mean()), along, across


def _untold(billet: Billet, surface: Surface, small: np.ndarray, gaps: Gaps) -> Picture:
    """Draw a face, in words by what a small picture shows: its depth would tell."""
    bright, along, across = described(small)

    def alt(voice: Voice) -> str:
        face = voice(
            "A face of dark and bright steel: {bright} % bright, {along} along its middle, "
            "{across} across it.",
            bright=bright,
            along=_bands(voice, along),
            across=_bands(voice, across),
        )
        return gaps.after(face, voice)

    return Picture(billet=billet, surface=surface, alt=alt, found=gaps.found)


def _told_apart(recipe: Recipe, faces: Sequence[np.ndarray]) -> None:
    """Refuse a bar whose tiles would look alike."""
    for one, other in combinations(faces, 2):
        if np.abs(one - other).mean() < LEAST_CHANGE:
            msg = (
                f"The show grinds a bar from its face to its middle, and "
                f"'{recipe.name[:40]}' looks nearly the same at two of the depths it asks "
                "about: give a recipe whose face changes, such as a twist, ladder or "
                "raindrop."
            )
            raise KitError(msg)


def talk_piece(recipe: Recipe) -> Talk:
    """Make the piece of a recipe that has a talk.

    Raises
    ------
    KitError
        If the talk is of steps that the bar does not have.
    """
    history = Desk.of_recipe(recipe).history
    stops = [_told(history, cue) for cue in recipe.talk]
    return Talk(
        name=_name(recipe),
        rest=_seen(recipe.billet, Look(kind="bevel"), _open(recipe)),
        stops=tuple(stops if len(stops) > 1 else stops * 2),
        cues=recipe.talk,
    )


def _told(history: History, cue: Cue) -> Picture:
    bar, look = history.stages[cue.stage].bar, Look(**dict(cue.look))
    return _seen(bar, look, _gaps(history, cue.stage))


def _seen(bar: Billet, look: Look, gaps: Gaps) -> Picture:
    small = _steel(bar, look.plane(bar, *TILE))
    return _untold(bar, look.plane(bar, COLUMNS, ROWS), small, gaps)

"""What lies on the anvil: the history, where one stands in it, how the bar is looked at."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import lru_cache
from itertools import takewhile
from typing import Any

from kit.basics.errors import KitError
from kit.course.anvil import void
from kit.course.anvil.acts import VERBS, Act, Laid, begun, done, first, name_of, why_not
from kit.course.anvil.history import History, Stage
from kit.course.anvil.look import Look
from kit.course.anvil.motif import Motif
from kit.forge.billet import Billet
from kit.forge.flaw import Flaw
from kit.forge.stack import Stack
from kit.forge.steps.base import Heat
from kit.metal.soak import check_heats
from kit.metal.working_heat import hottest
from kit.shop.recipes.recipe import Recipe
from kit.shop.recipes.talk import Cue, Looked

USUAL = 5.0  # minutes hot, ours


@dataclass(frozen=True)
class Desk:
    """One state of the page; every act gives another, so that all can be undone.

    Parameters
    ----------
    history : History
    motif : Motif, optional
        How its stack was laid; None for one that came with a recipe and is too long.
    at : int
        The stage that is looked at, 0 the stack.
    look : Look
    """

    history: History
    motif: Motif | None
    at: int = 0
    look: Look = field(default_factory=Look)

    @classmethod
    def of(cls, bar: Billet) -> Desk:
        """Lay a bar on the anvil, with all its history, at its last stage."""
        history = History.of(bar)
        motif = Motif.of(history.source) if isinstance(history.source, Stack) else None
        return cls(history, motif, len(history.acts))

    @classmethod
    def of_recipe(cls, recipe: Recipe) -> Desk:
        """Lay a recipe's bar on the anvil, with its talk and its open welds.

        Raises
        ------
        KitError
            If these are of stages that its bar does not have.
        """
        desk = cls.of(recipe.billet)
        last = len(desk.history.acts)
        beyond = [cue.stage for cue in recipe.talk if cue.stage > last]
        if beyond:
            msg = f"The talk tells of step {beyond[0]}; this bar has {last} steps."
            raise KitError(msg)
        for at in recipe.missed:
            if not (1 <= at <= last and void.join_at(desk.history, at)):
                msg = f"Step {at} has no weld that could be one that did not take."
                raise KitError(msg)
        missed = frozenset(recipe.missed)
        return replace(desk, history=replace(desk.history, talk=recipe.talk, missed=missed))

    def recipe(self, name: str, note: str = "", source: str = "") -> Recipe:
        """Give the whole bar as a recipe; what is kept but not done stays behind.

        Raises
        ------
        KitError
            A name, note or source that is too long.
        """
        history = self.history.done_only()
        missed = tuple(at for at in sorted(history.missed) if void.join_at(history, at))
        return Recipe(
            name=name,
            billet=history.bar,
            note=note,
            source=source,
            talk=history.talk,
            missed=missed,
        )

    def looking(self, look: Look) -> Desk:
        """Look at the bar in another way; what is said here is then shown that way."""
        return replace(self, look=look).saying()

    def saying(self, **words: str) -> Desk:
        """Ask or say something else at this stage, shown as it is looked at now.

        Parameters
        ----------
        **words
            `ask`, `say` or `clay`.

        Raises
        ------
        KitError
            Words that are too long.
        """
        cue = {
            **dict(self.history.cue(self.at)),
            **words,
            "look": Looked(**dict(self.look)),
        }
        return replace(self, history=self.history.said(Cue(**cue)))

    @property
    def stage(self) -> Stage:
        """The stage that is looked at."""
        return self.history.stages[self.at]

    @property
    def flaws(self) -> list[list[Flaw]]:
        """Its welds that did not take: see `void.flaws`."""
        return void.flaws(self.history, self.at)

    @property
    def act(self) -> Act | None:
        """The act that led to it; None for the stack."""
        return self.history.acts[self.at - 1] if self.at else None

    def stacked(self, motif: Motif) -> Desk:
        """Lay another stack below the same acts."""
        history = replace(self.history, source=motif.stack)
        return replace(self, history=history, motif=motif)

    def with_bar(self, bar: Billet) -> Desk:
        """Lay another bar on; what was said and marked of acts that both have stays."""
        desk = Desk.of(bar)
        mine, its = self.history, desk.history
        alike = -1
        if mine.source == its.source:
            pairs = zip(mine.acts, its.acts, strict=False)
            alike = sum(1 for _ in takewhile(lambda acts: acts[0] == acts[1], pairs))
        history = replace(
            its,
            missed=frozenset(at for at in mine.missed if at <= alike),
            talk=tuple(cue for cue in mine.talk if cue.stage <= alike),
        )
        return replace(desk, history=history, look=self.look)

    def goes(self, at: int) -> Desk:
        """Look at another stage; beyond the ends, at the nearest."""
        return replace(self, at=min(max(at, 0), len(self.history.acts)))

    def then(self, *acts: Act) -> Desk:
        """Do acts after the stage that is looked at, and look at the last of them."""
        history = self.history.inserted(self.at, *acts)
        return replace(self, history=history, at=self.at + len(acts))

    def without(self, at: int) -> Desk:
        """Take an act out of the history."""
        if not 1 <= at <= len(self.history.acts):
            return self
        here = self.at - (self.at >= at)
        return replace(self, history=self.history.removed(at), at=here)

    def moved(self, at: int, way: int) -> Desk:
        """Do an act one place earlier or later, and look at it."""
        history = self.history.moved(at, way)
        return (
            self if history is self.history else replace(self, history=history, at=at + way)
        )

    def set(self, key: str, value: Any) -> Desk:
        """Give the act another value.

        Raises
        ------
        KitError
            A value that the act, or the bar before it, does not allow.
        """
        if key in Heat.model_fields:
            key, value = "heat", self._heat(key, value)
        desk = self._with(type(self.act)(**{**dict(self.act), key: value}))
        if key == "heat":
            check_heats(desk.stage.bar)
        return desk

    def _heat(self, key: str, value: Any) -> Heat | None:
        """Give the act's heat with another value; with no minutes there is none."""
        if value is None:
            return None
        usual = {"celsius": hottest(self.before.source.steels), "minutes": USUAL}
        return Heat(**{**usual, **dict(self.act.heat or {}), key: value})

    def verb(self, name: str) -> Desk:
        """Do something else in the place of this act.

        Raises
        ------
        KitError
            What the bar does not allow.
        """
        return self._with(begun(name, self.before))

    @property
    def before(self) -> Billet:
        """The bar before the act that is looked at; of the stack, the stack."""
        return self.history.stages[max(self.at - 1, 0)].bar

    def _with(self, act: Act) -> Desk:
        done(act, self.before)
        return replace(self, history=self.history.changed(self.at, act))

    def toggled(self) -> Desk:
        """Say of the weld of this stage that it did not take, or that it did."""
        missed = self.history.missed ^ {self.at}
        return replace(self, history=replace(self.history, missed=missed))

    def offers(self, name: str, *, here: bool) -> tuple[Act, ...]:
        """Give the acts that make an act possible, and the act; none if nothing helps.

        `here`: in the place of the present act, not after it.
        """
        bar = self.before if here else self.stage.bar
        try:
            wished = begun(name, bar)
        except KitError:
            return ()
        before = first(wished, bar)
        if not before:
            return ()
        for one in before:
            bar = done(one, bar)
        return (*before, begun(name, bar))

    def why_not(self, name: str, *, here: bool) -> str:
        """Say why the bar does not allow an act."""
        return why_not(name, self.before if here else self.stage.bar)

    def verbs(self, *, here: bool) -> tuple[list[str], list[str]]:
        """Give what this bar allows, and what it does not, in the order of a shop."""
        bar = self.before if here else self.stage.bar
        refused = _refused(bar)
        return [n for n in VERBS if n not in refused], [n for n in VERBS if n in refused]

    @property
    def no_longer(self) -> list[int]:
        """Which stages are kept but not done."""
        return [at for at, stage in enumerate(self.history.stages) if stage.refused]


@lru_cache(maxsize=8)  # a look at a bar, or at the step before, allows what it did
def _refused(bar: Billet) -> frozenset[str]:
    return frozenset(name for name in VERBS if why_not(name, bar))


def shortly(acts: tuple[Act, ...], bar: Billet) -> str:
    """Name acts for a button, as the history then does: "upset, round up, then twist"."""
    names = []
    for act in acts:
        names.append(name_of(act) if isinstance(act, Laid) else act.named(bar.size))
        bar = done(act, bar)
    *before, last = names
    return f"{', '.join(before)}, then {last}" if before else last

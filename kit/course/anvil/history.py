"""The history of a bar: the stack, and act after act; nothing in it is ever lost.

An act that the bar before it does not allow stays in the history, marked and told, and is
passed over: what comes after is done to the bar as it was.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property

from kit.basics.errors import KitError
from kit.course.anvil.acts import Act, Laid, done
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.stack import Source
from kit.forge.steps import Size, Tally
from kit.shop.recipes.talk import Cue, in_order

MOST_ACTS = 200  # ours


@dataclass(frozen=True)
class Stage:
    """The bar after an act.

    Parameters
    ----------
    whole : Billet
        A bar that begins with this one.
    steps : int
        How many of its steps are done here.
    refused : str
        Why the act was passed over, or nothing.
    """

    whole: Billet
    steps: int
    refused: str = ""

    @cached_property
    def bar(self) -> Billet:
        """What lies on the anvil after it; cut out of `whole` once, and kept."""
        return self.whole if self.steps == len(self.whole) else self.whole[: self.steps]

    @property
    def size(self) -> Size:
        """Its size, mm."""
        return self.whole.sizes[self.steps]

    @property
    def tally(self) -> Tally:
        """Its layers and bands."""
        return self.whole.tallies[self.steps]


@dataclass(frozen=True)
class History:
    """What a bar was stacked from and what was done to it, first to last.

    Parameters
    ----------
    source : Stack, or Bundle
        A bundle only where a recipe brought one that no act here makes.
    acts : tuple of Act
        At most 200.
    missed : frozenset of int
        Which stages (0 the stack) hold a weld that did not take.
    talk : tuple of Cue
        What is said at its stages, by their order.
    """

    source: Source
    acts: tuple[Act, ...] = ()
    missed: frozenset[int] = frozenset()
    talk: tuple[Cue, ...] = ()

    def __post_init__(self) -> None:
        if len(self.acts) > MOST_ACTS:
            msg = f"A history can have at most {MOST_ACTS} acts. Given: {len(self.acts)}."
            raise KitError(msg)

    @classmethod
    def of(cls, bar: Billet) -> History:
        """Give the history that makes a bar."""
        found = Laid.of(bar.source) if isinstance(bar.source, Bundle) else None
        if found is None:
            return cls(bar.source, bar.steps)
        act, before = found
        inner = cls.of(before)
        return cls(inner.source, (*inner.acts, act, *bar.steps))

    @cached_property
    def stages(self) -> tuple[Stage, ...]:
        """The bar as it was stacked, and after each act."""
        stages: list[Stage] = []
        bar, start = Billet(source=self.source), 0
        for end in range(len(self.acts) + 1):
            laying = end < len(self.acts) and isinstance(self.acts[end], Laid)
            if laying or end == len(self.acts):
                if start == 0:
                    stages.append(Stage(bar, 0))
                stages += _forged(bar, self.acts[start:end])
                bar, start = stages[-1].bar, end
            if laying:
                stages += [_laid(bar, self.acts[end])]
                bar, start = stages[-1].bar, end + 1
        return tuple(stages)

    @property
    def bar(self) -> Billet:
        """What lies on the anvil at the end."""
        return self.stages[-1].bar

    def inserted(self, place: int, *acts: Act) -> History:
        """Give the history with acts done just after a stage, 0 the stack."""
        all_acts = (*self.acts[:place], *acts, *self.acts[place:])
        return self._with(all_acts, lambda at: at + len(acts) * (at > place))

    def changed(self, stage: int, act: Act) -> History:
        """Give the history with another act in the place of that of a stage."""
        return replace(self, acts=(*self.acts[: stage - 1], act, *self.acts[stage:]))

    def removed(self, stage: int) -> History:
        """Give the history without the act of a stage, and what was said of it."""
        acts = self.acts[: stage - 1] + self.acts[stage:]
        return self._with(acts, lambda at: None if at == stage else at - (at > stage))

    def moved(self, stage: int, way: int) -> History:
        """Give the history with an act one place earlier (-1) or later (1)."""
        other = stage + way
        if not (1 <= other <= len(self.acts) and 1 <= stage <= len(self.acts)):
            return self
        acts = list(self.acts)
        acts[stage - 1], acts[other - 1] = acts[other - 1], acts[stage - 1]
        swap = {stage: other, other: stage}
        return self._with(tuple(acts), lambda at: swap.get(at, at))

    def done_only(self) -> History:
        """Give the history without what is kept but not done: what a file can hold."""
        refused = [at for at, stage in enumerate(self.stages) if stage.refused]
        history = self
        for at in reversed(refused):
            history = history.removed(at)
        return history

    def cue(self, stage: int) -> Cue:
        """Give what is said at a stage; an empty cue where nothing is."""
        return next((cue for cue in self.talk if cue.stage == stage), Cue(stage=stage))

    def said(self, cue: Cue) -> History:
        """Give the history with another cue for its stage; an empty one takes it away.

        Raises
        ------
        KitError
            If the talk has too many pictures.
        """
        others = (one for one in self.talk if one.stage != cue.stage)
        return replace(self, talk=in_order((*others, cue)))

    def _with(self, acts: tuple[Act, ...], new: Callable[[int], int | None]) -> History:
        """Give it with other acts; what belonged to a stage goes where its act does."""
        missed = frozenset(to for at in self.missed if (to := new(at)) is not None)
        talk = in_order(
            cue.model_copy(update={"stage": to})
            for cue in self.talk
            if (to := new(cue.stage)) is not None
        )
        return replace(self, acts=acts, missed=missed, talk=talk)


def _forged(bar: Billet, acts: tuple[Act, ...]) -> list[Stage]:
    """Do steps one after another; at once, where none is refused."""
    before = len(bar)
    try:
        whole = bar.then(*acts)
        return [Stage(whole, before + place) for place in range(1, len(acts) + 1)]
    except KitError:
        pass
    stages = []
    for act in acts:
        refused = ""
        try:
            bar = done(act, bar)
        except KitError as error:
            refused = str(error)
        stages.append(Stage(bar, len(bar), refused))
    return stages


def _laid(bar: Billet, act: Laid) -> Stage:
    try:
        laid = act.done_to(bar)
    except KitError as error:
        return Stage(bar, len(bar), str(error))
    return Stage(laid, len(laid))

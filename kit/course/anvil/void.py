"""Welds that did not take: the gap is carried through all that is done later."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from kit.basics.told import listed
from kit.course.anvil.acts import Laid, name_of
from kit.course.anvil.history import History
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.flaw import Flaw
from kit.forge.steps import Points
from kit.section.surface import Look, Moved, shown_at
from kit.section.trace import Face, Surface, by_bands
from kit.section.welds import darkened, hair_lines

HERE = "This weld did not take"
Flaws = Sequence[Sequence[Flaw]]  # of the bar, and of those laid in it: see `flaws`
END = (160, 80)  # columns and rows in which open welds are looked for


@dataclass(frozen=True)
class Within(Moved):
    """What a surface sees of one bar of a bundle, in that bar's own axes."""

    surface: Surface
    bar: Billet
    index: int

    def look(self, first: int, last: int, dtype: type = np.float32) -> Look:
        """See some rows of pixels, as the surface does."""
        look = self.surface.look(first, last, dtype)
        points = self.bar.source.own(self.index, self.bar.undo(look.points))
        return look._replace(points=points)

    def mine(self, points: Points) -> np.ndarray:
        """Tell which points of the finished bar lie in this one."""
        inner = tuple(part[1:-1, 1:-1] for part in points)  # without the margin
        return self.bar.source.which(self.bar.undo(inner)) == self.index


def join_at(history: History, stage: int) -> bool:
    """Tell whether a weld of a stage can be marked as one that did not take."""
    if stage == 0 or history.stages[stage].refused:
        return False
    act = history.acts[stage - 1]
    return not isinstance(act, Laid) and act.leaves > 1


def flaws(
    history: History, stage: int, missed: frozenset[int] | None = None
) -> list[list[Flaw]]:
    """Give the welds that did not take, for the bar of a stage and for those laid in it.

    Parameters
    ----------
    history : History
    stage : int
    missed : frozenset of int, optional
        Only welds of these stages; left out, of all that are marked.

    Returns
    -------
    list of list of Flaw
        The first for the bar since its pieces were laid together, the next for the
        pieces as they were made, and so on inwards.
    """
    found, steps = [[]], 0
    missed = history.missed if missed is None else missed
    for at in range(1, stage + 1):
        if history.stages[at].refused:
            continue
        if isinstance(history.acts[at - 1], Laid):
            found.insert(0, [])
            steps = 0
            continue
        steps += 1
        if at in missed and join_at(history, at):
            bar = history.stages[at].bar
            found[0].append(Flaw.whole(bar, step=steps))
    return found


def lines(bar: Billet, surface: Surface, found: Flaws) -> np.ndarray:
    """Say how much of each pixel is the black line of an open weld, 0 … 1.

    Parameters
    ----------
    bar : Billet
    surface : Surface
    found : sequence of sequence of Flaw
        From `flaws`.
    """
    dark = hair_lines(bar, surface, found[0])
    if not isinstance(bar.source, Bundle) or not any(found[1:]):
        return dark
    for index, piece in enumerate(bar.source.bars):
        within = Within(surface, bar, index)
        inner = lines(piece, within, found[1:])
        dark = np.maximum(dark, inner * by_bands(surface, within.mine))
    return dark


def marked(face: Face, bar: Billet, surface: Surface, found: Flaws) -> Face:
    """Draw the open welds of a bar black into a face that was seen of it; as `lines`."""
    if not any(found):
        return face
    return darkened(face, lines(bar, surface, found))


def not_taken(welds: Iterable[tuple[int, str]]) -> str:
    """Say which welds did not take, each by its step's number and name; nothing if none.

    Examples
    --------
    >>> not_taken([(2, "fold"), (4, "fold")])
    'The weld of step 2 (fold) and step 4 (fold) did not take.'
    """
    named = _named(welds)
    return f"The weld of {named} did not take." if named else ""


def _named(welds: Iterable[tuple[int, str]]) -> str:
    """Name welds by their steps, if there are any."""
    named = [f"step {number} ({name})" for number, name in welds]
    return listed(named) if named else ""


def missed(history: History, stage: int) -> list[tuple[int, str]]:
    """List the welds that did not take up to a stage, as the forge numbers its steps."""
    steps = (at for at in sorted(history.missed) if 0 < at <= stage)
    return [(at, name_of(history.acts[at - 1])) for at in steps if join_at(history, at)]


def told_of(history: History, stage: int) -> str:
    """Say which these are."""
    return not_taken(missed(history, stage))


def still_open(history: History, stage: int, before: int) -> str:
    """Say which welds of stages before one the bar's end still shows open, if any.

    Parameters
    ----------
    history : History
    stage, before : int
        Of the bar; and up to which its welds are told of.
    """
    bar = history.stages[stage].bar
    named = _named(
        (at, name)
        for at, name in missed(history, before - 1)
        if seen(bar, flaws(history, stage, frozenset({at})))
    )
    return f"Still open: the weld of {named}." if named else ""


def seen(bar: Billet, found: Flaws) -> bool:
    """Tell whether a bar's end shows anything of open welds, to a pixel or two."""
    return bool(lines(bar, shown_at(bar, "end", *END), found).any())


def told(history: History, stage: int) -> str:
    """Say what a weld of a stage takes, in one line; nothing where there is none.

    Common practice, no source.
    """
    act = history.acts[stage - 1] if stage else None
    joined = act is None or isinstance(act, Laid) or act.joins
    if history.stages[stage].refused or not joined:
        return ""
    return "To weld: clean bright faces, flux, an even welding heat, light first blows."

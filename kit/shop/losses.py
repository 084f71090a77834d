"""How much steel a forging has taken away so far, step by step.

Forging moves steel and loses none; only grinding, cropping and pressing and grinding
flat take some away, and bundling bars of unlike length. Scale is not in it: see
`kit.metal.working_heat` and `kit.shop.plan`.
"""

from typing import NamedTuple

from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.steels import steel


class Lost(NamedTuple):
    """What one step took.

    Attributes
    ----------
    step, how : str
        Its name, and how it takes steel: see `Step.takes`. "bundle" for what was cut off
        when bars were bundled.
    volume : float
        mm³, of the bar as it was then.
    share : float
        Of the steel there was at the very beginning, 0 … 1.
    """

    step: str
    how: str
    volume: float
    share: float


def lost(billet: Billet) -> tuple[Lost, ...]:
    """List what each step took, in order; a bundle's bars first."""
    before = started(billet)
    rows = []
    if isinstance(billet.source, Bundle):
        rows += [one for bar in billet.source.bars for one in lost(bar)]
        fitted = sum(bar.size.volume for bar in billet.source.bars)
        rows.append(
            Lost("bundle", "cut to one length", fitted - billet.sizes[0].volume, 0.0)
        )
    for step, one, other in zip(billet.steps, billet.sizes, billet.sizes[1:], strict=False):
        rows.append(Lost(step.step, step.takes, one.volume - other.volume, 0.0))
    return tuple(row._replace(share=row.volume / before) for row in rows)


def share_lost(billet: Billet) -> float:
    """Give the share of the steel that is gone, 0 … 1."""
    return sum(row.share for row in lost(billet))


def weight(billet: Billet) -> float:
    """Weigh the finished bar, grams: its stack's mean density, less what was taken.

    What is ground off is taken to be of the mean density.
    """
    return _grams(billet) * (1 - share_lost(billet))


def taken(before: Billet, after: Billet, how: str) -> str:
    """Say how much steel one step took, as the whole grams beside it come out, and how.

    Parameters
    ----------
    before, after : Billet
    how : str
        See `Step.takes`.

    Returns
    -------
    str
        One sentence; nothing where the step takes no gram.
    """
    gone = round(weight(before)) - round(weight(after))
    return f"It takes {gone:,} g away: {how}." if how and gone else ""


def started(billet: Billet) -> float:
    """Give the volume of the bars as they came from the rack, mm³."""
    if isinstance(billet.source, Bundle):
        return sum(started(bar) for bar in billet.source.bars)
    return billet.sizes[0].volume


def _grams(billet: Billet) -> float:
    """Weigh the bars as they came from the rack."""
    if isinstance(billet.source, Bundle):
        return sum(_grams(bar) for bar in billet.source.bars)
    length, width, _ = billet.sizes[0]
    volumes = [length * width * layer.thickness for layer in billet.source.layers]
    densities = [steel(name).density for name in billet.source.steels]
    return sum(v * density for v, density in zip(volumes, densities, strict=True)) / 1000

"""The public names of the kit: ``from kit import Billet, Fold, Stack, show``.

They are fetched when first asked for, so that ``python -m kit`` can say in one
sentence what is missing on a machine where a package is, and so that nobody waits for
what is not used.

What you start from
    `Layer`, `Stack` (plain bars), `Bundle` (forged bars), `Billet` (one of these and
    what was done to it), `pattern` (one that the trade names), `steel` (a grade).
What you do to it, with ``billet.then(…)``
    `DrawOut`, `Upset`, `Fold`, `CutAndStack`, `fold_and_draw`, `Hammer`, `Press`, `Split`,
    `QuarterTurn`, `SetOnTheBias`, `RoundUp`, `Twist`, `SquareUp`, `FourWay`, `Grind`,
    `GrindRound`; any of them with a `Heat`. `STEPS` lists all by name. `Flaw` is a weld
    that did not take.
What you look at
    `Plane` and `cut` (a flat cut), `Block` (the bar), `Blade` with its `Outline`.
What you get
    `show` (a picture), `see` and `tones` (the numbers behind it), `lost`, `share_lost`
    and `weight` (steel taken away, steel left).
Beside these
    `Units` and `format_length`; `KitError`, the one error a wish can meet.

Examples
--------
>>> from kit import Billet, Fold, Grind, Stack, share_lost
>>> stack = Stack.alternate("1084", "15N20", pieces=11, thickness=(3.175, 1.5875))
>>> bar = Billet(source=stack).then(Fold(), Grind(ends=7.5))
>>> bar.layers, round(share_lost(bar), 2)
(22, 0.2)
"""

from importlib import import_module
from typing import Any

_PLACES = {
    "Billet": "forge.billet",
    "Blade": "section.blade",
    "Block": "section.block",
    "Hammer": "forge.steps",
    "Bundle": "forge.bundle",
    "DrawOut": "forge.steps",
    "Flaw": "forge.flaw",
    "Fold": "forge.steps",
    "Grind": "forge.steps",
    "GrindRound": "forge.steps",
    "Heat": "forge.steps.heat",
    "KitError": "basics.errors",
    "Layer": "forge.stack",
    "Outline": "section.outline",
    "Plane": "section.surface",
    "Press": "forge.steps",
    "CutAndStack": "forge.steps",
    "SetOnTheBias": "forge.steps",
    "RoundUp": "forge.steps",
    "STEPS": "forge.steps",
    "Split": "forge.steps",
    "SquareUp": "forge.steps",
    "Stack": "forge.stack",
    "FourWay": "forge.steps",
    "QuarterTurn": "forge.steps",
    "Twist": "forge.steps",
    "Units": "basics.units",
    "Upset": "forge.steps",
    "cut": "section.surface",
    "fold_and_draw": "forge.billet",
    "format_length": "basics.units",
    "lost": "forge.losses",
    "pattern": "forge.patterns",
    "see": "section.trace",
    "share_lost": "forge.losses",
    "show": "metal.still",
    "steel": "forge.steels",
    "tones": "metal.etch",
    "weight": "forge.losses",
}

__all__ = sorted(_PLACES)  # noqa: PLE0605  (a list, made from the table above)


def __getattr__(name: str) -> Any:
    """Fetch a public name from its module."""
    if name not in _PLACES:
        msg = f"The kit has no {name!r}. It has: {', '.join(__all__)}."
        raise AttributeError(msg)
    return getattr(import_module(f"kit.{_PLACES[name]}"), name)

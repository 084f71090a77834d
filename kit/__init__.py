"""The public names of the kit: ``from kit import Billet, Fold, Stack, show``.

They are fetched when first asked for, so that ``python -m kit`` can say in one
sentence what is missing on a machine where a package is, and so that nobody waits for
what is not used.

What you start from
    `Layer`, `Stack` (plain bars), `Bundle` (forged bars), `Billet` (one of these and
    what was done to it), `pattern` (one that the trade names), `steel` (a grade).
What you do to it, with ``billet.then(…)``
    `STEPS` lists all steps by name; each is here by its class: ``Fold``, ``DrawOut``,
    ``Twist``, …, any of them with a `Heat`. `fold_and_draw` does many at once. `Flaw` is
    a weld that did not take. `try_out` tells which laws a step of your own keeps.
What you look at
    `Plane` and `cut` (a flat cut), `Block` (the bar), `Blade` with its `Outline`.
What you get
    `show` (a picture), `see` and `tones` (the numbers behind it), `lost`, `share_lost`
    and `weight` (steel taken away, steel left); `as_code` (the lines of Python that make
    a bar and what is looked at).
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

import os
from importlib import import_module
from typing import Any

# The kit multiplies small matrices alone. With more threads than one, processors spin while
# they wait for each other, most of all those that a class shares. It must be told before
# numpy is read; whoever asked for more keeps what was asked for.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

_PLACES = {
    "Billet": "forge.billet",
    "Blade": "section.blade",
    "Block": "section.block",
    "Bundle": "forge.bundle",
    "Flaw": "forge.flaw",
    "Heat": "forge.steps.base",
    "KitError": "basics.errors",
    "Layer": "forge.stack",
    "Outline": "section.outline",
    "Plane": "section.surface",
    "Stack": "forge.stack",
    "Units": "basics.units",
    "as_code": "course.as_code",
    "cut": "section.surface",
    "fold_and_draw": "forge.billet",
    "format_length": "basics.units",
    "lost": "shop.losses",
    "pattern": "shop.patterns",
    "see": "section.trace",
    "share_lost": "shop.losses",
    "show": "metal.still",
    "steel": "forge.steels",
    "tones": "metal.etch",
    "try_out": "course.try_out",
    "weight": "shop.losses",
}


def __getattr__(name: str) -> Any:
    """Fetch a public name from its module; a step by the name of its class."""
    if name in _PLACES:
        return getattr(import_module(f"kit.{_PLACES[name]}"), name)
    steps = import_module("kit.forge.steps")
    kinds = {kind.__name__: kind for kind in steps.STEPS.values()}
    public = sorted([*_PLACES, "STEPS", *kinds])
    found = {"STEPS": steps.STEPS, "__all__": public, **kinds}
    if name not in found:
        msg = f"The kit has no {name!r}. It has: {', '.join(public)}."
        raise AttributeError(msg)
    return found[name]


def __dir__() -> list[str]:
    """List the public names."""
    return __getattr__("__all__")

"""The public names of the kit.

They are fetched when first asked for, so that ``python -m kit`` can say in one
sentence what is missing on a machine where a package is.
"""

from importlib import import_module
from typing import Any

_PLACES = {
    "Billet": "billet",
    "Blade": "blade",
    "Block": "block",
    "Blows": "steps",
    "Bundle": "bundle",
    "Draw": "steps",
    "Flaw": "flaw",
    "Fold": "steps",
    "Grind": "steps",
    "GrindRound": "steps",
    "Heat": "steps.heat",
    "KitError": "errors",
    "Layer": "stack",
    "Outline": "outline",
    "Plane": "surface",
    "Press": "steps",
    "Restack": "steps",
    "Roll": "steps",
    "RoundUp": "steps",
    "STEPS": "steps",
    "Split": "steps",
    "SquareUp": "steps",
    "Stack": "stack",
    "Tile": "steps",
    "Turn": "steps",
    "Twist": "steps",
    "Upset": "steps",
    "Units": "units",
    "cut": "surface",
    "fold_and_draw": "billet",
    "format_length": "units",
    "pattern": "patterns",
    "show": "still",
    "steel": "steels",
    "tones": "etch",
    "see": "trace",
}

__all__ = sorted(_PLACES)  # noqa: PLE0605  (a list, made from the table above)


def __getattr__(name: str) -> Any:
    """Fetch a public name from its module."""
    if name not in _PLACES:
        msg = f"The kit has no {name!r}. It has: {', '.join(__all__)}."
        raise AttributeError(msg)
    return getattr(import_module(f"kit.{_PLACES[name]}"), name)

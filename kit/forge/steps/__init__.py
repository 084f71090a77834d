"""Forging steps, one a file: whatever step lies in this folder is found.

`STEPS` has all of them by name, in the order in which a shop works. Recipes, laws and
the kit's public names read it.
"""

from importlib import import_module
from inspect import isabstract
from pkgutil import iter_modules

from kit.forge.steps.base import Place, Points, RoundSize, Size, Step
from kit.forge.steps.tally import Layers, Pieces, Tally


def _gathered() -> dict[str, type[Step]]:
    """Look through the modules of this folder."""
    modules = [import_module(f"{__name__}.{one.name}") for one in iter_modules(__path__)]
    kinds = {
        kind
        for module in modules
        for kind in vars(module).values()
        if isinstance(kind, type) and issubclass(kind, Step) and not isabstract(kind)
    }
    names = {kind.model_fields["step"].default: kind for kind in kinds}
    return dict(sorted(names.items(), key=lambda named: (named[1].order, named[0])))


STEPS = _gathered()
globals().update({kind.__name__: kind for kind in STEPS.values()})

__all__ = ["STEPS", "Layers", "Pieces", "Place", "Points", "RoundSize", "Size", "Step"]
__all__ += ["Tally"]
__all__ += [kind.__name__ for kind in STEPS.values()]

"""What is bought, and what is wanted."""

from __future__ import annotations

from pydantic import model_validator

from kit.basics.declare import Declared, quantity
from kit.forge.steels import steel


class Rack(Declared):
    """A bar on the rack: what is bought."""

    steel: str
    thickness: float = quantity("Thickness", "of the bar", low=0.1, high=25, unit="mm")
    width: float = quantity("Width", "of the bar", low=5, high=150, unit="mm")
    length: float = quantity(
        "Stock length", "as it is sold", low=50, high=6000, unit="mm", default=1000
    )

    @model_validator(mode="after")
    def _known(self) -> Rack:
        steel(self.steel)
        return self


class Wanted(Declared):
    """The bar that is to come out, ground clean."""

    length: float = quantity("Length", "of the bar wanted", low=20, high=2000, unit="mm")
    width: float = quantity("Width", "of the bar wanted", low=5, high=150, unit="mm")
    thickness: float = quantity(
        "Thickness", "of the bar wanted", low=0.5, high=50, unit="mm"
    )

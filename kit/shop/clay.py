"""The clay twin: the same forging in two colours of clay, on a kitchen table.

Clay moves like hot steel; it loses no scale, it smears, and nothing walks in it.
"""

from __future__ import annotations

from typing import NamedTuple

from kit.basics.claim import Claim, Kind
from kit.basics.declare import Declared, quantity

CLAY = Claim(
    says="A layer of clay thinner than 0.35 mm (0.014 in) tears or smears when it is "
    "rolled; a class gets through three folds of eight sheets of 3 mm (1/8 in).",
    kind=Kind.PRACTICE,
    source="its density from memory: weigh a lump of yours; the rest common practice, no "
    "source",
    unit="g/cm³, mm",
    within="soft modelling clay",
    holds=("DENSITY", "THINNEST"),
)
DENSITY = 1.8
THINNEST = 0.35


class Height(NamedTuple):
    """How high the guide sticks for the rolling pin are at one stage, mm."""

    doing: str
    sticks: float
    layers: int


class ClayTwin(Declared):
    """Sheets of clay, pressed together, rolled out between guide sticks and folded.

    Examples
    --------
    >>> twin = ClayTwin()
    >>> twin.volume, round(sum(twin.grams)), twin.folds_that_survive
    (57.6, 104, 3)
    """

    sheets: int = quantity("Sheets", "of both colours together", low=2, high=20, default=8)
    sheet: float = quantity(
        "Sheet", "thickness rolled to", low=1, high=10, unit="mm", default=3
    )
    width: float = quantity("Width", "of a sheet", low=20, high=150, unit="mm", default=40)
    length: float = quantity(
        "Length", "of a sheet", low=20, high=300, unit="mm", default=60
    )
    flat: float = quantity(
        "Rolled to", "before each fold", low=4, high=40, unit="mm", default=12
    )
    folds: int = quantity("Folds", "in clay", low=0, high=6, default=3)

    @property
    def volume(self) -> float:
        """Of all sheets, cm³."""
        return self.sheets * self.sheet * self.width * self.length / 1000

    @property
    def grams(self) -> tuple[float, float]:
        """Of the first colour and of the second; the first has the odd sheet."""
        each = self.volume / self.sheets * DENSITY
        return each * (self.sheets - self.sheets // 2), each * (self.sheets // 2)

    def layer_after(self, folds: int) -> float:
        """Thickness of a layer just after so many folds, mm."""
        if folds == 0:
            return self.sheet
        return 2 * self.flat / (self.sheets * 2**folds)

    @property
    def folds_that_survive(self) -> int:
        """How often it can be folded before layers smear (common practice, no source)."""
        folds = 0
        while folds < 6 and self.layer_after(folds + 1) >= THINNEST:
            folds += 1
        return folds

    @property
    def heights(self) -> list[Height]:
        """The guide sticks that are needed, in order."""
        rows = [Height("roll every sheet", self.sheet, 1)]
        for fold in range(min(self.folds, self.folds_that_survive)):
            rows.append(Height("press and roll out", self.flat, self.sheets * 2**fold))
            rows.append(Height("fold over", 2 * self.flat, self.sheets * 2 ** (fold + 1)))
        return rows

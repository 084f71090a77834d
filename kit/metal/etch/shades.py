"""The etched tone of steel whose contents the fire has moved."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from kit.metal.cells import cells
from kit.metal.etch.tone import tone_of
from kit.metal.soak import bars_of

if TYPE_CHECKING:
    import numpy as np

    from kit.forge.billet import Billet


@dataclass(frozen=True)
class Diffused:
    """Tones of what the heats of a billet have made of its bars: illustrative.

    For `kit.section.trace.see` in place of the tones of whole bars. Without heats in the
    billet it gives those same tones.

    Parameters
    ----------
    whole : Billet, optional
        Of a bundle, the billet that is looked at: its bars meet the later heats too,
        of which a bar by itself knows nothing.

    Examples
    --------
    >>> from kit import Billet, Stack
    >>> rack = Billet(source=Stack.alternate("1084", "15N20", pieces=3, thickness=2))
    >>> Diffused().cells(rack)[1].round(2)
    array([0.02, 0.78, 0.02])
    """

    whole: Billet | None = None

    def cells(self, billet: Billet) -> tuple[np.ndarray, np.ndarray]:
        """Give edges, 0 … 1 through one stack, and the tone between each two.

        Raises `KitError` as `kit.metal.cells.cells`.
        """
        bars = bars_of(self.whole) if self.whole else ()
        later = next((bar.later for bar in bars if bar.billet == billet), ())
        cut = cells(billet, later)
        return cut.edges, tone_of(cut.contents)

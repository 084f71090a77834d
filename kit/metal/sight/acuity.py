"""What an eye can split: how fine a line, from how far, in what contrast.

A good eye in good light splits one minute of arc, the sixtieth of a degree. That is
20/20: the strokes of the letters on a sight chart (National Research Council, Emergent
Techniques for Assessment of Visual Performance, 1985). Many see worse and some better:
measure yours with `kit.metal.sight.chart`.
"""

from __future__ import annotations

import math

from kit.basics.declare import Declared, allowed_range, quantity
from kit.basics.errors import KitError

# Less contrast than this we do not count as seen: our choice, no source.
LEAST_CONTRAST = 1.5


class Eye(Declared):
    """One reader's eye.

    Examples
    --------
    >>> round(EYE.finest(500), 3), round(EYE.steepest_cut(4 / 320, 300), 1)
    (0.145, 8.2)
    """

    arc_minutes: float = quantity(
        "Finest angle",
        "that the eye can split, in minutes of arc; 1 is a good eye",
        low=0.3,
        high=10,
        unit="minutes of arc",
        default=1,
    )

    @classmethod
    def measured(cls, width: float, distance: float) -> Eye:
        """Make the eye that just splits lines of a width, mm, from a distance, mm.

        Raises `KitError` if that is finer or coarser than eyes are.
        """
        _check(width=width, distance=distance)
        minutes = 60 * math.degrees(math.atan(width / distance))
        low, high = allowed_range(cls.model_fields["arc_minutes"])
        if not low <= minutes <= high:
            msg = (
                f"Lines of {width:g} mm from {distance:g} mm are {minutes:.2g} minutes of "
                f"arc; an eye splits {low:g} to {high:g}. Is the distance in mm?"
            )
            raise KitError(msg)
        return cls(arc_minutes=minutes)

    def finest(self, distance: float) -> float:
        """Give the smallest width that can be split from a distance; both in mm."""
        _check(distance=distance)
        return distance * self._slope

    def farthest(self, width: float) -> float:
        """Give the greatest distance from which a width can be split; both in mm."""
        _check(width=width)
        return width / self._slope

    def steepest_cut(self, layer: float, distance: float) -> float:
        """Give the steepest cut through layers that still shows them as lines.

        Parameters
        ----------
        layer : float
            Thickness of a layer, mm.
        distance : float
            From the eye, mm.

        Returns
        -------
        float
            Degrees between the face and the layers: 0 runs along them, 90 straight
            across, which is also the answer where every cut shows them. On a face at an
            angle a, a layer shows as a line layer / sin a wide.
        """
        _check(layer=layer)
        return math.degrees(math.asin(min(1, layer / self.finest(distance))))

    def sees(self, width: float, distance: float, contrast: float) -> bool:
        """Tell whether lines can be seen: wide enough, and different enough in tone.

        Parameters
        ----------
        width, distance : float
            Of a line and from the eye, mm.
        contrast : float
            `kit.metal.sight.lightness.contrast_ratio` of the tones, 1 … 21. Less than 1.5
            does not count: our choice, no source.
        """
        if not 1 <= contrast <= 21:
            msg = f"A contrast ratio must be from 1 to 21. Given: {contrast:g}."
            raise KitError(msg)
        _check(width=width)
        return bool(width >= self.finest(distance) and contrast >= LEAST_CONTRAST)

    @property
    def _slope(self) -> float:
        return math.tan(math.radians(self.arc_minutes / 60))


def visible(width: float, distance: float, contrast: float) -> bool:
    """Tell whether a good eye sees lines: see `Eye.sees`."""
    return EYE.sees(width, distance, contrast)


def _check(**lengths: float) -> None:
    for name, length in lengths.items():
        if not 0 < length < math.inf:
            msg = f"The {name} must be more than 0 mm. Given: {length:g} mm."
            raise KitError(msg)


EYE = Eye()
EYE_300 = EYE.finest(300)

"""What a good eye can split."""

from __future__ import annotations

import math

# One minute of arc (20/20: National Research Council, 1985), seen from 300 mm.
EYE_300 = 300 * math.tan(math.radians(1 / 60))

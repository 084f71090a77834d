"""The one typeface of the kit: pages, pictures, the tablet's page and print.

DejaVu Sans Condensed 2.37, and DejaVu Sans Mono of the same family for code, as Debian's
`fonts-dejavu-extra` and `fonts-dejavu-core` bring them, with the signs the kit needs and
no more (`LICENSE` beside it; `tests/test_letters.py` tells how it is made
anew, and asks that no sign of the kit is missing). What a maker writes in other letters is
left to whatever else the screen or the paper has.
"""

from pathlib import Path

FOLDER = Path(__file__).parent
FAMILY = "DejaVu Sans Condensed"
REGULAR, BOLD = FOLDER / "DejaVuSansCondensed.ttf", FOLDER / "DejaVuSansCondensed-Bold.ttf"
CODE_FAMILY, CODE = "DejaVu Sans Mono", FOLDER / "DejaVuSansMono.ttf"

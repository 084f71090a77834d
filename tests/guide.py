"""The contributor guide: its recipes as code, and the table of steps, which is written.

    python -m tests.guide

writes the table from what the steps declare. `tests/test_guide.py` follows the recipes.
"""

import re
from pathlib import Path

from kit.forge.steps import STEPS, Place, Step

GUIDE = Path(__file__).parents[1] / "DEVELOPERS.md"
PLACES = {Place.FIRE: "fire", Place.SAW: "saw", Place.GRINDER: "grinder"}
HEAD = "| Step | Done at | Layers that lay flat | Takes steel away | Leaves out |"


def recipe(title: str) -> dict[str, str]:
    """Give the files that a chapter of the guide writes, by the path in line one."""
    chapter = GUIDE.read_text("utf-8").partition(f"\n## {title}\n")[2].partition("\n## ")[0]
    blocks = re.findall(r"```(?:python|text)\n# (\S+)\n(.*?)```", chapter, re.DOTALL)
    return dict(blocks)


def row(name: str, kind: type[Step]) -> str:
    """Say in one row what a step declares, and what its docstring says it leaves out."""
    plain = re.sub(r" \([^()]*\)", "", " ".join(kind.__doc__.split()))
    said = re.search(r"Leaves out:? (.*?)[.;](?:\s|$)", plain)
    places = ", ".join(PLACES[place] for place in kind.done_at) or "–"
    cells = (name, places, kind.keeps.name, kind.takes or "no", said[1])
    return f"| {' | '.join(cells)} |"


def table() -> str:
    """Give the table of all steps."""
    rows = [row(name, kind) for name, kind in STEPS.items()]
    return "\n".join([HEAD, "|---|---|---|---|---|", *rows])


def with_table(text: str) -> str:
    """Put the table in the place of the one that is there."""
    before, _, rest = text.partition(HEAD)
    return before + table() + rest[rest.index("\n\n") :]


if __name__ == "__main__":
    GUIDE.write_text(with_table(GUIDE.read_text("utf-8")), "utf-8")

"""What can hurt at this work, each told once: pages, cards, papers and pairs take it here.

Every danger has its words, who decides what is done about it where you are, and its source,
in `dangers.json`, and stands here under its name. It is a reminder, not a training.
``met`` are the words by which a page or a card comes upon it, ``mark`` the words that only
its caution uses: laws see by them that no page is without its caution, and that no caution
is written twice (`tests/test_dangers.py`).
"""

from dataclasses import dataclass

from kit.basics.claim import Claim, Kind, beside


@dataclass(frozen=True, kw_only=True)
class Danger(Claim):
    """One danger: its name, whom it hurts, who decides, the words it is known by."""

    kind: Kind = Kind.PRACTICE
    name: str
    hurts: str
    decides: str
    met: str
    mark: str

    def __str__(self) -> str:
        return f"{self.says} {self.decides}"

    @property
    def line(self) -> str:
        """How a page lists it."""
        return f"> * **{self.name[0].upper()}{self.name[1:]}.** {self}"


# Where work is shown: a page, a paper, a plan in the terminal.
LEARN = (
    "This explains; it does not teach you to do it. Learn it from somebody qualified; the "
    "rules of the place decide."
)
globals().update(beside(__file__, Danger))
DANGERS = {one.name: one for one in list(globals().values()) if isinstance(one, Danger)}

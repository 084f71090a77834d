"""Check yourself: type an answer in any of three lanes and get a reason back."""

import html
from typing import Any

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.basics.files import address_of
from kit.basics.told import in_units
from kit.basics.units import Units
from kit.course.check import LANES, STANDS, Check
from kit.course.views.base import View
from kit.course.views.controls import Choice, as_inches, button, in_a_row
from kit.course.views.said import Says, Text, spoken

PNG = b"\x89PNG"  # a clean picture; while a slider moves it is a JPEG
LOOK, MEASURE, _CALCULATE = range(3)
ANEW = "Set the bench as it begins"
AS_SET = (
    f"To look this up, press “{ANEW}”, then set above what the question names; below is "
    "what stands there now."
)
ANY_WAY = "Choose one: each leads to the answer."


class CheckYourself(widgets.VBox):
    """One or more checks under each other.

    Parameters
    ----------
    *checks : Check
    view : View
        The bench above: the checks are asked, and read, in its units, and whoever looks or
        measures has its picture beside the question.
    """

    def __init__(self, *checks: Check, view: View) -> None:
        super().__init__()
        self.add_class("kit-view")
        self._checks, self._view, self.bench = checks, view, Text()
        self.bench.add_class("kit-as-above")
        self._beside = widgets.VBox([in_a_row(button(ANEW, self._anew)), self.bench])
        view.looks.unit_choice.observe(self._tell, "value")
        view.picture.observe(self._as_above, names=["frame", "alt"])
        self.afresh()

    def afresh(self) -> None:
        """Ask everything anew, as if nothing had been answered."""
        self.rows = [CheckRow(check, self._beside) for check in self._checks]
        for row in self.rows:
            row.lane.observe(self._as_above, names="value")
        self.children = self.rows
        self._tell()

    def end_with(self, button: widgets.Button) -> None:
        """Show a button below the last check."""
        self.children = [*self.rows, in_a_row(button)]

    def _tell(self, _change: Any = None) -> None:
        for row in self.rows:
            row.tell(self._view.units)

    def _anew(self, _button: Any = None) -> None:
        """Set the bench as it begins, from where a tip tells what to set."""
        if not self._view.locked:
            self._view.reset()

    def _as_above(self, _change: Any = None) -> None:
        """Show what stands on the bench, once it rests, to those who look at it here."""
        if not any(self._beside in row.children for row in self.rows):
            return
        above = self._view.picture
        if above.frame.startswith(PNG):
            source = address_of(above.frame, "image/png")
            alt = html.escape(above.alt, quote=True)
            self.bench.value = f'<p>{AS_SET}</p><img alt="{alt}" src="{source}">'


class CheckRow(widgets.VBox):
    """One question, three lanes to its answer, and what the kit says to it.

    Parameters
    ----------
    check : Check
    bench : widget
        What stands beside the question for whoever looks or measures.
    """

    def __init__(self, check: Check, bench: widgets.Widget) -> None:
        super().__init__()
        self.bench = bench
        self.add_class("kit-check")
        self.check, self.tries, self.units = check, 0, Units.MM
        self._picks: set[int] = set()  # of the choices offered
        self._marked: tuple[str, bool] | None = None
        self._verdict = ""  # what was said of that
        self._right = False  # what was found stays found, whatever is tried next
        self._stays = False  # a right verdict stays on the page, whichever way comes next
        self.lane = Choice("How do you go about it?", list(LANES))
        self.offered = Choice("Which is it?", [], weighed=True)
        self.offered.add_class("kit-answer")
        # told when Enter is pressed or the box is left
        self.answer = widgets.Text(description="Answer:", continuous_update=False)
        self.send_button = button("Check my answer", self.mark, "kit-main")
        self.says, self.tip = Says(), Text()
        self.lane.observe(self._new_lane, names="value")
        self.offered.observe(self._picked, names="value")
        self.answer.observe(self.mark, names="value")
        self._row = in_a_row(self.answer, self.send_button)
        self.ask = Text()
        self._head = [self.ask, self.lane, self.tip]
        self.tell(Units.MM)

    def tell(self, units: Units) -> None:
        """Ask in these units; what was answered in others is asked anew."""
        self.units, self._marked = units, None
        ask = html.escape(in_units(self.check.ask, units))
        self.ask.value = f'<p class="kit-ask">{ask}</p>'
        self.offered.value, self.offered.options = -1, self.check.offers(units)
        self._new_lane()

    def mark(self, _button: Any = None) -> None:
        """Mark what was typed; the same answer twice is one try."""
        answer = self.answer.value, self.lane.value == MEASURE
        if answer != self._marked:
            self._marked = answer
            self._mark(answer[0], measured=answer[1])
        else:
            self._say(self._verdict)

    def _mark(self, text: str, *, measured: bool, tried: int = 0) -> None:
        stands = STANDS if self._right else ""
        try:
            verdict = self.check.mark(
                text,
                tries=self.tries + 1,
                tried=0 if self._right else tried,
                measured=measured,
                stands=stands,
                units=self.units,
            )
        except KitError as error:
            self._say(spoken(str(error), refused=True))
            return
        self.tries += 1
        self._stays = verdict.right
        self._right |= verdict.right
        note = f" {as_inches(text, self.units)}".rstrip() if self.check.is_length else ""
        self._say(spoken(("✓ " if verdict.right else "✗ ") + verdict.words + note))

    def _say(self, words: str) -> None:
        """Write a verdict, anew also if it is the same: the page may have taken it back."""
        self._verdict = words
        self.says.value = ""
        self.says.value = words

    def _picked(self, change: dict) -> None:
        pick = change["new"]
        if pick >= 0:
            tried = len(self._picks - {pick})
            self._picks.add(pick)
            self._mark(self.offered.options[pick], measured=False, tried=tried)

    def _new_lane(self, _change: Any = None) -> None:
        lane = self.lane.value
        if not self._stays:
            self.says.value = ""
        tip = self.check.tips[lane] if lane >= 0 else ANY_WAY
        self.tip.value = f"<p>{html.escape(in_units(tip, self.units))}</p>"
        middle = self.offered if lane == LOOK else self._row
        seen = [self.bench] if lane in (LOOK, MEASURE) else []
        self.children = [*self._head, *([middle] if lane >= 0 else []), self.says, *seen]

"""Put a shop's own losses in the place of ours: by weighing, or from a file."""

from collections.abc import Callable
from typing import Any

import ipywidgets as widgets

from kit.basics import files
from kit.basics.errors import KitError
from kit.basics.told import in_units
from kit.course.answers import KINDS
from kit.course.lessons.plan import PlanLesson
from kit.course.lessons.plan_ideas import LOSSES
from kit.course.views.base import View
from kit.course.views.controls import blank, button, in_a_row
from kit.course.views.said import Says, Text, download
from kit.course.views.upload import Upload
from kit.shop import weighed_losses
from kit.shop.work import Losses

WEIGHED = ("After the weld, g", "After drawing out, g")


class Weighing(widgets.VBox):
    """Two weights of a real billet, planned above; the losses they mean; a file to keep.

    Parameters
    ----------
    view : View
        Of lesson 10. Its plan is the billet that was weighed; it gets the losses.
    """

    def __init__(self, view: View) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.view = view
        self._forged = None  # the plan that the weighed billet was forged by
        self._set: dict | None = None  # what the weights last made of the page's plan
        self.grams = [blank(when, "cold, scale off", "24em", "12em") for when in WEIGHED]
        self.upload = Upload(
            "Open a losses file", ".json", weighed_losses.MOST_BYTES, self._uploaded
        )
        self.says, self.out = Says(), Text()
        row = in_a_row(button("Work it out", self.work_out, "kit-main"), self.upload)
        self.children = [*self.grams, row, self.says, self.out]
        self.says.tell(
            "Plan your billet above, forge it, weigh it. One weight is enough to begin."
        )

    def work_out(self, _button: Any = None) -> None:
        """Turn the weights into scale for each face and heat."""
        self._try(self._weighed)

    def rehearse(self) -> None:
        """Weigh nothing, nonsense, and a billet that lost what was planned."""
        plan = self._plan()
        for text in ("", "abc", "-3", f"{plan.stages()[0].grams_after:.1f}"):
            self.grams[0].value = text
            self.work_out()

    def _plan(self) -> Any:
        return PlanLesson(**self.view.state).plan

    def _weighed(self) -> Losses:
        weights = {
            number: KINDS["grams"].value(text.value)
            for number, text in enumerate(self.grams)
            if text.value.strip()
        }
        if self.view.locked:
            msg = "First predict and press Observe above; then the plan is yours to weigh."
            raise KitError(msg)
        if not weights:
            msg = "Type at least one weight, in grams, or with its unit: 28.6 oz."
            raise KitError(msg)
        if self.view.state != self._set:  # planned anew since the last weighing
            self._forged = self._plan()
        return weighed_losses.measured(self._forged, weights)

    def _uploaded(self) -> None:
        self._try(lambda: weighed_losses.from_json(self._given()))

    def _given(self) -> str:
        return files.decoded(
            self.upload.given().content, weighed_losses.WHAT, weighed_losses.MOST_BYTES
        )

    def _try(self, work: Callable[[], Losses]) -> None:
        try:
            losses = work()
        except KitError as refused:
            self._say(str(refused), refused=True)
            return
        self.view.set(**{kind: float(getattr(losses, kind)) for kind in LOSSES})
        self._set = self.view.state
        name, data = "my-shop.json", weighed_losses.to_json(losses).encode()
        self.out.value = download(f"Save {name}", name, "application/json", data)
        self._say(
            f"Scale {losses.weld_scale:.3f} mm a face at a welding heat, "
            f"{losses.forge_scale:.3f} mm at a forging heat. The plan above uses them now."
        )

    def _say(self, words: str, *, refused: bool = False) -> None:
        self.says.tell(in_units(words, self.view.units), refused=refused)

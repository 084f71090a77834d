"""Measure a photograph by pointing at it."""

from collections.abc import Callable
from typing import Any

import ipywidgets as widgets
import traitlets

from kit.basics.typed import parse_angle, parse_length
from kit.course.lessons.measured_photo import (
    BOX,
    CARD,
    LINE,
    MARKS,
    SCALE,
    Measured,
    example,
)
from kit.course.views.controls import HERE, Choice, Looks, Picture, blank, button, in_a_row
from kit.course.views.said import Says
from kit.course.views.upload import Upload
from kit.section.picture import encode
from kit.shop.photograph import MOST_BYTES, Photograph, opened

DOING = {
    LINE: "count bands along a line",
    SCALE: "set the scale by two marks",
    CARD: "a bank card's corners",
    BOX: "a box around the steel",
}
PRESS = {LINE: "Measure", SCALE: "Set the scale", CARD: "Use the card", BOX: "Use the box"}


class CloseUp(Picture):
    """A picture with a loupe over all pixels of the photograph that lies on it.

    Arrow keys move the cross by one of them, with Shift by a twentieth of the picture;
    Enter points.
    """

    _esm = "".join(
        (HERE / name).read_text("utf-8") for name in ("loupe.js", "line.js", "picture.js")
    )
    closer = traitlets.Bytes(b"").tag(sync=True)
    marks = traitlets.List().tag(sync=True)  # column, row in the photograph, and a name
    lies = traitlets.List(traitlets.Float()).tag(sync=True)  # left, top, right, low: shares


class MeasuringView(widgets.VBox):
    """A photograph, what to do with the marks on it, and one sentence with the result."""

    def __init__(self) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.measured = Measured(example())
        self.picture = CloseUp()
        self.picture.on_msg(self._heard)
        self.upload = Upload("Open a photograph", "image/*", MOST_BYTES, self._uploaded)
        self.doing = Choice("Marks are for", list(DOING.values()), value=0)
        self.doing.observe(lambda _change: self._show(), names="value")
        self._close: Photograph | None = None  # the one whose pixels the loupe has
        self.length = blank("Between the marks", "50 mm", "22em", "11em")
        self.angle = blank("Cut angle, if known", "30", "22em", "11em")
        self.do_button = button("Measure", self.do, "kit-main")
        self.clear_button = button("Clear marks", self.clear)
        row = in_a_row(self.do_button, self.clear_button, self.upload)
        self.says = Says()
        self.looks = Looks(self._show)
        self.children = [
            self.picture,
            self.says,
            self.doing,
            self.length,
            self.angle,
            row,
            self.looks,
        ]
        self.says.tell("Point at both ends of a line: click, or arrow keys and Enter.")
        self._show()

    def mark(self, across: float, down: float) -> None:
        """Put a mark where somebody pointed, as shares 0 … 1 of the picture."""
        place = self.measured.at(across, down)
        if place is None:
            self.says.tell("There is no photograph at that place.", refused=True)
            return
        self.measured = self.measured.marked(self.kind, place)
        self._show()
        there, most = len(self.measured.given(self.kind)), MARKS[self.kind]
        then = f" Now press {PRESS[self.kind]}." if there == most else ""
        self.says.tell(f"Mark {there} of {most}.{then}")

    @property
    def kind(self) -> str:
        """What marks are for now."""
        return list(DOING)[self.doing.value]

    def do(self, _button: Any = None) -> None:
        """Do what the marks are for."""
        done = {LINE: self._count, SCALE: self._scale, CARD: self._card, BOX: self._box}
        self._try(done[self.kind])

    def clear(self, _button: Any = None) -> None:
        """Take the marks for one thing off."""
        self.measured = self.measured.without(self.kind)
        self._show()
        self.says.tell(f"Marks taken off: {DOING[self.kind]}.")

    def rehearse(self) -> None:
        """Set a scale, count, and press everything once without marks."""
        for doing in (3, 2, 1, 0):
            self.doing.value = doing
            self.do()
        ends = ((0.1, 0.5), (0.6, 0.5))
        self.length.value = "40 mm"
        for doing, places in ((1, ends), (3, ((0.05, 0.1), (0.9, 0.9))), (0, ends)):
            self.doing.value = doing
            for place in places:
                self.mark(*place)
            self.do()
        self.mark(0.999, 0.999)
        for doing in (0, 1, 3):
            self.doing.value = doing
            self.clear()
        self.doing.value = 0

    def _count(self) -> str:
        text = self.angle.value.strip()
        angle = parse_angle(text) if text else None
        self.measured = self.measured.counted()
        return self.measured.found(angle, self.looks.units)

    def _scale(self) -> str:
        mm = parse_length(self.length.value, unit=self.looks.units.unit)
        self.measured = self.measured.scaled(mm)
        return "The scale is set. It is surest for a line along the same marks."

    def _card(self) -> str:
        self.measured = self.measured.carded()
        return "Scale and tilt are set by the card. Now box the steel, and mark a line."

    def _box(self) -> str:
        self.measured.needed(BOX)
        return "The box is set: no line is counted outside it."

    def _try(self, work: Callable[[], str]) -> None:
        def done() -> None:
            told = work()
            self._show()
            self.says.tell(told)

        self.says.tried(done)

    def _uploaded(self) -> None:
        self.says.tell("Reading the photograph …")
        self._try(self._open)

    def _open(self) -> str:
        name, content = self.upload.given()
        self.measured = Measured(opened(content, name))
        return "The photograph is open. Set its scale first, by two marks or by a card."

    def _heard(self, _widget: Any, message: dict, _buffers: Any) -> None:
        if message.get("event") == "point":
            self.mark(float(message["x"]), float(message["y"]))

    def _show(self) -> None:
        self.looks.dress(self)
        self.do_button.description = PRESS[self.kind]
        for box, kind in ((self.length, SCALE), (self.angle, LINE)):
            box.layout.display = "" if self.kind == kind else "none"
        with self.picture.hold_sync():
            if self._close is not self.measured.photo:
                self._close = self.measured.photo
                self.picture.closer = self.measured.close()
            self.picture.lies = self.measured.lies
            self.picture.marks = self.measured.named
            self.picture.frame = encode(self.measured.drawn(self.kind, **self.looks.paper))
            self.picture.alt = self.measured.alt(self.looks.units)

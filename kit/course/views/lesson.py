"""A lesson on the screen: its parts, made from its one class.

Pages that need more than their lesson says have a view of their own.
"""

from dataclasses import replace
from typing import Any

import ipywidgets as widgets
import numpy as np

from kit.basics.errors import KitError
from kit.basics.told import counted
from kit.basics.typed import parse_length
from kit.basics.units import format_length
from kit.course.lessons.base import Lesson
from kit.course.lessons.bought import BoughtLesson
from kit.course.lessons.bought_photo import (
    ALIKE,
    THINNEST,
    WIDEST,
    Like,
    beside,
    marked,
    nearest,
    squared,
)
from kit.course.lessons.etching import EtchingLesson
from kit.course.map import ASKING, lesson_of
from kit.course.views.base import View
from kit.course.views.check import CheckYourself
from kit.course.views.controls import Picture, blank, button, in_a_row
from kit.course.views.predict import Predict
from kit.course.views.said import Says, Text, small_print, spoken
from kit.course.views.upload import Upload
from kit.metal.bite import bitten, words
from kit.metal.coupons import LARGEST, Coupon, parsed
from kit.shop.bought import RAINDROP, SOLD, made_as
from kit.shop.photograph import MOST_BYTES, Photograph, Point, opened


class FoldView(View):
    """The view of lesson 02, and the legend's button."""

    def __init__(self, lesson: type[Lesson]) -> None:
        super().__init__(lesson)
        self.legend_button = button("Try the legend: 20 folds", self.legend)
        self.buttons.children = [*self.buttons.children, self.legend_button]

    def legend(self, _button: Any = None) -> None:
        """Let the fold slider go on to 20, where layers are a few atoms thick."""
        self.settings = tuple(
            replace(setting, all_stops=()) if setting.key == "folds" else setting
            for setting in self.settings
        )
        self._new_look()
        self.say("The fold slider now goes to 20. Watch the thickness of one layer.")


class EtchingView(View):
    """An etched face, near and from afar; and one's own coupons."""

    def __init__(self, lesson: type[EtchingLesson] = EtchingLesson) -> None:
        self.readings: tuple[Coupon, ...] = ()
        super().__init__(lesson)
        self.note = Text()
        self.upload = Upload("Your own coupons' file", ".json", LARGEST, self._coupons)
        self.children = [*self.children, in_a_row(self.upload), self.note]
        self.refresh()

    def how(self, job: EtchingLesson) -> dict[str, Any]:
        """Put readings of one's own before our guesses."""
        return {"readings": self.readings}

    def show(self, job: EtchingLesson, *, moving: bool, changed: str = "") -> None:
        """Draw what is set, and say what in it is measured and what is guessed."""
        super().show(job, moving=moving, changed=changed)
        if hasattr(self, "note"):
            told = words(bitten(job.names, job.etch, self.readings))
            self.note.value = small_print(told)

    def _coupons(self) -> None:
        """Take an uploaded file of coupons, or say in one sentence why not."""
        try:
            self.readings = parsed(self.upload.given().content)
        except KitError as refused:
            self.say(str(refused), refused=True)
            return
        self.refresh()
        self.say(f"{len(self.readings)} readings of your own go before our guesses.")


class BoughtView(View):
    """From a bought bar to the face of a blade; the bar described, or photographed.

    What is said of the photograph stands between its buttons and its picture, in sight
    of both.
    """

    def __init__(self, lesson: type[BoughtLesson] = BoughtLesson) -> None:
        self.compared: tuple[Photograph, Like] | None = None  # a face, and what it is like
        super().__init__(lesson)
        self.wide = blank("Picture, wide", "such as 90 mm", "18em", "9em")
        self.high = blank("Face, high", "such as 38 mm", "18em", "9em")
        self.upload = Upload(
            "A photograph of the bar", "image/*", MOST_BYTES, self._uploaded
        )
        self.find_button = button("Which is it like?", self.find)
        self.clear_button = button("Mark corners anew", self.clear)
        self.opened: Photograph | None = None
        self.corners: list[Point] = []
        self.answer, self.photo = Says(), Picture()
        self.photo.on_msg(self._pointed)
        for one in (self.photo, self.high, self.clear_button):
            one.layout.display = "none"
        boxes = self.upload, self.wide, self.high, self.find_button, self.clear_button
        self.children = [*self.children, in_a_row(*boxes), self.answer, self.photo]
        self.tell("Choose a photograph: the bar lying from left to right.")

    def tell(self, words: str, *, refused: bool = False) -> None:
        """Write one sentence beside the photograph."""
        self.told, self.answer.value = words, spoken(words, refused=refused)

    def find(self, _button: Any = None) -> None:
        """Find the pattern that the photograph is most like, show it beside, say so."""
        try:
            photo = self._photo()
            self.tell("Comparing it with the faces of the kit's own bars …")
            like = nearest(photo, self.state["thickness"])
        except KitError as refused:
            self.tell(str(refused), refused=True)
            return
        if like.apart < ALIKE:  # what is not very like it leaves the bar as it was set
            layers = {"layers": like.layers} if self._counts(like) else {}
            self.set(bought=like.bought, **layers)
        self.compared = photo, like
        self._lay_beside()
        self.tell(self._told(like))

    def show(self, job: BoughtLesson, *, moving: bool, changed: str = "") -> None:
        """Draw what is set; on the photograph, once it is compared, lies this blade."""
        super().show(job, moving=moving, changed=changed)
        if not moving:
            self._lay_beside()

    def rest(self) -> None:
        """Put the clean picture in place of the quick one, and the blade as it is now."""
        super().rest()
        self._lay_beside()

    def _lay_beside(self) -> None:
        if self.compared:
            looks = self.looks
            self.photo.lay(beside(*self.compared, self.job, looks.units, **looks.paper))

    def rehearse(self) -> None:
        """Ask for the likeness of nothing, and of a picture as wide as no number."""
        self.find()
        self.wide.value = "abc"
        self.find()

    def clear(self, _button: Any = None) -> None:
        """Show the whole photograph again, without corners."""
        self.corners = []
        self._show_photo()
        self.tell("Corners taken off: the whole picture counts as the face.")

    def _uploaded(self) -> None:
        try:
            name, content = self.upload.given()
            self.opened = opened(content, name)
        except KitError as refused:
            self.tell(str(refused), refused=True)
            return
        self.corners = []
        self._show_photo()
        self.tell(
            f"{name} is open. Point at the four corners of a piece of the bar's face, "
            "clockwise from the upper left; or leave it, if the face fills the picture."
        )

    def _show_photo(self) -> None:
        self.compared = None
        if self.opened is None:
            return
        self.photo.lay(marked(self.opened, self.corners, **self.looks.paper))
        self.wide.description = "Face, long" if self.corners else "Picture, wide"
        self.photo.layout.display = self.clear_button.layout.display = ""
        self.high.layout.display = "" if self.corners else "none"

    def _pointed(self, _widget: Any, message: dict, _buffers: Any) -> None:
        """Put a corner where somebody pointed; a fifth begins anew."""
        if message.get("event") != "point" or self.opened is None:
            return
        if self.compared:
            self.tell("Press Mark corners anew first: this is the face, squared.")
            return
        rows, columns = self.opened.light.shape
        place = float(message["x"]) * columns, float(message["y"]) * rows
        self.corners = [*(self.corners if len(self.corners) < 4 else []), place]
        self._show_photo()
        then = " Say how long and high the face is between them." * (len(self.corners) == 4)
        self.tell(f"Corner {len(self.corners)} of 4.{then}")

    def _photo(self) -> Photograph:
        """Give the face: squared by its corners, or the whole picture, its scale set."""
        if self.opened is None:
            self.upload.given(
                "Choose a photograph first: the bar lying from left to right."
            )
            msg = "That photograph could not be opened. Choose another."
            raise KitError(msg)
        if 0 < len(self.corners) < 4:
            msg = f"Mark all four corners, or none. Given: {len(self.corners)}."
            raise KitError(msg)
        if not self.wide.value.strip() or (self.corners and not self.high.value.strip()):
            msg = "Say how wide the picture is on the bar, such as 90 mm."
            if self.corners:
                msg = "Say how long and how high the face is between its corners."
            raise KitError(msg)
        mm = self.side(self.wide)
        if self.corners:
            return squared(self.opened, self.corners, mm, self.side(self.high))
        light = np.asarray(self.opened.light)
        return Photograph(light, mm / light.shape[1])

    def side(self, box: widgets.Text) -> float:
        """Read how long a side of the picture, or of the face, is on the bar, mm."""
        typed = box.value
        mm = parse_length(typed, unit=self.units.unit)
        if not THINNEST <= mm <= WIDEST:
            units = self.units.typed(typed)
            low, high = (format_length(part, units) for part in (THINNEST, WIDEST))
            what, way = box.description.lower().split(", ")
            msg = f"The {what} must be from {low} to {high} {way}. Given: {typed.strip()}."
            raise KitError(msg)
        return mm

    @staticmethod
    def _counts(like: Like) -> bool:
        """Say whether the number of layers can be told: rings do not tell it."""
        return bool(like.layers) and made_as(SOLD[like.bought]) != RAINDROP

    def _told(self, like: Like) -> str:
        alike = like.apart < ALIKE
        layers = f", about {counted(like.layers, 'layer')}" * self._counts(like)
        layers += " (set so above)" * alike
        sure = "" if alike else " It is not very like it."
        return (
            f"Of our bars it is most like {SOLD[like.bought]}{layers}: "
            f"{like.looks.along:.2f} bands a mm along it.{sure} What lies below its face "
            "no photograph shows: grind an end and etch it."
        )


# Pages that need more than their lesson says, by its key.
PAGES: dict[str, type[View]] = {"02": FoldView, "09": EtchingView, "bought": BoughtView}


def view_of(key: str) -> View:
    """Make the view of a lesson, or of a part of one, by its number or name."""
    return PAGES.get(key, View)(lesson_of(key))


def lesson(key: str, beside: View | None = None) -> tuple[widgets.Widget, ...]:
    """Give the parts of a lesson, ready to be shown one below another.

    Parameters
    ----------
    key : str
        Its number, as "04", or the name of a part, as "weld".
    beside : View, optional
        A view above it on the page: units, light and type go with that one.

    Returns
    -------
    tuple
        If its page asks first (`ASKING`): prediction, view, explanation, checks.
        Otherwise the view, and checks if it has any.
    """
    view = view_of(key)
    asked = view.lesson
    if beside is not None:
        view.looks.follow(beside.looks)
    checks = (CheckYourself(*asked.checks, view=view),) if asked.checks else ()
    (beside or view).checks += checks
    if key not in ASKING:
        return (view, *checks)
    predict = Predict(asked.question, view, asked.states())
    return (predict, view, predict.explain, *checks)

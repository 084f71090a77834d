"""Lesson 09 on the screen: readings of somebody's own coupons go before our guesses."""

from __future__ import annotations

import html
from typing import Any

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.course.lessons.etching import EtchingLesson
from kit.course.views.base import View
from kit.course.views.controls import in_a_row
from kit.course.views.upload import Upload
from kit.metal.bite import bitten, words
from kit.metal.coupons import LARGEST, Coupon, parsed


class EtchingView(View):
    """An etched face, near and from afar; and one's own coupons."""

    def __init__(self, lesson: type[EtchingLesson] = EtchingLesson) -> None:
        self.readings: tuple[Coupon, ...] = ()
        super().__init__(lesson)
        self.note = widgets.HTML()
        self.upload = Upload("Your own coupons (JSON)", ".json", LARGEST, self._coupons)
        self.children = [*self.children, in_a_row(self.upload), self.note]
        self.refresh()

    def how(self, job: EtchingLesson) -> dict[str, Any]:
        """Put readings of one's own before our guesses."""
        del job
        return {"readings": self.readings}

    def show(self, job: EtchingLesson, *, moving: bool, changed: str = "") -> None:
        """Draw what is set, and say what in it is measured and what is guessed."""
        super().show(job, moving=moving, changed=changed)
        if hasattr(self, "note"):
            told = words(bitten(job.names, job.etch, self.readings))
            self.note.value = f'<p class="kit-fine">{html.escape(told)}</p>'

    def _coupons(self) -> None:
        """Take an uploaded file of coupons, or say in one sentence why not."""
        try:
            self.readings = parsed(self.upload.given().content)
        except KitError as refused:
            self.say(str(refused), refused=True)
            return
        self.refresh()
        self.say(f"{len(self.readings)} readings of your own go before our guesses.")

"""Open a recipe, look at it, hand it on."""

from __future__ import annotations

import html
from typing import Any

import ipywidgets as widgets

from kit.basics import files
from kit.basics.errors import KitError
from kit.course.lessons import recipe_scene
from kit.course.views.base import View
from kit.course.views.controls import button, download, in_a_row
from kit.course.views.settings import settings_of
from kit.course.views.upload import Upload
from kit.forge.patterns import PATTERNS
from kit.forge.recipes.recipe import WHAT, Recipe, from_json, to_json
from kit.forge.recipes.shorthand import MOST_LETTERS, NO_LINE, from_line, short_line


def named(place: int) -> Recipe:
    """Give a named pattern as a recipe."""
    known = PATTERNS[place]
    return Recipe(
        name=known.name, billet=known.forge(), note=known.note, source=known.source
    )


class RecipeView(View):
    """A recipe from the list, from a file or from a printed line; its picture."""

    lesson = recipe_scene.Job
    settings = settings_of(lesson)
    cues = ("which",)

    def __init__(self) -> None:
        self.recipe = named(0)
        self._listed = 0
        super().__init__()
        self.upload = Upload(
            "Open a recipe (JSON)", ".json", files.MOST_BYTES, self._uploaded
        )
        self.typed = widgets.Textarea(placeholder="or type or paste a printed line here")
        self.typed.layout.width = "100%"
        self.read = button("Read the line", self.read_line)
        self.out = widgets.HTML()
        row = in_a_row(self.upload, self.read)
        self.children = [*self.children, row, self.typed, self.out]
        self._hand_on()

    def how(self, job: recipe_scene.Job) -> dict[str, Any]:
        """Have the recipe drawn that was opened last."""
        if job.which != self._listed:
            self._listed = job.which
            self.recipe = named(self._listed)
            self._hand_on()
        return {"recipe": self.recipe}

    def take(self, recipe: Recipe) -> None:
        """Show another recipe; if it cannot be drawn, the old one stays."""
        before, self.recipe = self.recipe, recipe
        try:
            self.refresh()
        except KitError:
            self.recipe = before
            raise
        self._hand_on()
        self.say(f"{recipe.name}. {recipe.note}".strip())

    def read_line(self, _button: Any = None) -> None:
        """Read the line that was typed."""
        words = self.typed.value[: MOST_LETTERS + 1]
        self._try_open(lambda: Recipe(name="from a line", billet=from_line(words)))

    def _uploaded(self) -> None:
        self._try_open(lambda: from_json(files.decoded(self.upload.given().content, WHAT)))

    def _try_open(self, make: Any) -> None:
        try:
            self.take(make())
        except KitError as refused:
            self.say(str(refused), refused=True)

    def _hand_on(self) -> None:
        """Offer the recipe as a file and as a line."""
        if not hasattr(self, "out"):
            return
        name = "".join(s if s.isalnum() else "-" for s in self.recipe.name)[:60] or "recipe"
        name, data = f"{name}.json", to_json(self.recipe).encode()
        self.out.value = (
            download(f"Save {name}", name, "application/json", data)
            + f'<p class="kit-fine">As a line, to print or to send: '
            f"<code>{html.escape(short_line(self.recipe.billet) or NO_LINE)}</code></p>"
        )

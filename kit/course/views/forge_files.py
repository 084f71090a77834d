"""Bring a bar to the forge, and take it along: as a file, and as a line."""

from collections.abc import Callable
from typing import Any

import ipywidgets as widgets

from kit.basics import files
from kit.course.anvil.class_talk import class_talks
from kit.course.views.controls import Choice, button, in_a_row
from kit.course.views.forge import Forge
from kit.course.views.said import Says, Text, download, small_print
from kit.course.views.upload import Upload
from kit.shop.patterns import PATTERNS
from kit.shop.recipes.found import of_line, recipe_of
from kit.shop.recipes.recipe import WHAT, Recipe, from_json, to_json
from kit.shop.recipes.shorthand import MOST_LETTERS, NO_LINE, short_line

MOST_NAME = 60  # letters of a file's name
UNNAMED = "a bar of one's own"
CLASS_BUTTONS = ("Begin with the class's talk", "Begin with its second bar")
NO_TALK = (
    "What you say at a step, and a weld that did not take, go into the file only: a line "
    "has no room for them."
)
ON_THE_ANVIL = "It lies on the anvil, above."
WITH_A_TALK = "Press Give the talk, above, to see what is said of it."
COPY = "Save it as a file; or go into its line below: Ctrl and A, then Ctrl and C, copy it."
LEFT_BEHIND = "Steps that are not done stay behind, with what you say there."


def file_name(name: str) -> str:
    """Write a bar's name as that of a file, without its ending."""
    return "".join(s if s.isalnum() else "-" for s in name)[:MOST_NAME]


def recipe_upload(then: Callable[[], None]) -> Upload:
    """Give a button that takes a recipe's file; what came, `uploaded` reads."""
    return Upload("Open a recipe file", ".json", files.MOST_BYTES, then)


def uploaded(upload: Upload) -> Recipe:
    """Read the recipe that was handed over; `KitError` if it was none."""
    return from_json(files.decoded(upload.given().content, WHAT))


class ForgeFiles(widgets.VBox):
    """What goes in and out of the forge.

    Parameters
    ----------
    forge : Forge
        Whose bar it is.
    """

    def __init__(self, forge: Forge) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.forge = forge
        self.named = Choice(
            "Begin with a pattern that has a name", [p.name for p in PATTERNS]
        )
        self.upload = recipe_upload(self._uploaded)
        self.typed = widgets.Textarea(placeholder="or type or paste a printed line here")
        self.typed.layout.width = "100%"
        self.read_button = button("Read the line", self.read_line)
        self.name = widgets.Text(description="Its name:", continuous_update=False)
        self.name.layout.width = "min(100%, 24em)"
        self.give_button = button("Save it, or show its line", self.hand_on, "kit-main")
        self.says, self.out = Says(), Text()
        self.line = widgets.Textarea(description="Its line:")
        self.line.layout.width = "100%"
        self._none()
        self.class_buttons = [
            button(words, lambda _b, told=told: self.says.tried(lambda: self.take(told)))
            for words, told in zip(CLASS_BUTTONS, class_talks(), strict=True)
        ]
        self.named.observe(self._picked, names="value")
        self.name.observe(self._renamed, names="value")
        self.recipe = Recipe(name=UNNAMED, billet=forge.bar)
        self.children = [
            self.named,
            in_a_row(*self.class_buttons, self.upload),
            self.typed,
            in_a_row(self.read_button),
            in_a_row(self.name, self.give_button),
            self.says,
            self.out,
            self.line,
        ]

    def take(self, recipe: Recipe) -> None:
        """Lay another recipe's bar on the anvil; if it cannot be drawn, the old stays."""
        self.forge.lay(recipe)
        self.recipe = recipe
        self.name.value = recipe.name
        told = [
            f"{recipe.name}.",
            recipe.note,
            ON_THE_ANVIL,
            WITH_A_TALK * bool(recipe.talk),
        ]
        self.says.tell(" ".join(filter(None, told)))

    def read_line(self, _button: Any = None) -> None:
        """Read the line that was typed."""
        line = self.typed.value[: MOST_LETTERS + 1]
        self.says.tried(lambda: self.take(of_line(line)))

    def hand_on(self, _button: Any = None) -> None:
        """Offer the bar with all its steps, and its talk, as a file; and as a line."""
        self.says.tried(self._hand_on)

    @property
    def named_recipe(self) -> Recipe:
        """The bar with all its steps, and its talk, with the name in the box."""
        name = self.name.value.strip() or UNNAMED
        kept = self.recipe if self.recipe.name == name else None
        return self.forge.desk.recipe(
            name, kept.note if kept else "", kept.source if kept else ""
        )

    def _hand_on(self) -> None:
        recipe = self.named_recipe
        file = f"{file_name(recipe.name)}.json"
        data = to_json(recipe).encode()
        saved = download(f"Save {file}", file, "application/json", data)
        self.out.value = saved + small_print(NO_TALK)
        self.line.value, self.line.layout.display = short_line(recipe.billet) or NO_LINE, ""
        behind = f" {LEFT_BEHIND}" if self.forge.desk.no_longer else ""
        self.says.tell(f"{COPY}{behind}")

    def _uploaded(self) -> None:
        self.says.tried(lambda: self.take(uploaded(self.upload)))

    def _picked(self, change: dict) -> None:
        self.says.tried(lambda: self.take(recipe_of(PATTERNS[change["new"]].name)))

    def _renamed(self, _change: dict) -> None:
        self._none()

    def _none(self) -> None:
        """Hand nothing over: the bar has another name, or none was asked for."""
        self.out.value, self.line.layout.display = "", "none"

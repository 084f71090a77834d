"""The show table live, with the kernel behind it: predict, grind, why; then the next."""

import html
from typing import Any

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.classroom.show.own_piece import own_piece
from kit.classroom.show.page import own_pieces
from kit.classroom.show.piece import STOPS, Piece, Voice, seen
from kit.course.views.controls import (
    Choice,
    Looks,
    Picture,
    Slider,
    blank,
    button,
    every_option,
    in_a_row,
)
from kit.course.views.said import Says, Text
from kit.section.picture import LAYERS
from kit.shop.recipes.found import recipe_of

LETTERS = "ABCD"


class ShowTable(widgets.VBox):
    """One piece after another, as on the show page; everything is drawn when asked for.

    Attributes
    ----------
    piece : Piece
        What is on the table.
    """

    def __init__(self) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.add_class("kit-show")
        self.pieces = own_pieces()
        names = [piece.name(Voice()) for piece in self.pieces]
        self.which = Choice("On the table", names, value=0)
        self.which.observe(self._other, names="value")
        hint = "low twist, ladder, star …, a recipe's line, or a recipe file"
        self.own = blank("Or your own:", hint, continuous_update=False)
        self.own.observe(self._own, names="value")
        self.ask, self.says, self.why = Text(), Says(), Text()
        self.picture = Picture()
        self.slider = Slider(
            label="Grind", help="", stops=[float(stop) for stop in range(STOPS)], value=0.0
        )
        self.slider.observe(lambda _change: self._draw(), names="value")
        self.show_button = button("Show me", self.show, "kit-main")
        self.why_button = button("Why?", self.tell)
        self.next_button = button("Next visitor", self.next_visitor)
        self.buttons = in_a_row(self.show_button, self.why_button, self.next_button)
        self.place = widgets.VBox([])
        self.looks = Looks(self._new_look)
        self.looks.type_choice.value = 1  # read from the other side of a table
        self.children = [
            self.ask, self.place, self.buttons, self.says, self.why,
            self.which, self.own, self.looks,
        ]  # fmt: skip
        self._piece: Piece | None = None
        self._visits = 0
        self.clear()

    @property
    def piece(self) -> Piece:
        """What is on the table: one of the kit's own, or the maker's."""
        return self._piece or self.pieces[self.which.value]

    def next_visitor(self, _button: Any = None) -> None:
        """Begin anew; the right picture has moved on, for the next one may have looked."""
        self._visits += 1
        self.clear()

    def clear(self) -> None:
        """Lay out the question."""
        piece, voice, first = self.piece, self._voice, self._visits % len(LETTERS)
        tiles = piece.tiles[first:] + piece.tiles[:first]
        self.right = tiles.index(piece.tiles[piece.right])
        asked = html.escape(piece.question(voice))
        self.ask.value = f'<p class="kit-ask">{asked}</p>'
        self.tiles = Choice(
            "Choose one:",
            list(LETTERS),
            pictures=[
                seen(tile, self._theme, ground_shows=False, look=LAYERS) for tile in tiles
            ],
            alts=[tile.alt(voice) for tile in tiles],
        )
        self.tiles.observe(self._chosen, names="value")
        self.place.children = [self.tiles]
        self.show_button.disabled, self.why_button.disabled = True, True
        self.why.value = ""
        self.says.tell("What will you see? Choose one, then press Show me.")

    def show(self, _button: Any = None) -> None:
        """Let the visitor grind; the choice stays in words beside it."""
        chosen = LETTERS[max(self.tiles.value, 0)]
        asked = self.piece.stops[self.piece.asked].says(self._voice)
        self.slider.label = self.piece.slider(self._voice)
        self.slider.value = 0.0
        self.place.children = [self.picture, self.slider]
        self.show_button.disabled, self.why_button.disabled = True, False
        self._draw()
        self.says.tell(
            f"You chose {chosen}. The question is about “{asked}”: move the slider there."
        )

    def tell(self, _button: Any = None) -> None:
        """Say why, in one sentence and one number."""
        piece, voice = self.piece, self._voice
        self.slider.value = float(piece.asked)
        hit = self.tiles.value == self.right
        first = "You predicted it." if hit else f"It is {LETTERS[self.right]}."
        self.says.tell(f"{first} {piece.why(voice)}")
        number, counts = piece.number(voice), piece.counts(voice)
        self.why.value = (
            f'<div class="kit-numbers"><dl><div><dt>{html.escape(counts)}</dt>'
            f"<dd>{html.escape(number)}</dd></div></dl></div>"
        )

    def rehearse(self) -> None:
        """Play every piece, own ones that can be and cannot be, and every look."""
        for piece in range(len(self.pieces)):
            self.which.value = piece
            for tile in range(len(self.tiles.options)):
                self.tiles.value = tile
            self.show()
            for stop in (STOPS - 1, 0):
                self.slider.value = float(stop)
            self.tell()
            self.next_visitor()
        for words in ("low twist", "no such pattern", ""):
            self.own.value = words
        every_option(self.looks.choices)

    @property
    def _voice(self) -> Voice:
        return Voice(self.looks.units)

    @property
    def _theme(self) -> str:
        return "sunlight" if self.looks.sunlit else "indoor"

    def _other(self, change: dict) -> None:
        """Lay one of the kit's own on the table; -1: the maker's lies there."""
        if change["new"] >= 0:
            self._piece = None
            self.clear()

    def _own(self, _change: Any = None) -> None:
        words = self.own.value.strip()
        if not words:
            return
        try:
            self._piece = own_piece(recipe_of(words))
        except KitError as refused:
            self.says.tell(str(refused), refused=True)
            return
        self.which.value = -1  # so that each of the kit's own can be chosen again
        self.clear()

    def _chosen(self, _change: Any = None) -> None:
        self.show_button.disabled = self.tiles.value < 0

    def _draw(self) -> None:
        stop = self.piece.stops[int(self.slider.value)]
        self.picture.frame = seen(stop, self._theme)
        self.picture.alt = stop.alt(self._voice)
        self.slider.readout = stop.says(self._voice)

    def _new_look(self) -> None:
        self.looks.dress(self)
        if hasattr(self, "tiles"):
            self.clear()

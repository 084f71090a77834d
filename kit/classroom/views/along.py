"""What is taken along: of the forge's bar, and of a plan from one's own rack."""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import NamedTuple

import ipywidgets as widgets

from kit.basics import files
from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.classroom.film import write
from kit.classroom.paper.card import card
from kit.classroom.paper.clay_bar import clay_bar
from kit.classroom.paper.cue_card import cue_cards
from kit.classroom.paper.kinds import Asked
from kit.classroom.paper.page import PAPERS, bind
from kit.classroom.paper.stock import racked, stock
from kit.classroom.show import page as show
from kit.course.anvil.desk import Desk
from kit.course.anvil.play import MOST, Playing
from kit.course.views.controls import Choice
from kit.course.views.forge_files import UNNAMED, ForgeFiles, file_name
from kit.course.views.making import Make, Making, Progress
from kit.course.views.racked import Racked

FILM = {"columns": 640, "rows": 180, "held": 8, "most": 6 * MOST}


class Wanted(NamedTuple):
    """What is to be made of a bar, read when *Make it* is pressed.

    Attributes
    ----------
    asked : Asked
        Its recipe, the paper and the units.
    as_clay : bool
        Whether the forge shows clay.
    """

    asked: Asked
    as_clay: bool


def _printed(kind: Callable, wanted: Wanted, path: Path, progress: Progress) -> Path:
    return bind(kind(wanted.asked), path, wanted.asked.recipe.name, progress)


def _tablet(wanted: Wanted, path: Path, progress: Progress) -> Path:
    units = "mm" if wanted.asked.units is Units.MM else "inch"
    text = show.page([show.piece_of(wanted.asked.recipe)], units=units, progress=progress)
    return files.write(path, text)


def _film(wanted: Wanted, path: Path, progress: Progress) -> Path:
    history = Desk.of_recipe(wanted.asked.recipe).history
    at = len(history.acts)
    how = {"units": wanted.asked.units, "as_clay": wanted.as_clay, **FILM}
    film = Playing(history, at, **how)
    return write(film, path, progress=progress)


OFFERS: dict[str, tuple[str, Callable[[Wanted, Path, Progress], Path]]] = {
    "recipe card (PDF)": ("-card.pdf", partial(_printed, card)),
    "in clay: sheets and steps (PDF)": ("-in-clay.pdf", partial(_printed, clay_bar)),
    "stock to saw, with losses (PDF)": ("-stock.pdf", partial(_printed, stock)),
    "cue card of your talk (PDF)": ("-cue-card.pdf", partial(_printed, cue_cards)),
    "a page for the tablet or phone": ("-show.html", _tablet),
    "film of the bar being made (GIF)": (".gif", _film),
}


class Along(widgets.VBox):
    """What a maker takes along of the bar that is looked at.

    Parameters
    ----------
    files : ForgeFiles
        Of the forge whose bar it is; it knows the bar's name.
    """

    def __init__(self, files: ForgeFiles) -> None:
        super().__init__()
        self.files = files
        what = Choice("Make of this bar", list(OFFERS), value=0)
        paper = Choice("Paper, where it is printed", list(PAPERS), value=0)
        self.making = Making((what, paper), self._file_name, self._make)
        self.children = [self.making]

    def rehearse(self) -> None:
        """Make every offer, stop one, and let one finish."""
        self.making.rehearse()

    def _file_name(self, what: int, _paper: int) -> str:
        ending, _make = list(OFFERS.values())[what]
        return file_name(self.files.name.value.strip() or UNNAMED) + ending

    def _make(self, what: int, paper: int) -> Make:
        forge = self.files.forge
        recipe = self.files.named_recipe
        asked = Asked(list(PAPERS)[paper], forge.units, recipe=recipe)
        wanted = Wanted(asked, forge.as_clay)
        _ending, make = list(OFFERS.values())[what]
        return partial(make, wanted)


class AlongRack(widgets.VBox):
    """The plan from one's own rack on paper: its card, then what to saw and what is left.

    Parameters
    ----------
    planned : Racked
        Where the bars were typed and the plan was made.
    """

    def __init__(self, planned: Racked) -> None:
        super().__init__()
        self.planned = planned
        paper = Choice("Print the card of this plan on", list(PAPERS), value=0)
        self.making = Making((paper,), lambda _paper: "my-rack-card.pdf", self._make)
        self.making.says.tell("Plan from your rack, then press Make it.")
        planned.observe(self._anew, names="value")
        self.children = [self.making]

    def _anew(self, _change: object) -> None:
        """Put away the card of another plan."""
        self.making.file.value = ""
        self.making.says.tell("Press Make it for the card of the plan from your rack.")

    def rehearse(self) -> None:
        """Make the card of what was planned."""
        self.making.rehearse()

    def _make(self, paper: int) -> Make:
        if self.planned.value is None:
            msg = "There is no plan from your rack yet: press Plan from my rack first."
            raise KitError(msg)
        wished, bars = self.planned.value
        units = self.planned.units
        asked = Asked(list(PAPERS)[paper], units, recipe=wished, rack=bars)
        return partial(_rack_card, asked)


def _rack_card(asked: Asked, path: Path, progress: Progress) -> Path:
    return bind([*card(asked), *racked(asked)], path, "From my rack", progress)

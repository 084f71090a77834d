"""The print room: pages at true size, films, posters, lessons for telephones."""

import html
import io
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

import ipywidgets as widgets
import traitlets
from PIL import Image

from kit.basics.errors import KitError
from kit.basics.files import address_of
from kit.basics.told import counted
from kit.basics.units import UNITS
from kit.classroom.film import Grinding, forging, poster, write
from kit.classroom.paper.handout import LESSONS
from kit.classroom.paper.kinds import ALL, PLAN, Asked, Kind, kinds, own_mark
from kit.classroom.paper.page import PAPERS, bind
from kit.classroom.phone import page
from kit.classroom.show.piece import languages
from kit.course.views.controls import Choice, blank, in_a_row
from kit.course.views.forge_files import recipe_upload, uploaded
from kit.course.views.making import Make, Making, Progress
from kit.course.views.said import Text, small_print, spoken
from kit.course.views.upload import Given, Upload
from kit.section.surface import shown_at
from kit.shop import rack
from kit.shop.patterns import PATTERNS
from kit.shop.photograph import MOST_BYTES
from kit.shop.recipes.recipe import Recipe

DOTS = 64  # an inch, ours: twice what is shown, for fine screens
WIDE = 260  # pixels on the page, ours


class FirstPage(widgets.HTML):
    """The first page of what would be printed; drawn beside the page, the newest only."""

    def __init__(self) -> None:
        super().__init__()
        self._lock = threading.Lock()
        self._wish: tuple[Kind, Asked] | None = None
        self._work: threading.Thread | None = None

    def ask(self, kind: Kind, asked: Asked) -> None:
        """Wish for the first page of a kind; what was wished for before is forgotten."""
        with self._lock:
            self._wish = kind, asked
            if self._work is None:
                self._work = threading.Thread(target=self._do, daemon=True)
                self._work.start()

    def wait(self, seconds: float) -> None:
        """Wait until the newest is shown, at most so many seconds: for tests."""
        work = self._work
        if work is not None:
            work.join(seconds)

    def _do(self) -> None:
        while True:
            with self._lock:
                wish, self._wish = self._wish, None
                if wish is None:
                    self._work = None
                    return
            try:
                shown = drawn(*wish)
            except KitError as refused:
                shown = spoken(str(refused), refused=True)
            except BaseException:  # it is in the log; the next wish begins anew
                with self._lock:
                    self._work = None
                raise
            if self._wish is None:
                self.value = shown


def drawn(kind: Kind, asked: Asked) -> str:
    """Draw the first page of a kind, small; of all lessons the first.

    Raises
    ------
    KitError
        As the page itself would be refused.
    """
    if asked.lesson == ALL:
        pages = kind.pages(asked._replace(lesson=LESSONS[0]))
        told = "The first page; every lesson has its own."
    else:
        pages = kind.pages(asked)
        told = f"The first of {counted(len(pages), 'page')}."
    picture = io.BytesIO()
    pages[0].figure.savefig(picture, format="png", dpi=DOTS)
    source = address_of(picture.getvalue(), "image/png")
    alt = f"{told} {pages[0].title or kind.words}"
    return (
        f'<img class="kit-sheet" width="{WIDE}" alt="{html.escape(alt)}" '
        f'src="{source}">{small_print(told)}'
    )


NAMED = ("mm", "in")
FILMS = ("a forging, step by step", "ground deeper and deeper")
POSTERS = {"A4": (2480, 1754), "A3": (3508, 2480), "A2": (4960, 3508)}  # 300 dots an inch


class OwnBar(widgets.VBox):
    """A bar of one's own: a line or a file's name that is typed, or a file handed over.

    Attributes
    ----------
    value : str or Recipe
        What was typed or handed over last; "" for none.
    """

    value = traitlets.Any("")

    def __init__(self) -> None:
        super().__init__()
        hint = "the line of a recipe or of a plan, or a recipe file"
        self.line = blank("Or your own:", hint, continuous_update=False)
        self.upload = recipe_upload(self._opened)
        self.says = Text()
        self.line.observe(lambda _change: self._take(self.line.value.strip()), "value")
        self.children = [self.line, in_a_row(self.upload), self.says]

    def clear(self) -> None:
        """Put file and line away."""
        self.line.value = ""
        self._take("")

    def _take(self, own: str | Recipe, says: str = "") -> None:
        self.value, self.says.value = own, says

    def _opened(self) -> None:
        self.clear()
        try:
            recipe = uploaded(self.upload)
        except KitError as refused:
            self._take("", spoken(str(refused), refused=True))
        else:
            self._take(recipe, spoken(f"Of your own bar: {recipe.name}."))


class OwnFile(widgets.VBox):
    """Something of the maker's own, handed over as a file; its `value`, None without one.

    Parameters
    ----------
    upload : tuple
        Label, kind of file and most bytes, as for `Upload`.
    read : callable
        Makes the value of the file; `KitError` if it cannot.
    done : str
        What is said then.
    """

    value = traitlets.Any()

    def __init__(
        self, upload: tuple[str, str, int], read: Callable[[Given], Any], done: str
    ) -> None:
        super().__init__()
        self.upload = Upload(*upload, self._opened)
        self.says, self._read, self._done = Text(), read, done
        self.children = [in_a_row(self.upload), self.says]

    def _opened(self) -> None:
        try:
            self.value = self._read(self.upload.given())
        except KitError as refused:
            self.value, self.says.value = None, spoken(str(refused), refused=True)
        else:
            self.says.value = spoken(self._done)


def _mark() -> OwnFile:
    return OwnFile(
        ("Your mark for cards", "image/*", MOST_BYTES),
        lambda given: own_mark(given.content, given.name),
        "Your mark stands on it.",
    )


def _rack() -> OwnFile:
    return OwnFile(
        ("Your rack's file", ".json", rack.MOST_BYTES),
        lambda given: rack.from_bytes(given.content),
        "The plan is made from the bars of your rack.",
    )


# where the word of the command line would not be understood alone
SAID = {
    "card": "recipe card",
    "class-set": "a class's whole set",
    "care": "care cards",
    "measured": "predicted and measured",
    "votes": "vote cards",
}


ABOUT = ("lesson", "bar", "bar", "mark", "rack")  # what each choice after the first is for
OF_LESSON = [*LESSONS, ALL]
OF_BAR = [PLAN, *(pattern.name for pattern in PATTERNS)]


def _asked(
    lesson: int,
    recipe: int,
    own: str | Recipe,
    mark: Image.Image | None,
    bars: tuple[rack.OnRack, ...] | None,
    paper: int,
    units: int,
) -> Asked:
    on = list(PAPERS)[paper], UNITS[NAMED[units]]
    return Asked(*on, OF_LESSON[lesson], own or OF_BAR[recipe], mark, bars or ())


def pages() -> Making:
    """Make pages to print: what, about what; on which paper, in which units."""
    known = list(kinds().values())
    first = next(at for at, kind in enumerate(known) if kind.name == "handout")
    names = [SAID.get(kind.name, kind.name.replace("-", " ")) for kind in known]
    what = Choice("Print", names, value=first)
    lesson = Choice("Of lesson", OF_LESSON, value=0)
    recipe = Choice("Of the bar", ["the class's plan, lesson 10", *OF_BAR[1:]], value=0)
    bar, mark, bars = OwnBar(), _mark(), _rack()
    about = (lesson, recipe, bar, mark, bars)
    words, first_page = Text(), FirstPage()

    def make(kind: int, *values: Any) -> Make:
        return _bound(known[kind], _asked(*values))

    def show(_change: object = None) -> None:
        kind, *values = (choice.value for choice in made.choices)
        first_page.ask(known[kind], _asked(*values))

    def of(_change: object = None) -> None:
        """Ask only for what the chosen kind is about."""
        kind = known[what.value]
        for part, needed in zip(about, ABOUT, strict=True):
            part.layout.display = None if needed in (kind.of, *kind.own) else "none"
        words.value = f"<p>{kind.words[0].upper()}{kind.words[1:]}</p>"

    what.observe(of, names="value")
    recipe.observe(lambda _change: bar.clear(), names="value")
    of()
    settings = (
        Choice("Paper", list(PAPERS), value=0),
        Choice("Lengths in", list(NAMED), value=0),
    )
    made = Making(
        (what, *about),
        lambda kind, lesson, *_rest: _called(known[kind], OF_LESSON[lesson]),
        make,
        settings,
    )
    rest = made.children[len(made.choices) :]
    made.children = [what, words, *about, *settings, first_page, *rest]
    for choice in made.choices:
        choice.observe(show, names="value")
    show()
    return made


def _bound(kind: Kind, asked: Asked) -> Make:
    def work(path: Path, progress: Progress) -> Path:
        return bind(kind.pages(asked), path, kind.words, progress)

    return work


def _called(kind: Kind, lesson: str) -> str:
    return f"{kind.name}-{lesson}.pdf" if kind.of == "lesson" else f"{kind.name}.pdf"


def films() -> Making:
    """Make a looped film of a named pattern, as a GIF."""
    choices = (
        Choice("Pattern", [pattern.name for pattern in PATTERNS], value=1),
        Choice("Film", list(FILMS), value=1),
    )

    def make(pattern: int, kind: int) -> Make:
        def work(path: Path, progress: Progress) -> Path:
            billet = PATTERNS[pattern].forge()
            size = {"columns": 640, "rows": 360}
            frames = (forging, Grinding)[kind](billet, **size)
            return write(frames, path, progress=progress)

        return work

    return Making(choices, lambda pattern, _kind: f"{_file(pattern)}.gif", make)


def posters() -> Making:
    """Make a face large enough for the wall."""
    choices = (
        Choice("Pattern", [pattern.name for pattern in PATTERNS], value=2),
        Choice("Size", list(POSTERS), value=0),
    )

    def make(pattern: int, size: int) -> Make:
        def work(path: Path, progress: Progress) -> Path:
            known = PATTERNS[pattern]
            billet = known.forge()
            face = shown_at(billet, known.shown, *list(POSTERS.values())[size])
            return poster(billet, face, path, progress)

        return work

    return Making(choices, lambda pattern, _size: f"{_file(pattern)}.png", make)


def _file(pattern: int) -> str:
    return PATTERNS[pattern].name.replace(" ", "-").replace(",", "")


def telephones() -> Making:
    """Make every lesson a page for a telephone: one file that holds them all."""
    spoken_in = languages()
    address = blank("Web address:", page.HINT, continuous_update=False)
    settings = (
        Choice("Paper of the codes", list(PAPERS), value=0),
        Choice("Lengths in", list(NAMED), value=0),
        Choice("Buttons in", [told["name"] for told in spoken_in.values()], value=0),
    )

    def make(address: str, paper: int, units: int, language: int) -> Make:
        how = {"units": UNITS[NAMED[units]], "paper": list(PAPERS)[paper]}
        how["language"] = list(spoken_in)[language]

        def work(path: Path, progress: Progress) -> Path:
            return page.packed(path, address=address, progress=progress, **how)

        return work

    return Making((address,), lambda *_values: "lessons.zip", make, settings)


def room() -> tuple[Making, ...]:
    """Give the parts of the print room: pages, films, posters, pages for telephones."""
    return pages(), films(), posters(), telephones()

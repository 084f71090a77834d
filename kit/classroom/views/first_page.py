"""A small picture of a sheet's first page, before it is made."""

import html
import io
import threading

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.basics.files import address_of
from kit.basics.told import counted
from kit.classroom.paper.handout import LESSONS
from kit.classroom.paper.kinds import ALL, Asked, Kind
from kit.course.views.said import small_print, spoken

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

"""Make a file to keep, a page, a film, a poster: with progress and a way to stop."""

import tempfile
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.course.views.controls import Choice, button, every_option, in_a_row
from kit.course.views.said import Says, Text, download, spoken

Progress = Callable[[float], None]
Make = Callable[[Path, Progress], Path]
KINDS = {
    ".csv": "text/csv",
    ".txt": "text/plain",
    ".zip": "application/zip",
    ".pdf": "application/pdf",
    ".png": "image/png",
    ".gif": "image/gif",
    ".mp4": "video/mp4",
    ".html": "text/html",
}
MOST_BYTES = 60_000_000  # of a file that is handed over in the page, ours
REHEARSAL = 300  # s, for one file


class StoppedError(Exception):
    """Somebody pressed Stop."""


class Making(widgets.VBox):
    """A few choices, *Make*, *Stop*, a bar that fills up, and the file to save.

    The work runs beside the page, which goes on answering. The file is made in a folder
    of its own and handed to the browser; nothing else on the disk is touched.

    Parameters
    ----------
    choices : tuple of Choice
        What is made; also anything else that has a `value`.
    file_name : callable
        From the choices' values to the file's name.
    make : callable
        From those values to a function of a path and a progress that writes the file.
    settings : tuple of Choice
        What seldom changes: it stands, and its values come, last.
    """

    def __init__(
        self,
        choices: tuple[widgets.Widget, ...],
        file_name: Callable[..., str],
        make: Callable[..., Make],
        settings: tuple[Choice, ...] = (),
    ) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.choices = (*choices, *settings)
        self._file_name, self._make = file_name, make
        self.make_button = button("Make it", self.begin, "kit-main")
        self.stop_button = button("Stop", self.stop)
        self.stop_button.disabled = True
        self.bar = widgets.FloatProgress(min=0, max=1, description="")
        self.says = Says(value=spoken("Choose, then press Make it."))
        self.file = Text()
        self._stopped = threading.Event()
        self._work: threading.Thread | None = None
        for choice in self.choices:
            choice.observe(self._chosen, names="value")
        row = in_a_row(self.make_button, self.stop_button)
        self.children = [*self.choices, row, self.bar, self.says, self.file]

    def begin(self, _button: Any = None) -> None:
        """Start the work, unless it runs already."""
        if self._work is not None and self._work.is_alive():
            return
        values = [choice.value for choice in self.choices]
        self._stopped.clear()
        self.make_button.disabled, self.stop_button.disabled = True, False
        self.bar.value, self.file.value = 0, ""
        self.says.tell("Working …")
        self._work = threading.Thread(target=self._do, args=(values,), daemon=True)
        self._work.start()

    def _chosen(self, _change: Any) -> None:
        """Put away what was made for other choices."""
        if self.file.value:
            self.bar.value, self.file.value = 0, ""
            self.says.tell("Chosen anew: press Make it.")

    def stop(self, _button: Any = None) -> None:
        """Ask the work to stop; nothing half-made is left."""
        self._stopped.set()

    def wait(self, seconds: float) -> None:
        """Wait until the work is done: for tests and rehearsals.

        Raises
        ------
        TimeoutError
            If it is not done in so many seconds.
        """
        if self._work is not None:
            self._work.join(seconds)
            if self._work.is_alive():
                msg = f"The work was not done in {seconds:g} s."
                raise TimeoutError(msg)

    def rehearse(self) -> None:
        """Make every choice once, stop one, and let one finish."""
        every_option(self.choices)
        self.begin()
        self.stop()
        self.wait(REHEARSAL)
        self.begin()
        self.wait(REHEARSAL)

    def _do(self, values: list[int]) -> None:
        name = self._file_name(*values)
        try:
            with tempfile.TemporaryDirectory() as folder:
                path = self._make(*values)(Path(folder) / name, self._progress)
                data = path.read_bytes()
            self._offer(name, data)
        except StoppedError:
            self.says.tell("Stopped. Nothing was kept.")
        except KitError as refused:
            self.says.tell(str(refused), refused=True)
        except BaseException:  # it is in the log, and whoever waits is told, too
            msg = "It could not be made, by a fault of the kit's own. Nothing was kept."
            self.says.tell(msg, refused=True)
            raise
        finally:
            self.make_button.disabled, self.stop_button.disabled = False, True

    def _progress(self, share: float) -> None:
        self.bar.value = share
        if self._stopped.is_set():
            raise StoppedError

    def _offer(self, name: str, data: bytes) -> None:
        """Hand the file to the browser, inside the page: it works without a network."""
        if len(data) > MOST_BYTES:
            size = f"{len(data) / 1e6:.0f} MB"
            msg = f"The file has {size}, too much for a page: make it smaller."
            raise KitError(msg)
        kind = KINDS[Path(name).suffix]
        self.file.value = download(f"Save {name}", name, kind, data)
        self.bar.value = 1
        self.says.tell(f"Done: {name}, {len(data) / 1000:,.0f} kB.")

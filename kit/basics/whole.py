"""Files that are written whole, or not at all."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from kit.basics.errors import KitError


@contextmanager
def whole(path: Path) -> Iterator[Path]:
    """Give a place beside a file to write it; at the end it takes the file's place.

    Whatever stops the work, an old file stays and nothing half-written is left. The place
    has the file's name, in a new folder that nobody else has, so that no neighbour is
    touched, no link is followed and two runs do not meet. It may become a folder itself.

    Parameters
    ----------
    path : Path
        Of the file; its folder must be there.

    Raises
    ------
    KitError
        If the file cannot be written.
    """
    room = None
    try:
        room = Path(tempfile.mkdtemp(prefix=".part-", dir=path.parent))
        part = room / path.name
        yield part
        _settle(part)
        part.replace(path)
    except OSError as error:
        msg = f"'{path.name[:60]}' cannot be written: {error.strerror or error}."
        raise KitError(msg) from None
    finally:
        if room is not None:
            shutil.rmtree(room, ignore_errors=True)


def _settle(part: Path) -> None:
    """See the file onto the disk before it takes another's place: power may fail."""
    if part.is_file():
        with part.open("rb+") as file:
            os.fsync(file.fileno())

"""Files that are written whole, or not at all."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from kit.errors import KitError


@contextmanager
def whole(path: Path) -> Iterator[Path]:
    """Give a place beside a file to write it; at the end it takes the file's place.

    Whatever stops the work, an old file stays and nothing half-written is left. The place
    has the file's ending, and may become a folder.

    Parameters
    ----------
    path : Path
        Of the file; its folder must be there.

    Raises
    ------
    KitError
        If the file can not be written.
    """
    part = path.with_name(f"{path.stem}.part{path.suffix}")
    try:
        yield part
        _settle(part)
        part.replace(path)
    except OSError as error:
        msg = f"'{path.name[:60]}' can not be written: {error.strerror or error}."
        raise KitError(msg) from None
    finally:
        with suppress(OSError):  # nothing of it is there, or the disk may only be read
            if part.is_dir():
                shutil.rmtree(part)
            part.unlink(missing_ok=True)


def _settle(part: Path) -> None:
    """See the file onto the disk before it takes another's place: power may fail."""
    if part.is_file():
        with part.open("rb+") as file:
            os.fsync(file.fileno())

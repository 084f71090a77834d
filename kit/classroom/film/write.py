"""Store a film or a poster: whole, or not at all."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from PIL import ExifTags

from kit.basics.errors import KitError
from kit.basics.whole import whole
from kit.metal import etch
from kit.section.picture import Sheet
from kit.section.surface import Plane
from kit.section.trace import Surface, see_in_bands

if TYPE_CHECKING:
    from PIL import Image

    from kit.forge.billet import Billet

RATE = 12  # pictures a second
FIRST_TAKEN = datetime(2026, 1, 1)  # a date tag has no zone
MOST_POSTER = 60_000_000  # pixels
Progress = Callable[[float], None]


def write(
    frames: Collection[Image.Image],
    path: Path,
    *,
    rate: int = RATE,
    progress: Progress | None = None,
) -> Path:
    """Write a film: .mp4, .gif, or a folder of numbered JPEGs (a name without a dot).

    Parameters
    ----------
    frames : collection of pictures
        Such as `Film` or `Grinding`; made one by one, never all in memory but for GIF.
    path : Path
    rate : int
        Pictures a second, 1 … 60.
    progress : callable, optional
        Told the share that is done; what it raises stops the work and leaves nothing.

    Raises
    ------
    KitError
        Another ending, a film that is there already as a folder, no encoder, no room.
    """
    makers = {".mp4": _mp4, ".gif": _gif, "": _jpegs}
    if path.suffix.lower() not in makers:
        msg = (
            "A film can be an .mp4, a .gif, or a folder of numbered pictures. Given: "
            f"'{path.name[:60]}'."
        )
        raise KitError(msg)
    if not 1 <= rate <= 60:
        msg = f"A film can show from 1 to 60 pictures a second. Given: {rate}."
        raise KitError(msg)
    if path.is_dir():
        msg = f"There is a folder '{path.name[:60]}' already: give another name."
        raise KitError(msg)
    with whole(path) as part:
        makers[path.suffix.lower()](_counted(frames, progress), part, rate)
    return path


def _counted(
    frames: Collection[Image.Image], progress: Progress | None
) -> Iterator[Image.Image]:
    for number, frame in enumerate(frames, 1):
        yield frame
        if progress:
            progress(number / len(frames))


def _mp4(frames: Iterator[Image.Image], part: Path, rate: int) -> None:
    try:
        import imageio_ffmpeg  # noqa: PLC0415  (an extra: only films need it)
    except ModuleNotFoundError:
        msg = (
            "An .mp4 needs one more package: python -m pip install 'imageio-ffmpeg>=0.5'. "
            "A .gif, or a folder of pictures, works without."
        )
        raise KitError(msg) from None
    writer = None
    try:
        for frame in frames:
            if writer is None:
                writer = imageio_ffmpeg.write_frames(
                    str(part), frame.size, fps=rate, macro_block_size=2, quality=8
                )
                writer.send(None)
            writer.send(np.ascontiguousarray(frame.convert("RGB")))
    finally:
        if writer is not None:
            writer.close()


def _gif(frames: Iterator[Image.Image], part: Path, rate: int) -> None:
    from PIL import Image  # noqa: PLC0415

    greys = [frame.convert("P", palette=Image.Palette.ADAPTIVE) for frame in frames]
    greys[0].save(
        part, save_all=True, append_images=greys[1:-1], duration=1000 // rate, loop=0
    )


def _jpegs(frames: Iterator[Image.Image], part: Path, rate: int) -> None:
    from PIL import Image  # noqa: PLC0415

    del rate
    part.mkdir()
    for number, frame in enumerate(frames, 1):
        # some photo frames refuse a picture without a date, and sort by it
        taken = f"{FIRST_TAKEN + timedelta(seconds=number):%Y:%m:%d %H:%M:%S}"
        tags = Image.Exif()
        tags[ExifTags.Base.DateTime] = tags[ExifTags.Base.DateTimeOriginal] = taken
        place = part / f"{number:05d}.jpg"
        frame.save(place, "JPEG", quality=92, subsampling=0, exif=tags)


def large_sheet(
    billet: Billet,
    surface: Surface,
    *,
    pixels: str = "mean",
    progress: Progress | None = None,
) -> Sheet:
    """Draw a surface band by band: nothing but the picture itself is held whole.

    Parameters
    ----------
    billet : Billet
    surface : Plane or Block
    pixels, progress
        As for `kit.section.trace.see`.
    """
    sheet = Sheet(surface.columns, surface.rows)
    tones = etch.tones(billet.source.steels)
    for first, face in see_in_bands(
        billet, surface, tones, pixels=pixels, progress=progress
    ):
        sheet.steel(face, (0, first))
    return sheet


def poster(
    billet: Billet,
    face: Plane,
    path: Path,
    progress: Progress | None = None,
) -> Path:
    """Write a face as a PNG for print, every pixel averaged over its square.

    Raises
    ------
    KitError
        More than sixty million pixels, or a file that can not be written.
    """
    if face.columns * face.rows > MOST_POSTER:
        msg = (
            f"A poster can have at most {MOST_POSTER // 1_000_000} million pixels. Given: "
            f"{face.columns} × {face.rows}."
        )
        raise KitError(msg)
    sheet = large_sheet(billet, face, pixels="fine", progress=progress)
    dots = round(25.4 / face.pixel) if face.pixel > 25.4 / 3000 else 300
    with whole(path) as part:
        sheet.image.save(part, "PNG", dpi=(dots, dots))
    return path

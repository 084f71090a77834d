"""Films and posters: a bar as it is forged, or one ground deeper and deeper.

Every film is a loop: after its last picture the first can come again without a jump. What
is stored is stored whole, or not at all.
"""

import math
import zlib
from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from itertools import chain
from pathlib import Path
from typing import Any

import numpy as np
from PIL import ExifTags, Image

from kit.basics.errors import KitError
from kit.basics.files import whole
from kit.basics.typed import MM_PER_INCH
from kit.course.anvil import void
from kit.course.anvil.history import History
from kit.course.anvil.play import Playing
from kit.course.anvil.run_out import tick
from kit.course.anvil.void import Flaws
from kit.forge.billet import Billet
from kit.metal import etch
from kit.section.finish import WIDEST, etched
from kit.section.picture import LETTERS, SEEN, STEEL, Sheet
from kit.section.surface import Plane, shown_at
from kit.section.trace import Face, Surface, see, see_in_bands
from kit.section.welds import darkened

RATE = 12  # pictures a second
MOST_FRAMES = 2000


def forging(billet: Billet, missed: Iterable[int] = (), **how: Any) -> Playing:
    """Film a bar as it comes to be, every step standing still for a second.

    Parameters
    ----------
    billet : Billet
    missed : iterable of int
        At which stages a weld did not take.
    how
        `columns`, `rows` and `units` of `Playing`.
    """
    history = replace(History.of(billet), missed=frozenset(missed))
    at = len(history.acts)
    return Playing(history, at, held=RATE, most=MOST_FRAMES, look=STEEL, **how)


@dataclass(frozen=True)
class Grinding:
    """A bar ground from its face to its middle and back: faces at every depth.

    Parameters
    ----------
    billet : Billet
    columns, rows : int
        Size in pixels, even.
    count : int
        Pictures until it begins anew.
    found : sequence of sequence of Flaw
        Its welds that did not take, from `void.flaws`.
    """

    billet: Billet
    columns: int = 960
    rows: int = 540
    count: int = 120
    found: Flaws = ((),)

    def __len__(self) -> int:
        return self.count + 1

    def __iter__(self) -> Iterator[Image.Image]:
        """Make the pictures; the last is the same as the first."""
        tones = etch.tones(self.billet.source.steels)
        length, width, _thickness = self.billet.size
        pixel = 1.04 * max(min(length, 120.0) / self.columns, width / self.rows)
        face = shown_at(self.billet, "face", self.columns, self.rows)
        flat = replace(face, pixel=pixel)
        drawn: dict[int, bytes] = {}  # packed: a whole film would fill the memory
        for number in range(len(self)):
            at = min(number % self.count, -number % self.count)
            sheet = Sheet(self.columns, self.rows, look=STEEL)
            if at in drawn:  # the way back is the way there
                sheet.image.frombytes(zlib.decompress(drawn[at]))
                sheet.image.info[SEEN] = STEEL
            else:
                share = 0.5 + 0.5 * math.cos(2 * math.pi * at / self.count)  # 1 at the face
                deep = replace(flat, centre=(length / 2, 0.0, flat.centre[2] * share))
                seen = see(self.billet, deep, tones)
                seen = void.marked(seen, self.billet, deep, self.found)
                sheet.steel(seen, (0, 0), deep)
                drawn[at] = zlib.compress(sheet.image.tobytes(), 1)
            yield sheet.image


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
    """Write a film: MP4, GIF, or a folder of numbered JPEGs (a name without a dot).

    Parameters
    ----------
    frames : collection of pictures
        Such as `Playing` or `Grinding`; made one by one, never all in memory but for GIF.
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
            "The name of a film ends in .mp4 or .gif, or has no dot: then it is a folder "
            "of numbered pictures. Given: "
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
            "An MP4 needs one more package: python -m pip install 'imageio-ffmpeg>=0.5'. "
            "A GIF, or a folder of pictures, works without."
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
    greys, before = [], None
    for frame in frames:
        held = frame is before  # a stage that stands still is one picture, many times
        greys.append(
            greys[-1] if held else frame.convert("P", palette=Image.Palette.ADAPTIVE)
        )
        before = frame
    greys[0].save(
        part, save_all=True, append_images=greys[1:-1], duration=1000 // rate, loop=0
    )


def _jpegs(frames: Iterator[Image.Image], part: Path, rate: int) -> None:
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
    found: Flaws = ((),),
    progress: Progress | None = None,
) -> Sheet:
    """Draw a surface as etched steel, band by band: only the picture is held whole.

    Parameters
    ----------
    billet : Billet
    surface : Plane or Block
    pixels, progress
        As for `kit.section.trace.see`.
    found : sequence of sequence of Flaw
        Its welds that did not take, from `void.flaws`.

    Raises
    ------
    KitError
        More than sixty million pixels.
    """
    if surface.columns * surface.rows > MOST_POSTER:
        msg = (
            f"A picture can have at most {MOST_POSTER // 1_000_000} million pixels. Given: "
            f"{surface.columns} × {surface.rows}."
        )
        raise KitError(msg)
    times = max(1.0, surface.columns / 1000)
    sheet = Sheet(surface.columns, surface.rows, letters=round(LETTERS * times))
    sheet.image.info[SEEN] = STEEL
    tones = etch.tones(billet.source.steels)
    bands = see_in_bands(billet, surface, tones, pixels=pixels, progress=progress)
    if not any(found):
        for first, face in _lit(bands, surface):
            sheet.steel(face, (0, first))
        return sheet
    dark = void.lines(billet, surface, found)
    cover = np.zeros(dark.shape, np.float32)
    for first, face in _lit(_marked(bands, dark), surface):
        sheet.steel(face, (0, first))
        cover[first : first + len(face.cover)] = face.cover
    tick(sheet, cover, dark, (0, 0), times)
    return sheet


def _marked(
    bands: Iterable[tuple[int, Face]], lines: np.ndarray
) -> Iterator[tuple[int, Face]]:
    """Draw the lines of open welds black into each band."""
    for first, face in bands:
        yield first, darkened(face, lines[first : first + len(face.tone)])


def _lit(bands: Iterator[tuple[int, Face]], surface: Surface) -> Iterator[tuple[int, Face]]:
    """Light each band with the rows beside it: a wall does not end where a band does."""
    first, now = next(bands)
    above = _rows(now, 0, 0)
    for after, below in chain(bands, [(surface.rows, above)]):
        three = zip(above, now, _rows(below, 0, WIDEST), strict=True)
        joined, over = Face(*map(np.concatenate, three)), len(above.tone)
        shone = etched(joined, surface, first=first - over)
        yield first, _rows(shone, over, over + len(now.tone))
        above, first, now = _rows(now, -WIDEST, None), after, below


def _rows(face: Face, low: int, high: int | None) -> Face:
    return Face(*(part[low:high] for part in face))


def poster(
    billet: Billet,
    face: Plane,
    path: Path,
    progress: Progress | None = None,
    found: Flaws = ((),),
) -> Path:
    """Write a face as a PNG for print, every pixel averaged over its square.

    Refuse as `large_sheet` does, and where the file cannot be written.
    """
    sheet = large_sheet(billet, face, pixels="fine", found=found, progress=progress)
    dots = round(MM_PER_INCH / face.pixel) if face.pixel > MM_PER_INCH / 3000 else 300
    with whole(path) as part:
        sheet.image.save(part, "PNG", dpi=(dots, dots))
    return path

"""Films loop, are written whole or not at all, and are read back by other programs."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from PIL import ExifTags, Image
from steps import stack

from kit.basics.errors import KitError
from kit.classroom.film import MOST_POSTER, Grinding, poster, write
from kit.course.anvil.history import History
from kit.course.anvil.play import Playing
from kit.forge.billet import Billet
from kit.forge.steps import DrawOut, Fold, Hammer
from kit.section.surface import cut

BAR = Billet(source=stack(7, (3.0, 1.5))).then(
    Fold(), DrawOut(thickness=16), Hammer(depth=1, spacing=20)
)
SMALL = {"columns": 128, "rows": 96}
FILM = Playing(History.of(BAR), len(BAR), held=2, **SMALL)


def different(one, other):
    """Mean difference of two pictures, 0 … 255."""
    return np.abs(np.asarray(one, float) - np.asarray(other, float)).mean()


@pytest.mark.parametrize("film", [FILM, Grinding(BAR, count=12, **SMALL)], ids=type)
def test_a_film_is_a_loop_without_a_jump(film):
    frames = list(film)
    assert len(frames) == len(film)
    assert different(frames[0], frames[-1]) == 0
    steps = [different(a, b) for a, b in pairwise(frames)]
    assert max(steps) > 0
    assert steps[-1] <= max(steps[:-1])  # the last step is no larger than any other


def test_a_gif_is_read_back(tmp_path):
    path = write(FILM, tmp_path / "a.gif", rate=10)
    with Image.open(path) as film:
        assert film.info["loop"] == 0
        assert film.size == (128, 96)
        assert 1 < film.n_frames <= len(FILM)  # pictures that stand still are held longer


def test_an_mp4_is_read_back(tmp_path):
    imageio_ffmpeg = pytest.importorskip("imageio_ffmpeg")
    path = write(FILM, tmp_path / "a.mp4", rate=12)
    frames, seconds = imageio_ffmpeg.count_frames_and_secs(str(path))
    assert frames == len(FILM)
    assert seconds == pytest.approx(len(FILM) / 12, abs=0.1)
    reader = imageio_ffmpeg.read_frames(str(path))
    assert next(reader)["size"] == (128, 96)
    first = np.frombuffer(next(reader), np.uint8).reshape(96, 128, 3)
    assert different(first, next(iter(FILM))) < 6  # what compression may cost
    reader.close()


def test_numbered_pictures(tmp_path):
    folder = write(FILM, tmp_path / "frames")
    names = sorted(path.name for path in folder.iterdir())
    assert names[0] == "00001.jpg"
    assert len(names) == len(FILM)
    with pytest.raises(KitError, match="already"):
        write(FILM, folder)


@pytest.mark.parametrize("name", ["a.gif", "a.mp4", "frames"])
def test_a_film_that_is_stopped_leaves_nothing(tmp_path, name):
    if name.endswith("mp4"):
        pytest.importorskip("imageio_ffmpeg")

    def stop(share):
        if share > 0.3:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        write(FILM, tmp_path / name, progress=stop)
    assert list(tmp_path.iterdir()) == []


def test_impossible_films_get_one_sentence(tmp_path):
    for make, sentence in (
        (lambda: write(FILM, tmp_path / "a.avi"), "mp4"),
        (lambda: write(FILM, tmp_path / "a.gif", rate=0), "from 1 to 60"),
        (lambda: write(FILM, tmp_path / "none" / "a.gif"), "cannot be written"),
    ):
        with pytest.raises(KitError, match=sentence):
            make()
    assert list(tmp_path.iterdir()) == []


def test_a_poster_says_how_large_it_is_printed(tmp_path):
    face = cut(BAR.size, angle=30, columns=200, rows=300, pixel=0.1)
    shares = []
    path = poster(BAR, face, tmp_path / "p.png", shares.append)
    with Image.open(path) as image:
        assert image.size == (200, 300)
        assert image.info["dpi"] == pytest.approx((254, 254), abs=0.5)  # 25.4 mm / 0.1 mm
    assert shares[-1] == 1
    huge = replace(face, columns=10_000, rows=10_000)
    with pytest.raises(KitError, match=f"{MOST_POSTER // 1_000_000} million"):
        poster(BAR, huge, tmp_path / "q.png")


def test_pictures_for_a_frame_have_dates_in_order_and_are_baseline(tmp_path):
    folder = write(FILM, tmp_path / "frame")
    taken = []
    for path in sorted(folder.iterdir()):
        with Image.open(path) as picture:
            assert "progressive" not in picture.info
            taken.append(picture.getexif()[ExifTags.Base.DateTime])
    assert len(set(taken)) == len(taken)
    assert taken == sorted(taken)

"""Whatever is written leaves its neighbours alone: unlike names, no links, no meeting."""

import os
import threading

import pytest

from kit.basics import files
from kit.basics.errors import KitError
from kit.basics.files import whole
from kit.basics.notebook_file import write as write_notebook
from kit.classroom.homework import hand_in, quiz, ratings
from kit.classroom.homework.hand_in import HandIn
from kit.classroom.paper.page import Page, bind
from kit.shop.patterns import pattern
from kit.shop.recipes import recipe

NOTEBOOK = {"cells": [], "metadata": {}, "nbformat": 4, "nbformat_minor": 5}
DONE = HandIn(course="A", set="H1", student="One")
SHEET = quiz.Sheet(course="A", student="One", when="after", answers=("1",) * 6)
WRITERS = {
    "hand-in.json": lambda path: hand_in.write(DONE, path),
    "quiz.json": lambda path: quiz.write(SHEET, path),
    "ratings.csv": lambda path: ratings.save({("H1", "one", ""): (2, 1, 0)}, path),
    "lesson.ipynb": lambda path: write_notebook(NOTEBOOK, path),
    "votes.pdf": lambda path: bind([Page("A4", "Votes")], path, "Votes"),
    "recipe.json": lambda path: recipe.save(
        recipe.Recipe(name="star", billet=pattern("star").forge()), path
    ),
    "show.html": lambda path: files.write(path, "<!doctype html>"),
}
each_writer = pytest.mark.parametrize("name", WRITERS)


@each_writer
def test_neighbours_stay(tmp_path, name):
    """All names that a careless writer would take for its half-written file."""
    path = tmp_path / name
    stem, ending = path.stem, path.suffix
    names = {f"{stem}.part{ending}", f"{stem}.part", f"{name}.part", f"{name}.tmp"}
    names |= {f"{stem}.tmp", f"{stem}{ending}~", f".{name}.part", f".{name}.swp"}
    for neighbour in names:
        (tmp_path / neighbour).write_text("mine", "utf-8")
    WRITERS[name](path)
    assert {one.name for one in tmp_path.iterdir()} == {name, *names}
    assert all((tmp_path / one).read_text("utf-8") == "mine" for one in names)
    assert path.stat().st_size > 0


@each_writer
def test_no_link_is_followed(tmp_path, name):
    """Links planted beside the file, and in its own place, lead to a file that stays."""
    tripwire = tmp_path / "tripwire"
    tripwire.write_text("untouched", "utf-8")
    folder = tmp_path / "folder"
    folder.mkdir()
    path = folder / name
    planted = f"{path.stem}.part{path.suffix}", f"{path.stem}.part", name
    for place in planted:
        (folder / place).symlink_to(tripwire)
    WRITERS[name](path)
    assert tripwire.read_text("utf-8") == "untouched"
    assert not path.is_symlink()


@each_writer
def test_what_is_written_can_be_read_by_those_who_could_before(tmp_path, name):
    mask = os.umask(0o022)
    try:
        WRITERS[name](tmp_path / name)
    finally:
        os.umask(mask)
    assert (tmp_path / name).stat().st_mode & 0o777 == 0o644


def test_two_runs_do_not_meet(tmp_path):
    """Both write at once, slowly: each file is whole, and the last one stays."""
    path, both = tmp_path / "a.txt", threading.Barrier(2, timeout=10)

    def write(words):
        with whole(path) as part, part.open("w") as file:
            for _ in range(50):
                file.write(words)
                file.flush()
                both.wait(10)

    runs = [threading.Thread(target=write, args=(words,)) for words in ("one ", "two ")]
    for run in runs:
        run.start()
    for run in runs:
        run.join(timeout=20)
    assert path.read_text() in ("one " * 50, "two " * 50)
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("place", ["no/a.txt", "x" * 300, "file/a.txt"])
def test_a_place_that_can_not_be_written_is_one_sentence(tmp_path, place):
    (tmp_path / "file").write_text("no folder")
    with pytest.raises(KitError, match="cannot be written"), whole(tmp_path / place):
        (tmp_path / "file").read_text()

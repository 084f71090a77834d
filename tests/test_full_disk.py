"""A full disk, and a folder that may only be read: one sentence each, nothing lost."""

import os
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from kit.__main__ import main
from kit.basics.errors import KitError
from kit.basics.notebook_file import write as write_notebook
from kit.classroom.homework import drafts, hand_in
from kit.classroom.homework.paper import draw
from kit.classroom.homework.sets import SETS
from kit.classroom.homework.sitting import Sitting
from kit.shop.patterns import pattern
from kit.shop.recipes.recipe import Recipe, load, save

SMALL = "256k"


def _mounted(place: Path, options: str) -> None:
    if not sys.platform.startswith("linux") or os.geteuid() != 0:
        pytest.skip("only root on Linux can mount a small disk")
    command = ["mount", "-t", "tmpfs", "-o", options, "tmpfs", str(place)]
    if subprocess.run(command, capture_output=True, check=False, timeout=30).returncode:
        pytest.skip("no small disk can be mounted here")


@pytest.fixture
def disk(tmp_path):
    """Give a disk of 256 kilobytes."""
    place = tmp_path / "disk"
    place.mkdir()
    _mounted(place, f"size={SMALL}")
    yield place
    subprocess.run(["umount", "-l", str(place)], check=True, timeout=30)


def fill(place: Path) -> None:
    """Leave no room at all."""
    with (place / "filler").open("wb", buffering=0) as file:
        try:
            while True:
                file.write(b"x" * 4096)
        except OSError:
            return


def read_only(place: Path) -> None:
    """Let the disk only be read from now on."""
    subprocess.run(["mount", "-o", "remount,ro", str(place)], check=True, timeout=30)


def sitting(answer: str) -> Sitting:
    made = Sitting(draw(SETS["H1"], "FORGE-A", "Student One"))
    for _ in range(3):
        made.answer(1, answer)
    return made


@pytest.mark.parametrize("hinder", [fill, read_only])
def test_a_draft_stays_as_it_was(disk, hinder):
    draft = drafts.Draft(disk, sitting("17").paper)
    draft.save(sitting("17").hand_in())
    before = draft.path
    kept = before.read_bytes()
    hinder(disk)
    with pytest.raises(KitError) as refused:
        draft.save(sitting("704").hand_in(words="word " * 700))
    assert str(refused.value).count("\n") == 0
    assert "cannot be written" in str(refused.value)
    assert before.read_bytes() == kept
    assert hand_in.read(before).answers[0].text == "17"
    assert not list(disk.glob("*.part*"))


@pytest.mark.parametrize("hinder", [fill, read_only])
def test_a_recipe_stays_as_it_was(disk, hinder):
    path = disk / "twist.json"
    first = Recipe(name="first", billet=pattern("low twist").forge())
    save(first, path)
    hinder(disk)
    with pytest.raises(KitError, match="cannot be written"):
        save(Recipe(name="second", billet=pattern("random").forge()), path)
    assert load(path) == first


@pytest.mark.parametrize("hinder", [fill, read_only])
@pytest.mark.parametrize(
    "command",
    [
        ["render", "star", "--out", "{}/star.png"],
        ["paper", "votes", "--out", "{}/votes.pdf"],
        ["film", "star", "--of", "grinding", "--size", "128x72", "--out", "{}/star.gif"],
    ],
    ids=lambda command: command[0],
)
def test_commands_say_one_sentence(disk, hinder, command, capsys):
    hinder(disk)
    assert main([part.format(disk) for part in command]) == 1
    said = [line for line in capsys.readouterr().err.splitlines() if "█" not in line]
    assert len([line for line in said if line.strip()]) == 1
    assert not [path for path in disk.iterdir() if path.name != "filler"]


def test_a_lesson_that_can_not_be_saved_stays_as_it_was(disk):
    path = disk / "lesson.ipynb"
    notebook = {"cells": [], "metadata": {}, "nbformat": 4, "nbformat_minor": 5}
    write_notebook(notebook, path)
    kept = path.read_bytes()
    fill(disk)
    notebook["cells"] = [
        {"cell_type": "markdown", "id": f"{n}", "metadata": {}, "source": ["word " * 900]}
        for n in range(90)
    ]
    with pytest.raises(KitError, match="cannot be written"):
        write_notebook(notebook, path)
    assert path.read_bytes() == kept


@pytest.mark.parametrize("full", [True, False], ids=["full", "small"])
def test_a_launch_without_room_is_told_in_one_sentence(disk, full, monkeypatch, capsys):
    """A full folder for temporary files, and one too small for the lessons."""
    if full:
        fill(disk)
    monkeypatch.setattr(tempfile, "tempdir", str(disk))
    assert main([]) == 1
    said = capsys.readouterr().err
    assert said.count("\n") == 1
    assert f"{disk}, which could not be made: no space left on device. Make room" in said
    assert [path.name for path in disk.iterdir()] == ["filler"] * full

"""Opening the lessons: what the terminal says, and which notebooks are opened."""

import errno
import json
import os
import re
import shutil
import socket
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from nbformat.v4 import new_code_cell, new_notebook

import kit.launch.house as house_module
import kit.launch.house as needs_module
from kit.__main__ import main
from kit.basics.errors import KitError
from kit.basics.notebook_file import write
from kit.course.pages import (
    LIST,
    Lessons,
    find_lesson,
    fingerprint,
    fresh_copy,
    lessons_folder,
    notebook_names,
    own_pages,
    whose,
)
from kit.launch.house import choose_port, room_needed, temporary_house
from kit.launch.list_own import listing

ROOT = Path(__file__).resolve().parents[1]
LAUNCH = ROOT / "kit" / "launch"


def refused(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    """Type something wrong and return the one sentence that answers."""
    assert main(arguments) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.count("\n") == 1
    return said.err


@pytest.fixture
def lessons(tmp_path: Path) -> Path:
    names = ["00_start_here", "02_stack_and_fold", "homework/01_counting"]
    for name in names:
        file = tmp_path / f"{name}.ipynb"
        file.parent.mkdir(exist_ok=True)
        write(new_notebook(), file)
    (tmp_path / ".ipynb_checkpoints").mkdir()
    write(new_notebook(), tmp_path / ".ipynb_checkpoints" / "old.ipynb")
    return tmp_path


@pytest.fixture
def taken_port() -> Iterator[int]:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        yield other.getsockname()[1]


# What the terminal says.


@pytest.mark.parametrize("port", ["80", "0", "-1", "65536", "8e3", "steel", "", "²"])
def test_impossible_port(port: str, capsys: pytest.CaptureFixture[str]):
    said = refused([f"--port={port}"], capsys)
    assert said == f"A port is a whole number from 1024 to 65535. Given: {port}.\n"


def test_taken_port_that_was_asked_for(taken_port: int, capsys: pytest.CaptureFixture[str]):
    said = refused(["--port", str(taken_port)], capsys)
    assert str(taken_port) in said
    assert "python -m kit" in said


def test_usual_port_taken(taken_port: int, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(house_module, "DEFAULT_PORT", taken_port)
    port, note = choose_port()
    assert port > taken_port
    assert note == f"Port {taken_port} is taken, so {port} is used."


def test_unknown_lesson(lessons: Path, capsys: pytest.CaptureFixture[str]):
    said = refused(["--folder", str(lessons), "--lesson", "99"], capsys)
    assert said == (
        "There is no lesson 99. The lessons are: "
        "00_start_here, 02_stack_and_fold, 01_counting.\n"
    )


@pytest.mark.parametrize(
    ("arguments", "named"),
    [
        (["--folder", "nowhere"], "nowhere"),
        (["--lesson"], "--lesson"),
        (["--prot", "9000"], "--prot"),
        (["--no"], "--help"),
    ],
)
def test_other_mistakes(
    arguments: list[str], named: str, capsys: pytest.CaptureFixture[str]
):
    assert named in refused(arguments, capsys)


def test_empty_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    said = refused(["--folder", str(tmp_path)], capsys)
    assert said.startswith("There are no notebooks in")


@pytest.mark.parametrize("module", needs_module.PACKAGES)
def test_missing_package(
    module: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
):
    find = needs_module.find_spec
    absent = {module}
    monkeypatch.setattr(
        needs_module, "find_spec", lambda m: None if m in absent else find(m)
    )
    said = refused([], capsys)
    name = needs_module.PACKAGES[module]
    assert f"need {name}, which" in said
    assert said.endswith(f"-m pip install {name}\n")


def test_every_dependency_is_looked_for():
    tomllib = pytest.importorskip("tomllib", reason="Python 3.11 brought it")
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    names = {re.match(r"[\w-]+", line).group() for line in project["dependencies"]}
    assert set(needs_module.PACKAGES.values()) == names


def test_help_names_every_option(capsys: pytest.CaptureFixture[str]):
    with pytest.raises(SystemExit, match="0"):
        main(["--help"])
    said = capsys.readouterr().out
    for option in ("--port", "--no-browser", "--lesson", "--folder"):
        assert option in said


# Which notebooks.


@pytest.mark.parametrize(
    ("wanted", "found"),
    [
        (None, "00_start_here.ipynb"),
        ("02", "02_stack_and_fold.ipynb"),
        ("2", "02_stack_and_fold.ipynb"),
        ("0", "00_start_here.ipynb"),
        ("02_stack", "02_stack_and_fold.ipynb"),
        ("02_stack_and_fold", "02_stack_and_fold.ipynb"),
        ("02_stack_and_fold.ipynb", "02_stack_and_fold.ipynb"),
        ("1", "homework/01_counting.ipynb"),
        ("homework/01_counting.ipynb", "homework/01_counting.ipynb"),
    ],
)
def test_lesson_is_found(lessons: Path, wanted: str | None, found: str):
    assert find_lesson(lessons, wanted) == found


@pytest.mark.parametrize("wanted", ["3", "stack", "_", "", "../02"])
def test_lesson_is_not_guessed(lessons: Path, wanted: str):
    with pytest.raises(KitError, match="There is no lesson"):
        find_lesson(lessons, wanted)


def test_every_lesson_is_listed_as_it_is():
    assert listing(ROOT / "notebooks") == LIST.read_text("utf-8"), (
        "a lesson was changed: python -m kit.launch.list_own"
    )


def test_own_pages_are_known_by_name_and_content():
    page = new_notebook(cells=[new_code_cell("7", id="a")])
    own = {"01_cut.ipynb": fingerprint(page)}
    used = new_notebook(
        cells=[new_code_cell("7", id="a", execution_count=3)], metadata={"widgets": {}}
    )
    other = new_notebook(cells=[new_code_cell("8", id="a")])
    assert whose("01_cut.ipynb", page, own) == "own"
    assert whose("01_cut.ipynb", used, own) == "own", "using it does not change it"
    assert whose("01_cut.ipynb", other, own) == "changed"
    assert whose("homework/01_cut.ipynb", page, own) == "strange"
    for odd in ({}, {"cells": None}, {"cells": [7]}, {"cells": {"a": 7}}):
        assert whose("01_cut.ipynb", odd, own) == "changed"


def test_another_folder_holds_nothing_of_ours(lessons: Path):
    assert lessons_folder(lessons) == Lessons(lessons.resolve(), {})


def test_a_fresh_copy_has_all_lessons_and_leaves_the_old_alone(
    lessons: Path, tmp_path_factory: pytest.TempPathFactory
):
    copy = tmp_path_factory.mktemp("house") / "lessons"
    copied = fresh_copy(Lessons(lessons, own_pages()), copy)
    assert copied == Lessons(copy, own_pages())
    assert notebook_names(copy) == notebook_names(lessons)
    before = (lessons / "00_start_here.ipynb").read_bytes()
    (copy / "00_start_here.ipynb").write_text("spoilt")
    assert (lessons / "00_start_here.ipynb").read_bytes() == before


def test_a_fresh_copy_follows_no_links(
    lessons: Path, tmp_path_factory: pytest.TempPathFactory
):
    elsewhere = tmp_path_factory.mktemp("elsewhere")
    (elsewhere / "secret.ipynb").write_text("of a neighbour")
    (lessons / "for_ever").symlink_to(lessons)
    (lessons / "away").symlink_to(elsewhere)
    (lessons / "03_linked.ipynb").symlink_to(elsewhere / "secret.ipynb")
    if hasattr(os, "mkfifo"):
        os.mkfifo(lessons / "04_pipe.ipynb")  # who reads it waits for ever
    copied = fresh_copy(Lessons(lessons, {}), tmp_path_factory.mktemp("house") / "lessons")
    names = {path.name for path in copied.folder.iterdir()}
    assert names == {"00_start_here.ipynb", "02_stack_and_fold.ipynb", "homework"}


# The temporary house.


def test_house_is_gone_afterwards(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("JUPYTER_TOKEN", "of the user")
    before = dict(house_module.os.environ)
    with temporary_house() as house:
        during = {
            name: value
            for name, value in house_module.os.environ.items()
            if name.startswith(("JUPYTER", "IPYTHON"))
        }
        assert "JUPYTER_TOKEN" not in during
        folders = [value for value in during.values() if value != "1"]
        assert all(Path(value).is_relative_to(house) for value in folders)
        assert (house / "config" / "labconfig" / "page_config.json").is_file()
    assert not house.exists()
    assert dict(house_module.os.environ) == before


def test_a_house_that_was_left_is_taken_away_and_a_neighbours_folder_is_not(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    command = [sys.executable, "-c", "import os; print(os.getpid())"]
    gone = subprocess.run(command, capture_output=True, text=True, check=True, timeout=60)
    left, lived_in, neighbour = (tmp_path / f"steel-{n}" for n in ("a", "b", "photos"))
    for folder, number in ((left, gone.stdout), (lived_in, os.getpid()), (neighbour, None)):
        (folder / "runtime").mkdir(parents=True)
        (folder / "runtime" / "kernel.json").write_text("keys")
        if number is not None:
            (folder / "launched_by.pid").write_text(str(number))
    with temporary_house() as house:
        assert set(tmp_path.iterdir()) == {house, lived_in, neighbour}
    assert set(tmp_path.iterdir()) == {lived_in, neighbour}


def test_the_kernel_imports_nothing_from_where_it_works(tmp_path: Path):
    with temporary_house() as house:
        kernel = json.loads((house / "data/kernels/python3/kernel.json").read_text("utf-8"))
        environment = dict(os.environ)
    for name in ("ipykernel", "ipykernel_launcher", "IPython", "traitlets", "numpy"):
        (tmp_path / f"{name}.py").write_text("raise SystemExit('a stranger')")
    command = [*kernel["argv"][:3], "--help"]
    run = subprocess.run(
        command,
        cwd=tmp_path,
        env=environment,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert run.returncode == 0, run.stderr
    assert "IPython" in run.stdout
    assert any("ignore_cwd=True" in word for word in kernel["argv"])


def test_no_room_is_told_in_one_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
):
    full = OSError(errno.ENOSPC, "No space left on device", "here.ipynb")
    for failure in (full, shutil.Error([("a", "b", str(full)), ("c", "d", str(full))])):
        with pytest.raises(KitError) as told, room_needed():
            raise failure
        assert "no space left on device. Make room" in str(told.value)
        assert ".ipynb" not in str(told.value)

    def no_room(*_all: object, **_others: object) -> None:
        raise shutil.Error([("a", "b", str(full))])

    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    monkeypatch.setattr(shutil, "copytree", no_room)
    said = refused([], capsys)
    assert str(tmp_path) in said
    assert list(tmp_path.iterdir()) == []


def test_settings_are_what_jupyter_can_read():
    for file in (LAUNCH / "settings").rglob("*.json"):
        assert json.loads(file.read_text("utf-8"))
    server = json.loads((LAUNCH / "settings/jupyter_server_config.json").read_text())
    assert server["ServerApp"]["ip"] == "127.0.0.1"
    assert server["LabApp"]["news_url"] is None

"""Opening the lessons: what the terminal says, and which notebooks are opened."""

import json
import re
import socket
from collections.abc import Iterator
from pathlib import Path

import pytest
from nbformat.v4 import new_notebook

import kit.launch.house as house_module
import kit.launch.needs as needs_module
from kit.__main__ import main
from kit.errors import KitError
from kit.launch.folder import (
    Lessons,
    find_lesson,
    fresh_copy,
    lessons_folder,
    notebook_names,
    own_names,
)
from kit.launch.house import choose_port, temporary_house
from kit.notebook_file import write

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


def test_every_lesson_is_listed_as_our_own():
    there = set(notebook_names(ROOT / "notebooks"))
    assert there <= own_names(), "add it to kit/launch/own_notebooks.txt"


def test_another_folder_holds_nothing_of_ours(lessons: Path):
    assert lessons_folder(lessons) == Lessons(lessons.resolve(), frozenset())


def test_a_fresh_copy_has_all_lessons_and_leaves_the_old_alone(
    lessons: Path, tmp_path_factory: pytest.TempPathFactory
):
    copy = tmp_path_factory.mktemp("house") / "lessons"
    copied = fresh_copy(Lessons(lessons, own_names()), copy)
    assert copied == Lessons(copy, own_names())
    assert notebook_names(copy) == notebook_names(lessons)
    before = (lessons / "00_start_here.ipynb").read_bytes()
    (copy / "00_start_here.ipynb").write_text("spoilt")
    assert (lessons / "00_start_here.ipynb").read_bytes() == before


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


def test_settings_are_what_jupyter_can_read():
    for file in (LAUNCH / "settings").rglob("*.json"):
        assert json.loads(file.read_text("utf-8"))
    server = json.loads((LAUNCH / "settings/jupyter_server_config.json").read_text())
    assert server["ServerApp"]["ip"] == "127.0.0.1"
    assert server["LabApp"]["news_url"] is None

"""Long work tells how far it is, and can be stopped."""

import contextlib
import io
import os
import subprocess
import sys
from dataclasses import dataclass

import pytest
from PIL import Image

from kit.__main__ import main
from kit.basics.terminal import Progress
from kit.classroom.homework.class_table import LEGEND
from kit.classroom.homework.hand_in import HandIn, Try, write
from kit.classroom.homework.quiz import Sheet
from kit.classroom.homework.quiz import write as write_sheet
from kit.forge.billet import Billet
from kit.forge.stack import Stack
from kit.launch.command import COMMANDS
from kit.section import trace
from kit.section.surface import cut

RACK = Billet(source=Stack.alternate("1084", "15N20", pieces=7, thickness=3.0))
PLANE = cut(RACK.size, angle=60, columns=300, rows=900, pixel=0.05)
TONES = {"1084": 0.1, "15N20": 0.7}


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        """Pretend."""
        return True


def test_a_picture_tells_how_much_of_it_is_done():
    shares = []
    list(trace.see_in_bands(RACK, PLANE, TONES, progress=shares.append))
    assert len(shares) > 3
    assert shares == sorted(shares)
    assert shares[-1] == 1


def test_what_the_listener_raises_stops_the_work():
    heard = []

    def stop(share):
        heard.append(share)
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        list(trace.see_in_bands(RACK, PLANE, TONES, progress=stop))
    assert len(heard) == 1


def test_the_bar_fills_up_in_one_line():
    screen = Terminal()
    bar = Progress("Print", stream=screen)
    for share in (0.0, 0.25, 0.25, 1.0):
        bar(share)
    lines = screen.getvalue().split("\r")
    assert len(lines) == 4  # an empty start and three states; the same one is not repeated
    assert "25 %" in lines[2]
    assert screen.getvalue().count("\n") == 1
    assert screen.getvalue().endswith("100 %\n")


ENCODINGS = ("cp1252", "cp437", "ascii", "cp932", "koi8-r", "utf-8")
STUDENTS = ("Žofie Dvořák", "李小龍", "Student \udcff")  # the last as from a file's name
each_encoding = pytest.mark.parametrize("encoding", ENCODINGS)


@dataclass(frozen=True)
class Written:
    """What a command gave back, and wrote to an output that fails on unknown signs."""

    code: object
    out: str
    err: str


def ran(encoding, *typed):
    """Run a command; `SystemExit` of a help is its code."""
    out, err = (io.TextIOWrapper(io.BytesIO(), encoding=encoding) for _ in range(2))
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            code = main(list(typed))
        except SystemExit as stopped:
            code = stopped.code
        out.flush()
        err.flush()
    words = [stream.buffer.getvalue().decode(encoding) for stream in (out, err)]
    return Written(code, *words)


@pytest.fixture
def folder(tmp_path):
    """Give a folder of hand-ins and quiz sheets of students with names of many scripts."""
    right = (Try(order=1, part=4, text="5"), Try(order=2, part=1, text="17"))
    for number, name in enumerate(STUDENTS[:2]):
        done = HandIn(course="Č", set="H1", student=name, answers=right, words="“½” → π")
        write(done, tmp_path / f"{number}.json")
        sheet = Sheet(course="Č", student=name, when="after", answers=("1",) * 6)
        write_sheet(sheet, tmp_path / f"{number} quiz.json")
    (tmp_path / "roster.csv").write_text("\n".join(STUDENTS[:2]), "utf-8")
    Image.effect_noise((300, 200), 80).save(tmp_path / "photo.png")
    return tmp_path


RUNS = {
    "render": ["render", "star", "--out", "{}/é.png", "--size", "64x64"],
    "plan": ["plan", "--units", "in", "--start", "90mm"],
    "paper": ["paper", "votes", "--out", "{}/頁.pdf"],
    "measure": ["measure", "{}/photo.png", "--scale", "0,0,100,0,25", "--angle", "30"],
    "mark": ["mark", "{}", "--words", "--roster", "{}/roster.csv"],
    "mark --quiz": ["mark", "{}", "--quiz"],
    "mark --key": [
        "mark", "--key", "H1", "--course", "Č", "--roster", "{}/roster.csv",
        "--out", "{}/ключ.csv",
    ],
    "film": ["film", "star", "--of", "grinding", "--size", "64x64", "--out", "{}/é.gif"],
    "bought": ["bought", "--layers", "30", "--out", "{}/賣.txt"],
    "claims": ["claims", "--lesson", "03"],
    "show": ["show", "--out", "{}/vitrína.html", "--check"],
    "pages, refused": ["pages", "--out", "{}/é", "--address", "č.example"],  # others: long
    "a refusal": ["render", "“no such” ✓ 李", "--out", "{}/a.png"],
    "a wrong option": ["plan", "--ünits", "mm"],
    "no such lesson": ["--lesson", "第一"],
}  # fmt: skip


@each_encoding
@pytest.mark.parametrize("name", RUNS)
def test_no_command_fails_on_a_sign(name, encoding, folder):
    done = ran(encoding, *(part.format(folder) for part in RUNS[name]))
    refused = name in ("pages, refused", "a refusal", "a wrong option", "no such lesson")
    assert done.code == refused, done.err
    assert (done.err if refused else done.out).strip()


@each_encoding
@pytest.mark.parametrize("name", [*COMMANDS, ""])
def test_no_help_fails_on_a_sign(name, encoding):
    done = ran(encoding, *filter(None, [name]), "--help")
    assert done.code == 0
    assert "--" in done.out


def test_every_command_is_run_here():
    assert set(COMMANDS) <= {name.split()[0].strip(",") for name in RUNS}


def test_marks_in_the_table_stay_apart(folder):
    """Right, carried, unknown and nothing are still unlike signs, and so are two names."""
    out = ran("ascii", "mark", str(folder)).out
    legend = out[out.index("+ right") :].split("\n")[0]
    told = [part.split()[0].strip(":") for part in legend.split(";")]
    assert told == ["+", "+", "carried", "2c", "unit", "?", "-", "Design", "Written"]
    assert [one.split(":")[0].split()[0] for one in LEGEND.split("; ")][5] == "?"
    assert "Zofie Dvorak" in out
    assert "\\u674e\\u5c0f\\u9f8d" in out
    assert out.isascii()


def test_a_real_process_with_a_plain_output(folder):
    """As `> marks.txt` does it, where Python takes the system's old encoding."""
    run = subprocess.run(
        [sys.executable, "-m", "kit", "mark", str(folder)],
        env={**os.environ, "PYTHONIOENCODING": "cp1252"},
        capture_output=True,
        check=False,
        timeout=60,
    )
    assert run.returncode == 0
    assert run.stderr == b""
    assert "+ right" in run.stdout.decode("cp1252")

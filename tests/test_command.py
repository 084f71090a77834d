"""The command line: what it makes is read back, what it refuses is one sentence."""

import html
import json
import re
import subprocess
import sys

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader

from kit.__main__ import main
from kit.basics.units import UNITS, Units
from kit.classroom.paper.kinds import given as about
from kit.course.lessons.bought import BoughtLesson
from kit.course.views.forge import Forge
from kit.course.views.forge_files import ForgeFiles
from kit.course.views.lesson import view_of
from kit.course.views.measuring import MeasuringView
from kit.course.views.settings import settings_of
from kit.launch.command import COMMANDS
from kit.shop import plan_line, weighed_losses
from kit.shop.bought import SOLD
from kit.shop.patterns import pattern
from kit.shop.plan import example
from kit.shop.recipes.found import recipe_of
from kit.shop.recipes.recipe import Recipe, save
from kit.shop.recipes.shorthand import from_line, to_line
from kit.shop.work import Losses


def done(capsys, *typed):
    """Run a command that must go well; give what it said."""
    assert main(list(typed)) == 0, capsys.readouterr().err
    return capsys.readouterr().out


@pytest.mark.parametrize("name", COMMANDS)
def test_help_is_there_and_says_what_it_does(name, capsys):
    with pytest.raises(SystemExit) as stopped:
        main([name, "--help"])
    assert stopped.value.code == 0
    told = " ".join(capsys.readouterr().out.split())
    assert COMMANDS[name] in told
    assert "--" in told


@pytest.mark.parametrize("view", ["solid", "face", "end", "side", "cut"])
def test_render_draws_both_steels(view, tmp_path, capsys):
    path = tmp_path / "a.png"
    told = done(
        capsys,
        "render",
        "raindrop",
        "--view",
        view,
        "--out",
        str(path),
        "--size",
        "300x200",
        *(("--angle", "20") if view == "cut" else ()),
    )
    assert "66 layers" in told  # 11 bars, three folds, a quarter ground off
    with Image.open(path) as image:
        assert image.size == (300, 200)
        grey = np.asarray(image.convert("L"))
    assert np.ptp(grey[60:140, 100:200]) > 100


def test_render_takes_a_file_and_a_line(tmp_path, capsys):
    billet = pattern("ladder").forge()
    file = save(Recipe(name="mine", billet=billet), tmp_path / "mine.json")
    pictures = []
    for given in (str(file), to_line(billet), "Ladder"):
        path = tmp_path / "a.png"
        done(
            capsys,
            "render",
            given,
            "--out",
            str(path),
            "--view",
            "face",
            "--size",
            "200x120",
            "--print",
        )
        pictures.append(np.asarray(Image.open(path).convert("L")))
    assert np.array_equal(pictures[0], pictures[2])
    assert np.abs(pictures[0].astype(int) - pictures[1]).mean() < 1  # twelve figures


def test_plan_says_what_to_saw(capsys, tmp_path):
    told = done(capsys, "plan")
    assert "Cut every piece 102 mm long." in told
    assert "823 g in, 380 g out: 46 %." in told
    assert "placeholders" in told
    assert "2100 °F" in told
    file = tmp_path / "shop.json"
    file.write_text(weighed_losses.to_json(Losses(weld_scale=0.16)), "utf-8")
    told = done(capsys, "plan", "--losses", str(file), "--start", "102")
    assert "29.3 mm short" in told
    assert "placeholders" not in told
    inches = done(
        capsys,
        "plan",
        "--wanted",
        "10inx1.5inx3/16in",
        "--units",
        "in",
        "--outer",
        "1084:1/8in",
        "--inner",
        "15n20:1/16in",
        "--pieces",
        "6+5",
    )
    assert "1084, 1/8 in × 1 1/2 in. 6 ×" in inches


PLAN_LINE = plan_line.to_line(example())


@pytest.mark.parametrize("line", [PLAN_LINE, to_line(pattern("ladder").forge())])
def test_a_card_s_line_loads_wherever_a_line_can_be_typed(line, tmp_path, capsys):
    wanted = plan_line.from_line(line) if line == PLAN_LINE else from_line(line)
    billet = getattr(wanted, "billet", wanted)
    assert recipe_of(line).billet == billet  # render, film, show, the tablet's page
    assert about(line) == wanted or about(line).billet == billet  # paper, print room
    page = ForgeFiles(Forge())
    page.typed.value = line
    page.read_line()
    assert "kit-refused" not in page.says.value
    assert page.forge.bar == billet
    out = str(tmp_path / "a.png")
    done(capsys, "render", line, "--size", "64x64", "--out", out)


def test_measure_finds_what_was_drawn(capsys, tmp_path):
    stripes = np.zeros((200, 400), np.uint8)
    stripes[:, (np.arange(400) // 10) % 2 == 0] = 200
    path = tmp_path / "a.png"
    Image.fromarray(stripes).save(path)
    told = done(capsys, "measure", str(path), "--scale", "0,0,100,0,10", "--angle", "30")
    assert re.search(r"A band is (1\.0|0\.99\d) mm wide", told)
    assert "a layer is 0.5 mm thick" in told
    assert "Lines lean" in told
    assert "every 2.00 mm" in told
    plain = done(capsys, "measure", str(path))
    assert "A band is 10.0 pixels wide" in plain


def test_measure_takes_places_of_the_picture_that_was_given(capsys, tmp_path):
    # twice as large as is kept: bands of 40 pixels on steel that ends at 4000, a bench
    light = np.arange(6000) // 40 % 2 * 180 + 30
    light[4000:] = 90
    path = tmp_path / "a.png"
    Image.fromarray(np.tile(light, (400, 1)).astype(np.uint8)).save(path)
    line = ("measure", str(path), "--line", "100,200,5900,200")
    boxed = (*line, "--box", "3950,390,50,10")
    assert "A band is 40.0 pixels wide" in done(capsys, *boxed)
    told = done(capsys, *boxed, "--scale", "100,200,3900,200,380")
    assert "A band is 4.0 mm wide" in told
    assert "in 95 cases of 100, most of it since" in " ".join(told.split())
    # 40 pixels are 4 mm: a card is 856 by 540, its height a little off
    card = ("--card", "100,20,956,20,956,559.8,100,559.8")
    assert re.search(r"A band is 4\.0\d? mm wide", done(capsys, *boxed, *card))
    assert "97 bands" in told
    assert "2 mm" not in done(capsys, *line, "--scale", "100,200,3900,200,380")


@pytest.mark.parametrize("kind", ["handout", "votes", "eye-chart", "clay"])
def test_paper_prints_on_the_paper_asked_for(kind, capsys, tmp_path):
    path = tmp_path / "a.pdf"
    told = done(capsys, "paper", kind, "--out", str(path), "--paper", "Letter")
    assert "100 %" in told
    assert float(PdfReader(path).pages[0].mediabox[3]) == pytest.approx(792)


def test_film_is_a_loop(capsys, tmp_path):
    told = done(
        capsys,
        "film",
        "low twist",
        "--out",
        str(tmp_path / "a.gif"),
        "--size",
        "96x64",
        "--of",
        "grinding",
    )
    assert "a loop" in told
    assert (tmp_path / "a.gif").exists()


BAD = [
    (["render", "soup", "--out", "a.png"], "no pattern called 'soup'"),
    (["render", "ladder"], "arguments are required: --out"),
    (["render", "ladder", "--out", "a.jpg"], "must end with .png"),
    (["render", "ladder", "--out", "none/a.png"], "no folder"),
    (["render", "ladder", "--out", "a.png", "--size", "9x9"], "from 64 to"),
    (["render", "ladder", "--out", "a.png", "--size", "20000x20000"], "million pixels"),
    (
        ["render", "ladder", "--out", "a.png", "--view", "cut", "--angle", "0"],
        "from 2 to 90",
    ),
    (["render", "none.json", "--out", "a.png"], "cannot be read"),
    (["render", "150x40: 1084 ~ XXXX", "--out", "a.png"], "four at its end"),
    (["plan", "--wanted", "long"], "3 lengths"),
    (["plan", "--wanted", "1x38x5"], "Length must be"),
    (["plan", "--outer", "1084"], "1084:3.175"),
    (["plan", "--outer", "soup:3"], "soup"),
    (["plan", "--pieces", "7"], "two numbers"),
    (["plan", "--cycles", "99"], "from 0 to 6"),
    (["plan", "--losses", "none.json"], "cannot be read"),
    (["measure", "none.png"], "no file"),
    (["paper", "money", "--out", "a.pdf"], "I can print"),
    (["film", "ladder", "--out", "a.avi"], "must end with"),
    (["film", "ladder", "--out", "a.gif", "--size", "65x65"], "even number"),
    (["rendr"], "nrecognized"),
]


@pytest.mark.parametrize(("typed", "sentence"), BAD, ids=lambda part: " ".join(part)[:40])
def test_a_wrong_wish_gets_one_sentence_and_exit_code_1(
    typed, sentence, tmp_path, monkeypatch, capsys
):
    monkeypatch.chdir(tmp_path)
    assert main(typed) == 1
    told = capsys.readouterr().err.strip()
    assert sentence in told
    assert "Traceback" not in told
    assert len(told.splitlines()) == 1
    assert list(tmp_path.iterdir()) == []


LEAST = {  # so little is typed to get something; what takes long is never begun
    "render": ["ladder"], "plan": [], "paper": ["votes"], "measure": ["none.png"],
    "mark": ["."], "film": ["ladder"], "claims": [], "show": [],
    "bought": [], "pages": [],
}  # fmt: skip


@pytest.mark.parametrize("name", COMMANDS)
def test_out_is_where_to_write_in_every_command(name, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    for out, says in (("a.exe", "must end with"), ("none/a.txt", "")):
        assert main([name, *LEAST[name], "--out", out]) == 1
        told = capsys.readouterr().err
        assert says in told
        assert len(told.splitlines()) == 1
        assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(("name", "units"), [*zip(SOLD[::4], (*UNITS, "mm"), strict=True)])
def test_a_bought_bar_is_told_as_on_its_page(name, units, capsys, bought_page):
    page = bought_page
    page.looks.unit_choice.value = list(UNITS).index(units)
    page.set(bought=SOLD.index(name), thickness=7, edge=0.9)
    typed = ["--bought", name.upper(), "--thickness", "7 mm", "--edge", "0.9mm"]
    told = done(capsys, "bought", *typed, "--units", units).splitlines()
    assert told[0] == page.shown.says
    assert told[2:] == [f"{n.name}: {n.value}" for n in page.shown.numbers]


def test_a_bought_bar_is_told_whatever_is_typed(capsys):
    for one in settings_of(BoughtLesson):
        typed = one.show(one.start, Units.MM).replace(" °C", "").partition(" (")[0]
        assert done(capsys, "bought", f"--{one.key}", typed)


@pytest.fixture(name="bought_page", scope="module")
def fixture_bought_page():
    return view_of("bought")


@pytest.mark.parametrize("units", UNITS)
def test_a_width_is_measured_as_on_its_page(units, capsys, tmp_path):
    light = np.where(np.arange(980) // 14 % 2, 30, 210) + np.zeros((392, 1))
    path, page = tmp_path / "a.png", MeasuringView()
    Image.fromarray(light.astype(np.uint8)).save(path)
    page.upload.take("a.png", path.read_bytes())
    page.looks.unit_choice.value = list(UNITS).index(units)
    for kind, ends in ((1, (10, 500)), (0, (40, 600))):  # the scale, then the line
        page.doing.value = kind
        for column in ends:
            page.mark((10 + column) / 1000, (10 + 200) / 412)
        page.length.value = "49 mm"
        page.do()
    shown = html.unescape(re.sub(r"<[^>]+>", "", page.says.value))
    line, scale = "40,200,600,200", "10,200,500,200,49"
    told = done(
        capsys, "measure", str(path), "--line", line, "--scale", scale, "--units", units
    )
    width = [
        one for one in told.splitlines() if not one.startswith(("Lines lean", "A figure"))
    ]
    assert len(width) > 2
    assert shown.startswith(" ".join(width))


@pytest.mark.parametrize("typed", [["plan"], ["claims", "--lesson", "10"]])
def test_an_answer_in_words_goes_into_the_file_named(typed, tmp_path, capsys):
    path = tmp_path / "answer.txt"
    told = done(capsys, *typed)
    assert done(capsys, *typed, "--out", str(path)).startswith(f"{path}: ")
    assert path.read_text("utf-8") == told


def test_it_runs_as_a_program_of_its_own(tmp_path):
    run = subprocess.run(
        [sys.executable, "-m", "kit", "plan", "--cycles", "2"],
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
        cwd=tmp_path,
        encoding="utf-8",
    )
    assert "44 layers, 41 bands" in run.stdout
    bad = subprocess.run(
        [sys.executable, "-m", "kit", "plan", "--cycles", "x"],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
        cwd=tmp_path,
        encoding="utf-8",
    )
    assert bad.returncode == 1
    assert json.dumps(bad.stderr).count("\\n") == 1

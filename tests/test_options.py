"""An option of a command that is taken changes what comes out, or is refused: a law."""

import argparse
from importlib import import_module

import numpy as np
import pytest
from drawn_class import drawn_class, quiz_sheets
from PIL import Image

from kit.__main__ import main
from kit.classroom.paper.kinds import kinds
from kit.launch.command import COMMANDS
from kit.shop import rack, weighed_losses
from kit.shop.work import Losses

pytestmark = pytest.mark.gate
RACK = "9 * 1084: 3 x 38 x 400 mm\n9 * 15N20: 1.5 x 38 x 400 mm"
PHOTO = "photo.png"
# what an option is tried with; flags need nothing
VALUES = {
    "address": "http://class.example/", "angle": "12", "bar": "9 * 1084: 3 x 30 x 500",
    "bought": "ladder", "box": "20,20,280,180", "card": "20,20,280,20,280,180,20,180",
    "celsius": "800", "csv": "marks.csv", "course": "OTHER", "cycles": "2",
    "draw_to": "14", "edge": "1", "height": "30", "hot": "10", "idle": "40",
    "inner": "L6:2mm", "key": "H1", "kind": "hollow", "language": "de", "layers": "20",
    "lesson": "04", "line": "20,50,280,50", "lines": "30", "losses": "shop.json",
    "mark": "mark.png", "minutes": "3", "of": "grinding", "outer": "1095:3mm",
    "paper": "letter", "papers": "H1", "pieces": "5+4", "position": "20",
    "rack": "rack.json", "rate": "6", "ratings": "ratings.csv", "recipe": "raindrop",
    "roster": "roster.csv", "scale": "20,50,280,50,100", "size": "320x200",
    "skin": "0.1", "spine": "5", "start": "140", "stock_length": "300",
    "stock_width": "50", "strength": "full strength", "thickness": "8", "theme": "dark",
    "units": "decimal-in", "view": "cut", "wanted": "200x38.1x4",
}  # fmt: skip
OTHERS = {
    ("claims", "kind"): "our-guess",
    ("claims", "card"): "14",
    ("plan", "card"): "c.pdf",
}
ELSEWHERE = {"help", "out", "open"}  # where it goes: another law
ROSTER = ["--course", "A", "--roster", "roster.csv", "--out", "a.pdf"]
# of each command what is typed before its options are tried
WAYS = {
    "render": ([], ["--view", "face"], ["--view", "cut"], ["--view", "end", "--print"]),
    "plan": ([], ["--rack", "rack.json"], ["--card", "c.pdf"]),
    "bought": ([], ["--minutes", "0"]),
    "paper": [[kind] for kind in kinds()] + [["rack", "--rack", "rack.json"]]
    + [["card", "--recipe", "raindrop"]],
    "measure": ([], ["--scale", "20,50,280,50,100"]),
    "mark": (["hand-ins"], ["hand-ins", "--quiz"], ["--key", "H1", *ROSTER],
             ["--papers", "H1", *ROSTER]),
    "film": ([], ["--of", "grinding"]),
    "claims": ([], ["--lesson", "04"]),
    "pages": ([], ["--address", "http://class.example/"]),
    "show": ([], ["--check"]),
}  # fmt: skip
FIRST = {
    "render": ["star", "--out", "a.png", "--size", "300x200"],
    "paper": ["--out", "a.pdf"],
    "measure": [PHOTO],
    "film": ["star", "--out", "a.gif"],
    "pages": ["--out", "phone"],
}
# what takes long is not made: what it would be made from is compared
WORKS = {
    "film": ("kit.launch.command.film", ("forging", "Grinding", "write")),
    "pages": ("kit.classroom.phone.page", ("make",)),
    "show": ("kit.classroom.show.page", ("page",)),
    "mark": ("kit.classroom.paper.homework_papers", ("write_papers", "write_key")),
}
TRIED = [(name, way) for name, ways in WAYS.items() for way in ways]


@pytest.fixture(scope="module")
def place(tmp_path_factory):
    """Make a folder with a rack, losses, a photograph, a class."""
    folder = tmp_path_factory.mktemp("options")
    (folder / "rack.json").write_text(rack.to_json(rack.from_lines(RACK)), "utf-8")
    losses = weighed_losses.to_json(Losses(weld_scale=0.16))
    (folder / "shop.json").write_text(losses, "utf-8")
    high, wide = np.mgrid[:200, :300]  # bands that are not everywhere as wide
    across = 128 + 90 * np.sin(wide / (3 + high / 100))
    for name in (PHOTO, "mark.png"):
        Image.fromarray(across.astype(np.uint8)).save(folder / name)
    (folder / "hand-ins").mkdir()
    students = drawn_class(folder / "hand-ins", count=26).roster
    quiz_sheets(folder / "hand-ins", students)
    (folder / "roster.csv").write_text("\n".join(["Nobody", *students[:20]]), "utf-8")
    ratings = f"set,student,ratings\nH1,{students[0]},210\n"
    (folder / "ratings.csv").write_text(ratings, "utf-8")
    (folder / "page.html").write_text("a page", "utf-8")
    return folder


def options(name):
    """List the options of a command, and whether each is a flag."""
    parser = argparse.ArgumentParser(add_help=False)
    import_module(f"kit.launch.command.{name}").add(parser)
    found = (one for one in parser._actions if one.option_strings)
    return {one.dest: (one.option_strings[0], one.nargs == 0) for one in found}


@pytest.fixture
def come_out(place, monkeypatch, capsys):
    """Run a command; give all that came out, or nothing where it refused."""
    monkeypatch.chdir(place)
    made = []

    def noted(*given, **named):
        named.pop("progress", None)
        kept = [repr(one) for one in (*given, *sorted(named.items()))]
        made.append([one for one in kept if " object at " not in one])
        return [place / "page.html"] if "address" in named else "x" * 12

    def bound(pages, *_rest):
        sheets = (page.figure for page in pages)
        made.append([
            (*sheet.get_size_inches(), *(text.get_text() for text in sheet.texts),
             *(one.get_text() for axes in sheet.axes for one in axes.texts),
             *(len(axes.lines) + len(axes.images) for axes in sheet.axes))
            for sheet in sheets
        ])  # fmt: skip

    monkeypatch.setattr("kit.launch.command.paper.bind", bound)
    monkeypatch.setattr("kit.launch.command.plan.bind", bound)

    def run(name, typed):
        made.clear()
        before = set(place.iterdir())
        module, works = WORKS.get(name, ("", ()))
        with monkeypatch.context() as patch:
            for work in works:
                patch.setattr(f"{module}.{work}", noted)
            code = main([name, *typed])
        said = capsys.readouterr()
        files = {}
        for path in {*(set(place.iterdir()) - before), place / "a.png"}:
            if path.is_file():
                files[path.name] = path.read_bytes()
                path.unlink()
        if code:
            assert said.err.strip().count("\n") == 0, said.err
            return said.err
        return said.out, files, repr(made)

    return run


@pytest.mark.parametrize(
    ("name", "way"),
    TRIED,
    ids=lambda part: part if isinstance(part, str) else " ".join(part)[:40],
)
def test_an_option_that_is_taken_has_an_effect(name, way, come_out):
    begun = [*FIRST.get(name, []), *way]
    plain = come_out(name, begun)
    assert not isinstance(plain, str), plain
    idle = []
    for dest, (option, flag) in options(name).items():
        if dest in ELSEWHERE or option in begun:
            continue
        value = OTHERS.get((name, dest), VALUES.get(dest))
        typed = [*begun, option, *([] if flag else [value])]
        if come_out(name, typed) == plain:
            idle.append(option)
    assert not idle


def test_every_command_is_tried():
    assert set(WAYS) == set(COMMANDS)

"""Nothing of a bar's state is dropped without a word by what is taken along of it."""

import argparse
import tempfile
from dataclasses import replace
from functools import partial
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from printed import read, words
from smith import MADE, made
from steps import samples

from kit.classroom.paper.kinds import Asked, kinds
from kit.classroom.paper.operations import not_taken, of_any
from kit.classroom.show import page
from kit.classroom.show.own_piece import WELDS, own_piece, talk_piece
from kit.classroom.show.piece import languages, voices
from kit.classroom.views.along import OFFERS, Wanted
from kit.course.anvil.acts import VERBS, Laid, begun
from kit.course.anvil.brick import Brick
from kit.course.anvil.desk import Desk
from kit.course.anvil.history import History
from kit.course.anvil.look import Look
from kit.course.anvil.play import Playing
from kit.course.anvil.sentence import short
from kit.course.anvil.tasks import TASKS
from kit.course.anvil.void import HERE, join_at, told_of
from kit.course.views.forge import Forge
from kit.course.views.tasks import beside
from kit.forge.billet import Billet
from kit.forge.stack import demo_stack
from kit.forge.steps import DrawOut, Fold, Grind
from kit.launch.command import film, render
from kit.section.picture import Sheet
from kit.shop.patterns import pattern
from kit.shop.recipes.recipe import save

SAYS = "did not take"
# A rack's sheet is of a plan alone, and nobody marks a planned bar's welds.
PAPERS = [name for name, kind in kinds().items() if kind.of == "bar" and name != "rack"]


FOLDED = Fold(), DrawOut(thickness=20), Fold()


def marked(*stages, acts=FOLDED):
    """Give the recipe of the class's bar, folded, in which such welds did not take."""
    desk = Desk.of(Billet(source=demo_stack())).then(*acts)
    for at in stages:
        desk = desk.goes(at).toggled()
    return desk.recipe("mine")


def twisted(*stages):
    """Give a bar whose face changes, without a talk; such welds of it did not take."""
    bar = pattern("low twist").forge()
    desk = Desk.of(Billet(source=bar.source)).then(Fold(), DrawOut(thickness=16, width=16))
    desk = desk.then(*(begun(name, desk.stage.bar) for name in ("round up",)))
    desk = desk.then(begun("twist", desk.stage.bar))
    for at in stages:
        desk = desk.goes(at).toggled()
    return desk.recipe("turned")


@pytest.mark.parametrize("name", PAPERS)
def test_every_paper_says_which_weld_did_not_take(name, tmp_path):
    pages = read(kinds()[name].pages(Asked(recipe=marked(1, 3))), tmp_path)
    assert f"The weld of step 1 (fold) and step 3 (fold) {SAYS}." in words(*pages)
    if name == "card":
        front, steps, *_ = pages
        assert "The line leaves out" in words(front)
        assert words(steps).count("This weld did not take") == 2


@pytest.mark.parametrize(
    ("recipe", "at"),
    [
        (marked(), []),
        (marked(1), ["1"]),
        (marked(1, acts=(Fold(), Laid(pieces=2), Fold())), ["1", "1"]),
        (marked(3, acts=(Fold(), Laid(pieces=2), Fold())), ["3"]),
    ],
    ids=["none", "a fold", "in each piece", "after they were laid together"],
)
def test_the_step_is_marked_that_failed(recipe, at):
    rows = of_any(recipe)
    # the pieces are two kinds of bar, cut from either end: three lines each, then one
    assert [row.number for row in rows if row.open] == at
    assert all(row.work == "fold" and HERE in row.told for row in rows if row.open)
    assert bool(not_taken(rows)) == bool(at)


@pytest.mark.parametrize("name", MADE)
def test_a_step_has_one_number_wherever_it_is_told(name):
    """The number that the forge's history shows: 0 the stack."""
    history = History.of(made(name))
    welds = frozenset(at for at in range(len(history.stages)) if join_at(history, at))
    recipe = Desk(replace(history, missed=welds), None).recipe("mine")
    named = [(str(at), short(history, at)) for at in range(1, len(history.acts) + 1)]
    rows = of_any(recipe)
    laid = {number for number, work in named if work == Laid.name}
    told = dict.fromkeys((row.number, row.work) for row in rows)
    steps = [one for one in told if one[0].isdigit() and one[0] not in laid | {"0"}]
    assert steps == [one for one in named if one[0] not in laid]
    assert laid <= {row.number for row in rows}
    assert not_taken(rows) == told_of(Desk.of_recipe(recipe).history, len(history.acts))
    in_clay = Brick(recipe.billet).parts[-1].history.acts
    assert in_clay == history.acts, "so its rows, numbered by these, have them too"


def on_a_forge(recipe, kind):
    """Draw a bar as the forge page does: what is looked at, and the solid beside it."""
    forge = Forge()
    forge.lay(recipe)
    return forge.drawn(forge.desk.looking(Look(kind=kind))).image


def tried(recipe):
    """Draw a bar beside every task, as it was last tried."""
    desk, shown = Desk.of_recipe(recipe), []
    for task in TASKS:
        scene = beside(task, desk.stage.bar, found=desk.flaws, missed="said")
        assert scene.alt.endswith(" said")
        shown.append(np.asarray(scene.image))
    return np.concatenate(shown)


def by_command(command, *typed):
    """Draw a recipe with a command, in a folder of its own."""

    def draw(recipe):
        parser = argparse.ArgumentParser()
        command.add(parser)
        with tempfile.TemporaryDirectory() as folder:
            file = save(recipe, Path(folder) / "mine.json")
            out = f"{folder}/a.{'gif' if command is film else 'png'}"
            size = ("--size", "640x400", "--out", out)
            command.run(parser.parse_args([str(file), *size, *typed]))
            with Image.open(out) as image:
                image.seek(getattr(image, "n_frames", 1) // 2)  # ground to the middle
                return image.convert("L")

    return draw


def on_paper(name):
    """Draw the first picture of a paper that shows the bar."""

    def draw(recipe):
        page = kinds()[name].pages(Asked(recipe=recipe))[0]
        drawn = [np.asarray(image.get_array()) for image in page.axes.images]
        return [one for one in drawn if one.shape[1] > WIDE][-1]

    return draw


WIDE = 250  # pixels: marks and codes are narrower
VIEWS = {
    **{f"render {kind}": by_command(render, "--view", kind)
       for kind in ("solid", "end", "side", "cut")},
    "render for print": by_command(render, "--view", "side", "--print"),
    "film of forging": by_command(film),
    "film of grinding": by_command(film, "--of", "grinding"),
    **{f"forge, {kind}": partial(on_a_forge, kind=kind)
       for kind in ("end", "side", "slant", "bevel", "solid")},
    "make this": tried,
    "card": on_paper("card"),
    "care": on_paper("care"),
    "cue card": on_paper("cue-card"),
    "tablet": lambda recipe: own_piece(recipe).stops[-1].face().light,
}  # fmt: skip


@pytest.mark.parametrize("name", VIEWS)
def test_every_view_draws_the_gap(name):
    """A law: where a weld did not take, and nowhere else, pixels are darker."""
    make = twisted if name in ("tablet", "film of grinding") else marked
    sound, gap = (np.asarray(VIEWS[name](make(*at)), float) for at in ((), (1,)))
    off = sound - gap
    assert off.max() > 2 * (1 / 255 if name == "tablet" else 1), "the gap is drawn"
    assert 0 < (off != 0).mean() < 0.35, "and nothing else"


def said_by_a_film(frames, monkeypatch):
    """Give all words that are drawn in a film."""
    told, draw = [], Sheet.text
    monkeypatch.setattr(
        Sheet,
        "text",
        lambda sheet, words, *a, **k: told.append(words) or draw(sheet, words, *a, **k),
    )
    pictures = [image.tobytes() for image in frames]
    return " ".join(told), pictures


def test_a_film_shows_and_says_it(monkeypatch):
    size = {"columns": 320, "rows": 90}
    history = Desk.of_recipe(marked(1)).history
    told, shown = said_by_a_film(Playing(history, 3, **size), monkeypatch)
    assert SAYS in told
    sound = Desk.of_recipe(marked()).history
    told, plain = said_by_a_film(Playing(sound, 3, **size), monkeypatch)
    assert SAYS not in told
    assert shown != plain


def test_what_is_taken_along_as_a_film_knows_it(tmp_path, monkeypatch):
    one = pytest.importorskip("kit.classroom.views.along")
    seen = []
    monkeypatch.setattr(one, "write", lambda film, path, **_: seen.append(film) or path)
    recipe = marked(1)
    wanted = Wanted(Asked(recipe=recipe), as_clay=False)
    OFFERS["film of the bar being made (GIF)"][1](wanted, tmp_path / "a.gif", None)
    assert seen[0].history.missed == {1}


@pytest.mark.parametrize("talk", [False, True])
def test_the_tablet_says_it_in_every_language(talk):
    recipe = twisted(1)
    if talk:
        desk = Desk.of_recipe(recipe).goes(1).saying(ask="How many?")
        piece = talk_piece(desk.recipe("turned"))
    else:
        piece = own_piece(recipe)
    assert page.told([piece])["pieces"]
    for language, both in voices().items():
        voice = both["mm"]
        said = piece.stops[0].alt(voice) if talk else piece.counts(voice)
        words = languages()[language]["words"]
        which = "The weld of step {step} ({name}) did not take."
        sign = words.get(which, which).format(step=1, name=words.get("fold", "fold"))
        assert sign in said, language


def test_every_step_that_welds_is_named_on_the_tablet():
    steps = (sample.step for sample in samples().values())
    assert {step.step for step in steps if step.leaves > 1} == set(WELDS)


@pytest.mark.parametrize("at", [1, 3])
def test_the_code_says_that_it_leaves_it_out(at):
    forge = Forge()
    forge.lay(marked(1))
    forge.do(forge.desk.goes(at))
    forge.code.opened = True
    first = forge.code.text.splitlines()[0]
    assert first.startswith("#")
    assert SAYS in first
    exec(forge.code.text.replace("show(bar, face)", ""), {})  # noqa: S102  (our own code)
    forge.do(forge.desk.goes(0))
    assert SAYS not in forge.code.text


@pytest.mark.parametrize("name", VERBS)
def test_every_later_step_says_that_the_weld_is_still_open(name):
    """In the sentence and in the picture's words; not once it was ground away."""
    forge, still = Forge(), "Still open: the weld of step 1 (fold)."
    forge.add("fold")
    forge.miss()
    assert still in forge.picture.alt
    forge.add("draw out")
    forge.add(name)
    forge.do_first()
    last = len(forge.desk.history.acts)
    assert last > 2 or name == "square up", "a bar that is square"
    for at in range(2, last + 1):
        forge.do(forge.desk.goes(at))
        assert still in forge.said, at
        assert still in forge.picture.alt, at
    forge.do(forge.desk.goes(0))
    assert still not in forge.said + forge.picture.alt


def test_of_a_weld_that_was_ground_away_no_later_step_says_that_it_is_open():
    bar = Billet(source=demo_stack()).then(Fold(), Grind(top=29), DrawOut(thickness=20))
    forge = Forge(bar)
    for at, told in ((1, True), (2, False), (3, False)):
        forge.do(forge.desk.goes(at))
        if at == 1:
            forge.miss()
        assert ("Still open" in forge.picture.alt) == told, at


def test_the_sentence_of_a_weld_that_did_not_take_says_nothing_of_a_weld_that_did():
    forge = Forge()
    forge.add("fold")
    assert "like meets like in the weld" in forge.said
    forge.miss()
    assert "like meets like in the weld" not in forge.said
    assert SAYS in forge.said


def test_a_bar_that_goes_on_from_the_one_on_the_anvil_keeps_what_was_marked_and_said():
    forge = Forge()
    forge.lay(marked(1))
    forge.do(forge.desk.goes(1).saying(say="Folded."))
    forge.take(forge.desk.history.bar.then(Fold()))
    assert forge.desk.history.missed == {1}
    assert [cue.say for cue in forge.desk.history.talk] == ["Folded."]
    forge.take(Billet(source=demo_stack()).then(DrawOut(thickness=20)))
    assert not forge.desk.history.missed


@pytest.mark.parametrize("command", [film, render], ids=["film", "render"])
def test_a_command_that_draws_a_recipe_says_it(command, tmp_path):
    file = save(marked(1), tmp_path / "mine.json")
    parser = argparse.ArgumentParser()
    command.add(parser)
    out = tmp_path / ("a.gif" if command is film else "a.png")
    told = command.run(
        parser.parse_args([str(file), "--out", str(out), "--size", "128x72"])
    )
    assert "The weld of step 1 (fold) did not take." in told
    assert "leaves" not in told

"""The talk: nothing that is said is lost, and strangers' words are only words."""

import json
import random

import pytest
from pypdf import PdfReader
from smith import random_history

from kit.basics.errors import KitError
from kit.basics.files import MOST_BYTES
from kit.basics.units import Units
from kit.classroom.paper.cue_card import cue_cards
from kit.classroom.paper.kinds import Asked, kinds
from kit.classroom.paper.page import bind
from kit.course.anvil.class_talk import class_talks, plans
from kit.course.anvil.desk import Desk
from kit.course.anvil.history import History
from kit.course.anvil.look import Look
from kit.course.views.forge import Forge
from kit.course.views.forge_files import ForgeFiles
from kit.course.views.talk import NO_TALK, OVER, Talk
from kit.forge.stack import demo_stack
from kit.forge.steps import DrawOut, Fold
from kit.section.surface import LEAST_ANGLE
from kit.shop.recipes.found import recipe_of
from kit.shop.recipes.recipe import from_json, to_json
from kit.shop.recipes.talk import MOST_CUES, MOST_LETTERS, Cue, Looked

KINDS = ("end", "side", "face", "slant", "bevel", "solid")


def random_talk(seed, acts=8):
    """Give a random desk with words at random stages, and some open welds."""
    draw = random.Random(seed)  # noqa: S311
    desk = random_history(seed, acts)
    for at in range(len(desk.history.acts) + 1):
        desk = desk.goes(at).looking(Look(kind=draw.choice(KINDS), ground=draw.random()))
        if draw.random() < 0.6:
            desk = desk.saying(**{draw.choice(("ask", "say", "clay")): f"words {at}"})
        if draw.random() < 0.3:
            desk = desk.toggled()
    for _ in range(3 * (seed % 2)):  # so that some no longer fit
        desk = desk.moved(draw.randint(1, 8), draw.choice((-1, 1)))
    return desk


def words(desk):
    """Give what is said, with the act that it is said of; the stack's is None."""
    acts = (None, *desk.history.acts)
    return {(cue.ask, cue.say, cue.clay): acts[cue.stage] for cue in desk.history.talk}


@pytest.mark.parametrize("seed", range(25))
def test_a_talk_goes_through_a_file(seed):
    desk = random_talk(seed)
    recipe = desk.recipe("mine")
    text = to_json(recipe)
    assert from_json(text) == recipe
    back = Desk.of_recipe(from_json(text))
    whole = desk.history.done_only()
    assert back.history.bar == whole.bar
    assert back.history.talk == whole.talk
    acts = (None, *desk.history.acts)
    stayed = [cue for cue in desk.history.talk if cue.stage not in desk.no_longer]
    assert words(back) == {(cue.ask, cue.say, cue.clay): acts[cue.stage] for cue in stayed}
    assert back.recipe("mine") == recipe


@pytest.mark.parametrize("seed", range(12))
def test_what_is_said_goes_where_its_act_goes(seed):
    draw = random.Random(seed)  # noqa: S311
    desk = random_talk(seed)
    for _ in range(30):
        desk = desk.goes(draw.randint(0, len(desk.history.acts)))
        held = words(desk)
        kind = draw.choice(("move", "add", "out"))
        if kind == "move":
            after = desk.moved(desk.at, draw.choice((-1, 1)))
            assert words(after) == held
        elif kind == "add":
            after = desk.then(Fold())
            assert words(after) == held
            assert after.without(after.at) == desk
        else:
            after = desk.without(desk.at)
            gone = desk.history.cue(desk.at)
            lost = (gone.ask, gone.say, gone.clay) if desk.at else None
            assert words(after) == {said: act for said, act in held.items() if said != lost}
        desk = after
        assert len({cue.stage for cue in desk.history.talk}) == len(desk.history.talk)


def test_undo_brings_back_what_was_said():
    forge = Forge()
    talk = Talk(forge)
    forge.add("fold")
    talk.write("ask", "How many?")
    forge.take_out()
    assert forge.desk.history.talk == ()
    forge.undo()
    assert forge.desk.history.cue(1).ask == "How many?"
    assert talk.words.words["ask"] == "How many?"
    forge.undo()
    assert forge.desk.history.talk == ()
    forge.redo()
    assert forge.desk.history.cue(1).ask == "How many?"
    forge.set("look:kind", "face")
    assert forge.desk.history.cue(1).look.kind == "face"


def test_another_step_in_its_place_keeps_what_is_said_and_draws():
    """A fold that did not take, made a drawing out, has no weld to be open."""
    forge = Forge()
    talk = Talk(forge)
    forge.add("fold")
    forge.miss()
    talk.write("say", "Open.")
    forge._said({"set": "verb", "to": "draw out"}, None)
    assert forge.desk.history.cue(1).say == "Open."
    assert forge.desk.recipe("mine").missed == ()


HOSTILE = (
    "<script>alert(1)</script>",
    "</textarea><img src=x onerror=alert(1)>",
    "a\u2028b\u0000c\nd\u202ee",
    "=cmd|' /C calc'!A0",
    "𝔘" * MOST_LETTERS,
    '"\\' * (MOST_LETTERS // 2),
)


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_words_stay_words(text):
    cue = Cue(stage=0, ask=text)
    assert cue.ask.isprintable()
    forge = Forge()
    talk = Talk(forge)
    talk.write("say", text)
    talk.begin()
    (told,) = talk.stage.piece["talk"]
    assert told["say"] == forge.desk.history.cue(0).say
    for page in (talk.says.value, talk.children[3].value):
        assert "<script" not in page
        assert "<img" not in page
    back = from_json(to_json(forge.desk.recipe("mine")))
    assert back.talk[0].say == told["say"]


def test_the_longest_talk_can_be_read_back():
    steps = (DrawOut(thickness=20), DrawOut(thickness=18)) * (MOST_CUES // 2)
    history = History(demo_stack(), steps)
    for at in range(MOST_CUES):
        history = history.said(
            Cue(stage=at, **dict.fromkeys(("ask", "say", "clay"), "𝔘" * MOST_LETTERS))
        )
    recipe = Desk(history, None).recipe("long")
    assert len(to_json(recipe).encode()) < MOST_BYTES
    assert from_json(to_json(recipe)) == recipe
    with pytest.raises(KitError, match=f"at most {MOST_CUES} pictures"):
        history.said(Cue(stage=MOST_CUES, ask="one more"))


def changed(**parts):
    values = json.loads(to_json(class_talks()[0]))
    return json.dumps({**values, **parts})


BAD = {
    "words": changed(talk="hello"),
    "a number": changed(talk=7),
    "a list of words": changed(talk=["hello"]),
    "no stage": changed(talk=[{"ask": "x"}]),
    "a stage below": changed(talk=[{"stage": -1, "ask": "x"}]),
    "a stage too many": changed(talk=[{"stage": 10**20, "ask": "x"}]),
    "a stage that is not there": changed(talk=[{"stage": 99, "ask": "x"}]),
    "twice": changed(talk=[{"stage": 1, "ask": "x"}] * 2),
    "too long": changed(talk=[{"stage": 1, "ask": "x" * (MOST_LETTERS + 1)}]),
    "too many": changed(talk=[{"stage": at, "ask": "x"} for at in range(MOST_CUES + 1)]),
    "more": changed(talk=[{"stage": 1, "run": "x"}]),
    "a look": changed(talk=[{"stage": 1, "ask": "x", "look": {"kind": "through"}}]),
    "a look of words": changed(talk=[{"stage": 1, "ask": "x", "look": "hello"}]),
    "no weld": changed(missed=[1]),
    "no such weld": changed(missed=[99]),
    "a weld below": changed(missed=[-1]),
    "welds of words": changed(missed="all"),
    "endless welds": changed(missed=[2] * 5000),
}


@pytest.mark.parametrize("name", BAD)
def test_a_bad_talk_gets_one_sentence_and_the_old_bar_stays(name):
    files = ForgeFiles(Forge())
    before = files.forge.desk
    with pytest.raises(KitError) as error:
        files.take(from_json(BAD[name]))
    assert "\n" not in str(error.value)
    assert len(str(error.value)) < 300
    assert files.forge.desk == before


def test_older_files_open_and_newer_are_refused():
    values = json.loads(to_json(class_talks()[0]))
    old = {key: one for key, one in values.items() if key not in ("talk", "missed")}
    recipe = from_json(json.dumps({**old, "version": 3}))
    assert recipe.talk == recipe.missed == ()
    with pytest.raises(KitError, match="newer version"):
        from_json(json.dumps({**values, "version": values["version"] + 1}))


def test_the_forge_s_files_take_a_talk_along():
    files = ForgeFiles(Forge())
    for press, told in zip(files.class_buttons, class_talks(), strict=True):
        press.click()
        assert files.forge.desk.history.talk == told.talk
        assert files.forge.desk.recipe(told.name, told.note, told.source) == told
        files.hand_on()
        assert "a line has no room" in files.out.value


def test_the_player_is_given_what_is_said_and_a_picture_to_each(monkeypatch):
    """Its keys are tried in a browser, on both pages: `tests/browser/test_talk_page.py`."""
    forge = Forge()
    talk = Talk(forge)
    talk.begin()
    assert talk.stage.piece == {}
    assert NO_TALK in talk.says.value
    talk.write("ask", "What is it?")
    talk.write("say", "Eleven bars.")
    forge.add("draw out")  # has no cue: it is passed over
    forge.add("fold")
    talk.write("ask", "And now?")
    talk.write("clay", "Fold it.")
    talk.begin()
    assert talk.stage.piece["talk"] == [
        {"ask": "What is it?", "say": "Eleven bars.", "clay": ""},
        {"ask": "And now?", "say": "", "clay": "Fold it."},
    ]
    first, second = talk.stage.piece["stops"]
    assert first["seen"] != second["seen"]
    assert first["alt"] != second["alt"]
    drawn = forge.drawn

    def refused(desk):
        if desk.at == talk.forge.desk.history.talk[0].stage:
            msg = "The bar is too short for such a cut."
            raise KitError(msg)
        return drawn(desk)

    monkeypatch.setattr(forge, "drawn", refused)
    talk.begin()
    told, still = talk.stage.piece["stops"]
    assert told["alt"] == "There is no picture here. The bar is too short for such a cut."
    assert still == second, "the talk goes on"
    for nonsense in ({"over": None}, {"over": 0}, {"go": 1}, {}):
        talk.stage._handle_custom_msg(nonsense, [])
        assert talk.stage.piece
    talk.stage._handle_custom_msg({"over": True}, [])
    assert talk.stage.piece == {}
    assert OVER in talk.says.value


def test_a_look_that_is_kept_is_one_that_can_be_drawn():
    for name, field in Looked.model_fields.items():
        assert Look.model_fields[name].metadata == field.metadata
    low = next(
        rule.ge for rule in Looked.model_fields["angle"].metadata if hasattr(rule, "ge")
    )
    assert low == LEAST_ANGLE


def test_a_cue_card_has_all_that_is_said(tmp_path):
    for recipe in class_talks():
        pages = cue_cards(Asked(recipe=recipe))
        assert len(pages) == 1  # all on one page
        text = printed(pages, tmp_path)
        for cue in recipe.talk:
            for words in (cue.ask, cue.say, cue.clay):
                assert words in text
    both = kinds()["cue-card"].pages(Asked())
    assert len(both) == 3
    clock = printed(both[2:], tmp_path)
    for plan in plans():
        assert all(part.does in clock and part.time in clock for part in plan.parts)


@pytest.mark.parametrize("seed", [1, 3])
def test_a_cue_card_of_any_talk_loses_nothing(seed, tmp_path):
    recipe = random_talk(seed).recipe("mine")
    cues = tuple(
        cue.model_copy(update={"say": f"{at} " + "blow " * 39, "ask": "<b>$x$</b> " * 9})
        for at, cue in enumerate(recipe.talk * 3)
    )
    stages = [cue.model_copy(update={"stage": at}) for at, cue in enumerate(cues)]
    last = len(Desk.of_recipe(recipe).history.acts)
    long = recipe.model_copy(update={"talk": tuple(stages[: last + 1])})
    text = printed(cue_cards(Asked("Letter", Units.INCH_FRACTION, recipe=long)), tmp_path)
    assert text.count("<b>$x$</b>") == 9 * len(long.talk)
    assert text.count("blow") == 39 * len(long.talk)


def test_a_bar_without_a_talk_has_lines_to_write_on(tmp_path):
    text = printed(cue_cards(Asked(recipe="feather")), tmp_path)
    assert text.count("Ask: Say:") == len(History.of(recipe_of("feather").billet).stages)


def printed(pages, tmp_path):
    back = PdfReader(bind(pages, tmp_path / "a.pdf", "Cues")).pages
    return " ".join(" ".join(page.extract_text().split()) for page in back)


def test_the_cue_card_taken_along_is_of_the_forge_s_talk():
    files = ForgeFiles(Forge())
    files.class_buttons[0].click()
    talk = class_talks()[0].talk
    assert files.named_recipe.talk == talk
    files.forge.do(files.forge.desk.goes(1))  # wherever one looks, all of it goes along
    assert files.named_recipe.talk == talk

"""The film of a bar being made: valid bars, from the stack to the bar itself."""

import io
import time
from itertools import pairwise

import numpy as np
import pytest
from PIL import Image
from smith import BARS, random_history

from kit.basics.units import Units
from kit.course.anvil.acts import VERBS, Laid, begun, done, why_not
from kit.course.anvil.history import History
from kit.course.anvil.play import FADE, MOST, Playing, frames, partly
from kit.course.views.forge import Forge
from kit.forge.billet import Billet
from kit.forge.stack import demo_stack
from kit.forge.steps import DrawOut, Fold, Twist


@pytest.mark.parametrize("seed", range(20))
def test_a_film_goes_from_the_stack_to_the_bar_itself(seed):
    desk = random_history(seed)
    for at in (0, len(desk.history.acts) // 2, len(desk.history.acts)):
        found = list(frames(desk.history, at))
        assert found[0].bar == desk.history.stages[0].bar
        assert found[-1].bar == desk.history.stages[at].bar
        assert len(found) <= MOST
        assert all(one.stage <= other.stage for one, other in pairwise(found))
        for frame in found:
            assert Billet(source=frame.bar.source, steps=frame.bar.steps) == frame.bar
            assert frame.reached == (frame.bar == desk.history.stages[frame.stage].bar)


def test_every_act_is_seen_and_none_comes_too_early():
    history = random_history(3).history
    seen = {frame.stage for frame in frames(history, len(history.acts)) if frame.reached}
    assert seen == {n for n, stage in enumerate(history.stages) if not stage.refused}


@pytest.mark.parametrize("count", [59, 60, 61, 120, 200])
def test_a_long_history_is_as_short_a_film(count):
    acts = (DrawOut(thickness=20), DrawOut(thickness=25)) * (count // 2)
    history = History(demo_stack(), acts)
    playing = Playing(history, len(acts))
    assert len(playing) <= MOST + FADE
    assert playing.frames[-1].bar == history.bar


@pytest.mark.parametrize("name", [name for name, kind in VERBS.items() if kind is not Laid])
def test_what_can_be_done_by_halves_grows_from_nothing(name):
    """Nearly nothing of an act nearly leaves the bar; nearly all of it nearly is it."""
    bar = next(bar for bar in BARS.values() if not why_not(name, bar))
    act = begun(name, bar)
    half = partly(act, 0.5, bar)
    strengths = act.nothing is not None or isinstance(act, Twist)
    whole = any(isinstance(value, float) for _key, value in act)
    assert (half is not None) == (strengths and whole)
    if half is None:
        return
    all_of_it, hardly, nearly = done(act, bar), partly(act, 1e-6, bar), partly(act, 1, bar)
    assert nearly == all_of_it
    if not isinstance(act, Twist):
        assert hardly.size == pytest.approx(bar.size, rel=1e-4)
    between = np.array([bar.size.volume, half.size.volume, all_of_it.size.volume])
    assert between[0] >= between[1] - 1e-6 >= between[2] - 2e-6


def test_a_twist_turns_evenly():
    bar = BARS["round"]
    for share in (0.25, 0.5, 0.75):
        turned = partly(Twist(turn_length=60), share, bar).steps[-1]
        assert 1 / turned.turn_length == pytest.approx(share / 60)


def test_pictures_are_alike_in_size_and_the_last_is_as_the_first():
    history = History(demo_stack(), (DrawOut(thickness=16), Fold(), DrawOut(thickness=12)))
    playing = Playing(history, 3, columns=200, rows=100, units=Units.INCH_FRACTION)
    images = list(playing)
    assert len(images) == len(playing)
    assert {image.size for image in images} == {(200, 100)}
    assert images[0].tobytes() == images[-1].tobytes()
    assert len({image.tobytes() for image in images}) == len(playing.frames) + FADE - 1


@pytest.mark.parametrize("seed", range(6))
def test_every_step_is_seen_for_a_second_or_more_on_the_page(seed, monkeypatch):
    monkeypatch.setattr(Playing, "drawn", lambda *_: Image.new("RGB", (8, 8)))
    forge = Forge()
    forge.do(random_history(seed))
    forge.play()
    held: dict[int, int] = {}
    playing = Playing(forge.desk.history, forge.desk.at)
    for frame, hold in zip(playing.frames, forge.picture.holds, strict=True):
        held[frame.stage] = held.get(frame.stage, 0) + hold
    assert held
    assert min(held.values()) >= 1000  # milliseconds


def _as_shown(frame):
    """How wide and high the page shows a picture: a JPEG twice as large as it is."""
    with Image.open(io.BytesIO(frame)) as image:
        twice = 2 if image.format == "JPEG" else 1
        return tuple(twice * side for side in image.size)


def test_the_page_plays_in_half_a_second_and_again():
    forge = Forge(BARS["twisted"])
    forge.add("fold")
    began = time.process_time()  # other tests may want the processor meanwhile
    forge.play()
    assert time.process_time() - began < 1.5
    film = forge.picture.film
    assert 20 <= len(film) <= MOST
    assert len(forge.picture.holds) == len(film)
    for wide, high in map(_as_shown, film):
        assert (wide, high) == _as_shown(forge.picture.frame), "as large as the picture"
    heard = []
    forge.picture.observe(lambda change: heard.append(len(change["new"])), names="film")
    forge.play()
    assert heard == [0, len(film)]
    forge.metal.value = 1
    forge.play()
    assert forge.picture.film != film
    assert forge.said.startswith("5 steps")
    forge.do(forge.desk.goes(0))
    forge.play()
    assert "Nothing was done" in forge.said

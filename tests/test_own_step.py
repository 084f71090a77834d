"""A reader's two formulas, whatever they are: one sentence, and nothing stored."""

import json
import math

import numpy as np
import pytest
from test_try_out import BARS, do, kept, undo

from kit import KitError, try_out
from kit.course.own_step import OwnStep
from kit.shop.recipes.recipe import Recipe, from_json, to_json

pytestmark = pytest.mark.gate


def with_(**parts):
    """Give a formula's three answers, one of them as said."""

    def formula(x, y, z, strength):
        good = {"x": x, "y": y, "z": z * (1 + 0 * strength)}
        return tuple((good | {k: v(x) for k, v in parts.items()}).values())

    return formula


def looped(x, y, z, strength):
    if x > 5:
        return x, y, z
    return x, y, z * strength


def in_place(x, y, z, strength):
    x += strength
    return x, y, z


def sorted_in_place(x, y, z, _strength):
    x.sort()
    return x, y, z


def unlocked(x, y, z, _strength):
    x.flags.writeable = True
    x[:] = 0
    return x, y, z


def misspelt(x, y, z, _strength):
    return x * strenght, y, z  # noqa: F821


def deep(x, y, z, strength):
    return deep(x, y, z, strength)


def leaves(*_given):
    raise SystemExit


class SilentError(Exception):
    """One that cannot say what it is."""

    def __str__(self):
        raise RuntimeError


def silent(*_given):
    raise SilentError


async def later(x, y, z, _strength):
    return x, y, z


def one_by_one(x, y, z, _strength):
    yield from (x, y, z)


def large(x, y, z, strength):
    return x, y, z + np.zeros((10**9, 10**9)).sum() * strength


TOLD = np.random.default_rng(1)
RUBBISH = {
    "no formula": (7, "do must be a formula"),
    "none": (None, "nothing (None)"),
    "one thing too few": (lambda x, y, z: (x, y, z), "must take x, y, z, strength"),
    "forgot to return": (lambda *_: None, "Given: nothing"),
    "one array": (lambda x, *_: x, "three things"),
    "two": (lambda x, y, *_: (x, y), "Given: 2 things"),
    "text for all": (lambda *_: "xyz", "Given: text"),
    "a dict": (lambda x, *_: {"x": x}, "Given: a dict"),
    "one number": (with_(y=lambda _x: 0.0), "one number for all"),
    "half of them": (with_(y=lambda x: x[::2]), "one number for each point"),
    "a table": (with_(y=lambda x: np.outer(x[:3], x[:3])), "in a table"),
    "ragged": (with_(z=lambda _x: [[1], [2, 3]]), "cannot be worked out"),
    "text": (with_(z=lambda x: np.full(x.shape, "a")), "Given as z: text"),
    "a word": (with_(z=lambda _x: "deep"), "Given as z: text"),
    "nothing": (with_(x=lambda _x: None), "Given as x: nothing (None)"),
    "complex": (with_(x=lambda x: x * 1j), "complex numbers"),
    "truth": (with_(x=lambda x: x > 3), "True or False"),
    "nan": (with_(z=lambda x: np.sqrt(5 - x)), "gives nan as z"),
    "infinite": (with_(z=lambda x: 1 / (x * 0)), "gives inf as z"),
    "masked": (with_(z=lambda x: np.ma.log(5 - x)), "gives nan as z"),
    "huge": (with_(x=lambda x: x * 1e30), "e+26 as x"),
    "dates": (with_(x=lambda x: x.astype("datetime64[s]")), "Given as x: dates"),
    "random": (with_(x=lambda x: x + TOLD.random(x.shape)), "another answer each time"),
    "backwards": (with_(x=lambda x: x[::-1]), "otherwise when other points"),
    "by the largest": (with_(x=lambda x: x / x.max()), "otherwise when other points"),
    "by the mean": (with_(x=lambda x: x - x.mean()), "otherwise when other points"),
    "summed up": (with_(x=lambda x: np.cumsum(x) / x.size), "otherwise when other points"),
    "if": (looped, "write np.where(…) in the place of if"),
    "math.sin": (with_(z=math.sin), "in the place of math.sin"),
    "in place": (in_place, "write x = x + 1 and not x += 1"),
    "sorts": (sorted_in_place, "changes what it was given"),
    "unlocks": (unlocked, "cannot be worked out in its line 2"),
    "misspelt": (misspelt, "in its line 2, “return x * strenght, y, z"),
    "by nothing": (with_(x=lambda _x: 1 / 0), "division by zero"),
    "calls itself": (deep, "RecursionError"),
    "leaves": (leaves, "SystemExit"),
    "says nothing": (silent, "SilentError"),
    "later": (later, "Given: a coroutine"),
    "one by one": (one_by_one, "Given: a generator"),
    "too large": (large, "cannot be worked out in its line 2"),
    "all creases": (with_(z=lambda x: np.sin(x * 1e7)), "jumps from place to place"),
    "numpy's own": (np.hypot, "must take x, y, z, strength"),
    "a class": (dict, "cannot be worked out"),
}


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("rubbish", RUBBISH.values(), ids=RUBBISH)
@pytest.mark.parametrize("where", ["do", "undo"])
def test_rubbish_gets_one_sentence(rubbish, where):
    formula, words = rubbish
    pair = (formula, undo) if where == "do" else (lambda x, y, z, _s: (x, y, z), formula)
    if where == "undo" and "jumps" in words:
        return  # steel's volume is measured as it goes, not as it comes back
    with pytest.raises(KitError) as refused:
        try_out(pair, BARS["fold"], strength=0.5)
    said = str(refused.value)
    assert words.replace("do must", f"{where} must") in said
    assert where in said
    assert "Allowed" in said or " must " in said
    assert "\n" not in said
    assert refused.value.__cause__ is None
    assert refused.value._render_traceback_() == [said]


@pytest.mark.parametrize(
    "wish",
    [{"step": do}, {"step": (do,)}, {"step": "fold"}, {"step": None}, {"bar": undo},
     {"bar": "a bar"}, {"strength": "much"}, {"strength": math.nan}, {"strength": None}],
    ids=lambda wish: "-".join(f"{k} {type(v).__name__}" for k, v in wish.items()),
)  # fmt: skip
def test_what_is_no_step_no_bar_or_no_strength_is_refused(wish):
    with pytest.raises(KitError, match="Given: "):
        try_out(**{"step": (do, undo)} | wish)


def test_a_formula_that_gives_back_what_it_was_given_is_free_to():
    assert kept(try_out((lambda x, y, z, _s: (x, y, z),) * 2)) == [True] * 3
    assert kept(try_out((lambda x, y, z, _s: np.array([x, y, z]),) * 2)) == [True] * 3


def test_stopping_it_is_one_sentence():
    def endless(*_given):
        raise KeyboardInterrupt  # as Stop does, in the middle of a loop

    with pytest.raises(
        KitError, match=r"^Stopped: .* the bench is as it was\.$"
    ) as stopped:
        try_out((endless, undo))
    assert stopped.value.__suppress_context__


def test_a_step_of_ones_own_is_in_no_bar_and_no_recipe():
    own = OwnStep((do, undo), 1.0)
    for step in ((do, undo), own):
        with pytest.raises(KitError):
            BARS["fold"].then(step)
    values = json.loads(to_json(Recipe(name="mine", billet=BARS["fold"])))
    assert from_json(json.dumps(values)).billet == BARS["fold"]
    for name in ("own", "own step", "OwnStep", "kit.course.own_step.OwnStep"):
        values["billet"]["steps"] = [{"step": name, "formulas": ["x", "y"], "strength": 1}]
        with pytest.raises(KitError, match="There is no step called"):
            from_json(json.dumps(values))

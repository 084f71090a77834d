"""A smith who does anything at all on the forge: for a test, and for ten thousand acts."""

import random
from functools import cache
from typing import get_args

from kit.basics.errors import KitError
from kit.course.anvil.acts import VERBS, Laid, begun, first
from kit.course.anvil.desk import Desk
from kit.course.views import forge_lines as lines
from kit.course.views.forge import Forge
from kit.forge.billet import Billet
from kit.forge.stack import demo_stack
from kit.forge.steps import DrawOut, RoundUp, SquareUp, Twist
from kit.shop.patterns import PATTERNS
from kit.shop.recipes.talk import Kind

STACKED = Billet(source=demo_stack())
SQUARE = STACKED.then(DrawOut(thickness=20, width=20))
ROUND = SQUARE.then(RoundUp())
TWISTED = ROUND.then(Twist(turn_length=60), SquareUp())
LAID = Laid(pieces=2).done_to(STACKED)
BARS = {
    "stacked": STACKED,
    "square": SQUARE,
    "round": ROUND,
    "twisted": TWISTED,
    "laid": LAID,
}
MOST_STEPS = 25
NONSENSE = ("abc", "", "-3", "1e99", "<b>", "1/4", "12 mm", "3/16 in")
METALS = ("1084", "15N20", "nickel", "no such steel")


@cache
def random_history(seed: int, acts: int = 12) -> Desk:
    """Do random acts, each as it begins or after what must come first."""
    draw = random.Random(seed)  # noqa: S311
    desk = Desk.of(STACKED)
    for _ in range(acts):
        name = draw.choice(list(VERBS))
        try:
            act = begun(name, desk.stage.bar)
            desk = desk.then(*first(act, desk.stage.bar), begun(name, desk.stage.bar))
        except KitError:
            continue
    return desk


MADE = {known.name: known.forge for known in PATTERNS} | {
    f"random {seed}": lambda seed=seed: random_history(seed).history.bar
    for seed in range(20)
}


@cache
def made(name: str) -> Billet:
    """Forge what the trade names, or what dice made of the stack."""
    return MADE[name]()


def act(forge: Forge, dice: random.Random) -> None:
    """Do one thing, chosen by dice, as the page would tell it."""
    desk = forge.desk
    if len(desk.history.acts) > MOST_STEPS:
        forge.strip._handle_custom_msg({"remove": dice.randint(1, MOST_STEPS)}, [])
        return
    told = {
        "add": lambda: forge.next._handle_custom_msg(
            {"set": "next", "to": dice.choice(list(VERBS))}, []
        ),
        "verb": lambda: forge.sentence._handle_custom_msg(
            {"set": "verb", "to": dice.choice(list(VERBS))}, []
        ),
        "first": forge.do_first,
        "go": lambda: forge.strip._handle_custom_msg({"at": dice.randint(-1, 30)}, []),
        "move": lambda: forge.strip._handle_custom_msg(
            {"move": dice.randint(0, 30), "way": dice.choice((-1, 1))}, []
        ),
        "out": lambda: forge.strip._handle_custom_msg({"remove": dice.randint(0, 30)}, []),
        "slide": lambda: _slide(forge, dice),
        "type": lambda: forge.slider._handle_custom_msg(
            {"typed": dice.choice(NONSENSE)}, []
        ),
        "word": lambda: _word(forge, dice),
        "look": lambda: forge.set("look:kind", dice.choice(get_args(Kind))),
        "bar": lambda: forge.bars._handle_custom_msg(_bar(dice), []),
        "miss": forge.miss,
        "undo": forge.undo,
        "redo": forge.redo,
        "rest": lambda: forge.picture._handle_custom_msg({"event": "rest"}, []),
        "point": lambda: forge.picture._handle_custom_msg(
            {"event": "point", "x": dice.random(), "y": dice.random()}, []
        ),
        "clay": lambda: setattr(forge.metal, "value", dice.randint(0, 1)),
        "faces": lambda: setattr(forge.ends, "value", dice.randint(0, 1)),
        "units": lambda: setattr(forge.looks.unit_choice, "value", dice.randint(0, 2)),
    }
    told[dice.choice(list(told))]()


def _slide(forge: Forge, dice: random.Random) -> None:
    numbers = list(lines.numbers(forge.desk))
    if numbers:
        forge.pick(dice.choice(numbers))
        forge.slider.value = dice.choice(forge.slider.stops)


def _word(forge: Forge, dice: random.Random) -> None:
    """Choose a word in any gap of the sentences, now and then one that is not offered."""
    parts = [*forge.sentence.parts, *forge.seen.parts]
    words = [part for part in parts if part.get("groups") and part["key"] != "verb"]
    part = dice.choice(words)
    options = [one for names in part["groups"].values() for one in names]
    wish = {"set": part["key"], "to": dice.choice([*options, "no such word"])}
    forge.sentence._handle_custom_msg(wish, [])


def _bar(dice: random.Random) -> dict:
    place = dice.randint(-1, 9)
    return dice.choice(
        [
            {"add": True},
            {"remove": place},
            {"move": place, "to": dice.randint(-1, 9)},
            {"bar": place, "steel": dice.choice(METALS)},
            {"bar": place, "thickness": dice.choice(NONSENSE)},
        ]
    )

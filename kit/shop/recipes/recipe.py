"""A recipe: a billet with its name, note and source, as a small JSON file."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from pydantic import Field, field_validator

import kit.forge.bundle  # noqa: F401  (so that a recipe may hold one)
from kit.basics import files
from kit.basics.declare import Declared
from kit.basics.errors import KitError
from kit.forge.billet import Billet
from kit.shop.recipes.talk import LAST, Cue, in_order, one_line

FORMAT = "pattern-welding recipe"
VERSION = 4  # of the file, see MIGRATIONS
WHAT = "a recipe"
MOST_DEPTH = 40  # of brackets in brackets
MOST_LAYERS = 2_000  # bars in all stacks together


class Recipe(Declared):
    """A forging that somebody can make again.

    Seeds of hammer blows are in their steps, so that the same recipe is the same bar.

    Parameters
    ----------
    name : str
        1 … 80 letters.
    billet : Billet
    note, source : str
        What it is for, and where it is from; up to 1000 letters.
    talk : tuple of Cue
        What is said at the stages of its history, by their order.
    missed : tuple of int
        At which stages a weld did not take.
    """

    name: str = Field(title="Name", description="from 1 to 80 letters", max_length=80)
    billet: Billet = Field(title="Billet", description="a stack and its steps")
    note: str = Field("", title="Note", description="at most 1000 letters", max_length=1000)
    source: str = Field(
        "", title="Source", description="at most 1000 letters", max_length=1000
    )
    talk: tuple[Cue, ...] = Field(
        (), title="Talk", description="a list of questions and sentences, one for a stage"
    )
    missed: tuple[int, ...] = Field(
        (),
        title="Welds that did not take",
        description="a list of stages, each a whole number",
        max_length=LAST,
    )

    @field_validator("name", "note", "source")
    @classmethod
    def _plain(cls, words: str) -> str:
        return one_line(words)

    @field_validator("name")
    @classmethod
    def _named(cls, name: str) -> str:
        if not name:
            msg = "A recipe needs a name of at least one letter."
            raise KitError(msg)
        return name

    @field_validator("billet", mode="before")
    @classmethod
    def _made(cls, given: Any) -> Any:
        return Billet(**given) if isinstance(given, dict) else given

    @field_validator("talk", mode="before")
    @classmethod
    def _said(cls, given: Any) -> Any:
        if not isinstance(given, list | tuple):
            return given
        return in_order(Cue.model_validate(one) for one in given)


def to_json(recipe: Recipe) -> str:
    """Write a recipe as text, always the same for the same recipe."""
    values = {"format": FORMAT, "version": VERSION}
    values |= recipe.model_dump(mode="json", exclude_none=True)
    return json.dumps(values, indent=1, ensure_ascii=False) + "\n"


def from_json(text: str) -> Recipe:
    """Read a recipe, also one of an older version.

    Raises
    ------
    KitError
        In one sentence, whatever is wrong with it.
    """
    values = files.of_format(text, WHAT, FORMAT, depth=MOST_DEPTH)
    values = _migrated(values)
    if _bars(values) > MOST_LAYERS:
        msg = f"A recipe can have at most {MOST_LAYERS} bars in its stacks."
        raise KitError(msg)
    del values["version"]
    return Recipe(**values)


def save(recipe: Recipe, path: Path) -> Path:
    """Write a recipe to a file: whole, or not at all.

    Raises
    ------
    KitError
        If it cannot be written.
    """
    return files.write(path, to_json(recipe))


def load(path: Path) -> Recipe:
    """Read a recipe from a file.

    Raises
    ------
    KitError
        In one sentence, whatever is wrong with it.
    """
    return from_json(files.text(path, WHAT))


def _from_1(values: dict) -> dict:
    """Version 1 called the source of a recipe `by`, and had the stack beside the steps."""
    values = dict(values)
    if "by" in values:
        values["source"] = values.pop("by")
    if "stack" in values:
        steps = values.pop("steps", [])
        values["billet"] = {"source": values.pop("stack"), "steps": steps}
    return values


# What steps were called before, in files of version 2 and in lines as old as these.
OLD_NAMES = {
    "draw": "draw out",
    "restack": "cut and stack",
    "blows": "hammer unevenly",
    "turn": "quarter turn",
    "roll": "set on the bias",
    "tile": "four-way",
    "press": "dent",
}
OLD_PRESS = {"tool": "ball", "way": "cut"}
OLD_TOOLS = {"ball": "dent", "drill point": "drill", "groove": "groove"}
OLD_WAYS = {"cut": "cut and forged", "press": "pressed and ground"}


def step_now(values: dict) -> dict:
    """Give the values of a step as they are written now, from those of any time."""
    name = values["step"]
    if name == "press":  # one step for three tools, and its way was often not said
        tool, way = (str(values.get(key, usual)) for key, usual in OLD_PRESS.items())
        values = {key: one for key, one in values.items() if key not in OLD_PRESS}
        return {**values, "step": OLD_TOOLS.get(tool, name), "way": OLD_WAYS.get(way, way)}
    return {**values, "step": OLD_NAMES.get(str(name), name)}


def _from_2(values: Any) -> Any:
    """Version 2 had other names for some steps."""
    if isinstance(values, list):
        return [_from_2(one) for one in values]
    if not isinstance(values, dict):
        return values
    parts = {key: _from_2(one) for key, one in values.items()}
    return step_now(parts) if "step" in parts else parts


def _from_3(values: dict) -> dict:
    """Version 3 had no talk, and no weld that did not take."""
    return values


MIGRATIONS: dict[int, Callable[[dict], dict]] = {1: _from_1, 2: _from_2, 3: _from_3}


def _migrated(values: dict) -> dict:
    """Bring a recipe to the present version, one version at a time."""
    version = values.get("version")
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        msg = f"A recipe must say its version, from 1 to {VERSION}."
        raise KitError(msg)
    if version > VERSION:
        msg = (
            f"That recipe is of a newer version than {VERSION}, which is the last this kit "
            "reads. A newer kit can open it."
        )
        raise KitError(msg)
    for old in range(version, VERSION):
        values = {**MIGRATIONS[old](values), "version": old + 1}
    return values


def _bars(values: Any) -> int:
    """Count the bars of all stacks, in bundles too."""
    if isinstance(values, list):
        return sum(map(_bars, values))
    if not isinstance(values, dict):
        return 0
    layers = values.get("layers")
    here = len(layers) if isinstance(layers, list) else 0
    return here + sum(_bars(part) for key, part in values.items() if key != "layers")

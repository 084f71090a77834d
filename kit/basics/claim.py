"""What the kit takes for true, and how it is known.

A claim is declared where its constant or sentence stands. It names the constants that
belong together, so that they are one claim; their values stand in the code alone and are
never typed twice. What is told in words alone stands in a file beside its module, see
`beside`. Nothing lists claims by hand: `gathered` finds them in the modules.
"""

import importlib
import inspect
import json
import pkgutil
import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, fields
from enum import Enum, EnumMeta
from functools import cache
from pathlib import Path
from typing import Any, TypeVar


class Kind(Enum):
    """How something is known; the value is the small mark beside it."""

    DERIVED = "derived"
    PUBLISHED = "published"
    PRACTICE = "common practice"
    MEMORY = "from memory"
    OURS = "our guess"


NO_SOURCE = f"{Kind.PRACTICE.value}, no source"  # of a half of what is claimed

# What each mark means: the one legend of screens, cards and paper.
LEGEND: Mapping[Kind, str] = {
    Kind.DERIVED: "reckoned from the bar or a formula",
    Kind.PUBLISHED: "stands in a named work",
    Kind.PRACTICE: "makers do it so; no source",
    Kind.MEMORY: "a source remembered, not read again",
    Kind.OURS: "ours, illustrative; no source found",
}


def _declared_in() -> str:
    """Name the module in which a claim is being declared."""
    frame = inspect.currentframe()
    while frame is not None and frame.f_globals.get("__name__") == __name__:
        frame = frame.f_back
    return frame.f_globals.get("__name__", "") if frame is not None else ""


@dataclass(frozen=True, kw_only=True)
class Claim:
    """One thing that the kit relies on: a fact, or constants that belong together.

    It is worth as much as its weakest part: what is half published and half practice is
    common practice, and its source says which half is which.

    Parameters
    ----------
    says : str
        What is claimed, in a plain sentence.
    kind : Kind
    source : str
        The work and the place in it; for what is derived, from what it follows.
    seen : bool
        Whether the passage was read, not only remembered or cited.
    unit : str
        Of the constants.
    within : str
        The range of use, in words: "iron in air, 700 to 1250 °C".
    holds : tuple of str
        The constants of its module that it is about.
    spread : tuple of float
        What others publish, lowest and highest, in parts of our values. Checks that name
        the claim run at both ends.
    told : tuple of str
        Patterns (regular expressions) of the sentences by which texts tell it: no sentence
        of theirs speaks of the world that no claim tells.
    module : str
        Where it is declared; found by itself.
    """

    says: str
    kind: Kind
    source: str = ""
    seen: bool = False
    unit: str = ""
    within: str = ""
    holds: tuple[str, ...] = ()
    spread: tuple[float, float] = (1.0, 1.0)
    told: tuple[str, ...] = ()
    module: str = field(default_factory=_declared_in, compare=False, repr=False)

    @property
    def figures(self) -> str:
        """What it holds, in words: empty, unless a kind of claim tells it."""
        return ""

    @property
    def values(self) -> dict[str, Any]:
        """The constants that it is about, as they stand in its module."""
        there = importlib.import_module(self.module)
        return {name: getattr(there, name) for name in self.holds}

    @property
    def how(self) -> str:
        """How it is known, in a sentence or two.

        Examples
        --------
        >>> Claim(says="Iron is heavy.", kind=Kind.PRACTICE).how
        'Common practice, no source.'
        """
        told = self.kind.value.capitalize()
        if self.kind is Kind.PRACTICE and not self.source:
            told += ", no source"
        if self.source:
            told += f": {self.source}"
        if self.kind is Kind.PUBLISHED:
            told += " (passage read)" if self.seen else " (cited, passage not read)"
        told += f". Range: {self.within}" if self.within else ""
        return f"{told}. {self.figures}.".removesuffix(" .")


OfClaim = TypeVar("OfClaim", bound=Claim)


def beside(module: str, kind: type[OfClaim] = Claim, **gaps: str) -> dict[str, OfClaim]:
    """Read claims that are words alone from the JSON file beside a module, by their keys.

    Parameters
    ----------
    module : str
        Its ``__file__``; the claims are its own.
    kind : type
        Of claim. Its values are named as in Python; those of an `Enum` by their names.
    gaps : str
        What fills the {gaps} in what they say.
    """
    enums = {one.name: one.type for one in fields(kind) if isinstance(one.type, EnumMeta)}

    def read(told: dict[str, Any]) -> OfClaim:
        named = {name: enum[told[name]] for name, enum in enums.items() if name in told}
        says, ways = told["says"].format(**gaps), tuple(told.get("told", ()))
        return kind(**{**told, **named, "says": says, "told": ways})

    text = Path(module).with_suffix(".json").read_text("utf-8")
    return {key: read(told) for key, told in json.loads(text).items()}


def marks(claims: Iterable[Claim]) -> str:
    """Give the small marks of claims, each kind once, the surest first.

    Examples
    --------
    >>> one = Claim(says="Iron is heavy.", kind=Kind.PRACTICE)
    >>> marks([one, one])
    'common practice'
    """
    kinds = {claim.kind for claim in claims}
    return " · ".join(kind.value for kind in Kind if kind in kinds)


def known(words: str, claims: Iterable[Claim]) -> str:
    """Put the small marks of claims behind words, as paper has them.

    Examples
    --------
    >>> known("Losses", [Claim(says="Scale is lost.", kind=Kind.PRACTICE)])
    'Losses (common practice)'
    """
    return f"{words} ({marks(claims)})"


def with_marks(words: str) -> str:
    """Put behind each sentence the marks of what it tells, as `known`; a question asks.

    Examples
    --------
    >>> with_marks("A good eye resolves one arc-minute. How far is that?")
    'A good eye resolves one arc-minute (published). How far is that?'
    """
    return _SENTENCE.sub(_marked, words)


_SENTENCE = re.compile(r"(\S.*?)([.?!]?[”)]*)(?=(?<=[.?!”)]) +[A-Z“(\d]|$)", re.DOTALL)


def _marked(sentence: re.Match) -> str:
    told, end = sentence.groups()
    claims = () if "?" in end else claims_told(told)
    if {claim.kind for claim in claims} <= marked(told):
        return sentence[0]
    return f"{known(told, claims)}{end}"


def legend(claims: Iterable[Claim]) -> str:
    """Say what the marks of these claims mean."""
    return meaning({claim.kind for claim in claims})


def meaning(kinds: Collection[Kind]) -> str:
    """Say what marks mean, each once, the surest first."""
    told = (f"{kind.value}: {LEGEND[kind]}" for kind in Kind if kind in kinds)
    return f"{'; '.join(told)}."


def marked(words: str) -> set[Kind]:
    """Find the marks in words; what is called illustrative is a guess of ours.

    Examples
    --------
    >>> [kind.name for kind in marked("Tones illustrative.")]
    ['OURS']
    """
    plain = words.casefold()
    found = {kind for kind in Kind if kind.value in plain}
    return found | ({Kind.OURS} if "illustrative" in plain else set())


@cache
def gathered() -> dict[str, Claim]:
    """Find all claims of the kit by where they stand: in its modules, or listed there."""
    found: dict[int, tuple[str, Claim]] = {}
    for name in sorted(_modules("kit")):
        for place, thing in vars(importlib.import_module(name)).items():
            for key, claim in _within(thing):
                if claim.module == name:
                    found.setdefault(id(claim), (f"{name}.{place}{key}", claim))
    return dict(found.values())


def _modules(package: str) -> Iterator[str]:
    """Give the modules that may claim: not the front door, which needs JupyterLab."""
    yield package
    inside = importlib.import_module(package).__path__
    for one in pkgutil.iter_modules(inside, f"{package}."):
        if one.ispkg and one.name != "kit.launch":
            yield from _modules(one.name)
        elif not one.ispkg and not one.name.endswith("__main__"):
            yield one.name


def claims_told(words: str) -> list[Claim]:
    """Find the claims that words tell, in the order of the words."""
    found = []
    for claim in gathered().values():
        first = (re.search(pattern, words) for pattern in claim.told)
        if places := [one.start() for one in first if one]:
            found.append((min(places), len(found), claim))
    return [claim for *_, claim in sorted(found)]


def _within(thing: object) -> Iterator[tuple[str, Claim]]:
    """Give the claims that a thing is, or lists, each with its place in the list."""
    listed: Iterable[tuple[object, object]] = ()
    if isinstance(thing, Claim):
        yield "", thing
    elif isinstance(thing, Mapping):
        listed = thing.items()
    elif isinstance(thing, (tuple, list)):
        listed = enumerate(thing)
    for key, one in listed:
        if isinstance(one, Claim):
            yield f"[{key!r}]", one

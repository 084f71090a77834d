"""What a lesson is: its controls are its fields, all else stands beside them.

A class of this kind is all that the kit knows of a lesson. Its page, its handout, the
copy for the wall, its place on the map and its visit in a browser are made from it.
"""

import itertools
from collections.abc import Callable, Mapping
from functools import cache, partial
from typing import Any, ClassVar

from kit.basics.claim import Claim
from kit.basics.declare import Declared, allowed_range
from kit.basics.errors import KitError
from kit.basics.told import one_way, refusing_in
from kit.basics.units import Units, in_figures
from kit.course.check import Check
from kit.course.lesson import Question
from kit.course.lessons.scene import Part, Scene
from kit.section.picture import LAYERS, LETTERS, STEEL

NEAR = 1e-6  # as near a value is sought as anybody could mean


class Lesson(Declared):
    """A lesson, or a part of one: each field a control, declared once.

    Attributes
    ----------
    key : str
        What it is asked for by: its number, "04", or for a part a name: "weld".
    number : str
        Of the lesson that it is a part of; left out, its key.
    title : str
        As the map and the handout say it.
    main : str
        The field whose slider stands right below the picture.
    stations : mapping
        From a station's name, in the anvil's working order, to the fields handled there:
        at most four. Without stations all fields stand below the picture.
    opens : int
        The station that is open at first.
    behind : mapping
        From a fold's name to the fields behind it, below the stations: what may stay as
        it is.
    cues : tuple of str
        The fields that the page's text names, in its order: each in turn is marked *next*.
    fine : str
        A line below the picture: what in it is guessed, or disputed.
    look : str
        What its steel is shown as at first: "steel", or "layers" where its question asks
        for a count, on bar and blade alike; "" where no face or blade is shown.
    question : Question, optional
        The prediction before the picture.
    film : tuple of mapping
        The move that answers it: what differs from the beginning, frame by frame.
    phone : tuple of Part
        What of its picture a telephone shows, one below the other, drawn in the larger
        letters; left out, the left of it.
    checks : tuple of Check
    gives : tuple of str
        What gives way where values do not go together, the first that can: a bar that
        got thinner cannot have as much ground off.
    shuts : mapping
        From a reason, told beside a control that is shut, to when it holds and the
        controls that change nothing then: neither picture, numbers nor sentence.
    """

    key: ClassVar[str] = ""
    number: ClassVar[str] = ""
    title: ClassVar[str] = ""
    main: ClassVar[str] = ""
    stations: ClassVar[Mapping[str, tuple[str, ...]]] = {}
    opens: ClassVar[int] = 0
    behind: ClassVar[Mapping[str, tuple[str, ...]]] = {}
    cues: ClassVar[tuple[str, ...]] = ()
    fine: ClassVar[str] = ""
    look: ClassVar[str] = STEEL
    question: ClassVar[Question | None] = None
    film: ClassVar[tuple[Mapping[str, Any], ...]] = ()
    phone: ClassVar[tuple[Part, ...]] = ()
    checks: ClassVar[tuple[Check, ...]] = ()
    gives: ClassVar[tuple[str, ...]] = ()
    shuts: ClassVar[Mapping[str, tuple[Any, ...]]] = {}

    @classmethod
    def __pydantic_init_subclass__(cls, **options: Any) -> None:
        """Give a whole lesson its key for a number."""
        super().__pydantic_init_subclass__(**options)
        cls.number = cls.number or cls.key

    def check(self, units: Units) -> None:
        """Refuse values that do not go together, each of which is allowed by itself.

        Raises
        ------
        KitError
            One sentence, in these units.
        """

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Draw what these values make, with its words and numbers.

        Parameters
        ----------
        units : Units
        told : bool
            Whether the prediction was made: what would give it away is left out before.
        **paper
            What the reader chose, as `Sheet` has it: sunlit, letters, look.
        """
        raise NotImplementedError

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say something about the change of one control, or nothing."""
        return ""

    def turned_to(self, station: str, units: Units) -> str:
        """Say what belongs to a station alone, when its controls are shown, or nothing."""
        return ""

    @classmethod
    def asked(cls, values: Mapping[str, Any], units: Units) -> Any:
        """Take values as they come, and check them; what is left out begins as declared."""
        with refusing_in(units):
            job = cls(**values)
            job.check(units)
        return job

    @property
    def values(self) -> dict[str, Any]:
        """Its fields by their names."""
        return {key: getattr(self, key) for key in type(self).model_fields}

    @property
    def idle(self) -> dict[str, str]:
        """The controls that change nothing while the others stand so, and why."""
        now = ((why, keys) for why, (when, *keys) in self.shuts.items() if when(self))
        return {key: why for why, keys in now for key in keys}

    def as_seen(self, units: Units, **how: Any) -> Scene:
        """Draw it, told and, where it cannot be, refused in the reader's units."""
        with refusing_in(units):
            return self.draw(units, **how).told_in(units)

    def remarked(self, changed: str, units: Units) -> str:
        """Give the remark about a change, with inches written in one way."""
        return one_way(partial(self.remark, changed), units)

    @classmethod
    def scene(
        cls,
        *,
        units: Units = Units.MM,
        sunlit: bool = False,
        letters: int = LETTERS,
        look: str = "",
        told: bool = True,
        **values: Any,
    ) -> Scene:
        """Draw values as they come; what is left out stands as it begins.

        Raises
        ------
        KitError
            One sentence, for what no control could be set to, or does not go together.
        """
        paper = {"sunlit": sunlit, "letters": letters, "look": look or cls.look or LAYERS}
        return cls.asked(values, units).as_seen(units, told=told, **paper)

    @classmethod
    def begun(cls) -> dict[str, Any]:
        """Give the values that the lesson begins with."""
        return {key: field.default for key, field in cls.model_fields.items()}

    @classmethod
    def states(cls) -> list[dict[str, Any]]:
        """Give the whole state of every frame of the film."""
        return [{**cls.begun(), **frame} for frame in cls.film]

    @classmethod
    @cache
    def claims(cls) -> tuple[Claim, ...]:
        """Give what its numbers rely on, as it begins and as its film ends."""
        frames = (cls.begun(), *cls.states()[-1:])
        numbers = (number for frame in frames for number in cls.scene(**frame).numbers)
        return tuple(dict.fromkeys(one for number in numbers for one in number.claims))

    @classmethod
    def fitted(cls, values: Mapping[str, Any], units: Units) -> tuple[Any, str]:
        """Let what no longer fits give way, as little as it must.

        Parameters
        ----------
        values : mapping
            By key, each allowed by itself.
        units : Units
            For the reason.

        Returns
        -------
        job : Lesson
        why : str
            The reason, if anything was changed.

        Raises
        ------
        KitError
            If nothing that may give way makes them fit.
        """

        @cache  # each may forge a bar
        def made(*whole: Any) -> Any | str:
            """Make what fits, or say why it does not."""
            try:
                return cls.asked(dict(zip(values, whole, strict=True)), units)
            except KitError as refused:
                return str(refused)

        found = made(*values.values())
        if not isinstance(found, str):
            return found, ""
        why = found
        for key in cls.gives:
            job = cls._nearest(values, key, made)
            if job is not None:
                return job, why
        begun = {key: cls.model_fields[key].default for key in cls.gives}
        # one alone cannot: two together; nor two: all but one as they begin
        pairs = (
            ({key: end}, other)
            for key, other in itertools.permutations(cls.gives, 2)
            for end in cls._ends(key)
        )
        alone = (({**begun, key: values[key]}, key) for key in cls.gives)
        for given, key in itertools.chain(pairs, alone):
            job = cls._nearest({**values, **given}, key, made)
            if job is not None:
                return job, why
        raise KitError(why)

    @classmethod
    def _ends(cls, key: str) -> tuple[Any, ...]:
        """Give where a value may go: as it begins, its lowest and its highest."""
        field = cls.model_fields[key]
        return field.default, *allowed_range(field)

    @classmethod
    def _nearest(
        cls, values: Mapping[str, Any], key: str, made: Callable[..., Any | str]
    ) -> Any | None:
        """Find the value nearest to the present one with which all go together."""

        def tried(value: float) -> Any | None:
            found = made(*{**values, key: value}.values())
            return None if isinstance(found, str) else found

        here = values[key]
        job = tried(here)
        if job is not None:
            return job
        ends = [end for end in cls._ends(key) if tried(end) is not None]
        if not ends:
            return None
        good, bad = min(ends, key=lambda end: abs(end - here)), here
        whole = cls.model_fields[key].annotation is int
        while abs(good - bad) > (1 if whole else NEAR):
            middle = int((good + bad) / 2) if whole else (good + bad) / 2
            good, bad = (middle, bad) if tried(middle) is not None else (good, middle)
        # nobody meant more figures; where the nearest is refused, the one before fits
        even = [in_figures(good, 5, way) for way in ("ROUND_DOWN", "ROUND_UP")]
        return next(filter(None, map(tried, (round(good, 4), *even, good))), None)

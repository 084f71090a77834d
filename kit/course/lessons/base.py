"""What a lesson is: its controls are its fields, all else stands beside them.

A class of this kind is all that the kit knows of a lesson. Its page, its handout, the
copy for the wall, its place on the map and its visit in a browser are made from it.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, ClassVar

from kit.basics.units import Units
from kit.course.check import Check
from kit.course.lesson import Question
from kit.course.lessons.job import Job
from kit.course.lessons.scene import Scene


class Lesson(Job):
    """A lesson, or a part of one: each field a control, declared once.

    Attributes
    ----------
    key : str
        What it is asked for by: its number, "04", or for a part a name: "weld".
    number : str
        Of the lesson it is, or is a part of.
    title : str
        As the map and the handout say it.
    main : str
        The field whose slider stands right below the picture.
    stations : mapping
        From a station's name, in the anvil's working order, to the fields handled there:
        at most four. Without stations all fields stand below the picture.
    opens : int
        The station that is open at first.
    cued : bool
        Whether the page marks the next sensible control.
    fine : str
        A line below the picture: what in it is guessed, or disputed.
    question : Question, optional
        The prediction before the picture.
    film : tuple of mapping
        The move that answers it: what differs from the beginning, frame by frame.
    checks : tuple of Check
    """

    key: ClassVar[str] = ""
    number: ClassVar[str] = ""
    title: ClassVar[str] = ""
    main: ClassVar[str] = ""
    stations: ClassVar[Mapping[str, tuple[str, ...]]] = {}
    opens: ClassVar[int] = 0
    cued: ClassVar[bool] = True
    fine: ClassVar[str] = ""
    question: ClassVar[Question | None] = None
    film: ClassVar[tuple[Mapping[str, Any], ...]] = ()
    checks: ClassVar[tuple[Check, ...]] = ()

    def draw(self, units: Units, *, sunlit: bool = False, told: bool = True) -> Scene:
        """Draw what these values make, with its words and numbers.

        Parameters
        ----------
        units : Units
        sunlit : bool
            Black on white, for paper and outdoors.
        told : bool
            Whether the prediction was made: what would give it away is left out before.
        """
        raise NotImplementedError

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say something about the change of one control, or nothing."""
        del changed, units
        return ""

    @classmethod
    def scene(
        cls,
        *,
        units: Units = Units.MM,
        sunlit: bool = False,
        told: bool = True,
        **values: Any,
    ) -> Scene:
        """Draw values as they come; what is left out stands as it begins.

        Raises
        ------
        KitError
            One sentence, for what no control could be set to, or does not go together.
        """
        return cls.asked(values, units).draw(units, sunlit=sunlit, told=told)

    @classmethod
    def begun(cls) -> dict[str, Any]:
        """Give the values that the lesson begins with."""
        return {key: field.default for key, field in cls.model_fields.items()}

    @classmethod
    def states(cls) -> list[dict[str, Any]]:
        """Give the whole state of every frame of the film."""
        return [{**cls.begun(), **frame} for frame in cls.film]

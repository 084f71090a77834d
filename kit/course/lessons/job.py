"""What the controls of one lesson hold: each value declared once, and what gives way."""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from typing import Any, ClassVar

from kit.basics.declare import Declared, allowed_range
from kit.basics.errors import KitError
from kit.basics.units import Units

TURNS = 40  # halvings: nearer than any slider


class Job(Declared):
    """The values of one lesson; one field a control.

    Attributes
    ----------
    gives : tuple of str
        What gives way where values do not go together, the first that can: a bar that
        got thinner cannot have as much ground off.
    """

    gives: ClassVar[tuple[str, ...]] = ()

    def check(self, units: Units) -> None:
        """Refuse values that do not go together, each of which is allowed by itself.

        Raises
        ------
        KitError
            One sentence, in these units.
        """

    @classmethod
    def asked(cls, values: Mapping[str, Any], units: Units) -> Any:
        """Take values as they come, and check them; what is left out begins as declared."""
        job = cls(**values)
        job.check(units)
        return job

    @classmethod
    def fitted(cls, values: Mapping[str, Any], units: Units) -> tuple[dict[str, Any], str]:
        """Let what no longer fits give way, as little as it must.

        Parameters
        ----------
        values : mapping
            By key, each allowed by itself.
        units : Units
            For the reason.

        Returns
        -------
        values : dict
        why : str
            The reason, if anything was changed.

        Raises
        ------
        KitError
            If nothing that may give way makes them fit.
        """
        found = dict(values)
        why = cls._refusal(found, units)
        for key in cls.gives if why else ():
            near = cls._nearest(found, key, units)
            if near is not None:
                return {**found, key: near}, why
        # one alone cannot: two together
        for key, other in itertools.permutations(cls.gives, 2) if why else ():
            for end in cls._ends(key):
                near = cls._nearest({**found, key: end}, other, units)
                if near is not None:
                    return {**found, key: end, other: near}, why
        if why:
            raise KitError(why)
        return found, ""

    @classmethod
    def _refusal(cls, values: Mapping[str, Any], units: Units) -> str:
        try:
            cls.asked(values, units)
        except KitError as refused:
            return str(refused)
        return ""

    @classmethod
    def _ends(cls, key: str) -> tuple[Any, ...]:
        """Give where a value may go: as it begins, its lowest and its highest."""
        field = cls.model_fields[key]
        return field.default, *allowed_range(field)

    @classmethod
    def _nearest(cls, values: Mapping[str, Any], key: str, units: Units) -> Any | None:
        """Find the value nearest to the present one with which all go together."""

        def fits(value: float) -> bool:
            return not cls._refusal({**values, key: value}, units)

        here = values[key]
        if fits(here):
            return here
        ends = [end for end in cls._ends(key) if fits(end)]
        if not ends:
            return None
        good, bad = min(ends, key=lambda end: abs(end - here)), here
        whole = cls.model_fields[key].annotation is int
        for _ in range(TURNS):
            middle = (good + bad) / 2
            if whole:
                if abs(good - bad) <= 1:
                    break
                middle = int(middle)
            good, bad = (middle, bad) if fits(middle) else (good, middle)
        even = round(good, 4)  # mm: nobody meant more figures
        return even if fits(even) else good

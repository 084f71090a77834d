"""Say each quantity once: its name, unit, range and meaning.

Constructor checks, recipes in JSON, slider ranges and help texts all read the same
declaration, so they cannot disagree.
"""

import math
from collections.abc import Callable, Sequence
from typing import Any, Literal, NoReturn, get_args, get_origin

from pydantic import BaseModel, ConfigDict, Field, ValidationError
from pydantic.fields import FieldInfo

from kit.basics.errors import KitError
from kit.basics.typed import MM_PER_INCH, Inches


def multiples(step: float, low: float, high: float) -> list[float]:
    """Give every multiple of a step, in its own unit, from low to high: no dust of floats.

    Examples
    --------
    >>> multiples(0.1, 0.1, 0.35)
    [0.1, 0.2, 0.3]
    """
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return [round(number * step, 9) for number in range(first, last + 1)]


def quantity(
    name: str,
    meaning: str,
    *,
    low: float,
    high: float,
    unit: str = "",
    default: Any = ...,
    **slider: Any,
) -> Any:
    """Declare one number that a smith can set.

    Parameters
    ----------
    name : str
        What the trade calls it, as it stands beside a slider: "Thickness".
    meaning : str
        One line of help.
    low, high : float
        The smallest and largest value allowed, both included, in `unit`.
    unit : str
        "mm", "°", "%", "×", "°C", "min", or nothing for a count.
    default : optional
        Left out, the number must be given.
    **slider
        Where a slider stops: `step`, by how much in `unit`; `inch`, by how much in inch
        mode, in inches, or the stops themselves, in mm (left out, every sixteenth);
        `stops`, if they are not evenly apart in `unit` either; `away`, if it is how far
        away somebody stands.
    """
    return Field(
        default,
        ge=low,
        le=high,
        title=name,
        description=meaning,
        json_schema_extra={"unit": unit, **slider},
    )


def choice(name: str, options: Sequence[str], *, default: int = 0) -> Any:
    """Declare one of several by name; its value is the place in the list, from 0."""
    return Field(
        default,
        ge=0,
        le=len(options) - 1,
        title=name,
        description="place in the list",
        json_schema_extra={"unit": "", "options": list(options)},
    )


class Declared(BaseModel):  # noqa: PLW1641  (pydantic gives what is frozen its hash)
    """A frozen, keyword-only object whose numbers were declared with `quantity`.

    Raises
    ------
    KitError
        On a missing, unknown or impossible value: one plain sentence.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    def __init__(self, /, *unnamed: Any, **values: Any) -> None:
        if unnamed:
            kind = type(self)
            needed = [n for n, field in kind.model_fields.items() if field.is_required()]
            names = ", ".join(f"{name}=…" for name in needed or kind.model_fields)
            msg = (
                f"{kind.__name__} needs a name for each value, as in "
                f"{kind.__name__}({names}). Given without one: {_short(unnamed[0])}."
            )
            raise KitError(msg)
        _in_one_sentence(type(self), super().__init__, **values)

    @classmethod
    def model_validate(cls, obj: Any, **options: Any) -> Any:
        """Make one of a dict of its values; with one sentence if it cannot be."""
        return _in_one_sentence(cls, super().model_validate, obj, **options)

    @classmethod
    def model_validate_json(cls, json_data: str | bytes, **options: Any) -> Any:
        """Make one of its JSON; with one sentence if it cannot be."""
        return _in_one_sentence(cls, super().model_validate_json, json_data, **options)

    def __eq__(self, other: object) -> bool:
        """Compare what was declared; what was worked out of it and kept does not count."""
        if type(self) is not type(other):
            return NotImplemented
        mine, its = vars(self), vars(other)
        # what both share need not be looked through
        return all(
            mine[name] is its[name] or mine[name] == its[name]
            for name in type(self).__pydantic_fields__
        )

    def __setattr__(self, name: str, value: Any) -> NoReturn:
        """Refuse: nothing that was declared is changed afterwards."""
        self._refuse(f"{name} = {_short(value)}")

    def __delattr__(self, name: str) -> NoReturn:
        """Refuse that as well."""
        self._refuse(f"del {name}")

    def _refuse(self, wish: str) -> NoReturn:
        kind = type(self).__name__
        msg = f"A {kind} stays as it was made: make a new one. Given: {wish}."
        raise KitError(msg)


def _in_one_sentence(
    owner: type[BaseModel], make: Callable, /, *given: Any, **values: Any
) -> Any:
    try:
        return make(*given, **values)
    except ValidationError as error:
        raise KitError(_sentence(owner, error)) from None


def allowed_range(field: FieldInfo) -> tuple[float | None, float | None]:
    """Give the lowest and highest value that a declared field allows."""
    low = next((rule.ge for rule in field.metadata if hasattr(rule, "ge")), None)
    high = next((rule.le for rule in field.metadata if hasattr(rule, "le")), None)
    return low, high


def _sentence(owner: type[BaseModel], error: ValidationError) -> str:
    """Turn pydantic's report into what a smith would want to read."""
    first = error.errors()[0]
    if first["type"] == "value_error":
        return str(first["ctx"]["error"])
    value = first["input"]
    inches = isinstance(value, Inches)
    title, given = owner.__name__, _short(value.said if inches else value)
    if first["type"] == "json_invalid":
        msg = f"{title} cannot be read: it is not written as the kit writes it. "
        return f"{msg}Given: {given}."
    if not first["loc"]:
        return f"{title} must be made of named values. Given: {given}."
    name = str(first["loc"][0])
    field = owner.model_fields.get(name)
    if first["type"] == "missing":
        allowed = _allowed(field)
        return f"{title} needs a value for '{name}': {allowed}. None was given."
    if field is None:
        known = ", ".join(owner.model_fields) or "nothing to set"
        return f"{title} has no '{name}'. It has: {known}."
    called = field.title or name.capitalize()
    length = (field.json_schema_extra or {}).get("unit") == "mm"
    if length and type(value) in (int, float) and math.isfinite(value):
        given += " mm"
    return f"{called} must be {_allowed(field, inches=inches)}. Given: {given}."


def _allowed(field: FieldInfo, *, inches: bool = False) -> str:
    if get_origin(field.annotation) is Literal:
        return "one of: " + ", ".join(str(choice) for choice in get_args(field.annotation))
    low, high = allowed_range(field)
    unit = (field.json_schema_extra or {}).get("unit", "")
    kind = "a whole number " if field.annotation is int else ""
    if low is None or high is None:
        return field.description or "as its help says"
    if inches and unit == "mm":
        # rounded inwards, so that what is said is allowed
        low = math.ceil(low / MM_PER_INCH * 1e4 - 1e-6) / 1e4
        high = math.floor(high / MM_PER_INCH * 1e4 + 1e-6) / 1e4
        return f"from {low:.10g} to {high:.10g} in"
    return f"{kind}from {low:g} to {high:g} {unit}".strip()


def _short(value: Any, longest: int = 40) -> str:
    text = " ".join((value if isinstance(value, str) else repr(value)).split())
    return text if len(text) <= longest else text[:longest] + "…"

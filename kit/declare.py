"""Say each quantity once: its name, unit, range and meaning.

Constructor checks, recipes in JSON, slider ranges and help texts all read the same
declaration, so they can not disagree.
"""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel, ConfigDict, Field, ValidationError
from pydantic.fields import FieldInfo

from kit.errors import KitError


def quantity(
    name: str,
    meaning: str,
    *,
    low: float,
    high: float,
    unit: str = "",
    default: Any = ...,
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
        "mm", "°", or nothing for a count.
    default : optional
        Left out, the number must be given.
    """
    return Field(
        default,
        ge=low,
        le=high,
        title=name,
        description=meaning,
        json_schema_extra={"unit": unit},
    )


class Declared(BaseModel):
    """A frozen, keyword-only object whose numbers were declared with `quantity`.

    Raises
    ------
    KitError
        On a missing, unknown or impossible value: one plain sentence.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    def __init__(self, **values: Any) -> None:
        try:
            super().__init__(**values)
        except ValidationError as error:
            raise KitError(_sentence(type(self), error)) from None


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
    name = str(first["loc"][0]) if first["loc"] else ""
    title = owner.__name__
    if first["type"] == "missing":
        return f"{title} needs a value for '{name}'. None was given."
    field = owner.model_fields.get(name)
    if field is None:
        known = ", ".join(owner.model_fields) or "nothing to set"
        return f"{title} has no '{name}'. It has: {known}."
    given = _short(first["input"])
    return f"{field.title or name} must be {_allowed(field)}. Given: {given}."


def _allowed(field: FieldInfo) -> str:
    low, high = allowed_range(field)
    unit = (field.json_schema_extra or {}).get("unit", "")
    kind = "a whole number " if field.annotation is int else ""
    if low is None or high is None:
        return field.description or "as its help says"
    return f"{kind}from {low:g} to {high:g} {unit}".strip()


def _short(value: Any, longest: int = 40) -> str:
    text = value if isinstance(value, str) else repr(value)
    return text if len(text) <= longest else text[:longest] + "…"

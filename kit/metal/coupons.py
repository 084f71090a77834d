"""An instructor's own etched coupons: read, kept in a small file, put before our guesses.

A coupon is a bit of one steel, etched with a part of it under tape. Under a dial gauge or
a focusing microscope the step beside the tape gives the depth; a scanner and a grey card
give the reflectance. The file is JSON, so that it can be read, mended and mailed.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from pydantic import Field, field_validator, model_validator

from kit.basics import files
from kit.basics.declare import Declared, quantity
from kit.basics.errors import KitError
from kit.forge.steels import Grade, steel
from kit.metal.bath import Strength

MEASURED = "measured on your coupon"
# How much is read; ours.
MOST = 200  # coupons in a file
LARGEST = 100 * 1024  # bytes
WHAT = "a file of coupons"
FORMAT = "kit-coupons-1"


class Coupon(Declared):
    """One reading of one steel.

    Attributes
    ----------
    reflectance : float, optional
        Linear light, 0 … 1, in the etched part.
    relief_um : float, optional
        Step from the part under tape down to the etched one, µm.
    """

    steel: str = Field(title="Steel", description="a steel on the rack")
    minutes: float = quantity("Etch time", "in the bath", low=0.1, high=600, unit="min")
    bath: Strength = Field(title="Bath", description="weak, usual or strong")
    reflectance: float | None = quantity(
        "Reflectance", "linear light", low=0, high=1, default=None
    )
    relief_um: float | None = quantity(
        "Relief", "step beside the tape", low=0, high=1000, unit="µm", default=None
    )
    date: dt.date = Field(title="Date", description="a day such as 2025-03-31")
    note: str = Field(
        "", title="Note", description="at most 200 characters", max_length=200
    )

    @field_validator("steel")
    @classmethod
    def _on_the_rack(cls, name: str) -> str:
        return steel(name).name

    @field_validator("date", mode="before")
    @classmethod
    def _written_out(cls, day: object) -> object:
        """Refuse numbers: pydantic would count them as seconds since 1970."""
        if isinstance(day, dt.date):
            return day
        try:
            return dt.date.fromisoformat(day)
        except (TypeError, ValueError):
            msg = f"Date must be a day such as 2025-03-31. Given: {repr(day)[:40]}."
            raise KitError(msg) from None

    @model_validator(mode="after")
    def _says_something(self) -> Coupon:
        if self.reflectance is None and self.relief_um is None:
            msg = f"A coupon needs a reflectance or a relief. Given: neither, {self.steel}."
            raise KitError(msg)
        return self


def latest(
    coupons: Iterable[Coupon], grade: Grade, bath: str
) -> tuple[Coupon | None, Coupon | None]:
    """Find the newest reading of relief and of reflectance of a steel in a bath."""
    own = [each for each in coupons if (each.steel, each.bath) == (grade.name, bath)]
    own.sort(key=lambda each: each.date)
    deep = [each for each in own if each.relief_um is not None]
    bright = [each for each in own if each.reflectance is not None]
    return (deep[-1] if deep else None), (bright[-1] if bright else None)


def parsed(raw: bytes) -> tuple[Coupon, ...]:
    """Make coupons of what a file holds, or an upload.

    Raises
    ------
    KitError
        If it is too large, no file of coupons, or holds a bad coupon.
    """
    held = files.of_format(files.decoded(raw, WHAT, LARGEST), WHAT, FORMAT)
    rows = held.get("coupons")
    if not isinstance(rows, list) or set(held) != {"coupons"}:
        msg = f"In {WHAT} stands 'coupons', a list of them, and no more."
        raise KitError(msg)
    _count(rows)
    return tuple(_coupon(number, row) for number, row in enumerate(rows, start=1))


def _coupon(number: int, row: object) -> Coupon:
    if not isinstance(row, dict):
        msg = f"Coupon {number} in the file must be a set of named values."
        raise KitError(msg)
    try:
        return Coupon(**{str(key): value for key, value in row.items()})
    except KitError as error:
        msg = f"Coupon {number} in the file: {error}"
        raise KitError(msg) from None


def _count(rows: object) -> None:
    if len(rows) > MOST:
        msg = f"A file holds at most {MOST} coupons. Given: {len(rows)}."
        raise KitError(msg)

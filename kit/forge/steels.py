"""The steels on the rack: composition by standard, density, part in the pattern.

The figures stand in `kit.forge.steel_table`, each with its source.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from kit.basics.claim import Claim, Kind
from kit.basics.errors import KitError
from kit.forge import steel_table


@dataclass(frozen=True, kw_only=True)
class Grade(Claim):
    """One steel (or nickel, or iron) as its standard defines it; read-only.

    Attributes
    ----------
    name, aliases : str, tuple of str
        As stamped on the bar, "1084", and other names for it.
    limits : tuple of (str, float, float)
        Element, least and most, weight per cent.
    contents : tuple of (str, float)
        Element and the content the kit computes with, weight per cent.
    density, density_source : float, str
        At room temperature, g/cm³, and where the figure comes from.
    note : str
        Its part in the etched pattern, as makers report it.

    Examples
    --------
    >>> bright = steel("15n20")
    >>> print(bright, bright.nominal["Ni"], bright.ranges["Ni"], bright.kind.value)
    15N20 2.0 (1.8, 2.1) from memory
    """

    says: str = "So much its standard allows of each element, and what it weighs."
    name: str
    aliases: tuple[str, ...]
    limits: tuple[tuple[str, float, float], ...]
    contents: tuple[tuple[str, float], ...]
    density: float
    density_source: str
    note: str

    @property
    def ranges(self) -> Mapping[str, tuple[float, float]]:
        """What the standard allows of each element, weight per cent."""
        return MappingProxyType({name: (low, high) for name, low, high in self.limits})

    @property
    def nominal(self) -> Mapping[str, float]:
        """What the kit computes with, weight per cent; iron is the balance."""
        return MappingProxyType(dict(self.contents))

    def __str__(self) -> str:
        return self.name


def steel(name: object) -> Grade:
    """Find a steel by name; capitals, spaces and hyphens do not matter.

    Parameters
    ----------
    name : str or number
        "15n20", "AISI 1084", 1084, or another name such as "75Ni8" or "1.5634".

    Raises
    ------
    KitError
        If no steel of that name is on the rack.

    Examples
    --------
    >>> steel("aisi 1084").name, steel("75 Ni 8").name, steel("nickel sheet").name
    ('1084', '15N20', 'nickel')
    """
    found = _BY_NAME.get(_key(str(name)))
    if found is None:
        shown = str(name) if len(str(name)) <= 40 else str(name)[:40] + "…"
        msg = f"I do not know a steel called {shown!r}. Known: {', '.join(GRADES)}."
        raise KitError(msg)
    return found


@lru_cache(maxsize=256)
def _key(name: str) -> str:
    """Reduce a name to letters and figures, without the name of the system."""
    plain = "".join(sign for sign in name.casefold() if sign.isalnum())
    return plain.removeprefix("aisi").removeprefix("sae").removeprefix("uns")


def _cells(table: str) -> Iterator[tuple[str, dict[str, str]]]:
    """Read a table of elements: each grade with its cells, dashes left out."""
    header, *rows = table.strip().splitlines()
    elements = header.split()[1:]
    for row in rows:
        name, *cells = row.rsplit(maxsplit=len(elements))
        pairs = zip(elements, cells, strict=True)
        yield name.strip(), {element: cell for element, cell in pairs if cell != "-"}


def _span(cell: str) -> tuple[float, float]:
    if cell.startswith("≤"):
        return 0.0, float(cell[1:])
    if cell.startswith("≥"):
        return float(cell[1:]), 100.0
    least, most = cell.split("-")
    return float(least), float(most)


def _rack() -> Iterator[Grade]:
    limits = dict(_cells(steel_table.LIMITS))
    contents = dict(_cells(steel_table.NOMINAL))
    notes = dict(_columns(steel_table.IN_THE_ETCH))
    for name, standard, known, density, origin, others in _columns(steel_table.ABOUT):
        yield Grade(
            name=name,
            aliases=tuple(others.split(", ")),
            source=steel_table.STANDARDS[standard],
            kind=Kind(known),
            seen=known == Kind.PUBLISHED.value,
            limits=tuple((key, *_span(cell)) for key, cell in limits[name].items()),
            contents=tuple((key, float(cell)) for key, cell in contents[name].items()),
            density=float(density),
            density_source=steel_table.DENSITIES[origin],
            note=notes[name],
        )


def _columns(table: str) -> Iterator[list[str]]:
    for row in table.strip().splitlines()[1:]:
        yield [cell.strip() for cell in row.split("|")]


GRADES: Mapping[str, Grade] = MappingProxyType({grade.name: grade for grade in _rack()})
_BY_NAME = {_key(name): one for one in GRADES.values() for name in (one.name, *one.aliases)}

"""The steels on the rack: composition by standard, density, part in the pattern.

The figures stand in `kit.forge.steel_table`, each with its source.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from math import isfinite
from types import MappingProxyType

from kit.basics.errors import KitError
from kit.forge import steel_table

# Standard atomic weights, abridged: IUPAC 2021, Pure and Applied Chemistry 94 (2022)
# 573-600, Table 3.
ATOMIC_WEIGHTS = MappingProxyType(
    {
        "C": 12.011,
        "Si": 28.085,
        "P": 30.974,
        "V": 50.942,
        "Cr": 51.996,
        "Mn": 54.938,
        "Fe": 55.845,
        "Ni": 58.693,
        "Mo": 95.95,
        "W": 183.84,
    }
)


@dataclass(frozen=True, kw_only=True)
class Grade:
    """One steel (or nickel, or iron) as its standard defines it; read-only.

    Attributes
    ----------
    name, aliases : str, tuple of str
        As stamped on the bar, "1084", and other names for it.
    standard : str
        The document that sets its ranges.
    status : str
        "published" if the ranges were compared with it, else "from memory".
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
    >>> print(bright, bright.nominal["Ni"], bright.ranges["Ni"], bright.status)
    15N20 2.0 (1.8, 2.1) from memory
    """

    name: str
    aliases: tuple[str, ...]
    standard: str
    status: str
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

    @property
    def source(self) -> str:
        """The standard, and whether the ranges were compared with it."""
        return f"{self.standard}; ranges {self.status}"

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
    ('1084', '15N20', 'nickel 200')
    """
    found = _BY_NAME.get(_key(name))
    if found is None:
        shown = str(name) if len(str(name)) <= 40 else str(name)[:40] + "…"
        msg = f"I do not know a steel called {shown!r}. Known: {', '.join(GRADES)}."
        raise KitError(msg)
    return found


def mean_composition(parts: Iterable[tuple[Grade, float]]) -> dict[str, float]:
    """Find what a stack would be, melted together or soaked until even.

    Parameters
    ----------
    parts : iterable of (Grade, float)
        Each bar's steel and thickness in mm (above 0); all of one length and width.

    Returns
    -------
    dict
        Weight per cent of each element; iron is the balance. A balance of masses,
        so a bar counts by thickness times density.

    Raises
    ------
    KitError
        If there is no bar, or one without thickness.

    Examples
    --------
    >>> bars = [(steel("1084"), 3.175)] * 6 + [(steel("15N20"), 1.5875)] * 5
    >>> mean = mean_composition(bars)
    >>> round(mean["C"], 3), round(mean["Ni"], 2)
    (0.814, 0.59)
    """
    sums: dict[str, float] = {}
    total = 0.0
    for grade, thickness in parts:
        if not (isfinite(thickness) and thickness > 0):
            msg = f"A bar must be thicker than 0 mm. Given: {thickness} mm of {grade}."
            raise KitError(msg)
        mass = thickness * grade.density
        total += mass
        for element, percent in grade.contents:
            sums[element] = sums.get(element, 0.0) + mass * percent
    if total == 0:
        msg = "A mean needs at least one bar. Given: none."
        raise KitError(msg)
    return {element: weight / total for element, weight in sums.items()}


def weight_to_atom_percent(weights: Mapping[str, float]) -> dict[str, float]:
    """Turn weight per cent into atom per cent: how many atoms in a hundred.

    Parameters
    ----------
    weights : mapping
        Weight per cent by element, 0 to 100 together; iron is the balance.

    Returns
    -------
    dict
        Atom per cent by element, with iron, 100 together.

    Raises
    ------
    KitError
        If an element is unknown, or the contents are impossible.

    Examples
    --------
    >>> round(weight_to_atom_percent({"C": 0.84})["C"], 2)
    3.79
    """
    unknown = [element for element in weights if element not in ATOMIC_WEIGHTS]
    if unknown:
        msg = f"I have no atomic weight of {unknown[0]!r}, only of "
        raise KitError(msg + ", ".join(ATOMIC_WEIGHTS) + ".")
    others = sum(percent for element, percent in weights.items() if element != "Fe")
    if min(weights.values(), default=0) < 0 or not others <= 100:
        msg = f"Contents must be 0 to 100 % together. Given: {dict(weights)}."
        raise KitError(msg)
    whole = {**weights, "Fe": 100 - others}
    moles = {name: percent / ATOMIC_WEIGHTS[name] for name, percent in whole.items()}
    total = sum(moles.values())
    return {name: 100 * amount / total for name, amount in moles.items()}


def _key(name: object) -> str:
    """Reduce a name to letters and figures, without the name of the system."""
    plain = "".join(sign for sign in str(name).casefold() if sign.isalnum())
    return plain.removeprefix("aisi").removeprefix("sae")


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
    about = _columns(steel_table.ABOUT)
    for name, standard, status, density, origin, others in about:
        yield Grade(
            name=name,
            aliases=tuple(others.split(", ")),
            standard=steel_table.STANDARDS[standard],
            status=status,
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
_BY_NAME = {
    _key(name): grade for grade in GRADES.values() for name in (grade.name, *grade.aliases)
}

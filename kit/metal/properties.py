"""Density, stiffness and expansion of a stack, and the strain when bars shrink unequally.

Layers share a load along the bar and pass it on across it: the rule of mixtures, Callister
& Rethwisch, Materials Science and Engineering, 9th ed., eqs. 16.10 and 16.16. All figures
are for room temperature. Steels of one family differ by nothing that matters: a pattern
makes a blade neither stiffer nor lighter.

Leaves out: yielding; that steel expands more per degree when hot; the swelling when it
turns to martensite, larger than most of what is computed here.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import fsum, isfinite

from kit.basics.errors import KitError
from kit.forge.steels import Grade
from kit.metal.solidus import both

Parts = Iterable[tuple[Grade, float]]

# °C. Above it the coefficients at room temperature are too far off to use.
HOTTEST = 430.0


@dataclass(frozen=True, kw_only=True)
class Physical:
    """Young's modulus in GPa and expansion in millionths per °C, at room temperature."""

    modulus: float
    expansion: float
    source: str


_BOOK = "Callister & Rethwisch, Materials Science and Engineering, Tables B.2 and B.6"
# Published coefficients of one steel differ by about 1 millionth.
_FAMILIES = {
    "low carbon": Physical(modulus=207, expansion=11.7, source=f"{_BOOK}: 1020"),
    "carbon": Physical(modulus=207, expansion=11.3, source=f"{_BOOK}: 1040"),
    "low-alloy": Physical(modulus=207, expansion=12.3, source=f"{_BOOK}: 4140, 4340"),
    "304": Physical(modulus=193, expansion=17.2, source=f"{_BOOK}: 304"),
    "316": Physical(modulus=193, expansion=16.0, source=f"{_BOOK}: 316"),
    "440C": Physical(modulus=200, expansion=10.2, source=f"{_BOOK}: 440A"),
    "nickel": Physical(
        modulus=204, expansion=13.3, source=f"{_BOOK}: UNS N02200; modulus from memory"
    ),
    "iron": Physical(
        modulus=207, expansion=11.8, source="Callister, Table 19.1: iron; modulus as steel"
    ),
}
_MEMBERS = {
    "low carbon": ("1018",),
    "carbon": ("1075", "1080", "1084", "1095", "W1", "W2"),
    "low-alloy": ("5160", "52100", "15N20", "80CrV2", "L6", "O1"),
    "304": ("304",),
    "316": ("316",),
    "440C": ("440C",),
    "nickel": ("nickel",),
    "iron": ("wrought iron",),
}
_BY_NAME = {name: _FAMILIES[family] for family, names in _MEMBERS.items() for name in names}


def physical(grade: Grade) -> Physical:
    """Look up stiffness and expansion of a grade, and the steel they were taken from.

    Raises `KitError` for a grade that is not on the rack.
    """
    if grade.name not in _BY_NAME:
        msg = f"I have no stiffness and expansion of {grade.name[:40]!r}, only of "
        raise KitError(msg + ", ".join(_BY_NAME) + ".")
    return _BY_NAME[grade.name]


def mean_along(values: Sequence[float], widths: Sequence[float]) -> float:
    """Average values of layers that share a load side by side, by their widths.

    Examples
    --------
    >>> round(mean_along((70, 3), (0.6, 0.4)), 1)
    43.2
    """
    parts = zip(values, _shares(widths), strict=True)
    return fsum(value * share for value, share in parts)


def mean_across(values: Sequence[float], widths: Sequence[float]) -> float:
    """Average values of layers that pass a load on, each with its fraction of the width.

    Examples
    --------
    >>> round(mean_across((70, 3), (0.6, 0.4)), 2)
    7.05
    """
    parts = zip(values, _shares(widths), strict=True)
    return 1 / fsum(share / value for value, share in parts)


def density(parts: Parts) -> float:
    """Give the density of a stack in g/cm³.

    Parameters
    ----------
    parts : iterable of (Grade, float)
        Each bar's steel and thickness in mm (above 0); all of one length and width.

    Raises
    ------
    KitError
        If there is no bar, or one without thickness.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> round(density([(steel("1084"), 3), (steel("nickel"), 1)]), 3)
    8.113
    """
    grades, widths = _bars(parts)
    return mean_along([grade.density for grade in grades], widths)


def modulus_along(parts: Parts) -> float:
    """Give Young's modulus along the layers, in GPa; parts as for `density`."""
    grades, widths = _bars(parts)
    return mean_along([physical(grade).modulus for grade in grades], widths)


def modulus_across(parts: Parts) -> float:
    """Give Young's modulus across the layers, in GPa; parts as for `density`."""
    grades, widths = _bars(parts)
    return mean_across([physical(grade).modulus for grade in grades], widths)


def expansion_along(parts: Parts) -> float:
    """Give the expansion along the layers, millionths per °C: the stiffer pull harder."""
    grades, widths = _bars(parts)
    figures = [physical(grade) for grade in grades]
    pulls = [figure.modulus * width for figure, width in zip(figures, widths, strict=True)]
    return mean_along([figure.expansion for figure in figures], pulls)


def expansion_across(parts: Parts) -> float:
    """Give the expansion through the layers, millionths per °C, each free by itself."""
    grades, widths = _bars(parts)
    return mean_along([physical(grade).expansion for grade in grades], widths)


def mismatch(first: Grade, second: Grade) -> float:
    """Say by how much more the second expands than the first, millionths per °C.

    Below about 1.5 it means nothing: published coefficients differ by as much.
    """
    return physical(second).expansion - physical(first).expansion


def cooling_strain(
    first: Grade, second: Grade, cooled_from: float, cooled_to: float = 20.0
) -> float:
    """Say by how much more the second would shrink than the first, were both free.

    Parameters
    ----------
    first, second : Grade
    cooled_from, cooled_to : float
        °C, -196 to 430 each.

    Returns
    -------
    float
        mm per mm; negative if the second shrinks less. Between carbon and austenitic
        steel too much by a tenth from 200 °C, by a quarter from 430 °C: the gap narrows.

    Raises
    ------
    KitError
        Outside of those temperatures.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> round(cooling_strain(steel("1084"), steel("304"), 430) * 1000, 1)
    2.4
    """
    return mismatch(first, second) * 1e-6 * _drop(cooled_from, cooled_to)


def layer_strains(
    parts: Parts, cooled_from: float, cooled_to: float = 20.0
) -> tuple[float, ...]:
    """Say how far each bar of a welded stack is stretched when it has cooled.

    Parameters
    ----------
    parts : iterable of (Grade, float)
        As for `density`, laid evenly, so that the stack stays straight.
    cooled_from, cooled_to : float
        °C, -196 to 430 each; free of stress at the first.

    Returns
    -------
    tuple of float
        mm per mm for each bar: positive stretched, negative squeezed. The forces of all
        bars cancel.

    Raises
    ------
    KitError
        As `density` and `cooling_strain`.

    Examples
    --------
    >>> from kit.forge.steels import steel
    >>> bars = [(steel("1084"), 1), (steel("304"), 1)]
    >>> [round(strain * 1000, 2) for strain in layer_strains(bars, 430)]
    [-1.17, 1.25]
    """
    bars = list(parts)
    drop = _drop(cooled_from, cooled_to)
    whole = expansion_along(bars)
    return tuple((physical(grade).expansion - whole) * 1e-6 * drop for grade, _ in bars)


def _drop(cooled_from: float, cooled_to: float) -> float:
    for heat in (cooled_from, cooled_to):
        if not -196 <= heat <= HOTTEST:
            msg = f"Shrinking is computed from {both(-196)} to {both(HOTTEST)}. "
            raise KitError(msg + f"Given: {heat:g} °C ({heat * 1.8 + 32:g} °F).")
    return cooled_from - cooled_to


def _bars(parts: Parts) -> tuple[list[Grade], list[float]]:
    bars = list(parts)
    if not bars:
        msg = "A stack needs at least one bar. Given: none."
        raise KitError(msg)
    for grade, width in bars:
        if not (isfinite(width) and width > 0):
            msg = f"A bar must be thicker than 0 mm. Given: {width} mm of {grade}."
            raise KitError(msg)
    return [grade for grade, _ in bars], [width for _, width in bars]


def _shares(widths: Sequence[float]) -> list[float]:
    total = fsum(widths)
    return [width / total for width in widths]

"""Two steels in one billet: what evens out, what shows, whether they harden together.

The figures are for bars of equal thickness unless said otherwise. Contrast is illustrative
(see `kit.metal.etch`); the other figures have their sources in the modules they come from.

Leaves out: that carbon comes to rest a few per cent higher in plain steel than beside it in
nickel steel (see `kit.metal.activity`); what slag and phosphorus show in the etch.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from typing import NamedTuple

from kit.basics.units import rounded
from kit.forge.steels import GRADES, Grade, steel
from kit.metal.cautions import (
    REASONS,
    Reason,
    Weight,
    carbon_apart,
    cautions,
)
from kit.metal.colour import contrast_ratio
from kit.metal.contents import mean_composition
from kit.metal.etch import reflectance
from kit.metal.hardening import (
    EDGE_CARBON,
    HANDBOOK,
    HARDENABLE_CARBON,
    THEN,
    as_quenched,
    grade_window,
    hardening_window,
    hardens,
    never_turns,
    nickel,
    overlap,
    span,
    stainless,
)


class Hardening(NamedTuple):
    """Whether a pair hardens together: low to high in °C, or None, and a sentence."""

    heats: tuple[float, float] | None
    short: str
    sentence: str


def hardest(mean: float) -> str:
    """Say how hard a mean of carbon can get in the quench, if at all, in a sentence."""
    if mean < HARDENABLE_CARBON:
        return ""
    return f"The mean is {rounded(mean, 2)} % carbon: {_at_most(mean)}."


def _at_most(mean: float) -> str:
    return f"{as_quenched(mean):.0f} HRC at most from the quench"


def published(grades: Sequence[Grade]) -> str:
    """Give the handbook's hardening heat of each grade by itself, where there is one."""
    known = [f"{g} {span(HANDBOOK[g.name])}" for g in grades if g.name in HANDBOOK]
    return f" Handbook, each by itself: {', '.join(known)}." if known else ""


def evened_hardening(evened: Sequence[Grade], mean: float) -> Hardening:
    """Judge plain and low-alloy steels whose carbon has evened out to the mean."""
    if mean < HARDENABLE_CARBON:
        why = f"too little, for it takes about {HARDENABLE_CARBON:g} %"
        sentence = f"Neither hardens. The mean is {rounded(mean, 2)} % carbon: {why}."
        return Hardening(None, "neither", sentence)
    windows = [hardening_window(grade.nominal) for grade in evened]
    heats = overlap(*windows)
    if heats is None:
        sentence = " and ".join(
            f"{grade} hardens at {span(window)}"
            for grade, window in zip(evened, windows, strict=True)
        )
        return Hardening(None, "not together", f"Not together: {sentence}. {THEN}")
    short = span(heats)
    sentence = f"Both harden at {short}, evened out to {rounded(mean, 2)} % carbon. {THEN}"
    if mean < EDGE_CARBON:
        sentence += f" {_at_most(mean)}: no edge."
        short = "no edge"
    return Hardening(heats, short, sentence + published(evened))


def unlike_hardening(first: Grade, second: Grade) -> Hardening:
    """Judge a pair with stainless steel or nickel in it, each with its own carbon."""
    able = [grade for grade in (first, second) if hardens(grade)]
    heats = overlap(*map(grade_window, able)) if len(able) == 2 else None
    if heats is not None:
        short = span(heats)
        return Hardening(heats, short, f"Both harden at {short}. {THEN}")
    if len(able) == 2:
        needs = " and ".join(f"{grade} {span(grade_window(grade))}" for grade in able)
        return Hardening(None, "not together", f"Not together: {needs}. {THEN}")
    if not able:
        return Hardening(None, "neither", "Neither hardens.")
    window = grade_window(able[0])
    soft = second if able[0] is first else first
    why = never_turns(soft) or "it has too little carbon"
    return Hardening(
        (window.low, window.high),
        f"only {able[0]}: {span(window)}",
        f"Only {able[0]} hardens, at {span(window)}; {soft} stays soft: {why}. {THEN}",
    )


ELEMENTS = ("C", "Ni", "Cr", "Mn")

# Ratio of brightness, from which on it is called so; ours, no source.
_CONTRASTS = ((3.0, "strong"), (1.5, "clear"), (1.2, "faint"), (1.0, "none"))

HEADINGS = (
    "Pair",
    "Carbon: step, mean",
    "Nickel",
    "Chromium",
    "Manganese",
    "Contrast: stacked, evened",
    "Quench from",
    "Watch for",
)


@dataclass(frozen=True, kw_only=True)
class Pair:
    """Two grades laid on each other, ``widths`` thick, in mm.

    ``carbon`` is the mean, per cent, of a larger stack that they lie in, if they do.
    """

    first: Grade
    second: Grade
    widths: tuple[float, float] = (1.0, 1.0)
    carbon: float | None = None

    def __str__(self) -> str:
        return f"{self.first} / {self.second}"

    @property
    def differences(self) -> Mapping[str, float]:
        """The second less the first, in weight per cent, of each of `ELEMENTS`."""
        first, second = self.first.nominal, self.second.nominal
        return {key: second.get(key, 0.0) - first.get(key, 0.0) for key in ELEMENTS}

    @property
    def evens_out(self) -> bool:
        """Whether carbon spreads to one mean: not into stainless steel, nor into nickel."""
        return not any(
            stainless(grade) or nickel(grade) for grade in (self.first, self.second)
        )

    @property
    def mean_carbon(self) -> float | None:
        """Per cent of carbon once it has evened out, or None if it does not."""
        if not self.evens_out:
            return None
        if self.carbon is not None:
            return self.carbon
        parts = zip((self.first, self.second), self.widths, strict=True)
        return mean_composition(parts)["C"]

    @property
    def evened(self) -> tuple[Grade, Grade]:
        """Both grades with the mean carbon, everything else as it was."""
        mean = self.mean_carbon
        grades = (self.first, self.second)
        if mean is None:
            return grades
        return tuple(
            replace(grade, contents=tuple({**grade.nominal, "C": mean}.items()))
            for grade in grades
        )

    @property
    def _slaggy(self) -> bool:
        # Threads of slag and phosphorus show whatever the etch, which knows neither, says:
        # Thiele, Hošek et al., Archeologia technica 25 (2014) 18-24.
        return any(grade.nominal.get("P", 0) > 0.1 for grade in (self.first, self.second))

    @property
    def contrast(self) -> float:
        """How much brighter one etches than the other, 1 or more: illustrative."""
        return _contrast(self.first, self.second)

    @property
    def contrast_evened(self) -> float:
        """The same once carbon has evened out: what is left to see in thin layers."""
        return _contrast(*self.evened)

    @property
    def shows_by_hardening(self) -> bool:
        """Whether both are stainless and only one turns to martensite in the quench.

        That one etches dark, which the tones, made from contents alone, cannot know.
        """
        grades = (self.first, self.second)
        turns = {never_turns(grade) is None for grade in grades}
        return all(map(stainless, grades)) and turns == {True, False}

    @property
    def contrasts(self) -> tuple[str, str]:
        """Say the contrast in words: as stacked, and once carbon has evened out."""
        if self.shows_by_hardening:
            return "once hardened", "–"
        evened = contrast_word(self.contrast_evened) if self.evens_out else "–"
        return contrast_word(self.contrast), evened

    @property
    def hardening(self) -> Hardening:
        """Whether one heat hardens both, carbon evened out."""
        if self.mean_carbon is None:
            return unlike_hardening(self.first, self.second)
        return evened_hardening(self.evened, self.mean_carbon)

    @property
    def reasons(self) -> tuple[Reason, ...]:
        """What to mind, the heaviest first."""
        found = list(cautions(self.first, self.second))
        mean = self.mean_carbon
        if mean is not None:
            found += carbon_apart(self.first, self.second)
            if mean < EDGE_CARBON:
                found.append(replace(REASONS["too lean"], detail=hardest(mean)))
        elif hardens(self.first) and hardens(self.second) and self.hardening.heats is None:
            found.append(REASONS["different heats"])
        if self.shows_by_hardening:
            found.append(REASONS["hardened dark"])
        elif contrast_word(self.contrast_evened) == "none" and not self._slaggy:
            found.append(REASONS["no pattern" if self.evens_out else "alike"])
        order = list(Weight)
        return tuple(sorted(found, key=lambda reason: order.index(reason.weight)))


def pair(first: object, second: object, widths: tuple[float, float] = (1.0, 1.0)) -> Pair:
    """Put two steels of the rack together.

    Parameters
    ----------
    first, second : str
        Names as for `kit.forge.steels.steel`.
    widths : (float, float)
        Thickness of each, mm, above 0. Only their ratio counts.

    Raises
    ------
    KitError
        For an unknown steel or a bar without thickness.

    Examples
    --------
    >>> two = pair("1084", "15N20", (3.175, 1.5875))
    >>> round(two.mean_carbon, 2), contrast_word(two.contrast_evened)
    (0.81, 'strong')
    >>> [reason.name for reason in two.reasons]
    ['nickel']
    >>> two.hardening.short
    '781–830 °C (1437–1526 °F)'
    """
    grades = steel(first), steel(second)
    mean_composition(zip(grades, widths, strict=True))  # refuses impossible widths
    return Pair(first=grades[0], second=grades[1], widths=widths)


def contrast_word(ratio: float) -> str:
    """Say a ratio of brightness in a word: none, faint, clear, strong."""
    return next(word for least, word in _CONTRASTS if ratio >= least)


def pairs(names: Iterable[object] = tuple(GRADES)) -> tuple[Pair, ...]:
    """Give every pair of the named grades: of the whole rack, if none are named."""
    return tuple(pair(first, second) for first, second in combinations(names, 2))


def row(two: Pair) -> tuple[str, ...]:
    """Write a pair as cells under `HEADINGS`, for a lesson or for print.

    Examples
    --------
    >>> row(pair("1095", "O1"))[:5]
    ('1095 / O1', '0.03 %, 0.93 %', '–', '0.50 %', '0.80 %')
    """
    steps = {key: rounded(abs(step), 2) for key, step in two.differences.items()}
    mean = two.mean_carbon
    metals = (f"{steps[key]} %" if two.differences[key] else "–" for key in ELEMENTS[1:])
    return (
        str(two),
        f"{steps['C']} %, " + ("–" if mean is None else f"{rounded(mean, 2)} %"),
        *metals,
        ", ".join(two.contrasts),
        two.hardening.short,
        ", ".join(reason.name for reason in two.reasons) or "–",
    )


def _contrast(first: Grade, second: Grade) -> float:
    return float(contrast_ratio(reflectance(first), reflectance(second)))

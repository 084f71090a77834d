"""Whether two steels harden in one heat, with the carbon they end up with."""

from collections.abc import Sequence
from dataclasses import dataclass

from kit.forge.steels import Grade
from kit.metal.hardening import (
    HANDBOOK,
    grade_window,
    hardening_window,
    hardens,
    never_turns,
    overlap,
    span,
)
from kit.metal.hardness import EDGE_CARBON, LEAST_CARBON, as_quenched
from kit.metal.tempering import THEN


@dataclass(frozen=True, kw_only=True)
class Hardening:
    """Whether a pair hardens together: low to high in °C, or None, and a sentence."""

    heats: tuple[float, float] | None
    short: str
    sentence: str


def hardest(mean: float) -> str:
    """Say how hard a mean of carbon can get in the quench, in a sentence."""
    if mean < LEAST_CARBON:
        return f"The mean is {mean:.2f} % carbon: next to nothing to harden."
    return (
        f"The mean is {mean:.2f} % carbon: "
        f"{as_quenched(mean).all_martensite:.0f} HRC at most from the quench."
    )


def published(grades: Sequence[Grade]) -> str:
    """Give the handbook's hardening heat of each grade by itself, where there is one."""
    known = [f"{g} {span(HANDBOOK[g.name])}" for g in grades if g.name in HANDBOOK]
    return f" Handbook, each by itself: {', '.join(known)}." if known else ""


def evened_hardening(evened: Sequence[Grade], mean: float) -> Hardening:
    """Judge plain and low-alloy steels whose carbon has evened out to the mean."""
    windows = [hardening_window(grade.nominal) for grade in evened]
    heats = overlap(*windows)
    if heats is None:
        sentence = " and ".join(
            f"{grade} hardens at {span(window)}"
            for grade, window in zip(evened, windows, strict=True)
        )
        return Hardening(
            heats=None,
            short="not together",
            sentence=f"Not together: {sentence}. {THEN}",
        )
    short = span(heats)
    sentence = f"Both harden at {short}. {THEN}" + published(evened)
    if mean < EDGE_CARBON:
        return Hardening(
            heats=heats, short="no edge", sentence=f"{sentence} {hardest(mean)}"
        )
    return Hardening(heats=heats, short=short, sentence=sentence)


def unlike_hardening(first: Grade, second: Grade) -> Hardening:
    """Judge a pair with stainless steel or nickel in it, each with its own carbon."""
    able = [grade for grade in (first, second) if hardens(grade)]
    if len(able) == 2:
        needs = " and ".join(f"{grade} {span(grade_window(grade))}" for grade in able)
        return Hardening(
            heats=None, short="not together", sentence=f"Not together: {needs}. {THEN}"
        )
    if not able:
        return Hardening(heats=None, short="neither", sentence="Neither hardens.")
    window = grade_window(able[0])
    soft = second if able[0] is first else first
    why = never_turns(soft) or "it has too little carbon"
    return Hardening(
        heats=(window.low, window.high),
        short=f"only {able[0]}: {span(window)}",
        sentence=f"Only {able[0]} hardens, at {span(window)}; {soft} stays soft: {why}. "
        f"{THEN}",
    )

"""The steps of a card: what is done, to which size, how hot, how heavy, how many layers."""

from collections.abc import Iterable
from typing import NamedTuple

from kit.basics.units import Units, both, format_length
from kit.course.anvil import void
from kit.course.anvil.acts import Laid
from kit.course.anvil.desk import Desk
from kit.course.anvil.history import MOST_ACTS, History
from kit.course.anvil.void import Flaws
from kit.forge.billet import Billet
from kit.forge.bundle import Bundle
from kit.forge.steps import Place, Size, Step
from kit.metal.working_heat import warned
from kit.shop.losses import taken, weight
from kit.shop.plan import Plan
from kit.shop.recipes.recipe import Recipe


class Operation(NamedTuple):
    """One line of a card. What is not known is None; `work` is its name without details.

    `number` is its step's as the forge's history has it, 0 the stack; of a plan, its
    work's. `open` is whether its weld did not take; `heats`, of a plan, how many, at how
    many °C.
    """

    number: str
    work: str
    told: str
    size: Size
    heat: str
    grams: float
    layers: int | None
    done_at: tuple[Place, ...]
    open: bool = False
    heats: tuple[int, float] = (0, 0.0)


def of_plan(plan: Plan) -> list[Operation]:
    """List a plan's work; drawing out and its scale are one line."""
    rows: list[Operation] = []
    layers, heats = plan.pieces, (0, 0.0)
    for stage in plan.stages():
        work = stage.work
        if work.heats:
            heats = work.heats, work.celsius
        if work.name == "draw out":
            continue
        layers *= work.pieces
        told = "draw out" if work.name == "draw to size" else work.name
        many, celsius = heats
        heat = f"{many} × {both(celsius)}" if many else "–"
        rows.append(
            Operation(
                *(f"{len(rows) + 1}", told, told, stage.after, heat),
                *(stage.grams_after, layers),
                work.done_at,
                heats=heats,
            )
        )
        heats = (0, 0.0)
    return rows


def of_any(given: Plan | Recipe, units: Units = Units.MM) -> list[Operation]:
    """List the work of a plan, or a recipe's steps and which welds of it did not take.

    Raises
    ------
    KitError
        If these are of steps that its bar does not have.
    """
    if isinstance(given, Plan):
        return of_plan(given)
    return of_billet(given.billet, units, found=Desk.of_recipe(given).flaws)


def not_taken(rows: Iterable[Operation]) -> str:
    """Say which welds of a list did not take, by their steps' numbers; nothing if none.

    A weld that lies in several pieces of a bar is one.
    """
    return void.not_taken(dict.fromkeys((row.number, row.work) for row in rows if row.open))


def of_billet(
    billet: Billet,
    units: Units = Units.MM,
    name: str = "",
    found: Flaws = ((),),
    letters: str = "",
    most: int = MOST_ACTS,
) -> list[Operation]:
    """List the steps of a billet; those of a bundle's unlike bars first, each once.

    `found` are its welds that did not take, then those of the bars laid in it; `letters`
    stand before the numbers of an unlike bar's steps; after `most` they are of its laying.
    """
    rows: list[Operation] = []
    missed, start = {flaw.step for flaw in found[0]}, 0
    if isinstance(billet.source, Bundle):
        laid = Laid.of(billet.source)
        start = len(History.of(laid[1]).acts) + 1 if laid else 0
        for bar, letter, times in unlike(billet.source):
            count = f"{times} bars" if times > 1 else "1 bar"
            called, inner = f"{name}{letter} ({count}): ", found[1:] or ((),)
            # pieces cut from one bar have its numbers; unlike bars have a letter each
            own = ("", min(start, most)) if laid else (letter[-1], MOST_ACTS)
            rows += of_billet(bar, units, called, inner, letters + own[0], own[1])
        whole = Billet(source=billet.source)
        told = f"{name}lay the bars {billet.source.laid}, weld"
        done_at = (Place.FIRE, Place.SAW, Place.GRINDER)
        rows.append(_begun(f"{letters}{start}", whole, "bundle", told, done_at))
    else:
        told = f"{name}stack and weld"
        rows.append(_begun(f"{letters}0", billet[:0], "weld", told, (Place.FIRE,)))
    for done, step in enumerate(billet.steps, 1):
        before, part = billet[: done - 1], billet[:done]
        minded = taken(before, part, step.takes), warned(step, before.size)
        missing, named = f"{void.HERE}." * (done in missed), step.named(before.size)
        told = f"{name}{details(step, named, units)}"
        told = ". ".join(filter(None, (told, missing, *minded)))
        rows.append(
            Operation(
                *(f"{letters}{min(start + done, most)}", named, told, part.size),
                *(_heat(step), weight(part), _counted(part)),
                step.done_at,
                done in missed,
            )
        )
    return rows


def _begun(
    number: str, billet: Billet, work: str, told: str, done_at: tuple[Place, ...]
) -> Operation:
    size, grams, layers = billet.size, weight(billet), _counted(billet)
    return Operation(number, work, told, size, "–", grams, layers, done_at)


def unlike(bundle: Bundle) -> list[tuple[Billet, str, int]]:
    """Give each kind of bar in a bundle once, with a letter and how many there are.

    Two that differ as a hand's work does, by their seeds alone, are one kind.
    """
    kinds: list[list] = []
    for bar in bundle.bars:
        known = next((one for one in kinds if _by_hand(one[0]) == _by_hand(bar)), None)
        if known:
            known[1] += 1
        else:
            kinds.append([bar, 1])
    return [(bar, f"bar {chr(65 + at)}", times) for at, (bar, times) in enumerate(kinds)]


def _by_hand(bar: Billet) -> tuple:
    return bar.source, [
        step.model_copy(update={"seed": 0}) if hasattr(step, "seed") else step
        for step in bar.steps
    ]


def details(step: Step, named: str, units: Units = Units.MM) -> str:
    """Say a step, named as the trade would, with what was set about it.

    Examples
    --------
    >>> from kit.forge.steps import Twist
    >>> details(Twist(turn_length=44, hand="left"), "twist")
    'twist: length for one turn 44.0 mm, left'
    """
    if not step.to_measure:
        return named
    parts = []
    for key, value in step.said.items():
        field = type(step).model_fields[key]
        unit = (field.json_schema_extra or {}).get("unit", "")
        called = (field.title or "").lower()
        shown = value
        if unit == "mm":
            shown = format_length(value, units)
        elif isinstance(value, float):
            shown = f"{value:.12g}{' ' if unit.isalpha() else ''}{unit}"
        parts.append(f"{called} {shown}".strip())
    return f"{named}: {', '.join(parts)}" if parts else named


def seeds(billet: Billet) -> list[int]:
    """List the seeds of everything that was left to chance, bundles' bars first."""
    found = []
    if isinstance(billet.source, Bundle):
        found = [seed for bar in billet.source.bars for seed in seeds(bar)]
    found += [step.seed for step in billet.steps if hasattr(step, "seed")]
    return list(dict.fromkeys(found))


def _counted(billet: Billet) -> int | None:
    return billet.layers if billet.tally.even else None


def _heat(step: Step) -> str:
    if step.heat is None:
        return "–"
    return f"{both(step.heat.celsius)}, {step.heat.minutes:g} min"

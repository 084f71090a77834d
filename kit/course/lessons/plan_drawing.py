"""The staircase of weight from the rack to the bar, where it went, and what to saw."""

from string import ascii_uppercase

from kit.basics.units import (
    Units,
    format_cut_length,
    format_length,
    format_weight,
    rounded,
    whole_parts,
)
from kit.forge.steels import steel
from kit.metal import etch
from kit.section.picture import ACCENT, GHOST, INK, LETTERS, QUIET, Sheet, to_srgb
from kit.shop.plan import Plan, Stage
from kit.shop.sawing import cut_list

STAIRS = (40, 66, 550, 196)  # left, top, width, height
REASONS = (684, 66, 294, 176)
BARS = (40, 330, 940)  # left, top, width
HATCH = 7  # pixels between the lines of what is lost


def lost_by_reason(stages: list[Stage]) -> dict[str, float]:
    """Add up the grams that each reason took, the greatest first."""
    lost: dict[str, float] = {}
    for stage in stages:
        gone = stage.grams_before - stage.grams_after
        if gone > 1e-6:
            lost[stage.work.reason] = lost.get(stage.work.reason, 0) + gone
    return dict(sorted(lost.items(), key=lambda pair: -pair[1]))


def grams_lost(plan: Plan) -> dict[str, int]:
    """Give the whole grams that are printed of each: from those in, those out are left."""
    come, out = (int(rounded(one)) for one in (plan.grams_in, plan.grams_out))
    return whole_parts(lost_by_reason(plan.stages()), come - out)


def lettered(stages: list[Stage]) -> dict[str, str]:
    """Give each reason for a loss a letter, the greatest first: a stair has no room."""
    return dict(zip(lost_by_reason(stages), ascii_uppercase, strict=False))


def stairs(sheet: Sheet, stages: list[Stage], units: Units) -> None:
    """Draw the weight going down, one step for each loss, named by its reason's letter."""
    left, top, wide, high = STAIRS
    sheet.text("Weight, from the rack to the last grind", (left, 12), size=18)
    full, foot = stages[0].grams_before, top + high
    steps = [stage for stage in stages if stage.grams_before - stage.grams_after > 1e-6]
    each = wide / (len(steps) + 1)
    _column(sheet, left, each, foot, high, "cut")
    letters = lettered(stages)
    for number, stage in enumerate(steps, 1):
        x = left + number * each
        before, after = (high * g / full for g in (stage.grams_before, stage.grams_after))
        _lost(sheet, (x, foot - before), (x + each, foot - after))
        name = str(_cycle(stages, stage)) if stage.work.name == "weld" else ""
        _column(sheet, x, each, foot, after, name)
        high_enough = after > sheet.letters + 7
        place = (x + each / 2, foot - (5 if high_enough else before + 4))
        sheet.text(letters[stage.work.reason], place, anchor="mb", gives_way=True)
    sheet.line([(left, foot), (left + wide, foot)], width=2)
    sheet.text(format_weight(full, units), (left + 2, top - 5), size=16, anchor="lb")
    out = stages[-1].grams_after
    place = (left + wide + 6, foot - high * out / full)  # beside the last step
    sheet.text(format_weight(out, units), place, size=16, anchor="lm")
    welds = any(stage.work.name == "weld" for stage in steps)
    words = "numbers: welds; " * welds + "letters: what took it" * bool(steps)
    sheet.text(words, (left + wide, 12 + 1.3 * sheet.row), ink=QUIET, anchor="ra")


def _cycle(stages: list[Stage], stage: Stage) -> int:
    welds = [one for one in stages if one.work.name == "weld"]
    return welds.index(stage) + 1


def _column(
    sheet: Sheet, x: float, each: float, foot: float, high: float, name: str
) -> None:
    sheet.box((x, foot - high), (x + each, foot), fill=GHOST, ink=INK)
    if name:
        sheet.text(name, (x + each / 2, foot + 4), anchor="ma", gives_way=True)


def _lost(sheet: Sheet, corner: tuple[float, float], opposite: tuple[float, float]) -> None:
    """Hatch what is lost: it must show without colour."""
    (x, top), (right, foot) = corner, opposite
    sheet.box(corner, opposite, fill=sheet.page, ink=ACCENT)
    y = top
    while y < foot:
        sheet.line([(x, y), (right, y)], ink=ACCENT, width=2)
        y += HATCH


def reasons(sheet: Sheet, plan: Plan, units: Units) -> None:
    """Draw what each reason took, the greatest first."""
    left, top, wide, high = REASONS
    sheet.text("Where it went", (left, 12), size=18)
    lost, letters = grams_lost(plan), lettered(plan.stages())
    if not lost:
        sheet.text("Nothing lost. No real forging manages that.", (left, top), size=16)
        return
    most, row = max(1, *lost.values()), high / max(5, len(lost))
    for number, (reason, grams) in enumerate(lost.items()):
        y = top + number * row
        long = max(2.0, (wide - 225) * grams / most)
        named = f"{letters[reason]}  {reason}"
        sheet.text(named, (left, y + row / 2), size=16, anchor="lm")
        _lost(sheet, (left + 150, y + 6), (left + 150 + long, y + row - 6))
        words = format_weight(grams, units)
        sheet.text(words, (left + 156 + long, y + row / 2), size=16, anchor="lm")


def tone(name: str) -> str:
    """Give the colour of a steel as it etches (illustrative)."""
    grey = int(to_srgb(etch.reflectance(steel(name))))
    return f"#{grey:02X}{grey:02X}{grey:02X}"


def stock(sheet: Sheet, plan: Plan, units: Units) -> None:
    """Draw the first bar of each steel to scale, with its pieces and its offcut."""
    left, top, wide = BARS
    bars = cut_list(plan)
    long = format_length(plan.outer.length, units)
    title = f"What to saw from bars {long} long (each steel's first bar)"
    sheet.text(title, (left, top - 30), size=18)
    firsts = [next(b for b in bars if b.rack is rack) for rack in (plan.outer, plan.inner)]
    words = 330 * sheet.letters / LETTERS  # wide, beside the bars
    scale = (wide - words) / max(bar.rack.length for bar in firsts)
    for number, bar in enumerate(firsts):
        y, fill = top + 38 * number, tone(bar.rack.steel)
        count = sum(one.rack is bar.rack for one in bars)
        sheet.box(
            (left, y), (left + bar.rack.length * scale, y + 24), fill=sheet.page, ink=INK
        )
        for piece in range(bar.pieces):
            x = left + piece * (bar.length + bar.kerf) * scale
            sheet.box((x, y), (x + bar.length * scale, y + 24), fill=fill, ink=INK)
        pieces = plan.outer_pieces if number == 0 else plan.inner_pieces
        bars_of = "" if count == 1 else f" from {count} bars"
        long = format_cut_length(bar.length, units)
        told = f"{bar.rack.steel}: {pieces} of {long}{bars_of}"
        sheet.text(
            told, (left + bar.rack.length * scale + 14, y + 12), size=16, anchor="lm"
        )


def beside(start: float, plan: Plan) -> Sheet:
    """Draw a stack so long, mm, above half of the bar that is wanted, to scale: a tile."""
    sheet = Sheet(200, 150)
    length, thin = plan.wanted.length, plan.wanted.thickness
    scale = 190 / max(start, length / 2)
    y = 62.0
    for layer in plan.billet.source.layers:
        top = y - layer.thickness * scale
        sheet.box((10, top), (10 + start * scale, y), fill=tone(layer.steel), ink=None)
        y = top
    sheet.box((10, top), (10 + start * scale, 62), ink=INK)
    sheet.text("stack", (10, 66), size=15, ink=QUIET)
    sheet.box(
        (10, 104), (10 + length * scale, 104 + max(3, thin * scale)), fill=QUIET, ink=INK
    )
    sheet.text("bar wanted: half of it", (10, 112), size=15, ink=QUIET)
    return sheet

"""The design tasks of all sets: each is forged by the kit's engine and measured."""

import math
from functools import lru_cache

import numpy as np

from kit.basics.declare import Declared, quantity
from kit.basics.told import said
from kit.basics.units import Units
from kit.classroom.homework.tasks import Design
from kit.course.lesson import Given
from kit.course.lessons import briefs
from kit.course.lessons.bevels import LENGTH, RICASSO, BevelsLesson
from kit.course.lessons.briefs import SPACING, BriefsLesson, Judged
from kit.course.lessons.briefs_drawing import BLACK_WHITE, STRETCH, WANDER
from kit.course.lessons.twist import HANDS, TwistLesson
from kit.course.lessons.twist_drawing import line_angle
from kit.course.worded import words_beside
from kit.forge.billet import Billet, fold_and_draw
from kit.forge.stack import Layer, Stack
from kit.forge.steps import DrawOut
from kit.forge.steps.base import Heat
from kit.metal.evening import contrast_left, minutes_until
from kit.metal.soak import Soak, evened
from kit.metal.still import Still, show
from kit.metal.working_heat import hottest, too_hot
from kit.section.blade import Blade
from kit.section.surface import Plane, cut
from kit.section.trace import see

CUT_AT = 20.0  # degrees to the layers
PIECE = 3.0  # mm, of every piece on the bench
DRAWN, NEAR = 1.3, 2.0  # times as long; degrees
FINE, COARSE = 0.01, 0.1  # mm a pixel
BEFORE_BELLY = 40.0  # mm from the heel
RICASSO_SEEN = 0.6  # of its height: its rims are left out
LIMITS = {"low": SPACING[0], "high": SPACING[1]}  # mm, of bands and lines
EDGE = BevelsLesson().edge  # mm
PLAIN = 0.05  # of the way from dark to bright: less is no line
WIDE = 700  # pixels of a picture
FACE, SEEN = 100.0, 10  # of a face, mm; of a soaked sheet, so many times its thickness


TOLD = words_beside(__file__)


class Folding(Declared):
    """How many pieces, how many folds."""

    pieces: int = quantity("Pieces", "in the first stack", low=2, high=40, default=7)
    folds: int = quantity("Folds", "each doubles the stack", low=0, high=8, default=1)


class Chevron(Declared):
    """Two twisted bars side by side, drawn out together."""

    across: float = quantity(
        "Round bars across", "before they are joined", low=10, high=24, unit="mm",
        default=16,
    )  # fmt: skip
    turn: float = quantity(
        "One turn", "length of a turn, as twisted", low=20, high=200, unit="mm", default=60
    )
    hands: int = quantity("Hands", "1 both the same, 2 opposite", low=1, high=2, default=1)
    ground: float = quantity(
        "Ground off", "from the top when drawn out", low=0, high=6, unit="mm", default=1
    )


class Bought(Declared):
    """A bar for a blade."""

    layers: int = quantity("Layers", "in the spine", low=10, high=400, default=60)
    bar: int = quantity(
        "Bar", "0 flat layers, 1 twist, 2 ladder, 3 raindrop", low=0, high=3, default=2
    )


def _folded(pieces: int, folds: int, thickness: float) -> Billet:
    stack = Stack.alternate(
        "1084", "15N20", pieces=pieces, thickness=PIECE, length=200, width=40
    )
    return fold_and_draw(Billet(source=stack), folds=folds, thickness=thickness)


@lru_cache(maxsize=64)
def band_width(pieces: int, folds: int, thickness: float) -> float:
    """Fold, saw at 20° to the layers, and measure the mean band on the cut, mm."""
    billet = _folded(pieces, folds, thickness)
    long = thickness / math.sin(math.radians(CUT_AT))
    pixels = math.ceil(long / FINE)
    face = see(
        billet,
        cut(billet.size, angle=CUT_AT, columns=1, rows=pixels, pixel=long / pixels),
        BLACK_WHITE,
    )
    changes = np.count_nonzero(np.diff(face.tone[:, 0] > 0.5))
    return long / (changes + 1)


@lru_cache(maxsize=64)
def ricasso_spread(layers: int, bar: int, spine: float, height: float) -> float:
    """Look at the ricasso: how much its tone differs, 0 to 1; spine, height in mm."""
    job = BevelsLesson(layers=layers, bought=bar, spine=spine, height=height)
    rows = round(RICASSO_SEEN * height / COARSE)
    return float(np.ptp(_seen(job, RICASSO / 2, 80, rows, COARSE)))


@lru_cache(maxsize=64)
def bevel_spacing(layers: int, bar: int, spine: float, height: float) -> float:
    """Count lines up the bevel of a blade from a bar; give their mean distance, mm."""
    job = BevelsLesson(layers=layers, bought=bar, spine=spine, height=height)
    tones = _seen(job, BEFORE_BELLY, 1, round(height / FINE), FINE)
    lines = np.count_nonzero(np.diff(tones[:, 0] > 0.5))
    return job.grind.bevel_length / lines if lines else math.inf


def _seen(
    job: BevelsLesson, along: float, columns: int, rows: int, pixel: float
) -> np.ndarray:
    """See a blade so far from its heel, mm."""
    billet = job.billet
    heel = billet.size.length / 2 - LENGTH / 2
    view = Blade(
        grind=job.grind,
        size=billet.size,
        centre=(heel + along, 0.0),
        columns=columns,
        rows=rows,
        pixel=pixel,
    )
    return see(billet, view, BLACK_WHITE).tone


def _bands(values: Given, chosen: Folding, units: Units) -> Judged:
    wide = band_width(chosen.pieces, chosen.folds, values["bar"])
    told = f"Bands {said(wide, units)} wide on the cut"
    if wide < SPACING[0]:
        return Judged(False, f"{told}: {said(SPACING[0], units)} at least is wanted.")
    if wide > SPACING[1]:
        return Judged(False, f"{told}: {said(SPACING[1], units)} at most is wanted.")
    return Judged(True, f"{told}.")


def _bands_drawn(values: Given, chosen: Folding, _units: Units) -> Still:
    billet = _folded(chosen.pieces, chosen.folds, values["bar"])
    pixel = billet.size.width / WIDE
    rows = math.ceil(values["bar"] / math.sin(math.radians(CUT_AT)) / pixel)
    return show(billet, cut(billet, angle=CUT_AT, columns=WIDE, rows=rows, pixel=pixel))


def _pair(chosen: Chevron) -> Billet:
    return TwistLesson(
        across=chosen.across,
        layer=0.5,
        stack=0,
        turn=chosen.turn,
        hand=HANDS.index("right"),
        drawn=DRAWN,
        neighbour=chosen.hands,
    ).billet


def _chevron(values: Given, chosen: Chevron, units: Units) -> Judged:
    billet = _pair(chosen)
    half = billet.size.thickness / 2
    if chosen.ground > half:
        most = said(half, units)
        return Judged(False, f"At most half the bar, {most}, can be ground off.")
    lean = line_angle(billet, half - chosen.ground)
    told = f"Lines at {lean:.1f}° to the bar"
    if chosen.hands == 1:
        return Judged(False, f"{told}, all leaning one way: that is no chevron.")
    off = lean - values["lean"]
    if abs(off) > NEAR:
        way, asked = "less" if off > 0 else "more", f"{values['lean']:g}°"
        return Judged(False, f"{told}: {asked} is asked, so lean them {way}.")
    return Judged(True, f"{told}, one way and the other.")


def _chevron_drawn(_values: Given, chosen: Chevron, _units: Units) -> Still:
    size = (billet := _pair(chosen)).size
    pixel = min(FACE, size.length) / WIDE
    middle = (size.length / 2, 0.0, max(size.thickness / 2 - chosen.ground, 0.0))
    rows = math.ceil(size.width / pixel)
    return show(billet, Plane.facing(billet, "face", middle, (WIDE, rows), pixel))


def _ricasso(values: Given, chosen: Bought, units: Units) -> Judged:
    blade = (chosen.layers, chosen.bar, values["blade_spine"], values["blade_height"])
    spacing, spread = bevel_spacing(*blade), ricasso_spread(*blade)
    told = f"Lines {said(spacing, units)} apart" if spacing < math.inf else "No lines"
    if spread > PLAIN:
        return Judged(False, f"{told}, but the ricasso shows a pattern.")
    if spacing < SPACING[0]:
        return Judged(False, f"{told}: fewer layers.")
    if spacing > SPACING[1]:
        return Judged(False, f"{told}: more layers.")
    return Judged(True, f"{told}, the ricasso plain.")


def _ricasso_drawn(values: Given, chosen: Bought, _units: Units) -> Still:
    job = BevelsLesson(
        layers=chosen.layers,
        bought=chosen.bar,
        spine=values["blade_spine"],
        height=values["blade_height"],
    )
    size = job.billet.size
    return show(job.billet, Blade.fitted(job.grind, size, WIDE, WIDE // 3, side="left"))


def _some_bands(values: Given) -> Given:
    """Fold once: bands are then one less than twice the pieces."""
    bands = values["bar"] / math.sin(math.radians(CUT_AT)) / (sum(SPACING) / 2)
    return {"pieces": round((bands + 1) / 2), "folds": 1}


def _some_chevron(values: Given) -> Given:
    """Try turns, from short to long, until the lines lean no more than is wanted."""
    tried = (
        {"across": 16, "turn": turn, "hands": 2, "ground": 1} for turn in range(20, 201)
    )
    return next(one for one in tried if _chevron(values, Chevron(**one), Units.MM).passed)


def _some_layers(values: Given) -> Given:
    """Share the bevel out in lines that lie mid-way between the limits."""
    lines = values["blade_height"] / (sum(SPACING) / 2)
    depth = (values["blade_spine"] - EDGE) / 2
    return {"layers": round(lines * values["blade_spine"] / depth), "bar": 0}


BANDS = Design(
    **TOLD["BANDS"],
    fixed=LIMITS,
    choices=Folding,
    simulate=_bands,
    drawn=_bands_drawn,
    example=_some_bands,
)
CHEVRON = Design(
    **TOLD["CHEVRON"],
    choices=Chevron,
    simulate=_chevron,
    drawn=_chevron_drawn,
    example=_some_chevron,
)
PLAIN_RICASSO = Design(
    **TOLD["PLAIN_RICASSO"],
    fixed={**LIMITS, "edge": EDGE},
    choices=Bought,
    simulate=_ricasso,
    drawn=_ricasso_drawn,
    example=_some_layers,
)


SHARP = 0.9  # of the difference in nickel that must be left
LONG = 0.8  # of the longest soak: shorter is not "the longest"
COOL = 1050.0  # °C, of the key's example
SIDE = 20  # sheets of plain steel, on either side of the nickel


class Soaking(Declared):
    """How hot, and how long."""

    celsius: float = quantity(
        "Heat", "of the whole bar", low=1000, high=1250, unit="°C", default=1050
    )
    minutes: float = quantity(
        "Time at heat", "all heats together", low=0.1, high=2000, unit="min", default=5
    )


def sandwich(sheet: float, least: float = 0.0) -> Stack:
    """Lay a sheet of nickel between thick bars of plain steel, at least so thick; mm."""
    side = Layer(steel="1018", thickness=max(SIDE * sheet, least))
    middle = Layer(steel="nickel", thickness=sheet)
    return Stack(layers=(side, middle, side), length=100, width=30)


def nickel_left(sheet: float, celsius: float, minutes: float) -> float:
    """Say how much of the difference in nickel is left, 0 … 1."""
    stack = sandwich(sheet)
    soak = Soak(celsius, minutes, stack.thickness)
    return contrast_left(stack, "Ni", evened("Ni", [soak]))


def _soak(values: Given, chosen: Soaking, _units: Units) -> Judged:
    left = nickel_left(values["sheet"], chosen.celsius, chosen.minutes)
    told = f"{100 * left:.0f} % is left after {chosen.minutes:g} min"
    if left < SHARP:
        return Judged(False, f"{told}: 90 % is wanted, so go shorter or cooler.")
    hot = too_hot(chosen.celsius, sandwich(values["sheet"]).steels)
    if hot:
        return Judged(False, f"{told}. {hot} Go cooler.")
    longest = minutes_until(sandwich(values["sheet"]), "Ni", chosen.celsius, left=SHARP)
    if chosen.minutes < LONG * longest:
        return Judged(False, f"{told}: at that heat it may stay longer.")
    return Judged(True, f"{told}.")


def _soak_drawn(values: Given, chosen: Soaking, _units: Units) -> Still:
    stack = sandwich(values["sheet"], least=1.0)
    heat = Heat(celsius=chosen.celsius, minutes=chosen.minutes)
    billet = Billet(source=stack).then(DrawOut(thickness=stack.thickness, heat=heat))
    pixel = SEEN * values["sheet"] / (WIDE // 3)
    return show(billet, cut(billet, angle=90, columns=WIDE, rows=WIDE // 3, pixel=pixel))


def _briefs(_values: Given, chosen: BriefsLesson, units: Units) -> Judged:
    judged = chosen.judged(units)
    failed = [
        f"{name}: {one.reason}"
        for name, one in zip(briefs.NAMES, judged, strict=True)
        if not one.passed
    ]
    if failed:
        return Judged(False, " ".join(failed))
    return Judged(True, "All four briefs are met.")


def _briefs_drawn(_values: Given, chosen: BriefsLesson, units: Units) -> Still:
    scene = chosen.draw(units)
    return Still(scene.image, scene.alt)


def _some_soak(values: Given) -> Given:
    """Stay nine tenths of the longest time, well below the working limit."""
    longest = minutes_until(sandwich(values["sheet"]), "Ni", COOL, left=SHARP)
    return {"celsius": COOL, "minutes": float(f"{0.9 * longest:.3g}")}


MOST = hottest(sandwich(0.01).steels)  # °C, however thick the sheet is
ASKED = {
    "stars": briefs.STARS,
    "stretch": STRETCH,
    "low": briefs.SPACING[0],
    "high": briefs.SPACING[1],
    "lowest": briefs.CORE_LINE[0],
    "highest": briefs.CORE_LINE[1],
    "wander": WANDER,
}
MET = {
    "across": 24.5, "turn": 60, "ground": 3, "layers": 100, "spine": 4, "height": 30,
    "core": 4.4, "forged": 8, "blade": 24, "cycles": 2, "crop": 6, "scale": 0.08,
}  # fmt: skip
SHARP_NICKEL = Design(
    **TOLD["SHARP_NICKEL"],
    fixed={"most": MOST},
    choices=Soaking,
    simulate=_soak,
    drawn=_soak_drawn,
    example=_some_soak,
)
FOUR_BRIEFS = Design(
    **TOLD["FOUR_BRIEFS"],
    fixed=ASKED,
    choices=BriefsLesson,
    simulate=_briefs,
    drawn=_briefs_drawn,
    example=lambda _values: MET,
)

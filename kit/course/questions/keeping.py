"""Cards 11, 13, 23, 25 and 31 to 34: what the acid does, how it lasts and is kept."""

from collections.abc import Sequence
from functools import cache

from kit.basics.claim import Claim, Kind, beside
from kit.course.lessons.bevels import BevelsLesson
from kit.course.lessons.san_mai import SanMaiLesson
from kit.course.lessons.san_mai_ideas import line
from kit.course.lessons.scene import FORGED, Scene
from kit.course.lessons.weld import AS_SURE, PIECES, SURE, WeldLesson
from kit.course.questions import charts, faces, sketches
from kit.course.questions.buying import UNHARDENED, hardness
from kit.course.questions.card import Measures, Values, cards_of
from kit.course.questions.honed import sharpened
from kit.forge.steels import steel
from kit.metal.bath import BITES
from kit.metal.bite import BITE, GRAIN, GRAINS, ILLUSTRATIVE, rate
from kit.metal.dangers import ETCHANT, FOOD, NICKEL, OIL, OPEN_WELD, SPENT, UNTEMPERED
from kit.metal.etch import TONES
from kit.metal.hardening import QUENCHED, TEMPERED, TEMPERING
from kit.metal.reported import BACK_AGAIN, DARKER, MISSED, UNDERCUT, WELDED
from kit.section.picture import ACCENT, INK, QUIET, Sheet
from kit.section.welds import times
from kit.shop.work import welds_made

WIDE = 1000  # pixels
DARK, BRIGHT = "#2B2B2B", "#E8E8E8"
LAYER = 0.05  # mm
BARS, ACROSS = 7, 42  # layers drawn, pixels each
PIXEL = LAYER / ACROSS  # mm
HIGHER = 10  # times as high as wide


def rates() -> tuple[float, float]:
    """Give how fast the dark and the bright steel are eaten, mm a minute."""
    dark, bright = (rate(steel(name)) / 1000 for name in ("1084", "15N20"))
    return dark, bright


def step_after(minutes: float) -> float:
    """Give the step between the steels after a time in the bath, mm."""
    dark, bright = rates()
    return (dark - bright) * minutes


def growing(times: Sequence[float], measures: Measures) -> Scene:
    """Draw the surface from the side after some times, heights exaggerated."""
    sheet = Sheet(WIDE, 376, **measures.paper)
    step = (WIDE - 40) / len(times)
    top = 110
    for number, minutes in enumerate(times):
        left = 20 + number * step
        sheet.text(f"{minutes:g} min", (left, 10), size=20)
        told = measures.fine(step_after(minutes)) if minutes else "flat"
        sheet.text(f"step: {told}", (left, 36), size=19, ink=QUIET)
        sheet.dashes((left, top), (left + BARS * ACROSS, top), ink=ACCENT, width=2)
        for bar in range(BARS):
            level = top + HIGHER * rates()[1 - bar % 2] * minutes / PIXEL
            corner = (left + ACROSS * bar, level)
            fill = DARK if bar % 2 else BRIGHT
            sheet.box(corner, (left + ACROSS * (bar + 1), 320), fill=fill, ink=INK)
    sheet.text("dashes: the face before the bath", (20, 352), size=18, ink=ACCENT)
    words = f"Heights are drawn {HIGHER} times too large. Rates are illustrative."
    sheet.text(words, (980, 352), size=18, anchor="ra", ink=QUIET)
    each = ", ".join(
        f"after {minutes:g} minutes {measures.fine(step_after(minutes))}"
        for minutes in times
        if minutes
    )
    alt = (
        "Upright layers, dark and bright in turn, from the side. Flat at first; in the "
        f"bath both are eaten, the dark ones faster, so the bright ones stand proud: "
        f"{each}. Heights are exaggerated {HIGHER} times."
    )
    return Scene(image=sheet.image, alt=alt, numbers=())


MINUTES = 10.0  # in the bath, illustrative


@cache
def _bitten() -> Values:
    dark, bright = rates()
    step = step_after(MINUTES)
    return {
        "dark": 1000 * dark,
        "bright": 1000 * bright,
        "minutes": MINUTES,
        "step": step,
        "micrometres": 1000 * step,
    }


@cache
def _again() -> Values:
    layer = BevelsLesson().layer
    dark, _bright = rates()
    lost = dark * MINUTES
    return {
        "dark": 1000 * dark,
        "minutes": MINUTES,
        "lost": lost,
        "micrometres": 1000 * lost,
        "layer": layer,
        "layer_micrometres": 1000 * layer,
        "share": 100 * lost / layer,
    }


def _worn_face(measures: Measures) -> Scene:
    lost = rates()[0] * MINUTES
    return faces.worn_and_back(faces.bar(0.5, 50.0), 4.0, lost, measures)


@cache
def _line() -> Values:
    return hardness(steel("1084").nominal["C"])


STRIP = 1.0  # mm above the edge that a stone touches; common practice, no source
WORN = 2.0  # mm of edge that are gone in the end


@cache
def _welds() -> Values:
    job = WeldLesson()
    made = welds_made(job.billet)
    return {
        "pieces": PIECES,
        "folds": job.folds,
        "stack": made - job.folds,
        "made": made,
        "planes": job.billet.layers - 1,
        "layers": job.billet.layers,
        "met": times(job.billet, job.flaw),
        "sure": 100 * SURE,
        "share": SURE,
        "all": 100 * job.chance,
    }


@cache
def _worn() -> Values:
    height = line(SanMaiLesson().given)
    return {"strip": STRIP, "worn": WORN, "line": height, "after": height - WORN}


(CARE, RUSTING, CHIPS) = beside(__file__).values()
RUST = Claim(
    says="Rust is mostly FeO(OH), as dense as 4.28 g/cm³; iron has 7.874.",
    kind=Kind.MEMORY,
    source="a handbook's densities of goethite and iron",
    unit="g/cm³; g/mol",
    holds=("RUST_DENSITY", "IRON_DENSITY", "RUST_MASS", "IRON_MASS"),
    told=("times the room of the steel",),
)
RUST_DENSITY, IRON_DENSITY = 4.28, 7.874
RUST_MASS, IRON_MASS = 88.85, 55.85
DRYING = Claim(
    says="A drop of oil is about a twentieth of a cubic centimetre.",
    kind=Kind.MEMORY,
    source="the chemist's rule of twenty drops, of water",
    unit="mm³",
    holds=("DROP",),
)
DROP = 50.0
LONG, HIGH = 200.0, 40.0  # mm of a kitchen blade; ours
WASHED = Claim(
    says="A dishwasher heats to about 70 °C.",
    kind=Kind.MEMORY,
    source="makers' sheets of dishwashers, without a page",
    unit="°C",
    holds=("WASH", "COOL"),
    told=("dishwasher's heat: from memory", "a dishwasher: up to"),
)
COOL, WASH = 50.0, 70.0


def _rusted() -> Values:
    rust, iron = RUST_MASS / RUST_DENSITY, IRON_MASS / IRON_DENSITY
    return {
        "rust": RUST_DENSITY,
        "iron": IRON_DENSITY,
        "rust_mass": RUST_MASS,
        "iron_mass": IRON_MASS,
        "rust_room": rust,
        "iron_room": iron,
        "swells": rust / iron,
    }


def _swollen(measures: Measures) -> Scene:
    swells = _rusted()["swells"]
    rows = {"steel": (1.0, "1"), "rust of that steel": (swells, f"about {swells:.1f}")}
    note = "By volume. Rust is loose besides, and holds water."
    return sketches.compared("Room for steel and for its rust", rows, note, measures)


def _oiled() -> Values:
    return {
        "drop": DROP / 1000,
        "long": LONG,
        "high": HIGH,
        "film": DROP / (2 * LONG * HIGH),
        "grain": GRAIN[400] / 1000,
        "step": step_after(MINUTES),
    }


def _film(measures: Measures) -> Scene:
    known = _oiled()
    rows = {
        "a film of one drop": known["film"],
        "step of the etch": known["step"],
        "a grain of P400": known["grain"],
    }
    told = {name: (value, measures.fine(value)) for name, value in rows.items()}
    told["a film of one drop"] = (known["film"], f"about {measures.rough(known['film'])}")
    note = "How deep the etch goes is illustrative."
    return sketches.compared("Oil, pattern and grit, how thick", told, note, measures)


def _washed() -> Values:
    return {"wash": WASH, "temper": TEMPERING[0], "margin": TEMPERING[0] - WASH}


def _machine(measures: Measures) -> Scene:
    ranges = {"dishwasher": (COOL, WASH), "tempering": TEMPERING}
    return charts.thermometer(ranges, 1000.0, measures)


card = cards_of(__file__)
CARDS = (
    card(
        11,
        values=_bitten,
        by_hand={"step": (0.8e-3 - 0.3e-3) * 10, "micrometres": 5},
        picture=lambda measures: growing((0.0, MINUTES / 2, MINUTES), measures),
        mark=ILLUSTRATIVE,
        dangers=(ETCHANT, SPENT),
        claims=(BITE, BITES, TONES, UNDERCUT),
    ),
    card(
        13,
        values=_again,
        by_hand={"micrometres": 0.8 * 10, "share": 100 * 8 / 50},
        picture=_worn_face,
        mark=ILLUSTRATIVE,
        dangers=(ETCHANT, SPENT),
        claims=(BITE, BITES, BACK_AGAIN),
    ),
    card(
        23,
        values=_welds,
        by_hand={"made": 10 + 3, "planes": 11 * 8 - 1, "met": 2**3, "all": 100 * 0.99**13},
        picture=lambda measures: WeldLesson.scene(units=measures.units, **measures.paper),
        claims=(FORGED, AS_SURE, WELDED, MISSED, CHIPS),
        dangers=(OPEN_WELD,),
    ),
    card(
        25,
        values=_rusted,
        by_hand={"swells": (88.85 / 4.28) / (55.85 / 7.874)},
        picture=_swollen,
        claims=(RUST, RUSTING, CARE),
    ),
    card(
        31,
        values=_oiled,
        by_hand={"film": 50 / (2 * 200 * 40), "grain": 0.035},
        picture=_film,
        claims=(CARE, GRAINS, DRYING, BITE),
        dangers=(NICKEL, FOOD),
    ),
    card(
        32,
        values=_washed,
        by_hand={"margin": (350 - 32) / 1.8 - 70},
        picture=_machine,
        claims=(TEMPERED, WASHED, CARE),
    ),
    card(
        33,
        values=_worn,
        by_hand={"after": (1.2 / 2 - 0.2) / 1.8 * 32 - 2.0},
        picture=lambda measures: sharpened(STRIP, WORN, measures),
        claims=(FORGED, CARE, BACK_AGAIN),
    ),
    card(
        34,
        values=_line,
        by_hand={"carbon": 0.84, "soft": 25},
        picture=sketches.hard_edge,
        claims=(DARKER, TONES, BITE, QUENCHED, UNHARDENED),
        dangers=(ETCHANT, OIL, UNTEMPERED),
    ),
)

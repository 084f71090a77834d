"""Cards 27, 28, 29, 36 and 38: what a buyer asks, and what a pattern does not tell."""

from functools import cache

from kit.basics.claim import Claim, Kind, beside
from kit.course.lessons.scene import FORGED, Scene
from kit.course.questions import faces, sketches
from kit.course.questions.card import Measures, Values, cards_of
from kit.forge.billet import Billet
from kit.forge.stack import DEMO_INNER, DEMO_OUTER, Stack
from kit.forge.steels import steel
from kit.metal.contents import RUSTLESS, STAINLESS, mean_composition
from kit.metal.dangers import FUME, NICKEL, PLATED, UNKNOWN
from kit.metal.etch import TONES
from kit.metal.hardening import QUENCHED, as_quenched
from kit.metal.reported import AS_GOOD
from kit.shop import patterns

DARK, BRIGHT = DEMO_OUTER.steel, DEMO_INNER.steel
ASK = (
    "Which steels, by name or number?",
    "Who hardened and tempered it?",
    "How hard is it?",
    "May it come back?",
)
SOFT = 25.0  # HRC
STRIPES = 97

UNHARDENED = Claim(
    says="Blade steel that was forged and slowly cooled, never hardened, has about 25 HRC.",
    kind=Kind.MEMORY,
    source="handbooks of heat treatment, without a page",
    unit="HRC",
    holds=("SOFT",),
    told=("never hardened",),
)
(USUAL_HARM, STAINS, NORMALISED, FIRST_PAIR) = beside(__file__).values()


def _cheap(measures: Measures) -> Scene:
    drawn = "A ladder pattern: real layers, and not a word of their steel"
    draw = sketches.bar(patterns.ladder())
    return sketches.listed("What a buyer may ask:", ASK, draw, drawn, measures)


@cache
def together() -> dict[str, float]:
    """Give the contents of the two steels together, per cent."""
    return mean_composition(
        (steel(layer.steel), layer.count * layer.thickness)
        for layer in (DEMO_OUTER, DEMO_INNER)
    )


def _chromium() -> Values:
    return {
        "chromium": together()["Cr"],
        "least": STAINLESS,
        "bright": steel(BRIGHT).nominal["Cr"],
    }


def _stainless(measures: Measures) -> Scene:
    rows = {f"{DARK} and {BRIGHT}": together()["Cr"]}
    rows |= {"called stainless from": STAINLESS}
    rows |= {name: steel(name).nominal["Cr"] for name in ("420", "440C", "304")}
    told = {name: (value, f"{round(value, 3):g} %") for name, value in rows.items()}
    note = "Nominal contents inside the ranges of the standards."
    return sketches.compared("Chromium, per cent", told, note, measures)


def hardness(carbon: float) -> Values:
    """Give how hard a steel of some per cent of carbon is, quenched and never, HRC."""
    return {"carbon": carbon, "hard": as_quenched(carbon), "soft": SOFT}


@cache
def _hardness() -> Values:
    return hardness(together()["C"])


def _alike(measures: Measures) -> Scene:
    billet = faces.bar(0.5, 44.0)
    shown = faces.face(billet, 3.0)
    words = (
        f"Hardened: up to {_hardness()['hard']:.0f} HRC before it is tempered",
        f"Never hardened: about {SOFT:.0f} HRC",
    )
    note = "One face drawn twice: layers look alike, soft and hard."
    sheet = faces.twice(billet, [(told, *shown) for told in words], note, measures)
    return Scene(image=sheet.image, alt=f"{note} {'; '.join(words)}.", numbers=())


def _pair() -> Values:
    dark, bright = steel(DARK).nominal, steel(BRIGHT).nominal
    return {
        "carbon": dark["C"] - bright["C"],
        "nickel": bright["Ni"] - dark.get("Ni", 0.0),
        "dark_carbon": dark["C"],
        "bright_carbon": bright["C"],
        "bright_nickel": bright["Ni"],
    }


def forgings(stripes: int) -> list[tuple[int, int]]:
    """Give all pieces and folds on a hinge that end in so many stripes.

    Examples
    --------
    >>> forgings(5)
    [(5, 0), (3, 1), (2, 2)]
    """
    joints = stripes - 1
    return [
        (joints // 2**folds + 1, folds)
        for folds in range(stripes)
        if joints % 2**folds == 0 and joints >= 2**folds
    ]


def _ways() -> Values:
    found = forgings(STRIPES)
    return {
        "stripes": STRIPES,
        "ways": len(found),
        "many": found[0][0],
        "few": found[-1][0],
        "most": found[-1][1],
    }


def _six(measures: Measures) -> Scene:
    lines = [f"{pieces} pieces, folds: {folds}" for pieces, folds in forgings(STRIPES)]
    drawn = f"A bar of {STRIPES} stripes, seen from a corner"
    pile = Stack.alternate(DARK, BRIGHT, pieces=STRIPES, thickness=0.3, length=90, width=40)
    draw = sketches.bar(Billet(source=pile))
    title = f"{STRIPES} stripes may come from"
    return sketches.listed(title, lines, draw, drawn, measures)


card = cards_of(__file__)
CARDS = (
    card(
        27,
        working=tuple(f"{number}: {words}" for number, words in enumerate(ASK, 1)),
        values=lambda: {"questions": len(ASK)},
        by_hand={"questions": 4},
        picture=_cheap,
        claims=(USUAL_HARM,),
    ),
    card(
        28,
        values=_chromium,
        by_hand={"chromium": 5 / 17 * 0.05, "least": 10.5},
        picture=_stainless,
        claims=(RUSTLESS, STAINS, TONES, steel(DARK), steel(BRIGHT)),
        dangers=(NICKEL, FUME),
    ),
    card(
        29,
        values=_hardness,
        # ASTM A255 at 0.70 % carbon, power by power
        by_hand={
            "hard": 35.395
            + 6.990 * 0.7
            + 312.330 * 0.49
            - 821.744 * 0.343
            + 1015.479 * 0.2401
            - 538.346 * 0.16807,
        },
        picture=_alike,
        claims=(QUENCHED, UNHARDENED, AS_GOOD, NORMALISED),
    ),
    card(
        36,
        values=_pair,
        by_hand={"carbon": 0.84 - 0.75, "nickel": 2.0},
        picture=lambda measures: faces.swapped((DARK, BRIGHT), "1095", measures),
        claims=(FIRST_PAIR,),
        dangers=(NICKEL, FUME, PLATED, UNKNOWN),
    ),
    card(
        38,
        values=_ways,
        by_hand={"ways": 6, "few": 4, "most": 5},  # 96 = 3 × 2⁵
        picture=_six,
        claims=(FORGED, AS_GOOD),
    ),
)

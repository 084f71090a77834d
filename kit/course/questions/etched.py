"""Cards 11, 13 and 34: what the acid does, whether it lasts, and hard steel in it.

Rates are illustrative: we found no source.
"""

from collections.abc import Sequence
from functools import cache

from kit.course.lessons.bevels import BevelsLesson
from kit.course.lessons.scene import Scene
from kit.course.questions import faces, sketches
from kit.course.questions.buying import UNHARDENED, hardness
from kit.course.questions.card import Card, Measures, Values
from kit.forge.steels import steel
from kit.metal.bath import BITES
from kit.metal.bite import BITE, ILLUSTRATIVE, rate
from kit.metal.dangers import ETCHANT, OIL, SPENT, UNTEMPERED
from kit.metal.etch import TONES
from kit.metal.hardening import QUENCHED
from kit.metal.reported import BACK_AGAIN, DARKER, UNDERCUT
from kit.section.picture import ACCENT, INK, QUIET, Sheet

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


def _worn(measures: Measures) -> Scene:
    lost = rates()[0] * MINUTES
    return faces.worn_and_back(faces.bar(0.5, 50.0), 4.0, lost, measures)


@cache
def _line() -> Values:
    return hardness(steel("1084").nominal["C"])


CARDS = (
    Card(
        number=11,
        question="What does the acid do?",
        belief="It draws the pattern, or burns it in.",
        answer="It eats both steels, one faster than the other, and leaves the one dark "
        "and the other bright. So it makes steps and shades where two steels already lay "
        "side by side. On one steel alone it shows little more than the lines of the "
        "welds. Coffee or vinegar does it too, looked at every half hour (common practice, "
        "no source). With the rates that the kit makes up the step is {step:fine} after "
        "{minutes:g} minutes.",
        breath="It develops the picture, as with a photograph. It does not draw it.",
        name="Step between the steels after {minutes:g} min",
        value="{step:fine}",
        working=(
            "step = (rate of the dark steel - rate of the bright one) × time",
            "= ({dark:.1f} - {bright:.1f}) µm a minute × {minutes:g} min",
            "= {micrometres:.0f} µm = {step:fine}",
        ),
        values=_bitten,
        by_hand={"step": (0.8e-3 - 0.3e-3) * 10, "micrometres": 5},
        shown=("0.005 mm",),
        picture=lambda measures: growing((0.0, MINUTES / 2, MINUTES), measures),
        found_by="acid etch develops",
        keywords="etch etching etched etchant, ferric chloride, bath dip dipped liquid "
        "chemical solution, vinegar coffee, brings out the pattern, makes the lines appear "
        "show up, reveal develop, how long in acid time minutes, eats bites burns, black "
        "dark lines, which acid, relief depth, feel bumps with a finger, see nothing "
        "before, brown yellow liquid, put it in, soak, why acid, dangerous, chemicals "
        "chemical, lie in the acid, what do you etch with, how does etching work, how "
        "strong is the acid, make the pattern come out, darkens, why black after, "
        "sulphuric muriatic, safe, tea, what do you put it in, to get the pattern, why do "
        "you need to etch, etch with lemon juice, leave it in, acid for, how strong, what "
        "does etching do, bath, acid eat the steel, acid burn, what makes the pattern "
        "visible, pattern come out, make pattern appear, etched with what, does acid hurt "
        "the steel, at home acid, circuit board, battery, why dip, which acid should I "
        "buy, what happens to the steel in the acid, when I dip it, dip it in acid, "
        "happens in the acid",
        mark=ILLUSTRATIVE,
        dangers=(ETCHANT, SPENT),
        claims=(BITE, BITES, TONES, UNDERCUT),
        lesson="09",
    ),
    Card(
        number=13,
        question="Will it wear off? Can it be brought back?",
        belief="Once it is gone, it is gone.",
        answer="What wears is the step and the dark oxide; the layers go on below. Clean "
        "it, sand it evenly, etch it again, and the pattern is back. With the rates that "
        "the kit makes up another etch eats {lost:fine} of the dark steel. A layer of our "
        "blade is {layer:fine} thick, and below it lies the next.",
        breath="The ink wears off, the book does not: it can be etched again.",
        name="What another etch takes",
        value="{micrometres:.0f} µm, {share:.0f} % of one layer",
        working=(
            "{dark:.1f} µm a minute × {minutes:g} min = {micrometres:.0f} µm",
            "one layer: {layer_micrometres:.0f} µm",
            (
                "{micrometres:.0f} / {layer_micrometres:.0f} = {share:.0f} %; sanding "
                "before it takes more than the etch"
            ),
        ),
        values=_again,
        by_hand={"micrometres": 0.8 * 10, "share": 100 * 8 / 50},
        shown=("8 µm",),
        picture=_worn,
        found_by="wear brought back",
        keywords="worn fade faded fading, dull pale light, gone lost, rub rubbed off, "
        "scratch scratched, get it back, restore redo, etch again, last lasting permanent "
        "forever, old, after years of use, darker again, make it dark, make lines stronger "
        "clearer again, lost contrast, hardly see it any more, no pattern any more, "
        "nothing left, polished it away, come off, washed out, in time, treat again, "
        "pattern gone pale, does the pattern stay, stay forever, repaired, I scratched my "
        "blade, rubbing, sanded it, can you make it look new, lose its look, how long does "
        "the pattern last, wash off, tarnish, stand out again, almost not visible any "
        "more, visible again, nearly gone, how do I bring it back, look like this in ten "
        "years, can I etch it again at home, re etch, pattern worn, pattern weak, less "
        "visible, after some years, pattern has faded, does it fade, can you redo it, "
        "hardly see, bring out the pattern again, make the pattern dark again, scratched "
        "pattern, contrast gone, polished too much, become dull, lost its pattern, does it "
        "last, lost its pattern after cleaning, how long will it last, after I cleaned it, "
        "steel wool took it off, etch it again myself, pattern came off",
        mark=ILLUSTRATIVE,
        dangers=(ETCHANT, SPENT),
        claims=(BITE, BITES, BACK_AGAIN),
        lesson="09",
    ),
    Card(
        number=34,
        question="Is it etched before or after hardening?",
        belief="The acid knows only what the steels are made of.",
        answer="After: hardened and tempered. One and the same steel etches unlike, hard "
        "and soft: hardened it comes out darker, makers report, so a blade that was "
        "hardened along its edge only shows a line there that is no layer. Whatever was "
        "etched before the fire is covered with scale and has to be ground and etched "
        "anew. The kit's tones know nothing of hardening, they follow the steels alone. "
        "Nobody can read from a dark line how hard it is.",
        breath="After. The same steel etches darker hard than soft, so a hardened edge may "
        "show its own line.",
        name="Edge from the quench, and a back that stayed soft",
        value="{hard:.0f} HRC, about {soft:.0f} HRC",
        working=(
            "edge, {carbon:.2f} % carbon: {hard:.1f} HRC at most (ASTM A255)",
            "back, never hardened: about {soft:.0f} HRC (from memory)",
        ),
        values=_line,
        by_hand={"carbon": 0.84, "soft": 25},
        shown=("65 HRC",),
        picture=sketches.hard_edge,
        found_by="before after hardening",
        keywords="hardened soft darker, etches unlike, hamon temper line tempered quench, "
        "order of steps, first dark, when do you etch, dip in acid, acid bath, etch first "
        "or harden first, then, last step, sequence, heat treat, before the acid, lighter, "
        "when is it etched, last thing you do, does hardening change the colour, change "
        "the pattern look, etch it before hardening, after quenching, when in the process, "
        "order, scale after hardening, what comes first, hardened steel blacker, etch "
        "first, other way round, in which order, harden or etch first, why is the hardened "
        "part darker, hard steel etches dark, acid before or after, before or after heat "
        "treatment, is the acid before or after, harden my blade before etching, when does "
        "the etching come, etch when",
        claims=(DARKER, TONES, BITE, QUENCHED, UNHARDENED),
        dangers=(ETCHANT, OIL, UNTEMPERED),
        lesson="09",
    ),
)

"""The reasons against welding two steels together, in plain words, each with its source.

A pair without a reason is not thereby safe: the fire, the flux, the press and the grinding
dust are dangerous with every steel. Follow local rules and qualified people.
"""

from dataclasses import dataclass, replace
from enum import Enum

from kit.metal.solidus import both

NO_SOURCE = "common practice, no source"


class Weight(Enum):
    """How much a reason weighs; the value is what stands before it."""

    DO_NOT = "Do not weld these"
    TAUGHT = "Only taught by somebody qualified"
    CARE = "Only with care"
    NOTE = "Know this"


@dataclass(frozen=True, kw_only=True)
class Reason:
    """One reason: its weight, a name of a word or two, a sentence, the pair's own figures.

    ``source`` is a printed work or "common practice, no source". ``detail`` may be empty.
    """

    weight: Weight
    name: str
    text: str
    source: str
    detail: str = ""

    def __str__(self) -> str:
        return f"{self.weight.value}: {self.text} {self.detail}".strip()


OPEN_FIRE = Reason(
    weight=Weight.TAUGHT,
    name="open fire",
    text="Stainless steel does not weld in an open fire: borax does not dissolve the oxide "
    "of chromium. Makers who have learnt it keep all oxygen out: stainless cladding is "
    "ground bright, stacked tight and dry, without flux, and every seam is welded shut. "
    "Fluxes with fluoride are poisonous and have no place in a class.",
    source=NO_SOURCE,
)
SEALED_CAN = Reason(
    weight=Weight.TAUGHT,
    name="sealed can",
    text="A closed can bursts in the fire if powder, loose pieces or air, water, oil or "
    "paper are in it. A pinhole belongs to a can of that kind, and not to the seams of a "
    "tight stack, which it would let oxygen into.",
    source=NO_SOURCE,
)
FUME = Reason(
    weight=Weight.CARE,
    name="fume",
    text="Welding, tacking, cutting and grinding stainless steel or nickel make fume and "
    "dust that harm: hexavalent chromium and nickel cause cancer of the lung. Extraction "
    "at the place, a fitted respirator, nobody else in the cloud, by local rules.",
    source="29 CFR 1910.1026 (hexavalent chromium, OSHA 2006); welding fume and its nickel "
    "compounds: IARC Monographs 49 (1990)",
)
EXPANSION = Reason(
    weight=Weight.CARE,
    name="expansion",
    text="One shrinks much more than the other, so the weld is pulled at every cooling and "
    "a stack that is not laid evenly bends.",
    source="Callister & Rethwisch, Materials Science and Engineering, Table B.6",
)
NICKEL = Reason(
    weight=Weight.CARE,
    name="nickel",
    text="It holds nickel: its dust can make skin and lungs allergic for good, and may "
    "cause cancer. Grind wet or with extraction, in a fitted respirator; wash. Who is "
    "allergic leaves it alone and does not wear it on the skin: tell the buyer.",
    source="IARC Monographs 49 (1990): nickel metal group 2B; Nickel Institute, Safe Use "
    "of Nickel in the Workplace, 3rd ed., 2008; to the buyer: see kit.metal.nickel",
)
CARBON_DRIFTS = Reason(
    weight=Weight.CARE,
    name="carbon drifts",
    text="Carbon does not even out but gathers at the chromium: the steel beside the weld "
    "goes soft, the stainless side gets a line of carbide and can rust there.",
    source="Missori, Murdolo & Sili, Metals 10 (2020) 286, doi 10.3390/met10020286; Omichi "
    "et al., Journal of the Japan Institute of Metals (2004)",
)
DIFFERENT_HEATS = Reason(
    weight=Weight.CARE,
    name="heats differ",
    text="No one heat hardens both: what suits the one leaves the other soft or ruins its "
    "grain.",
    source="data sheets of 440C; Andrews 1965 with margins",
)
THICK_LAYERS = Reason(
    weight=Weight.CARE,
    name="thick layers",
    text="In layers of about 1 mm (0.04 in) and more the carbon takes over an hour at "
    "welding heat to even out. Until then hard and soft lie side by side, and the quench "
    "may tear them apart.",
    source="time: Callister, 9th ed., Table 5.2, with Crank, 2nd ed., p. 47; tearing: "
    + NO_SOURCE,
)
TOO_LEAN = Reason(
    weight=Weight.CARE,
    name="no edge",
    text="Too little carbon for a cutting edge once it has evened out: good for fittings. "
    "As cladding on a thick core the soft one serves, for there the core keeps its carbon.",
    source="hardness by ASTM A255; how hard an edge must be: " + NO_SOURCE,
)
SOFT_LAYERS = Reason(
    weight=Weight.CARE,
    name="soft layers",
    text="Its layers stay soft in every quench: they make a bright line, not an edge. Keep "
    "them off the cutting edge.",
    source=NO_SOURCE,
)
QUENCH = Reason(
    weight=Weight.CARE,
    name="quench",
    text="One needs a fast quench that may crack the other. Use oil, and expect the fast "
    "one to harden only where it is thin.",
    source="ASTM A686 (W: water-hardening), A681 (O: oil-hardening); cracking: "
    + NO_SOURCE,
)
CLINGING_SCALE = Reason(
    weight=Weight.CARE,
    name="scale clings",
    text="With more than about 1.2 % chromium the scale clings: grind bright, stack tight, "
    "leave it no air.",
    source=NO_SOURCE,
)
HARDENS_IN_AIR = Reason(
    weight=Weight.CARE,
    name="hardens in air",
    text="Thin, L6 hardens as it cools in air: let the billet cool slowly in ash or "
    "vermiculite before it is sawn or drilled.",
    source="Heat Treater's Guide, 2nd ed., ASM International 1995, L6",
)
SLAG = Reason(
    weight=Weight.CARE,
    name="slag",
    text="Wrought iron splits along its slag if it is worked too cold: keep it at a bright "
    "yellow heat.",
    source=NO_SOURCE,
)
NO_PATTERN = Reason(
    weight=Weight.NOTE,
    name="no pattern",
    text="They etch alike once carbon is even: expect little more than the lines of the "
    "welds.",
    source="illustrative: see kit.metal.etch",
)
ALIKE = replace(
    NO_PATTERN, text="They etch alike: expect little more than the lines of the welds."
)
HARDENED_DARK = Reason(
    weight=Weight.NOTE,
    name="contrast by hardening",
    text="By their contents they would etch alike. But hardened, the martensitic one "
    "etches dark beside the austenitic one, and stainless patterns that are sold rest on "
    "it. The kit's tones know nothing of hardening.",
    source=NO_SOURCE,
)
REASONS = (
    OPEN_FIRE,
    SEALED_CAN,
    FUME,
    EXPANSION,
    NICKEL,
    CARBON_DRIFTS,
    DIFFERENT_HEATS,
    THICK_LAYERS,
    TOO_LEAN,
    SOFT_LAYERS,
    QUENCH,
    CLINGING_SCALE,
    HARDENS_IN_AIR,
    SLAG,
    NO_PATTERN,
    HARDENED_DARK,
)

# What never goes into a billet, whatever its steel.
NEVER = (
    Reason(
        weight=Weight.DO_NOT,
        name="plated",
        text="Never galvanised, zinc-, cadmium- or chrome-plated stock. Zinc boils at "
        f"{both(907)}, below welding heat, and its fume makes ill; cadmium fume kills.",
        source="zinc boils at 907 °C: CRC Handbook of Chemistry and Physics; the rest "
        + NO_SOURCE,
    ),
    Reason(
        weight=Weight.DO_NOT,
        name="leaded",
        text="Never leaded steel, such as 12L14: the lead comes out as fume.",
        source=NO_SOURCE,
    ),
    Reason(
        weight=Weight.DO_NOT,
        name="free-machining",
        text="Never free-machining steel, 11xx and 12xx: its sulphur makes it crumble hot "
        "and the weld slaggy.",
        source=NO_SOURCE,
    ),
    Reason(
        weight=Weight.DO_NOT,
        name="unknown",
        text="Never unknown scrap: nobody can say what fume it gives off, nor at what heat "
        "it hardens. A spring, a file or a saw may be anything.",
        source=NO_SOURCE,
    ),
)

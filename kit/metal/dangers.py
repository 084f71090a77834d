"""What can hurt at this work, each told once: pages, cards, papers and pairs take it here.

Every danger has its words, who decides what is done about it where you are, and its source.
It is a reminder, not a training. ``met`` are the words by which a page or a card comes upon
it, ``mark`` the words that only its caution uses: laws see by them that no page is without
its caution, and that no caution is written twice (`tests/test_dangers.py`).
"""

from dataclasses import dataclass

from kit.basics.claim import NO_SOURCE, Claim, Kind
from kit.basics.units import both


@dataclass(frozen=True, kw_only=True)
class Danger(Claim):
    """One danger: its name, whom it hurts, who decides, the words it is known by."""

    kind: Kind = Kind.PRACTICE
    name: str
    hurts: str
    decides: str
    met: str
    mark: str

    def __str__(self) -> str:
        return f"{self.says} {self.decides}"

    @property
    def line(self) -> str:
        """How a page lists it."""
        return f"> * **{self.name[0].upper()}{self.name[1:]}.** {self}"


FIRE = Danger(
    name="fire",
    hurts="smith, onlookers",
    says="Hot steel does not look hot by day, and burns long after it stopped glowing. "
    "Glasses that filter the glare, ear defenders, cotton, wool or leather, boots; water "
    "and first aid at hand; onlookers behind a barrier.",
    decides="The rules of the place decide, and who runs the fire.",
    met=r"\b(fire(?! rules)|forge fire|forges?|forged|smiths?|weld(ing|ed)?)\b",
    mark=r"(?i)hot steel (looks|does not look)|stopped glowing|filters? the glare",
)
MONOXIDE = Danger(
    name="carbon monoxide",
    hurts="everybody in the room",
    says="A fire makes a gas without smell that kills: moving air, an alarm, nobody alone; "
    "gas bottles upright and outside, hoses checked.",
    decides="The rules of the place and the sheet of the forge's maker decide.",
    met=r"\b(welding heat|forging heat|in the fire)\b",
    mark=r"(?i)carbon monoxide|without smell",
)
FLUX = Danger(
    name="flux",
    hurts="smith, onlookers",
    says="Molten flux sprays when it is struck, and damp flux spits: eyes covered, nobody "
    "in line. A flux with fluoride is poisonous and has no place in a class.",
    decides="The safety sheet of the flux decides.",
    met=r"(?i)\b(flux(es)?|borax)\b",
    mark=r"(?i)fluoride|flux (sprays|spits)",
)
PLATED = Danger(
    name="galvanised and plated stock",
    hurts="everybody in the room",
    says="Never galvanised, zinc-, cadmium- or chrome-plated stock, rod or wire. Zinc "
    f"boils at {both(907)}, below welding heat, and its fume makes ill; cadmium fume "
    "kills.",
    decides="What its seller's paper does not name stays out.",
    met=r"\b(racks?|scrap|rebar)\b",
    mark=r"(?i)galvani[sz]ed|cadmium|plated",
    source="zinc boils at 907 °C: CRC Handbook of Chemistry and Physics; the rest "
    + NO_SOURCE,
)
LEADED = Danger(
    name="leaded steel",
    hurts="everybody in the room",
    says="Never leaded steel, such as 12L14: the lead comes out as fume.",
    decides="What its seller's paper does not name stays out.",
    met=r"\b(12L14|leaded)\b",
    mark=r"(?i)\b(12L14|leaded)\b",
)
UNKNOWN = Danger(
    name="unknown scrap",
    hurts="everybody in the room",
    says="Never unknown scrap: nobody can say what fume it gives off, nor what it needs in "
    "the fire. A spring, a file or a saw may be anything.",
    decides="What its seller's paper does not name stays out.",
    met=r"\b(unknown|scrap)\b",
    mark=r"(?i)unknown scrap",
)
SEALED = Danger(
    name="sealed can or hollow",
    hurts="smith, onlookers",
    says="A closed can, tube or hollow bursts in the fire if powder, loose pieces or air, "
    "water, oil or paper are in it: not in a class, nobody in line.",
    decides="Somebody qualified teaches it and decides.",
    met=r"(?i)\b(closed cans?|sealed (can|tube|hollow)s?|powder)\b",
    mark=r"(?i)\bbursts\b(?! off)",
)
SOLVENT = Danger(
    name="solvent",
    hurts="smith, onlookers",
    says="A stack still wet with solvent flashes in the fire, and rags soaked in it catch "
    "from a spark: let it dry wholly in moving air, far from any flame.",
    decides="The safety sheet of the solvent decides.",
    met=r"(?i)\b(solvents?|acetone|degreas(e|ed|ing))\b",
    mark=r"(?i)wet with solvent|rags soaked",
)
SCALE = Danger(
    name="scale",
    hurts="smith, onlookers",
    says="Hot scale bursts off and flies when a bar is struck, bent or twisted: eyes "
    "covered, everybody's, and nobody in line.",
    decides="The rules of the place decide.",
    met=r"\b(twist(ed|ing)? hot|hammer(ed|ing|s)?|scale(?=[,.;]| is| and| falls))",
    mark=r"(?i)scale (flies|bursts)|flying scale",
)
FUME = Danger(
    kind=Kind.PUBLISHED,
    name="fume of stainless steel and nickel",
    hurts="smith, neighbours",
    says="Welding, tacking, cutting and grinding stainless steel or nickel make fume and "
    "dust that harm: hexavalent chromium and nickel cause cancer of the lung. Extraction "
    "at the place, a fitted respirator, nobody else in the cloud.",
    decides="The rules of the place and somebody qualified decide.",
    met=r"\b(stainless|nickel sheets?|304|316|420|440C)\b",
    mark=r"(?i)hexavalent",
    source="29 CFR 1910.1026 (hexavalent chromium, OSHA 2006); welding fume and its nickel "
    "compounds: IARC Monographs 49 (1990)",
)
NICKEL = Danger(
    kind=Kind.PUBLISHED,
    name="nickel",
    hurts="smith, owner of the piece",
    says="Steels such as 15N20, L6, 304 and 316 hold nickel, and so does its sheet: their "
    "dust can make skin and lungs allergic for good, and may cause cancer. Grind wet or "
    "with extraction, in a fitted respirator; wash. Who is sensitive or allergic to nickel "
    "leaves them alone and does not wear them on the skin: tell every buyer.",
    decides="A doctor decides for whoever is allergic.",
    met=r"\b(15N20|L6|nickel sheets?|304|316)\b",
    mark=r"(?i)lungs allergic",
    source="IARC Monographs 49 (1990): nickel metal group 2B; Nickel Institute, Safe Use "
    "of Nickel in the Workplace, 3rd ed., 2008; to the buyer: Regulation (EC) 1907/2006, "
    "Annex XVII, entry 27",
    told=("It holds nickel",),
)
PRESS = Danger(
    name="hammer and press",
    hurts="smith, helper",
    says="A press crushes, and dies, tools and bars fly from it: hands out of every place "
    "that closes, tongs that fit, tools seated, nobody in the line of the work, feet off "
    "the pedal.",
    decides="The sheet of the machine's maker and who runs the shop decide.",
    met=r"\b((drill |power )?press(es|ed)?(?= [a-z])(?! (choose|Observe|Start|an? arrow))"
    r"|power hammers?|dies)\b",
    mark=r"(?i)presse?s? crush|line of (the|a) press|fly (out of|from)",
)
GRINDER = Danger(
    name="grinder and saw",
    hurts="smith, neighbours",
    says="Belts, wheels, drills and saws take hold of hands and throw sparks and pieces: "
    "face shield over safety glasses, ear defenders, the work clamped, guards on; no "
    "gloves, loose sleeves or hair near them.",
    decides="The sheet of the machine's maker and the rules of the place decide.",
    met=r"(?i)\b(grind(s|ing|er)?|ground|belt|saw[ns]?|sawing|drill(s|ed|ing)?)\b",
    mark=r"(?i)face shield|loose sleeves|no gloves",
)
DUST = Danger(
    name="dust",
    hurts="smith, neighbours",
    says="Dust of steel and grit harms lungs: draw it off or grind wet, in a mask for fine "
    "metal dust; no eating there, wash; no wood dust where sparks go.",
    decides="The rules of the place decide.",
    met=r"(?i)\b(grind(s|ing|er)?|ground|belt|sand(s|ed|ing)?)\b",
    mark=r"(?i)metal dust|dust drawn off|draw(n)? it off|dust .{0,30}(harms|hurts) lungs",
)
ETCHANT = Danger(
    name="etchant",
    hurts="trained adults",
    says="Etchant burns eyes and skin and eats metal: trained adults, in a proper place, "
    "with goggles, nitrile gloves, apron, moving fresh air, in plastic or glass, never a "
    "metal vessel. Acid or etchant into water, never water into it. Never at a public "
    "table.",
    decides="Its safety sheet and local rules decide.",
    met=r"(?i)\b(etch(es|ed|ing|ant)?|acids?|ferric chloride)\b",
    mark=r"(?i)nitrile|goggles|into (the )?water|at a public table",
    source="safety data sheet of ferric chloride, 25 to 35 %: skin 1B, eye 1, corrosive to "
    "metals 1; a school-safety card; both seen in copies",
)
SPENT = Danger(
    name="spent etchant",
    hurts="trained adults, the water",
    says="A spent bath holds iron, nickel and chromium: it is waste for the collection "
    "point, not for the drain. Soda neutralises it: slowly, for it froths. Never mix it "
    "with persulphate: that gives off chlorine.",
    decides="Local rules on waste decide.",
    met=r"(?i)\b(ferric chloride|bath)\b",
    mark=r"(?i)(down|for) the drain|spent bath|froths",
    source="a school-safety card and pages of hobby chemistry",
)
OIL = Danger(
    name="quench oil",
    hurts="smith, onlookers",
    says="Hot oil can flash and burn: stay far below the flash point on the oil's own "
    "sheet; deep metal tank with a lid, away from walls; the blade under wholly and at "
    "once; an extinguisher for burning oil, of the class your rules name; never water.",
    decides="The sheet of the oil and somebody qualified decide.",
    met=r"(?i)\b(quench(es|ed|ing)?|harden(s|ed|ing)?)\b",
    mark=r"(?i)flash point|burning oil|oil can flash",
)
UNTEMPERED = Danger(
    name="hardened, not yet tempered",
    hurts="smith, whoever holds it",
    says="Temper at once: straight from the quench a blade is brittle and can break in the "
    "hand, when it falls, or by itself. It is not handed round, and not bent straight.",
    decides="The data sheet of the steel decides, and somebody qualified.",
    met=r"(?i)\b(quench(es|ed|ing)?|harden(s|ed|ing)?)\b",
    mark=r"(?i)break in the hand",
)

DANGERS = {
    danger.name: danger
    for danger in (
        *(FIRE, MONOXIDE, FLUX, PLATED, LEADED, UNKNOWN, SEALED, SOLVENT, SCALE, FUME),
        *(NICKEL, PRESS, GRINDER, DUST, ETCHANT, SPENT, OIL, UNTEMPERED),
    )
}

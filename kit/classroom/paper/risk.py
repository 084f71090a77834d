"""A risk assessment to edit by hand: hazard, who, usual controls, your local rule."""

from __future__ import annotations

from typing import NamedTuple

from kit.classroom.paper.page import Page
from kit.classroom.paper.tables import BOX, Table
from kit.metal.hardening import AT_ONCE, QUENCH_OIL

TITLE = "Risk assessment, for you to edit"
HEAD = (
    "A beginning (common practice, no source), not an assessment. The law and the rules of "
    "your place come first; somebody qualified checks, fills in and signs it. Strike out "
    "what you do not do, and add what is missing."
)


class Hazard(NamedTuple):
    """What can hurt, whom, and what is usually done about it."""

    name: str
    who: str
    controls: str


HAZARDS = (
    Hazard("Clay, wire, blade for cutting", "pupils, visitors",
     "Wire with handles; a blunt blade; cut away from the hand; wash hands after."),
    Hazard("Etched bars and blades", "pupils, visitors",
     "Bars blunt, edges broken; blades stay in a locked case; the law on knives."),
    Hazard("Forge: burns, sparks, hot steel that looks cold", "smith, onlookers",
     "Only those trained; barrier and distance; glasses, natural fibres, boots; hot work "
     "marked; water and first aid at hand."),
    Hazard("Gas and carbon monoxide", "everybody in the room",
     "Moving air, alarm, bottles upright and outside, hoses checked; lighting by the "
     "trained only."),
    Hazard("Hammer, press, rolling mill", "smith, helper",
     "Nobody in the line of the press; tools seated; foot off the pedal; no helper inside "
     "the guard."),
    Hazard("Welding tacks and handle", "smith, onlookers",
     "Mask, screen against the arc; no galvanised rod, no rebar; dry gloves; fume drawn "
     "off: of stainless steel it holds hexavalent chromium and nickel."),
    Hazard("Sealed cans; stainless steel; flux", "smith, onlookers",
     "Not in a class. A closed can with powder, air, water or oil in it bursts: nobody in "
     "line, taught by somebody qualified. No flux with fluoride: poisonous."),
    Hazard("Grinder and saw: dust, noise, fragments", "smith, neighbours",
     "Extraction or mask for fine dust, face shield, ear defenders; no gloves at the belt; "
     "wheel checked."),
    Hazard("Nickel and chromium in dust and etch", "smith, owner of the piece",
     "Wet or extracted, fitted respirator; no eating at the bench; wash; who is allergic "
     "stays away; buyers are told of nickel."),
    Hazard("Etch: ferric chloride, coffee, vinegar", "trained adults",
     "Goggles, nitrile gloves, apron, air; etchant into water; no metal vessel; spent bath "
     "to the collection point. Never at a public table."),
    Hazard("Hardening: oil fire", "smith, onlookers",
     f"{QUENCH_OIL} Outdoors or hood; glasses."),
    Hazard("Hardened, not yet tempered: breaks", "smith, whoever holds it",
     f"{AT_ONCE} Glasses; not handed round, not bent straight, not dropped."),
    Hazard("Lifting, tripping, cables", "everybody",
     "Two to a stack; cables taped; floor dry."),
    Hazard("Sun, heat, long standing", "everybody", "Shade, water, breaks; a chair."),
)  # fmt: skip


def risk_assessment(paper: str = "A4") -> list[Page]:
    """Give the pages; the last columns are left empty."""
    rows = [(*row, BOX, BOX) for row in HAZARDS]
    pages, blank = [], [(BOX,) * 5] * 5
    left = [*rows, *blank]
    while left:
        page = Page(paper, TITLE if not pages else f"{TITLE} ({len(pages) + 1})")
        if not pages:
            page.write(HEAD, size=10)
            page.y += 3
            page.write("Place:                              Activity:                    "
                "          Checked by, date:", size=11)  # fmt: skip
            page.y += 2
        grid = Table(
            ("Hazard", "Who", "Usual controls", "Your local rule", "Who sees to it"),
            (36, 25, 57, 45, 27),
            size=9,
            least=21,
            rows=left,
        )
        left = grid.draw(page)
        pages.append(page)
    return pages

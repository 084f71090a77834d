"""Pages to tick and fill in by hand: a risk assessment to edit, and before a show."""

from kit.classroom.paper.kinds import Asked, Kind
from kit.classroom.paper.page import LIVE, Page
from kit.classroom.paper.table import BOX, Table
from kit.metal.dangers import DANGERS, LEARN

TITLE = "Risk assessment, for you to edit"
HEAD = (
    "A beginning (common practice, no source), not an assessment; the law comes first. "
    f"{LEARN} Strike out what you do not do, add what is missing; who may do so signs it."
)


def risk_assessment(asked: Asked) -> list[Page]:
    """Give the pages; the last columns are left empty."""
    rows = [
        (one.name.capitalize(), one.hurts, one.says, one.decides, BOX)
        for one in DANGERS.values()
    ]
    pages, blank = [asked.page(TITLE)], [(BOX,) * 5] * 5
    pages[0].write(HEAD, size=10)
    pages[0].y += 3
    pages[0].write("Place:                              Activity:                    "
        "          Checked by, date:", size=11)  # fmt: skip
    pages[0].y += 2
    grid = Table(
        (
            "Hazard",
            "Who",
            "Usual controls",
            "Who decides; your local rule",
            "Who sees to it",
        ),
        (32, 24, 72, 40, 22),
        size=9,
        least=21,
        rows=[*rows, *blank],
    )
    return grid.run(pages, lambda: asked.page(f"{TITLE} ({len(pages) + 1})"))


CHECKS = {
    "The screen": (
        "Network off, page loaded again: it still works.",
        "Airplane mode on; notifications off; screen lock off; the app pinned.",
        "Nobody touches it for 30 seconds: it asks, and ten seconds later it begins anew.",
        "In the sun at noon, with its hood: a friend reads it from 3 m.",
        "A glove and a stylus work it; the stylus hangs on a cord.",
        "Number pad: 4 and 6 grind, 8 and 2 choose, Enter shows, 0 starts again.",
        "Outlined bank card on the screen fits a real one.",
        "The film has run for 8 hours; power bank, cable and shade are packed.",
    ),
    "The table": (
        "Vote cards, care cards, flip-book and spare paper, in a dry bag.",
        "Two-colour clay, chilled; cutting wire, mat, wet cloth for hands.",
        "One blunt bar, edge broken, etched, on a chain: this may be handled.",
        "Blades in the case, the case locked, the key in a pocket.",
        "Wedge of 15°, rule, loupe, protractor.",
    ),
    "Safety and manners": (
        "No acid, no loose sharp blade, no fire without those who may light it.",
        "The venue's fire rules read; where the extinguisher and the way out are.",
        "The law of the place on carrying and showing knives, known.",
        "Who looks after the table at lunch, and who may light a forge.",
        "No cable to trip over; table steady; room for a wheelchair.",
    ),
}


def before_show(asked: Asked) -> list[Page]:
    """Give the page."""
    page = asked.page("Before the show table opens")
    page.write(f"Show:{' ' * 39}Date:{' ' * 20}Checked by:")
    for title, lines in CHECKS.items():
        page.y += 4
        page.write(title, size=13, bold=True)
        page.y += 1
        for line in lines:
            page.box((0, page.y + 0.3), (4.2, 4.2))
            page.y = page.write(line, (8, page.y), LIVE[0] - 8) + 2.4
    page.y += 3
    page.write("Went wrong last time, and what we do about it:", bold=True)
    page.box((0, page.y + 1), (LIVE[0], LIVE[1] - page.y - 3))
    page.foot(LEARN)
    return [page]


PRINTS = (
    Kind("risk", "a risk assessment to edit", risk_assessment),
    Kind("before-show", "what to check before a show", before_show),
)

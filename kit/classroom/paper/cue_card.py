"""The cue card: what a maker asks and says at each picture of a bar, on one page."""

from collections.abc import Sequence

from kit.basics.claim import Kind as Known
from kit.basics.claim import marks
from kit.basics.told import in_units
from kit.basics.units import Units
from kit.classroom.paper.kinds import PLAN, Asked, Kind
from kit.classroom.paper.page import HAIR, LIVE, Page
from kit.classroom.paper.table import Table
from kit.classroom.paper.to_scale import DOT
from kit.course.anvil import void
from kit.course.anvil.class_talk import class_talks, plans
from kit.course.anvil.desk import Desk
from kit.course.anvil.history import History
from kit.course.anvil.look import Look, title
from kit.course.anvil.run_out import tick
from kit.course.anvil.sentence import counts
from kit.course.lessons.scene import FORGED
from kit.metal import etch
from kit.section.picture import STEEL, Sheet
from kit.section.welds import darkened
from kit.shop.recipes.recipe import Recipe
from kit.shop.recipes.talk import Cue

PICTURE = (60.0, 20.0)  # mm
GAP = 4.0  # mm, between picture and words, and from row to row
SIZES = (17, 15, 13, 12, 11, 10, 9)  # points: the largest with which all is on one page
LETTERS, TICK = 30, 2.4  # dots high, and times a screen's: 2.5 and 2 mm on paper
ASKED = {"ask": "Ask", "say": "Say", "clay": "Clay"}
FOOT = (
    "Picture first, then the question; wait for a guess; then the sentence, then the clay. "
    f"Layers: {marks((FORGED,))}. Tones and light illustrative."
)
GUESS = (
    f"Layers: {marks((FORGED,))}. How long each part takes: {Known.OURS.value}, time yours."
)


def cue_cards(asked: Asked) -> list[Page]:
    """Give one page, more if there is much to say; of the class's plan its own talks.

    Where nothing is said yet, every stage is there with lines to write on.

    Raises
    ------
    KitError
        If the talk is of stages that the bar does not have.
    """
    if asked.recipe == PLAN:
        talks = [_in_units(one, asked.units) for one in class_talks()]
        return [page for one in talks for page in _cards(one, asked)] + [_clock(asked)]
    about = asked.about
    if not isinstance(about, Recipe):
        about = Recipe(name="a planned bar", billet=about.billet)
    return _cards(about, asked)


def _cards(recipe: Recipe, asked: Asked) -> list[Page]:
    history = Desk.of_recipe(recipe).history
    cues = history.talk or [Cue(stage=at) for at in range(len(history.stages))]
    page = asked.page(f"What to say: {recipe.name}")
    if missed := void.told_of(history, len(history.acts)):
        page.write(missed, size=11, bold=True)
    room = LIVE[1] - page.y
    size = next((s for s in SIZES if _tall(page, cues, s) <= room), SIZES[-1])
    pages = [page]
    for cue in cues:
        if page.y + _tall(page, [cue], size) > LIVE[1]:
            page = asked.page(f"More to say: {recipe.name}")
            pages.append(page)
        _row(page, history, cue, size, asked.units)
    for page in pages:
        page.foot(FOOT)
    return pages


def _lines(cue: Cue) -> list[tuple[str, bool]]:
    """Give what stands beside the picture, and whether it is bold."""
    if cue.empty:
        return [(f"{name}:", False) for name in ASKED.values()]
    said = {kind: getattr(cue, kind) for kind in ASKED}
    return [
        (f"{ASKED[kind]}: {words}", kind == "ask") for kind, words in said.items() if words
    ]


def _tall(page: Page, cues: Sequence[Cue], size: float) -> float:
    wide = LIVE[0] - PICTURE[0] - GAP
    least = PICTURE[1] + page.tall("1", wide, 8)
    words = (
        sum(page.tall(line, wide, size, bold=bold) for line, bold in _lines(cue))
        for cue in cues
    )
    return sum(max(least, tall) + GAP for tall in words)


def _row(page: Page, history: History, cue: Cue, size: float, units: Units) -> None:
    top = page.y
    stage = history.stages[cue.stage]
    look = Look(**dict(cue.look))
    below = page.picture(_seen(history, cue.stage, look), (0, top), PICTURE[0])
    page.box((0, top), PICTURE, width=HAIR)
    shown = f"{cue.stage}. {title(look, stage.bar, units)}; {counts(stage)}"
    page.write(shown, (0, below + 0.6), PICTURE[0] + 2, size=7)
    x, y = PICTURE[0] + GAP, top
    for line, bold in _lines(cue):
        y = page.write(line, (x, y), size=size, bold=bold)
        if cue.empty:  # to write on, up to the page's edge
            after = x + page.wide(line, size) + 1
            page.line((after, y - 1), (LIVE[0], y - 1), width=HAIR)
    page.y = top + _tall(page, [cue], size)


def _seen(history: History, at: int, look: Look) -> object:
    """Draw what is looked at, as large as its place on the page."""
    bar = history.stages[at].bar
    columns, rows = (round(side / DOT) for side in PICTURE)
    surface = look.plane(bar, columns, rows)
    seen = etch.seen(bar, surface)
    dark = void.lines(bar, surface, void.flaws(history, at))
    sheet = Sheet(columns, rows, sunlit=True, look=STEEL, letters=LETTERS)
    sheet.steel(darkened(seen, dark), (0, 0), surface)
    tick(sheet, seen.cover, dark, (0, 0), TICK)
    return sheet.image


def _clock(asked: Asked) -> Page:
    """Draw the plans of the class's talk: what when, and the clay beside the screen."""
    page = asked.page("The class's talk, by the clock")
    for plan in plans():
        page.write(plan.name, size=13, bold=True)
        table = Table(("At", "On the screen", "In clay, beside it"), (16, 108, 66), size=10)
        table.rows = [(part.time, part.does, part.clay) for part in plan.parts]
        table.draw(page)
        page.y += 6
    page.foot(GUESS)
    return page


def _in_units(recipe: Recipe, units: Units) -> Recipe:
    """Tell the kit's own talk in the reader's units; what a maker wrote stays."""
    talk = tuple(
        cue.model_copy(update={kind: in_units(getattr(cue, kind), units) for kind in ASKED})
        for cue in recipe.talk
    )
    return recipe.model_copy(update={"talk": talk})


PRINTS = (
    Kind("cue-card", "what you ask and say at each picture of a bar", cue_cards, "bar"),
)

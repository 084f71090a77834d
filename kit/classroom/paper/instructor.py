"""The instructor's pack: plans of 45 minutes, what each wrong choice means, what to bring.

The plans are the notebooks' own words, read from the notebooks themselves, the votes the
lessons' own ideas: nothing is written here twice.
"""

from kit.basics.claim import known, with_marks
from kit.classroom.paper.checklists import risk_assessment
from kit.classroom.paper.handout import LETTERS, choices, lessons, rests, value_of
from kit.classroom.paper.kinds import ALL, Asked, Kind, kinds
from kit.classroom.paper.page import LIVE, Page
from kit.classroom.paper.table import Table
from kit.classroom.plans import TEACH, WITH, paragraphs, sections, table
from kit.course.lesson import Question
from kit.course.lessons.base import Lesson
from kit.metal.dangers import LEARN

SIZE = 11  # points
PICTURES = 50  # mm: what can be chosen, with the words below
COURSES = (
    ("Show table", "01, 04, 05", "two minutes each"),
    ("Half a day, beginners", "01, 02, 04, 06, 09", "45 minutes each, with clay"),
    ("A forging class", "01 to 10", "10 on the evening before the fire"),
    ("Buyers of a bar", "01, 06, 09", "and the questions page"),
    ("“Is it better steel?”", "08", "stands alone"),
    ("Learning alone", "in order", "25 to 40 minutes each"),
)


def instructor_pack(asked: Asked) -> list[Page]:
    """Give the pack of one lesson, or of all with the overview and the risk assessment."""
    pages = [page for each in lessons(asked) for page in _lesson(each, asked)]
    if asked.lesson != ALL:
        return pages
    return [*_overview(asked), *pages, *risk_assessment(asked)]


class _Flow:
    """Words that run on from page to page."""

    def __init__(
        self, asked: Asked, title: str, size: float = SIZE, foot: str = LEARN
    ) -> None:
        self.asked, self.title, self.size, self.foot = asked, title, size, foot
        self.pages: list[Page] = []
        self.pages.append(self.turn())

    @property
    def page(self) -> Page:
        """The page that is written on."""
        return self.pages[-1]

    def turn(self) -> Page:
        """Give the next page."""
        more = f" ({len(self.pages) + 1})" if self.pages else ""
        page = self.asked.page(f"{self.title}{more}")
        page.foot(self.foot)
        return page

    def words(self, words: str, *, bold: bool = False, keep: float = 0) -> None:
        """Set a paragraph, with `keep` mm below it: no heading is left alone at a foot."""
        size, words = self.size + bold, with_marks(words)
        need = self.page.tall(words, size=size, bold=bold) + (keep or 14 * bold)
        if self.page.y + need > LIVE[1]:
            self.pages.append(self.turn())
        self.page.write(words, size=size, bold=bold)
        self.page.y += 0.5 if bold else 1.5

    def table(self, headings: tuple, widths: tuple, rows: list) -> None:
        """Set a table, on a new page if that keeps it whole; a long one runs on."""
        told = [tuple(map(with_marks, row)) for row in rows]
        grid = Table(headings, widths, size=self.size, rows=told)
        if LIVE[1] - self.page.y < grid.tall(self.page) < LIVE[1] / 3:
            self.pages.append(self.turn())
        grid.run(self.pages, self.turn)
        self.page.y += 3


def _overview(asked: Asked) -> list[Page]:
    flow = _Flow(asked, "Instructor's pack", 10)
    flow.words(
        "One plan of 45 minutes to a lesson, with the votes and what each wrong choice "
        "means. A wrong choice is one idea, not carelessness. The times are a guide."
    )
    rows = table(sections("00")["The lessons"])
    flow.words("The lessons", bold=True)
    flow.table(("", "Lesson", "It answers"), (10, 70, 110), [row[:3] for row in rows])
    flow.words("Which of them", bold=True)
    flow.table(("For", "Lessons", "How"), (60, 55, 75), list(COURSES))
    flow.words("How to vote", bold=True)
    flow.words(
        "Show the question. Everybody chooses alone and holds up a card, A to D. Fewer "
        "than 35 % right: teach. More than 70 %: go on. Between: two minutes of talk in "
        "pairs, then vote again. Ask for reasons before you tell."
    )
    flow.words("Kit list for all lessons", bold=True)
    flow.words(
        "A screen or one laptop to a pair; vote cards; rules, protractors, loupes; "
        "two-colour modelling clay, cutting wire, guide sticks, roller, mats; the printed "
        "handouts, at 100 %; blunt etched pieces. What a lesson needs beside these stands "
        "with it, under clay and steel."
    )
    return flow.pages


def _lesson(given: type[Lesson], asked: Asked) -> list[Page]:
    said = sections(given.number)
    foot = f"{LEARN} {rests(given)}"
    flow = _Flow(asked, f"{given.number}  {given.title}", foot=foot)
    plan = said[TEACH]
    flow.words(TEACH, bold=True)
    flow.table(("Minutes", "What happens"), (20, 170), table(plan))
    for part in paragraphs(plan):
        flow.words(part)
    flow.words("Bring: with clay and with steel", bold=True)
    for part in paragraphs(said[WITH]):
        flow.words(part)
    _votes(flow, given.question)
    _checks(flow, given)
    return flow.pages


def _votes(flow: _Flow, asked: Question) -> None:
    """Set the question, its pictures and what each means, all on one page."""
    rows = []
    for letter, idea, value in zip(LETTERS, asked.tiles, asked.values(), strict=True):
        right = idea is asked.right
        means = f"Right. {asked.observed}" if right else f"They {idea.name}. {idea.hint}"
        rows.append((letter, asked.show(value), means))
    headed = (("", "Shows", "Means"), (10, 45, 135))
    tall = PICTURES + Table(*headed, size=flow.size, rows=rows).tall(flow.page)
    title = "The prediction, and what each choice means"
    flow.words(title, bold=True, keep=tall + flow.page.tall(asked.ask, size=flow.size) + 4)
    flow.words(asked.ask)
    flow.page.y = choices(flow.page, asked, flow.page.y + 1) + 13
    flow.table(*headed, rows)


def _checks(flow: _Flow, given: type[Lesson]) -> None:
    """Set each question with its slips on one page, the last two on the same one."""
    parts = []
    for number, check in enumerate(given.checks, 1):
        right = value_of(check)
        rows = [
            (value_of(check, slip.value(check.given)), f"They {slip.name}.")
            for slip in check.slips
        ]
        parts.append((f"{number}.  {check.ask}  Answer:\u00a0{right}.", rows))
    headed = (("Says", "Because"), (35, 155))
    below = [Table(*headed, size=flow.size, rows=rows).tall(flow.page) for _, rows in parts]
    whole = [
        flow.page.tall(words, size=flow.size) + 5 + tall
        for (words, _), tall in zip(parts, below, strict=True)
    ]
    title = known("Check yourself, and the slips", given.claims())
    flow.words(title, bold=True, keep=sum(whole[:1] if len(whole) > 2 else whole))
    for at, (words, rows) in enumerate(parts):
        last = whole[-1] if at == len(parts) - 2 else 0
        flow.words(words, keep=below[at] + 5 + last)
        flow.table(*headed, rows)


def class_set(asked: Asked) -> list[Page]:
    """Give all that a class needs: the teacher's pack, the wall, votes, then handouts."""
    wanted = ("instructor", "wall", "votes", "handout")
    return [page for name in wanted for page in kinds()[name].pages(asked)]


PRINTS = (
    Kind(
        "class-set",
        "a class's whole set: the plan, the wall's copy, vote cards, handouts, answers",
        class_set,
        "lesson",
        counted=False,
    ),
    Kind(
        "instructor",
        "plans of 45 minutes, votes, slips; with all lessons the risk assessment, too",
        instructor_pack,
        "lesson",
    ),
)

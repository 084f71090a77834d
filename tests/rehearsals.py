"""Play every page through by itself: each control to both ends, nonsense on each line."""

import tempfile
from collections.abc import Callable, Iterable
from functools import partial
from pathlib import Path
from typing import Any, get_args

from ipywidgets import Widget

from kit.classroom.homework.sets import SETS
from kit.classroom.show.piece import STOPS
from kit.classroom.views.along import Along
from kit.classroom.views.homework import HomeworkPage
from kit.classroom.views.marking import MarkingPage
from kit.classroom.views.printing import room
from kit.classroom.views.quiz import QuizPage
from kit.classroom.views.show import ShowTable
from kit.course.anvil.acts import VERBS
from kit.course.anvil.tasks import TASKS
from kit.course.map import LESSONS
from kit.course.views import forge_lines as lines
from kit.course.views.base import View
from kit.course.views.check import CheckYourself
from kit.course.views.controls import Choice, Slider
from kit.course.views.extended import BoughtView
from kit.course.views.forge import Forge
from kit.course.views.forge_files import ForgeFiles
from kit.course.views.lesson import lesson, view_of
from kit.course.views.making import Making
from kit.course.views.measuring import MeasuringView
from kit.course.views.pairs import PairTable
from kit.course.views.predict import Explain, Predict
from kit.course.views.questions import QuestionsView
from kit.course.views.racked import HOW, Racked
from kit.course.views.talk import BEATS, MOST_LETTERS, Talk
from kit.course.views.tasks import MakeThis
from kit.course.views.weighing import Weighing
from kit.shop import rack
from kit.shop.recipes.talk import Kind

TAKEN_BACK = 3  # acts; that all can be is `tests/test_forge_view.py`'s to say
LONGEST = 300  # s, for one file
NONSENSE = ("abc", "", "-3", "400", "1e99", "<b>")


def _forge_page() -> tuple[Widget, ...]:
    forge = Forge()  # itself it is moved on the first page
    files = ForgeFiles(forge)
    return files, Along(files), Talk(forge), MakeThis(forge)


# What is played through on each page: those of lessons by key, the others by their file.
PAGES: dict[str, Callable[[], Iterable[Widget]]] = {
    **{key: partial(lesson, key) for key in LESSONS},
    **{code.lower(): lambda code=code: (HomeworkPage(code),) for code in SETS},
    "00_start_here": lambda: (Forge(),),
    "forge": _forge_page,
    "instructor": lambda: (MarkingPage(),),
    "measure": lambda: (MeasuringView(),),
    "pairs": lambda: (PairTable(),),
    "print": lambda: room()[:2],
    "questions": lambda: (QuestionsView(),),
    "quiz": lambda: (QuizPage(),),
    "rack": lambda: (Racked(view_of("10")), Weighing(view_of("10"))),
    "show": lambda: (ShowTable(),),
}


def rehearse(page: str) -> None:
    """Make a page afresh, use every control to both ends, choose every tile and answer."""
    for part in PAGES[page]():
        play(part)


def play(part: Any) -> None:
    """Play one part of a page through, by all that it is."""
    for kind, one in _PLAYS.items():
        if isinstance(part, kind):
            one(part)


def every_option(choices: Iterable[Widget]) -> None:
    """Choose each option once, the first one last; what has no options is left alone."""
    for choice in choices:
        for option in reversed(range(len(getattr(choice, "options", ())))):
            choice.value = option


def typed(slider: Slider) -> None:
    """Type nonsense beside a slider, as a front end sends it."""
    for text in NONSENSE:
        slider._handle_custom_msg({"typed": text}, [])


def _predict(predict: Predict) -> None:
    predict.observe_now()  # refused: nothing was chosen
    for _person in range(2):
        predict.next_person()
        for tile in range(len(predict.tiles.options)):
            predict.tiles.value = tile
        predict.sure.value = 2
        predict.observe_now()


def _explain(explain: Explain) -> None:
    for reason in range(len(explain.reasons.options)):
        explain.reasons.value = reason


def _view(view: View) -> None:
    """Move each control to both ends and back; type nonsense; undo."""
    for control in view.controls.values():
        slides = isinstance(control, Slider)
        ends = control.stops if slides else range(len(control.options))
        start = control.value
        for value in (ends[0], ends[-1], start):
            control.value = value
        if slides:
            typed(control)
    every_option(view.looks.choices)
    view.line.toggle()
    for press in (view.work_out, view.read_out, view.undo, view.reset, view.rest):
        press()
    view.line.toggle()


def _bought(view: BoughtView) -> None:
    """Ask for the likeness of nothing, and of a picture as wide as no number."""
    view.find()
    view.wide.value = "abc"
    view.find()


def _check(checks: CheckYourself) -> None:
    for row in checks.rows:
        for lane in (0, 1, 2):
            row.lane.value = lane
            for offer in range(len(row.offered.options)):
                row.offered.value = offer
            for text in (*NONSENSE, *row.offered.options):
                row.answer.value = text


def _forge(forge: Forge) -> None:
    """Do everything once, with every number at both ends; then take some of it back."""
    for name in VERBS:
        forge.add(name)  # refused, some of them
        forge.do_first()
        for key in lines.numbers(forge.desk):
            forge.pick(key)
            for stop in (forge.slider.stops[0], forge.slider.stops[-1]):
                forge.slider.value = stop
            typed(forge.slider)
    for kind in get_args(Kind):
        forge.set("look:kind", kind)
    forge.metal.value = forge.ends.value = 1
    forge.code.opened = True
    forge.move(-1)
    forge.miss()
    forge.take_out()
    for _ in range(TAKEN_BACK):
        forge.undo()
    forge.redo()
    forge.rest()


def _files(files: ForgeFiles) -> None:
    for place in range(len(files.named.options)):
        files.named.value = place
    for text in NONSENSE:
        files.typed.value = text
        files.read_line()
    files.hand_on()


def _tasks(tasks: MakeThis) -> None:
    """Open every task, ask for both hints, and judge what lies on the anvil twice."""
    for number in (*range(len(TASKS)), 0):
        tasks.choice.value = number
        for press in (tasks.hint, tasks.hint, tasks.hint, tasks.judge, tasks.judge):
            press()


def _talk(talk: Talk) -> None:
    """Write, give the talk, and leave."""
    talk.begin()
    for kind in BEATS:
        talk.write(kind, "<b>How many?</b>")
    talk.write("ask", "x" * (MOST_LETTERS + 1))  # refused
    talk.begin()
    talk.leave()
    talk.forge.undo()


def _making(making: Making) -> None:
    """Make every choice once, stop one, and let one finish."""
    every_option(making.choices)
    making.begin()
    making.stop()
    making.wait(LONGEST)
    making.begin()
    making.wait(LONGEST)


def _pairs(table: PairTable) -> None:
    """Choose every steel once in both places."""
    for choice in (table.first, table.second):
        for place in range(len(table.names)):
            choice.value = place


def _rack(page: Racked) -> None:
    """Plan from what is there, from nothing, and from nonsense."""
    for text in (page.bars.value, "", "abc", rack.to_lines(HOW)):
        page.bars.value = text
        page.work_out()


def _weighing(page: Weighing) -> None:
    """Weigh nothing, nonsense, and a billet that lost what was planned."""
    planned = page._plan().stages()[0].grams_after
    for text in ("", "abc", "-3", f"{planned:.1f}"):
        page.grams[0].value = text
        page.work_out()


def _measuring(view: MeasuringView) -> None:
    """Set a scale, count, and press everything once without marks."""
    for doing in (3, 2, 1, 0):
        view.doing.value = doing
        view.do()
    ends = ((0.1, 0.5), (0.6, 0.5))
    view.length.value = "40 mm"
    for doing, places in ((1, ends), (3, ((0.05, 0.1), (0.9, 0.9))), (0, ends)):
        view.doing.value = doing
        for place in places:
            view.mark(*place)
        view.do()
    view.mark(0.999, 0.999)
    for doing in (0, 1, 3):
        view.doing.value = doing
        view.clear()
    view.doing.value = 0


def _questions(page: QuestionsView) -> None:
    """Search for sense and nonsense, open every card, change units, light and type."""
    for words in (*NONSENSE, "FAKE", "rust", "zzz"):
        page.search.value = words
    page.show_all()
    for place in range(len(page.found)):
        page.choice.value = place
    every_option(page.looks.choices)
    page.step(1)
    page.step(-1)


def _homework(page: HomeworkPage) -> None:
    """Go through a paper in a folder of its own, from nothing to the hand-in."""
    with tempfile.TemporaryDirectory() as place:
        page.folder = Path(place)
        page.begin()  # refused: no name
        page.course.value, page.student.value = "REHEARSAL", "Nobody"
        page.begin()
        for row in page.rows:
            for text in ("", "abc", "1", "3/16 in", "400 °F", "1e99"):
                row.answer.value = text
            for option in range(len(row.part.options)):
                row.offered.value = option
        page.design.make()
        page.judged.compare()
        page.judged.words.value = "word " * 20
        page.make()
        page.judged.compare()
        for choice in page.looks.unit_choice.options:
            page.looks.unit_choice.value = page.looks.unit_choice.options.index(choice)
        page.make()
        page.fresh()
        page.begin()  # its draft comes back


def _quiz(page: QuizPage) -> None:
    """Answer nothing, nonsense and everything once, in a folder of its own."""
    with tempfile.TemporaryDirectory() as place:
        page.folder = Path(place)
        page.make()  # refused: no name
        page.course.value, page.student.value = "REHEARSAL", "Nobody"
        for answer in page.answers:
            answer.value = 0 if isinstance(answer, Choice) else "abc"
        page.make()  # refused: before, or after?
        for when in (1, 0):
            page.when.value = when
            page.make()


def _marking(page: MarkingPage) -> None:
    """Mark a folder that is not there, an empty one, and press everything once."""
    with tempfile.TemporaryDirectory() as place:
        for folder in (str(Path(place) / "none"), place):
            page.folder.value = folder
            page.mark()
        page._try(page.roster.keep)  # refused: no name
        page.reading.keep()
    every_option((*page.making.choices[:2], page.looks.unit_choice))
    page.making.begin()  # refused: no roster
    page.making.wait(60)


def _show(table: ShowTable) -> None:
    """Play every piece, own ones that can be and cannot be, and every look."""
    for piece in range(len(table.pieces)):
        table.which.value = piece
        for tile in range(len(table.tiles.options)):
            table.tiles.value = tile
        table.show()
        for stop in (STOPS - 1, 0):
            table.slider.value = float(stop)
        table.tell()
        table.next_visitor()
    for words in ("low twist", "no such pattern", ""):
        table.own.value = words
    every_option(table.looks.choices)


_PLAYS: dict[type, Callable[[Any], None]] = {
    Predict: _predict,
    Explain: _explain,
    CheckYourself: _check,
    View: _view,
    BoughtView: _bought,
    Forge: _forge,
    ForgeFiles: _files,
    Along: lambda along: _making(along.making),
    Talk: _talk,
    MakeThis: _tasks,
    Making: _making,
    PairTable: _pairs,
    Racked: _rack,
    Weighing: _weighing,
    MeasuringView: _measuring,
    QuestionsView: _questions,
    HomeworkPage: _homework,
    QuizPage: _quiz,
    MarkingPage: _marking,
    ShowTable: _show,
}

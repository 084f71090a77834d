"""A homework page: whose paper, the parts, the design, the words, the hand-in."""

import tempfile
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.classroom.homework import drafts, hand_in
from kit.classroom.homework.hand_in import HandIn
from kit.classroom.homework.paper import Paper, draw, normalised
from kit.classroom.homework.sets import homework
from kit.classroom.homework.sitting import PRACTICE, Sitting, left_out
from kit.classroom.paper import homework_papers
from kit.classroom.views.answering import DesignBox, PartRow, on_enter
from kit.classroom.views.judging import JudgedBox, SheetBox
from kit.course.views.controls import Looks, blank, button, in_a_row
from kit.course.views.said import Says, download, spoken

WITH_SHEET = "H5"  # the capstone, that can be forged


class HomeworkPage(widgets.VBox):
    """One set of homework for one student.

    Parameters
    ----------
    code : str
        "H1" … "H5".
    folder : Path, optional
        Where drafts and hand-ins are kept; see `kit.classroom.homework.drafts`.
    """

    def __init__(self, code: str, folder: Path | None = None) -> None:
        super().__init__()
        self.add_class("kit-view")
        self.homework, self.folder = homework(code), folder or drafts.folder()
        self.sitting: Sitting | None = None
        wide = "26em", "11em"
        self.course = blank("Course code", "from your instructor", *wide)
        self.student = blank("Your name or number", "as on the roster", *wide)
        self.open_button = button("Give me my paper", self.begin, "kit-main")
        self.fresh_button = button("Practice paper", self.fresh)
        for box in (self.course, self.student):
            on_enter(box, self.begin)
        self.hand_in_button = button("Make my hand-in", self.make, "kit-main")
        row = in_a_row(self.open_button, self.fresh_button)
        last = in_a_row(self.hand_in_button)
        self.looks = Looks(self._new_look)
        self.says, self.marks, self.done = Says(), Says(), Says()
        self.body = widgets.VBox([])
        self._last, self._restoring, self.redraw = last, False, 0
        self._made: list[HandIn] = []
        self.children = [self.course, self.student, row, self.looks, self.says, self.body]
        self.says.tell(
            "Your values are worked out from course and name: the same on any machine."
        )

    def begin(self, _button: Any = None) -> None:
        """Draw the paper, and bring back its draft if there is one."""
        self._begin(0)

    def fresh(self, _button: Any = None) -> None:
        """Draw another paper, to practise: it is never counted."""
        self._begin(self.redraw + 1)

    def _begin(self, redraw: int) -> None:
        try:
            paper = draw(self.homework, self.course.value, self.student.value, redraw)
        except KitError as refused:
            self.says.tell(str(refused), refused=True)
            return
        self.redraw, self.draft = redraw, drafts.Draft(self.folder, paper)
        self.done.value = ""
        told = f"Practice paper {redraw}: it is never counted. " if redraw else ""
        try:
            found = self.draft.load()
        except KitError as refused:
            self._lay_out(paper, None)
            self.says.tell(f"{told}{refused}", refused=True)
            return
        self._lay_out(paper, found)
        back = f"Your draft of {len(found.answers)} answers is back." if found else ""
        self.says.tell(f"{told}{back}" or "Here is your paper. It is kept as you go.")

    def _lay_out(self, paper: Paper, draft: HandIn | None) -> None:
        """Show a paper, with everything that a draft of it has."""
        self.sitting = Sitting(paper, self.looks.units)
        if draft is not None:
            self.sitting.restore(draft.answers)
        self.rows = [PartRow(self.sitting, part, self.keep) for part in self.homework.parts]
        self.design = DesignBox(self.sitting, self.keep)
        self.judged = JudgedBox(self.sitting, self.keep, self.handed)
        self.sheet = SheetBox(self.keep)
        sheets = [self.sheet] if self.homework.code == WITH_SHEET else []
        boxes = [*self.rows, self.design, self.judged, *sheets]
        if draft is not None:
            self._restore(draft)
        self._count()
        self.body.children = [self.marks, *boxes, self._last, self.done]

    def _restore(self, draft: HandIn) -> None:
        """Fill the boxes in as they stand in a draft."""
        self._restoring = True
        for row in self.rows:
            row.restore()
        self.design.restore(draft.design)
        self.judged.restore(draft.words, draft.claims, draft.ratings)
        self.sheet.restore(draft.sheet)
        self._restoring = False

    def keep(self) -> None:
        """Keep the draft; if that cannot be done, say so and go on."""
        if self._restoring or self.sitting is None:
            return
        self._count()
        try:
            done = self.record
            kept = self.draft.save(done)
        except KitError as refused:
            self.says.tell(str(refused), refused=True)
            return
        cut_off = self.judged.cut_off or self.sheet.cut_off
        if kept != done:
            self._lay_out(self.sitting.paper, kept)
            self.says.tell("What you did to this paper in another window came in.")
        elif cut_off:
            self.says.tell(cut_off, refused=True)

    @property
    def record(self) -> HandIn:
        """Everything so far."""
        return self.sitting.hand_in(**self.judged.written, sheet=self.sheet.written)

    def make(self, _button: Any = None) -> None:
        """Write the hand-in and its page; offer both, and say where they lie."""
        if self.sitting is None:
            return
        try:
            self._check_name()
            self.keep()
            done = self.record
            name, told = self._kept(done)
            page = _page_of(done, name, self.looks.units)
        except KitError as refused:
            self.done.tell(str(refused), refused=True)
            return
        paper = Path(name).with_suffix(".pdf").name
        text = hand_in.to_json(done).encode()
        links = download(f"Save {name}", name, "application/json", text)
        links += download(f"Save {paper}", paper, "application/pdf", page)
        self.done.value = spoken(f"{told} {left_out(self.sitting, done)}") + links

    def handed(self) -> list[HandIn]:
        """Give what was handed in of the student's own paper: here, or before."""
        paper = self.sitting.paper
        own = [one for one in self._made if one.who == normalised(paper.student)]
        return [*own, *drafts.handed_in(self.folder, paper)]

    def _check_name(self) -> None:
        """Refuse to hand in under a name that was corrected since."""
        paper = self.sitting.paper
        typed = self.course.value, self.student.value
        drawn = paper.course, paper.student
        if list(map(normalised, typed)) != list(map(normalised, drawn)):
            msg = (
                f"This is the paper of {paper.student!r}, course {paper.course!r}, and "
                "above stands another name or course. Put it back, or press Give me my "
                "paper for the new one."
            )
            raise KitError(msg)

    def _kept(self, done: HandIn) -> tuple[str, str]:
        """Keep the hand-in; give its name, and what to say about it."""
        name = drafts.hand_in_name(done)
        self._made += [] if done.practice else [done]
        try:
            path = drafts.keep(self.folder, done)
        except KitError as refused:
            return name, str(refused)
        if done.practice:
            return path.name, f"This was {PRACTICE}; it is kept as {path}."
        told = f"Handed in: {path}. Give that one file to your instructor."
        if path.name != name:
            told += f" An older one with other answers stays as {name}."
        return path.name, told

    def _count(self) -> None:
        told = f"Marks so far: {self.sitting.score} of {self.sitting.most}"
        told += f" ({PRACTICE})" if self.redraw else ""
        self.marks.tell(f"{told}; the written answer is read by a person.")

    def _new_look(self) -> None:
        self.looks.dress(self)
        if self.sitting is not None:
            self.sitting.units = self.looks.units
            for part in (*self.rows, self.design, self.judged):
                part.show()

    def rehearse(self) -> None:
        """Go through a paper in a folder of its own, from nothing to the hand-in."""
        kept = self.folder
        with tempfile.TemporaryDirectory() as place:
            self.folder = Path(place)
            self.begin()  # refused: no name
            self.course.value, self.student.value = "REHEARSAL", "Nobody"
            self.begin()
            for row in self.rows:
                for text in ("", "abc", "1", "3/16 in", "400 °F", "1e99"):
                    row.answer.value = text
                for option in range(len(row.part.options)):
                    row.offered.value = option
            self.design.make()
            self.judged.compare()
            self.judged.words.value = "word " * 20
            self.make()
            self.judged.compare()
            for choice in self.looks.unit_choice.options:
                self.looks.unit_choice.value = self.looks.unit_choice.options.index(choice)
            self.make()
            self.fresh()
            self.begin()  # its draft comes back
        self.folder, self.sitting = kept, None
        self.body.children = []
        self.course.value = self.student.value = ""


def _page_of(done: HandIn, name: str, units: Units) -> bytes:
    with tempfile.TemporaryDirectory() as place:
        path = Path(place) / Path(name).with_suffix(".pdf").name
        return homework_papers.write_hand_in(done, path, units).read_bytes()

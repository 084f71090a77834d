"""What a teacher makes for a class, without a terminal: each offer is one file to save."""

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import NamedTuple

import ipywidgets as widgets

from kit.basics.errors import KitError
from kit.basics.files import write
from kit.basics.units import Units
from kit.classroom import stick
from kit.classroom.homework.key import answer_key, key_csv
from kit.classroom.homework.marking import Marks, marks_csv
from kit.classroom.homework.paper import Homework
from kit.classroom.homework.roster import roster_csv
from kit.classroom.homework.sets import SETS
from kit.classroom.paper import homework_papers
from kit.classroom.phone import page as phone
from kit.course.views.controls import Choice, blank
from kit.course.views.making import Make, Making, Progress


class Class(NamedTuple):
    """What is known of a class when *Make it* is pressed.

    Attributes
    ----------
    course : str
        Its code, or "".
    students : sequence of str
        The roster; () where there is none.
    marks : sequence of Marks
        Of the folder that was marked last.
    units : Units
    place : Path
        The folder of the stick.
    address : str
        Where the pages for telephones will be on the web, or "".
    """

    course: str
    students: Sequence[str]
    marks: Sequence[Marks]
    units: Units
    place: Path
    address: str = ""


class Offer(NamedTuple):
    """One thing to make.

    Attributes
    ----------
    ending : str
        Of its file's name, after the set's code where it is of one.
    make : callable
        From a set, a class, a path and a progress; writes the file.
    of_set : bool
    """

    ending: str
    make: Callable[[Homework, Class, Path, Progress], Path]
    of_set: bool = True


def _named(known: Class) -> Class:
    """Refuse a class without roster or course: the values of a paper follow from them."""
    if not known.students:
        msg = (
            "A roster is needed: write the names under Roster, one a line, or open a file."
        )
        raise KitError(msg)
    if not known.course:
        msg = "Type the course code first, at the top: the values follow from it."
        raise KitError(msg)
    return known


def _papers(task: Homework, known: Class, path: Path, progress: Progress) -> Path:
    of = _named(known)
    made = homework_papers.write_papers
    return made(task, of.course, of.students, path, units=of.units, progress=progress)


def _key(task: Homework, known: Class, path: Path, progress: Progress) -> Path:
    of = _named(known)
    key = answer_key(task, of.course, of.students, of.units)
    if path.suffix == ".csv":
        return write(path, key_csv(task, key), "utf-8-sig")
    return homework_papers.write_key(task, of.course, key, path, of.units, progress)


def _roster(_task: Homework, known: Class, path: Path, _progress: Progress) -> Path:
    names = _named(known._replace(course="any")).students
    return write(path, roster_csv(names), "utf-8-sig")


def _marks(
    between: str, _task: Homework, known: Class, path: Path, _progress: Progress
) -> Path:
    if not (known.marks or known.students):
        msg = "There are no marks yet: mark a folder first, or give a roster."
        raise KitError(msg)
    return write(path, marks_csv(known.marks, known.students, between), "utf-8-sig")


def _pages(_task: Homework, known: Class, path: Path, progress: Progress) -> Path:
    return phone.packed(path, units=known.units, address=known.address, progress=progress)


def _stick(_task: Homework, known: Class, path: Path, progress: Progress) -> Path:
    how = stick.fill(known.place, progress)
    return write(path, how.read_text("utf-8"))


OFFERS = {
    "everybody's paper (PDF)": Offer(" papers.pdf", _papers),
    "key to print (PDF)": Offer(" key.pdf", _key),
    "key as a table (CSV)": Offer(" key.csv", _key),
    "marks, with a decimal point (CSV)": Offer(
        "marks.csv", partial(_marks, ","), of_set=False
    ),
    "marks, with a decimal comma (CSV)": Offer(
        "marks.csv", partial(_marks, ";"), of_set=False
    ),
    "roster (CSV)": Offer("roster.csv", _roster, of_set=False),
    "pages for telephones (ZIP)": Offer("pages.zip", _pages, of_set=False),
    "a stick to install from, 95 MB": Offer("how to install.txt", _stick, of_set=False),
}


def for_class(known: Callable[[], Class], *changed: widgets.Widget) -> Making:
    """Make the panel.

    Parameters
    ----------
    known : callable
        Gives what is known of the class.
    changed : widgets
        With a `value`; when one changes, what was made before is put away.
    """
    names = list(OFFERS)
    what = Choice("Make", names, value=0)
    task = Choice("Set", list(SETS), value=0)
    place = blank("Folder of the stick")
    address = blank("Web address:", phone.HINT)

    def file_name(what: int, task: int, *_rest: object) -> str:
        offer = OFFERS[names[what]]
        return f"{list(SETS)[task]}{offer.ending}" if offer.of_set else offer.ending

    def make(what: int, task: int, place: str, address: str, *_rest: object) -> Make:
        now = known()
        chosen = Path(place.strip()).expanduser() if place.strip() else now.place
        offer, of = OFFERS[names[what]], list(SETS.values())[task]
        return partial(offer.make, of, now._replace(place=chosen, address=address))

    def ask(_change: object = None) -> None:
        """Ask only for what the chosen offer is about."""
        offer = OFFERS[names[what.value]]
        task.layout.display = None if offer.of_set else "none"
        place.layout.display = None if offer.make is _stick else "none"
        address.layout.display = None if offer.make is _pages else "none"

    made = Making((what, task, place, address, *changed), file_name, make)
    made.remove_class("kit-view")  # it stands in the instructor's
    made.children = [what, task, place, address, *made.children[len(made.choices) :]]
    what.observe(ask, names="value")
    ask()
    return made

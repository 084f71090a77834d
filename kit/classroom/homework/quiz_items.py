"""What the quiz asks, and how each answer is coded. Ideas are the lessons' own."""

from dataclasses import dataclass
from typing import NamedTuple

from kit.basics.claim import Claim, Kind
from kit.basics.errors import KitError
from kit.course.answers import COUNT
from kit.course.check import worked
from kit.course.lesson import Given, Idea
from kit.course.lessons import carbon_ideas as walking
from kit.course.lessons import cut as cutting
from kit.course.lessons import fold_ideas as folding
from kit.course.lessons import press_ideas as pressing
from kit.course.lessons import twist_ideas as twisting

CODED = Claim(
    says="Wrong answers about what lies inside are of two kinds: taken from what shows "
    "outside, or tries to see inside. Who errs inside does better on the whole.",
    kind=Kind.PUBLISHED,
    source="'Spatial abilities of high-school students in the perception of geologic "
    "structures', Journal of Research in Science Teaching 33 (1996) 369, abstract",
    seen=True,
    within="115 students, layers of rock drawn as blocks",
    told=("So coded",),
)
RIGHT, INSIDE, OUTSIDE = "right", "inside but wrong", "copied from the outside"


class Option(NamedTuple):
    """One answer to choose, or a number that an idea leads to.

    Attributes
    ----------
    words : str
        As it is offered.
    code : str
        RIGHT, INSIDE or OUTSIDE.
    idea : Idea, optional
        The way of thinking, where a lesson has it.
    """

    words: str
    code: str
    idea: Idea | None = None


@dataclass(frozen=True, kw_only=True)
class Item:
    """One of the six.

    Parameters
    ----------
    name, ask : str
        In short for the table; in full.
    options : tuple of Option
        In the order offered; of a count, the numbers that are known.
    given : mapping, optional
        Of a count, the values that its ideas know; then a number is typed.
    """

    name: str
    ask: str
    options: tuple[Option, ...]
    given: Given | None = None

    def code(self, answer: object) -> str:
        """Code an answer; "" for none, and for what cannot be read.

        A count that no known idea gives is taken for a try to look inside, unless it is
        one of the numbers of the question.
        """
        try:
            number = COUNT.value(answer)
        except KitError:
            return ""
        if self.given is None:
            known = 1 <= number <= len(self.options)
            return self.options[int(number) - 1].code if known else ""
        for option in self.options:
            if COUNT.is_answer(number, worked(option.idea, self.given)):
                return option.code
        return OUTSIDE if number in self.given.values() else INSIDE


ITEMS = (
    Item(
        name="1 slanted cut",
        ask=(
            "A flat stack of layers, each 4 mm thick, is sawn at 30° to the layers. What "
            "does the cut face show?"
        ),
        options=(
            Option("bands 4 mm wide, as on its side", OUTSIDE, cutting.NO_CHANGE),
            Option("bands 2 mm wide", INSIDE, cutting.MULTIPLIED),
            Option("bands 8 mm wide", RIGHT, cutting.SPREAD),
            Option("no bands: one colour, as on its top", OUTSIDE),
        ),
    ),
    Item(
        name="2 twist, ground to the middle",
        ask="A twisted bar is ground down to its middle. What does the face show?",
        options=(
            Option("the slanting stripes of its skin", OUTSIDE, twisting.SAME),
            Option("stripes that lean more steeply", INSIDE, twisting.STEEPER),
            Option("straight lines along the bar: inside it is not twisted", INSIDE),
            Option("a row of stars", RIGHT),
        ),
    ),
    Item(
        name="3 counting",
        ask="9 pieces are stacked and folded 4 times. How many layers, counted in pieces?",
        given={"n": 9.0, "k": 4.0},
        options=(
            Option("144", RIGHT, folding.LAYERS),
            Option("129", INSIDE, folding.BANDS_NOT_PIECES),
            Option("72", INSIDE, folding.ONE_FOLD_SHORT),
            Option("45", INSIDE, folding.FOLD_ADDS),
            Option("36", OUTSIDE, folding.PIECES_TIMES_FOLDS),
            Option("13", OUTSIDE, folding.FOLD_PLUS_N),
        ),
    ),
    Item(
        name="4 dimple, then ground",
        ask=(
            "A dimple is sunk into flat layers and the bar is forged level. Its face shows "
            "rings. More and more is ground off. What becomes of the rings?"
        ),
        options=(
            Option("nothing: they go straight through", OUTSIDE, pressing.UNCHANGED),
            Option("they get fewer, little by little", RIGHT, pressing.LEFT),
            Option("they get more, as one comes nearer to the dimple's bottom", INSIDE),
            Option("the first touch of the wheel takes them off", OUTSIDE),
        ),
    ),
    Item(
        name="5 after welding",
        ask="Two steels were welded in thin layers. What still differs between them?",
        options=(
            Option("nothing: they mixed as in a melt", INSIDE, walking.BOTH),
            Option("nickel; carbon has evened out", RIGHT, walking.ONLY_CARBON),
            Option("everything, as they were stacked", OUTSIDE, walking.NEITHER),
            Option("carbon; nickel has evened out", INSIDE, walking.ONLY_NICKEL),
        ),
    ),
    Item(
        name="6 plain spine",
        ask="A blade has a pattern on its sides, and no lines on its spine. What is it?",
        options=(
            Option("genuine: the sides show it", OUTSIDE),
            Option("fake: the spine shows it", OUTSIDE),
            Option("layered and too fine to be seen on any spine: genuine", INSIDE),
            Option("one cannot say yet; etch the spine, or grind a little", RIGHT),
        ),
    ),
)

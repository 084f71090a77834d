"""What a newcomer does in each lesson, and what must come of it.

Title, tile, and the slider below the picture come from the lesson; what follows from a
move, and the answers, were worked out by hand from the question, beside each.
"""

from dataclasses import dataclass
from pathlib import Path

from kit.course.map import ASKING, LESSONS
from kit.course.pages import find_lesson

FOLDER = Path(__file__).resolve().parents[2] / "notebooks"


@dataclass(frozen=True, kw_only=True)
class Visit:
    """What a visitor does in one lesson, and what must come of it.

    Attributes
    ----------
    lesson : str
        Its number.
    arrow : str
        The key that moves the main slider.
    before, after : str
        What the picture's words say before and after that key.
    wrong, reason, right : str
        A wrong answer to the first check, words of its reason, and the right answer.
    """

    lesson: str
    arrow: str = "ArrowRight"
    before: str
    after: str
    wrong: str = ""
    reason: str = ""
    right: str = ""

    @property
    def notebook(self) -> str:
        """The page's file."""
        return find_lesson(FOLDER, self.lesson)

    @property
    def tile(self) -> str:
        """The words under the right tile; none: nothing is predicted there."""
        if self.lesson not in ASKING:
            return ""
        asked = ASKING[self.lesson].question
        return asked.show(asked.right.value(asked.given))

    @property
    def control(self) -> str:
        """The name of the slider below the picture."""
        lesson = LESSONS[self.lesson]
        return lesson.model_fields[lesson.main].title


VISITS = (
    Visit(
        lesson="01",
        arrow="ArrowLeft",
        before="sawn at 30 degrees",
        after="sawn at 29.5 degrees",
        wrong="4.29",  # 2.0 / tan 25°
        reason="use tan for sin",
        right="4.73",  # 2.0 / sin 25°
    ),
    Visit(
        lesson="02",
        before="112 layers",
        after="224 layers",
        wrong="45",  # 9 × 5
        reason="multiply the pieces by the folds",
        right="288",  # 9 × 2 × 2 × 2 × 2 × 2
    ),
    Visit(
        lesson="03",
        before="After: 400 mm long, 38.0 by 12.0 mm",
        after="After: 384 mm long, 38.0 by 12.5 mm",  # 150 × 32 / 12.5
        wrong="480",  # 160 × 36 / 12
        reason="forget the loss",
        right="432",  # less a tenth
    ),
    Visit(
        lesson="04",
        before="4.0 mm off the top",
        after="4.1 mm off the top",
        wrong="21.4",  # atan(pi × 10 / 80)
        reason="use half the radius",
        right="38.1",  # atan(pi × 20 / 80)
    ),
    Visit(
        lesson="05",
        before="Nothing is ground off yet: 6 rings",
        after="0.1 mm ground off",
        wrong="19",  # 8 / tan 59° / 0.25
        reason="take the diameter for the radius",
        right="9",  # 4 / tan 59° / 0.25 = 9.6
    ),
    Visit(
        lesson="06",
        before="lays bare 36 lines",
        after="lays bare 35 lines",  # (4.0 - 0.5) / 2 / 0.05
        wrong="75",  # (5.0 - 0.5) / 0.06
        reason="count the layers of both bevels on one side",
        right="37",  # half of it, 37.5, whole lines
    ),
    Visit(
        lesson="07",
        before="Left side: line 12.4 mm above the edge",
        after="Left side: line 13.3 mm above the edge",  # (0.95 - 0.2) / 1.8 × 32
        wrong="10",  # 0.75 / 2.25 × 30
        reason="forget that the edge is not sharp yet",
        right="7.5",  # (0.75 - 0.25) / (2.25 - 0.25) × 30
    ),
    Visit(
        lesson="08",
        before="10 minutes at 1150",
        after="11 minutes at 1150",
        wrong="7.4",  # twice the 3.7 minutes of a layer half as thick
        reason="double the time for twice the layer",
        right="14.9",  # four times as long
    ),
    Visit(
        lesson="09",
        arrow="ArrowLeft",
        before="It is 3 m away",
        after="It is 2.95 m away",
        wrong="3.4",
        reason="give the angle of a usual bevel",
        right="8.2",  # asin(4.0 / 320 / 0.0873)
    ),
    Visit(
        lesson="10",
        before="each 102 mm",
        after="each 104 mm",
        wrong="254",
        reason="leave the length as it was planned",
        right="225",  # as planned, 254, less what the second 0.08 mm a face takes
    ),
    Visit(
        lesson="bought",
        before="bar, 6.0 mm thick",
        after="bar, 6.1 mm thick",
        wrong="3.9",  # 3.5 + 0.4
        reason="grind one face alone",
        right="4.3",  # 3.5 + 2 × 0.4
    ),
    Visit(
        lesson="11",
        before="one turn in 30.0 mm",
        after="one turn in 31.0 mm",
        wrong="2.58",  # 18 × tan 42° / (2 pi)
        reason="take the way from star to star for a whole turn",
        right="5.16",  # 36 × tan 42° / (2 pi)
    ),
)

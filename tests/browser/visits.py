"""What a newcomer does in each lesson, and what must come of it."""

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Visit:
    """What a visitor does in one lesson, and what must come of it.

    Attributes
    ----------
    notebook : str
    tile : str
        The words under the right tile; none: nothing is predicted there.
    station, control, key : str
        The main control, where it lies, and the arrow that moves it.
    before, after : str
        What the picture's words say before and after that arrow.
    wrong, reason, right : str
        A wrong answer to the first check, words of its reason, and the right answer;
        worked out by hand from the question, beside each.
    """

    notebook: str
    tile: str = ""
    station: str = ""
    control: str
    key: str = "ArrowRight"
    before: str
    after: str
    wrong: str = ""
    reason: str = ""
    right: str = ""


VISITS = (
    Visit(
        notebook="00_start_here.ipynb",
        control="Folds",
        before="11 layers and 11 bands",
        after="22 layers and 21 bands",  # twice as many; one like pair met
    ),
    Visit(
        notebook="01_cut.ipynb",
        tile="bands 8.0 mm",
        control="Cut angle to the layers",
        key="ArrowLeft",
        before="sawn at 30 degrees",
        after="sawn at 29.5 degrees",
        wrong="4.29",  # 2.0 / tan 25°
        reason="use tan for sin",
        right="4.73",  # 2.0 / sin 25°
    ),
    Visit(
        notebook="02_stack_and_fold.ipynb",
        tile="112 layers",
        control="Folds",
        before="112 layers",
        after="224 layers",
        wrong="45",  # 9 × 5
        reason="multiply the pieces by the folds",
        right="288",  # 9 × 2 × 2 × 2 × 2 × 2
    ),
    Visit(
        notebook="03_draw_out.ipynb",
        tile="7.1 : 1",
        control="Draw to thickness",
        before="After: 400 mm long, 38.0 by 12.0 mm",
        after="After: 384 mm long, 38.0 by 12.5 mm",  # 150 × 32 / 12.5
        wrong="480",  # 160 × 36 / 12
        reason="forget the loss",
        right="432",  # less a tenth
    ),
    Visit(
        notebook="04_twist.ipynb",
        tile="lines at 26.7°",
        control="Grind off",
        before="4.0 mm off the top",
        after="4.1 mm off the top",
        wrong="21.4",  # atan(pi × 10 / 80)
        reason="use half the radius",
        right="38.1",  # atan(pi × 20 / 80)
    ),
    Visit(
        notebook="05_press_and_cut.ipynb",
        tile="6 rings",
        station="2 Tool",
        control="Tool across",
        before="6.0 mm wide and 1.8 mm deep",
        after="6.5 mm wide and 1.95 mm deep",  # 3.25 / tan 59°
        wrong="19",  # 8 / tan 59° / 0.25
        reason="take the diameter for the radius",
        right="9",  # 4 / tan 59° / 0.25 = 9.6
    ),
    Visit(
        notebook="06_bevels.ipynb",
        tile="36 lines",
        control="Edge before sharpening",
        before="lays bare 36 lines",
        after="lays bare 35 lines",  # (4.0 - 0.5) / 2 / 0.05
        wrong="75",  # (5.0 - 0.5) / 0.06
        reason="count the layers of both bevels on one side",
        right="37",  # half of it, 37.5, whole lines
    ),
    Visit(
        notebook="07_san_mai.ipynb",
        tile="12.4 mm and 1.8 mm",
        control="Core off centre",
        before="Left side: line 12.4 mm above the edge",
        after="Left side: line 13.3 mm above the edge",  # (0.95 - 0.2) / 1.8 × 32
        wrong="10",  # 0.75 / 2.25 × 30
        reason="forget that the edge is not sharp yet",
        right="7.5",  # (0.75 - 0.25) / (2.25 - 0.25) × 30
    ),
    Visit(
        notebook="08_carbon_and_nickel.ipynb",
        tile="only carbon",
        control="Time at heat",
        before="10 minutes at 1150",
        after="11 minutes at 1150",
        wrong="7.4",  # twice the 3.7 minutes of a layer half as thick
        reason="double the time for twice the layer",
        right="14.9",  # four times as long
    ),
    Visit(
        notebook="09_etch_and_eye.ipynb",
        tile="only 2.0 mm",
        control="Seen from",
        key="ArrowLeft",
        before="sees them from 3000 mm",
        after="sees them from 2950 mm",
        wrong="3.4",
        reason="give the angle of a usual bevel",
        right="8.2",  # asin(4.0 / 320 / 0.0873)
    ),
    Visit(
        notebook="10_plan_a_billet.ipynb",
        tile="102 mm",
        station="3 Forge",
        control="Scale, welding",
        before="each 102 mm",
        after="each 104 mm",
        wrong="254",
        reason="leave the length as it was planned",
        right="225",  # as planned, 254, less what the second 0.08 mm a face takes
    ),
    Visit(
        notebook="11_read_and_design.ipynb",
        tile="one turn in 44 mm",
        control="One turn",
        before="one turn in 30.0 mm",
        after="one turn in 31.0 mm",
        wrong="2.58",  # 18 × tan 42° / (2 pi)
        reason="take the way from star to star for a whole turn",
        right="5.16",  # 36 × tan 42° / (2 pi)
    ),
)

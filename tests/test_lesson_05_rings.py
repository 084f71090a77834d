"""Lesson 05, its rings: what is told of them is what is drawn, and nothing hides them."""

import itertools
import math
import random
import re

import numpy as np
import pytest

from kit.basics.errors import KitError
from kit.basics.units import Units
from kit.course.lessons import press, press_drawing
from kit.course.lessons.press import BALL, DRILL, GROOVE, WEDGE, PressLesson
from kit.metal import etch
from kit.section.picture import ACCENT, BIG_LETTERS, LETTERS, Sheet
from kit.section.surface import Plane
from kit.section.trace import Face, see
from tests.lessons import KNOWN
from tests.test_lesson_laws import ends

APART = 2  # pixels that a number keeps from all that is drawn
PART = re.compile(r"\d\.\d+ (?:of|rings?|lines?)\b|\d\.\d+ (?:are|is) left")


def states(count, **fixed):
    """Give states at random that fit, each control at an end, its start or between."""
    dice = random.Random("rings")  # noqa: S311  (no secret)
    settings = KNOWN["PressLesson"].settings
    for _ in range(count):
        state = {one.key: one.start for one in settings}
        for one in settings:
            low, high = ends(one)
            whole = PressLesson.model_fields[one.key].annotation is int
            between = round((dice.randint if whole else dice.uniform)(low, high), 1)
            state[one.key] = dice.choice((one.start, low, high, between))
        yield PressLesson.fitted({**state, **fixed}, Units.MM)[0]


class Traced(Sheet):
    """A sheet that notes its ring numbers, and all else that was drawn."""

    def __init__(self, *size, **look):
        super().__init__(*size, **look)
        self.numbers, self.drawn = [], []

    def text(self, words, at, **look):
        """Note a number in the accent's ink."""
        before = len(self.words)
        super().text(words, at, **look)
        found = self.words[before:]
        if words.isdigit() and look.get("ink") == ACCENT:
            self.numbers += [(int(words), box) for box in found]

    def line(self, points, **look):
        """Note a line, and so a dash."""
        super().line(points, **look)
        self.drawn += [
            (*np.minimum(*ends), *np.maximum(*ends)) for ends in itertools.pairwise(points)
        ]

    def steel(self, face, at, *more):
        """Note where steel is."""
        super().steel(face, at, *more)
        self.drawn.append((*at, at[0] + face.tone.shape[1], at[1] + face.tone.shape[0]))


def blank(billet, surface, tones):
    """See nothing, at once: what is tried is what is drawn upon a face."""
    del billet, tones
    nothing = np.zeros((surface.rows, surface.columns), np.float32)
    return Face(nothing, nothing, nothing)


@pytest.fixture
def quick(monkeypatch):
    """Draw without steel, on sheets that note what is drawn."""
    made = []
    monkeypatch.setattr(
        press, "Sheet", lambda *size, **look: made.append(Traced(*size, **look)) or made[-1]
    )
    monkeypatch.setattr(etch, "see", blank)
    return made


def test_no_ring_number_touches_another_hides_a_ring_or_is_crossed(quick):
    """In any state; and each stands under its own ring, or is that of the very middle.

    And no part of a ring is told: a child counts rings, not tenths of them.
    """
    told = 0
    for number, job in enumerate(states(14, shown=0)):
        scene = job.draw(Units.MM, letters=(LETTERS, BIG_LETTERS)[number % 2])
        numbers = quick[-1].numbers
        told += len(numbers)
        for place, (figure, box) in enumerate(numbers):
            for other in (*(one for _, one in numbers[:place]), *quick[-1].drawn):
                assert not near(box, other), (job, figure)
            panels = [one for one in scene.panels if spans(one, box)]
            middle = panels[0].corner[0] + panels[0].surface.columns / 2
            if abs((box[0] + box[2]) / 2 - middle) > 1:
                assert alike(job, panels[1], box), (job, figure)
        if job.tool != WEDGE and job.way == 0:
            assert 0 <= job.whole() - math.floor(job.rings + 1e-6) <= 1, job
        words = [scene.says, scene.alt, *(f"{n.name} {n.value}" for n in scene.numbers)]
        words += [job.remark(key, Units.MM) for key in PressLesson.model_fields]
        assert not PART.search("; ".join(words)), words
    assert told > 20


def near(one, other):
    """Say whether two boxes touch, or nearly."""
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return across > -APART and down > 0


def spans(panel, box):
    """Say whether a number stands below or above a panel."""
    return panel.corner[0] <= box[0] < panel.corner[0] + panel.surface.columns


def alike(job, section, box):
    """Say whether all steel of the face right above a number is of one layer."""
    billet, plane, (left, _) = section.billet, section.surface, section.corner
    columns = np.array([box[0], box[2]]) - left
    x = plane.centre[0] + (columns - (plane.columns - 1) / 2) * plane.pixel
    y, z = plane.centre[1], billet.size.thickness / 2 - job.ground
    depth = billet.source.thickness / 2 - billet.undo((x, np.full(2, y), np.full(2, z)))[2]
    return np.ptp(np.floor(depth / job.layer + 0.5 + 1e-9)) == 0


def seen_rings(job):
    """Count how often the face changes from dark to bright, from a rim to the middle."""
    billet, out = job.billet, press_drawing.rim(job.billet)
    middle = 1.5 * job.spacing * press_drawing.spread(billet)
    line = Plane(
        size=billet.size,
        centre=(middle - out / 2, 0.0, billet.size.thickness / 2 - job.ground),
        right=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0), columns=400, rows=1, pixel=out / 400,
    )  # fmt: skip
    tones = {"1084": 0.0, "15N20": 1.0}
    return np.count_nonzero(np.diff(see(billet, line, tones).tone[0] > 0.5))


HOLLOWS = list(itertools.product([DRILL, BALL, GROOVE], [0, 1], [0, 1, 2]))


@pytest.mark.parametrize(("tool", "way", "faces"), HOLLOWS)
def test_the_smiths_question_is_answered_with_the_rings_that_are_seen(tool, way, faces):
    made = {"tool": tool, "way": way, "faces": faces}
    bar = PressLesson(**made)
    there, whole = seen_rings(bar), press_drawing.pattern_depth(bar.billet, 0)
    for ground in (0.6, 1.2, 1.8):
        job = PressLesson(**made, ground=ground)
        kept, words = seen_rings(job), job.remark("ground")
        left = f"{kept} of {there} " if kept < there else f"all are there: {there} "
        assert f"Will it survive my grind? Yes, {left}" in words, ground
        share = press_drawing.pattern_depth(job.billet, ground) / whole
        assert share == pytest.approx(job.left / job.rings, abs=0.01), "rule and solid"
    if faces == 0:
        gone = PressLesson(**made, ground=bar.billet.size.thickness - 0.2)
        assert "No, nothing is left of the" in gone.remark("ground")


@pytest.mark.parametrize("faces", [0, 1, 2])
def test_a_blade_keeps_on_each_side_what_the_trades_rule_says(faces):
    """Rings × (1 - ground off / bar), to one: a dot may just have opened or gone.

    Hollows opposite each other take the pattern away from each other: twice as fast.
    """
    job = PressLesson(shown=1, ground=0.6, faces=faces)
    thick, rings = job.billet.size.thickness, job.rings
    deep = {"spine": (0.6, thick - 0.6), "edge": ((thick - 0.4) / 2, (thick + 0.4) / 2)}
    for place, depths in deep.items():
        deeper = [depths[0] * faces] * 2 if faces else depths
        for kept, depth in zip(getattr(job.kept, place), deeper, strict=True):
            assert kept == pytest.approx(rings * (1 - depth / thick), abs=1)
    told = job.draw(Units.MM).says
    assert told.startswith("Will it survive my grind? ")
    assert ("far side" in told) == (faces == 0)


def test_a_blade_thinner_than_a_blade_is_refused_and_what_was_ground_gives_way():
    with pytest.raises(KitError, match=r"at most 2\.50 mm can go off each side"):
        PressLesson.scene(shown=1, ground=2.6)
    job, why = PressLesson.fitted(
        {**PressLesson.begun(), "shown": 1, "ground": 4}, Units.MM
    )
    assert job.ground == pytest.approx(2.5)
    assert "spine" in why

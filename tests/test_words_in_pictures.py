"""Words in pictures: read from afar or on a tablet, on the sheet, and not on each other.

A law over all lessons in states at random, their tiles, all cards, and bars of one's own.
"""

import itertools
import random
from typing import get_args

import numpy as np
import pytest
from PIL import Image, ImageChops

from kit.basics.units import Units
from kit.classroom.film import forging
from kit.classroom.show.piece import letter_height
from kit.course.anvil.look import Look, scene
from kit.course.map import LESSONS
from kit.course.own_bar import own_bar
from kit.course.questions import CARDS, Measures
from kit.section.half import half_as_fine
from kit.section.picture import BIG_LETTERS, CLEAR, INK, LETTERS, PAGE, Sheet, _font
from kit.shop.patterns import PATTERNS
from kit.shop.recipes.talk import Kind
from tests.lessons import KNOWN, see_once
from tests.test_lesson_laws import ends

SLACK = 1  # pixel
APART = 0.5  # pixel between words and the frame above or below
ABOVE = 2  # pixels between a ruler and the words above it
PAGE_WIDE = 1500  # mm, the wall that big text is for
ON_WALL, ON_TABLET = 1090, 730  # pixels, of 1920 and of 800: how wide pictures are shown
LEAST_ON_TABLET = 12  # pixels of the screen
LINE = 0.9  # of a letter's size, ours: nearer under each other two words seem one


def meet(one, other):
    """Say whether two boxes overlap."""
    return overlap(one, other) > SLACK


def overlap(one, other):
    """Say how far two boxes lie on each other; of boxes apart, less than nothing."""
    across = min(one[2], other[2]) - max(one[0], other[0])
    return min(across, min(one[3], other[3]) - max(one[1], other[1]))


def within(one, other):
    """Say whether a box lies in another."""
    apart = np.subtract(one, other)
    return bool((apart[:2] >= -SLACK).all() and (apart[2:] <= SLACK).all())


class Noted(Sheet):
    """A sheet that notes what words were later covered by steel or by a filled box."""

    made: list = []  # noqa: RUF012  (the test's own)

    def __init__(self, *size, **look):
        super().__init__(*size, **look)
        self.covered, self.filled, self.upon, self.rulers = [], [], [], []
        self.drawn = []  # lines
        self.frames = []  # their sides, and which boxes were filled later
        self.led = []  # from where to where dashes lead
        self.stands = {}  # the line that the letters in a box stand on
        self.told = {}  # the words in a box
        self.made.append(self)

    def text(self, *words, **look):
        """Write, maybe on what is drawn; within a box that is filled for it, it may."""
        before = len(self.words)
        super().text(*words, **look)
        font = _font(max(look.get("size", LETTERS), self.letters))
        for one in self.words[before:]:
            self.told[one] = words[0]
            self.stands[one] = one[3] - font.getbbox(words[0], anchor="ls")[3]
            below = [box for box in self.filled if meet(one, box)]
            if below and not within(one, below[-1]):
                self.upon.append(("on a drawing", one, below[-1]))

    def dashes(self, start, end, **look):
        """Lead from one place to another."""
        super().dashes(start, end, **look)
        self.led.append((start, end))

    def nearly_meet(self, one, other):
        """Say whether words under each other have no line of their own."""
        if min(one[2], other[2]) - max(one[0], other[0]) <= SLACK:
            return False
        stands = (self.stands.get(box, box[3]) for box in (one, other))
        apart = abs(next(stands) - next(stands))
        return SLACK < apart < LINE * self.letters

    def _cover(self, *box):
        self.filled.append(box)
        self.covered += [(one, box) for one in self.words if meet(one, box)]

    def steel(self, face, at, surface=None):
        """Lay steel, maybe on words."""
        laid = super().steel(face, at, surface)
        rows, columns = (
            np.flatnonzero((face.cover > 0.5).any(axis=axis)) for axis in (1, 0)
        )
        if rows.size:
            left, top = at
            self._cover(
                left + columns[0], top + rows[0], left + columns[-1] + 1, top + rows[-1] + 1
            )
        return laid

    def scale_bar(self, at, *given, **look):
        """Lay a ruler down, maybe beyond the sheet: its line is below `at`."""
        drawn = len(self.drawn)
        super().scale_bar(at, *given, **look)
        foot, *ticks = self.drawn[drawn:]
        self.rulers.append(max(y for _, y in foot) + 1)
        top, label = min(y for tick in ticks for _, y in tick), self.words[-1]
        if self.stands[label] > top - ABOVE:
            self.upon.append(("on its ruler", label, top))

    def line(self, points, **look):
        """Draw a line through points, and remember them."""
        super().line(points, **look)
        self.drawn.append(points)

    def box(self, corner, opposite, **look):
        """Fill a box, maybe on words."""
        super().box(corner, opposite, **look)
        if look.get("fill"):
            self._cover(*corner, *opposite)
        if look.get("ink", INK):
            (left, top), (right, low) = corner, opposite
            later = len(self.filled)
            for y in (top, low):
                self.frames.append((later, (left, y - APART, right + 1, y + 1 + APART)))
            for x in (left, right):
                self.frames.append((later, (x + APART, top, x + 1 - APART, low)))


@pytest.fixture
def noted(monkeypatch):
    """Let every drawing be made on sheets that note their words; steel is seen once."""
    import sys

    for name, module in list(sys.modules.items()):
        if name.startswith("kit.") and getattr(module, "Sheet", None) is Sheet:
            monkeypatch.setattr(module, "Sheet", Noted)
    monkeypatch.setattr(Noted, "made", [])
    see_once(monkeypatch)  # the same in all units
    return Noted.made


def faults(sheet):
    """Say which words are cut off, hidden, or on others."""
    wide, high = sheet.image.size
    whole = (CLEAR, 0, wide - CLEAR, high)
    for number, one in enumerate(sheet.words):
        if not within((one[0] - SLACK, one[1], one[2] + SLACK, one[3]), whole):
            yield "cut off, or at the side", one, sheet.told[one]
        for other in sheet.words[:number]:
            if meet(one, other):
                yield "on each other", one, other
            elif sheet.nearly_meet(one, other):
                yield "nearly on each other", one, other
    for one, (later, side) in itertools.product(sheet.words, sheet.frames):
        if overlap(one, side) <= 0:
            continue
        if not any(within(one, box) for box in sheet.filled[later:]):
            yield "on a frame", one, side, sheet.told[one]
    for words, box in sheet.covered:
        yield "hidden", words, box
    yield from (("cut ruler", foot, high) for foot in sheet.rulers if foot > high)


def found(noted, image):
    """Give the faults of the sheet that a picture was drawn on."""
    (sheet,) = [sheet for sheet in noted if sheet.image is image]
    return [*faults(sheet), *(one for one in sheet.upon if one[0] == "on its ruler")]


@pytest.mark.parametrize("letters", [LETTERS, BIG_LETTERS])
@pytest.mark.parametrize("name", KNOWN)
def test_no_words_of_a_lesson_are_cut_off_hidden_or_on_each_other(noted, name, letters):
    dice = random.Random(f"{name} words")  # noqa: S311  (no secret)
    kind = KNOWN[name]
    for number in range(8):
        units = list(Units)[number % len(Units)]
        state = {s.key: s.start for s in kind.settings}
        if number == 1:  # as large as can be
            state = {s.key: ends(s)[-1] for s in kind.settings}
        elif number:
            state |= {s.key: dice.choice((*ends(s), s.start)) for s in kind.settings}
        job, _ = kind.job.fitted(state, units)
        noted.clear()
        with half_as_fine():
            scene = job.as_seen(units, letters=letters)
        assert any(sheet.image is scene.image for sheet in noted)
        assert found(noted, scene.image) == [], job


@pytest.mark.parametrize("letters", [LETTERS, BIG_LETTERS])
@pytest.mark.parametrize("card", CARDS, ids=lambda card: str(card.number))
def test_no_words_of_a_card_are_cut_off_hidden_or_on_each_other(noted, card, letters):
    for units, degrees in zip(Units, "CFC", strict=True):
        noted.clear()
        with half_as_fine():
            scene = card.picture(Measures(units, degrees, letters=letters))
        assert found(noted, scene.image) == [], units


@pytest.mark.parametrize("letters", [LETTERS, BIG_LETTERS])
@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda pattern: pattern.name)
def test_no_words_of_a_bar_of_ones_own_are_on_each_other(noted, pattern, letters):
    for units in Units:
        noted.clear()
        scene = own_bar(pattern.forge(), units, letters=letters)
        assert found(noted, scene.image) == []


@pytest.mark.parametrize("letters", [LETTERS, BIG_LETTERS])
@pytest.mark.parametrize("kind", get_args(Kind))
def test_no_words_of_the_forge_are_on_each_other(noted, kind, letters):
    for known, units in itertools.product((PATTERNS[0], PATTERNS[4]), Units):
        noted.clear()
        drawn = scene(known.forge(), Look(kind=kind, ground=2), units, letters=letters)
        assert found(noted, drawn.image) == []


@pytest.mark.parametrize("size", [(640, 180), (640, 360), (800, 600)], ids=str)
def test_no_words_of_a_film_are_on_each_other(noted, size):
    for known in (PATTERNS[0], PATTERNS[8]):
        film = forging(known.forge(), columns=size[0], rows=size[1])
        for frame in film.frames:
            if frame.reached:
                noted.clear()
                image = film.drawn(frame)
                assert found(noted, image) == []


@pytest.mark.parametrize("key", [key for key, one in LESSONS.items() if one.question])
def test_no_words_of_a_tile_are_on_each_other_or_on_what_is_drawn(noted, key):
    question = LESSONS[key].question
    for value in question.values():
        noted.clear()
        image, _ = question.draw(value)
        upon = [word for sheet in noted if sheet.image is image for word in sheet.upon]
        assert found(noted, image) + upon == [], value


@pytest.mark.parametrize("letters", [LETTERS, BIG_LETTERS])
def test_no_words_are_written_smaller_than_the_sheet_says(letters):
    sheet = Sheet(100, 50, letters=letters)
    sheet.text("H", (50, 40), size=8, anchor="ms", ink=INK)
    left, top, right, low = ImageChops.difference(
        sheet.image, Image.new("RGB", (100, 50), PAGE)
    ).getbbox()
    assert right > left
    high = low - top  # of a capital, as drawn
    if letters == BIG_LETTERS:
        assert high * ON_WALL / 1000 * PAGE_WIDE / 1920 >= letter_height(3000, 15)
    else:
        assert letters * ON_TABLET / 1000 >= LEAST_ON_TABLET


def test_words_near_an_edge_are_moved_onto_the_sheet():
    sheet = Noted(100, 50)
    sheet.text("words", (90, 49))
    assert list(faults(sheet)) == []

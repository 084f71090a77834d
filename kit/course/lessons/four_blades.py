"""Lesson 11, four blades on a table: the single test that tells which of them apart.

Given, in mm: `layer`, as thick as a line of the spine; `far` and `near`, from where it is
looked at. A prediction says which spines show lines: `A`, `C` or their sum. Or `layers` of
a spine `thick`; or how many blades show lines, `lined`, and how many none, `bare`.
"""

from typing import Any, ClassVar

from PIL import Image

from kit.basics.declare import choice, quantity
from kit.basics.told import one_way
from kit.basics.units import Units, format_away, format_length, rounded
from kit.course.lesson import Given
from kit.course.lessons.base import Lesson
from kit.course.lessons.four_blades_table import (
    BEVEL,
    DEEPER,
    HEIGHT,
    LENGTH,
    MAGNET,
    NAMES,
    OFF,
    SIDE,
    SPINE,
    SPINE_AGAIN,
    TESTS,
    bar,
    grind,
    seen,
    side,
    spine,
    told_apart,
)
from kit.course.lessons.scene import FORGED, Number, Part, Scene
from kit.course.worded import Worded
from kit.metal import etch
from kit.metal.eye import COUNTED_AS_SEEN, EYE, LEAST_CONTRAST, ONE_MINUTE, SAME_TO_THE_EYE
from kit.section.blade import Blade, Spine
from kit.section.picture import ACCENT, INK, QUIET, STEEL, Sheet

_, A, C = range(3)  # the sum is both
# Without letters: the tiles have their own.
SHOWN = {A + C: "both", A: "the polished one", C: "the fine one", 0: "neither"}

TOLD = Worded(__file__, "11")


def shown(lined: float) -> tuple[bool, bool]:
    """Say of A and of C whether a prediction has lines on it."""
    return bool(round(lined) & A), bool(round(lined) & C)


def _resolved(given: Given, distance: str) -> int:
    return C * (EYE.finest(given[distance]) <= given["layer"])


NEAR_ENOUGH = TOLD.idea("NEAR_ENOUGH", lambda given: _resolved(given, "near"))
BOTH = TOLD.idea("BOTH", lambda given: A + _resolved(given, "near"))
NEITHER = TOLD.idea("NEITHER", lambda given: _resolved(given, "far"))
WIDE_LINES = TOLD.idea("WIDE_LINES", lambda _given: A)


def _layer(given: Given) -> float:
    return given["thick"] / given["layers"]


def _nearest(given: Given) -> float:
    return EYE.farthest(_layer(given))


NEAREST = TOLD.idea("NEAREST", _nearest)
WHOLE_SPINE = TOLD.idea("WHOLE_SPINE", lambda given: EYE.farthest(given["thick"]))
TWO_LAYERS = TOLD.idea("TWO_LAYERS", lambda given: EYE.farthest(2 * _layer(given)))
HALF_THE_LAYERS = TOLD.idea(
    "HALF_THE_LAYERS", lambda given: EYE.farthest(_layer(given) / 2)
)


def _nearest_working(given: Given) -> list[str]:
    thick, layers, layer = given["thick"], given["layers"], _layer(given)
    return [
        f"a layer is {thick:g} mm / {layers:g} = {layer:g} mm thick",
        "one arc-minute is 0.087 mm at 300 mm, and grows with the distance",
        f"distance = 300 mm × {layer:g} mm / 0.08727 mm",
        f"= {rounded(_nearest(given))} mm = {format_away(_nearest(given))}",
    ]


def _pairs(given: Given) -> float:
    return given["lined"] * given["bare"]


def _of(count: float) -> float:
    return count * (count - 1) / 2


PAIRS = TOLD.idea("PAIRS", _pairs)
ALL_PAIRS = TOLD.idea("ALL_PAIRS", lambda given: _of(given["lined"] + given["bare"]))
ALIKE = TOLD.idea("ALIKE", lambda given: _of(given["lined"]) + _of(given["bare"]))
BLADES = TOLD.idea("BLADES", lambda given: given["lined"] + given["bare"])
ONE_EACH = TOLD.idea("ONE_EACH", lambda given: min(given["lined"], given["bare"]))


def _pairs_working(given: Given) -> list[str]:
    lined, bare = int(given["lined"]), int(given["bare"])
    return [
        "told apart is each blade with lines from each without",
        f"= {lined} × {bare}",
        f"= {lined * bare}",
    ]


HOW_NEAR = TOLD.check(
    "HOW_NEAR",
    given={"thick": 4.0, "layers": 50.0},
    right=NEAREST,
    slips=(WHOLE_SPINE, TWO_LAYERS, HALF_THE_LAYERS),
    kind="length, away",
    working=_nearest_working,
    other={"thick": 5.0, "layers": 40.0},
)

HOW_MANY_PAIRS = TOLD.check(
    "HOW_MANY_PAIRS",
    given={"lined": 4.0, "bare": 2.0},
    right=PAIRS,
    slips=(ALL_PAIRS, ALIKE, BLADES, ONE_EACH),
    kind="count",
    working=_pairs_working,
    other={"lined": 4.0, "bare": 3.0},
)


# What is known of how a blade looks from afar.
KNOWN = (FORGED, etch.TONES, ONE_MINUTE, SAME_TO_THE_EYE, COUNTED_AS_SEEN)
BLAMED = {"A": "A's was polished after the etch", "C": "C's layers are too fine from here"}
SAID = {  # of all but the spine as it is
    SIDE: "All four have lines on their sides. That tells nothing.",
    SPINE_AGAIN: "Etched, A's spine shows layers; C's are finer than the eye resolves.",
    DEEPER: "B's pattern is gone: it was skin deep. It takes the owner's leave to do.",
    BEVEL: "D is plain down there: its core is the edge. That is how it was meant.",
    MAGNET: "A magnet sticks to all four. It says nothing of layers.",
}
SHEET = (1000, 440)  # pixels, as are those below
CELL = (500, 220)
LONG, HIGH = 344, 84  # of a blade's side
LOUPE = (370, 40, 110)  # left, top in its cell, and size
MANNERS = "A test says what is there, not what somebody meant. Ask before you judge."
ASKED = {"layer": 0.05, "far": 600.0, "near": 100.0}  # mm: of C's spine, and from where
TILE, NAMED, TILE_PIXEL = (200, 150), 24, 0.01  # pixels, and mm a pixel


def tile(lined: float) -> tuple[Image.Image, str]:
    """Draw the spines of A and C, closely, with lines on those expected to show them."""
    sheet = Sheet(*TILE, look=STEEL)
    for row, (name, lines) in enumerate(zip("AC", shown(lined), strict=True)):
        high = TILE[1] // 2
        view = Spine(
            grind=grind(), size=bar(name).size, columns=TILE[0], rows=high - NAMED,
            pixel=TILE_PIXEL,
        )  # fmt: skip
        face = spine(name, view, again=True)
        bare = spine(name, view).tone.mean()  # as the eye sees it that resolves no line
        face = face if lines else face.plain(float(bare))
        sheet.text(("polished", "fine layers")[row], (0, row * high + 2), size=17)
        sheet.steel(face, (0, row * high + NAMED), view)
    return sheet.image, f"Two spines. Lines are on: {SHOWN[round(lined)]}."


class FourBladesLesson(Lesson):
    """Which test is done on all four, and from how far it is looked at."""

    key: ClassVar = "four blades"
    number: ClassVar = "11"
    title: ClassVar = "Four blades on a table"
    main: ClassVar = "distance"
    phone: ClassVar = (Part(0, 0, 500, 426),)  # A and C, which a bare spine would wrong
    question: ClassVar = TOLD.question(
        given=ASKED,
        tiles=(BOTH, NEAR_ENOUGH, NEITHER, WIDE_LINES),
        right=NEAR_ENOUGH,
        show=lambda lined: SHOWN[round(lined)],
        draw=tile,
    )
    checks: ClassVar = (HOW_NEAR, HOW_MANY_PAIRS)
    film: ClassVar = tuple(
        {"test": SPINE, "distance": far} for far in (ASKED["far"], 300, ASKED["near"])
    )
    cues: ClassVar = ("test", "distance")

    test: int = choice("One test", TESTS)
    distance: float = quantity(
        "Seen from", "how near you hold the blade", low=100, high=600, unit="mm",
        default=300, step=10, inch=1.0,
    )  # fmt: skip

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """The pairs of blades that the test tells apart."""
        return told_apart(self.test, self.distance)

    def draw(self, units: Units, *, told: bool = True, **paper: Any) -> Scene:
        """Do one test on all four blades, and say which of them it tells apart."""
        sheet = Sheet(*SHEET, **paper)
        for index, name in enumerate(NAMES):
            self._blade(sheet, name, (CELL[0] * (index % 2), CELL[1] * (index // 2)))
        return Scene(
            image=sheet.image,
            alt=lambda: self._alt(units),
            numbers=self._numbers(units),
            says=f"{self._limit(units)} {MANNERS}",
        )

    def remark(self, changed: str, units: Units = Units.MM) -> str:
        """Say what a test is worth."""
        if self.test == SPINE:
            return self._spine_blamed()
        if changed == "test":
            return SAID[self.test]
        pairs = f"{len(self.pairs)} of 6 pairs" if self.pairs else "no pair"
        return f"{self._limit(units)} So this test tells {pairs} apart."

    def _spine_blamed(self) -> str:
        """Say whom a spine without lines would wrong."""
        far = self.distance
        wrong = [name for name in ("A", "C") if not seen(name, SPINE, far).lines]
        if not wrong:
            return "From so near even C's lines show. A's spine still shows none: polished."
        return (
            f"Judging by the spine alone condemns {' and '.join(wrong)} wrongly: "
            f"{'; '.join(BLAMED[name] for name in wrong)}."
        )

    def _result(self, name: str) -> str:
        if self.test == MAGNET:
            return "the magnet sticks"
        return "lines" if seen(name, self.test, self.distance).lines else "no lines seen"

    def _blade(self, sheet: Sheet, name: str, at: tuple[int, int]) -> None:
        left, top = at[0] + 14, at[1] + 8
        sheet.text(f"Blade {name}", (left, top), size=19)
        place = (left + LOUPE[0] + LOUPE[2], top + 2)
        sheet.text(self._result(name), place, size=17, anchor="ra", ink=ACCENT)
        size, deeper = bar(name).size, self.test == DEEPER
        shape = grind(OFF if deeper else 0.0)
        view = Blade.fitted(shape, size, LONG, HIGH + 20)
        sheet.steel(side(name, view, deeper=deeper), (left, top + 36), view)
        back = Spine(
            grind=shape, size=size, columns=LONG, rows=16, pixel=view.pixel
        )  # to one scale: a spine is narrow
        again = self.test == SPINE_AGAIN
        sheet.above((left, top + 172), "its spine, from above")
        sheet.steel(spine(name, back, again=again), (left, top + 170), back)
        self._marked(sheet, view, (left, top))
        self._loupe(sheet, name, (left + LOUPE[0], top + LOUPE[1]))

    def _marked(self, sheet: Sheet, view: Blade, at: tuple[int, int]) -> None:
        """Box the place that is looked at."""
        left, top = at
        middle = view.size.length / 2
        if self.test in (SPINE, SPINE_AGAIN):
            x, y = left + LONG / 2, top + 178
        else:
            low = -HEIGHT / 2 + 3 if self.test == BEVEL else HEIGHT / 2 - 5
            column, row = view.place((middle, low, 0.0))
            x, y = left + column, top + 36 + row
        sheet.box((x - 8, y - 8), (x + 8, y + 8), ink="#FFFFFF", width=4)
        sheet.box((x - 8, y - 8), (x + 8, y + 8), ink=ACCENT, width=2)

    def _loupe(self, sheet: Sheet, name: str, at: tuple[int, int]) -> None:
        """Draw the place under a loupe."""
        left, top = at
        test = SIDE if self.test == MAGNET else self.test
        patch, view, _ = seen(name, test, self.distance)
        small = Sheet(view.columns, view.rows, look=sheet.look)
        small.steel(patch, (0, 0), view)
        high = round(LOUPE[2] * view.rows / view.columns)
        lens = small.image.resize((LOUPE[2], high), Image.Resampling.BOX)
        sheet.image.paste(lens, (left, top))
        sheet.box((left - 1, top - 1), (left + LOUPE[2], top + high), ink=INK)
        words = "through a loupe"
        sheet.text(
            words, (left + LOUPE[2], top + high + 4), size=15, anchor="ra", ink=QUIET
        )

    def _limit(self, units: Units) -> str:
        def limit(units: Units) -> str:
            finest = EYE.finest(self.distance)
            return f"From there a good eye resolves {format_length(finest, units)}."

        return one_way(limit, units)

    def _numbers(self, units: Units) -> tuple[Number, ...]:
        pairs = self.pairs
        rows = [
            Number(f"Blade {name}", self._result(name), self._working(name, units), KNOWN)
            for name in NAMES
        ]
        named = ", ".join(" and ".join(pair) for pair in pairs)
        told = [
            "of the six pairs of four blades, those of which one shows lines, one not",
            f"{len(pairs)} of 6: {named}" if pairs else "none of 6",
        ]
        return (*rows, Number("Tells apart", f"{len(pairs)} of 6 pairs", told, KNOWN))

    def _working(self, name: str, units: Units) -> list[str]:
        if self.test == MAGNET:
            return [
                "a magnet pulls at every carbon and low-alloy steel",
                "layered or plain, forged or printed: it sticks alike",
            ]
        contrast = seen(name, self.test, self.distance).contrast
        away = format_length(self.distance, units)
        return [
            f"{TESTS[self.test]}: bright against dark, as blurred from {away}",
            f"lines count as seen from a contrast of {LEAST_CONTRAST:g}",
            f"here {contrast:.2f}",
        ]

    def _alt(self, units: Units) -> str:
        told = "; ".join(f"{name}: {self._result(name)}" for name in NAMES)
        return (
            f"Four blades, {LENGTH:.0f} mm long, each from its side, from above its spine, "
            f"and one place of it through a loupe. Test: {TESTS[self.test]}, seen from "
            f"{format_length(self.distance, units)}. {told}."
        )

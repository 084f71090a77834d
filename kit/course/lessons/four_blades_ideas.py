"""Ways of thinking about a spine that is looked at, right and wrong; and two checks.

Given, in mm: `layer`, as thick as a line of the spine; `far` and `near`, from where it is
looked at. A prediction says which spines show lines: `A`, `C` or their sum. Or `layers` of
a spine `thick`; or how many blades show lines, `lined`, and how many none, `bare`.
"""

from kit.basics.units import format_away, rounded
from kit.course.check import Check
from kit.course.lesson import Given, Reason, ideas_of
from kit.metal.eye import EYE

_, A, C = range(3)  # the sum is both
# Without letters: the tiles have their own.
SHOWN = {A + C: "both", A: "the polished one", C: "the fine one", 0: "neither"}

_idea = ideas_of("11")


def shown(lined: float) -> tuple[bool, bool]:
    """Say of A and of C whether a prediction has lines on it."""
    return bool(round(lined) & A), bool(round(lined) & C)


def _resolved(given: Given, distance: str) -> int:
    return C * (EYE.finest(given[distance]) <= given["layer"])


NEAR_ENOUGH = _idea(
    "RIGHT",
    "ask what is etched there, and what the eye resolves",
    lambda given: _resolved(given, "near"),
)
BOTH = _idea(
    "THERE_SO_SEEN",
    "take what is in the steel for what is seen on it",
    lambda given: A + _resolved(given, "near"),
    "The etch made the lines. What did the polish leave of it on A?",
)
NEITHER = _idea(
    "TOO_FINE_EVER",
    "take what is too fine from afar for too fine from anywhere",
    lambda given: _resolved(given, "far"),
    "From a sixth of the way the eye resolves six times as fine. How fine is C?",
)
WIDE_LINES = _idea(
    "WIDEST_SHOW",
    "go by how wide the lines are, and not by what was done to them",
    lambda _given: A,
    "A's are wider, but polished away. And C's: how near does the eye need to be?",
)

REASONS = (
    Reason(
        "The polish took the etch off A; at C the eye came near enough for its layers.",
        True,
        "Yes. Both have layers there. A spine without lines is no sign of a fake.",
    ),
    Reason(
        "A has no layers in its spine.",
        False,
        "It has: it is one bar all through. Etched again, its spine shows them.",
    ),
    Reason(
        "C's layers are wider than A's.",
        False,
        "They are finer: 80 flat ones in the thickness of the blade, where A has 33.",
    ),
)


def _layer(given: Given) -> float:
    return given["thick"] / given["layers"]


def _nearest(given: Given) -> float:
    return EYE.farthest(_layer(given))


NEAREST = _idea("RIGHT", "take one layer to the eye's limit", _nearest)
WHOLE_SPINE = _idea(
    "WHOLE_SPINE",
    "ask from where the whole spine is seen",
    lambda given: EYE.farthest(given["thick"]),
    "The spine is seen from afar. How thick is one layer of it?",
)
TWO_LAYERS = _idea(
    "TWO_LAYERS",
    "take a dark and a bright layer for one line",
    lambda given: EYE.farthest(2 * _layer(given)),
    "A line is one layer, dark or bright. How thick is that?",
)
HALF_THE_LAYERS = _idea(
    "HALF_THE_LAYERS",
    "share half of the spine out among all its layers",
    lambda given: EYE.farthest(_layer(given) / 2),
    "A bevel cuts half of them. How many does the spine show?",
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


PAIRS = _idea("RIGHT", "pair each with lines with each without", _pairs)
ALL_PAIRS = _idea(
    "ALL_PAIRS",
    "count all pairs of blades",
    lambda given: _of(given["lined"] + given["bare"]),
    "Two blades that both show lines: does the test tell those apart?",
)
ALIKE = _idea(
    "ALIKE",
    "count the pairs that look alike",
    lambda given: _of(given["lined"]) + _of(given["bare"]),
    "Those are the ones that the test leaves together. And the others?",
)
BLADES = _idea(
    "BLADES",
    "count blades and not pairs",
    lambda given: given["lined"] + given["bare"],
    "Take one blade without lines. From how many of the others is it told apart?",
)
ONE_EACH = _idea(
    "ONE_EACH",
    "use each blade for one pair alone",
    lambda given: min(given["lined"], given["bare"]),
    "A blade that was told from one can be told from another, too. From how many?",
)


def _pairs_working(given: Given) -> list[str]:
    lined, bare = int(given["lined"]), int(given["bare"])
    return [
        "told apart is each blade with lines from each without",
        f"= {lined} × {bare}",
        f"= {lined * bare}",
    ]


HOW_NEAR = Check(
    ask=(
        "A spine is 4 mm thick and has 50 flat layers, etched. From how near does a good "
        "eye, which resolves one minute of arc, begin to tell them apart?"
    ),
    given={"thick": 4.0, "layers": 50.0},
    right=NEAREST,
    slips=(WHOLE_SPINE, TWO_LAYERS, HALF_THE_LAYERS),
    kind="length, away",
    prompt="How thick is one layer? And how far away is that one minute of arc?",
    working=_nearest_working,
    other={"thick": 5.0, "layers": 40.0},
    tips=(
        "Set the spine in the picture above, come nearer until C has lines: its are finer.",
        "Draw lines 0.8 mm apart, step back until they run together, and divide by ten.",
        "distance = layer / tan(1/60°). An answer within 2 % counts.",
    ),
)

HOW_MANY_PAIRS = Check(
    ask=(
        "Five blades lie on a table. A test shows lines on three of them and none on two. "
        "How many pairs of blades does it tell apart?"
    ),
    given={"lined": 3.0, "bare": 2.0},
    right=PAIRS,
    slips=(ALL_PAIRS, ALIKE, BLADES, ONE_EACH),
    kind="count",
    prompt="Take one blade without lines. From how many others does the test tell it?",
    working=_pairs_working,
    other={"lined": 4.0, "bare": 3.0},
    tips=(
        "Set a test in the picture above: it names the pairs of four blades. Now five.",
        "Draw three dots in a row and two below; join each above with each below.",
        "Those with lines times those without.",
    ),
)

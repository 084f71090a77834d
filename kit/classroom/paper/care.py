"""Care cards to give away with a piece: four to a sheet, to be cut; fronts, then backs.

A quarter of the live area, 95 × 129.5 mm, is an A6 card trimmed so that one layout fits
A4 and Letter. What the cards rest on stands on a third sheet, which the maker keeps: a
buyer cannot open a claim.
"""

from kit.basics.claim import Claim, claims_told, known
from kit.basics.claim import Kind as Known
from kit.basics.told import counted
from kit.basics.units import Units, both, rounded
from kit.classroom.paper import operations
from kit.classroom.paper.code import side_of, square_code
from kit.classroom.paper.kinds import Asked, Kind
from kit.classroom.paper.lines import BODY
from kit.classroom.paper.page import HAIR, LIVE, Page, Place
from kit.classroom.paper.to_scale import DOT, Goal, goal
from kit.classroom.paper.told import shares_of, weighed
from kit.course.lessons.scene import FORGED
from kit.forge.billet import Billet
from kit.forge.steels import Grade, steel
from kit.forge.steps.hollows import Hollows
from kit.metal import etch
from kit.metal.cautions import to_the_owner
from kit.metal.diffusion import TABLE
from kit.metal.evening import EVENED, minutes_to_even
from kit.metal.hardening import stainless
from kit.metal.pairs import pair
from kit.shop import plan_line
from kit.shop.plan import Plan
from kit.shop.recipes import shorthand

CARD = (LIVE[0] / 2, LIVE[1] / 2)
EDGE = 5.0  # mm of white around what is printed
PICTURE = (CARD[0] - 2 * EDGE, 56.0)
CLAD = 5  # layers: so few are parts, not a pattern
WELDED, SOON = 1150.0, 10.0  # °C, minutes: a bar that was welded had them; lesson 08
MODULE = 0.4  # mm
STAMP = 22.0  # mm, the room for the maker's mark
TIMES = 3  # how much larger the second picture is
LINE = 4.6  # mm, of what stands above them; a weld that did not take needs three
WORDS = 54.0  # mm, what stands above and below the pictures
RULER = 4.2  # mm, with its figures
SIGNED = 7.0  # mm wide, the kit's own mark on the back
SMALLER = (9, 8, 7)  # points, where the maker's sheet has many steels to tell of
LEAST_BELOW = 20.0  # mm: lower, a second picture is left out
ETCHED = (
    "Etched, not painted: the acid only shows where each steel lies. Worn off, it comes "
    "back with a new etch."
)
FOR_THE_MAKER = "For the maker: the whole recipe, to be read by a telephone."
NO_ROOM = "The recipe is too long for this card. The maker's card has it."
IN_DOUBT = "When in doubt, ask the maker."
CARE = Claim(
    says="Dry, oiled and away from dishwasher and acid fruit, a blade keeps.",
    kind=Known.PRACTICE,
    told=("fine cloth, along the lines", "thin film of oil", "[Ll]emon, onion and tomato"),
)
PRINT = (
    "Print the other two sheets at 100 % on both sides of one stout sheet, turned on the "
    "long edge. Cut on the lines. Keep this one: a visitor who asks how you know finds it "
    "here."
)


def care_cards(asked: Asked) -> list[Page]:
    """Give a sheet of four fronts, one of four backs, and one for the maker to keep."""
    given, units = asked.about, asked.units
    planned = isinstance(given, Plan)
    called = counted(given.billet.layers, "layer") if planned else given.name
    line = plan_line.to_line(given) if planned else shorthand.short_line(given.billet)
    fronts, backs = (Page(asked.paper, handed=True) for _ in range(2))
    seen = goal(given.billet, PICTURE, called, units=units, found=asked.found)
    near = None
    tall = seen.width * seen.image.height / seen.image.width
    missed = operations.not_taken(operations.of_any(given, units))
    below = CARD[1] - 2 * EDGE - WORDS - tall - 3 * LINE * bool(missed)
    if below >= LEAST_BELOW:
        room = (PICTURE[0] / TIMES, below / TIMES)
        near = goal(given.billet, room, called, DOT / TIMES, units, asked.found)
    for number in range(4):
        at = (number % 2 * CARD[0], number // 2 * CARD[1])
        for page in (fronts, backs):
            page.box(at, CARD, width=HAIR)
        _front(fronts, at, called, given.billet, (seen, near), missed, units)
        signed = (at[0] + EDGE, at[1] + CARD[1] - EDGE - STAMP)
        fronts.makers_mark(signed, STAMP, asked.mark)
        _made_by(fronts, (signed[0] + STAMP + 4, signed[1]))
        _back(backs, at, given.billet, line)
        edge = at[0], at[1] + CARD[1]
        backs.ruler(edge, CARD[0], inch=units is not Units.MM, side=-1)
    return [fronts, backs, _for_the_maker(asked, given.billet, seen)]


def _front(
    page: Page,
    at: Place,
    name: str,
    billet: Billet,
    seen: tuple[Goal, Goal | None],
    missed: str,
    units: Units,
) -> None:
    wide = CARD[0] - 2 * EDGE
    x, y = at[0] + EDGE, at[1] + EDGE
    y = page.write(f"{name[0].upper()}{name[1:]}", (x, y), wide, size=18, bold=True)
    steels = " and ".join(shares_of(billet))
    y = page.write(f"Pattern-welded steel: {steels}", (x, y), wide, size=10)
    if missed:
        y = page.write(missed, (x, y), wide, size=10, bold=True)
    y += 2
    for one, times in zip(seen, (1, TIMES), strict=True):
        if one is None:
            continue
        width = one.width * times
        left = at[0] + (CARD[0] - width) / 2
        foot = page.picture(one.image, (left, y), width)
        told = f"{one.cut}, true size" if times == 1 else f"The same, {times} times larger"
        below = foot + 0.5
        if times == 1:
            page.ruler((left, foot), width, inch=units is not Units.MM)
            below = foot + RULER
        y = page.write(told, (x, below), wide, size=7) + 2


def _made_by(page: Page, at: Place) -> None:
    """Leave lines to write on: whose work it is, and when it was made."""
    right = at[0] + CARD[0] - 2 * EDGE - STAMP - 4
    for words, below in (("Made by", 0.0), ("For", 8.0), ("Date", 16.0)):
        y = page.write(words, (at[0], at[1] + below + 1.2), 20, size=8)
        page.line((at[0] + 14, y), (right, y), width=HAIR)


def _back(page: Page, at: Place, billet: Billet, line: str) -> None:
    x, y, wide = at[0] + EDGE, at[1] + EDGE, CARD[0] - 2 * EDGE
    y = page.write("Three facts", (x, y), wide, size=10, bold=True)
    for number, fact in enumerate(facts(billet), 1):
        page.write(f"{number}", (x, y), 5, size=9, bold=True)
        y = page.write(fact, (x + 5, y), wide - 5, size=9) + 0.8
    y = page.write("Care", (x, y + 1), wide, size=10, bold=True)
    y = page.write(care(list(shares_of(billet))), (x, y), wide, size=9)
    foot = at[1] + CARD[1] - EDGE
    side = side_of(line, MODULE)  # the code holds the line whole: no owner reads it
    page.signed((x + wide - SIGNED, foot - SIGNED), SIGNED)
    if 0 < side < foot - y:
        square_code(page, line, (x - 1, foot - side + 1), MODULE)
        page.write(FOR_THE_MAKER, (x + side, foot - side + 3), wide - side, size=7)
    else:
        page.write(NO_ROOM, (x, foot - 4), wide - SIGNED - 2, size=7)


def _for_the_maker(asked: Asked, billet: Billet, seen: Goal) -> Page:
    """Tell what the cards rest on, with the largest letters that fit."""
    for size in (BODY, *SMALLER):
        page = _resting(asked, billet, seen, size)
        if page.y <= LIVE[1]:
            break
    return page


def _resting(asked: Asked, billet: Billet, seen: Goal, size: float) -> Page:
    page = asked.page("For the maker: what the care cards rest on")
    page.write(PRINT, size=size)
    kept = claims_told(care(list(shares_of(billet))))
    for title, words, rests in (
        ("The picture", [seen.says], (FORGED,)),
        ("Three facts", [], rests_on(billet)),
        ("Care", [], kept),
    ):
        page.y += 2
        page.write(known(title, rests), size=size, bold=True)
        for claim in rests:
            name = f"{claim}: " if isinstance(claim, Grade) else ""
            words.append(f"{name}{claim.says} {claim.how}")
        for one in words:
            page.write(one, size=size)
    return page


def rests_on(billet: Billet) -> tuple[Claim, ...]:
    """Give what the facts about a piece rest on, and what their words tell."""
    told = claims_told("\n".join(facts(billet)))
    return tuple(dict.fromkeys((*weighed(billet), EVENED, TABLE["C"], *told)))


def facts(billet: Billet) -> list[str]:
    """Give three facts about a piece, for its owner."""
    shares = shares_of(billet)
    names = list(shares)
    bright = max(names, key=lambda one: etch.reflectance(steel(one)))
    layers = f"{counted(billet.layers, 'layer')}. " if billet.tally.even else ""
    told = [
        f"{layers}{' and '.join(names)}: the lightest lines are {bright}."
        if len(names) > 1
        else "One steel: its pattern is in the weld lines.",
        ETCHED,
    ]
    mean = pair(*names, tuple(shares.values())).mean_carbon if len(names) == 2 else None
    even = billet.tally.even and minutes_to_even(billet.mean_layer, "C", WELDED) < SOON
    if mean is not None and even:
        told.append(
            f"Layers as thin as these share their carbon in {SOON:g} minutes at "
            f"{both(WELDED)}: about {rounded(mean, 2)} % all through, no hard and soft "
            "layers."
        )
    else:
        told.append(deeper(billet))
    return told


def deeper(billet: Billet) -> str:
    """Say what becomes of the pattern when the piece is ground.

    Hollows fade towards the far face (lesson 05); of a few bars each is a region of its
    own (lesson 07); twists and folds go all through (lesson 04).
    """
    if any(isinstance(step, Hollows) for step in billet.steps):
        return (
            "Its figures are hollows, forged flat: ground deeper they get smaller, and at "
            "last they are gone. The layers stay."
        )
    if billet.tally.even and billet.layers <= CLAD:
        return "Each steel is one solid part: ground, the line between them moves."
    return "The pattern goes all the way through: ground, it changes, and stays."


def care(names: list[str]) -> str:
    """Say how to look after steels of these names.

    Examples
    --------
    >>> care(["1084", "15N20"])[:36]
    'It rusts. Wipe it dry after use; a t'
    """
    grades: list[Grade] = [steel(one) for one in names]
    rust = "It stains, though less than plain steel." if all(
        map(stainless, grades)
    ) else "It rusts."  # fmt: skip
    told = (
        f"{rust} Wipe it dry after use; a thin film of oil or wax, food-safe in a kitchen. "
        "No dishwasher, no damp sheath. Lemon, onion and tomato darken it: rinse soon. "
        "Rust: oil and a fine cloth, along the lines."
    )
    return " ".join(filter(None, (told, to_the_owner(grades), IN_DOUBT)))


PRINTS = (Kind("care", "care cards, four to a sheet", care_cards, "bar", ("mark",)),)

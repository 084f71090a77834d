"""Cards 8, 19, 20, 22 and 30: what bevels, hollows and claddings make of layers."""

import math
from functools import cache

from kit.course.lessons.bevels import BevelsLesson
from kit.course.lessons.press import PressLesson
from kit.course.lessons.press_ideas import EVENLY, HALF_POINT, POINTED
from kit.course.lessons.san_mai import SanMaiLesson
from kit.course.lessons.san_mai_ideas import line, permissible
from kit.course.lessons.scene import FORGED
from kit.course.questions import sketches
from kit.course.questions.blades import bar_and_blade
from kit.course.questions.card import Card, Values
from kit.metal.dangers import DUST, FIRE, GRINDER, NICKEL, PRESS, SCALE
from kit.metal.evening import EVENED
from kit.metal.eye import ONE_MINUTE
from kit.metal.reported import AS_GOOD, DARKER
from kit.shop.bought import AS_BOUGHT, RAINDROP
from kit.shop.patterns import NAMED

PLUNGE = 45.0  # degrees
GROUND = (0.0, 0.9, 1.8)  # mm off the raindrop bar
OFF_CENTRE = 0.3  # mm, of a core
BEVEL_BY_HAND = (
    math.hypot(30, 1.8) / 1.8
)  # a blade 30 mm high, (4.0 - 0.4) / 2 = 1.8 a side


def _line_by_hand(towards: float = 0.0) -> float:
    """Height of a clad blade's line: core 1.2, spine 4.0, edge 0.4, bevel 32 mm high."""
    return (1.2 / 2 + towards - 0.2) / 1.8 * 32


@cache
def _spread() -> Values:
    blade = BevelsLesson()
    _, spacing, spread = blade.crossed
    return {
        "layers": blade.layers,
        "spine": blade.spine,
        "layer": blade.layer,
        "depth": blade.depth,
        "height": blade.height,
        "spacing": spacing,
        "spread": spread,
        "lean": math.degrees(math.atan(blade.depth / blade.height)),
        "plunge": PLUNGE,
        "steep": blade.layer / math.sin(math.radians(PLUNGE)),
    }


@cache
def _rings() -> Values:
    job = PressLesson()
    return {
        "across": job.across,
        "radius": job.across / 2,
        "deep": job.deep,
        "layer": job.layer,
        "rings": job.rings,
        "half_point": math.degrees(HALF_POINT),
        "point": 2 * math.degrees(HALF_POINT),
        "spacing": job.across / 2 / job.rings,
    }


@cache
def _rings_left() -> Values:
    jobs = [PressLesson(ground=ground) for ground in GROUND]
    values = {"bar": jobs[0].billet.size.thickness, "rings": jobs[0].rings}
    for number, job in enumerate(jobs):
        values[f"off_{number}"] = job.ground
        values[f"left_{number}"] = job.left
    return values


@cache
def _core() -> Values:
    given = SanMaiLesson().given
    return {
        "core": given["c"],
        "spine": given["S"],
        "edge": given["e"],
        "height": given["H"],
        "half_core": given["c"] / 2,
        "half_edge": given["e"] / 2,
        "depth": (given["S"] - given["e"]) / 2,
        "line": line(given),
        "off": OFF_CENTRE,
        "high": line(given, OFF_CENTRE),
        "low": line(given, -OFF_CENTRE),
        "most": permissible(given),
    }


KEEN, STOUT, BEHIND = 15.0, 20.0, 1.0  # degrees a side, mm; ours


def _edges() -> Values:
    thin, thick = (2 * BEHIND * math.tan(math.radians(angle)) for angle in (KEEN, STOUT))
    return {"keen": KEEN, "stout": STOUT, "up": BEHIND, "thin": thin, "thick": thick}


CARDS = (
    Card(
        number=8,
        question="Why are the lines wide on the bevel and invisible on the spine?",
        belief="The layers must be thicker down there.",
        answer="They are the same layers, cut another way. Square across, on the spine, "
        "each is {layer:fine} wide, too fine to see. The bevel leans only {lean:.1f}° to "
        "them and draws each out to {spacing:fine}. At a steep plunge of {plunge:.0f}° "
        "they are {steep:fine}, and gone again.",
        breath="Slice a carrot on the slant: the same carrot, and much longer slices.",
        name="Wider on the bevel",
        value="× {spread:.1f}: {layer:fine} → {spacing:fine}",
        working=(
            "spine: {spine:length} / {layers:count} layers = {layer:fine}",
            (
                "bevel: 1 / sin(lean), lean = arctan({depth:fine} / {height:fine}) = "
                "{lean:.2f}°"
            ),
            (
                "1 / sin({lean:.2f}°) = {spread:.1f}; {layer:fine} × {spread:.1f} = "
                "{spacing:fine}"
            ),
            "plunge: {layer:fine} / sin({plunge:.0f}°) = {steep:fine}",
        ),
        values=_spread,
        by_hand={
            "spread": BEVEL_BY_HAND,
            "spacing": 0.05 * BEVEL_BY_HAND,
            "steep": 0.05 / math.sin(math.pi / 4),
        },
        shown=("16.7", "0.05 mm", "0.835 mm"),
        picture=lambda measures: BevelsLesson.scene(units=measures.units, **measures.paper),
        found_by="lines bevel spine",
        keywords="wide wider broad lines on the bevel, narrow thin fine at the spine, back "
        "top side, plain on the back, no pattern nothing on the back, can't see it there, "
        "invisible gone, closer together, further apart, spread out stretched, thicker "
        "towards the cutting edge, angle slant slope, ricasso plunge flat near the handle, "
        "where did the lines go, why do the lines look stretched near the edge, only on "
        "the slope, tapers, top of the blade, blank side, different width, more lines here "
        "than there, wood cut at an angle, straight lines on top, fat skinny big bigger "
        "small smaller lines, lines down here up there, pattern on one part only, no "
        "pattern on the back of my blade, nothing on the spine, top edge plain, lines get "
        "wider, big at the bottom, fine lines on top, lines not the same width, thick "
        "edge, bevelled slope, uneven, why is the back blank, on top it looks like plain "
        "steel, lines get bigger toward the edge, looks different on top",
        mark="Geometry of flat layers. The finish in the picture is illustrative.",
        claims=(FORGED, ONE_MINUTE),
        lesson="06",
    ),
    Card(
        number=19,
        question="How are the raindrops or ladder rungs made?",
        belief="Little shapes are welded in, or the rings are drawn.",
        answer="The smith pushes or cuts hollows into a bar of flat layers and makes the "
        "face level again. The layers are not level any more, so the face cuts them in "
        "rings, as contour lines on a map ring a hill. A drill point {across:fine} wide "
        "and {deep:fine} deep in layers of {layer:fine} gives {rings:.0f} rings, "
        "{spacing:rough} apart. Grooves across the bar give the rungs of a ladder.",
        breath="It is a map of dents: every ring is one layer further down.",
        name="Rings of one hollow",
        value="{rings:.0f}, {spacing:rough} apart",
        working=(
            "depth of a {point:.0f}° drill point = radius / tan({half_point:.0f}°)",
            "= {radius:fine} / tan({half_point:.0f}°) = {deep:fine}",
            "rings = depth / layer = {deep:fine} / {layer:fine} = {rings:.1f}",
            "apart = radius / rings = {radius:fine} / {rings:.2f} = {spacing:fine}",
        ),
        values=_rings,
        by_hand={
            "deep": 3 / math.tan(math.radians(59)),
            "rings": 6.009,
            "spacing": 0.3 * math.tan(math.radians(59)),
        },
        shown=("6", "0.5 mm"),
        picture=lambda measures: PressLesson.scene(units=measures.units, **measures.paper),
        found_by="raindrops ladder rungs",
        keywords="raindrop drop, ladder rung, raindrop pattern, ladder pattern, dimple "
        "hollow groove notch, ring circle dots round, pool pond eye, drill press holes, "
        "dent, ripples water, bullseye target, steps across the blade, how are the circles "
        "made, bubbles, round dots in it, stripes across like a ladder, dots spots circles "
        "made, rain, how did you get the rings, punched pressed drilled, cut grooves, "
        "peacock, bumps, rungs, hammer little dents into it, how do you make the drop "
        "pattern, rings like rain on water, drill holes for the drops, drops pattern, "
        "round rings, pattern of ladder, eyes in the steel, how are the rungs made, little "
        "circles, how do you make a ladder, press into, bullet shapes, round things, "
        "ladder thing, are they drilled, look like raindrops, what makes the drops",
        mark="Geometry, by a simple rule: steel is squeezed straight down, never aside.",
        dangers=(FIRE, PRESS, SCALE, GRINDER),
        claims=(FORGED, NAMED, POINTED),
        lesson="05",
    ),
    Card(
        number=20,
        question="I bought a ladder, raindrop or twist bar. Will the pattern survive my "
        "grind?",
        belief="The face of the bar will be the face of the blade.",
        answer="It will change. By a simple rule the pattern of hollows fades evenly "
        "towards the far face: half of it is gone at half the thickness. The bevel draws "
        "what is left out across the blade and adds lines of its own. Of {left_0:.0f} "
        "rings in a bar {bar:length} thick, {left_1:.0f} remain after {off_1:fine} and "
        "{left_2:.0f} after {off_2:fine}. Ask the seller how deep the pattern goes, or "
        "grind a corner.",
        breath="You will not get this face. You get the one underneath, plus the lines of "
        "the bevel.",
        name="Rings left after grinding",
        value="{left_0:.0f} → {left_1:.0f} → {left_2:.0f}",
        working=(
            "left = rings × (1 - ground off / bar)",
            "as bought: {rings:.1f}",
            (
                "{off_1:fine} off: {rings:.1f} × (1 - {off_1:fine} / {bar:fine}) = "
                "{left_1:.1f}"
            ),
            (
                "{off_2:fine} off: {rings:.1f} × (1 - {off_2:fine} / {bar:fine}) = "
                "{left_2:.1f}"
            ),
        ),
        values=_rings_left,
        by_hand={
            "left_0": 6.009,
            "left_1": 6.009 * (1 - 0.9 / 6),
            "left_2": 6.009 * (1 - 1.8 / 6),
        },
        shown=("6", "5", "4"),
        picture=lambda measures: bar_and_blade(RAINDROP, measures),
        found_by="bought survive grind",
        keywords="billet bar blank stock buy bar, ordered a bar, grinding my own knife "
        "blade maker, lose survive remain, how deep in the bar, thin thinner too far, "
        "ready made, grind away, regrind, how much can I grind off, remove material, file "
        "shape, still there after grinding, cut my knife from, before the pattern is lost, "
        "shape the knife, make a knife out of a bar, look the same after grinding, how "
        "deep can I go, how much to leave, pattern disappear when I grind, my bar, sanding "
        "a bought billet, finished knife differs, stock removal, grind it as thin as I "
        "want, how thin can I grind my bar, before it is gone, ground my bevels now half "
        "gone, have a raindrop billet, grind one mm off, my billet, bar I bought, grind "
        "deep, how deep is the pattern of a bar, bar from a supplier, knife maker, ground "
        "too deep, pattern changed after grinding, bevels, how thick should the bar be, "
        "cut a knife out of bought steel, will I grind the pattern away, how deep do the "
        "raindrops go, ordered damascus to make my own knife, grind it all off",
        mark="First order, for hollows sunk and forged flat from one face. How the bars in "
        "the picture were made is common practice, no source.",
        dangers=(GRINDER, DUST, NICKEL),
        claims=(FORGED, AS_BOUGHT, EVENLY),
        lesson="06",
        part="bought",
    ),
    Card(
        number=22,
        question="What is the line along the edge?",
        belief="It is where the blade was hardened, or a coating ends there.",
        answer="In a clad blade (san mai, three layers) it is where the bevel comes out of "
        "the cladding and meets the core. Its height is geometry: with a core of "
        "{core:fine} it lies {line:tenth} above the edge. A core {off:fine} off centre "
        "puts it at {high:tenth} on one side and {low:tenth} on the other, and beyond "
        "{most:fine} the cladding becomes the edge. (A blade coated with clay "
        "for its quench, then tempered, can show a hardening line; that is another thing.)",
        breath="That is the filling showing at the edge of the sandwich.",
        name="Height of the line",
        value="{line:tenth}",
        working=(
            "height = (half core - half edge) / ((spine - edge) / 2) × bevel height",
            (
                "= ({half_core:fine} - {half_edge:fine}) / {depth:fine} × {height:fine} = "
                "{line:tenth}"
            ),
            "core {off:fine} off centre: {high:tenth} and {low:tenth}",
        ),
        values=_core,
        by_hand={
            "line": _line_by_hand(),
            "high": _line_by_hand(0.3),
            "low": _line_by_hand(-0.3),
            "most": 1.2 / 2 - 0.4 / 2,
        },
        shown=("7.1 mm",),
        picture=lambda measures: SanMaiLesson.scene(units=measures.units, **measures.paper),
        found_by="line edge core",
        keywords="san mai core cladding clad sandwich jacket, three layer layers, hamon, "
        "wavy cloudy line, near the edge at the bottom, sharp side, strip stripe band "
        "border, edge without pattern, bright strip at the cutting edge, plain bright "
        "edge, other colour, centre, hardening line, bottom without pattern, is that a "
        "hamon, wave along the edge, bright bottom, other steel at the edge, cutting edge "
        "different, line runs, where two steels meet, near the blade's edge, stripe along, "
        "border between bright edge and patterned part, edge different from the rest, wavy "
        "line above the cutting edge, what is that line, line near the edge, line on the "
        "blade, is that san mai, why is the edge bright, shiny edge, two parts, edge is "
        "another steel, no layers at the edge, edge plain, hard edge line, below the line, "
        "line between, the temper line, plain strip of steel, wavy line by the edge, edge "
        "is a plain strip, why is there a line, harder steel in the middle, steel in the "
        "middle, parallel to the edge",
        mark="Geometry of a flat bevel. The finish in the picture is illustrative.",
        claims=(FORGED, DARKER),
        lesson="07",
    ),
    Card(
        number=30,
        question="Is it sharp, and does it stay sharp?",
        belief="Hard and soft layers make a fine saw that sharpens itself.",
        answer="Sharp is geometry: two faces that meet thin. Ground at {keen:.0f}° a side "
        "an edge is {thin:fine} thick {up:fine} behind, at {stout:.0f}° it is "
        "{thick:fine}. How long it stays sharp comes from the steel, from how it was "
        "hardened and tempered, and from what it is asked to cut. The pattern does "
        "neither: thin layers have shared their carbon and wear alike (lesson 08).",
        breath="Sharp is a small angle, staying sharp is steel and heat treatment. The "
        "pattern does neither.",
        name="Thickness {up:fine} behind the edge",
        value="{thin:fine} at {keen:.0f}°, {thick:fine} at {stout:.0f}°",
        working=(
            "thickness = 2 × tan(angle a side) × way behind the edge",
            "2 × tan({keen:.0f}°) × {up:fine} = {thin:fine}",
            "2 × tan({stout:.0f}°) × {up:fine} = {thick:fine}",
        ),
        values=_edges,
        by_hand={"thin": 2 * (2 - math.sqrt(3)), "thick": 2 * 0.363970},  # tan 15°, 20°
        shown=("0.536 mm", "0.728 mm"),
        picture=lambda measures: sketches.edges((KEEN, STOUT), BEHIND, measures),
        found_by="sharp stay hold",
        keywords="sharpness edge retention, stay stays sharp, keeps holds holding its "
        "edge, hold an edge, how long sharp, keen razor shave hair, dull blunt, goes "
        "blunt, cut cuts cutting tomato paper, keep cutting well, how sharp is it, how "
        "soon resharpen again, need sharpening, angle, slice, get blunt quickly, how sharp "
        "can it get, sharp enough, very sharp, stay sharp long, loses its edge, cut hair, "
        "cut meat vegetables, sharpest, sharp for long, scalpel, edge lasts, last, does it "
        "stay sharp longer, how sharp is this thing, it got dull after a week, got blunt, "
        "keep sharp, cut longer, how well does it cut, sharp as a razor, does it cut well, "
        "stays sharp for how long, not sharp any more, not cut any more, is it very sharp, "
        "lose sharpness, blunt after, hold its sharpness, cuts like butter, can I cut "
        "myself, sharper than a normal knife, sharper than others, hold its edge if I "
        "use it every day, can it cut a tomato, "
        "everyday use, will it cut, cut through, sharp edge",
        mark="Geometry of a flat bevel.",
        claims=(FORGED, AS_GOOD, EVENED),
        lesson="06",
    ),
)

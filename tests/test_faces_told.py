"""A law over all lessons: what an alt text says of a face is what is seen on that face.

The faces are measured here anew, at states at random, so that no sentence made from the
settings alone can pass.
"""

import numpy as np
import pytest

from kit.course.lessons import reading_drawing
from kit.course.lessons.bought import BoughtLesson
from kit.course.lessons.bought_drawing import AS_SOLD
from kit.course.lessons.bought_drawing import tones as bought_tones
from kit.course.lessons.etching import EtchingLesson
from kit.course.lessons.etching_drawing import lighted
from kit.course.lessons.press import WEDGE
from kit.course.lessons.reading import ReadingLesson
from kit.course.lessons.skin_deep import FACE, FACE_PIXEL, WIDE, SkinDeepLesson
from kit.metal import etch
from kit.metal.bite import bitten
from kit.metal.described import described, of
from kit.metal.eye import EYE, seen_from
from kit.section.trace import see
from tests.lessons import KNOWN
from tests.test_lesson_laws import begun
from tests.test_workings import states

pytestmark = pytest.mark.gate

# Which of a scene's panels its words tell of, where it is not the last.
PLACES = {"BevelsLesson": 0, "DrawLesson": 3, "FoldLesson": 0, "WeldLesson": 0}


def traced(panel, tones=None):
    """Measure a panel's steel anew."""
    billet, surface = panel.billet, panel.surface
    face = see(billet, surface, tones or etch.tones(billet.source.steels))
    return of(face, surface.pixel)


def press(scene, state):
    """Tell of the chosen bar's face, or of the feather on the blade."""
    if state["tool"] == WEDGE:
        return [traced(scene.panels[2])]
    way = 2 * state["way"] if len(scene.panels) == 4 else 0
    return [traced(scene.panels[way])]


def bought(scene, state):
    """Tell of the bar as it was sold, and of the blade as it was etched."""
    baths = AS_SOLD, BoughtLesson(**state).etch
    return [
        traced(panel, bought_tones(panel.billet, bath))
        for panel, bath in zip(scene.panels, baths, strict=True)
    ]


def etched(scene, state):
    """Tell of three faces, blurred as from afar, but not of their ends.

    There a picture goes on as in a mirror, and a band counts double.
    """
    job = EtchingLesson(**state)
    parts, found = bitten(job.names, job.etch), []
    tones = {name: part.tone for name, part in parts.items()}
    for panel in scene.panels:
        surface, face = panel.surface, see(panel.billet, panel.surface, tones)
        bright = lighted(panel.billet, surface, parts, job)[0] if job.light else face.tone
        blurred = seen_from(bright, job.distance, surface.pixel)
        ends = 3 * EYE.finest(job.distance) / surface.pixel
        from_end = np.minimum(np.arange(surface.columns), np.arange(surface.columns)[::-1])
        inner = face.cover * (from_end >= ends)
        found.append(described(blurred, inner, surface.pixel))
    return found


def skins(scene, state):
    """Tell of the forged face and of the engraved one."""
    del scene
    job = SkinDeepLesson(**state)
    plane = job.face(WIDE, FACE, FACE_PIXEL)
    return [of(job.seen(plane, made), FACE_PIXEL) for made in ("forged", "engraved")]


def unknown(scene, state):
    """Tell of the unknown face and of the one beside it."""
    del scene
    job = ReadingLesson(**state)
    there, ours = job.faces
    mixed = reading_drawing.overlaid(there, ours, job.overlay / 100)
    return [of(face, reading_drawing.PIXEL) for face in (mixed, ours)]


OTHERS = {
    "PressLesson": press,
    "BoughtLesson": bought,
    "EtchingLesson": etched,
    "SkinDeepLesson": skins,
    "ReadingLesson": unknown,
}
# These draw no face, or tell of none: where a line lies and what an eye resolves is
# followed and measured there.
NONE = {"BriefsLesson", "CarbonLesson", "FourBladesLesson", "PlanLesson", "SanMaiLesson"}


def shown(name, state):
    """Give the words of a scene, and what its faces show."""
    scene = KNOWN[name].scene(**state)
    if name in OTHERS:
        return scene.alt, OTHERS[name](scene, state)
    return scene.alt, [traced(scene.panels[PLACES.get(name, -1)])]


def asked(name):
    """Give states: as it begins, at random, and one steel twice where steels are chosen."""
    found = [begun(name), *states(name, 5)]
    if "second" in begun(name):
        found += [{**state, "second": state["first"]} for state in found]
    return found


def test_what_is_an_exception_is_there():
    assert {*PLACES, *OTHERS, *NONE} <= set(KNOWN)


@pytest.mark.parametrize("name", sorted(set(KNOWN) - NONE))
def test_words_are_what_the_face_shows(name):
    for state in asked(name):
        alt, faces = shown(name, state)
        if "rows of stars" in alt:  # by name, where the end grain lies flat
            continue
        for face in faces:
            assert str(face) in alt, f"{alt} at {state}"
        if all(face.kind == "plain" for face in faces):
            for word in ("dark and bright", "slanting lines", "chevrons", "swirls"):
                assert word not in alt


@pytest.mark.parametrize("name", sorted({*PLACES, *OTHERS}))
def test_a_face_told_as_plain_is_even_in_the_picture(name):
    """Read back from the picture itself; sanding, dashes and words may lie on it."""
    for state in asked(name):
        scene = KNOWN[name].scene(**state)
        greys = np.asarray(scene.image.convert("L"), float)
        for panel in scene.panels:
            shows = vars(panel).get("shows")  # no words tell of the others
            if shows is None or shows.kind != "plain":
                continue
            billet, surface, (left, top) = panel.billet, panel.surface, panel.corner
            part = greys[top : top + surface.rows, left : left + surface.columns]
            rows, columns = part.shape
            cover = see(billet, surface, etch.tones(billet.source.steels)).cover
            steel = part[cover[:rows, :columns] > 0.99]
            assert np.ptp(np.percentile(steel, (15, 85))) < 20

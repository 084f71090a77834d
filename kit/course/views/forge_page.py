"""What the forge shows, and where: its list, its picture, its sentences, its slider."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import ipywidgets as widgets

from kit.basics.told import counted
from kit.basics.units import Units
from kit.course.anvil import clay, void
from kit.course.anvil.desk import Desk
from kit.course.anvil.look import scene
from kit.course.anvil.play import Playing, Row
from kit.course.anvil.sentence import Gap, brief, does, entry, short
from kit.course.as_code import as_code
from kit.course.lessons.scene import FORGED, Scene
from kit.course.views import forge_lines as lines
from kit.course.views.controls import Choice, Code, Looks, Picture, Slider, button, in_a_row
from kit.course.views.forge_lines import Bars, Sentence, Strip
from kit.course.views.line import Counting
from kit.course.views.said import Says, Text, how_known, spoken
from kit.forge.billet import Billet
from kit.forge.stack import demo_stack
from kit.forge.steel_table import NOMINALS
from kit.metal.diffusion import TABLE
from kit.metal.etch import TONES
from kit.metal.eye import COUNTED_AS_SEEN
from kit.metal.working_heat import TOO_HOT
from kit.section.half import half_as_fine, whole
from kit.section.picture import STEEL, encode

# What sizes, counts, weights, tones and warnings of a bar rest on.
RESTS = (FORGED, NOMINALS, TONES, COUNTED_AS_SEEN, TABLE["C"], TOO_HOT)
STRETCH = 0.1  # s, ours, that the row is drawn at before other wishes are heard
MISSED = (
    "Its gap goes on through all that follows, a dark hairline that is hard to see "
    "between two dark layers: pointed marks show where it runs out."
)


class ForgePage(widgets.VBox):
    """The page of one desk.

    Parameters
    ----------
    bar : Billet, optional
        What lies on the anvil at first; left out, the demo's stack.

    Attributes
    ----------
    desk : Desk
        What is on the screen.
    shown : Scene
        Its picture.
    """

    def __init__(self, bar: Billet | None = None) -> None:
        super().__init__()
        self.name = "Forge"
        self.add_class("kit-view")
        self.add_class("kit-forge")
        self.desk = Desk.of(Billet(source=demo_stack()) if bar is None else bar)
        self._moved = ""  # the gap whose slider moves, until it rests
        self._gap = ""  # the gap that the slider is for
        self._can: lines.Verbs = {}  # what may stand in the place of this step
        self._busy = False
        self.strip, self.row, self.picture = Strip(), Row(), Picture()
        self.line = Counting(self)
        self.said = ""
        self.followers: list[Callable[[], None]] = []  # told when another state is shown
        self.locked = False  # nothing is predicted here
        self.seen, self.sentence, self.next = Sentence(), Sentence(), Sentence()
        self.bars, self.slider = Bars(), Slider(stops=[0.0, 1.0])
        self.says, self.code = Says(), Code()
        self.looks = Looks(self._new_look, STEEL)
        self.metal = Choice("The metals as", ["steel", "clay"], value=0)
        self.ends = Choice("Above, the bar's", ["ends", "faces"], value=0)
        self.offer_button = button("", None, "kit-main")
        self.out_button = button("Leave it out", None)
        self.missed_button = button("", None)
        self.buttons = in_a_row()
        self._above = widgets.Box([self.seen, self.next])
        self._above.add_class("kit-lines")
        self._slides = widgets.Box([self.slider, self.out_button])
        self._slides.add_class("kit-slider-row")
        settings = widgets.Box([self.metal, self.ends])
        settings.add_class("kit-bar")
        known = Text(how_known(RESTS))
        self._foot = [settings, self.code, self.looks.note, self.looks, known]

    @property
    def bar(self) -> Billet:
        """What lies on the anvil at the step that is looked at."""
        return self.desk.stage.bar

    @property
    def units(self) -> Units:
        """How lengths are shown."""
        return self.looks.units

    @property
    def as_clay(self) -> bool:
        """Whether the metals are shown as clay."""
        return self.metal.value == 1

    def say(self, sentence: str, *, refused: bool = False) -> None:
        """Write one sentence in the status line, which screen readers read out."""
        self.offer_button.layout.display = "none"  # it belonged to the sentence before
        self.said, self.says.value = sentence, spoken(sentence, refused=refused)

    def show(self, desk: Desk, *, moving: bool) -> None:
        """Draw a state; if it cannot be drawn, nothing is changed.

        Parameters
        ----------
        desk : Desk
        moving : bool
            Whether a quick picture will do until nothing moves; the list's pictures wait.

        Raises
        ------
        KitError
            In one sentence.
        """
        shown = self.drawn(desk, moving=moving)
        if desk.at != self.desk.at:
            self._gap = ""  # that step's main number, not the one of a look chosen before
        self.desk = desk
        self._put(shown, moving=moving)
        self._tell()
        if not moving:
            self._draw_strip()
            self.line.follow()

    def play(self, _button: Any = None) -> None:
        """Show how the bar comes to be, up to the step that is looked at, as a film."""
        if self.desk.at == 0:
            self.say("Nothing was done to this stack yet: go to a later step.")
            return
        playing = Playing(
            self.desk.history,
            self.desk.at,
            units=self.units,
            as_clay=self.as_clay,
            sunlit=self.looks.sunlit,
            look=self.looks.look,
        )
        done = counted(self.desk.at, "step")
        self.say(f"{done}, from the stack to the bar that you look at.")
        film, holds = zip(*playing.played(), strict=True)
        self.picture.film = []  # else the same film is not played a second time
        with self.picture.hold_sync():
            self.picture.film, self.picture.holds = list(film), list(holds)

    def rest(self) -> None:
        """Put the clean picture in place of the quick one, and draw the list's."""
        moved, self._moved = self._moved, ""
        self._put(self.drawn(self.desk), moving=False)
        if moved:  # else all was told when it was shown
            self._tell_strip()
            self._tell_sentences()
            self._tell_slider(lines.numbers(self.desk).get(self._gap))
        self._draw_strip()
        self.line.follow()

    def _new_look(self) -> None:
        self.looks.dress(self)
        self._moved = ""
        self.show(self.desk, moving=False)

    def _put(self, shown: Scene, *, moving: bool) -> None:
        self.shown = shown
        self.line.wait()
        self.picture.lay(shown, moving=moving)

    def drawn(self, desk: Desk, *, moving: bool = False) -> Scene:
        """Draw the stage of a state that is looked at, as this page is lit.

        Half as fine while it moves.
        """
        with half_as_fine() if moving else whole():
            shown = scene(
                desk.stage.bar,
                desk.look,
                self.units,
                as_clay=self.as_clay,
                found=desk.flaws,
                **self.looks.paper,
            )
        return replace(shown, alt=lambda: self._alt(shown, desk))

    @staticmethod
    def _alt(shown: Scene, desk: Desk) -> str:
        """Describe a picture, and what is still open: traced once somebody can read it."""
        still = void.still_open(desk.history, desk.at, desk.at + 1)
        return f"{shown.alt} {still}" if still else shown.alt

    def _draw_strip(self) -> None:
        faces = self.ends.value == 1
        self.row.begin(self.desk.history, faces=faces, as_clay=self.as_clay)
        self.draw_on()

    def draw_on(self) -> None:
        """Draw the list's pictures, for a stretch; then the page asks for the next."""
        if self.row.history is not self.desk.history:
            return  # it is begun anew once nothing moves
        if not self.row.draw(STRETCH):
            self.strip.asked += 1
            return
        with self.strip.hold_sync():
            self.strip.drawn = len(self.desk.history.stages)
            self.strip.sprite = encode(self.row.image)

    def _tell(self) -> None:
        """Write the list, the sentences, the slider, and what the step did."""
        history, at = self.desk.history, self.desk.at
        if not self._moved:  # while a slider moves the list stays, as its pictures do
            self._tell_strip()
        gaps = lines.numbers(self.desk)
        if self._gap not in gaps:
            told = (key for key, one in gaps.items() if one.value is not None)
            self._gap = next(told, "")
        self._tell_sentences()
        self._tell_slider(gaps.get(self._gap))
        missed = at in history.missed
        took = "took after all" if missed else "did not take"
        self.missed_button.description = f"This weld {took}"
        did = does(history, at, self.units, as_clay=self.as_clay)
        weld = "" if self.as_clay else void.told(history, at)
        open_still = void.still_open(history, at, at)
        told = did, open_still, MISSED if missed else weld, self.shown.says
        self.say(" ".join(filter(None, told)))
        middle = [self.bars] if at == 0 and self.desk.motif else []
        main = [self.strip, self.picture, self._above, *middle, self.sentence, self._slides]
        self.children = [*main, self.says, self.offer_button, self.buttons, *self._foot]
        self._show_code()
        for follow in self.followers:
            follow()

    def _tell_strip(self) -> None:
        stages = range(len(self.desk.history.stages))
        with self.strip.hold_sync():
            self.strip.entries = [self._entry(place) for place in stages]
            self.strip.at = self.desk.at

    def _entry(self, at: int) -> dict:
        history = self.desk.history
        stage, missed = history.stages[at], at in history.missed
        says = entry(history, at, self.units)
        return {
            "says": f"{says} {void.HERE}." if missed else says,
            "short": short(history, at),
            "count": "open weld" if missed else brief(stage, self.units),
            "refused": bool(stage.refused),
            "missed": missed,
        }

    def _tell_sentences(self) -> None:
        desk, units = self.desk, self.units
        if not self._moved:  # while a slider moves the lists stay
            self._can = lines.verbs(desk, here=True) if desk.at else {}
            self.next.tell(lines.next_line(lines.verbs(desk, here=False)), self._gap)
        self.seen.tell(lines.look_line(desk, units), self._gap)
        self.sentence.tell(lines.act_line(desk, self._can, units), self._gap)
        if desk.at == 0 and desk.motif:
            metals = clay.to_choose(desk.motif.metals, as_clay=self.as_clay)
            self.bars.tell(desk.motif, units, metals)

    def _tell_slider(self, gap: Gap | None) -> None:
        self._slides.layout.display = "none" if gap is None else ""
        if gap is None:
            return
        self._busy = True
        if gap.value is None:  # left out: what the bar itself has, or least
            held = getattr(self.desk.stage.size, gap.key, gap.low)
            gap = replace(gap, value=float(held))
            self.out_button.layout.display = "none"
        else:
            self.out_button.layout.display = "" if gap.may_be_out else "none"
        with self.slider.hold_sync():
            self.slider.label, self.slider.help = gap.title, gap.meaning
            if self._moved != self._gap:  # while it moves its stops stay
                self.slider.stops = gap.stops(self.units)
            self.slider.value = float(gap.value)
            self.slider.readout = gap.shown(self.units)
        self._busy = False

    def _show_code(self) -> None:
        if self.code.opened:
            first = self.shown.panels[0]
            missed = void.told_of(self.desk.history, self.desk.at)
            left_out = f"# {missed}\n# These lines leave that out.\n" if missed else ""
            self.code.tell(left_out + as_code(first.billet, first.surface))

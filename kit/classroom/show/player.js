/* The player: a bar, its question, its control with a picture at every stop, why.
   It knows no layout. The script of a layout, read after it, gives STATES, ENTER (what each
   state shows), way() (the states in order, of the bar that is shown), said() and say()
   (words in the language that is set), drawn() (a picture in the light that is set). */
const byId = (id) => document.getElementById(id);
const TOLD = JSON.parse(byId("told").textContent);
const SAYS = ["A", "B", "C", "D"];

let state = "";
let piece = 0; // which bar
let chosen = null; // which tile
let visits = 0; // so that the right tile does not always lie in the same place
let seenIt = false; // the slider came to what was asked
let stop = 0; // where the slider is
let past = false; // the finger lets go of the mark: with the next drag it may go on
let beat = 0; // of a talk: which words are shown
const told = () => TOLD.pieces[piece];

function put(img, picture) {
  const source = drawn(picture);
  if (img.src !== source) img.src = source;
}

function describe(element, picture) {
  const words = said(picture.alt);
  if (element.getAttribute("aria-label") !== words) element.setAttribute("aria-label", words);
}

/* ---- the states ---- */

function go(name) {
  state = name;
  document.documentElement.dataset.state = name;
  for (const one of STATES) byId(one).hidden = one !== name;
  ENTER[name]();
}

function next() {
  if (state === "predict" && chosen === null) {
    byId("hint").textContent = say("Choose a picture first.");
    return;
  }
  if (state === "talk" && beat + 1 < beats().length) {
    beat += 1;
    tellBeat();
    return;
  }
  go(way()[(way().indexOf(state) + 1) % way().length]);
}

/* Begin a bar from its start, as if nobody had been here. */
function forget() {
  if (chosen !== null) visits += 1;
  chosen = null;
  seenIt = false;
  past = false;
  stop = 0;
}

/* ---- the big picture: all frames of the bar lie on each other, so none is late ---- */

function layFrames() {
  const strip = byId("strip");
  while (strip.children.length < told().stops.length) {
    strip.append(Object.assign(new Image(), { alt: "", draggable: false }));
  }
  told().stops.forEach((one, at) => put(strip.children[at], one));
}

function showFrame(shown) {
  [...byId("strip").children].forEach(({ style }, at) => {
    style.visibility = at === shown ? "visible" : "hidden";
  });
  describe(byId("stage"), told().stops[shown]);
}

/* ---- predict: the question and its tiles ---- */

function ask() {
  showFrame(0); // the bar as it lies there
  byId("question").textContent = said(told().question);
  byId("tiles").replaceChildren(...told().tiles.map(makeTile));
  markTiles();
  byId("hint").textContent = say("Choose a picture.");
}

/* Which tile lies in a place: they go round by one with every visitor. */
const tileAt = (place) => (place + visits) % told().tiles.length;
const letterOf = (tile) => SAYS.find((_, place) => tileAt(place) === tile);

function makeTile(_, place) {
  const at = tileAt(place);
  const tile = told().tiles[at];
  const button = document.createElement("button");
  button.type = "button";
  button.setAttribute("role", "radio");
  const image = Object.assign(new Image(), { alt: said(tile.alt), draggable: false });
  put(image, tile);
  const letter = document.createElement("span");
  letter.textContent = letterOf(at);
  button.append(letter, image);
  button.addEventListener("click", () => choose(at));
  return button;
}

function choose(at) {
  chosen = at;
  markTiles();
  byId("hint").textContent = say("You chose {letter}.", { letter: letterOf(at) });
  byId("tiles").querySelector('[aria-checked="true"]').focus({ preventScroll: true });
}

function markTiles() {
  [...byId("tiles").children].forEach((tile, place) => {
    tile.setAttribute("aria-checked", tileAt(place) === chosen);
    tile.tabIndex = tileAt(place) === (chosen ?? tileAt(0)) ? 0 : -1;
  });
  byId("show-me").setAttribute("aria-disabled", chosen === null);
}

const verdict = () => (chosen === told().right ? say("✓ You saw it coming.")
  : say("✗ It is {letter}.", { letter: letterOf(told().right) }));

/* ---- observe: the control, and the tile that was chosen beside it ---- */

function observe() {
  const grind = byId("grind");
  byId("slider").textContent = said(told().slider);
  grind.max = told().stops.length - 1;
  byId("grinding").style.setProperty("--asked", told().asked / grind.max);
  const ghost = byId("ghost").querySelector("img");
  put(ghost, told().tiles[chosen]);
  ghost.alt = said(told().tiles[chosen].alt);
  byId("ghost-says").textContent = say("You chose {letter}.", { letter: letterOf(chosen) });
  grindTo(told().start ?? 0);
  grind.focus({ preventScroll: true });
}

/* No finger goes past the mark, where the answer is, before it stopped there. */
function grindTo(at, free = seenIt) {
  const { asked, stops } = told();
  stop = Math.min(free ? stops.length - 1 : asked, Math.max(0, at));
  const here = stops[stop];
  showFrame(stop);
  byId("grind").value = stop;
  byId("grind").setAttribute("aria-valuetext", said(here.says));
  byId("grind").style.setProperty("--done", stop / (stops.length - 1));
  byId("said").textContent = said(here.says);
  seenIt ||= stop === asked;
  // elsewhere than at the mark another tile may look like what is seen
  byId("ghost").style.visibility = stop > asked ? "hidden" : "visible";
  byId("verdict").textContent = !seenIt ? "" : stop === asked ? verdict()
    : say("At the mark it was {letter}.", { letter: letterOf(told().right) });
}

/* A drag that comes to the mark stays there; the next one may go on. */
function watchControl() {
  for (const kind of ["pointerdown", "keydown"]) {
    byId("grind").addEventListener(kind, () => { past = seenIt; });
  }
  byId("grind").addEventListener("input", (event) => grindTo(Number(event.target.value), past));
}

/* ---- a talk: its words, one after another; a question stays above its answer ---- */

const beats = () => told().talk.flatMap((one, at) => [
  { at, before: "", words: one.ask },
  { at, before: one.ask, words: one.say },
  { at, before: "", words: one.clay },
].filter(({ words }) => words));

function tellBeat() {
  const { at, before, words } = beats()[beat];
  showFrame(at);
  byId("before").textContent = before;
  byId("words").textContent = words;
  shrink(byId("words"), byId("talk"));
  byId("words").focus({ preventScroll: true });
}

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
  stop = 0;
}

/* ---- the big picture: all frames of the bar lie on each other, so none is late ---- */

function layFrames() {
  const strip = byId("strip");
  while (strip.children.length < told().stops.length + 1) {
    strip.append(Object.assign(new Image(), { alt: "", draggable: false }));
  }
  put(strip.children[0], told().stops[0]); // the first again, to its left: it may roll
  told().stops.forEach((one, at) => put(strip.children[at + 1], one));
}

function showFrames(from, to = from, mix = 0, turned = 0) {
  const share = (at) => (at !== from && at !== to ? 0 : at === Math.min(from, to) ? 1
    : at === to ? mix : 1 - mix);
  const strip = byId("strip");
  for (let at = 0; at < strip.children.length - 1; at += 1) {
    const shown = share(at);
    const { style } = strip.children[at + 1];
    style.opacity = shown;
    style.visibility = shown ? "visible" : "hidden";
  }
  const rolls = turned && told().roll;
  strip.children[0].style.visibility = rolls ? "visible" : "hidden";
  strip.style.setProperty("--rolled", rolls ? turned / told().roll : 0);
  describe(byId("stage"), told().stops[mix > 0.5 ? to : from]);
}

/* ---- predict: the question and its tiles ---- */

function ask() {
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
  const words = document.createElement("span");
  words.textContent = `${letterOf(at)}  ${said(tile.says)}`.trim();
  button.append(image, words);
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
  const ghost = byId("ghost").querySelector("img");
  put(ghost, told().tiles[chosen]);
  ghost.alt = said(told().tiles[chosen].alt);
  byId("ghost-says").textContent = say("You chose {letter}.", { letter: letterOf(chosen) });
  grindTo(0);
  grind.focus({ preventScroll: true });
}

function grindTo(at) {
  stop = Math.min(told().stops.length - 1, Math.max(0, at));
  const here = told().stops[stop];
  showFrames(stop);
  byId("grind").value = stop;
  byId("grind").setAttribute("aria-valuetext", said(here.says));
  byId("grind").style.setProperty("--done", stop / (told().stops.length - 1));
  byId("said").textContent = said(here.says);
  seenIt ||= stop >= told().asked;
  byId("verdict").textContent = seenIt ? verdict() : "";
}

/* ---- a talk: its words, one after another; a question stays above its answer ---- */

const beats = () => told().talk.flatMap((one, at) => [
  { at, before: "", words: one.ask },
  { at, before: one.ask, words: one.say },
  { at, before: "", words: one.clay },
].filter(({ words }) => words));

function tellBeat() {
  const { at, before, words } = beats()[beat];
  showFrames(at);
  byId("before").textContent = before;
  byId("words").textContent = words;
  shrink(byId("words"), byId("talk"));
  byId("words").focus({ preventScroll: true });
}

/* The player: a bar, its question, its control with a picture at every stop, why; or a bar
   with a talk. It knows no page. The script of a layout, read after it, gives byId() (a part
   of the page), told() (the bar that is shown), STATES (those with a part of their own),
   ENTER (what each state shows), way() (the states of this bar in order), said() and say()
   (words in the language that is set), drawn() (a picture in the light that is set). */
const SAYS = ["A", "B", "C", "D"];
const HELD_BACK = 3000; // ms that it is told

let state = "";
let chosen = null; // which tile
let visits = 0; // so that the right tile does not always lie in the same place
let seenIt = false; // the slider came to what was asked
let stop = 0; // where the slider is
let past = false; // the finger lets go of the mark: with the next drag it may go on
let beat = 0; // of a talk: which words are shown
let passing = 0; // words that go away by themselves

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
  byId("stage").dataset.state = name;
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
    ENTER.talk();
    return;
  }
  go(way()[(way().indexOf(state) + 1) % way().length]);
}

/* In a talk; its first words stay. */
function back() {
  if (!beat) return;
  beat -= 1;
  ENTER.talk();
}

/* Begin a bar from its start, as if nobody had been here. */
function forget() {
  if (chosen !== null) visits += 1;
  chosen = null;
  seenIt = false;
  past = false;
  stop = 0;
  beat = 0;
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
  grind.max = told().stops.length - 1;
  byId("grinding").style.setProperty("--asked", told().asked / grind.max);
  const ghost = byId("ghost").querySelector("img");
  put(ghost, told().tiles[chosen]);
  ghost.alt = said(told().tiles[chosen].alt);
  byId("ghost-says").textContent = say("You chose {letter}.", { letter: letterOf(chosen) });
  grindTo(told().start ?? 0);
  byId("slider").textContent = said(told().slider); // also where it begins at the mark
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
  tellSlider(at > stop && stop === asked);
  // elsewhere than at the mark another tile may look like what is seen
  byId("ghost").style.visibility = stop > asked ? "hidden" : "visible";
  byId("verdict").textContent = !seenIt ? "" : stop === asked ? verdict()
    : say("At the mark it was {letter}.", { letter: letterOf(told().right) });
}

/* Say what to do; that the finger was held back is told while it happens, then no more. */
function tellSlider(heldBack) {
  clearTimeout(passing);
  byId("slider").textContent = heldBack ? say("Stopped at the mark: go on as you like.")
    : seenIt ? say("Go on as you like.") : said(told().slider);
  if (heldBack) passing = setTimeout(tellSlider, HELD_BACK, false);
}

/* A drag that comes to the mark stays there; the next one may go on. */
function watchControl() {
  for (const kind of ["pointerdown", "keydown"]) {
    byId("grind").addEventListener(kind, () => { past = seenIt; });
  }
  byId("grind").addEventListener("input", (event) => grindTo(Number(event.target.value), past));
}

/* ---- a talk: its words, one after another; a question stays above its answer ---- */

const beats = () => told().talk.flatMap((one, at) => ["ask", "say", "clay"]
  .filter((kind) => one[kind])
  .map((kind) => ({ at, kind, before: kind === "say" ? one.ask : "", words: one[kind] })));

function tellBeat() {
  const { at, before, words } = beats()[beat];
  showFrame(at);
  byId("before").textContent = before;
  byId("words").textContent = words;
  shrink(byId("words"), byId("talk"));
}

/* Make letters smaller until what they stand in shows all of them. */
function shrink(element, box) {
  element.style.fontSize = "";
  for (let size = parseFloat(getComputedStyle(element).fontSize); size > 16; size *= 0.95) {
    element.style.fontSize = `${size}px`;
    if (box.scrollHeight <= box.clientHeight && box.scrollWidth <= box.clientWidth) return;
  }
}

/* The show: attract, predict, observe, why, card. Nothing is typed and nothing stored. */
const byId = (id) => document.getElementById(id);
const TOLD = JSON.parse(byId("told").textContent);
const STATES = ["attract", "predict", "observe", "why", "talk", "card"];
const OWN = ["attract", "talk", "card"]; // of a maker's own talk
const SAYS = ["A", "B", "C", "D"];
const TARGET_MOST = 0.2; // of the glass's short side, however it was measured

let state = "attract";
let piece = 0; // which bar
let chosen = null; // which tile
let visits = 0; // so that the right tile does not always lie in the same place
let seenIt = false; // the slider came to what was asked
let stop = 0; // where the slider is
let beat = 0; // of a talk: which words are shown
let began = 0; // when the loop began
let touched = 0; // when somebody last touched
let rows = []; // the lines seen from afar, as rows of words
let coming = 0; // the next picture of the loop, so that there is only one loop
const touches = { count: 0, day: "", since: new Date() };
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const told = () => TOLD.pieces[piece];
const said = (words) => words[settings.language][settings.units];
const drawn = (picture) => picture.seen[settings.theme];
const touchSize = () =>
  Math.min(TOLD.target * dots(), TARGET_MOST * Math.min(innerWidth, innerHeight));

/* Say one of the page's own sentences, its {gaps} filled, in the language that is set. */
function say(english, gaps = {}) {
  const words = TOLD.languages[settings.language].words[english] ?? english;
  return words.replace(/\{(\w+)\}/g, (_, gap) => gaps[gap]);
}

function put(img, picture) {
  const source = drawn(picture);
  if (img.src !== source) img.src = source;
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

function describe(element, picture) {
  const words = said(picture.alt);
  if (element.getAttribute("aria-label") !== words) element.setAttribute("aria-label", words);
}

/* ---- attract ---- */

function fitLines() {
  const box = byId("line").parentElement;
  const pen = document.createElement("canvas").getContext("2d");
  pen.font = `800 100px ${getComputedStyle(byId("line")).fontFamily}`;
  const capital = pen.measureText("H").actualBoundingBoxAscent / 100;
  const [first, last, touch] = told().lines.map(said);
  const lines = [first, told().slider ? said(told().slider) : first, last, say("Why?"), touch]
    .map((line) => line.toLocaleUpperCase(settings.language));
  const wanted = (TOLD.letters.far * dots()) / capital;
  const fit = fitted(lines, 0.94 * box.clientWidth, 0.94 * box.clientHeight, wanted,
    (words) => pen.measureText(words).width / 100);
  rows = fit.rows;
  byId("line").style.fontSize = `${fit.size}px`;
}

function draw() {
  if (state !== "attract") return;
  const now = attractAt((performance.now() - began) / 1000, told().stops.length - 1, calm.matches);
  showFrames(now.from, now.to, now.mix, now.turned);
  const words = rows[now.line].join("\n");
  if (byId("line").textContent !== words) byId("line").textContent = words;
  byId("line").style.opacity = now.clear;
  byId("hand").style.opacity = now.hand;
  byId("hand").style.setProperty("--come", calm.matches ? 1 : now.hand);
  coming = requestAnimationFrame(draw);
}

/* ---- the states ---- */

const ENTER = {
  attract() {
    if (chosen !== null) visits += 1;
    chosen = null;
    seenIt = false;
    stop = 0;
    began = performance.now();
    layFrames();
    fitLines();
    // Every key works without a focus, and passers-by see no frame.
    if (!byId("maker").open) document.activeElement.blur();
    cancelAnimationFrame(coming);
    coming = requestAnimationFrame(draw);
  },
  predict() {
    byId("question").textContent = said(told().question);
    byId("tiles").replaceChildren(...told().tiles.map(makeTile));
    markTiles();
    byId("hint").textContent = say("Choose a picture.");
    shrink(byId("question"), byId("predict"));
    byId("tiles").firstChild.focus({ preventScroll: true });
  },
  observe() {
    const grind = byId("grind");
    byId("slider").textContent = said(told().slider);
    grind.max = told().stops.length - 1;
    const ghost = byId("ghost").querySelector("img");
    put(ghost, told().tiles[chosen]);
    ghost.alt = said(told().tiles[chosen].alt);
    byId("ghost-says").textContent = say("You chose {letter}.", { letter: letterOf(chosen) });
    grindTo(0);
    grind.focus({ preventScroll: true });
  },
  why() {
    showFrames(told().asked);
    byId("found").textContent = verdict();
    byId("number").textContent = said(told().number);
    byId("counts").textContent = said(told().counts);
    byId("because").textContent = said(told().why);
    shrink(byId("because"), byId("why"));
    byId("because").focus({ preventScroll: true });
  },
  talk() {
    beat = 0;
    tellBeat();
  },
  card() {
    byId("bars").replaceChildren(...TOLD.pieces.map(makeBar));
    shrink(byId("take"), byId("card"));
    byId("take").focus({ preventScroll: true });
  },
};

function go(name) {
  state = name;
  document.documentElement.dataset.state = name;
  for (const one of STATES) byId(one).hidden = one !== name;
  ENTER[name]();
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

const verdict = () => (chosen === told().right ? say("✓ You saw it coming.")
  : say("✗ It is {letter}.", { letter: letterOf(told().right) }));

function makeBar(one) {
  const item = document.createElement("li");
  const face = one.stops.at(one.asked ?? -1); // of a talk, the last
  const image = Object.assign(new Image(), { alt: said(face.alt), draggable: false });
  put(image, face);
  const name = document.createElement("span");
  name.textContent = said(one.name);
  item.append(image, name);
  return item;
}

function next() {
  if (state === "predict" && chosen === null) {
    byId("hint").textContent = say("Choose a picture first.");
    return;
  }
  if (state === "card" && settings.recipe === "turn") {
    piece = (piece + 1) % TOLD.pieces.length;
  }
  if (state === "talk" && beat + 1 < beats().length) {
    beat += 1;
    tellBeat();
    return;
  }
  const way = told().talk ? OWN : STATES.filter((one) => one !== "talk");
  go(way[(way.indexOf(state) + 1) % way.length]);
}

/* The words of a talk, one after another: a question stays above its answer. */
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

/* ---- beginning ---- */

/* Words that stand in the page are English there; each keeps its English to start from. */
function translate() {
  document.documentElement.lang = settings.language;
  for (const one of document.querySelectorAll("[data-say]")) {
    one.dataset.say ||= one.textContent;
    one.textContent = say(one.dataset.say);
  }
  for (const one of document.querySelectorAll("[data-label]")) {
    one.dataset.label ||= one.getAttribute("aria-label");
    one.setAttribute("aria-label", say(one.dataset.label));
  }
  for (const one of document.querySelectorAll("[data-bar]")) {
    one.textContent = said(TOLD.pieces[one.dataset.bar].name);
  }
  // what the tick of a chosen tile says stands in the style sheet
  document.documentElement.style.setProperty("--chosen", JSON.stringify(`  ✓ ${say("chosen")}`));
}

function applySettings() {
  const root = document.documentElement;
  root.dataset.theme = settings.theme;
  root.style.setProperty("--mm", `${dots()}px`);
  root.style.setProperty("--touch", `${touchSize()}px`);
  root.style.setProperty("--near", `${TOLD.letters.near * dots()}px`);
  layFrames();
  if (state === "attract") fitLines();
  if (state === "predict") shrink(byId("question"), byId("predict"));
  if (state === "why") shrink(byId("because"), byId("why"));
  if (state === "talk") shrink(byId("words"), byId("talk"));
  if (state === "card") shrink(byId("take"), byId("card"));
}

/* Show what the settings say, from the start. */
function openShow() {
  piece = settings.recipe === "turn" ? 0 : settings.recipe;
  translate();
  applySettings();
  go("attract");
}

function begin() {
  readSettings();
  for (const kind of ["pointerdown", "pointermove", "keydown", "input"]) {
    document.addEventListener(kind, kind === "pointermove" || kind === "input" ? moved : touch, true);
  }
  for (const kind of ["contextmenu", "dragstart", "gesturestart"]) {
    document.addEventListener(kind, (event) => event.preventDefault());
  }
  document.addEventListener("keydown", onKey);
  for (const id of ["start", "show-me", "to-why", "to-card", "to-next", "to-start"]) {
    byId(id).addEventListener("click", next);
  }
  byId("stage").addEventListener("click", () => {
    if (state === "observe") grindTo((stop + 1) % told().stops.length);
  });
  byId("grind").addEventListener("input", (event) => grindTo(Number(event.target.value)));
  addEventListener("resize", applySettings);
  addEventListener("hashchange", () => { readSettings(); openShow(); });
  watchCorners();
  watchMaker();
  setInterval(watchIdle, 250);
  openShow();
  // lines were fitted in other letters, if the page's own are not read yet
  Promise.all([...document.fonts].map((one) => one.load())).then(applySettings);
}

begin();

/* The layout of the tablet: attract, predict, observe, why or talk, card. Nothing is typed
   and nothing stored. */
const STATES = ["attract", "predict", "observe", "why", "talk", "card"];
const OWN = ["attract", "talk", "card"]; // of a maker's own talk
const ASKING = STATES.filter((one) => one !== "talk");
const TARGET_MOST = 0.2; // of the glass's short side, however it was measured

const byId = (id) => document.getElementById(id);
const TOLD = JSON.parse(byId("told").textContent);

let piece = 0; // which bar
let began = 0; // when the loop began
let touched = 0; // when somebody last touched
let rows = []; // the lines seen from afar, as rows of words
let coming = 0; // the next picture of the loop, so that there is only one loop
const touches = { count: 0, day: "", since: new Date() };
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const told = () => TOLD.pieces[piece];
const way = () => (told().talk ? OWN : ASKING);
const said = (words) => words[settings.language][settings.units];
const drawn = (picture) => picture.seen[settings.theme];
const touchSize = () =>
  Math.min(TOLD.target * dots(), TARGET_MOST * Math.min(innerWidth, innerHeight));

/* Say one of the page's own sentences, its {gaps} filled, in the language that is set. */
function say(english, gaps = {}) {
  const words = TOLD.languages[settings.language].words[english] ?? english;
  return words.replace(/\{(\w+)\}/g, (_, gap) => gaps[gap]);
}

/* ---- attract ---- */

function fitLines() {
  const box = byId("line").parentElement;
  const pen = document.createElement("canvas").getContext("2d");
  pen.font = `800 100px ${getComputedStyle(byId("line")).fontFamily}`;
  const capital = pen.measureText("H").actualBoundingBoxAscent / 100;
  const lines = told().lines.map((line) => said(line).toLocaleUpperCase(settings.language));
  const wanted = (TOLD.letters.far * dots()) / capital;
  const fit = fitted(lines, 0.94 * box.clientWidth, 0.94 * box.clientHeight, wanted,
    (words) => pen.measureText(words).width / 100);
  rows = fit.rows;
  byId("line").style.fontSize = `${fit.size}px`;
  const touch = said(told().lines.at(-1));
  byId("touch").textContent = touch;
  const starts = say("Start: cut a bar and see inside");
  byId("start").setAttribute("aria-label", `${touch}. ${starts}`);
}

/* A bar as it is seen before anything is told of it. */
const atRest = (one) => one.rest ?? one.stops[0];

function layBlade() {
  for (const part of byId("knife").querySelectorAll("img")) put(part, atRest(told()));
  describe(byId("knife"), atRest(told()));
}

function draw() {
  if (state !== "attract") return;
  const now = attractAt((performance.now() - began) / 1000, calm.matches);
  const words = rows[now.line].join("\n");
  if (byId("line").textContent !== words) byId("line").textContent = words;
  byId("line").style.opacity = now.clear;
  for (const name of ["hand", "along", "drawn", "apart"]) {
    byId("knife").style.setProperty(`--${name}`, now[name].toFixed(4));
  }
  coming = requestAnimationFrame(draw);
}

/* ---- the states ---- */

const ENTER = {
  attract() {
    forget();
    began = performance.now();
    layFrames();
    layBlade();
    fitLines();
    // Every key works without a focus, and passers-by see no frame.
    if (!byId("maker").open) document.activeElement.blur();
    cancelAnimationFrame(coming);
    coming = requestAnimationFrame(draw);
  },
  predict() {
    ask();
    shrink(byId("question"), byId("predict"));
    byId("tiles").firstChild.focus({ preventScroll: true });
  },
  observe,
  why() {
    showFrame(told().asked);
    byId("found").textContent = verdict();
    byId("number").textContent = said(told().number);
    byId("counts").textContent = said(told().counts);
    byId("because").textContent = said(told().why);
    shrink(byId("because"), byId("why"));
    byId("because").focus({ preventScroll: true });
  },
  talk() {
    tellBeat();
    byId("words").focus({ preventScroll: true });
  },
  card() {
    layCards();
    byId("bars").replaceChildren(...TOLD.pieces.map(makeBar));
    shrink(byId("take"), byId("card"));
    byId("take").focus({ preventScroll: true });
  },
};

function makeBar(one) {
  const item = document.createElement("li");
  const face = atRest(one);
  const image = Object.assign(new Image(), { alt: said(face.alt), draggable: false });
  put(image, face);
  const name = document.createElement("span");
  name.textContent = said(one.name);
  item.append(image, name);
  return item;
}

/* No card is promised where none lies in front of the tablet. */
function layCards() {
  const none = settings.cards === "none";
  byId("take").textContent = none ? say("The bars of this show") : say("TAKE ONE");
  for (const id of ["down", "paper"]) byId(id).toggleAttribute("hidden", none);
}

/* Go on; after the card the next bar has its turn. */
function onward() {
  if (state === "card" && settings.recipe === "turn") {
    piece = (piece + 1) % TOLD.pieces.length;
  }
  next();
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
}

function applySettings() {
  const root = document.documentElement;
  root.dataset.theme = settings.theme;
  root.style.setProperty("--mm", `${dots()}px`);
  root.style.setProperty("--touch", `${touchSize()}px`);
  root.style.setProperty("--near", `${TOLD.letters.near * dots()}px`);
  layFrames();
  layBlade();
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
    byId(id).addEventListener("click", onward);
  }
  byId("stage").addEventListener("click", () => {
    if (state === "observe") grindTo((stop + 1) % told().stops.length);
  });
  watchControl();
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

/* The layout of a telephone: predict, observe, why, check after check, what people ask. */
const byId = (id) => document.getElementById(id);
const TOLD = JSON.parse(byId("told").textContent);
const told = () => TOLD.pieces[0];
const STATES = ["predict", "observe", "why", "check", "card"];
const way = () => STATES;
const said = (words) => words;
const drawn = (picture) => picture.seen;
const say = (english, gaps = {}) => (TOLD.words[english] ?? english)
  .replace(/\{(\w+)\}/g, (_, gap) => gaps[gap]);

let asking = 0; // which check
let tries = []; // of each check
let rights = []; // checks that were answered rightly once
const wrong = new Set(); // reasons that were tried

const ENTER = {
  predict() {
    afresh();
    ask();
    nameTiles();
    byId("question").focus({ preventScroll: true });
  },
  observe() {
    observe();
    tellPlace();
  },
  why() {
    byId("because").focus({ preventScroll: true });
    byId("found-says").textContent = verdict();
    byId("found").textContent = told().verdicts[chosen];
    byId("reasons").replaceChildren(...told().reasons.map(makeReason));
    byId("reason-says").textContent = "";
  },
  check() {
    const check = told().checks[asking];
    byId("asked").textContent = check.ask;
    byId("answer").value = "";
    byId("answer").inputMode = check.whole ? "numeric" : "text";
    byId("unit").replaceChildren(...check.units.map(([name]) => new Option(name, name)));
    byId("unit").hidden = check.units.length < 2;
    tell("", false);
    byId("asked").focus({ preventScroll: true });
  },
  card() {
    byId("visitors").focus({ preventScroll: true });
  },
};

/* Begin as if nobody had been here. */
function afresh() {
  forget();
  wrong.clear();
  asking = 0;
  tries = told().checks.map(() => 0);
  rights = told().checks.map(() => false);
  layFrames();
}

/* Here there is room for what a tile shows in words, too. */
function nameTiles() {
  [...byId("tiles").children].forEach((tile, place) => {
    const words = document.createElement("small");
    words.textContent = told().tiles[tileAt(place)].says;
    tile.append(words);
  });
}

function makeReason([words, right, answer]) {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = words;
  button.setAttribute("aria-pressed", false);
  button.addEventListener("click", () => {
    for (const one of byId("reasons").children) one.setAttribute("aria-pressed", one === button);
    if (!right) wrong.add(words);
    const [many, tried] = told().byTrying;
    const how = right && wrong.size >= many ? `${tried} ` : "";
    byId("reason-says").textContent = `${right ? "✓" : "✗"} ${how}${answer}`;
    byId("reason-says").scrollIntoView({ block: "nearest" });
  });
  return button;
}

function tell(words, right) {
  byId("judged").textContent = words;
  byId("judged").classList.toggle("right", right);
  byId("to-card").classList.toggle("quiet", !right);
}

function answer(event) {
  event.preventDefault();
  const { value } = byId("answer");
  const found = judge(told().checks[asking], value, byId("unit").value, tries[asking],
    rights[asking]);
  tries[asking] = found.tries;
  rights[asking] ||= found.right;
  tell(found.words, found.right);
  byId("judged").scrollIntoView({ block: "nearest" });
}

/* Go on: check after check, then the card. */
function onward() {
  if (state === "check" && asking + 1 < told().checks.length) {
    asking += 1;
    show("check");
  } else {
    const before = state;
    next();
    if (state !== before) arrive();
  }
}

function show(name) {
  go(name);
  arrive();
}

function arrive() {
  byId("stage").hidden = state !== "observe";
  const steps = [...byId("steps").children];
  const at = state === "card" ? steps.length - 1 : STATES.indexOf(state) + asking;
  steps.forEach((one, place) => {
    one.classList.toggle("done", place < at);
    if (place === at) one.setAttribute("aria-current", "step");
    else one.removeAttribute("aria-current");
  });
  scrollTo(0, 0);
}

function tellPlace() {
  const { at, says } = told().stops[stop];
  byId("at").textContent = at;
  byId("grind").setAttribute("aria-valuetext", `${at}. ${says}`);
}

/* Arrows choose among the tiles, as in any group of which one is chosen. */
function onTiles(event) {
  const step = { ArrowLeft: -1, ArrowUp: -1, ArrowRight: 1, ArrowDown: 1 }[event.key];
  if (!step) return;
  event.preventDefault();
  const tiles = [...byId("tiles").children];
  const place = tiles.indexOf(document.activeElement);
  choose(tileAt((place + step + tiles.length) % tiles.length));
}

function begin() {
  for (const id of ["show-me", "to-why", "to-check", "to-card", "to-start"]) {
    byId(id).addEventListener("click", onward);
  }
  byId("tiles").addEventListener("keydown", onTiles);
  byId("answering").addEventListener("submit", answer);
  watchControl();
  byId("grind").addEventListener("input", tellPlace);
  const face = new Image();
  face.onload = () => {
    byId("stage").style.setProperty("--shape", face.width / face.height);
  };
  face.src = drawn(told().stops[0]);
  show(STATES[0]);
}

begin();

// The player's layout for a talk in the lessons: one picture over the whole page, words below
// it. Why a dialog: it lies above all of Lab, holds the keyboard, gives it back where it was.

const STATES = ["talk"];
const NAMES = { ask: "What do you think?", say: "So it is", clay: "Now in clay" };
const KEYS = { ArrowRight: next, PageDown: next, " ": next, Enter: next, ArrowLeft: back, PageUp: back };
const PARTS = `
  <div class="kit-talk-stage" role="img"><div class="kit-talk-strip"></div></div>
  <div class="kit-talk-said" role="status">
    <p class="kit-talk-before"></p><p class="kit-talk-kind"></p><p class="kit-talk-words"></p>
  </div>
  <div class="kit-talk-foot">
    <button class="kit-talk-leave kit-button" type="button">Leave (Esc)</button>
    <span class="kit-talk-count"></span>
    <button class="kit-talk-back kit-button" type="button">◀ Back</button>
    <button class="kit-talk-next kit-button kit-main" type="button"></button>
  </div>`;

let given; // what Python gave
let dialog;
const byId = (name) => (name === "talk" ? dialog : dialog.querySelector(`.kit-talk-${name}`));
const told = () => given.get("piece");
const way = () => ["talk", "over"];
const said = (words) => words;
const drawn = (picture) => picture.seen;

const ENTER = {
  talk() {
    if (!dialog.open) dialog.showModal();
    tellBeat();
    byId("kind").textContent = NAMES[beats()[beat].kind];
    byId("count").textContent = `${beat + 1} of ${beats().length}`;
    byId("next").textContent = beat + 1 < beats().length ? "Next ▶" : "End ▶";
  },
  over() {
    dialog.close();
    given.send({ over: true });
  },
};

function open() {
  if (!told().talk) {
    dialog.close();
    return;
  }
  forget();
  layFrames();
  go("talk");
  byId("next").focus();
}

// Wherever the page below has left the focus, the keys are the talk's while it is open.
function press(event) {
  if (!dialog.open) return;
  event.stopPropagation();
  const act = KEYS[event.key];
  if (!act || event.ctrlKey || event.altKey || event.metaKey) return;
  const pressed = event.target.closest("button");
  if (pressed && pressed !== byId("next") && [" ", "Enter"].includes(event.key)) return;
  event.preventDefault();
  if (!event.repeat) act();
}

function render({ model, el }) {
  given = model;
  dialog = document.createElement("dialog");
  dialog.className = "kit-talk";
  dialog.setAttribute("aria-label", "The talk");
  dialog.innerHTML = PARTS;
  el.append(dialog);
  byId("leave").addEventListener("click", () => go("over"));
  byId("back").addEventListener("click", back);
  byId("next").addEventListener("click", next);
  dialog.addEventListener("cancel", (event) => {
    event.preventDefault();
    go("over");
  });
  addEventListener("keydown", press, true);
  const fit = () => dialog.open && shrink(byId("words"), dialog);
  addEventListener("resize", fit);
  model.on("change:piece", open);
  open();
  return () => {
    removeEventListener("resize", fit);
    removeEventListener("keydown", press, true);
    model.off("change:piece", open);
  };
}

export default { render };

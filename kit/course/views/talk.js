// The talk: one picture over the whole page, and words below it. Why a dialog: it lies
// above all of Lab, holds the keyboard, gives it back where it was, and Esc leaves it.

const NAMES = { ask: "What do you think?", say: "So it is", clay: "Now in clay" };
const ON = ["ArrowRight", "PageDown", " ", "Enter"];
const BACK = ["ArrowLeft", "PageUp"];

function render({ model, el }) {
  const make = (kind, name) => {
    const made = document.createElement(kind);
    made.className = name;
    return made;
  };
  const dialog = make("dialog", "kit-talk");
  dialog.setAttribute("aria-label", "The talk");
  const image = make("img", "kit-talk-picture");
  const before = make("p", "kit-talk-before");
  const kind = make("p", "kit-talk-kind");
  const words = make("p", "kit-talk-words");
  const said = make("div", "kit-talk-said");
  said.setAttribute("role", "status");
  said.append(before, kind, words);
  const foot = make("div", "kit-talk-foot");
  const count = make("span", "kit-talk-count");
  const button = (name, way, look) => {
    const made = make("button", look);
    made.type = "button";
    made.textContent = name;
    made.setAttribute("data-lm-suppress-shortcuts", "true");
    made.addEventListener("click", () => go(way));
    return made;
  };
  const leave = button("Leave (Esc)", 0, "kit-button");
  const back = button("◀ Back", -1, "kit-button");
  const next = button("Next ▶", 1, "kit-button kit-main");
  foot.append(leave, count, back, next);
  dialog.append(image, said, foot);
  el.append(dialog);
  let address;

  function go(way) {
    if (way === 0 && dialog.open) dialog.close(); // also where the kernel is busy
    model.send({ go: way });
  }

  function paint() {
    const bytes = model.get("frame");
    if (!bytes.byteLength) return;
    if (address) URL.revokeObjectURL(address);
    address = URL.createObjectURL(new Blob([bytes]));
    image.src = address;
  }

  function tell() {
    const beat = model.get("beat");
    image.alt = beat.alt ?? "";
    before.textContent = beat.before ?? "";
    before.hidden = !beat.before;
    kind.textContent = NAMES[beat.kind] ?? "";
    words.textContent = beat.words ?? "";
    count.textContent = beat.count ?? "";
    next.textContent = beat.last ? "End ▶" : "Next ▶";
  }

  function open() {
    if (model.get("opened") && !dialog.open) {
      dialog.showModal();
      next.focus();
    } else if (!model.get("opened") && dialog.open) dialog.close();
  }

  dialog.addEventListener("cancel", (event) => {
    event.preventDefault();
    go(0);
  });
  dialog.addEventListener("keydown", (event) => {
    event.stopPropagation();
    if (event.repeat || event.ctrlKey || event.altKey || event.metaKey) return;
    const press = (event.key === " " || event.key === "Enter") && event.target !== next;
    if (press && event.target.matches("button")) return; // that button's own
    if (ON.includes(event.key)) go(1);
    else if (BACK.includes(event.key)) go(-1);
    else return;
    event.preventDefault();
  });

  model.on("change:frame", paint);
  model.on("change:beat", tell);
  model.on("change:opened", open);
  paint();
  tell();
  open();
  return () => URL.revokeObjectURL(address);
}

export default { render };

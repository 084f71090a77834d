// A slider with a name, a place to type an exact value with its unit, and true steps.
// Why not ipywidgets' slider: its handle has no accessible name and it steps evenly,
// while stock comes in sizes (1/16, 3/32, 1/8 in).

function render({ model, el }) {
  const name = document.createElement("span");
  name.className = "kit-name";
  const range = document.createElement("input");
  range.type = "range";
  range.min = 0;
  range.step = 1;
  const typed = document.createElement("input");
  typed.type = "text";
  typed.spellcheck = false;
  typed.autocomplete = "off";
  const head = document.createElement("div");
  head.className = "kit-head";
  head.append(name, typed);
  const group = document.createElement("div");
  group.className = "kit-slider";
  const why = document.createElement("small"); // it is shut
  why.className = "kit-why";
  group.append(head, range, why);
  el.append(group);

  function nearest() {
    const stops = model.get("stops");
    const value = model.get("value");
    let best = 0;
    stops.forEach((stop, index) => {
      if (Math.abs(stop - value) < Math.abs(stops[best] - value)) best = index;
    });
    return best;
  }

  function show() {
    const label = model.get("label");
    const readout = model.get("readout");
    name.textContent = label;
    name.title = model.get("help");
    range.max = model.get("stops").length - 1;
    if (document.activeElement !== range || Number(range.value) !== nearest()) {
      range.value = nearest();
    }
    range.setAttribute("aria-label", label);
    range.setAttribute("aria-valuetext", readout);
    typed.style.setProperty("--letters", readout.length);
    if (document.activeElement !== typed) typed.value = readout;
    typed.setAttribute("aria-label", `${label}, type a value`);
    range.disabled = typed.disabled = model.get("disabled");
    why.textContent = model.get("why");
    range.setAttribute("aria-description", model.get("why"));
    el.classList.toggle("kit-in-line", !model.get("why"));
    group.classList.toggle("kit-cue", model.get("cue"));
    group.classList.toggle("kit-off", model.get("disabled"));
  }

  function move(index) {
    const stops = model.get("stops");
    const kept = Math.min(stops.length - 1, Math.max(0, index));
    range.value = kept;
    model.set("value", stops[kept]);
    model.save_changes();
  }

  function send() {
    if (typed.value !== model.get("readout")) model.send({ typed: typed.value });
  }

  range.addEventListener("input", () => move(Number(range.value)));
  // A finger that began here only to scroll the page leaves the slider where it was.
  let before = null;
  range.addEventListener("pointerdown", () => { before = nearest(); });
  range.addEventListener("pointercancel", () => {
    if (before !== null) move(before);
    before = null;
  });
  range.addEventListener("keydown", (event) => {
    const ten = { PageUp: 10, PageDown: -10 }[event.key];
    if (!ten) return;
    event.preventDefault();
    move(Number(range.value) + ten);
  });
  typed.addEventListener("focus", () => typed.select());
  typed.addEventListener("keydown", (event) => {
    if (event.key === "Enter") {
      // stay here: JupyterLab would take a second Enter for "edit the code"
      event.preventDefault();
      event.stopPropagation();
      send();
    }
    if (event.key === "Escape") {
      // the old value is back, and the keyboard at its slider: the next Escape leaves that
      event.preventDefault();
      event.stopPropagation();
      typed.value = model.get("readout");
      range.focus();
    }
  });
  typed.addEventListener("change", send);
  // the kernel answers a typed value; a refused one gives place to the old
  model.on("msg:custom", () => {
    typed.value = model.get("readout");
    if (document.activeElement === typed) typed.select();
  });
  for (const trait of ["label", "stops", "value", "readout", "help", "disabled", "why", "cue"]) {
    model.on(`change:${trait}`, show);
  }
  show();
}

export default { render };

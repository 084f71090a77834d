// A sentence whose bold words are its controls: a verb or a word to choose is a real
// select, a number a button that brings its slider. It can be read from left to right.

function render({ model, el }) {
  const line = document.createElement("p");
  line.className = "kit-sentence";
  el.append(line);
  let built = "";

  function select(part) {
    const control = document.createElement("select");
    control.setAttribute("aria-label", part.title);
    filled(control, part.groups);
    listened(control, part.acts, () => {
      const wish = control.value;
      control.value = control.kitValue; // the kernel says whether it becomes so
      if (wish !== control.kitValue) model.send({ set: part.key, to: wish });
    });
    return control;
  }

  function number(part) {
    const control = document.createElement("button");
    control.type = "button";
    control.addEventListener("click", () => model.send({ pick: part.key }));
    control.addEventListener("keydown", (event) => {
      const way = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[event.key];
      if (!way) return;
      event.preventDefault();
      model.send({ pick: part.key, way });
    });
    return control;
  }

  function piece(part) {
    if (part.text !== undefined) return document.createTextNode(part.text);
    const told = JSON.stringify([part.key, part.groups]);
    const known = line.querySelector(`[data-kit-key="${part.key}"]`);
    if (known?.kitTold === told) return known;
    const control = part.groups ? select(part) : number(part);
    control.kitTold = told;
    control.dataset.kitKey = part.key;
    control.title = part.help ?? "";
    return control;
  }

  function show() {
    const parts = model.get("parts");
    const shape = JSON.stringify(parts.map((part) => [part.text, part.key, part.groups]));
    const held = document.activeElement?.dataset?.kitKey;
    const mine = line.contains(document.activeElement);
    if (shape !== built) {
      built = shape;
      const all = parts.map(piece);
      [...line.childNodes].forEach((one) => { if (!all.includes(one)) one.remove(); });
      all.forEach((one, at) => { // what stays is never taken out: see list.js
        if (line.childNodes[at] !== one) line.insertBefore(one, line.childNodes[at] ?? null);
      });
    }
    for (const part of parts) {
      if (part.text !== undefined) continue;
      const control = line.querySelector(`[data-kit-key="${part.key}"]`);
      if (part.groups) {
        shownAs(control, part.shown);
        control.style.width = `${part.shown.length * 0.95 + 4}ch`; // as wide as its word
      } else {
        control.textContent = part.shown;
        control.setAttribute("aria-label", `${part.title}: ${part.shown}`);
        control.setAttribute("aria-pressed", part.key === model.get("picked"));
      }
    }
    if (mine && held) line.querySelector(`[data-kit-key="${held}"]`)?.focus();
  }

  for (const trait of ["parts", "picked"]) model.on(`change:${trait}`, show);
  model.on("msg:custom", show); // a wish that was refused: back to what it is
  show();
}

export default { render };

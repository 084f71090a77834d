// The bars of a stack, the lowest first: each with its metal and its thickness; moved by
// dragging its number, or with the arrow keys on it.

function render({ model, el }) {
  const list = document.createElement("ol");
  list.className = "kit-bars";
  list.setAttribute("aria-label", "The bars, the lowest first");
  el.append(list);
  const more = document.createElement("li"); // a place for one bar more
  more.className = "kit-more";
  const add = document.createElement("button");
  add.type = "button";
  add.textContent = "One bar more";
  add.addEventListener("click", () => model.send({ add: true }));
  const sizes = document.createElement("datalist");
  sizes.id = "kit-rack-sizes";
  more.append(add, sizes);
  list.append(more);
  let focus = null;

  function row(place) {
    const item = document.createElement("li");
    const grip = document.createElement("button");
    grip.type = "button";
    grip.className = "kit-grip";
    grip.textContent = `${place + 1}`;
    grip.title = "Drag it, or press an arrow key, to move this bar";
    grip.addEventListener("keydown", (event) => {
      const way = { ArrowLeft: -1, ArrowUp: 1, ArrowRight: 1, ArrowDown: -1 }[event.key];
      if (event.key === "Delete") model.send({ remove: place });
      else if (way) {
        focus = Math.min(model.get("bars").length - 1, Math.max(0, place + way));
        model.send({ move: place, to: place + way });
      } else return;
      event.preventDefault();
    });
    grip.addEventListener("pointerdown", (event) => {
      grip.setPointerCapture(event.pointerId);
      item.classList.add("kit-dragged");
    });
    grip.addEventListener("pointerup", (event) => {
      item.classList.remove("kit-dragged");
      const below = document.elementFromPoint(event.clientX, event.clientY)?.closest("li");
      const to = [...list.children].indexOf(below);
      if (to >= 0 && to < model.get("bars").length && to !== place) model.send({ move: place, to });
    });
    const metal = document.createElement("select");
    metal.setAttribute("aria-label", `Metal of bar ${place + 1}`);
    listened(metal, false, () => {
      if (metal.value !== metal.kitValue) model.send({ bar: place, steel: metal.value });
    });
    const thick = document.createElement("input");
    thick.type = "text";
    thick.setAttribute("list", "kit-rack-sizes");
    thick.setAttribute("aria-label", `Thickness of bar ${place + 1}`);
    const typed = () => {
      if (thick.value === thick.kitValue) return;
      thick.kitValue = thick.value;
      model.send({ bar: place, thickness: thick.value });
    };
    thick.addEventListener("change", typed);
    // Enter that shuts the list of sizes is no change to the browser
    thick.addEventListener("keyup", (event) => { if (event.key === "Enter") typed(); });
    const out = document.createElement("button");
    out.type = "button";
    out.textContent = "✕";
    out.setAttribute("aria-label", `Take bar ${place + 1} away`);
    out.addEventListener("click", () => model.send({ remove: place }));
    item.append(grip, metal, thick, out);
    return item;
  }

  function tell(item, bar, place) {
    const [grip, metal, thick] = item.children;
    grip.setAttribute("aria-label", `Bar ${place + 1}, ${bar.steel}: arrow keys move it`);
    const metals = JSON.stringify(model.get("metals"));
    if (metal.kitTold !== metals) {
      metal.kitTold = metals;
      filled(metal, model.get("metals"));
    }
    shownAs(metal, bar.steel);
    thick.value = thick.kitValue = bar.thickness;
  }

  function build() {
    const bars = model.get("bars"), known = document.activeElement;
    const at = [...list.children].findIndex((item) => item.contains(known));
    const part = at < 0 ? -1 : [...list.children[at].children].indexOf(known);
    while (list.children.length - 1 > bars.length) more.previousSibling.remove();
    while (list.children.length - 1 < bars.length) more.before(row(list.children.length - 1));
    bars.forEach((bar, place) => tell(list.children[place], bar, place));
    sizes.replaceChildren(...model.get("sizes").map((size) => new Option("", size)));
    const place = focus ?? at;
    focus = null;
    if (part >= 0 && known !== add) list.children[Math.min(place, bars.length - 1)].children[part]?.focus();
  }

  for (const trait of ["bars", "sizes", "metals"]) model.on(`change:${trait}`, build);
  model.on("msg:custom", build);
  build();
}

export default { render };

// The history of a bar: a list of steps, each a sentence for those who listen and a small
// picture for those who look. Why not a radio group: steps are also moved and taken out.

function render({ model, el }) {
  const list = document.createElement("ol");
  list.className = "kit-strip";
  list.setAttribute("aria-label", "The history of the bar");
  el.append(list);
  const [wide, high] = model.get("cell");
  let address;

  function paint() {
    if (address) URL.revokeObjectURL(address);
    address = URL.createObjectURL(new Blob([model.get("sprite")]));
    list.style.setProperty("--kit-ends", `url(${address})`);
    cover();
  }

  function cover() { // what is not drawn yet
    [...list.children].forEach((item, place) => {
      item.firstChild.classList.toggle("kit-undrawn", place >= model.get("drawn"));
    });
  }

  function added(place) {
    const step = document.createElement("button");
    step.type = "button";
    for (const name of ["kit-shown", "kit-short", "kit-brief"]) {
      const part = document.createElement("span");
      part.className = name;
      step.append(part);
    }
    step.firstChild.style.width = `${wide}px`;
    step.firstChild.style.height = `${high}px`;
    step.firstChild.style.backgroundPosition = `-${place * wide}px 0`;
    const item = document.createElement("li");
    item.append(step);
    list.append(item);
  }

  function build() {
    const entries = model.get("entries"), many = list.children.length;
    const held = list.contains(document.activeElement);
    const at = Math.min(model.get("at"), entries.length - 1);
    while (list.children.length > entries.length) list.lastChild.remove();
    while (list.children.length < entries.length) added(list.children.length);
    let moved = many !== entries.length;
    entries.forEach((entry, place) => {
      const step = list.children[place].firstChild;
      const told = JSON.stringify(entry), here = place === at;
      if (step.kitTold !== told) { // a long row is told anew, but little in it has changed
        step.kitTold = told;
        step.setAttribute("aria-label", `${place}. ${entry.says}`);
        step.title = entry.says;
        step.children[1].textContent = entry.short;
        step.children[2].textContent = entry.count;
        step.classList.toggle("kit-passed", entry.refused);
        step.classList.toggle("kit-missed", entry.missed);
      }
      step.tabIndex = here ? 0 : -1;
      if (here === step.hasAttribute("aria-current")) return;
      here ? step.setAttribute("aria-current", "step") : step.removeAttribute("aria-current");
      moved = true;
    });
    if (moved) inSight(list.children[at].firstChild, held);
    cover();
  }

  function inSight(step, held) {
    const box = step.getBoundingClientRect(), frame = list.getBoundingClientRect();
    if (box.left < frame.left || box.right > frame.right) {
      list.scrollLeft += box.left - frame.left - frame.width / 2;
    }
    if (held) step.focus({ preventScroll: true });
  }

  const place = (target) => [...list.children].indexOf(target.closest("li"));
  list.addEventListener("click", (event) => {
    if (event.target.closest("button")) model.send({ at: place(event.target) });
  });
  list.addEventListener("keydown", (event) => {
    const way = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    const here = place(event.target);
    if (way && event.altKey) model.send({ move: here, way });
    else if (way) model.send({ at: here + way });
    else if (event.key === "Home") model.send({ at: 0 });
    else if (event.key === "End") model.send({ at: list.children.length - 1 });
    else if (event.key === "Delete") model.send({ remove: here });
    else return;
    event.preventDefault();
  });

  const drawOn = () => { if (model.get("asked")) model.send({ more: true }); };
  for (const trait of ["entries", "at"]) model.on(`change:${trait}`, build);
  model.on("msg:custom", () => list.scrollIntoView({ block: "start" })); // laid on by code
  model.on("change:sprite", paint);
  model.on("change:asked", drawOn);
  build();
  const wider = new ResizeObserver(() => { // put on the page, or the page made narrower
    const step = list.querySelector("[aria-current]");
    if (step) inSight(step, false);
  });
  wider.observe(list);
  paint();
  drawOn();
  return () => {
    wider.disconnect();
    URL.revokeObjectURL(address);
  };
}

export default { render };

// The history of a bar: a list of steps, each a sentence for those who listen and a small
// picture for those who look. Why not a radio group: steps are also moved and taken out.

function render({ model, el }) {
  const list = document.createElement("ol");
  list.className = "kit-strip";
  list.setAttribute("aria-label", "The history of the bar");
  el.append(list);
  let address;

  function paint() {
    const bytes = model.get("sprite");
    if (address) URL.revokeObjectURL(address);
    address = URL.createObjectURL(new Blob([bytes]));
    const [wide, high] = model.get("cell");
    list.querySelectorAll(".kit-shown").forEach((end, place) => {
      end.style.width = `${wide}px`;
      end.style.height = `${high}px`;
      const known = place < model.get("drawn");
      end.style.backgroundImage = known ? `url(${address})` : "none";
      end.style.backgroundPosition = `-${place * wide}px 0`;
    });
  }

  function build() {
    const entries = model.get("entries");
    const held = list.contains(document.activeElement);
    const at = Math.min(model.get("at"), entries.length - 1); // it comes after the entries
    while (list.children.length > entries.length) list.lastChild.remove();
    while (list.children.length < entries.length) {
      const step = document.createElement("button");
      step.type = "button";
      step.setAttribute("data-lm-suppress-shortcuts", "true");
      for (const name of ["kit-shown", "kit-short", "kit-brief"]) {
        const part = document.createElement("span");
        part.className = name;
        step.append(part);
      }
      const item = document.createElement("li");
      item.append(step);
      list.append(item);
    }
    entries.forEach((entry, place) => {
      const step = list.children[place].firstChild;
      step.setAttribute("aria-label", `${place}. ${entry.says}`);
      step.title = entry.says;
      step.children[1].textContent = entry.short;
      step.children[2].textContent = entry.count;
      step.classList.toggle("kit-passed", entry.refused);
      step.classList.toggle("kit-missed", entry.missed);
      const here = place === at;
      here ? step.setAttribute("aria-current", "step") : step.removeAttribute("aria-current");
      step.tabIndex = here ? 0 : -1;
      if (here) {
        const box = step.getBoundingClientRect(), frame = list.getBoundingClientRect();
        if (box.left < frame.left || box.right > frame.right) {
          list.scrollLeft += box.left - frame.left - frame.width / 2;
        }
        if (held) step.focus({ preventScroll: true });
      }
    });
    paint();
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

  for (const trait of ["entries", "at"]) model.on(`change:${trait}`, build);
  model.on("change:sprite", paint);
  build();
  return () => URL.revokeObjectURL(address);
}

export default { render };

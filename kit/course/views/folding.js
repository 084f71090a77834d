// A button that opens and shuts what stands after it in its box, and remembers it while
// the kit runs: on every page alike. Why not `details`: it cannot hold other widgets.

const CHANGED = "kit-fold-changed";

function remembered(label) {
  try {
    return localStorage.getItem(`kit fold ${label}`);
  } catch {
    return null; // the browser keeps nothing
  }
}

function render({ model, el }) {
  const label = model.get("label");
  const press = document.createElement("button");
  press.type = "button";
  press.className = "kit-fold";
  el.append(press);

  function show() {
    const opened = model.get("opened");
    press.setAttribute("aria-expanded", opened);
    press.textContent = `${opened ? "▾" : "▸"} ${label}`;
    el.classList.toggle("kit-shut", !opened);
  }

  function put(opened) {
    if (opened === model.get("opened")) return;
    model.set("opened", opened);
    model.save_changes();
  }

  function follow(event) {
    if (event.detail.label === label) put(event.detail.opened);
  }

  // what is chosen below some buttons is the look of the page around them
  function dress() {
    const page = el.closest(".jp-NotebookPanel");
    for (const [name, on] of Object.entries(model.get("page"))) {
      page?.classList.toggle(`${name}-page`, on);
    }
  }

  press.addEventListener("click", () => {
    const opened = !model.get("opened");
    put(opened);
    try {
      localStorage.setItem(`kit fold ${label}`, opened);
    } catch {
      // it is open or shut all the same
    }
    document.dispatchEvent(new CustomEvent(CHANGED, { detail: { label, opened } }));
  });
  document.addEventListener(CHANGED, follow);
  model.on("change:opened", show);
  model.on("change:page", dress);
  new ResizeObserver(dress).observe(press); // as soon as it stands on its page
  const before = remembered(label);
  if (before) put(before === "true");
  show();
  return () => document.removeEventListener(CHANGED, follow);
}

export default { render };

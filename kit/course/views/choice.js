// One of several: a real radio group, as words in a row or as picture tiles.
// A grid of plain buttons is known to be poor with screen readers.

const HOW = "The arrow keys look; Space or Enter chooses.";
const WAYS = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 };

function render({ model, el }) {
  // every control has its own copy of this file, so a counter would not do
  const group = `kit-choice-${Math.random()}`;
  const set = document.createElement("fieldset");
  set.className = "kit-choice";
  el.append(set);
  el.classList.add("kit-choosing");
  let addresses = [];

  // Where every choice is a try, a key that leads past some of them chooses none of them.
  function look(event) {
    if (!model.get("weighed") || event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key in WAYS) {
      event.preventDefault();
      const all = [...set.querySelectorAll("input")];
      const next = all.indexOf(event.target) + WAYS[event.key];
      all.at(next % all.length).focus();
      tell(HOW);
    } else if (event.key === "Enter") {
      event.target.click();
    }
  }

  function tell(how) {
    const words = model.get("why") || how;
    set.querySelector(".kit-why").textContent = words;
  }

  function build() {
    addresses.forEach((address) => URL.revokeObjectURL(address));
    addresses = [];
    set.replaceChildren();
    const legend = document.createElement("legend");
    legend.textContent = model.get("label");
    set.append(legend);
    const pictures = model.get("pictures");
    const row = document.createElement("div");
    row.className = pictures.length ? "kit-tiles" : "kit-row";
    model.get("options").forEach((words, index) => {
      const radio = document.createElement("input");
      radio.type = "radio";
      radio.name = group;
      radio.setAttribute("data-lm-suppress-shortcuts", "true");
      radio.addEventListener("change", () => {
        model.set("value", index);
        model.save_changes();
      });
      // the notebook may scroll to the whole part afterwards, and past what has the focus
      radio.addEventListener("focus", () => {
        for (const wait of [100, 400]) {
          setTimeout(() => {
            if (document.activeElement === radio) label.scrollIntoView({ block: "nearest" });
          }, wait);
        }
      });
      const text = document.createElement("span");
      text.textContent = words;
      const label = document.createElement("label");
      label.append(radio);
      if (pictures[index]) {
        const image = document.createElement("img");
        const address = URL.createObjectURL(new Blob([pictures[index]]));
        addresses.push(address);
        image.src = address;
        image.alt = model.get("alts")[index] ?? "";
        label.append(image);
      }
      label.append(text);
      row.append(label);
    });
    const why = document.createElement("small"); // it is shut
    why.className = "kit-why";
    set.append(row, why);
    show();
  }

  function show() {
    set.disabled = model.get("disabled");
    tell("");
    const how = model.get("weighed") ? HOW : "";
    set.setAttribute("aria-description", model.get("why") || how);
    set.classList.toggle("kit-cue", model.get("cue"));
    set.querySelectorAll("input").forEach((radio, index) => {
      radio.checked = index === model.get("value");
      radio.parentElement.classList.toggle("kit-chosen", radio.checked);
    });
  }

  for (const trait of ["label", "options", "pictures", "alts"]) {
    model.on(`change:${trait}`, build);
  }
  for (const trait of ["value", "disabled", "why", "cue"]) model.on(`change:${trait}`, show);
  // the keyboard goes on here, at its beginning
  model.on("msg:custom", () => set.querySelector("input")?.focus());
  set.addEventListener("keydown", look);
  build();
}

export default { render };

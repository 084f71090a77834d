// One of several: a real radio group, as words in a row or as picture tiles.
// A grid of plain buttons is known to be poor with screen readers.

function render({ model, el }) {
  // every control has its own copy of this file, so a counter would not do
  const group = `kit-choice-${Math.random()}`;
  const set = document.createElement("fieldset");
  set.className = "kit-choice";
  el.append(set);
  el.classList.add("kit-choosing");
  let addresses = [];

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
    set.querySelector(".kit-why").textContent = model.get("why");
    set.setAttribute("aria-description", model.get("why"));
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
  build();
}

export default { render };

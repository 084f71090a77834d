// What is said at one step: three boxes in a fold. Why not ipywidgets' Textarea: its label
// stands aside, it takes any length, and Enter would begin a line that is never printed.

const BOXES = {
  ask: ["Question to ask", "How many layers are in it now?"],
  say: ["Sentence to say, after the guess", "Twenty: each fold doubles them."],
  clay: ["What the clay does next", "Roll it flat, fold it, press."],
};

function render({ model, el }) {
  const title = document.createElement("summary");
  title.textContent = "What you say here";
  const about = document.createElement("p");
  about.className = "kit-fine";
  const fold = document.createElement("details");
  fold.className = "kit-code kit-words";
  fold.append(title, about);
  el.append(fold);

  const boxes = {};
  for (const [key, [name, sample]] of Object.entries(BOXES)) {
    const label = document.createElement("label");
    const box = document.createElement("textarea");
    box.rows = 2;
    box.placeholder = `for instance: ${sample}`;
    box.maxLength = model.get("most");
    label.append(name, box);
    fold.append(label);
    boxes[key] = box;
    box.addEventListener("change", () => model.send({ set: key, to: box.value }));
    box.addEventListener("keydown", (event) => {
      event.stopPropagation();
      if (event.key !== "Enter") return;
      event.preventDefault();
      const all = Object.values(boxes);
      const next = all[all.indexOf(box) + 1];
      next ? next.focus() : box.blur();
    });
  }

  let at;
  function show() {
    const words = model.get("words");
    const elsewhere = words.at !== at; // else what is being typed is left alone
    at = words.at;
    about.textContent = model.get("about");
    for (const [key, box] of Object.entries(boxes)) {
      const typing = box === document.activeElement && !elsewhere;
      if (!typing && box.value !== words[key]) box.value = words[key] ?? "";
    }
  }
  model.on("change:about", show);
  model.on("change:words", show);
  show();
}

export default { render };

// The code of what is shown: folded, with what changed marked, a button that copies it and
// one that has it read out. Why not an HTML box: copying needs the browser's clipboard.

function render({ model, el }) {
  const title = document.createElement("summary");
  title.textContent = "The code that makes this";
  const lines = document.createElement("pre");
  lines.tabIndex = 0;
  lines.setAttribute("role", "region");
  lines.setAttribute("aria-label", "Python code of this picture");
  const said = document.createElement("span");
  said.setAttribute("role", "status");
  const buttons = document.createElement("div");
  buttons.className = "kit-row-of-buttons";
  const more = document.createElement("details");
  more.className = "kit-code";
  more.append(title, lines, buttons);
  el.append(more);

  function button(words, press) {
    const made = document.createElement("button");
    made.type = "button";
    made.className = "kit-button";
    made.textContent = words;
    made.addEventListener("click", press);
    buttons.append(made);
  }

  async function copy() {
    try {
      await navigator.clipboard.writeText(model.get("text"));
      said.textContent = "Copied.";
    } catch {
      // no clipboard here: choose the lines, so that Ctrl and C takes them
      getSelection().selectAllChildren(lines);
      said.textContent = "Press Ctrl and C to copy what is marked.";
    }
  }
  button("Copy the code", copy);
  button("Read the code out", () => model.send({ event: "read" }));
  buttons.append(said);

  function show() {
    const changed = new Set(model.get("changed"));
    lines.replaceChildren(
      ...model.get("text").split("\n").map((line, number) => {
        const part = document.createElement(changed.has(number) ? "mark" : "span");
        part.textContent = `${line}\n`;
        return part;
      }),
    );
    said.textContent = "";
  }

  more.addEventListener("toggle", () => {
    model.set("opened", more.open);
    model.save_changes();
  });
  more.open = model.get("opened");
  model.on("change:text", show);
  model.on("change:changed", show);
  show();
}

export default { render };

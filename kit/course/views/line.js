// A line across the picture, to count along; Python counts (line.py). Drawn by pointer, or
// by its two ends and the arrow keys. This file is put before picture.js, which uses it.

function countAlong({ model, image, frame, more }) {
  const NEAR = 24; // pixels of the screen: so near, an end is meant
  const DRAG = 6; // less is a click, which moves the nearer end there
  const STEP = 0.005; // of the picture, by an arrow key; with Shift ten times that
  const button = document.createElement("button");
  button.type = "button";
  button.className = "kit-button kit-count";
  const foot = document.createElement("div");
  foot.className = "kit-picture-foot";
  more.replaceWith(foot);
  foot.append(more, button);

  const space = "http://www.w3.org/2000/svg";
  const board = document.createElementNS(space, "svg");
  board.setAttribute("class", "kit-line");
  board.setAttribute("preserveAspectRatio", "none");
  board.setAttribute("aria-hidden", "true");
  // dark below light: seen on either steel, and without colour
  const strokes = ["dark rest", "light rest", "dark", "light"].map((name) => {
    const path = document.createElementNS(space, "path");
    path.setAttribute("class", name);
    board.append(path);
    return path;
  });
  const beside = document.createElement("span");
  beside.className = "kit-beside";
  beside.setAttribute("aria-hidden", "true"); // the status line says it
  const ends = ["First", "Other"].map((name) => {
    const end = document.createElement("span");
    end.className = "kit-end";
    end.tabIndex = 0;
    end.setAttribute("role", "slider");
    end.setAttribute("aria-label", `${name} end of the line`);
    end.setAttribute("aria-description", "Arrow keys move it. Escape puts the line away.");
    return end;
  });
  frame.append(board, beside, ...ends);

  let asked = false; // from here, so that the keyboard goes to the line

  function send(line) {
    model.set("line", line.map((share) => Math.min(1, Math.max(0, share))));
    model.save_changes();
    show();
  }

  function toggle() {
    asked = !model.get("line").length;
    model.send({ event: "count" });
    if (!asked) button.focus();
  }

  function place(event) {
    const box = image.getBoundingClientRect();
    return [(event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height];
  }

  function apart(one, other) {
    const wide = (one[0] - other[0]) * image.clientWidth;
    return Math.hypot(wide, (one[1] - other[1]) * image.clientHeight);
  }

  function withEnd(line, which, spot) {
    return which ? [line[0], line[1], ...spot] : [...spot, line[2], line[3]];
  }

  let drag = null; // where it began, and which end moves: 0, 1, or none yet

  function nearer(spot) {
    const line = model.get("line");
    const far = [line.slice(0, 2), line.slice(2)].map((end) => apart(end, spot));
    const which = far[0] <= far[1] ? 0 : 1;
    return { which, far: far[which] };
  }

  function down(event) {
    if (event.button) return;
    const spot = place(event);
    const near = nearer(spot);
    drag = { from: spot, which: near.far < NEAR ? near.which : null };
    board.setPointerCapture(event.pointerId);
    event.preventDefault();
  }

  function move(event) {
    if (!drag) return;
    const spot = place(event);
    if (!drag.moved && apart(drag.from, spot) < DRAG) return;
    drag.moved = true;
    const line = drag.which === null ? [...drag.from, ...spot] : model.get("line");
    send(withEnd(line, drag.which ?? 1, spot));
  }

  function up(event) {
    if (!drag) return;
    const { which, moved } = drag;
    drag = null;
    const spot = place(event);
    const end = moved ? which ?? 1 : nearer(spot).which;
    if (!moved) send(withEnd(model.get("line"), end, spot));
    ends[end].focus({ preventScroll: true });
  }

  const moves = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  ends.forEach((end, which) => {
    end.addEventListener("keydown", (event) => {
      const by = moves[event.key];
      if (event.key === "Escape") toggle();
      else if (by) {
        const step = STEP * (event.shiftKey ? 10 : 1);
        const line = model.get("line");
        const spot = [0, 1].map((axis) => line[2 * which + axis] + step * by[axis]);
        send(withEnd(line, which, spot));
      } else return;
      event.preventDefault();
      event.stopPropagation();
    });
  });
  board.addEventListener("pointerdown", down);
  board.addEventListener("pointermove", move);
  board.addEventListener("pointerup", up);
  board.addEventListener("pointercancel", () => { drag = null; });
  button.addEventListener("click", toggle);

  function stroke(start, end, ticks) {
    const [wide, high] = [end[0] - start[0], end[1] - start[1]];
    const long = Math.hypot(wide, high) || 1;
    const side = [(-7 * high) / long, (7 * wide) / long];
    const marks = ticks.map((share) => {
      const spot = [start[0] + share * wide, start[1] + share * high];
      return `M${spot[0] - side[0]} ${spot[1] - side[1]}L${spot[0] + side[0]} ${spot[1] + side[1]}`;
    });
    return (from, to) => {
      const ends = [from, to].map((s) => `${start[0] + s * wide} ${start[1] + s * high}`);
      return `M${ends.join("L")}${marks.join("")}`;
    };
  }

  function show() {
    const line = model.get("line");
    const on = line.length === 4;
    button.textContent = on ? "Put the line away (L)" : "Count along a line (L)";
    button.disabled = model.get("shut");
    for (const part of [board, beside, ...ends]) part.style.display = on ? "" : "none";
    if (!on) return;
    const { words = "", from = 0, to = 0, ticks = [] } = model.get("counted");
    const size = [image.naturalWidth || 1, image.naturalHeight || 1];
    board.setAttribute("viewBox", `0 0 ${size.join(" ")}`);
    const [start, end] = [0, 2].map((at) => [line[at] * size[0], line[at + 1] * size[1]]);
    const whole = stroke(start, end, [])(0, 1);
    const part = to > from ? stroke(start, end, ticks)(from, to) : "";
    strokes.forEach((path, index) => path.setAttribute("d", index < 2 ? whole : part));
    ends.forEach((mark, which) => {
      const [x, y] = line.slice(2 * which).map((share) => Math.round(1000 * share) / 10);
      mark.style.left = `${100 * line[2 * which]}%`;
      mark.style.top = `${100 * line[2 * which + 1]}%`;
      mark.setAttribute("aria-valuenow", x);
      mark.setAttribute("aria-valuetext", `${x} % from the left, ${y} % from the top`);
    });
    beside.textContent = words;
    beside.hidden = !words;
    // beside the other end, where the steel ends, too; over or under a line that lies flat
    const steep = Math.abs(end[1] - start[1]) > Math.abs(end[0] - start[0]);
    const down = line[1] + line[3] < 1;
    const level = Math[down ? "max" : "min"](line[1], line[3]);
    const [x, y] = steep ? line.slice(2) : [(line[0] + line[2]) / 2, level];
    beside.style.left = `${100 * x}%`;
    beside.style.top = `${100 * y}%`;
    const away = (steep ? x < 0.5 : down) ? "18px" : "calc(-100% - 18px)"; // to where more room is
    beside.style.transform = steep ? `translate(${away}, -50%)` : `translate(-50%, ${away})`;
  }

  function changed() {
    show();
    if (asked && model.get("line").length) {
      asked = false;
      ends[0].focus();
    }
  }

  image.addEventListener("load", show);
  model.on("change:line", changed);
  model.on("change:counted", show);
  model.on("change:shut", show);
  show();
}


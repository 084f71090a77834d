// The live picture. Why not ipywidgets' Image: it has no alt text, cannot tell where it
// was clicked, and shows every frame it is sent, late ones too. See DEVELOPERS.md.

const REST = 150; // milliseconds without a new frame: the slider has come to rest
const PATIENCE = 600; // milliseconds, at most, from a move to its frame: no rest between
const FILM_STEP = 70; // milliseconds a frame of a short film, where it does not say
const HANDS = ["wheel", "touchmove", "pointerdown", "keydown"]; // what a reader scrolls with
const STILL = 500; // milliseconds: what stands so long is shown to those who want no motion

// Keys pressed on our controls must not reach Lab, where a bare "a" inserts a cell, and
// a few letters are ours. Lab looks for the attribute on the focused element itself.
if (!globalThis.kitKeys) {
  globalThis.kitKeys = true;
  document.addEventListener("focusin", (event) => {
    if (event.target.closest?.(".kit-view")) {
      event.target.setAttribute("data-lm-suppress-shortcuts", "true");
    }
  });
  const buttons = { u: ".kit-undo", r: ".kit-reset", "?": ".kit-read", l: ".kit-count" };
  document.addEventListener("keydown", (event) => {
    const view = event.target.closest?.(".kit-view");
    const typing = event.target.matches?.("input[type=text], textarea, select");
    const wanted = buttons[event.key.toLowerCase()];
    if (view && wanted && !typing && !event.ctrlKey && !event.metaKey && !event.altKey) {
      view.querySelector(wanted)?.click();
      event.preventDefault();
    }
  });
}

function render({ model, el }) {
  const image = document.createElement("img");
  image.tabIndex = 0;
  image.draggable = false;
  const words = document.createElement("p");
  const more = document.createElement("details");
  const title = document.createElement("summary");
  title.textContent = "Describe this picture";
  more.append(title, words);
  const cross = document.createElement("span");
  cross.className = "kit-cross";
  cross.hidden = true;
  const frame = document.createElement("div");
  frame.className = "kit-frame";
  frame.append(image, cross);
  const stay = document.createElement("div"); // in sight beside every control of its card
  stay.className = "kit-stay";
  stay.append(frame);
  const figure = document.createElement("figure");
  figure.className = "kit-picture";
  figure.append(stay, more);
  el.classList.add("kit-pictured");
  el.append(figure);
  const measured = new ResizeObserver(() => {
    const card = el.closest(".kit-sliding > .kit-bench > .kit-pictured:first-child")?.parentElement;
    card?.style.setProperty("--kit-high", `${stay.offsetHeight}px`);
    card?.closest(".jp-OutputArea")?.classList.add("kit-under");
  });
  measured.observe(stay);
  if (model.get("counts")) countAlong({ model, image, frame, more });
  const loupe = model.get("closer") && lookCloser({ model, image, frame });
  image.addEventListener("load", () => {
    frame.style.setProperty("--kit-shape", image.naturalWidth / image.naturalHeight);
    frame.style.setProperty("--kit-wide", `${image.naturalWidth * (quick ? 2 : 1)}px`);
  });

  let timer, film;
  let acted = false; // the reader has, since the film began
  let quick = false; // a JPEG, half as wide and as high as the clean picture, a PNG
  let place = { x: 0.5, y: 0.5 };

  // As text it is shown at once: a Blob is fetched through other processes, for 4 ms.
  function show(frame) {
    const bytes = new Uint8Array(frame.buffer, frame.byteOffset, frame.byteLength);
    quick = bytes[0] !== 0x89;
    let text = "";
    for (let at = 0; at < bytes.length; at += 8192) {
      text += String.fromCharCode(...bytes.subarray(at, at + 8192));
    }
    image.src = `data:image/${quick ? "jpeg" : "png"};base64,${btoa(text)}`;
  }

  function newFrame() {
    const bytes = model.get("frame");
    if (!bytes.byteLength) return;
    clearTimeout(film);
    show(bytes);
    restIn(REST);
  }

  function restIn(ms) {
    clearTimeout(timer);
    if (quick) timer = setTimeout(() => model.send({ event: "rest" }), ms);
  }

  // Who moves a control is not at rest, however slowly its pictures come: a kernel that
  // draws the clean one meanwhile keeps the next move waiting.
  function moving(event) {
    if (el.closest(".kit-view")?.contains(event.target)) restIn(PATIENCE);
  }

  function newFilm() {
    const frames = model.get("film"), holds = model.get("holds");
    const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    const places = [...frames.keys()].filter((at) => !still || holds[at] >= STILL);
    if (!frames.length) return;
    clearTimeout(film);
    acted = false;
    // from the top of its card on, so that its slider and the sentence are seen, too
    const card = el.closest(".kit-view");
    card.scrollIntoView({ block: "start", behavior: still ? "instant" : "smooth" });
    if (!card.contains(document.activeElement)) image.focus({ preventScroll: true });
    const go = () => {
      const at = places.shift();
      if (at === undefined) {
        // what stands above may have grown or gone while the page was scrolled
        if (!acted && document.activeElement === image) card.scrollIntoView({ block: "start" });
        return newFrame();
      }
      show(frames[at]);
      film = setTimeout(go, holds[at] ?? FILM_STEP);
    };
    go();
  }

  function act() {
    acted = true;
  }

  function newWords() {
    image.alt = model.get("alt");
    words.textContent = model.get("alt");
  }

  function lay() {
    cross.style.left = `${100 * place.x}%`;
    cross.style.top = `${100 * place.y}%`;
    cross.hidden = false;
  }

  function point() {
    lay();
    model.send({ event: "point", x: place.x, y: place.y });
  }

  image.addEventListener("click", (event) => {
    const box = image.getBoundingClientRect();
    place = {
      x: (event.clientX - box.left) / box.width,
      y: (event.clientY - box.top) / box.height,
    };
    point();
  });
  const moves = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  image.addEventListener("keydown", (event) => {
    if (loupe && event.key === "Enter") point();
    const move = moves[event.key];
    if (!move) return;
    event.preventDefault();
    const [across, down] = event.shiftKey ? [0.05, 0.05] : (loupe?.step() ?? [0.01, 0.01]);
    place.x = Math.min(1, Math.max(0, place.x + across * move[0]));
    place.y = Math.min(1, Math.max(0, place.y + down * move[1]));
    if (!loupe) return point();
    lay();
    loupe.look(place);
  });

  document.addEventListener("input", moving);
  for (const kind of HANDS) document.addEventListener(kind, act, { passive: true });
  model.on("change:frame", newFrame);
  model.on("change:film", newFilm);
  model.on("change:alt", newWords);
  newWords();
  newFrame();
  return () => {
    clearTimeout(timer);
    clearTimeout(film);
    measured.disconnect();
    document.removeEventListener("input", moving);
    for (const kind of HANDS) document.removeEventListener(kind, act);
  };
}

export default { render };

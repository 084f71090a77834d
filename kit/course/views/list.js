// A list that is gone through by letter or arrow: what is met on the way is not told yet.
// A whole name can be typed so; the list must stay the same element, or the browser
// forgets the letters before.

const KEY_REST = 600; // ms after the last key, ours: then it is meant

// Names to choose from, each list of them below its heading, if it has one
function filled(control, groups) {
  control.replaceChildren();
  for (const [heading, names] of Object.entries(groups)) {
    const home = heading ? document.createElement("optgroup") : control;
    home.append(...names.map((name) => new Option(name)));
    if (heading) home.label = heading;
    if (heading) control.append(home);
  }
}

// `acts`: only Enter, or a choice in the open list, tells it; leaving takes it back
function listened(control, acts, tell) {
  let timer, pressed = 0;
  const send = () => {
    clearTimeout(timer);
    control.kitWalks = false;
    tell();
  };
  const opened = () => { control.kitWalks = false; };
  control.addEventListener("pointerdown", opened);
  control.addEventListener("keydown", (event) => {
    const inName = event.key === " " && control.kitWalks && Date.now() - pressed < 1000;
    pressed = Date.now();
    if (event.key === "Enter" && control.value !== control.kitValue) {
      event.preventDefault();
      event.stopPropagation();
      send();
    } else if (event.altKey || event.key === "Enter" || (event.key === " " && !inName)) opened();
    else if (event.key !== "Tab") {
      control.kitWalks = true;
      clearTimeout(timer); // a letter more, whether it changes the list or not
      if (!acts) timer = setTimeout(send, KEY_REST);
    }
  });
  control.addEventListener("change", () => { if (!control.kitWalks) send(); });
  control.addEventListener("blur", () => {
    if (control.kitWalks && !acts) return send();
    control.kitWalks = false;
    control.value = control.kitValue;
  });
}

// What Python says it is; who goes through the list is not disturbed
function shownAs(control, value) {
  control.kitValue = value;
  if (!control.kitWalks) control.value = value;
}


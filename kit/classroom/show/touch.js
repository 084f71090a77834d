/* Touch, keys, idling: the same few things by finger, number pad and arrows. */

const WARNING = 10; // seconds that "Still there?" stays
const KEYS = {
  ArrowLeft: -1, ArrowUp: -1, Numpad4: -1, Numpad8: -1, Digit4: -1, Digit8: -1,
  ArrowRight: 1, ArrowDown: 1, Numpad6: 1, Numpad2: 1, Digit6: 1, Digit2: 1,
};

function onKey(event) {
  if (byId("maker").open || event.ctrlKey || event.altKey || event.metaKey) return;
  const step = KEYS[event.code];
  const isNext = /^(Numpad)?Enter$/.test(event.code)
    || (event.code === "Space" && state === "attract");
  if (!step && !isNext && !/^(Numpad|Digit)0$/.test(event.code)) return;
  event.preventDefault();
  if (isNext) {
    const tile = [...byId("tiles").children].indexOf(document.activeElement);
    if (event.repeat) return;
    if (state === "predict" && tile >= 0 && tileAt(tile) !== chosen) choose(tileAt(tile));
    else onward();
  } else if (!step) go("attract");
  else if (state === "attract") onward();
  else if (state === "predict") {
    choose(chosen === null ? tileAt(step > 0 ? 0 : 3) : (chosen + step + 4) % 4);
  }
  else if (state === "observe") grindTo(stop + step);
  else if (state === "talk") {
    if (step > 0) onward();
    else back();
  }
}

function touch(event) {
  touched = performance.now();
  if (event.repeat) return;
  const now = new Date();
  if (touches.day !== now.toDateString()) {
    Object.assign(touches, { count: 0, day: now.toDateString(), since: now });
  }
  touches.count += 1;
}

/* A finger that lies on the glass is somebody; a mouse that shakes on its own is not. */
function moved(event) {
  if (event.type === "input" || event.buttons) touched = performance.now();
}

function watchIdle() {
  const away = state === "attract" && !byId("maker").open;
  const left = settings.idle + WARNING - (performance.now() - touched) / 1000;
  byId("still").hidden = away || left > WARNING;
  byId("still").querySelector("span").style.transform = `scaleX(${Math.max(0, left / WARNING)})`;
  if (away || left > 0) return;
  closeMaker();
}


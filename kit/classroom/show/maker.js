/* The maker's corner: settings that live in the page's address, true size, what to check. */
const allowed = () => ({
  theme: ["indoor", "sunlight"], units: ["mm", "inch"], language: Object.keys(TOLD.languages),
  cards: ["table", "none"],
});
const DOTS = [1.5, 30]; // CSS pixels in a mm: a poor projector … a fine telephone
const TEN_INCH = 217; // mm, the long side of a tablet of 10.1 in: taken until measured
const HELD = 3000; // ms

const settings = {};

function readSettings() {
  const asked = new URLSearchParams(location.hash.slice(1));
  const number = (name, low, high, usual) => {
    const value = Number(asked.get(name));
    return value >= low && value <= high ? value : usual;
  };
  for (const [name, values] of Object.entries(allowed())) {
    settings[name] = values.includes(asked.get(name)) ? asked.get(name) : TOLD[name];
  }
  const last = TOLD.pieces.length - 1;
  settings.recipe = asked.has("recipe") ? number("recipe", 0, last, "turn") : "turn";
  if (!Number.isInteger(settings.recipe)) settings.recipe = "turn";
  settings.idle = number("idle", TOLD.idleRange[0], TOLD.idleRange[2], TOLD.idle);
  settings.dots = number("dots", ...DOTS, 0);
}

function keepSettings() {
  const kept = { ...settings, dots: settings.dots ? settings.dots.toFixed(3) : "" };
  const words = new URLSearchParams(Object.entries(kept).filter(([, value]) => value !== ""));
  try {
    history.replaceState(null, "", `#${words}`);
  } catch {
    // Some browsers allow only so many changes a minute; the next one keeps them all.
  }
}

/* How many CSS pixels make a mm on this glass. */
function dots() {
  return settings.dots || Math.max(innerWidth, innerHeight) / TEN_INCH;
}

const allowedDots = (value) => Math.min(DOTS[1], Math.max(DOTS[0], value));

function calibrate(value) {
  settings.dots = allowedDots(value);
  changed();
}

function changed() {
  keepSettings();
  translate();
  applySettings();
  showMaker();
}

function showMaker() {
  for (const name of ["recipe", ...Object.keys(allowed())]) {
    for (const one of document.getElementsByName(name)) {
      one.checked = one.value === String(settings[name]);
    }
  }
  byId("idle").value = settings.idle;
  byId("idle-says").textContent = `${settings.idle} s`;
  byId("card-size").textContent = say(
    "Hold any bank card ({size}) on the outline. Drag the outline's corner, or press − and +, until it fits.",
    { size: said(TOLD.cardSays) },
  );
  byId("unread").hidden = settings.language === "en";
  byId("calibrated").textContent = settings.dots
    ? say("Measured: lengths on this page are true.")
    : say("Not measured yet: taken for a tablet of 10 inches.");
  byId("touches").textContent = say("Touches since {time}: {count}", {
    time: touches.since.toLocaleTimeString(settings.language, { timeStyle: "short" }),
    count: touches.count,
  });
}

function openMaker() {
  if (byId("maker").open) return;
  showMaker();
  byId("maker").showModal();
}

function closeMaker() {
  byId("maker").close();
  go("attract");
}

/* Two fingers on the two top corners, or one key, for three seconds. */
function watchCorners() {
  const fingers = new Map();
  let waiting = 0;
  const let_go = () => { clearTimeout(waiting); waiting = 0; };
  const hold = () => { if (!waiting) waiting = setTimeout(openMaker, HELD); };
  document.addEventListener("pointerdown", (event) => {
    const reach = 1.2 * touchSize();
    if (event.clientY > reach) return;
    if (event.clientX < reach) fingers.set(event.pointerId, "left");
    if (event.clientX > innerWidth - reach) fingers.set(event.pointerId, "right");
    if (new Set(fingers.values()).size === 2) hold();
  });
  for (const end of ["pointerup", "pointercancel"]) {
    document.addEventListener(end, (event) => {
      if (fingers.delete(event.pointerId)) let_go();
    });
  }
  const opens = (event) => /^(Numpad5|Digit5|KeyM)$/.test(event.code);
  document.addEventListener("keydown", (event) => opens(event) && !event.repeat && hold());
  document.addEventListener("keyup", (event) => opens(event) && let_go());
  addEventListener("blur", () => { fingers.clear(); let_go(); });
}

function watchMaker() {
  byId("maker").addEventListener("change", (event) => {
    const { name, value, id } = event.target;
    if (id === "idle") settings.idle = Number(value);
    else settings[name] = name === "recipe" && value !== "turn" ? Number(value) : value;
    changed();
    if (name === "recipe") piece = value === "turn" ? piece : Number(value);
    if (name) go("attract");
  });
  byId("close").addEventListener("click", closeMaker);
  byId("maker").addEventListener("cancel", (event) => { event.preventDefault(); closeMaker(); });
  byId("idle").addEventListener("input", (event) => {
    byId("idle-says").textContent = `${event.target.value} s`;
  });
  byId("smaller").addEventListener("click", () => calibrate(dots() * 0.995));
  byId("larger").addEventListener("click", () => calibrate(dots() * 1.005));
  byId("uncalibrated").addEventListener("click", () => { settings.dots = 0; changed(); });
  const corner = byId("corner");
  corner.addEventListener("pointerdown", (event) => corner.setPointerCapture(event.pointerId));
  corner.addEventListener("pointermove", (event) => {
    if (!corner.hasPointerCapture(event.pointerId)) return;
    const left = byId("outline").getBoundingClientRect().left;
    settings.dots = allowedDots((event.clientX - left) / TOLD.card[0]);
    applySettings();
  });
  corner.addEventListener("pointerup", changed);
}

// A sentence that screen readers speak. Why not an HTML box: it puts a new line in place of
// the old one, and they speak a line that was there before; and while a slider moves, all
// its sentences would be waiting to be spoken.

const REST = 500; // ms without another sentence
const NOTICED = 100; // ms, in which a browser notices that the line is to be spoken again

function render({ model, el }) {
  el.setAttribute("role", "status");
  el.setAttribute("aria-live", "polite");
  let rest;

  function speak() {
    el.querySelector(".kit-refused")?.scrollIntoView({ block: "nearest" });
    el.setAttribute("aria-live", "polite");
    rest = setTimeout(() => {
      const words = el.querySelector("p");
      words?.replaceWith(words.cloneNode(true)); // now it is new in a line that is spoken
    }, NOTICED);
  }

  model.on("change:value", () => {
    clearTimeout(rest);
    el.setAttribute("aria-live", "off");
    el.innerHTML = model.get("value");
    rest = setTimeout(speak, REST);
  });
  el.innerHTML = model.get("value");
}

export default { render };

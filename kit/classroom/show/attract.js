/* What is seen while nobody touches: a loop of 24 seconds whose end is its beginning. */
const LOOP = 24; // seconds
const WORDS = [[0, 4], [4, 12], [12, 16], [16, 20], [20, 24]]; // seconds each line is shown
const FADE = 0.6; // seconds a line takes to come and to go
const STILLS = [[0, 0], [4, 0.5], [12, 1], [20, 0]]; // second, share of the way in
const STILL_FADE = 1.5; // seconds from still to still

const eased = (share) => 0.5 - 0.5 * Math.cos(Math.PI * Math.min(1, Math.max(0, share)));

/* Say what to show at a second of the loop: two frames and how far the second covers the
   first, which line and how clearly, how far the bar has turned (1: it looks as before),
   how far the hand has come. `last`: the number of the last frame. `still`: no movement,
   only stills that turn into each other. */
function attractAt(seconds, last, still) {
  const t = seconds % LOOP;
  const line = WORDS.findIndex(([, end]) => t < end);
  const [from, end] = WORDS[line];
  const clear = Math.min(1, (t - from) / FADE, (end - t) / FADE);
  const seen = still ? stillAt(t, last) : movedAt(t, last);
  return { ...seen, line, clear, hand: t < 20 ? 0 : eased((t - 20) / 2) };
}

function movedAt(t, last) {
  const deep = t < 20 ? eased((t - 4) / 8) : 1 - eased((t - 20) / 4);
  const from = Math.min(last - 1, Math.floor(deep * last));
  return { from, to: from + 1, mix: deep * last - from, turned: t < 4 ? eased(t / 4) : 0 };
}

function stillAt(t, last) {
  const at = STILLS.filter(([second]) => t >= second).length - 1;
  const before = STILLS[(at + STILLS.length - 1) % STILLS.length];
  const frame = ([, share]) => Math.round(share * last);
  const mix = Math.min(1, (t - STILLS[at][0]) / STILL_FADE);
  return { from: frame(before), to: frame(STILLS[at]), mix, turned: 0 };
}

/* Find the largest letters in which every line fits a box, on one row or on two.
   `widthOf`: width of some words in letters of size 1. Gives the size and the rows. */
function fitted(lines, wide, high, wanted, widthOf) {
  const ROW = 1.08; // height of a row of letters of size 1
  const one = (words) => Math.min(wide / widthOf(words), high / ROW);
  const ways = lines.map((words) => {
    const parts = words.split(" ");
    const pairs = parts.slice(1).map((_, at) => [
      parts.slice(0, at + 1).join(" "), parts.slice(at + 1).join(" "),
    ]);
    const sizes = pairs.map((pair) => Math.min(...pair.map(one), high / ROW / 2));
    const best = Math.max(0, ...sizes);
    return { words, one: one(words), two: best, pair: pairs[sizes.indexOf(best)] };
  });
  const size = Math.min(wanted, ...ways.map((way) => Math.max(way.one, way.two)));
  return { size, rows: ways.map((way) => (way.one >= size ? [way.words] : way.pair)) };
}

/* Make letters smaller until what they stand in shows all of them. */
function shrink(element, box) {
  element.style.fontSize = "";
  for (let size = parseFloat(getComputedStyle(element).fontSize); size > 16; size *= 0.95) {
    element.style.fontSize = `${size}px`;
    if (box.scrollHeight <= box.clientHeight && box.scrollWidth <= box.clientWidth) return;
  }
}

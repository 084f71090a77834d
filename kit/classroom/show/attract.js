/* What is seen while nobody touches: a blade, and a hand that draws a cut through it; a loop
   whose end is its beginning. */
const LINE = 5; // seconds each line is shown
const FADE = 0.6; // seconds a line takes to come and to go

const eased = (share) => 0.5 - 0.5 * Math.cos(Math.PI * Math.min(1, Math.max(0, share)));
/* Say how far something has come between two seconds, and gone again by two others. */
const between = (t, from, to) => eased((t - from) / (to - from));

/* Say what to show at a second of the loop: which line and how clearly; how much of the
   hand is there, how far along the cut it is, how much of the cut is drawn, how far the
   blade has come apart. `still`: no movement. */
function attractAt(seconds, still) {
  const t = seconds % (3 * LINE);
  const line = Math.floor(t / LINE);
  const clear = Math.min(1, (t % LINE) / FADE, (LINE - (t % LINE)) / FADE);
  if (still) return { line, clear, hand: 1, along: 0.6, drawn: 1, apart: 1 };
  const tap = t < 11 ? 0 : 0.05 * Math.sin(Math.PI * (t - 11)) ** 2;
  return {
    line,
    clear,
    hand: between(t, 3, 4) - between(t, 14, 15),
    along: between(t, 4.5, 7.5) - 0.4 * between(t, 8, 10) - tap,
    drawn: between(t, 4.5, 7.5) - between(t, 14.6, 15),
    apart: between(t, 7.5, 8.5) - between(t, 13.8, 14.6),
  };
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

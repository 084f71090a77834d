/* Judge a typed answer by what the answer engine said of every number, and say what helps. */
const TYPED = /^([+-]?)\s*(?:(?:(\d+)[\s-]+)?(\d+)\s*\/\s*(\d*[1-9]\d*)|(\d+(?:[.,]\d*)?|[.,]\d+))\s*(\D*)$/;
const WHOLE = /^(\d+|\d{1,3}([ ,'_])\d{3}(?:\2\d{3})*)(?:\.0*)?$/;

/* Read a number, and a unit if one is typed behind it; NaN if it is neither. */
function readAnswer(check, text, unit) {
  const plain = text.replaceAll("−", "-").replaceAll("–", "-").trim();
  if (check.whole) {
    const found = WHOLE.exec(plain);
    return found ? Number(found[1].replace(/\D/g, "")) : NaN;
  }
  const found = TYPED.exec(plain);
  if (!found) return NaN;
  const [, sign, whole, top, bottom, decimal, named] = found;
  const wanted = named.trim() || unit;
  const [, size] = check.units.find(([name]) => name === wanted) ?? ["", NaN];
  const number = decimal ? Number(decimal.replace(",", "."))
    : Number(whole ?? 0) + Number(top) / Number(bottom);
  return (sign === "-" ? -number : number) * size;
}

/* Say what an answer is: { words, right }; `tries` is null where it is no answer at all. */
function judge(check, text, unit, tries, stands) {
  if (!text.trim()) return { words: check.nothing, right: false, tries };
  const answer = readAnswer(check, text, unit);
  if (Number.isNaN(answer)) {
    return { words: check.unread.replace("?", text.trim()), right: false, tries };
  }
  const zone = check.zones.find(([low, high]) => low <= answer && answer <= high);
  const told = zone ? check.says[zone[2]] : check.else;
  const typed = /\d\s*[^\d\s.,/]+$/.test(text.trim()) ? text.trim() : `${text.trim()} ${unit}`;
  const cause = told.words.replace("{read}", typed.trim());
  if (told.right) return { words: `✓ ${cause}`, right: true, tries: tries + 1 };
  const first = stands ? check.notThis : check.notYet;
  const last = stands ? ` ${check.stands}` : "";
  const example = !stands && tries + 1 >= check.exampleFrom ? `\n${check.example}` : "";
  return { words: `✗ ${first} ${cause}${last}${example}`, right: false, tries: tries + 1 };
}

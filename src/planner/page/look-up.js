/** Finding a thing while its name is being typed: every word must be in a name, a synonym or what it mends; near misses last. */

/** @typedef {import("./types.js").Item} Item */

/** @type {WeakMap<Item, {names: string, more: string}>} */
const texts = new WeakMap();

/** @param {string} text */
const bare = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replaceAll("ß", "ss").replace(/[^a-z0-9]+/g, " ").trim();

/** @param {Item} item */
function text(item) {
  let known = texts.get(item);
  if (!known) texts.set(item, (known = { names: ` ${bare(`${item.name} ${item.short} ${(item.also ?? []).join(" ")}`)}`, more: ` ${bare(`${(item.mends ?? []).join(" ")} ${item.kind}`)}` }));
  return known;
}

/**
 * Things that fit what was typed, the best first.
 * @param {Iterable<Item>} items
 * @param {string} typed
 * @param {number} most
 */
export function lookUp(items, typed, most) {
  const words = bare(typed).split(" ").filter(Boolean);
  if (!words.length) return [];
  /** @type {[number, Item][]} */
  const found = [];
  for (const item of items) {
    let score = 0;
    const { names, more } = text(item);
    for (const word of words) {
      const at = names.indexOf(` ${word}`);
      if (at >= 0) score += at === 0 ? 4 : 3;
      else if (names.includes(word)) score += 2;
      else if (more.includes(` ${word}`)) score += 1;
      else if (word.length > 3 && names.split(" ").some((each) => near(each, word))) score += 0.5;
      else score = -Infinity;
    }
    if (score > 0) found.push([score - item.name.length / 1000, item]);
  }
  return found.sort((a, b) => b[0] - a[0]).slice(0, most).map(([, item]) => item);
}

/** One letter wrong, missing, too many, or two swapped. @param {string} a @param {string} b */
function near(a, b) {
  if (Math.abs(a.length - b.length) > 1) return false;
  let k = 0;
  while (k < a.length && a[k] === b[k]) k++;
  const [x, y] = [a.slice(k), b.slice(k)];
  return x.slice(1) === y.slice(1) || x.slice(1) === y || x === y.slice(1) || (x[0] === y[1] && x[1] === y[0] && x.slice(2) === y.slice(2));
}

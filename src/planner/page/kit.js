/** Answers of `pack` and of `split`, seen as one thing: riders with bags with things in them. */

/** @typedef {import("./types.js").Carrier} Carrier */

/** @type {WeakMap<object, Map<string, Carrier[]>>} */
const seen = new WeakMap();

/**
 * Riders of an answer, with things moved by hand where they were moved to.
 * @param {any} answer
 * @param {{item: string, from: string, to: string}[]} [moved]
 * @returns {Carrier[]}
 */
export function carriers(answer, moved = []) {
  if (!answer) return [];
  const key = JSON.stringify(moved);
  let known = seen.get(answer);
  if (!known) seen.set(answer, (known = new Map()));
  let all = known.get(key);
  if (!all) known.set(key, (all = moved.reduce(withMove, read(answer))));
  return all;
}

/** @param {any} answer @returns {Carrier[]} */
function read(answer) {
  if (Array.isArray(answer.riders)) {
    return answer.riders.map((/** @type {any} */ one) => ({
      name: one.rider, bike: one.bike, mass_g: one.mass_g, limit_g: one.mass_limit_g ?? null, share_g: one.fair_share_g,
      bags: one.bags, load: one.load,
    }));
  }
  const total = answer.totals;
  return [{
    name: answer.rider, bike: answer.bike, mass_g: total.mass_g, limit_g: total.mass_limit_g ?? null, bags: answer.bags,
    load: answer.loads?.[0] ?? null,
  }];
}

/** @param {Carrier[]} all @param {{item: string, from: string, to: string}} move @returns {Carrier[]} */
function withMove(all, move) {
  const from = all.find((one) => one.name === move.from);
  const to = all.find((one) => one.name === move.to);
  const place = from?.bags.find((bag) => bag.items.some((item) => item.id === move.item));
  const item = place?.items.find((each) => each.id === move.item);
  if (!from || !to || !place || !item) return all;
  const into = roomiest(to.bags, item);
  if (!into) return all;
  return all.map((one) => {
    if (one !== from && one !== to) return one;
    const sign = one === to ? 1 : -1;
    const bags = one.bags.map((bag) => {
      if (bag !== (one === to ? into : place)) return bag;
      const items = one === to ? [...bag.items, { ...item, moved: true }] : bag.items.filter((each) => each !== item);
      return { ...bag, items, mass_g: bag.mass_g + sign * item.mass_g, filled_ml: bag.filled_ml + sign * item.volume_ml };
    });
    return { ...one, bags, mass_g: one.mass_g + sign * item.mass_g };
  });
}

/** The bag with most room to spare. @param {import("./types.js").PackedBag[]} bags @param {import("./types.js").Packed} item */
function roomiest(bags, item) {
  const spare = (/** @type {import("./types.js").PackedBag} */ bag) => bag.usable_ml - bag.filled_ml - item.volume_ml;
  return [...bags].filter((bag) => !/fuel|bottle/.test(bag.id)).sort((a, b) => spare(b) - spare(a))[0] ?? bags[0];
}

/** Everything in the kit, id to count. @param {any} answer @param {string | null} [rider] @returns {import("./types.js").Counts} */
export function kit(answer, rider = null) {
  /** @type {import("./types.js").Counts} */
  const all = {};
  for (const one of carriers(answer)) {
    if (rider && one.name !== rider) continue;
    for (const bag of one.bags) for (const item of bag.items) all[item.id] = (all[item.id] ?? 0) + item.count;
  }
  return all;
}

/** Where a thing is. @param {any} answer @param {string} id */
export function find(answer, id) {
  for (const one of carriers(answer)) {
    for (const bag of one.bags) {
      const item = bag.items.find((each) => each.id === id);
      if (item) return { rider: one, bag, item };
    }
  }
  return null;
}

/** Hours lost with the kit. @param {any} figures */
export const lost = (figures) =>
  figures.hours_lost_with_kit ?? figures.hours_lost_empty - figures.hours_saved + (figures.hours_handling ?? 0);

/** The chance of riding home, at least, or null where nobody worked it out. @param {any} figures */
export const home = (figures) => figures.self_recovery_at_least ?? figures.self_recovery?.mean ?? null;

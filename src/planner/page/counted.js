/** Names with counts: the files have them as a list, each mention counting one, or as a map. */

/**
 * @param {unknown} value
 * @returns {import("./types.js").Counts}
 */
export function counts(value) {
  /** @type {import("./types.js").Counts} */
  const all = {};
  if (Array.isArray(value)) for (const id of value) all[id] = (all[id] ?? 0) + 1;
  else if (value && typeof value === "object") for (const [id, count] of Object.entries(value)) all[id] = Number(count) || 0;
  return all;
}

/**
 * The same file value with one count changed; a list stays a list where each name is there once.
 * @param {unknown} value
 * @param {string} id
 * @param {number} count
 */
export function counted(value, id, count) {
  const all = counts(value);
  if (count > 0) all[id] = count;
  else delete all[id];
  if (Array.isArray(value) && Object.values(all).every((each) => each === 1)) return Object.keys(all);
  return all;
}

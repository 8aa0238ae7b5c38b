/** The calls of `INTERFACE.md` as functions, with their answers in the shapes that the page uses. */

import { host } from "./host.js";

/** @param {any} bike */
const bike = (bike) => ({ ...bike, rider_x_mm: bike.rider_ahead_mm ?? bike.rider_x_mm ?? 500 });

/** Everything that the page shows of the catalogue. @returns {Promise<import("./types.js").Catalogue>} */
export async function catalogue() {
  const told = await host.call("catalogue", {});
  const systems = [...new Set(told.failures.map((/** @type {any} */ failure) => failure.system))];
  return {
    ...told,
    bikes: told.bikes.map(bike),
    items: told.items.map((/** @type {any} */ item) => ({ ...item, short: item.short ?? item.name, also: item.also ?? [] })),
    systems: told.systems ?? systems.map((id) => ({ id, name: id })),
  };
}

/** A text as a tree. @param {string} name @param {string} text @returns {Promise<{kind: string, tree: any, text: string}>} */
export async function read(name, text) {
  const told = await host.call("read", { name, text });
  return { kind: told.kind, tree: told.tree ?? told.scenario ?? null, text };
}

/** A tree as the text of a file. @param {import("./types.js").Tree} scenario @returns {Promise<string>} */
export const write = async (scenario) => (await host.call("write", { scenario })).text;

/** A trip from five answers. @param {object} answers @returns {Promise<import("./types.js").Tree>} */
export const start = async (answers) => (await host.call("start", answers)).scenario;

/** Lines of a list, with what each is taken for. @param {string} rows @returns {Promise<any[]>} */
export async function match(rows) {
  const told = await host.call("match", { rows });
  return told.lines ?? told.rows ?? [];
}

/** Needs of each rider out of the answer of `check`. @param {any} check @returns {{rider: string, needs: any[]}[]} */
export function needs(check) {
  if (!check) return [];
  if (Array.isArray(check.riders)) return check.riders;
  return [{ rider: "", needs: check.needs ?? [] }];
}

/** Entries by name or synonym. @param {string} word @returns {Promise<{sort: string, id: string, name: string}[]>} */
export const find = async (word) => (await host.call("find", { word })).hits ?? [];

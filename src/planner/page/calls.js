/** The calls of `INTERFACE.md` as functions, with their answers in the shapes that the page uses. */

import { host } from "./host.js";
import { language } from "./say.js";

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
    signs: await signs(told),
  };
}

/** What a failure is called in English, with its system: signs at the trackside are words of it. @param {any} told @returns {Promise<Map<string, string>>} */
async function signs(told) {
  const { failures } = language === "en" ? told : await host.call("catalogue", { language: "en" });
  return new Map(failures.map((/** @type {any} */ failure) => [failure.id, `${failure.name} ${failure.system}`.toLowerCase()]));
}

/** A text as a tree. @param {string} name @param {string} text @returns {Promise<{kind: string, tree: any, text: string}>} */
export async function read(name, text) {
  const told = await host.call("read", { name, text });
  return { kind: told.kind, tree: told.tree ?? told.scenario ?? null, text };
}

/** A tree as the text of a file. @param {import("./types.js").Tree} scenario @returns {Promise<string>} */
export const write = async (scenario) => (await host.call("write", { scenario })).text;

/** Files of the folder that the program was given, or null where there is none. @returns {Promise<{name: string, kind: string}[] | null>} */
export async function folder() {
  if (host.sort !== "http") return null;
  return host.call("files", {}).catch(() => null);
}

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

/** Figures of a kit as they stand in an answer: what the kit takes beside what it may take. @param {any} told the answer of `evaluate` */
export function weighed({ figures, limits }) {
  const { terms } = figures;
  return {
    figures: { ...figures, hours_handling: (terms?.riding_h ?? 0) + (terms?.falls_h ?? 0) },
    totals: { mass_g: figures.mass_g, volume_ml: figures.volume_ml, to_buy: figures.to_buy, units: figures.units, mass_limit_g: limits.mass_g, room_ml: limits.room_ml, budget: limits.budget, currency: limits.currency },
    breaks: figures.breaks ?? [],
  };
}

/** How many of the small units of a point go into one of an answer: mg in g, µL in mL, hundredths. @type {Record<string, number>} */
const SMALL = { mass: 1000, volume: 1000, money: 100 };
/** @type {Record<string, string>} */
const TAKES = { mass: "mass_g", volume: "volume_ml", money: "to_buy" };

/** @typedef {{limit: number, used: number, lost: number, mass_g: number, home: number | null}} Point a limit and the best kit under it */

/** A point while a curve is drawn. @param {any} point @param {string} over @returns {Point | null} */
export function early(point, over) {
  const { figures } = point.standing ?? {};
  if (!figures || figures.breaks?.length) return null;
  return { limit: point.limit / SMALL[over], used: figures[TAKES[over]], lost: figures.hours_lost_with_kit, mass_g: figures.mass_g, home: figures.self_recovery_at_least ?? null };
}

/** Points of a whole curve. @param {any} curve @param {number} empty hours lost with nothing aboard @returns {Point[]} */
export const points = (curve, empty) => curve.points.map((/** @type {any} */ point) => ({
  limit: point.limit, used: point.used, lost: empty - point.hours_saved + point.hours_handling, mass_g: point.mass_g, home: point.self_recovery ?? null,
}));

/** Entries by name or synonym. @param {string} word @returns {Promise<{sort: string, id: string, name: string}[]>} */
export const find = async (word) => (await host.call("find", { text: word })).hits ?? [];

/** What a rider has at home: counts under `owns`, and masses from the rider's own scale under the trip's own entries. */

import { counted, counts } from "./counted.js";
import * as units from "./units.js";

/** @typedef {import("./types.js").Tree} Tree */

/** What a thing fills, in millilitres a gram, where nobody measured it. From memory: loosely packed things of each kind. */
const ROOM = { clothing: 4, sleep: 4, shelter: 2.5, tool: 0.6, spare: 1.2, food: 2, water: 1.05 };
/** The same for everything else. */
const ROOM_ELSE = 2;

/** @param {Tree} rider */
export const owned = (rider) => counts(rider.owns);

/** @param {Tree} rider @param {string} id @param {number} count */
export function own(rider, id, count) {
  rider.owns = counted(rider.owns ?? {}, id, count);
}

/** Own mass of a thing, in grams, or null. @param {Tree} scenario @param {string} id */
export const weighed = (scenario, id) => units.read(scenario.catalogue?.items?.[id]?.mass, "mass");

/**
 * Takes down what the scale said. Null takes it back.
 * @param {Tree} scenario
 * @param {string} id
 * @param {number | null} grams
 */
export function weigh(scenario, id, grams) {
  const entry = scenario.catalogue?.items?.[id];
  if (grams === null) {
    if (!entry || entry.like !== id) return;
    delete entry.mass;
    if (Object.keys(entry).every((key) => key === "like" || key === "basis")) delete scenario.catalogue.items[id];
    tidy(scenario);
    return;
  }
  const items = ((scenario.catalogue ??= {}).items ??= {});
  items[id] = { ...(entry ?? { like: id }), mass: units.mass(grams), basis: "measured; kitchen scale" };
}

/**
 * A thing that no catalogue has. It mends nothing, so it only comes along when it is always to come.
 * @param {Tree} scenario
 * @param {{name: string, mass_g: number, volume_ml?: number, kind?: string, price?: number}} thing
 * @param {string} currency
 * @returns {string} its id
 */
export function invent(scenario, thing, currency) {
  const items = ((scenario.catalogue ??= {}).items ??= {});
  const kind = thing.kind ?? "comfort";
  const guessed = !thing.volume_ml;
  const volume = thing.volume_ml ?? Math.max(5, thing.mass_g * (/** @type {any} */ (ROOM)[kind] ?? ROOM_ELSE));
  const id = freeId(thing.name, (taken) => taken in items);
  items[id] = {
    name: thing.name,
    kind,
    mass: units.mass(thing.mass_g),
    volume: units.volume(volume),
    longest: units.length(Math.min(300, 10 * Math.cbrt(volume))),
    price: units.money(thing.price ?? 0, currency),
    basis: guessed ? "measured; volume guessed from its kind" : "measured",
  };
  return id;
}

/** Takes a thing of one's own out of the trip. @param {Tree} scenario @param {string} id */
export function disown(scenario, id) {
  for (const rider of scenario.riders ?? []) if (id in counts(rider.owns)) own(rider, id, 0);
  if (scenario.catalogue?.items?.[id]?.like === undefined) {
    delete scenario.catalogue?.items?.[id];
    for (const list of ["always", "never"]) if (scenario[list]) scenario[list] = without(scenario[list], id);
  } else weigh(scenario, id, null);
  tidy(scenario);
}

/** @param {unknown} list @param {string} id */
function without(list, id) {
  if (Array.isArray(list)) return list.filter((each) => each !== id);
  const { [id]: _, ...rest } = /** @type {any} */ (list);
  return rest;
}

/** @param {Tree} scenario */
function tidy(scenario) {
  const own = scenario.catalogue;
  if (!own) return;
  for (const section of ["items", "bikes", "bags"]) if (own[section] && !Object.keys(own[section]).length) delete own[section];
  if (!Object.keys(own).length) delete scenario.catalogue;
}

/** An id out of a name: letters, digits, hyphens. @param {string} name @param {(id: string) => boolean} taken */
export function freeId(name, taken) {
  const stem = name.normalize("NFKD").toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 40);
  const base = `own-${stem || "thing"}`;
  let id = base;
  for (let more = 2; taken(id); more++) id = `${base}-${more}`;
  return id;
}

/** Is it asked to come along whatever the sums say, or to stay? @param {Tree} scenario @param {string} id @returns {"always" | "never" | "free"} */
export function standing(scenario, id) {
  if (id in counts(scenario.always)) return "always";
  return id in counts(scenario.never) ? "never" : "free";
}

/** @param {Tree} scenario @param {string} id @param {"always" | "never" | "free"} how */
export function stand(scenario, id, how) {
  scenario.always = counted(scenario.always ?? [], id, how === "always" ? Math.max(1, counts(scenario.always)[id] ?? 1) : 0);
  scenario.never = Object.keys(counts(counted(scenario.never ?? [], id, how === "never" ? 1 : 0)));
  if (!Object.keys(counts(scenario.always)).length) delete scenario.always;
  if (!scenario.never.length) delete scenario.never;
}

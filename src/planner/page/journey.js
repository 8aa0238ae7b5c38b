/** What a scenario says, with what it leaves out filled in as the engine does. */

import { counts } from "./counted.js";
import * as units from "./units.js";

/** @typedef {import("./types.js").Tree} Tree */

export const SURFACES = ["sealed", "gravel", "track", "rough"];

/** @param {Tree} scenario @returns {Tree[]} */
export const legs = (scenario) => scenario.trip?.legs ?? [];
/** @param {Tree} scenario @returns {Tree[]} */
export const riders = (scenario) => scenario.riders ?? [];
/** @param {Tree} scenario */
export const isGroup = (scenario) => riders(scenario).length > 1;

/** Sums over the legs. @param {Tree} scenario */
export function sums(scenario) {
  const sum = { days: 0, nights: 0, km: 0, help: 0, coldest: Infinity, surfaces: /** @type {Record<string, number>} */ ({}) };
  for (const leg of legs(scenario)) {
    sum.days += Number(leg.days) || 0;
    sum.nights += Number(leg.nights) || 0;
    sum.help = Math.max(sum.help, units.read(leg.hours_to_help, "time") ?? 0);
    sum.coldest = Math.min(sum.coldest, units.read(leg.lowest, "warmth") ?? Infinity);
    for (const surface of SURFACES) {
      const km = units.read(leg.km?.[surface], "distance") ?? 0;
      sum.surfaces[surface] = (sum.surfaces[surface] ?? 0) + km;
      sum.km += km;
    }
  }
  return sum;
}

/** What a full battery does, in km. @param {Tree} range */
const ranges = (range) => Object.fromEntries(SURFACES.map((surface) => [surface, units.read(range[surface], "distance") ?? 0]));

/** The bike of a rider: of the trip's own, or of the catalogue. @param {Tree} scenario @param {Tree} rider @param {import("./types.js").Catalogue} catalogue */
export function bikeOf(scenario, rider, catalogue) {
  /** @param {string} id @param {number} depth @returns {import("./types.js").Bike | undefined} */
  const find = (id, depth) => {
    const own = scenario.catalogue?.bikes?.[id];
    if (!own || depth > 8) return catalogue.bikes.find((bike) => bike.id === id);
    const base = own.like && own.like !== id ? find(own.like, depth + 1) : catalogue.bikes.find((bike) => bike.id === own.like);
    if (!base && own.wheelbase === undefined) return undefined;
    return /** @type {any} */ ({
      ...base,
      id,
      name: own.name ?? base?.name ?? id,
      mass_g: units.read(own.mass, "mass") ?? base?.mass_g,
      max_mass_g: units.read(own.max_mass, "mass") ?? base?.max_mass_g ?? null,
      wheelbase_mm: units.read(own.wheelbase, "length") ?? base?.wheelbase_mm,
      front_share: own.front_share ?? base?.front_share,
      tank_ml: own.range ? null : (units.read(own.tank, "volume") ?? base?.tank_ml ?? null),
      range_km: own.range ? ranges(own.range) : own.tank || own.consumption ? null : (base?.range_km ?? null),
      front_load_index: own.front_load_index ?? base?.front_load_index ?? null,
      rear_load_index: own.rear_load_index ?? base?.rear_load_index ?? null,
      front_axle_limit_g: units.read(own.front_axle_limit, "mass") ?? base?.front_axle_limit_g ?? null,
      rear_axle_limit_g: units.read(own.rear_axle_limit, "mass") ?? base?.rear_axle_limit_g ?? null,
      rider_x_mm: units.read(own.rider_x, "length") ?? base?.rider_x_mm,
      attributes: { ...base?.attributes, ...own.attributes },
      toolkit: own.toolkit ? counts(own.toolkit) : (base?.toolkit ?? {}),
      bags: own.bags ?? base?.bags ?? [],
    });
  };
  return find(rider.bike, 0);
}

/** Bags of a rider: of the bike, then added ones. @param {Tree} scenario @param {Tree} rider @param {import("./types.js").Catalogue} catalogue */
export function bagsOf(scenario, rider, catalogue) {
  const bike = bikeOf(scenario, rider, catalogue);
  const ids = [...(bike?.bags ?? []), ...(rider.bags ?? [])];
  return ids.map((id) => bag(scenario, id, catalogue)).filter((found) => found !== undefined);
}

/** @param {Tree} scenario @param {string} id @param {import("./types.js").Catalogue} catalogue @returns {import("./types.js").Bag | undefined} */
export function bag(scenario, id, catalogue) {
  const own = scenario.catalogue?.bags?.[id];
  const base = catalogue.bags.find((each) => each.id === (own?.like ?? id));
  if (!own) return base;
  if (!base && own.volume === undefined) return undefined;
  const volume_ml = units.read(own.volume, "volume") ?? base?.volume_ml ?? 0;
  return /** @type {any} */ ({
    ...base,
    id,
    name: own.name ?? base?.name ?? id,
    volume_ml,
    usable_ml: volume_ml * (own.packing ?? (base ? base.usable_ml / base.volume_ml : 1)),
    mass_g: units.read(own.mass, "mass") ?? base?.mass_g ?? 0,
    max_load_g: units.read(own.max_load, "mass") ?? base?.max_load_g ?? 0,
    side: own.side ?? base?.side ?? "centre",
    ahead_mm: units.read(own.ahead, "length") ?? base?.ahead_mm ?? 0,
    out_mm: units.read(own.out, "length") ?? base?.out_mm ?? 0,
    height_mm: units.read(own.height, "length") ?? base?.height_mm ?? 800,
  });
}

/** Things of the catalogue and of the trip itself. @param {Tree} scenario @param {import("./types.js").Catalogue} catalogue */
export function things(scenario, catalogue) {
  const all = new Map(catalogue.items.map((item) => [item.id, item]));
  for (const [id, own] of Object.entries(scenario.catalogue?.items ?? {})) {
    const base = all.get(own?.like ?? id);
    all.set(id, /** @type {any} */ ({
      mends: [], also: [], kind: "comfort", price: 0, volume_ml: 0, mass_g: 0,
      ...base,
      id,
      name: own?.name ?? base?.name ?? id,
      short: own?.short ?? own?.name ?? base?.short ?? id,
      ...(own?.kind ? { kind: own.kind } : {}),
      mass_g: units.read(own?.mass, "mass") ?? base?.mass_g ?? 0,
      volume_ml: units.read(own?.volume, "volume") ?? base?.volume_ml ?? 0,
      own: true,
    }));
  }
  return all;
}

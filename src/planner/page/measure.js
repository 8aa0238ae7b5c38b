/** The measuring sheet: what stands on the plate and the sidewall, and what each fastener takes, typed in at the bike. */

import { el } from "./dom.js";
import { valueName } from "./ids.js";
import { bikeOf, riders, SURFACES } from "./journey.js";
import { button, heading, stepper } from "./parts.js";
import { mark, say } from "./say.js";
import { openSheet, notice } from "./sheet.js";
import * as state from "./state.js";

/** Attributes of a bike in the order in which they are met walking round it. @type {[string, string[]][]} */
const ROUND = [
  [mark("Axles and pinch bolts"), ["front_axle", "front_pinch", "rear_axle", "rear_axle_thread", "chain_adjuster", "tube_nuts"]],
  [mark("Tyres, tubes and wheels"), ["wheels", "front_tyre", "rear_tyre", "front_rim", "rear_rim", "front_bearing", "rear_bearing"]],
  [mark("Plug, chain and engine"), ["plug", "plug_hex", "drive", "chain", "sprocket_nuts", "oil_drain", "fuelling", "cooling", "start", "valves", "clutch", "clutch_fluid", "clutch_plates", "clutch_cover"]],
  [mark("Brakes, controls and the rest"), ["rear_brake", "front_pads", "rear_pads", "caliper_bolts", "pad_pin", "throttle", "lever_pivot", "bar_clamp", "fork_clamp", "linkage_nut", "shift_clamp", "body_fastener", "battery_bolt", "headlamp", "ignition", "screen"]],
];

/** @param {number} at which rider */
export function openMeasuring(at) {
  openSheet(say("Measure your bike"), () => {
    const trip = /** @type {import("./types.js").State} */ (state.trip);
    const catalogue = /** @type {import("./types.js").Catalogue} */ (state.view.catalogue);
    const rider = riders(trip.scenario)[at];
    const bike = rider && bikeOf(trip.scenario, rider, catalogue);
    if (!bike) return null;
    const own = trip.scenario.catalogue?.bikes?.[rider.bike];
    const set = (/** @type {(entry: any) => void} */ how) => state.change(({ scenario }) => how(measured(scenario, riders(scenario)[at], bike.name)));
    return [
      el("p", null, say("Read plate, manual and sidewall, try each spanner once. What you leave as it is stays that of the class.")),
      el("div", { class: "grid" },
        stepper({ label: say("Mass, ready to ride"), unit: "kg", low: 60, high: 450, places: 1, value: bike.mass_g / 1000, set: (value) => set((entry) => (entry.mass = `${value} kg`)) }),
        stepper({ label: say("Permissible mass"), hint: say("on the plate"), unit: "kg", low: 100, high: 800, places: 0, value: (bike.max_mass_g ?? 0) / 1000, set: (value) => set((entry) => (entry.max_mass = `${value} kg`)) }),
        stepper({ label: say("Axle to axle"), unit: "mm", low: 1000, high: 2000, step: 5, places: 0, value: bike.wheelbase_mm, set: (value) => set((entry) => (entry.wheelbase = `${value} mm`)) }),
        energy(bike, set),
        stepper({ label: say("Load index, front"), hint: say("on the sidewall"), low: 40, high: 85, places: 0, value: bike.front_load_index, set: (value) => set((entry) => (entry.front_load_index = value)) }),
        stepper({ label: say("Load index, rear"), hint: say("on the sidewall"), low: 40, high: 85, places: 0, value: bike.rear_load_index, set: (value) => set((entry) => (entry.rear_load_index = value)) })),
      ROUND.map(([title, ids]) => [heading(bike.range_km && ids.includes("plug") ? say("Chain and drive") : say(title)), ids.map((id) => attribute(id, bike, own, catalogue, set))]),
      own ? button(say("Back to the class"), () => forget(at), { class: "plain" }) : null,
    ];
  });
}

/** The tank, or what a full battery does by surface. @param {import("./types.js").Bike} bike @param {(how: (entry: any) => void) => void} set */
function energy(bike, set) {
  const range = bike.range_km;
  if (!range) return stepper({ label: say("Fuel tank"), unit: "L", low: 2, high: 45, places: 1, value: (bike.tank_ml ?? 0) / 1000, set: (value) => set((entry) => (entry.tank = `${value} L`)) });
  const written = (/** @type {string} */ changed, /** @type {number} */ value) => Object.fromEntries(SURFACES.map((surface) => [surface, `${surface === changed ? value : range[surface]} km`]));
  return SURFACES.map((surface) => stepper({ label: say("Range, {surface}", { surface: say(surface) }), hint: say("full battery, as ridden"), unit: "km", low: 20, high: 400, step: 5, places: 0, value: range[surface], set: (value) => set((entry) => (entry.range = written(surface, value))) }));
}

/** Sizes that an attribute may have: those of any fastener of the same sort, on any bike. @param {string} id @param {import("./types.js").Catalogue} catalogue */
function sizes(id, catalogue) {
  const sort = (/** @type {string} */ value) => value.replace(/\d.*$/, "");
  const seen = catalogue.bikes.map((each) => each.attributes[id]).filter(Boolean);
  const sorts = new Set(seen.filter((value) => /\d/.test(value) && sort(value)).map(sort));
  const alike = catalogue.bikes.flatMap((each) => Object.values(each.attributes)).filter((value) => sorts.has(sort(value)) && /\d/.test(value));
  return [...new Set([...seen, ...alike])].sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
}

/** @param {string} id @param {any} bike @param {any} own @param {import("./types.js").Catalogue} catalogue @param {(how: (entry: any) => void) => void} set */
function attribute(id, bike, own, catalogue, set) {
  const known = catalogue.attributes.find((each) => each.id === id);
  // An electric bike lacks most of what an engine has: it is asked for what its class has.
  if (!known || (bike.attributes[id] === undefined && (bike.range_km || !known.values?.length))) return null;
  const values = known.values?.length ? known.values : sizes(id, catalogue);
  const now = bike.attributes[id] ?? "";
  const all = values.includes(now) || !now ? values : [now, ...values];
  return el("label", { class: "field-line", "data-key": id }, el("span", null, known.name, own?.attributes?.[id] !== undefined ? el("small", null, say("measured")) : null),
    el("select", { value: now, on: { change: (/** @type {any} */ event) => set((entry) => ((entry.attributes ??= {})[id] = event.target.value)) } },
      now ? null : el("option", { value: "" }, "–"), all.map((value) => el("option", { value, selected: value === now }, valueName(value)))));
}

/** The bike of one's own, made from its class when first measured. @param {any} scenario @param {any} rider @param {string} name */
function measured(scenario, rider, name) {
  const bikes = ((scenario.catalogue ??= {}).bikes ??= {});
  if (!bikes[rider.bike]) {
    let id = "my-bike";
    for (let more = 2; id in bikes; more++) id = `my-bike-${more}`;
    bikes[id] = { like: rider.bike, name: say("{bike}, measured", { bike: name }), basis: "measured" };
    rider.bike = id;
  }
  return bikes[rider.bike];
}

/** @param {number} at */
function forget(at) {
  const marked = state.mark();
  state.change(({ scenario }) => {
    const rider = riders(scenario)[at];
    const own = scenario.catalogue?.bikes?.[rider.bike];
    if (!own?.like) return;
    const id = rider.bike;
    rider.bike = own.like;
    if (!riders(scenario).some((each) => each.bike === id)) delete scenario.catalogue.bikes[id];
    if (!Object.keys(scenario.catalogue.bikes).length) delete scenario.catalogue.bikes;
    if (!Object.keys(scenario.catalogue).length) delete scenario.catalogue;
  });
  notice(say("Back to the class."), () => state.back(marked));
}

/** The trip: legs with their kilometres, days, help, weather and gaps, and what they demand. */

import { needs } from "./calls.js";
import { el } from "./dom.js";
import { SURFACES, bikeOf, legs, riders, sums } from "./journey.js";
import { answerState } from "./live.js";
import { button, choice, heading, plate, stepper } from "./parts.js";
import { work } from "./planner.js";
import { mark, number, say, several } from "./say.js";
import { notice } from "./sheet.js";
import * as state from "./state.js";
import * as units from "./units.js";
import { wayPart } from "./way.js";
import { capital, hours } from "./words.js";

const SEALED = { sealed: mark("sealed road"), gravel: mark("gravel road"), track: mark("track"), rough: mark("rough ground") };

export function tripScreen() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const { scenario } = trip;
  const sum = sums(scenario);
  return [
    el("label", { class: "field-line" }, el("span", null, say("Name")), el("input", { type: "text", value: scenario.name ?? "", maxlength: 120, on: { change: (/** @type {any} */ event) => state.change((now) => (now.scenario.name = event.target.value)) } })),
    el("p", { class: "sum" }, say("{days}, {nights}, {km} km · help up to {hours} away", { days: several(sum.days, "{n} day", "{n} days"), nights: several(sum.nights, "{n} night", "{n} nights"), km: Math.round(sum.km), hours: hours(sum.help) })),
    surfaceBar(sum),
    ["refused", "no kit", "broken"].includes(work.phase) ? answerState() : null,
    choice({ label: say("Nights"), value: scenario.trip?.style ?? "none", options: [["none", say("None")], ["roofed", say("Under a roof")], ["camping", say("Camping")]], set: setStyle }),
    legs(scenario).map((leg, at) => legCard(leg, at)),
    el("div", { class: "acts" }, button(say("Add a leg"), addLeg, { icon: "more" })),
    wayPart(),
    demands(),
  ];
}

/** @param {{km: number, surfaces: Record<string, number>}} sum */
function surfaceBar(sum) {
  if (!sum.km) return null;
  return el("ul", { class: "surfaces" }, SURFACES.filter((surface) => sum.surfaces[surface] > 0).map((surface) =>
    el("li", { class: surface, vars: { "--part": String(sum.surfaces[surface]) } }, el("i", { "aria-hidden": "true" }), el("span", null, say("{km} km {surface}", { km: Math.round(sum.surfaces[surface]), surface: say(surface) })))));
}

/** @param {string} style */
function setStyle(style) {
  state.change(({ scenario }) => {
    (scenario.trip ??= {}).style = style;
    for (const leg of legs(scenario)) {
      if (style === "none") leg.nights = 0;
      else {
        leg.lowest ??= "5 °C";
        leg.highest ??= "25 °C";
      }
    }
  });
}

/** @param {any} leg @param {number} at */
function legCard(leg, at) {
  const edit = (/** @type {(leg: any) => void} */ how) => state.change(({ scenario }) => how(legs(scenario)[at]));
  const km = SURFACES.reduce((sum, surface) => sum + (units.read(leg.km?.[surface], "distance") ?? 0), 0);
  const all = legs(/** @type {any} */ (state.trip).scenario);
  const help = units.read(leg.hours_to_help, "time");
  return el("details", { class: "card leg", "data-key": `leg-${at}`, open: all.length === 1 },
    el("summary", null, el("b", null, el("bdi", null, leg.name ?? say("Leg {n}", { n: at + 1 }))), el("small", null, say("{days}, {km} km, help {hours}", { days: several(Number(leg.days) || 0, "{n} day", "{n} days"), km: Math.round(km), hours: help === null ? "?" : hours(help) }))),
    el("label", { class: "field-line" }, el("span", null, say("Name of the leg")), el("input", { type: "text", maxlength: 120, value: leg.name ?? "", on: { change: (/** @type {any} */ event) => edit((one) => (one.name = event.target.value)) } })),
    el("h2", { class: "minor" }, say("Kilometres")),
    el("div", { class: "grid" }, SURFACES.map((surface) => stepper({
      label: capital(say(/** @type {any} */ (SEALED)[surface])), name: `km-${at}-${surface}`, unit: "km", step: 10, high: 20000, value: units.read(leg.km?.[surface], "distance") ?? 0,
      set: (value) => edit((one) => ((one.km ??= {})[surface] = value)),
    }))),
    el("h2", { class: "minor" }, say("Time")),
    el("div", { class: "grid" },
      stepper({ label: say("Days"), name: `days-${at}`, value: Number(leg.days) || 0, step: 1, high: 365, set: (value) => edit((one) => (one.days = value)) }),
      stepper({ label: say("Nights"), name: `nights-${at}`, value: Number(leg.nights) || 0, places: 0, high: 365, set: (value) => edit((one) => (one.nights = value)) }),
      stepper({ label: say("Hours to help"), name: `help-${at}`, unit: "h", hint: say("until the bike is at a road head or workshop"), value: help, high: 500, set: (value) => edit((one) => (one.hours_to_help = units.time(value))) })),
    el("h2", { class: "minor" }, say("Weather")),
    el("div", { class: "grid" },
      stepper({ label: say("Coldest"), name: `cold-${at}`, unit: "°C", low: -50, high: 45, places: 0, value: units.read(leg.lowest, "warmth"), quiet: "10", set: (value) => edit((one) => (one.lowest = units.warmth(value))) }),
      stepper({ label: say("Hottest"), name: `hot-${at}`, unit: "°C", low: -40, high: 60, places: 0, value: units.read(leg.highest, "warmth"), quiet: "25", set: (value) => edit((one) => (one.highest = units.warmth(value))) }),
      stepper({ label: say("Height of the camps"), name: `up-${at}`, unit: "m", step: 100, high: 6000, places: 0, value: (units.read(leg.altitude, "length") ?? 0) / 1000, set: (value) => edit((one) => (value ? (one.altitude = `${value} m`) : delete one.altitude)) })),
    el("h2", { class: "minor" }, say("Longest gaps")),
    el("div", { class: "grid" },
      stepper({ label: say("Between water"), name: `water-${at}`, unit: say("days"), step: 0.5, high: 30, value: (units.read(leg.water_every, "time") ?? 24) / 24, set: (value) => edit((one) => (one.water_every = units.days(value * 24))) }),
      stepper({ label: say("Between shops"), name: `food-${at}`, unit: say("days"), step: 0.5, high: 60, value: gapDays(leg), set: (value) => edit((one) => (one.food_every = units.days(value * 24))) }),
      stepper({ ...stops(), name: `fuel-${at}`, unit: "km", step: 10, high: 3000, value: units.read(leg.fuel_every, "distance") ?? 0, set: (value) => edit((one) => (value ? (one.fuel_every = units.distance(value)) : delete one.fuel_every)) })),
    all.length > 1 ? button(say("Take this leg out"), () => takeOut(at), { class: "plain", icon: "gone" }) : null);
}

/** What the longest stretch lies between: pumps, or places to charge where every bike is electric. */
function stops() {
  const { scenario } = /** @type {any} */ (state.trip);
  const bikes = riders(scenario).map((rider) => state.view.catalogue && bikeOf(scenario, rider, state.view.catalogue));
  const electric = bikes.length > 0 && bikes.every((bike) => bike?.range_km);
  return electric ? { label: say("Between places to charge"), hint: say("0: not asked") } : { label: say("Between pumps"), hint: say("0: no petrol to carry") };
}

/** @param {any} leg */
const gapDays = (leg) => (leg.food_every === undefined ? Number(leg.days) || 1 : (units.read(leg.food_every, "time") ?? 24) / 24);

/** @param {number} at */
function takeOut(at) {
  const marked = state.mark();
  state.change(({ scenario }) => scenario.trip.legs.splice(at, 1));
  notice(say("Leg taken out."), () => state.back(marked));
}

function addLeg() {
  state.change(({ scenario }) => {
    const all = ((scenario.trip ??= { style: "none" }).legs ??= []);
    const last = all.at(-1) ?? { days: 1, nights: 0, km: { gravel: 100 }, hours_to_help: "6 h", lowest: "8 °C", highest: "25 °C" };
    all.push({ ...structuredClone(last), name: say("Leg {n}", { n: all.length + 1 }), nights: scenario.trip.style === "none" ? 0 : last.nights });
  });
}

function demands() {
  const answer = state.trip?.answer;
  const told = needs(work.check);
  const mine = told.find((each) => each.rider === state.view.rider) ?? told[0];
  const list = mine?.needs?.length ? mine.needs : (answer?.needs ?? []);
  return el("section", null, heading(say("What that demands")),
    list.length ? el("ul", { class: "needs" }, list.map((/** @type {any} */ need) => el("li", { "data-key": need.id },
      el("details", null, el("summary", null, el("span", null, need.name), el("b", null, amount(need.demanded, need.unit))), el("p", { class: "soft" }, need.working))))) : el("p", { class: "soft" }, say("Nothing yet.")),
    work.check?.warnings?.length ? plate("warn", say("Worth a look"), el("ul", null, work.check.warnings.map((/** @type {any} */ each) => el("li", null, el("bdi", null, typeof each === "string" ? each : each.text ?? each.what ?? each.message ?? ""))))) : null);
}

/** @param {number} value @param {string} unit */
function amount(value, unit) {
  if (unit === "mL") return value >= 1000 ? `${number(value / 1000, 1)} L` : `${Math.round(value)} mL`;
  return `${number(value, value < 10 ? 1 : 0, 0)} ${say(unit ?? "")}`.trim();
}

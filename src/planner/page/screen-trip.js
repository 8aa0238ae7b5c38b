/** The trip: legs with their kilometres, days, help, weather and gaps, and what they demand. */

import { needs } from "./calls.js";
import { el } from "./dom.js";
import { SURFACES, bikeOf, legs, riders, sums } from "./journey.js";
import { answerState } from "./live.js";
import { button, choice, heading, plate, stepper } from "./parts.js";
import { work } from "./planner.js";
import { say } from "./sheet.js";
import * as state from "./state.js";
import * as units from "./units.js";
import { wayPart } from "./way.js";
import { capital, hours, plural } from "./words.js";

const SEALED = { sealed: "sealed road", gravel: "gravel road", track: "track", rough: "rough ground" };

export function tripScreen() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const { scenario } = trip;
  const sum = sums(scenario);
  return [
    el("label", { class: "field-line" }, el("span", null, "Name"), el("input", { type: "text", value: scenario.name ?? "", maxlength: 120, on: { change: (/** @type {any} */ event) => state.change((now) => (now.scenario.name = event.target.value)) } })),
    el("p", { class: "sum" }, `${plural(sum.days, "day")}, ${plural(sum.nights, "night")}, ${Math.round(sum.km)} km · help up to ${hours(sum.help)} away`),
    surfaceBar(sum),
    ["refused", "no kit", "broken"].includes(work.phase) ? answerState() : null,
    choice({ label: "Nights", value: scenario.trip?.style ?? "none", options: [["none", "None"], ["roofed", "Under a roof"], ["camping", "Camping"]], set: setStyle }),
    legs(scenario).map((leg, at) => legCard(leg, at)),
    el("div", { class: "acts" }, button("Add a leg", addLeg, { icon: "more" })),
    wayPart(),
    demands(),
  ];
}

/** @param {{km: number, surfaces: Record<string, number>}} sum */
function surfaceBar(sum) {
  if (!sum.km) return null;
  return el("ul", { class: "surfaces" }, SURFACES.filter((surface) => sum.surfaces[surface] > 0).map((surface) =>
    el("li", { class: surface, vars: { "--part": String(sum.surfaces[surface]) } }, el("i", { "aria-hidden": "true" }), el("span", null, `${Math.round(sum.surfaces[surface])} km ${surface}`))));
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
    el("summary", null, el("b", null, el("bdi", null, leg.name ?? `Leg ${at + 1}`)), el("small", null, `${plural(Number(leg.days) || 0, "day")}, ${Math.round(km)} km, help ${help === null ? "?" : hours(help)}`)),
    el("label", { class: "field-line" }, el("span", null, "Name of the leg"), el("input", { type: "text", maxlength: 120, value: leg.name ?? "", on: { change: (/** @type {any} */ event) => edit((one) => (one.name = event.target.value)) } })),
    el("h2", { class: "minor" }, "Kilometres"),
    el("div", { class: "grid" }, SURFACES.map((surface) => stepper({
      label: capital(/** @type {any} */ (SEALED)[surface]), name: `km-${at}-${surface}`, unit: "km", step: 10, high: 20000, value: units.read(leg.km?.[surface], "distance") ?? 0,
      set: (value) => edit((one) => ((one.km ??= {})[surface] = value)),
    }))),
    el("h2", { class: "minor" }, "Time"),
    el("div", { class: "grid" },
      stepper({ label: "Days", name: `days-${at}`, value: Number(leg.days) || 0, step: 1, high: 365, set: (value) => edit((one) => (one.days = value)) }),
      stepper({ label: "Nights", name: `nights-${at}`, value: Number(leg.nights) || 0, places: 0, high: 365, set: (value) => edit((one) => (one.nights = value)) }),
      stepper({ label: "Hours to help", name: `help-${at}`, unit: "h", hint: "until the bike is at a road head or workshop", value: help, high: 500, set: (value) => edit((one) => (one.hours_to_help = units.time(value))) })),
    el("h2", { class: "minor" }, "Weather"),
    el("div", { class: "grid" },
      stepper({ label: "Coldest", name: `cold-${at}`, unit: "°C", low: -50, high: 45, places: 0, value: units.read(leg.lowest, "warmth"), quiet: "10", set: (value) => edit((one) => (one.lowest = units.warmth(value))) }),
      stepper({ label: "Hottest", name: `hot-${at}`, unit: "°C", low: -40, high: 60, places: 0, value: units.read(leg.highest, "warmth"), quiet: "25", set: (value) => edit((one) => (one.highest = units.warmth(value))) }),
      stepper({ label: "Height of the camps", name: `up-${at}`, unit: "m", step: 100, high: 6000, places: 0, value: (units.read(leg.altitude, "length") ?? 0) / 1000, set: (value) => edit((one) => (value ? (one.altitude = `${value} m`) : delete one.altitude)) })),
    el("h2", { class: "minor" }, "Longest gaps"),
    el("div", { class: "grid" },
      stepper({ label: "Between water", name: `water-${at}`, unit: "days", step: 0.5, high: 30, value: (units.read(leg.water_every, "time") ?? 24) / 24, set: (value) => edit((one) => (one.water_every = units.days(value * 24))) }),
      stepper({ label: "Between shops", name: `food-${at}`, unit: "days", step: 0.5, high: 60, value: gapDays(leg), set: (value) => edit((one) => (one.food_every = units.days(value * 24))) }),
      stepper({ ...stops(), name: `fuel-${at}`, unit: "km", step: 10, high: 3000, value: units.read(leg.fuel_every, "distance") ?? 0, set: (value) => edit((one) => (value ? (one.fuel_every = units.distance(value)) : delete one.fuel_every)) })),
    all.length > 1 ? button("Take this leg out", () => takeOut(at), { class: "plain", icon: "gone" }) : null);
}

/** What the longest stretch lies between: pumps, or places to charge where every bike is electric. */
function stops() {
  const { scenario } = /** @type {any} */ (state.trip);
  const bikes = riders(scenario).map((rider) => state.view.catalogue && bikeOf(scenario, rider, state.view.catalogue));
  const electric = bikes.length > 0 && bikes.every((bike) => bike?.range_km);
  return electric ? { label: "Between places to charge", hint: "0: not asked" } : { label: "Between pumps", hint: "0: no petrol to carry" };
}

/** @param {any} leg */
const gapDays = (leg) => (leg.food_every === undefined ? Number(leg.days) || 1 : (units.read(leg.food_every, "time") ?? 24) / 24);

/** @param {number} at */
function takeOut(at) {
  const marked = state.mark();
  state.change(({ scenario }) => scenario.trip.legs.splice(at, 1));
  say("Leg taken out.", () => state.back(marked));
}

function addLeg() {
  state.change(({ scenario }) => {
    const all = ((scenario.trip ??= { style: "none" }).legs ??= []);
    const last = all.at(-1) ?? { days: 1, nights: 0, km: { gravel: 100 }, hours_to_help: "6 h", lowest: "8 °C", highest: "25 °C" };
    all.push({ ...structuredClone(last), name: `Leg ${all.length + 1}`, nights: scenario.trip.style === "none" ? 0 : last.nights });
  });
}

function demands() {
  const answer = state.trip?.answer;
  const told = needs(work.check);
  const mine = told.find((each) => each.rider === state.view.rider) ?? told[0];
  const list = mine?.needs?.length ? mine.needs : (answer?.needs ?? []);
  return el("section", null, heading("What that demands"),
    list.length ? el("ul", { class: "needs" }, list.map((/** @type {any} */ need) => el("li", { "data-key": need.id },
      el("details", null, el("summary", null, el("span", null, need.name), el("b", null, amount(need.demanded, need.unit))), el("p", { class: "soft" }, need.working))))) : el("p", { class: "soft" }, "Nothing yet."),
    work.check?.warnings?.length ? plate("warn", "Worth a look", el("ul", null, work.check.warnings.map((/** @type {any} */ each) => el("li", null, el("bdi", null, typeof each === "string" ? each : each.text ?? each.what ?? each.message ?? ""))))) : null);
}

/** @param {number} value @param {string} unit */
function amount(value, unit) {
  if (unit === "mL") return value >= 1000 ? `${(value / 1000).toFixed(1)} L` : `${Math.round(value)} mL`;
  return `${Number(value.toFixed(value < 10 ? 1 : 0))} ${unit ?? ""}`.trim();
}

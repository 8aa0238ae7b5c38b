/** After the ride: what broke, what was used, what was missed. Writes the ride log, and shows what it taught. */

import { el } from "./dom.js";
import { download, fileName } from "./files.js";
import { host } from "./host.js";
import { SURFACES, isGroup, sums, things } from "./journey.js";
import { kit } from "./kit.js";
import { faults } from "./live.js";
import { lookUp } from "./look-up.js";
import { button, heading, plate, stepper, waiting } from "./parts.js";
import { riderTabs, shownRider } from "./rider.js";
import { number, say, several } from "./say.js";
import { openSheet, notice } from "./sheet.js";
import * as state from "./state.js";
import { capital } from "./words.js";

/** The file of learnt rates, as a scenario names it. */
const RATES = "my-rates.yaml";

/** The log as it stands: what was typed, over what the plan says. @param {import("./types.js").State} trip @param {any} rider */
export function rideOf(trip, rider) {
  const sum = sums(trip.scenario);
  const typed = trip.ride ?? {};
  const own = trip.scenario.catalogue?.bikes?.[rider?.bike];
  return {
    name: typed.name ?? `${trip.scenario.name ?? say("A ride")}${isGroup(trip.scenario) ? `, ${rider?.name}` : ""}`,
    bike: own?.like ?? rider?.bike,
    km: { ...sum.surfaces, ...typed.km },
    days: typed.days ?? sum.days,
    falls: typed.falls ?? 0,
    broke: typed.broke ?? {},
    used: typed.used ?? trip.used,
    missed: typed.missed ?? {},
  };
}

export function afterScreen() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const catalogue = /** @type {any} */ (state.view.catalogue);
  const rider = shownRider();
  const ride = rideOf(trip, rider);
  const at = (state.view.at.after ??= { learnt: null, wrong: null, asking: false });
  const set = (/** @type {(ride: any) => void} */ how) => state.change((now) => how((now.ride ??= {})), "ticks");
  const all = things(trip.scenario, catalogue);
  const failures = new Map(catalogue.failures.map((/** @type {any} */ failure) => [failure.id, failure.name]));
  return [
    riderTabs(),
    el("p", null, say("A ride on which nothing broke teaches as much: write it down too.")),
    el("label", { class: "field-line" }, el("span", null, say("Name of the ride")), el("input", { type: "text", maxlength: 120, value: ride.name, on: { change: (/** @type {any} */ event) => set((now) => (now.name = event.target.value)) } })),
    el("div", { class: "grid" }, SURFACES.map((surface) => stepper({ label: capital(say(surface)), name: `rode-${surface}`, unit: "km", step: 10, high: 50000, value: ride.km[surface] ?? 0, set: (value) => set((now) => ((now.km ??= {})[surface] = value)) })),
      stepper({ label: say("Days"), name: "rode-days", value: ride.days, step: 0.5, high: 365, set: (value) => set((now) => (now.days = value)) }),
      stepper({ label: say("Falls"), name: "falls", hint: say("the slow ones too"), value: ride.falls, places: 0, high: 999, set: (value) => set((now) => (now.falls = value)) })),
    part(say("What broke"), say("Add: what broke"), ride.broke, (id) => String(failures.get(id) ?? id), catalogue.failures, (id, count) => set((now) => (now.broke = put(ride.broke, id, count)))),
    part(say("What was used"), say("Add: what was used"), ride.used, (id) => all.get(id)?.name ?? id, [...all.values()], (id, count) => set((now) => (now.used = put(ride.used, id, count)))),
    part(say("What was missed"), say("Add: what was missed"), ride.missed, (id) => all.get(id)?.name ?? id, [...all.values()], (id, count) => set((now) => (now.missed = put(ride.missed, id, count)))),
    el("div", { class: "acts" }, button(say("Write it into the book"), () => learn(trip, ride, at), { class: "main", disabled: at.asking }),
      button(say("Log as a file"), () => download(fileName(ride.name, "log.yaml"), JSON.stringify({ rides: [logged(trip, ride)] }, null, 1)), { icon: "away" })),
    at.asking ? waiting(say("Learning …")) : null,
    at.wrong ? plate("stop", say("The log was not taken"), el("p", null, at.wrong.message), faults(at.wrong.refusal?.faults ?? [])) : null,
    at.learnt ? taught(at) : null,
    trip.book ? el("p", null, button(say("Book of rides as a file"), () => download("my-rides.yaml", trip.book), { class: "plain", icon: "away" })) : null,
  ];
}

/** @param {Record<string, number>} list @param {string} id @param {number} count */
function put(list, id, count) {
  const next = { ...list };
  if (count > 0) next[id] = count;
  else delete next[id];
  return next;
}

/** @param {string} title @param {string} adding @param {Record<string, number>} list @param {(id: string) => string} nameOf @param {any[]} from @param {(id: string, count: number) => void} set */
function part(title, adding, list, nameOf, from, set) {
  return el("section", { "data-key": title }, heading(title),
    el("ul", { class: "counted" }, Object.entries(list).map(([id, count]) => el("li", { "data-key": id }, el("bdi", null, nameOf(id)),
      el("span", { class: "count" }, el("button", { type: "button", "aria-label": say("One less: {thing}", { thing: nameOf(id) }), on: { click: () => set(id, count - 1) } }, "−"), el("b", null, String(count)), el("button", { type: "button", "aria-label": say("One more: {thing}", { thing: nameOf(id) }), on: { click: () => set(id, count + 1) } }, "+"))))),
    button(adding, () => addSheet(title, from, (id) => set(id, (list[id] ?? 0) + 1)), { icon: "more" }));
}

/** @param {string} title @param {any[]} from @param {(id: string) => void} add */
function addSheet(title, from, add) {
  let word = "";
  const items = from.map((each) => ({ short: "", mends: [], also: [], kind: each.system ?? "", ...each }));
  openSheet(title, () => [
    el("label", { class: "search" }, el("span", null, say("Search")), el("input", { type: "search", value: word, autocomplete: "off", on: { input: (/** @type {any} */ event) => { word = event.target.value; state.show(); } } })),
    el("ul", { class: "things" }, (word ? lookUp(items, word, 30) : items.slice(0, 30)).map((item) => el("li", { "data-key": item.id }, el("span", { class: "words" }, el("bdi", null, item.name), el("small", null, say(item.kind))), button(say("Add"), () => { add(item.id); notice(say("Noted: {thing}", { thing: item.name })); }, { class: "take", "aria-label": say("Add: {thing}", { thing: item.name }) })))),
  ]);
}

/** The ride as the file of logs has it. @param {import("./types.js").State} trip @param {any} ride */
function logged(trip, ride) {
  const known = new Set((state.view.catalogue?.items ?? []).map((item) => item.id));
  const shipped = (/** @type {Record<string, number>} */ list) => Object.fromEntries(Object.entries(list).filter(([id]) => known.has(id)));
  return { ...ride, used: shipped(ride.used), missed: shipped(ride.missed), carried: shipped(kit(trip.answer, isGroup(trip.scenario) ? shownRider()?.name : null)), ...(trip.scenario.done ? { done: trip.scenario.done } : {}) };
}

/** @param {import("./types.js").State} trip @param {any} ride @param {any} at */
async function learn(trip, ride, at) {
  Object.assign(at, { asking: true, wrong: null });
  state.show();
  try {
    const told = await host.call("debrief", { log: { rides: [logged(trip, ride)] }, ...(trip.book ? { book: trip.book } : {}) });
    at.learnt = told.learnt;
    at.rates = told.rates;
    state.change((now) => (now.book = told.book), "ticks");
    notice(say("Written into the book."));
  } catch (error) {
    at.wrong = error;
  }
  at.asking = false;
  state.show();
}

/** @param {any} at */
function taught(at) {
  const { learnt } = at;
  const moved = [...learnt.failures].map((each) => ({ ...each, step: Math.abs(each.after_per_1000_km.mean - each.before_per_1000_km.mean) })).sort((a, b) => b.seen - a.seen || b.step - a.step).slice(0, 8);
  const rate = (/** @type {any} */ each) => number(each.mean, each.mean < 0.1 ? 3 : 2);
  return el("section", { class: "taught" }, heading(say("What it taught")),
    el("p", null, say("{rides}, {km} km, {falls} in the book.", { rides: several(learnt.rides, "{n} ride", "{n} rides"), km: Math.round(learnt.distance_km), falls: several(learnt.falls, "{n} fall", "{n} falls") })),
    el("table", null, el("thead", null, el("tr", null, el("th", { scope: "col" }, say("in 1000 km")), el("th", { scope: "col" }, say("seen")), el("th", { scope: "col" }, say("before")), el("th", { scope: "col" }, say("now")))),
      el("tbody", null, moved.map((each) => el("tr", null, el("th", { scope: "row" }, each.name), el("td", null, String(each.seen)), el("td", null, rate(each.before_per_1000_km)), el("td", null, rate(each.after_per_1000_km)))))),
    learnt.missed?.length ? el("p", null, say("Missed: {things}.", { things: learnt.missed.map((/** @type {any} */ each) => each.name).join(", ") })) : null,
    learnt.unused?.length ? el("p", null, say("Carried on every ride, never used: {things}. That is no proof: an empty ride of a beacon is a good one.", { things: learnt.unused.slice(0, 8).map((/** @type {any} */ each) => each.name).join(", ") })) : null,
    el("div", { class: "acts" }, button(say("Plan by these rates"), () => useRates(at.rates), { class: "main" }), button(say("Rates as a file"), () => download(RATES, at.rates), { icon: "away" })));
}

/** @param {string} rates */
function useRates(rates) {
  const marked = state.mark();
  state.change((trip) => {
    trip.files = { ...trip.files, [RATES]: rates };
    trip.scenario.catalogues = [...new Set([...(trip.scenario.catalogues ?? []), RATES])];
  });
  notice(say("The kit is reckoned by your own rides."), () => state.back(marked));
}


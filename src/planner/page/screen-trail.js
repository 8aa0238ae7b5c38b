/** At the trackside: from what the bike does to what to reach for, in which bag, step by step. What is used up is ticked. */

import { el } from "./dom.js";
import { host } from "./host.js";
import { isGroup } from "./journey.js";
import { carriers, kit } from "./kit.js";
import { lookUp } from "./look-up.js";
import { button, heading, plate, row, tick, waiting } from "./parts.js";
import { asked } from "./planner.js";
import { givenUp } from "./refused.js";
import { riderTabs, shownRider } from "./rider.js";
import { mark, say, several } from "./say.js";
import { openSheet } from "./sheet.js";
import * as state from "./state.js";
import { hours } from "./words.js";

/** What a rider sees first, and the words in systems and failures that it may be. From memory. @type {[string, RegExp][]} */
const SIGNS = [
  [mark("Flat or soft tyre"), /tyre|tube|valve|bead|punctur/],
  [mark("Engine will not start or run"), /engine|fuel|plug|spark|battery|electric|ignition|flood|petrol|start|air filter|fuse|drown/],
  [mark("No drive"), /drive|chain|clutch|sprocket|gear|shift|belt/],
  [mark("Hot, or losing fluid"), /cool|radiator|oil|leak|hose|fluid|overheat/],
  [mark("Brakes"), /brake|pad|caliper|rotor|disc/],
  [mark("Bent or broken after a fall"), /fall|bent|lever|bar|peg|mirror|crash|screen|twist|case/],
  [mark("Wheel, fork, suspension"), /wheel|bearing|spoke|rim|fork|shock|suspension|linkage|axle/],
  [mark("Lights and electrics"), /electric|lamp|bulb|fuse|wire|switch|charg|battery|indicator/],
  [mark("Luggage"), /luggage|rack|strap|bag|pannier|mount/],
  [mark("Stuck or drowned"), /stuck|bog|drown|sunk|winch|crossing/],
];

/** Failures asked of the card. */
const ALL = 400;

export function trailScreen() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  if (!trip.answer) return el("p", { class: "soft" }, say("The card comes with the kit."));
  const at = (state.view.at.trail ??= { card: null, key: "", asking: false, trouble: "", word: "", sign: -1 });
  const rider = shownRider();
  const mine = isGroup(trip.scenario) ? rider?.name : null;
  ask(at, trip, mine);
  const shown = matching(at);
  return [
    riderTabs(),
    plate("warn", say("Stop first"), el("p", null, say("Bike off the track, hot parts cold, engine off. Hurt people before hurt bikes. The manual and your training come first."))),
    el("label", { class: "search" }, el("span", null, say("What is wrong?")), el("input", { type: "search", value: at.word, autocomplete: "off", placeholder: say("chain, will not start …"), on: { input: (/** @type {any} */ event) => { at.word = event.target.value; at.sign = -1; state.show(); } } })),
    el("div", { class: "signs", role: "group", "aria-label": say("What you see") }, SIGNS.map(([words], k) => el("button", { type: "button", "aria-pressed": String(at.sign === k), on: { click: () => { at.sign = at.sign === k ? -1 : k; at.word = ""; state.show(); } } }, say(words)))),
    at.asking && !at.card ? waiting(say("Writing the card …")) : null,
    at.trouble ? plate("stop", say("No card"), el("p", null, at.trouble)) : null,
    at.card ? [
      heading(at.sign < 0 && !at.word ? say("Likeliest first") : say("It may be")),
      shown.can.length ? el("div", { class: "rows" }, shown.can.map((failure) => row(el("bdi", null, failure.name), failure.repairs.length ? failure.repairs[0].name : "", () => failureSheet(failure), { "data-key": failure.id }))) : el("p", { class: "soft" }, say("Nothing that the kit mends.")),
      shown.cannot.length ? el("details", { class: "card" }, el("summary", null, el("b", null, say("Not mended with this kit")), el("small", null, String(shown.cannot.length))), el("ul", { class: "dots" }, shown.cannot.map((/** @type {any} */ failure) => el("li", null, el("bdi", null, failure.name))))) : null,
    ] : null,
    usedUp(trip, rider?.name),
  ];
}

/** @param {any} at @param {import("./types.js").State} trip @param {string | null} rider */
async function ask(at, trip, rider) {
  const key = JSON.stringify([trip.answerFor, trip.used, rider, trip.moved]);
  if (at.key === key) return;
  at.key = key;
  at.asking = true;
  at.trouble = "";
  const all = carriers(trip.answer, trip.moved);
  const one = all.find((each) => each.name === rider) ?? all[0];
  // In a group the whole kit is at hand; bags are told where only one rider's are meant.
  const aboard = rider ? kit(trip.answer) : { bags: one.bags };
  try {
    const card = await host.call("card", { ...asked(), kit: aboard, used: trip.used, top: ALL, ...(rider ? { rider } : {}) }, null);
    if (at.key === key) at.card = card;
  } catch (error) {
    if (at.key === key && !givenUp(error)) at.trouble = String(/** @type {any} */ (error).message);
  }
  if (at.key !== key) return;
  at.asking = false;
  state.show();
}

/** @param {any} at @returns {{can: any[], cannot: any[]}} */
function matching(at) {
  const card = at.card;
  if (!card) return { can: [], cannot: [] };
  const system = new Map((state.view.catalogue?.failures ?? []).map((failure) => [failure.name, failure.system]));
  const cannot = card.not_mended ?? [];
  if (at.word) {
    const fits = (/** @type {any[]} */ list) => lookUp(list.map((each) => ({ ...each, short: "", kind: system.get(each.name) ?? "", mends: (each.repairs ?? []).map((/** @type {any} */ repair) => repair.name), also: [] })), at.word, 40);
    return { can: fits(card.failures), cannot: fits(cannot) };
  }
  if (at.sign < 0) return { can: card.failures.slice(0, 12), cannot: [] };
  const sign = SIGNS[at.sign][1];
  const english = state.view.catalogue?.signs;
  const fits = (/** @type {any} */ each) => sign.test(english?.get(each.id) ?? each.name.toLowerCase());
  return { can: card.failures.filter(fits), cannot: cannot.filter(fits) };
}

/** @param {any} failure */
function failureSheet(failure) {
  const word = { stops: say("The bike stops."), limps: say("The bike limps."), nags: say("It rides on, but nags.") };
  openSheet(failure.name, () => [
    el("p", { class: "soft" }, /** @type {any} */ (word)[failure.outcome] ?? ""),
    failure.repairs.map((/** @type {any} */ repair, /** @type {number} */ k) => el("details", { class: "card", open: k === 0, "data-key": repair.id },
      el("summary", null, el("b", null, repair.name), el("small", null, [hours(repair.time_h), repair.grade === "full" ? say("as good as new") : say("to get home on"), repair.riders > 1 ? several(repair.riders, "{n} rider", "{n} riders") : ""].filter(Boolean).join(", "))),
      el("h3", null, say("Reach for")),
      el("ul", { class: "reach" }, [...repair.tools, ...repair.used_up].map((/** @type {any} */ thing) => el("li", null, el("bdi", null, thing.name), el("b", null, thing.bags?.length ? thing.bags.join(", ") : "")))),
      repair.steps.length ? [el("h3", null, say("Steps")), el("ol", { class: "steps" }, repair.steps.map((/** @type {string} */ step) => el("li", null, step)))] : null,
      repair.check_after.length ? [el("h3", null, say("Before you ride on")), el("ul", { class: "dots" }, repair.check_after.map((/** @type {string} */ step) => el("li", null, step)))] : null,
      repair.used_up.length ? [el("h3", null, say("Used up now?")), repair.used_up.map((/** @type {any} */ thing) => usedTick(thing.name))] : null)),
  ]);
}

/** @param {string} name */
function usedTick(name) {
  const id = idOf(name);
  if (!id) return null;
  const used = state.trip?.used[id] ?? 0;
  return el("div", { class: "used", "data-key": id }, el("span", null, el("bdi", null, name), el("small", null, used ? say("{n} used", { n: used }) : "")),
    button(say("Used one"), () => use(id, 1), { "aria-label": say("Used one: {thing}", { thing: name }) }), used ? button(say("One back"), () => use(id, -1), { class: "plain", "aria-label": say("One back: {thing}", { thing: name }) }) : null);
}

/** @param {string} name */
function idOf(name) {
  for (const one of carriers(state.trip?.answer)) for (const bag of one.bags) for (const item of bag.items) if (item.name === name) return item.id;
  return null;
}

/** @param {string} id @param {number} by */
function use(id, by) {
  state.change((trip) => {
    const now = Math.max(0, (trip.used[id] ?? 0) + by);
    if (now) trip.used[id] = now;
    else delete trip.used[id];
  }, "ticks");
}

/** @param {import("./types.js").State} trip @param {string} rider */
function usedUp(trip, rider) {
  const bags = carriers(trip.answer, trip.moved).find((one) => one.name === rider)?.bags ?? carriers(trip.answer)[0]?.bags ?? [];
  const things = bags.flatMap((bag) => bag.items).filter((item) => ["spare", "consumable", "first aid"].includes(item.kind));
  return el("details", { class: "card", "data-key": "used-up" }, el("summary", null, el("b", null, say("Used up")), el("small", null, String(Object.values(trip.used).reduce((a, b) => a + b, 0)))),
    el("p", { class: "soft" }, say("The card knows what is gone.")),
    things.map((item) => tick({ key: item.id, words: el("bdi", null, item.name), ticked: (trip.used[item.id] ?? 0) > 0, set: (on) => use(item.id, on ? 1 : -(trip.used[item.id] ?? 0)) })));
}

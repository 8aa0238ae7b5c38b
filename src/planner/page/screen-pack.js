/**
 * Packing: one bag after another, a name and a box a row. Ticks belong to a rider and a thing, so they outlive a new plan; what
 * was packed into another bag than the plan now says is shown as open, with where it is.
 */

import { el } from "./dom.js";
import { icon } from "./icons.js";
import { carriers } from "./kit.js";
import { button, meter, plate, row, stepper, tick } from "./parts.js";
import { question } from "./planner.js";
import { riderTabs, shownRider } from "./rider.js";
import { say, saying, several } from "./say.js";
import { shortName } from "./screen-kit.js";
import { openSheet, notice } from "./sheet.js";
import * as state from "./state.js";
import { kg, kilos, kilosOf, whole } from "./words.js";

/** @typedef {import("./types.js").PackedBag} PackedBag @typedef {import("./types.js").Packed} Packed */

/** Key of a tick. @param {string} rider @param {string} id */
const key = (rider, id) => `${rider}\n${id}`;

/** Is a thing packed where the plan has it? @param {string} rider @param {PackedBag} bag @param {Packed} item */
export function packed(rider, bag, item) {
  const ticked = state.trip?.ticks[key(rider, item.id)];
  return Boolean(ticked && ticked.bag === bag.id && ticked.count >= item.count);
}

/** What is packed so far of one rider, in grams. Full bags that were weighed count with the scale. @param {import("./types.js").Carrier} mine */
export function running(mine) {
  let grams = 0;
  let weighed = 0;
  for (const bag of mine.bags) {
    const all = bag.items.every((item) => packed(mine.name, bag, item));
    const scale = state.trip?.scale[key(mine.name, bag.id)];
    if (all && bag.items.length && scale !== undefined) {
      grams += Math.max(0, scale - bag.empty_g);
      weighed += 1;
    } else for (const item of bag.items) if (packed(mine.name, bag, item)) grams += item.mass_g;
  }
  return { grams, weighed };
}

export function packScreen() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  if (!trip.answer) return plate("say", say("No kit yet"), el("p", null, say("The boxes come with the kit."), " ", el("a", { href: "#/kit" }, say("To the kit"))));
  const all = carriers(trip.answer, trip.moved);
  const mine = all.find((one) => one.name === shownRider()?.name) ?? all[0];
  const bags = mine.bags.filter((bag) => bag.items.length);
  const open = bags.reduce((sum, bag) => sum + bag.items.filter((item) => !packed(mine.name, bag, item)).length, 0);
  const now = running(mine);
  return [
    riderTabs(),
    el("div", { class: "progress", role: "status" },
      el("b", null, open ? several(open, "{n} row to go", "{n} rows to go") : say("All packed")),
      el("span", null, `${kilosOf(now.grams, mine.limit_g ?? mine.mass_g)}${now.weighed ? `, ${several(now.weighed, "{n} bag weighed", "{n} bags weighed")}` : ""}`),
      meter(say("Packed"), now.grams / (mine.limit_g ?? mine.mass_g), say("{mass} packed", { mass: kg(now.grams) }))),
    mine.limit_g && now.grams > mine.limit_g + 1 ? plate("warn", say("Heavier than your limit"), el("p", null, say("The scale says {mass} more.", { mass: kg(now.grams - mine.limit_g) }))) : null,
    question(trip) !== trip.answerFor ? el("p", { class: "soft" }, say("The kit is being reckoned anew; your ticks stay.")) : null,
    bags.map((bag) => bagToPack(bag, mine.bags.indexOf(bag) + 1, mine.name)),
    strays(mine),
    setsLine(mine.load?.sets),
    el("div", { class: "acts" }, button(say("Untick all"), () => untick(mine.name), { class: "plain" }), button(say("Print"), () => print(), { class: "plain", icon: "print" })),
  ];
}

/** How many sets of things that are used together are in one bag, and where the others are. @param {import("./types.js").Sets | undefined} sets */
function setsLine(sets) {
  if (!sets?.of) return null;
  const split = sets.split.map((set) => `${set.name} (${set.bags.join("; ")})`).join(", ");
  const whole = { whole: sets.whole };
  const together = sets.whole === 1 ? several(sets.of, "{whole} of {n} set is in one bag", "{whole} of {n} sets is in one bag", whole)
    : several(sets.of, "{whole} of {n} set are in one bag each", "{whole} of {n} sets are in one bag each", whole);
  return el("p", { class: "soft" }, split ? say("{together}; split: {sets}.", { together, sets: split }) : `${together}.`);
}

/** @param {PackedBag} bag @param {number} number @param {string} rider */
function bagToPack(bag, number, rider) {
  const done = bag.items.filter((item) => packed(rider, bag, item));
  const open = bag.items.filter((item) => !packed(rider, bag, item));
  const scale = state.trip?.scale[key(rider, bag.id)];
  const planned = bag.mass_g + bag.empty_g;
  return el("section", { class: `pack-bag ${open.length ? "" : "done"}`, "data-key": `pack-${bag.id}` },
    el("h2", { class: "pack-head" }, el("span", { class: "no" }, open.length ? String(number) : icon("proven")), el("span", { class: "words" }, el("bdi", null, whole(bag.name)), el("small", null, open.length ? say("{n} of {all} to pack", { n: open.length, all: bag.items.length }) : say("packed"))),
      el("button", { type: "button", class: "weigh", on: { click: () => weighSheet(rider, bag) } }, icon("scale"), el("span", null, scale === undefined ? kg(planned) : kg(scale), el("span", { class: "unseen" }, `: ${say("weigh {bag}", { bag: bag.name })}`)))),
    scale !== undefined && Math.abs(scale - planned) > 50 ? el("p", { class: "soft" }, scale > planned ? say("On your scale {mass} more than planned, bag included.", { mass: kg(scale - planned) }) : say("On your scale {mass} less than planned, bag included.", { mass: kg(planned - scale) })) : null,
    el("ul", { class: "boxes" }, open.map((item) => box(rider, bag, item))),
    done.length ? el("details", { class: "folded", "data-key": `done-${bag.id}` }, el("summary", null, several(done.length, "{n} row packed", "{n} rows packed")), el("ul", { class: "boxes" }, done.map((item) => box(rider, bag, item)))) : null);
}

/** @param {string} rider @param {PackedBag} bag @param {Packed} item */
function box(rider, bag, item) {
  const at = state.trip?.ticks[key(rider, item.id)];
  const elsewhere = at && at.bag !== bag.id ? nameOfBag(rider, at.bag) : null;
  const short = at && at.bag === bag.id && at.count < item.count ? say("{n} more", { n: item.count - at.count }) : null;
  return el("li", { "data-key": item.id }, tick({
    class: "pack-row", ticked: packed(rider, bag, item), set: (on) => setTick(rider, bag, item, on),
    words: [item.count > 1 ? el("b", null, `${item.count} × `) : null, el("bdi", null, shortName(item.id, item.name)), elsewhere ? el("small", null, saying("now in {bag}", { bag: el("bdi", null, elsewhere) })) : null, short ? el("small", null, short) : null, item.to_buy_in_kit ? el("em", { class: "buy" }, say("to buy")) : null],
  }));
}

/** @param {string} rider @param {string} id */
const nameOfBag = (rider, id) => carriers(state.trip?.answer).find((one) => one.name === rider)?.bags.find((bag) => bag.id === id)?.name ?? id;

/** @param {string} rider @param {PackedBag} bag @param {Packed} item @param {boolean} on */
function setTick(rider, bag, item, on) {
  const before = state.trip?.ticks[key(rider, item.id)];
  const put = (/** @type {any} */ value) => state.change((trip) => {
    if (value) trip.ticks[key(rider, item.id)] = value;
    else delete trip.ticks[key(rider, item.id)];
  }, "ticks");
  put(on ? { bag: bag.id, count: item.count } : null);
  notice(on ? say("{thing}: packed", { thing: shortName(item.id, item.name) }) : say("{thing}: unpacked", { thing: shortName(item.id, item.name) }), () => put(before ?? null));
}

/** Ticked things that the plan no longer has: they are in a bag, and should come out. @param {import("./types.js").Carrier} mine */
function strays(mine) {
  const planned = new Set(mine.bags.flatMap((bag) => bag.items.map((item) => item.id)));
  const out = Object.entries(state.trip?.ticks ?? {}).filter(([at]) => at.startsWith(`${mine.name}\n`) && !planned.has(at.slice(mine.name.length + 1)));
  if (!out.length) return null;
  return plate("warn", say("Packed, but no longer in the kit"), el("ul", { class: "strays" }, out.map(([at, { bag }]) => {
    const id = at.slice(mine.name.length + 1);
    return el("li", { "data-key": id }, el("span", null, saying("{thing} in {bag}", { thing: el("bdi", null, shortName(id, id)), bag: el("bdi", null, nameOfBag(mine.name, bag)) })), button(say("Taken out"), () => {
      const marked = structuredClone(state.trip?.ticks);
      state.change((trip) => delete trip.ticks[at], "ticks");
      notice(say("Taken out."), () => state.change((trip) => (trip.ticks = marked ?? {}), "ticks"));
    }, { class: "plain" }));
  })));
}

/** @param {string} rider */
function untick(rider) {
  const marked = structuredClone(state.trip?.ticks ?? {});
  state.change((trip) => Object.keys(trip.ticks).filter((at) => at.startsWith(`${rider}\n`)).forEach((at) => delete trip.ticks[at]), "ticks");
  notice(say("All unticked."), () => state.change((trip) => (trip.ticks = marked), "ticks"));
}

/** @param {string} rider @param {PackedBag} bag */
function weighSheet(rider, bag) {
  const at = key(rider, bag.id);
  openSheet(bag.name, () => {
    const scale = state.trip?.scale[at];
    return [
      el("p", null, say("Hang the packed bag on a scale and type in what it says, bag included.")),
      stepper({ label: say("On your scale"), unit: "kg", step: 0.1, high: 100, value: scale === undefined ? null : scale / 1000, quiet: kilos(bag.mass_g + bag.empty_g), set: (value) => state.change((trip) => (trip.scale[at] = value * 1000), "ticks") }),
      el("dl", { class: "facts" }, el("dt", null, say("Planned, with the bag")), el("dd", null, kg(bag.mass_g + bag.empty_g)), el("dt", null, say("The bag may carry")), el("dd", null, kg(bag.max_load_g))),
      scale !== undefined && scale - bag.empty_g > bag.max_load_g ? plate("stop", say("More than the bag may carry")) : null,
      scale === undefined ? null : row(say("Forget what the scale said"), "", () => state.change((trip) => delete trip.scale[at], "ticks")),
    ];
  });
}

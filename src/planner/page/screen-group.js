/**
 * The group: who rides, who carries how much, what goes from one to another by drag or by button, and who may turn back. What is
 * moved by hand is added up here at once; a new split forgets it.
 */

import { el } from "./dom.js";
import { icon } from "./icons.js";
import { isGroup, riders } from "./journey.js";
import { carriers } from "./kit.js";
import { button, choice, heading, meter, noClick, plate, row, stepper, tick } from "./parts.js";
import { reckon } from "./planner.js";
import { say, saying, several } from "./say.js";
import { newRider, rename } from "./screen-bike.js";
import { shortName } from "./screen-kit.js";
import { openSheet, notice, shutSheet } from "./sheet.js";
import * as state from "./state.js";
import * as units from "./units.js";
import { openWhy } from "./why.js";
import { hours, kg, kilosOf, percent } from "./words.js";

/** Most riders of a group, as the engine has it. */
const MOST = 12;
/** What a thing is moved by: a finger that went this far, in pixels. */
const FAR = 8;

export function groupScreen() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const all = riders(trip.scenario);
  const group = isGroup(trip.scenario);
  const shared = group && Array.isArray(trip.answer?.riders);
  const carried = shared ? carriers(trip.answer, trip.moved) : [];
  return [
    group ? null : plate("say", say("Riding alone"), el("p", null, say("Add a rider, and one kit is shared: one pump, one stove, and nobody without what a leg demands."))),
    el("div", { class: "riders-cards" }, all.map((rider, at) => riderCard(rider, at, carried.find((one) => one.name === rider.name)))),
    all.length < MOST ? button(say("Add a rider"), addRider, { icon: "more" }) : el("p", { class: "soft" }, say("{n} riders are the most that one kit is shared by.", { n: MOST })),
    group ? sharing(trip) : null,
    shared ? [board(trip, carried), leaving(trip), doubles(trip)] : null,
  ];
}

/** @param {any} rider @param {number} at @param {import("./types.js").Carrier | undefined} carrier */
function riderCard(rider, at, carrier) {
  const limit = carrier?.limit_g ?? null;
  return el("details", { class: "card rider", "data-key": `rider-${at}` },
    el("summary", null, el("b", null, el("bdi", null, rider.name)), el("small", null, carrier ? kilosOf(carrier.mass_g, limit) : (rider.bike || say("no bike yet"))), limit && carrier ? meter(rider.name, carrier.mass_g / limit, say("{part} of {whole}", { part: kg(carrier.mass_g), whole: kg(limit) })) : null),
    el("label", { class: "field-line" }, el("span", null, say("Name")), el("input", { type: "text", maxlength: 60, value: rider.name, on: { change: (/** @type {any} */ event) => rename(at, event.target.value) } })),
    stepper({ label: say("Own limit"), name: `limit-${at}`, hint: say("0: that of everybody"), unit: "kg", step: 0.5, high: 100, value: (units.read(rider.kit_mass, "mass") ?? 0) / 1000, set: (value) => edit(at, (one) => (value ? (one.kit_mass = `${value} kg`) : delete one.kit_mass)) }),
    [["leads", say("Leads")], ["last", say("Rides last")], ["medic", say("Looks after the hurt")]].map(([role, words]) => tick({ words, ticked: (rider.roles ?? []).includes(role), set: (on) => edit(at, (one) => {
      one.roles = on ? [...(one.roles ?? []), role] : (one.roles ?? []).filter((/** @type {string} */ each) => each !== role);
      if (!one.roles.length) delete one.roles;
    }) })),
    row(say("Bike, bags and skills"), rider.bike ? "" : say("choose a bike"), () => { state.view.rider = rider.name; location.hash = "#/bike"; }),
    riders(/** @type {any} */ (state.trip).scenario).length > 1 ? button(say("Rides without us"), () => remove(at), { class: "plain", icon: "gone", "aria-label": say("{rider} rides without us", { rider: rider.name }) }) : null);
}

/** @param {number} at @param {(rider: any) => void} how */
const edit = (at, how) => state.change(({ scenario }) => how(riders(scenario)[at]));

function addRider() {
  state.change((trip) => {
    const all = (trip.scenario.riders ??= []);
    let count = all.length + 1;
    while (all.some((/** @type {any} */ each) => each.name === say("Rider {n}", { n: count }))) count += 1;
    const like = all[0];
    all.push({ ...newRider(say("Rider {n}", { n: count })), ...(like ? { bike: like.bike, bags: [...(like.bags ?? [])], owns: structuredClone(like.owns ?? {}) } : {}) });
    trip.moved = [];
  });
}

/** @param {number} at */
function remove(at) {
  const marked = state.mark();
  state.change((trip) => {
    const [gone] = trip.scenario.riders.splice(at, 1);
    for (const leg of trip.scenario.trip?.legs ?? []) {
      if (!leg.riders) continue;
      leg.riders = leg.riders.filter((/** @type {string} */ each) => each !== gone.name);
    }
    if (trip.scenario.trip?.legs) trip.scenario.trip.legs = trip.scenario.trip.legs.filter((/** @type {any} */ leg) => !leg.riders || leg.riders.length);
    if (trip.scenario.group?.shares) delete trip.scenario.group.shares[gone.name];
    if (trip.scenario.riders.length < 2) delete trip.scenario.group;
    trip.moved = [];
  });
  notice(say("One less."), () => state.back(marked));
}

/** @param {import("./types.js").State} trip */
function sharing(trip) {
  const group = trip.scenario.group ?? {};
  const set = (/** @type {(group: any) => void} */ how) => state.change(({ scenario }) => how((scenario.group ??= {})));
  const fair = group.fair ?? "equal";
  return el("section", null, heading(say("How it is shared")),
    choice({ label: say("A fair share"), value: fair, options: [["equal", say("The same for all")], ["spare payload", say("By what each bike can bear")], ["stated", say("As we say")]], set: (value) => set((now) => {
      now.fair = value;
      if (value === "stated") now.shares ??= Object.fromEntries(riders(trip.scenario).map((rider) => [rider.name, 1]));
      else delete now.shares;
    }) }),
    fair === "stated" ? el("div", { class: "grid" }, riders(trip.scenario).map((rider, at) => stepper({ label: rider.name, name: `share-${at}`, step: 0.25, high: 10, value: group.shares?.[rider.name] ?? 1, set: (value) => set((now) => ((now.shares ??= {})[rider.name] = value)) }))) : null,
    choice({ label: say("If any one of us leaves, the rest keep"), value: String(state.view.at.keep ?? ""), options: [["", say("Whatever is left")], ["0.5", say("half")], ["0.8", say("four fifths")], ["0.95", say("nearly all")]], set: (value) => { state.view.at.keep = value ? Number(value) : undefined; state.change((now) => { now.answerState = ""; now.answerFor = ""; }); } }));
}

/** @param {import("./types.js").State} trip @param {import("./types.js").Carrier[]} all */
function board(trip, all) {
  return el("section", null, heading(say("Who carries what")),
    el("p", { class: "soft" }, say("Drag a thing to a rider, or tap it to move it with what works with it.")),
    trip.moved.length ? plate("say", several(trip.moved.length, "{n} thing moved by hand", "{n} things moved by hand"), el("div", { class: "acts" },
      button(say("Put back"), () => { const marked = state.mark(); state.change((now) => (now.moved = []), "ticks"); notice(say("As the split had it."), () => state.back(marked)); }),
      button(say("Split anew"), () => { state.change((now) => { now.moved = []; now.answerFor = ""; now.answerState = ""; }); reckon(true); }, { class: "plain" }))) : null,
    el("div", { class: "board" }, all.map((one) => lane(one, all))));
}

/** @param {import("./types.js").Carrier} one @param {import("./types.js").Carrier[]} all */
function lane(one, all) {
  const most = Math.max(...all.flatMap((each) => [each.limit_g ?? 0, each.mass_g, each.share_g ?? 0]));
  const over = one.limit_g !== null && one.mass_g > one.limit_g;
  const things = one.bags.flatMap((bag) => bag.items.map((item) => ({ item, bag }))).sort((a, b) => b.item.mass_g - a.item.mass_g);
  const whole = state.view.at[`lane-${one.name}`];
  return el("section", { class: `lane ${over ? "over" : ""}`, "data-key": one.name, "data-lane": one.name },
    el("h3", null, el("bdi", null, one.name), el("small", null, `${kilosOf(one.mass_g, one.limit_g)}${one.share_g ? ` · ${say("{share} of a fair share", { share: percent(one.mass_g / one.share_g) })}` : ""}`)),
    el("div", { class: "share", role: "img", "aria-label": `${one.name}: ${one.limit_g ? say("{part} of {whole}", { part: kg(one.mass_g), whole: kg(one.limit_g) }) : kg(one.mass_g)}`, vars: { "--mass": `${((one.mass_g / most) * 100).toFixed(1)}%`, "--fair": `${(((one.share_g ?? 0) / most) * 100).toFixed(1)}%` } }, el("i", null)),
    over ? el("p", { class: "warned" }, icon("care"), say("{mass} over the limit", { mass: kg(one.mass_g - /** @type {number} */ (one.limit_g)) })) : null,
    el("ul", { class: "flow" }, things.slice(0, whole ? 999 : 10).map(({ item }) => el("li", { "data-key": item.id },
      el("button", { type: "button", class: `chip drag ${/** @type {any} */ (item).moved ? "asked" : ""}`, on: { click: () => moveSheet(item.id, one.name), pointerdown: (/** @type {any} */ event, /** @type {any} */ node) => drag(event, node, item, one.name) } },
        item.count > 1 ? `${item.count} × ` : "", el("bdi", null, shortName(item.id, item.name)), el("small", null, ` ${kg(item.mass_g)}`))))),
    things.length > 10 && !whole ? button(say("{n} more", { n: things.length - 10 }), () => { state.view.at[`lane-${one.name}`] = true; state.show(); }, { class: "plain", "aria-label": say("{n} more of {rider}", { n: things.length - 10, rider: one.name }) }) : null);
}

/** What works together with a thing: whatever serves its first purpose. @param {string} id @param {string} rider */
export function setOf(id, rider) {
  const one = carriers(state.trip?.answer, state.trip?.moved ?? []).find((each) => each.name === rider);
  const items = one?.bags.flatMap((bag) => bag.items) ?? [];
  const purpose = items.find((item) => item.id === id)?.purposes?.[0];
  return purpose ? items.filter((item) => item.id !== id && item.purposes?.includes(purpose) && !["food", "water", "fuel"].includes(item.kind)).map((item) => item.id) : [];
}

/** @param {string} id @param {string} from */
function moveSheet(id, from) {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const name = shortName(id, id);
  const set = setOf(id, from);
  let whole = false;
  openSheet(name, () => [
    el("p", null, saying("With {rider}. Move it to:", { rider: el("bdi", null, from) })),
    set.length ? tick({ words: say("with what works with it: {things}", { things: set.map((each) => shortName(each, each)).join(", ") }), ticked: whole, set: (on) => { whole = on; } }) : null,
    el("div", { class: "rows" }, carriers(trip.answer, trip.moved).filter((one) => one.name !== from).map((one) => row(el("bdi", null, one.name), kilosOf(one.mass_g, one.limit_g), () => { move(whole ? [id, ...set] : [id], from, one.name); shutSheet(); }, { "data-key": one.name }))),
    row(say("Why is it in the kit?"), "", () => openWhy(id, from)),
  ]);
}

/** @param {string[]} ids @param {string} from @param {string} to */
export function move(ids, from, to) {
  if (from === to) return;
  const marked = structuredClone(state.trip?.moved ?? []);
  state.change((trip) => {
    trip.moved = [...trip.moved, ...ids.map((item) => ({ item, from, to }))];
  }, "ticks");
  notice(ids.length > 1 ? several(ids.length, "{n} thing to {rider}.", "{n} things to {rider}.", { rider: to }) : say("{thing} to {rider}.", { thing: shortName(ids[0], ids[0]), rider: to }), () => state.change((trip) => (trip.moved = marked), "ticks"));
}

/** A thing follows the finger to another rider's lane. @param {PointerEvent} event @param {HTMLElement} chip @param {import("./types.js").Packed} item @param {string} from */
function drag(event, chip, item, from) {
  if (event.button) return;
  const [x0, y0] = [event.clientX, event.clientY];
  /** @type {HTMLElement | null} */
  let ghost = null;
  /** @type {HTMLElement | null} */
  let strip = null;
  /** @type {Element | null} */
  let over = null;
  const at = (/** @type {PointerEvent} */ now) => {
    if (!ghost) {
      if (Math.hypot(now.clientX - x0, now.clientY - y0) < FAR) return;
      ghost = el("div", { class: "ghost" }, shortName(item.id, item.name));
      // Lanes may lie screens away: every rider is also at the top while a thing is held.
      strip = el("div", { class: "drop-strip" }, carriers(state.trip?.answer).filter((one) => one.name !== from).map((one) => el("span", { "data-lane": one.name }, el("bdi", null, one.name))));
      document.body.append(/** @type {HTMLElement} */ (strip), /** @type {HTMLElement} */ (ghost));
    }
    ghost?.style.setProperty("--x", `${now.clientX}px`);
    ghost?.style.setProperty("--y", `${now.clientY}px`);
    over?.classList.remove("near");
    over = document.elementFromPoint(now.clientX, now.clientY)?.closest("[data-lane]") ?? null;
    over?.classList.add("near");
    if (now.clientY > innerHeight - 150) scrollBy(0, 8);
  };
  const end = (/** @type {PointerEvent} */ now) => {
    chip.removeEventListener("pointermove", at);
    chip.removeEventListener("pointerup", end);
    chip.removeEventListener("pointercancel", end);
    over?.classList.remove("near");
    if (!ghost) return;
    ghost.remove();
    strip?.remove();
    noClick(chip);
    const to = over?.getAttribute("data-lane");
    if (now.type === "pointerup" && to) move([item.id], from, to);
  };
  chip.setPointerCapture(event.pointerId);
  chip.addEventListener("pointermove", at);
  chip.addEventListener("pointerup", end);
  chip.addEventListener("pointercancel", end);
}

/** @param {import("./types.js").State} trip */
function leaving(trip) {
  const list = trip.answer.if_one_leaves ?? [];
  if (!list.length) return null;
  return el("section", null, heading(say("Who may leave")),
    trip.moved.length ? el("p", { class: "soft" }, say("By the split, before what you moved.")) : null,
    el("ul", { class: "leaving" }, list.map((/** @type {any} */ one) => el("li", { "data-key": one.rider }, el("span", { class: "words" }, el("bdi", null, one.rider), el("small", null, one.no_longer_mended.length ? unmended(one.no_longer_mended) : say("the rest mend all they could"))),
      el("b", null, percent(one.share_kept)), meter(one.rider, one.share_kept, say("{share} kept, {hours} saved", { share: percent(one.share_kept), hours: hours(one.hours_saved_with_rest) }))))),
    (trip.answer.apart ?? []).flatMap((/** @type {any} */ apart) => apart.lacking.map((/** @type {any} */ lack) => plate("warn", say("On {legs}", { legs: apart.legs.join(", ") }), el("p", null, saying("{riders} ride without {thing}; it is with {others}.", { riders: el("bdi", null, apart.riders.join(", ")), thing: lack.name, others: el("bdi", null, lack.with.join(", ")) }))))));
}

/** @param {string[]} all */
function unmended(all) {
  const list = all.slice(0, 3).join("; ");
  return all.length > 3 ? say("the rest cannot mend: {list}; {n} more", { list, n: all.length - 3 }) : say("the rest cannot mend: {list}", { list });
}

/** @param {import("./types.js").State} trip */
function doubles(trip) {
  const only = trip.answer.only_copies ?? [];
  if (!only.length) return null;
  return el("details", { class: "card", "data-key": "only" }, el("summary", null, el("b", null, say("There is only one of these")), el("small", null, String(only.length))),
    el("ul", { class: "dots" }, only.slice(0, 30).map((/** @type {any} */ each) => el("li", null, saying("{thing} with {riders}: {hours} lost without it", { thing: each.name, riders: el("bdi", null, each.carried_by.map((/** @type {any} */ by) => by.rider).join(", ")), hours: hours(each.hours_lost_without) })))));
}

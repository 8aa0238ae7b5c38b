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
import { newRider, rename } from "./screen-bike.js";
import { shortName } from "./screen-kit.js";
import { openSheet, say, shutSheet } from "./sheet.js";
import * as state from "./state.js";
import * as units from "./units.js";
import { openWhy } from "./why.js";
import { hours, kg, kilos, percent, plural } from "./words.js";

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
    group ? null : plate("say", "Riding alone", el("p", null, "Add a rider, and one kit is shared: one pump, one stove, and nobody without what a leg demands.")),
    el("div", { class: "riders-cards" }, all.map((rider, at) => riderCard(rider, at, carried.find((one) => one.name === rider.name)))),
    all.length < MOST ? button("Add a rider", addRider, { icon: "more" }) : el("p", { class: "soft" }, `${MOST} riders are the most that one kit is shared by.`),
    group ? sharing(trip) : null,
    shared ? [board(trip, carried), leaving(trip), doubles(trip)] : null,
  ];
}

/** @param {any} rider @param {number} at @param {import("./types.js").Carrier | undefined} carrier */
function riderCard(rider, at, carrier) {
  const limit = carrier?.limit_g ?? null;
  return el("details", { class: "card rider", "data-key": `rider-${at}` },
    el("summary", null, el("b", null, el("bdi", null, rider.name)), el("small", null, carrier ? `${kilos(carrier.mass_g)}${limit ? ` of ${kilos(limit)}` : ""} kg` : (rider.bike || "no bike yet")), limit && carrier ? meter(rider.name, carrier.mass_g / limit, `${kg(carrier.mass_g)} of ${kg(limit)}`) : null),
    el("label", { class: "field-line" }, el("span", null, "Name"), el("input", { type: "text", maxlength: 60, value: rider.name, on: { change: (/** @type {any} */ event) => rename(at, event.target.value) } })),
    stepper({ label: "Own limit", name: `limit-${at}`, hint: "0: that of everybody", unit: "kg", step: 0.5, high: 100, value: (units.read(rider.kit_mass, "mass") ?? 0) / 1000, set: (value) => edit(at, (one) => (value ? (one.kit_mass = `${value} kg`) : delete one.kit_mass)) }),
    [["leads", "Leads"], ["last", "Rides last"], ["medic", "Looks after the hurt"]].map(([role, words]) => tick({ words, ticked: (rider.roles ?? []).includes(role), set: (on) => edit(at, (one) => {
      one.roles = on ? [...(one.roles ?? []), role] : (one.roles ?? []).filter((/** @type {string} */ each) => each !== role);
      if (!one.roles.length) delete one.roles;
    }) })),
    row("Bike, bags and skills", rider.bike ? "" : "choose a bike", () => { state.view.rider = rider.name; location.hash = "#/bike"; }),
    riders(/** @type {any} */ (state.trip).scenario).length > 1 ? button("Rides without us", () => remove(at), { class: "plain", icon: "gone", "aria-label": `${rider.name} rides without us` }) : null);
}

/** @param {number} at @param {(rider: any) => void} how */
const edit = (at, how) => state.change(({ scenario }) => how(riders(scenario)[at]));

function addRider() {
  state.change((trip) => {
    const all = (trip.scenario.riders ??= []);
    let count = all.length + 1;
    while (all.some((/** @type {any} */ each) => each.name === `Rider ${count}`)) count += 1;
    const like = all[0];
    all.push({ ...newRider(`Rider ${count}`), ...(like ? { bike: like.bike, bags: [...(like.bags ?? [])], owns: structuredClone(like.owns ?? {}) } : {}) });
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
  say("One less.", () => state.back(marked));
}

/** @param {import("./types.js").State} trip */
function sharing(trip) {
  const group = trip.scenario.group ?? {};
  const set = (/** @type {(group: any) => void} */ how) => state.change(({ scenario }) => how((scenario.group ??= {})));
  const fair = group.fair ?? "equal";
  return el("section", null, heading("How it is shared"),
    choice({ label: "A fair share", value: fair, options: [["equal", "The same for all"], ["spare payload", "By what each bike can bear"], ["stated", "As we say"]], set: (value) => set((now) => {
      now.fair = value;
      if (value === "stated") now.shares ??= Object.fromEntries(riders(trip.scenario).map((rider) => [rider.name, 1]));
      else delete now.shares;
    }) }),
    fair === "stated" ? el("div", { class: "grid" }, riders(trip.scenario).map((rider, at) => stepper({ label: rider.name, name: `share-${at}`, step: 0.25, high: 10, value: group.shares?.[rider.name] ?? 1, set: (value) => set((now) => ((now.shares ??= {})[rider.name] = value)) }))) : null,
    choice({ label: "If any one of us leaves, the rest keep", value: String(state.view.at.keep ?? ""), options: [["", "Whatever is left"], ["0.5", "half"], ["0.8", "four fifths"], ["0.95", "nearly all"]], set: (value) => { state.view.at.keep = value ? Number(value) : undefined; state.change((now) => { now.answerState = ""; now.answerFor = ""; }); } }));
}

/** @param {import("./types.js").State} trip @param {import("./types.js").Carrier[]} all */
function board(trip, all) {
  return el("section", null, heading("Who carries what"),
    el("p", { class: "soft" }, "Drag a thing to a rider, or tap it to move it with what works with it."),
    trip.moved.length ? plate("say", `${plural(trip.moved.length, "thing")} moved by hand`, el("div", { class: "acts" },
      button("Put back", () => { const marked = state.mark(); state.change((now) => (now.moved = []), "ticks"); say("As the split had it.", () => state.back(marked)); }),
      button("Split anew", () => { state.change((now) => { now.moved = []; now.answerFor = ""; now.answerState = ""; }); reckon(true); }, { class: "plain" }))) : null,
    el("div", { class: "board" }, all.map((one) => lane(one, all))));
}

/** @param {import("./types.js").Carrier} one @param {import("./types.js").Carrier[]} all */
function lane(one, all) {
  const most = Math.max(...all.flatMap((each) => [each.limit_g ?? 0, each.mass_g, each.share_g ?? 0]));
  const over = one.limit_g !== null && one.mass_g > one.limit_g;
  const things = one.bags.flatMap((bag) => bag.items.map((item) => ({ item, bag }))).sort((a, b) => b.item.mass_g - a.item.mass_g);
  const whole = state.view.at[`lane-${one.name}`];
  return el("section", { class: `lane ${over ? "over" : ""}`, "data-key": one.name, "data-lane": one.name },
    el("h3", null, el("bdi", null, one.name), el("small", null, `${kilos(one.mass_g)}${one.limit_g ? ` of ${kilos(one.limit_g)}` : ""} kg${one.share_g ? ` · ${percent(one.mass_g / one.share_g)} of a fair share` : ""}`)),
    el("div", { class: "share", role: "img", "aria-label": `${one.name}: ${kg(one.mass_g)}${one.limit_g ? ` of ${kg(one.limit_g)}` : ""}`, vars: { "--mass": `${((one.mass_g / most) * 100).toFixed(1)}%`, "--fair": `${(((one.share_g ?? 0) / most) * 100).toFixed(1)}%` } }, el("i", null)),
    over ? el("p", { class: "warned" }, icon("care"), `${kg(one.mass_g - /** @type {number} */ (one.limit_g))} over the limit`) : null,
    el("ul", { class: "flow" }, things.slice(0, whole ? 999 : 10).map(({ item }) => el("li", { "data-key": item.id },
      el("button", { type: "button", class: `chip drag ${/** @type {any} */ (item).moved ? "asked" : ""}`, on: { click: () => moveSheet(item.id, one.name), pointerdown: (/** @type {any} */ event, /** @type {any} */ node) => drag(event, node, item, one.name) } },
        item.count > 1 ? `${item.count} × ` : "", el("bdi", null, shortName(item.id, item.name)), el("small", null, ` ${kg(item.mass_g)}`))))),
    things.length > 10 && !whole ? button(`${things.length - 10} more`, () => { state.view.at[`lane-${one.name}`] = true; state.show(); }, { class: "plain", "aria-label": `${things.length - 10} more of ${one.name}` }) : null);
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
    el("p", null, "With ", el("bdi", null, from), ". Move it to:"),
    set.length ? tick({ words: ["with what works with it: ", set.map((each) => shortName(each, each)).join(", ")], ticked: whole, set: (on) => { whole = on; } }) : null,
    el("div", { class: "rows" }, carriers(trip.answer, trip.moved).filter((one) => one.name !== from).map((one) => row(el("bdi", null, one.name), `${kilos(one.mass_g)}${one.limit_g ? ` of ${kilos(one.limit_g)}` : ""} kg`, () => { move(whole ? [id, ...set] : [id], from, one.name); shutSheet(); }, { "data-key": one.name }))),
    row("Why is it in the kit?", "", () => openWhy(id, from)),
  ]);
}

/** @param {string[]} ids @param {string} from @param {string} to */
export function move(ids, from, to) {
  if (from === to) return;
  const marked = structuredClone(state.trip?.moved ?? []);
  state.change((trip) => {
    trip.moved = [...trip.moved, ...ids.map((item) => ({ item, from, to }))];
  }, "ticks");
  say(`${ids.length > 1 ? `${ids.length} things` : shortName(ids[0], ids[0])} to ${to}.`, () => state.change((trip) => (trip.moved = marked), "ticks"));
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
  return el("section", null, heading("Who may leave"),
    trip.moved.length ? el("p", { class: "soft" }, "By the split, before what you moved.") : null,
    el("ul", { class: "leaving" }, list.map((/** @type {any} */ one) => el("li", { "data-key": one.rider }, el("span", { class: "words" }, el("bdi", null, one.rider), el("small", null, one.no_longer_mended.length ? `the rest cannot mend: ${one.no_longer_mended.slice(0, 3).join("; ")}${one.no_longer_mended.length > 3 ? `; ${one.no_longer_mended.length - 3} more` : ""}` : "the rest mend all they could")),
      el("b", null, percent(one.share_kept)), meter(one.rider, one.share_kept, `${percent(one.share_kept)} kept, ${hours(one.hours_saved_with_rest)} saved`)))),
    (trip.answer.apart ?? []).flatMap((/** @type {any} */ apart) => apart.lacking.map((/** @type {any} */ lack) => plate("warn", `On ${apart.legs.join(", ")}`, el("p", null, el("bdi", null, apart.riders.join(", ")), ` ride without ${lack.name}; it is with `, el("bdi", null, lack.with.join(", ")), ".")))));
}

/** @param {import("./types.js").State} trip */
function doubles(trip) {
  const only = trip.answer.only_copies ?? [];
  if (!only.length) return null;
  return el("details", { class: "card", "data-key": "only" }, el("summary", null, el("b", null, "There is only one of these"), el("small", null, String(only.length))),
    el("ul", { class: "dots" }, only.slice(0, 30).map((/** @type {any} */ each) => el("li", null, each.name, " with ", el("bdi", null, each.carried_by.map((/** @type {any} */ by) => by.rider).join(", ")), `: ${hours(each.hours_lost_without)} lost without it`))));
}

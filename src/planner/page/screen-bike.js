/** The bike: which, measured or not, its rider, the bags on it, and what the wheels bear. */

import { el } from "./dom.js";
import { bagsOf, bikeOf, riders } from "./journey.js";
import { carriers } from "./kit.js";
import { limits, wheels } from "./loads.js";
import { openMeasuring } from "./measure.js";
import { button, choice, heading, meter, noClick, plate, row, stepper, tick } from "./parts.js";
import { picture, place } from "./picture.js";
import { work } from "./planner.js";
import { riderTabs, shownRider } from "./rider.js";
import { both, say, several } from "./say.js";
import { chooseBike } from "./screen-start.js";
import { notice } from "./sheet.js";
import * as state from "./state.js";
import * as units from "./units.js";
import { kilos, litres, percent, whole } from "./words.js";

/** A finger that went less far than this taps, in pixels. */
const FAR = 8;
/** A bag let go this near its place goes there, in units of the picture. */
const NEAR = 60;

export function bikeScreen() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const catalogue = /** @type {import("./types.js").Catalogue} */ (state.view.catalogue);
  const rider = shownRider();
  if (!rider) return plate("say", say("Nobody rides yet"), button(say("Add a rider"), () => state.change(({ scenario }) => (scenario.riders = [newRider(say("Rider {n}", { n: 1 }))]))));
  const bike = bikeOf(trip.scenario, rider, catalogue);
  const at = riders(trip.scenario).indexOf(rider);
  const edit = (/** @type {(rider: any) => void} */ how) => state.change(({ scenario }) => how(riders(scenario)[at]));
  const measured = Boolean(trip.scenario.catalogue?.bikes?.[rider.bike]);
  return [
    riderTabs(),
    el("div", { class: "rows" },
      row(el("bdi", null, bike?.name ?? say("Choose a bike")), say("change"), () => chooseBike(rider.bike, (id) => edit((one) => (one.bike = id)))),
      bike ? row(say("Measure your bike"), measured ? say("yours") : say("class values"), () => openMeasuring(at)) : null),
    measured || !bike ? null : el("p", { class: "soft" }, say("Every size here is that of the class. The wrong axle spanner is dead weight: measure at the bike.")),
    bike ? withBags(trip, rider, bike, edit) : null,
    heading(say("The rider")),
    el("label", { class: "field-line" }, el("span", null, say("Name")), el("input", { type: "text", maxlength: 60, value: rider.name ?? "", on: { change: (/** @type {any} */ event) => rename(at, event.target.value) } })),
    el("div", { class: "grid" },
      stepper({ label: say("Mass, dressed to ride"), unit: "kg", low: 20, high: 250, places: 1, value: kg(rider.mass), set: (value) => edit((one) => (one.mass = `${value} kg`)) }),
      stepper({ label: say("Passenger"), unit: "kg", hint: say("0: nobody"), high: 250, places: 1, step: 5, value: kg(rider.passenger) ?? 0, set: (value) => edit((one) => (value ? (one.passenger = `${value} kg`) : delete one.passenger)) })),
    choice({ label: say("How you ride"), value: rider.riding_skill ?? "", options: [["novice", say("Novice")], ["intermediate", say("Intermediate")], ["advanced", say("Advanced")], ["expert", say("Expert")]], set: (value) => edit((one) => (one.riding_skill = value)) }),
    choice({ label: say("What you can mend beside the track"), value: rider.repair_skill ?? "", options: [["anyone", say("Pump, tape, fuses")], ["handy", say("Tyres, chain, levers")], ["skilled", say("Most of the engine's outside")], ["expert", say("Nearly anything")]], set: (value) => edit((one) => (one.repair_skill = value)) }),
    el("p", { class: "soft" }, say("What you have not practised at home does not count as mended.")),
    tick({ words: say("Takes medicine every day"), ticked: rider.medicine === true, set: (on) => edit((one) => (on ? (one.medicine = true) : delete one.medicine)) }),
  ];
}

/** @param {unknown} text */
function kg(text) {
  const grams = units.read(text, "mass");
  return grams === null ? null : grams / 1000;
}

/** @param {string} name */
export const newRider = (name) => ({ name, bike: "", riding_skill: "intermediate", repair_skill: "handy", mass: "85 kg", bags: [], owns: {} });

/** A rider's name stands in several places of the file. @param {number} at @param {string} name */
export function rename(at, name) {
  state.change((trip) => {
    const { scenario } = trip;
    const rider = riders(scenario)[at];
    const old = rider.name;
    if (!name.trim() || riders(scenario).some((each) => each !== rider && each.name === name)) return notice(say("Two riders cannot have one name."));
    rider.name = name;
    for (const leg of scenario.trip?.legs ?? []) if (leg.riders) leg.riders = leg.riders.map((/** @type {string} */ each) => (each === old ? name : each));
    const shares = scenario.group?.shares;
    if (shares && old in shares) {
      shares[name] = shares[old];
      delete shares[old];
    }
    if (state.view.rider === old) state.view.rider = name;
    for (const kept of [trip.ticks, trip.scale]) {
      for (const key of Object.keys(kept)) {
        if (!key.startsWith(`${old}\n`)) continue;
        /** @type {any} */ (kept)[name + key.slice(old.length)] = kept[key];
        delete kept[key];
      }
    }
  });
}

/** @param {any} trip @param {any} rider @param {import("./types.js").Bike} bike @param {(how: (rider: any) => void) => void} edit */
function withBags(trip, rider, bike, edit) {
  const catalogue = /** @type {import("./types.js").Catalogue} */ (state.view.catalogue);
  const on = bagsOf(trip.scenario, rider, catalogue);
  const own = new Set(bike.bags);
  const carried = new Map((carriers(trip.answer, trip.moved).find((one) => one.name === rider.name)?.bags ?? []).map((each) => [each.id, each]));
  const loaded = on.map((bag) => ({ bag, kit_g: carried.get(bag.id)?.mass_g ?? 0 }));
  const people = (units.read(rider.mass, "mass") ?? 0) + (units.read(rider.passenger, "mass") ?? 0);
  // The sums fill the tank, which the mass ready to ride leaves a tenth empty.
  const full = work.check?.riders?.find((/** @type {any} */ each) => each.rider === rider.name)?.loads?.[0]?.bike_g ?? bike.mass_g;
  const now = wheels({ ...bike, mass_g: full }, people, loaded);
  const most = limits(bike);
  const chosen = state.view.at.bag ?? null;
  const takeOff = (/** @type {string} */ id) => {
    if (own.has(id)) return notice(say("That one is part of the bike."));
    const marked = state.mark();
    edit((one) => (one.bags = (one.bags ?? []).filter((/** @type {string} */ each) => each !== id)));
    notice(say("Bag taken off."), () => state.back(marked));
  };
  const putOn = (/** @type {string} */ id) => edit((one) => (one.bags = [...new Set([...(one.bags ?? []), id])]));
  const spare = catalogue.bags.filter((bag) => !on.some((each) => each.id === bag.id));
  const used = (/** @type {number} */ bears, /** @type {number | null} */ limit) => (limit ? say("{share} of {limit} kg", { share: percent(bears / limit), limit: Math.round(limit / 1000) }) : say("no limit known"));
  return [
    heading(say("Bags")),
    el("div", { class: "drop-place", "data-drop": "bike" }, picture({
      wheelbase_mm: bike.wheelbase_mm, id: "bike", chosen,
      placed: on.map((bag, at) => ({ bag, number: at + 1, full: (carried.get(bag.id)?.filled_ml ?? 0) / bag.usable_ml })),
      axles: { front: [say("front {mass} kg", { mass: kilos(now.front_g) }), used(now.front_g, most.front_g)], rear: [say("rear {mass} kg", { mass: kilos(now.rear_g) }), used(now.rear_g, most.rear_g)] },
      label: several(on.length, "The bike from its left, with {n} bag. Front wheel {front} kg, rear wheel {rear} kg.", "The bike from its left, with {n} bags. Front wheel {front} kg, rear wheel {rear} kg.", { front: kilos(now.front_g), rear: kilos(now.rear_g) }),
      tap: (id) => { state.view.at.bag = id; state.show(); },
    })),
    wheelPlates(now, most),
    el("ol", { class: "bags-on" }, on.map((bag, at) => el("li", { "data-key": bag.id, class: chosen === bag.id ? "chosen" : "" },
      el("span", { class: "no" }, String(at + 1)),
      el("span", { class: "words" }, el("bdi", null, whole(bag.name)), el("small", null, say("holds {room}, {mass} kg", { room: litres(bag.usable_ml), mass: kilos(bag.max_load_g) }))),
      own.has(bag.id) ? el("span", { class: "beside" }, say("on the bike")) : button(say("Take off"), () => takeOff(bag.id), { class: "plain", "aria-label": say("Take off: {bag}", { bag: bag.name }) })))),
    spare.length ? el("details", { class: "card", open: on.length === 0 }, el("summary", null, el("b", null, say("Put on a bag")), el("small", null, say("drag it onto the bike, or tap Put on"))),
      el("ul", { class: "bags-off" }, spare.map((bag) => el("li", { "data-key": bag.id },
        el("button", { type: "button", class: "grip", "aria-label": say("Drag {bag} onto the bike", { bag: bag.name }), on: { pointerdown: (/** @type {any} */ event, /** @type {any} */ node) => drag(event, node, bag, bike, putOn), click: () => putOn(bag.id) } }, "⠿"),
        el("span", { class: "words" }, el("bdi", null, whole(bag.name)), el("small", null, `${litres(bag.volume_ml)} · ${kilos(bag.mass_g)} kg`)),
        button(say("Put on"), () => putOn(bag.id), { class: "plain", "aria-label": say("Put on: {bag}", { bag: bag.name }) }))))) : null,
  ];
}

/** @param {any} now @param {any} most */
function wheelPlates(now, most) {
  const over = ["front_g", "rear_g", "total_g"].filter((part) => most[part] && now[part] > most[part]);
  const words = { front_g: say("front wheel"), rear_g: say("rear wheel"), total_g: say("whole bike") };
  return [
    el("div", { class: "wheels" }, ["front_g", "rear_g", "total_g"].map((part) => el("span", null, el("b", null, `${kilos(now[part])} kg`), el("small", null, /** @type {any} */ (words)[part]),
      most[part] ? meter(/** @type {any} */ (words)[part], now[part] / most[part], say("{share} of what it may bear", { share: percent(now[part] / most[part]) })) : null))),
    over.length ? plate("stop", say("Too heavy"), el("p", null, say("More than the {parts} may bear. Plate, manual and sidewall decide.", { parts: both(over.map((part) => /** @type {any} */ (words)[part])) }))) : null,
  ];
}

/** A bag follows the finger and goes on where it is let go near its place. @param {PointerEvent} event @param {HTMLElement} grip @param {import("./types.js").Bag} bag @param {import("./types.js").Bike} bike @param {(id: string) => void} putOn */
function drag(event, grip, bag, bike, putOn) {
  event.preventDefault();
  const ghost = el("div", { class: "ghost" }, bag.name);
  document.body.append(ghost);
  grip.setPointerCapture(event.pointerId);
  const svg = /** @type {SVGSVGElement | null} */ (document.querySelector(".drop-place svg"));
  svg?.parentElement?.scrollIntoView({ block: "nearest" });
  const at = (/** @type {PointerEvent} */ now) => {
    ghost.style.setProperty("--x", `${now.clientX}px`);
    ghost.style.setProperty("--y", `${now.clientY}px`);
    const over = svg && within(svg, now, bag, bike);
    svg?.classList.toggle("near", Boolean(over));
    return over;
  };
  const end = (/** @type {PointerEvent} */ now) => {
    const over = now.type === "pointerup" && at(now);
    ghost.remove();
    if (Math.hypot(now.clientX - event.clientX, now.clientY - event.clientY) > FAR) noClick(grip);
    svg?.classList.remove("near");
    for (const kind of ["pointermove", "pointerup", "pointercancel"]) grip.removeEventListener(kind, /** @type {any} */ (kind === "pointermove" ? at : end));
    if (over && Math.hypot(now.clientX - event.clientX, now.clientY - event.clientY) > FAR) putOn(bag.id);
  };
  grip.addEventListener("pointermove", at);
  grip.addEventListener("pointerup", end);
  grip.addEventListener("pointercancel", end);
  at(event);
}

/** Is the finger over the bike, or near where this bag goes? @param {SVGSVGElement} svg @param {PointerEvent} event @param {import("./types.js").Bag} bag @param {import("./types.js").Bike} bike */
function within(svg, event, bag, bike) {
  const box = svg.getBoundingClientRect();
  if (event.clientX < box.left || event.clientX > box.right || event.clientY < box.top || event.clientY > box.bottom) return false;
  const scale = svg.viewBox.baseVal.width / box.width;
  const [x, y] = [(event.clientX - box.left) * scale, (event.clientY - box.top) * scale];
  const [goes, up] = place(bag, bike.wheelbase_mm);
  return Math.hypot(goes - x, up - y) < NEAR || y < svg.viewBox.baseVal.height;
}


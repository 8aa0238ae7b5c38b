/** Limits and prices. A limit is dragged along its curve: known points answer at once, the engine proves the one it rests on. */

import { el, renew } from "./dom.js";
import { early, points as pointsOf } from "./calls.js";
import { host } from "./host.js";
import { isGroup } from "./journey.js";
import { chart } from "./chart.js";
import { answerState, preview } from "./live.js";
import { amount, currency } from "./money.js";
import { button, heading, stepper, waiting } from "./parts.js";
import { asked, question, work } from "./planner.js";
import { money, prices } from "./prices.js";
import { givenUp } from "./refused.js";
import { shownRider } from "./rider.js";
import { mark, number, say } from "./say.js";
import * as state from "./state.js";
import * as units from "./units.js";
import { cash, hours, kilos } from "./words.js";

/** A drag that rests this long becomes the limit, in milliseconds. */
const RESTS = 450;
/** Points asked of a curve. */
const POINTS = 9;

/** A slider under a curve goes in steps finer by this. */
const FINER = 5;

/** The three limits that have a curve. */
const LIMITS = [
  { id: "kit_mass", over: "mass", label: mark("Mass of the kit"), against: mark("Hours lost against mass of the kit: {points}"), unit: "kg", scale: 1000, low: 2, high: 45, step: 0.5, takes: mark("The kit takes {amount}."), read: (/** @type {unknown} */ text) => units.read(text, "mass"), write: (/** @type {number} */ value) => `${value} kg`, show: (/** @type {number} */ value) => `${kilos(value)} kg`, total: "mass_limit_g", used: "mass_g" },
  { id: "kit_volume", over: "volume", label: mark("Room for the kit"), against: mark("Hours lost against room for the kit: {points}"), unit: "L", scale: 1000, low: 2, high: 160, step: 1, takes: mark("The kit takes {amount}."), read: (/** @type {unknown} */ text) => units.read(text, "volume"), write: (/** @type {number} */ value) => `${value} L`, show: (/** @type {number} */ value) => `${number(value / 1000, 0)} L`, total: "room_ml", used: "volume_ml" },
  { id: "budget", over: "money", label: mark("Money to buy with"), against: mark("Hours lost against money to buy with: {points}"), unit: "", scale: 1, low: 0, high: 2000, step: 10, takes: mark("This kit costs {amount} to buy."), read: amount, write: (/** @type {number} */ value) => `${value} ${currency()}`, show: (/** @type {number} */ value) => cash(value, currency()), total: "budget", used: "to_buy" },
];

const at = () => (state.view.at.limits ??= { drag: {}, curves: {} });

export function limitsScreen() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const limits = trip.scenario.limits ?? {};
  return [
    ["refused", "no kit", "broken"].includes(work.phase) ? answerState() : null,
    isGroup(trip.scenario) ? el("p", { class: "soft" }, say("Limits are of each rider; a rider's own stands under Group.")) : null,
    el("div", { class: "cards" }, LIMITS.map((limit) => card(limit, limits))),
    stepper({ label: say("Stranded at most once in"), name: "stranded", unit: say("trips"), hint: say("0: no such limit"), step: 50, high: 100000, places: 0, value: oneIn(limits.stranded_at_most), set: (value) => setLimit("stranded_at_most", value > 1 ? `1/${value}` : null) }),
    heading(say("Prices")),
    el("p", { class: "soft" }, say("What decides when no limit does. 0 switches one off.")),
    prices(trip.scenario),
    heading(say("Currency")),
    money(),
  ];
}

/** @param {unknown} chance */
function oneIn(chance) {
  const found = /^\s*1\s*\/\s*([\d.]+)/.exec(String(chance ?? ""));
  if (found) return Number(found[1]);
  return typeof chance === "number" && chance > 0 ? Math.round(1 / chance) : 0;
}

/** Where a slider ends that has no curve yet: at twice what is in force or carried, in whole steps. @param {any} limit @param {number} now */
function endOf(limit, now) {
  const step = limit.step * limit.scale;
  return now > 0 ? Math.ceil(Math.max(now * 2, limit.low * limit.scale + 10 * step) / step) * step : limit.high * limit.scale;
}

/** @param {any} limit @param {any} limits */
function card(limit, limits) {
  const trip = /** @type {any} */ (state.trip);
  const set = limit.read(limits[limit.id]);
  const used = trip.answer?.totals?.[limit.used] ?? null;
  const known = at().curves[limit.over];
  const high = endOf(limit, Math.max(set ?? 0, used ?? 0));
  const dragged = at().drag[limit.id];
  const value = dragged ?? set ?? used ?? high;
  const id = `limit-${limit.id}`;
  const span = spanOf(limit, known, set ?? used ?? high);
  return el("section", { class: "card limit", "data-key": limit.id },
    el("div", { class: "limit-head" }, el("label", { for: id }, say(limit.label)), el("output", { for: id, id: `${id}-shown` }, set === null && dragged === undefined ? say("no limit") : limit.show(value))),
    curveOf(limit, known, value, set),
    el("input", {
      type: "range", id, class: span ? "under-curve" : null, min: span?.[0] ?? limit.low * limit.scale, max: span?.[1] ?? high, step: (limit.step * limit.scale) / (span ? FINER : 1), value: String(value), "aria-valuetext": limit.show(value),
      on: { input: (/** @type {any} */ event) => dragTo(limit, Number(event.target.value)), change: (/** @type {any} */ event) => rest(limit, Number(event.target.value)) },
    }),
    el("div", { class: "acts" },
      stepperFor(limit, set, value),
      set === null ? null : button(say("No limit"), () => setLimit(limit.id, null), { class: "plain" })),
    used === null ? null : el("p", { class: "soft" }, say(limit.takes, { amount: limit.show(used) })),
    isGroup(trip.scenario) ? null : known?.asking ? [waiting(known.points.length ? say("Proving the curve …") : say("Drawing the curve …")), button(say("Stop"), () => known.controller.abort(), { class: "plain" })]
      : known?.points.length && known.for === curveKey(limit) ? words(known)
        : button(say("Show the curve"), () => ask(limit), { class: "plain" }));
}

/** @param {any} limit @param {number | null} set @param {number} value */
const stepperFor = (limit, set, value) => stepper({
  label: say("{limit}, exactly", { limit: say(limit.label) }), name: limit.id, unit: limit.unit, step: limit.step, low: 0, high: 100000, value: set === null ? null : value / limit.scale, quiet: say("none"),
  set: (typed) => setLimit(limit.id, limit.write(typed)),
});

/** @param {string} id @param {string | null} value */
function setLimit(id, value) {
  delete at().drag[id];
  preview.value = null;
  state.change(({ scenario }) => {
    const limits = (scenario.limits ??= {});
    if (value === null) delete limits[id];
    else limits[id] = value;
    if (!Object.keys(limits).length) delete scenario.limits;
  });
}

/** @type {ReturnType<typeof setTimeout> | undefined} */
let resting;

/** A finger on a slider: nothing but what is known, at once. @param {any} limit @param {number} value */
function dragTo(limit, value) {
  at().drag[limit.id] = value;
  const known = at().curves[limit.over];
  const point = known?.for === curveKey(limit) ? nearest(known.points, value) : null;
  const figures = state.trip?.answer?.figures;
  preview.value = point && figures ? {
    limit: limit.id === "kit_mass" ? value : state.trip?.answer?.totals?.mass_limit_g,
    totals: { ...state.trip?.answer.totals, mass_g: point.mass_g },
    figures: { ...figures, hours_lost_with_kit: Math.max(0, point.lost), self_recovery_at_least: point.home },
  } : null;
  clearTimeout(resting);
  resting = setTimeout(() => rest(limit, value), RESTS);
  state.show("drag");
}

/** Draws the limit under the finger anew, and nothing else. */
export function redrawLimit() {
  for (const limit of LIMITS) {
    const old = at().drag[limit.id] === undefined ? null : document.querySelector(`.limit[data-key="${limit.id}"]`);
    if (old) renew(old, [...card(limit, state.trip?.scenario.limits ?? {}).childNodes]);
  }
}

/** @param {any} limit @param {number} value */
function rest(limit, value) {
  clearTimeout(resting);
  setLimit(limit.id, limit.write(Number((value / limit.scale).toFixed(2))));
}

/** The best known kit that keeps to the limit. @param {any[]} points @param {number} value */
export function nearest(points, value) {
  let best = null;
  for (const point of points) if (point.used <= value + 1e-6 && (!best || point.lost < best.lost)) best = point;
  return best;
}

/** What a curve depends on: the question without its own limit. @param {any} limit */
function curveKey(limit) {
  const trip = /** @type {any} */ (state.trip);
  const { [limit.id]: _, ...limits } = trip.scenario.limits ?? {};
  return question({ ...trip, scenario: { ...trip.scenario, limits } });
}

/** @param {any} limit */
async function ask(limit) {
  at().curves[limit.over]?.controller?.abort();
  const controller = new AbortController();
  const mine = { asking: true, points: /** @type {any[]} */ ([]), whole: null, controller, for: curveKey(limit), trouble: "" };
  at().curves[limit.over] = mine;
  state.show();
  try {
    await host.call("curve", { ...asked(), over: limit.over, points: POINTS, rider: shownRider()?.name }, (part) => {
      const point = part.point && early(part.point, limit.over);
      if (point) mine.points = [...mine.points.filter((each) => each.limit !== point.limit), point];
      if (part.curve) {
        mine.whole = part.curve;
        mine.points = pointsOf(part.curve, state.trip?.answer?.figures?.hours_lost_empty ?? 0);
      }
      state.show();
    }, controller.signal);
  } catch (error) {
    if (!givenUp(error)) mine.trouble = String(/** @type {any} */ (error).message);
  }
  mine.asking = false;
  state.show();
}

/** From where to where curve and slider go together, once there is a curve. @param {any} limit @param {any} known @param {number} value */
function spanOf(limit, known, value) {
  if (!known || known.points.length < 2 || known.for !== curveKey(limit)) return null;
  const all = known.points.map((/** @type {any} */ point) => point.used);
  const step = limit.step * limit.scale;
  return [Math.floor((Math.min(...all, value) * 0.94) / step) * step, Math.ceil((Math.max(...all, value) * 1.05) / step) * step];
}

/** @param {any} limit @param {any} known @param {number} value @param {number | null} set */
function curveOf(limit, known, value, set) {
  const figures = state.trip?.answer?.figures;
  if (!known || known.points.length < 2 || !figures || known.for !== curveKey(limit)) return null;
  const points = known.points.map((/** @type {any} */ point) => ({ limit: point.used, lost: Math.max(0, point.lost) }));
  const [low, high] = /** @type {[number, number]} */ (spanOf(limit, known, set ?? state.trip?.answer?.totals?.[limit.used] ?? value));
  return chart({
    points, low, high, now: set === null && at().drag[limit.id] === undefined ? null : value, worth: known.whole?.worth_to ?? null,
    show: limit.show, hours, label: say(limit.against, { points: points.map((/** @type {any} */ point) => `${limit.show(point.limit)}: ${hours(point.lost)}`).join(", ") }),
  });
}

/** @param {any} known */
function words(known) {
  if (known.trouble) return el("p", { class: "soft" }, known.trouble);
  const whole = known.whole;
  if (!whole) return null;
  const limit = LIMITS.find((each) => each.over === whole.over) ?? LIMITS[0];
  return el("p", { class: "soft" }, say("The needs alone take {least}. More pays up to {most}.", { least: limit.show(whole.least), most: limit.show(whole.worth_to ?? whole.enough) }));
}

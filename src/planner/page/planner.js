/**
 * Keeps the answer up with the question. Every change of the scenario cancels what is under way and asks again after a short
 * rest. Meanwhile the last answer stays, greyed, and the kit in hand is weighed by the new question, which takes
 * milliseconds. Only the newest question is ever answered on the screen.
 */

import { weighed } from "./calls.js";
import { host } from "./host.js";
import { isGroup, riders } from "./journey.js";
import { kit } from "./kit.js";
import { Refused, givenUp } from "./refused.js";
import { spoken } from "./say.js";
import * as state from "./state.js";

/** Rest before a search, in milliseconds: a finger between two taps. */
const REST = 350;
/** Longest search, in seconds. */
const SECONDS = 120;

export const work = {
  /** @type {"idle" | "reckoning" | "good so far" | "proven" | "no kit" | "refused" | "broken"} */ phase: "idle",
  /** @type {number | null} */ bound: null,
  /** @type {import("./types.js").Refusal | null} */ refusal: null,
  /** @type {string} */ trouble: "",
  /** @type {any} figures of the kit in hand, by the newest question */ quick: null,
  /** @type {any} what the trip demands */ check: null,
  /** @type {number} */ since: 0,
};

let turn = 0;
/** @type {AbortController | null} */
let running = null;
/** @type {ReturnType<typeof setTimeout> | undefined} */
let timer;

/** What is asked, as text: the same text has the same answer. @param {import("./types.js").State} trip */
export const question = (trip) => JSON.stringify([trip.scenario, trip.files, ...spoken()]);

/** @param {import("./types.js").State} trip */
export const complete = (trip) =>
  riders(trip.scenario).length > 0 && riders(trip.scenario).every((rider) => rider.bike) && (trip.scenario.trip?.legs ?? []).length > 0;

/** Body of most calls. */
export function asked() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  return { scenario: trip.scenario, files: trip.files };
}

/** Asks anew where the question is another. @param {boolean} [atOnce] */
export function reckon(atOnce = false) {
  clearTimeout(timer);
  const trip = state.trip;
  if (!trip || !complete(trip)) {
    stop();
    Object.assign(work, { phase: "idle", quick: null, check: null, refusal: null });
    return;
  }
  const now = question(trip);
  if (running && asking === now) return;
  if (trip.answer && trip.answerFor === now && trip.answerState === "proven") {
    stop();
    if (work.phase !== "proven") Object.assign(work, { phase: "proven", quick: null, refusal: null, bound: null });
    if (!work.check) look(++turn, new AbortController().signal);
    return;
  }
  stop();
  work.phase = "reckoning";
  timer = setTimeout(search, atOnce ? 0 : REST);
}

/** Gives up what is under way; the last answer stays. */
export function stop() {
  clearTimeout(timer);
  turn += 1;
  running?.abort();
  running = null;
  asking = "";
}

/** Stops at the rider's wish. */
export function enough() {
  stop();
  work.phase = state.trip?.answer ? "good so far" : "idle";
  state.show("work");
}

let asking = "";

async function search() {
  const trip = state.trip;
  if (!trip) return;
  const mine = ++turn;
  const controller = new AbortController();
  running = controller;
  asking = question(trip);
  Object.assign(work, { phase: "reckoning", refusal: null, trouble: "", bound: null, since: performance.now() });
  state.show("work");
  try {
    if (!(await look(mine, controller.signal))) return;
    const call = isGroup(trip.scenario) ? "split" : "plan";
    const body = { ...asked(), seconds: SECONDS, ...(call === "split" && state.view.at.keep ? { keep_if_one_leaves: state.view.at.keep } : {}) };
    const key = asking;
    await host.call(call, body, (part) => mine === turn && heard(part, key), controller.signal);
    if (mine === turn && work.phase === "reckoning") work.phase = trip.answer ? "good so far" : "idle";
  } catch (error) {
    if (mine === turn) failed(error);
  } finally {
    if (mine === turn) {
      running = null;
      asking = "";
      state.show("work");
    }
  }
}

/** What the trip demands, and the kit in hand under it. @param {number} mine @param {AbortSignal} signal */
async function look(mine, signal) {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  try {
    const check = await host.call("check", asked(), null, signal);
    if (mine !== turn) return false;
    work.check = check;
    if (check.faults?.length) throw new Refused(check);
    if (trip.answer && !isGroup(trip.scenario) && !trip.answer.riders) {
      const quick = await host.call("evaluate", { ...asked(), kit: kit(trip.answer) }, null, signal).then(weighed, (error) => {
        if (givenUp(error)) throw error;
        return null;
      });
      if (mine !== turn) return false;
      if (work.phase === "reckoning") work.quick = quick;
    }
    state.show("work");
    return true;
  } catch (error) {
    if (mine === turn) failed(error);
    return false;
  }
}

/** @param {any} part @param {string} key */
function heard(part, key) {
  if (part.state === "no kit") {
    Object.assign(work, { phase: "no kit", refusal: { faults: [], ...part, ...(part.answer ?? {}) }, quick: null });
    return state.show("work");
  }
  work.bound = part.bound_h ?? null;
  if (!part.answer) return;
  work.phase = part.state;
  work.quick = null;
  state.change((trip) => {
    trip.answer = part.answer;
    trip.answerFor = key;
    trip.answerState = part.state;
  }, "answer");
}

/** @param {any} error */
function failed(error) {
  if (givenUp(error)) return;
  if (error instanceof Refused) {
    const { refusal } = error;
    Object.assign(work, { phase: refusal.shortfalls?.length ? "no kit" : "refused", refusal, quick: null });
  } else Object.assign(work, { phase: "broken", trouble: String(error?.message ?? error), quick: null });
  state.show("work");
}

/** Figures to show, and whether they answer the question as it stands. */
export function figures() {
  const answer = state.trip?.answer;
  if (work.quick && (work.phase === "reckoning" || work.phase === "no kit")) {
    return { figures: work.quick.figures, totals: { ...answer?.totals, ...work.quick.totals }, fresh: false };
  }
  if (!answer?.figures) return null;
  const fresh = work.phase === "proven" || work.phase === "good so far";
  return { figures: answer.figures, totals: answer.totals, fresh };
}

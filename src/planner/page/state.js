/**
 * The one state of the page: a trip (its scenario file and what was ticked, weighed and logged) and what the page shows of it.
 * Everything that changes the trip goes through `change`, which saves, tells the other tabs and redraws.
 */

import * as keep from "./keep.js";
import { say } from "./say.js";

/** Version of the kept shape; what a later page wrote is not read. */
export const VERSION = 1;
/** How long a change waits for more of them before it is kept, in milliseconds. */
const SETTLE = 150;

/** @typedef {import("./types.js").State} State */

/** @type {State | null} */
export let trip = null;
/** What is not kept with the trip. */
export const view = {
  /** @type {string} */ screen: "start",
  /** @type {string | null} the rider whose kit is shown */ rider: null,
  /** @type {import("./types.js").Catalogue | null} */ catalogue: null,
  /** @type {"waiting" | "kept" | "denied"} */ keeping: "waiting",
  /** @type {string} */ why: "",
  /** @type {State[]} */ others: [],
  /** @type {{name: string, kind: string}[] | null} files of the folder that the program was given */ folder: null,
  /** @type {Record<string, any>} what screens remember while the page is open */ at: {},
};

/** @type {Set<(what: string) => void>} */
const watchers = new Set();
/** @param {(what: string) => void} watcher */
export const watch = (watcher) => watchers.add(watcher);
/** Redraws without a change of the trip. @param {string} [what] */
export const show = (what = "view") => watchers.forEach((watcher) => watcher(what));

const channel = "BroadcastChannel" in globalThis ? new BroadcastChannel("fardel") : null;
/** @type {ReturnType<typeof setTimeout> | undefined} */
let timer;

/** A trip around a scenario. @param {import("./types.js").Tree} scenario @param {Partial<State>} [more] @returns {State} */
export function fresh(scenario, more = {}) {
  return {
    v: VERSION, id: newId(), rev: 0, changed: Date.now(), scenario, files: {}, ticks: {}, looked: {}, scale: {}, used: {},
    ride: {}, book: "", moved: [], way: null, answer: null, answerFor: "", answerState: "", ...more,
  };
}

const newId = () => [...crypto.getRandomValues(new Uint8Array(9))].map((byte) => (byte % 36).toString(36)).join("");

/** Takes up a trip. @param {State | null} next */
export function take(next) {
  // The last change of the trip before may still wait.
  if (timer !== undefined) saveNow();
  trip = next ? { ...fresh({}), ...next } : null;
  view.rider = null;
  view.at = {};
  if (trip) {
    saw(trip);
    save();
  }
  show("trip");
}

/**
 * Changes the trip.
 * @param {(trip: State) => void} how
 * @param {"scenario" | "ticks" | "answer"} [what]
 */
export function change(how, what = "scenario") {
  if (!trip) return;
  how(trip);
  trip.rev += 1;
  trip.changed = Date.now();
  save();
  show(what);
}

/** What `back` needs to undo the next change. */
export function mark() {
  const { answer, answerFor, answerState, ...rest } = /** @type {State} */ (trip);
  return structuredClone(rest);
}

/** Undoes all changes since a mark. @param {any} marked */
export function back(marked) {
  change((now) => Object.assign(now, structuredClone({ ...marked, rev: now.rev })));
}

function save() {
  clearTimeout(timer);
  timer = setTimeout(saveNow, SETTLE);
}

/** The trip as this tab last saw it in the store: which one, its revision, and what the rider had put in. */
let seen = { id: "", rev: -1, put: "" };
/** @type {(what: "taken" | "both") => void} */
let met = () => undefined;
/** @type {Promise<void>} saves follow one another */
let saving = Promise.resolve();

/** What the rider put in: all but the answer, which can be had again. @param {State} one */
function putIn({ rev, changed, answer, answerFor, answerState, way, ...rest }) {
  return JSON.stringify([rest, way?.name ?? null]);
}

/** @param {State} one */
const saw = (one) => (seen = { id: one.id, rev: one.rev, put: putIn(one) });

/** Keeps the trip at once. */
export function saveNow() {
  clearTimeout(timer);
  timer = undefined;
  const mine = trip;
  if (mine) saving = saving.then(() => write(mine));
  return saving;
}

/** @param {State} mine */
async function write(mine) {
  const now = { id: mine.id, rev: mine.rev, put: putIn(mine) };
  try {
    const newer = await keep.keepUnlessNewer(mine, seen.id === mine.id ? seen.rev : mine.rev);
    if (newer && trip === mine) return meet(mine, newer);
    if (newer) return;
    if (seen.id === now.id) seen = now;
    if (view.keeping !== "kept") {
      view.keeping = "kept";
      show();
    }
    channel?.postMessage({ id: mine.id, rev: now.rev });
  } catch (error) {
    denied(error);
  }
}

/**
 * Another tab kept the same trip meanwhile. Where only one of the two was changed by the rider, that one stays; where both were,
 * both stay, this one as a trip of its own.
 * @param {State} mine @param {State} newer
 */
function meet(mine, newer) {
  const [here, there] = [putIn(mine), putIn(newer)];
  if (here === seen.put && here !== there) {
    trip = newer;
    saw(newer);
    show("trip");
    return met("taken");
  }
  if (there === seen.put || here === there) {
    seen = { ...seen, rev: newer.rev };
    mine.rev = Math.max(mine.rev, newer.rev) + 1;
    return save();
  }
  trip = { ...mine, id: newId(), scenario: { ...mine.scenario, name: say("{trip} (second tab)", { trip: mine.scenario.name ?? say("Trip") }) } };
  save();
  show("trip");
  met("both");
}

/** @param {any} error */
function denied(error) {
  view.keeping = "denied";
  view.why = error?.name === "QuotaExceededError" ? say("its store is full") : say("it refuses to");
  show();
}

/** Reads what is kept. Says so where nothing can be. */
export async function recall() {
  try {
    view.others = (await keep.trips()).filter((kept) => kept.v <= VERSION);
    view.keeping = "kept";
  } catch (error) {
    denied(error);
  }
  return view.others;
}

/** Forgets a trip; the answer brings it back. @param {State} gone */
export async function forget(gone) {
  await keep.forget(gone.id).catch(denied);
  await recall();
  show();
  return async () => {
    await keep.keep(gone).catch(denied);
    await recall();
    show();
  };
}

/** Follows what another tab does to the same trip. @param {(what: "taken" | "both") => void} told called when its plan was taken over, or both are kept */
export function follow(told) {
  met = told;
  channel?.addEventListener("message", async ({ data }) => {
    if (!trip || data.id !== trip.id || data.rev <= trip.rev || timer !== undefined) return;
    const newer = await keep.fetchTrip(data.id).catch(() => undefined);
    if (!newer || !trip || newer.rev <= trip.rev) return;
    trip = newer;
    saw(newer);
    show("trip");
    told("taken");
  });
  // A page that is going away cannot ask first.
  addEventListener("pagehide", () => {
    if (timer !== undefined && trip) keep.keep(trip).catch(() => undefined);
  });
  document.addEventListener("visibilitychange", () => document.hidden && timer !== undefined && saveNow());
}

/**
 * The one state of the page: a trip (its scenario file and what was ticked, weighed and logged) and what the page shows of it.
 * Everything that changes the trip goes through `change`, which saves, tells the other tabs and redraws.
 */

import * as keep from "./keep.js";

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
    ride: {}, book: "", moved: [], answer: null, answerFor: "", answerState: "", ...more,
  };
}

const newId = () => [...crypto.getRandomValues(new Uint8Array(9))].map((byte) => (byte % 36).toString(36)).join("");

/** Takes up a trip. @param {State | null} next */
export function take(next) {
  trip = next ? { ...fresh({}), ...next } : null;
  view.rider = null;
  view.at = {};
  if (trip) save();
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

/** Keeps the trip at once. */
export async function saveNow() {
  clearTimeout(timer);
  timer = undefined;
  if (!trip) return;
  try {
    await keep.keep(trip);
    if (view.keeping !== "kept") {
      view.keeping = "kept";
      show();
    }
    channel?.postMessage({ id: trip.id, rev: trip.rev });
  } catch (error) {
    denied(error);
  }
}

/** @param {any} error */
function denied(error) {
  view.keeping = "denied";
  view.why = error?.name === "QuotaExceededError" ? "its store is full" : "it refuses to";
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

/** Follows what another tab does to the same trip. @param {() => void} told called when it was taken over */
export function follow(told) {
  channel?.addEventListener("message", async ({ data }) => {
    if (!trip || data.id !== trip.id || data.rev <= trip.rev || timer !== undefined) return;
    const newer = await keep.fetchTrip(data.id).catch(() => undefined);
    if (!newer || !trip || newer.rev <= trip.rev) return;
    trip = newer;
    show("trip");
    told();
  });
  addEventListener("pagehide", () => timer !== undefined && saveNow());
  document.addEventListener("visibilitychange", () => document.hidden && timer !== undefined && saveNow());
}

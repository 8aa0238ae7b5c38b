/** The one line above the bar: mass of limit, hours lost, chance of riding home, and how sure the answer is. */

import { el } from "./dom.js";
import { icon } from "./icons.js";
import { home, lost } from "./kit.js";
import { currency } from "./money.js";
import { enough, figures, reckon, work } from "./planner.js";
import { openSheet, shutSheet } from "./sheet.js";
import * as state from "./state.js";
import { button, plate } from "./parts.js";
import { hours, inHundred, kilos } from "./words.js";

const SIGNS = {
  idle: ["good", "no trip yet"],
  reckoning: ["good", "reckoning"],
  "good so far": ["good", "good so far"],
  proven: ["proven", "proven"],
  "no kit": ["none", "cannot be met"],
  refused: ["care", "look here"],
  broken: ["care", "no answer"],
};

/** What is shown for a limit that is being dragged, from the points of a curve that are known. @type {{value: any}} */
export const preview = { value: null };

export function liveLine() {
  if (!state.trip) return null;
  const now = figures();
  const [sign, words] = SIGNS[sure() ? "proven" : work.phase];
  const seen = preview.value ?? now;
  const stale = preview.value ? true : !now?.fresh;
  const said = work.phase === "reckoning" && preview.value ? "nearest known" : words;
  if (!seen) return el("button", { class: "live", type: "button", on: { click: explain } }, el("span", { class: "cell wide" }, icon(sign), el("span", null, work.phase === "idle" ? "Say where you ride and what on" : words)));
  const limit = preview.value?.limit ?? limitOf(seen.totals);
  const safe = home(seen.figures);
  return el("button", { class: `live ${stale ? "stale" : ""} is-${sign}`, type: "button", on: { click: explain } },
    el("span", { class: "cell" }, el("b", null, kilos(seen.totals.mass_g)), el("small", null, limit ? `of ${kilos(limit)} kg` : "kg")),
    el("span", { class: "cell" }, el("b", null, hours(lost(seen.figures))), el("small", null, "lost")),
    el("span", { class: "cell" }, el("b", null, safe === null ? "–" : `${inHundred(safe)}\u202f%`), el("small", null, "ride home")),
    el("span", { class: "cell state" }, icon(sign), el("small", null, said)));
}

/** @param {any} totals */
const limitOf = (totals) => totals?.mass_limit_g ?? null;

function explain() {
  openSheet("How sure this is", () => {
    const answer = state.trip?.answer;
    const now = figures();
    return [
      answerState(),
      now ? el("dl", { class: "facts" },
        el("dt", null, "Lost with nothing aboard"), el("dd", null, hours(now.figures.hours_lost_empty)),
        el("dt", null, "Lost with this kit"), el("dd", null, hours(lost(now.figures))),
        el("dt", null, "Of that, riding slower and falls"), el("dd", null, hours(now.figures.hours_handling ?? 0)),
        now.figures.expected_failures === undefined ? null : [el("dt", null, "Things that break, expected"), el("dd", null, now.figures.expected_failures.toFixed(2))]) : null,
      answer?.cautions ? el("div", { class: "cautions" }, el("h3", null, "Care"), el("ul", null, answer.cautions.map((/** @type {string} */ text) => el("li", null, text)))) : null,
    ];
  });
}

/** Does nothing better remain, or nothing that a rider would notice: half a minute? */
function sure() {
  const proof = state.trip?.answer?.proof;
  return work.phase === "proven" || (work.phase === "good so far" && Boolean(proof) && left(proof) < 0.5 / 60);
}

/** Hours that another kit might win at most. @param {any} proof */
const left = (proof) => Math.max(0, (proof.bound_h ?? 0) - (proof.objective_h ?? 0));

/** Where the search stands, in words, with what can be done about it. */
export function answerState() {
  const proof = state.trip?.answer?.proof;
  switch (work.phase) {
    case "proven": return plate("say", "Proven", el("p", null, "No kit within your limits does better, by these rates. The rates are guesses with a basis; your own log makes them yours."));
    case "good so far":
      if (sure()) return plate("say", "Proven", el("p", null, "No kit within your limits wins half a minute more, by these rates."));
      return plate("say", "Good so far", el("p", null, gap(proof)), button("Search on", () => { shutSheet(); reckon(true); }));
    case "reckoning": return plate("say", "Reckoning", el("p", null, "The figures are those of the last kit. They are replaced when a better one is found."), button("That will do", enough));
    case "no kit": return refusal(work.refusal);
    case "refused": return refusal(work.refusal);
    case "broken": return plate("stop", "No answer", el("p", null, work.trouble), button("Try again", () => { shutSheet(); reckon(true); }));
    default: return plate("say", "Nothing to reckon yet");
  }
}

/** @param {any} proof */
function gap(proof) {
  if (!proof) return "A kit is found; a better one is being looked for.";
  return `This kit is verified. At most ${hours(left(proof))} more could be won by another.`;
}

/** Why there is no kit, with ways out where some were tried. @param {import("./types.js").Refusal | null} refusal */
export function refusal(refusal) {
  if (!refusal) return null;
  const ways = refusal.ways_out ?? [];
  if (refusal.shortfalls?.length) {
    return plate("stop", "Cannot be met",
      el("p", null, "No kit meets every need within every limit. The least that would have to give:"),
      el("ul", null, refusal.shortfalls.map((short) => el("li", null, short.text))),
      ways.length ? el("p", null, "Ways out, each tried:") : null,
      ways.map((way) => el("p", { class: "way" }, way.changes.map((change) => change.text).join(", and "),
        ways.length && way.changes.every(canTake) ? button("Take this way", () => takeWay(way.changes)) : null)));
  }
  return plate("stop", refusal.faults.length ? "Something in the trip cannot be read" : (refusal.message ?? "It cannot be done"), faults(refusal.faults));
}

/** Problems of files: line, found, expected. @param {import("./types.js").Fault[]} all */
export const faults = (all) => el("ul", { class: "faults" }, all.map((fault) => el("li", null,
  el("b", null, fault.title), " ",
  el("span", { class: "where" }, el("bdi", null, [fault.file, fault.line ? `line ${fault.line}` : "", fault.place ?? ""].filter(Boolean).join(", "))),
  fault.excerpt ? el("code", null, el("bdi", null, fault.excerpt.trim())) : null,
  fault.found ? el("span", { class: "found" }, "found ", el("bdi", null, fault.found)) : null,
  fault.expected ? el("span", { class: "found" }, "expected ", el("bdi", null, fault.expected)) : null,
  fault.nearest ? el("span", { class: "found" }, "did you mean ", el("bdi", null, fault.nearest), "?") : null)));

const TAKEN = { "kit mass": "kit_mass", budget: "budget", "kit volume": "kit_volume" };
/** @param {any} change */
const canTake = (change) => change.what in TAKEN;

/** @param {{what: string, to: number}[]} changes */
function takeWay(changes) {
  shutSheet();
  state.change((trip) => {
    const limits = (trip.scenario.limits ??= {});
    for (const { what, to } of changes) {
      if (what === "kit mass") limits.kit_mass = `${to / 1000} kg`;
      else if (what === "kit volume") limits.kit_volume = `${to / 1000} L`;
      else limits.budget = `${to} ${currency()}`;
    }
  });
}

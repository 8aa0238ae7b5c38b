/** Before leaving: what must be looked at on the bike first, then the preparations that are worth their time. */

import { el } from "./dom.js";
import { button, heading, plate, tick } from "./parts.js";
import { openSheet, say } from "./sheet.js";
import * as state from "./state.js";
import { capital, cash, hours, plural } from "./words.js";

/** Preparations shown first. */
const FIRST = 5;

export function beforeScreen() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const { answer } = trip;
  if (!answer) return el("p", { class: "soft" }, "The list comes with the kit.");
  const groups = Array.isArray(answer.riders) ? answer.checks ?? [] : [{ riders: [], checks: answer.checks ?? [] }];
  const checks = groups.flatMap((/** @type {any} */ group) => group.checks.map((/** @type {any} */ check) => ({ ...check, who: group.riders.join(", "), key: `${group.riders.join("+")} ${check.id}` })));
  const open = checks.filter((/** @type {any} */ check) => !trip.looked[check.key]);
  return [
    el("div", { class: "progress", role: "status" }, el("b", null, open.length ? `${plural(open.length, "check")} to make` : "All checks made")),
    el("p", { class: "soft" }, "These must be right before you ride. The manual decides."),
    groups.map((/** @type {any} */ group) => [
      group.riders.length ? el("h2", { class: "plain-head" }, group.riders.map((/** @type {string} */ name, /** @type {number} */ k) => [k ? ", " : "", el("bdi", null, name)])) : null,
      el("ul", { class: "boxes checks" }, group.checks.map((/** @type {any} */ check) => oneCheck(check, `${group.riders.join("+")} ${check.id}`))),
    ]),
    worthwhile(trip),
  ];
}

/** @param {any} check @param {string} key */
function oneCheck(check, key) {
  const set = (/** @type {boolean} */ on) => state.change((trip) => { trip.looked[key] = on; }, "ticks");
  return el("li", { "data-key": key },
    tick({ ticked: Boolean(state.trip?.looked[key]), set, class: "pack-row", words: el("bdi", null, check.name) }),
    button("Look", () => openSheet(check.name, () => [el("p", null, check.look), check.stop ? plate("stop", "Do not ride if", el("p", null, check.stop)) : null, check.defer ? el("p", { class: "soft" }, `The manual decides: ${check.defer}.`) : null]), { class: "plain", "aria-label": `What to look at: ${check.name}` }));
}

/** @param {import("./types.js").State} trip */
function worthwhile(trip) {
  const list = [...(trip.answer.before_you_leave ?? [])].sort((a, b) => worth(b) - worth(a));
  const done = trip.scenario.done ?? [];
  if (!list.length && !done.length) return null;
  const more = state.view.at.allChores;
  const names = new Map((state.view.catalogue?.preparations ?? []).map((each) => [each.id, each.name]));
  return [heading("Worth doing at home"),
    el("ul", { class: "chores" }, list.slice(0, more ? 999 : FIRST).map((chore) => el("li", { "data-key": chore.id },
      el("span", { class: "words" }, el("bdi", null, capital(chore.name)), el("small", null, `${chore.work_h ? `${hours(chore.work_h)} of work` : "no work"}${chore.price ? `, ${cash(chore.price, trip.answer.totals.currency)}` : ""}; saves ${hours(chore.hours_saved_with_this_kit ?? 0)}`)),
      button("Done", () => setDone(chore.id, true), { "aria-label": `Done: ${chore.name}` })))),
    list.length > FIRST && !more ? button(`${list.length - FIRST} more`, () => { state.view.at.allChores = true; state.show(); }, { class: "plain" }) : null,
    done.length ? el("details", { class: "card", "data-key": "done" }, el("summary", null, el("b", null, "Done"), el("small", null, String(done.length))), el("ul", { class: "chores" }, done.map((/** @type {string} */ id) => el("li", { "data-key": id }, el("span", { class: "words" }, el("bdi", null, capital(names.get(id) ?? id))), button("Not yet", () => setDone(id, false), { class: "plain", "aria-label": `Not yet: ${names.get(id) ?? id}` }))))) : null,
    plate("say", "What nobody can pack", el("p", null, "Change a tube at home once with the tools you take. What you cannot do in the shed you will not do in the rain."))];
}

/** @param {any} chore */
const worth = (chore) => (chore.hours_saved_with_this_kit ?? 0) - 0.2 * (chore.work_h ?? 0);

/** @param {string} id @param {boolean} on */
function setDone(id, on) {
  const marked = state.mark();
  state.change(({ scenario }) => {
    scenario.done = on ? [...(scenario.done ?? []), id] : (scenario.done ?? []).filter((/** @type {string} */ each) => each !== id);
  });
  say(on ? "Done; the kit is reckoned anew." : "Open again.", () => state.back(marked));
}

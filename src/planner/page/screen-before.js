/** Before leaving: what must be looked at on the bike first, then the preparations that are worth their time. */

import { el } from "./dom.js";
import { button, heading, plate, tick } from "./parts.js";
import { say, several } from "./say.js";
import { openSheet, notice } from "./sheet.js";
import * as state from "./state.js";
import { capital, cash, hours } from "./words.js";

/** Preparations shown first. */
const FIRST = 5;

export function beforeScreen() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const { answer } = trip;
  if (!answer) return el("p", { class: "soft" }, say("The list comes with the kit."));
  const groups = Array.isArray(answer.riders) ? answer.checks ?? [] : [{ riders: [], checks: answer.checks ?? [] }];
  const checks = groups.flatMap((/** @type {any} */ group) => group.checks.map((/** @type {any} */ check) => ({ ...check, who: group.riders.join(", "), key: `${group.riders.join("+")} ${check.id}` })));
  const open = checks.filter((/** @type {any} */ check) => !trip.looked[check.key]);
  return [
    el("div", { class: "progress", role: "status" }, el("b", null, open.length ? several(open.length, "{n} check to make", "{n} checks to make") : say("All checks made"))),
    el("p", { class: "soft" }, say("These must be right before you ride. The manual decides.")),
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
    button(say("Look"), () => openSheet(check.name, () => [el("p", null, check.look), check.stop ? plate("stop", say("Do not ride if"), el("p", null, check.stop)) : null, check.defer ? el("p", { class: "soft" }, say("The manual decides: {what}.", { what: check.defer })) : null]), { class: "plain", "aria-label": say("What to look at: {check}", { check: check.name }) }));
}

/** @param {import("./types.js").State} trip */
function worthwhile(trip) {
  const list = [...(trip.answer.before_you_leave ?? [])].sort((a, b) => worth(b) - worth(a));
  const done = trip.scenario.done ?? [];
  if (!list.length && !done.length) return null;
  const more = state.view.at.allChores;
  const names = new Map((state.view.catalogue?.preparations ?? []).map((each) => [each.id, each.name]));
  return [heading(say("Worth doing at home")),
    el("ul", { class: "chores" }, list.slice(0, more ? 999 : FIRST).map((chore) => el("li", { "data-key": chore.id },
      el("span", { class: "words" }, el("bdi", null, capital(chore.name)), el("small", null, say("{work}; saves {hours}", { work: [chore.work_h ? say("{hours} of work", { hours: hours(chore.work_h) }) : say("no work"), chore.price ? cash(chore.price, trip.answer.totals.currency) : ""].filter(Boolean).join(", "), hours: hours(chore.hours_saved_with_this_kit ?? 0) }))),
      button(say("Done"), () => setDone(chore.id, true), { "aria-label": say("Done: {chore}", { chore: chore.name }) })))),
    list.length > FIRST && !more ? button(say("{n} more", { n: list.length - FIRST }), () => { state.view.at.allChores = true; state.show(); }, { class: "plain" }) : null,
    done.length ? el("details", { class: "card", "data-key": "done" }, el("summary", null, el("b", null, say("Done")), el("small", null, String(done.length))), el("ul", { class: "chores" }, done.map((/** @type {string} */ id) => el("li", { "data-key": id }, el("span", { class: "words" }, el("bdi", null, capital(names.get(id) ?? id))), button(say("Not yet"), () => setDone(id, false), { class: "plain", "aria-label": say("Not yet: {chore}", { chore: names.get(id) ?? id }) }))))) : null,
    plate("say", say("What nobody can pack"), el("p", null, say("Change a tube at home once with the tools you take. What you cannot do in the shed you will not do in the rain.")))];
}

/** @param {any} chore */
const worth = (chore) => (chore.hours_saved_with_this_kit ?? 0) - 0.2 * (chore.work_h ?? 0);

/** @param {string} id @param {boolean} on */
function setDone(id, on) {
  const marked = state.mark();
  state.change(({ scenario }) => {
    scenario.done = on ? [...(scenario.done ?? []), id] : (scenario.done ?? []).filter((/** @type {string} */ each) => each !== id);
  });
  notice(on ? say("Done; the kit is reckoned anew.") : say("Open again."), () => state.back(marked));
}

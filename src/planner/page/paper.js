/** What is printed: a list for each bag of each rider with boxes to tick by pencil, then what must be looked at first. */

import { el } from "./dom.js";
import { carriers } from "./kit.js";
import { say, several } from "./say.js";
import { kitPicture } from "./screen-kit.js";
import * as state from "./state.js";
import { sums } from "./journey.js";
import { hours, kg, kilos } from "./words.js";

/** @returns {Node[]} */
export function paper() {
  const { trip } = state;
  if (!trip) return [];
  const sum = sums(trip.scenario);
  const all = carriers(trip.answer, trip.moved);
  return [
    el("h1", null, el("bdi", null, trip.scenario.name ?? say("A trip"))),
    el("p", null, say("{days}, {nights}, {km} km, help up to {hours} away", { days: several(sum.days, "{n} day", "{n} days"), nights: several(sum.nights, "{n} night", "{n} nights"), km: Math.round(sum.km), hours: hours(sum.help) })),
    ...all.map((one) => el("section", { class: "sheet-of" },
      el("h2", null, el("bdi", null, one.name), ` · ${kilos(one.mass_g)} kg`),
      kitPicture(trip, one),
      el("div", { class: "lists" }, one.bags.filter((bag) => bag.items.length).map((bag) => el("section", { class: "list" },
        el("h3", null, `${one.bags.indexOf(bag) + 1}  `, el("bdi", null, bag.name), el("small", null, ` ${kg(bag.mass_g)}`)),
        el("ul", null, bag.items.map((item) => el("li", null, item.count > 1 ? `${item.count} × ` : "", el("bdi", null, item.name), item.to_buy_in_kit ? ` ${say("(buy)")}` : "")))))))),
    checks(trip.answer),
    el("p", { class: "small" }, trip.answer?.cautions?.[0] ?? ""),
  ].filter(Boolean);
}

/** @param {any} answer */
function checks(answer) {
  const list = Array.isArray(answer?.riders) ? (answer.checks ?? []).flatMap((/** @type {any} */ group) => group.checks) : (answer?.checks ?? []);
  const once = [...new Map(list.map((/** @type {any} */ check) => [check.id, check])).values()];
  if (!once.length) return null;
  return el("section", { class: "list" }, el("h2", null, say("Before you leave")), el("ul", { class: "lists" }, once.map((/** @type {any} */ check) => el("li", null, check.name))));
}

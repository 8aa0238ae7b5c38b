/** Why a thing is in the kit or is not, what would come instead, and the rider's own word on it. */

import { el } from "./dom.js";
import { host } from "./host.js";
import { isGroup, things } from "./journey.js";
import { find } from "./kit.js";
import { stand, standing, weigh, weighed } from "./mine.js";
import { button, choice, heading, stepper, waiting } from "./parts.js";
import { asked, question } from "./planner.js";
import { givenUp } from "./refused.js";
import { mark, say, saying, several } from "./say.js";
import { openSheet } from "./sheet.js";
import * as state from "./state.js";
import { capital, cash, hours, kg } from "./words.js";

/** Why a thing stands where it stands. @type {Record<string, string>} */
const STANDING = { earns: mark("It saves more than it costs."), asked: mark("You asked for it."), needed: mark("The trip demands it."), always: mark("You asked for it.") };

/** @param {string} id @param {string} [rider] */
export function openWhy(id, rider) {
  const trip = () => /** @type {import("./types.js").State} */ (state.trip);
  const item = () => things(trip().scenario, /** @type {any} */ (state.view.catalogue)).get(id);
  const controller = new AbortController();
  const at = { answer: /** @type {any} */ (null), asking: false, trouble: "" };
  const ask = async (anew = false) => {
    at.asking = true;
    try {
      at.answer = await host.call("why", { ...asked(), item: id, rider, ...(anew ? { anew: true } : {}) }, null, controller.signal);
    } catch (error) {
      if (!givenUp(error)) at.trouble = String(/** @type {any} */ (error).message);
    }
    at.asking = false;
    state.show();
  };
  openSheet(item()?.name ?? id, () => {
    const here = find(trip().answer, id);
    const mass = item()?.mass_g ?? here?.item.mass_g ?? 0;
    return [
      here ? inKit(here) : notInKit(at.answer, mass),
      choice({ label: say("Your word"), value: standing(trip().scenario, id), options: [["always", say("Keep"), say("in the kit whatever the sums say")], ["free", say("Let it earn its place")], ["never", say("Never"), say("stays at home")]], set: (value) => state.change(({ scenario }) => stand(scenario, id, /** @type {any} */ (value))) }),
      here && question(trip()) !== trip().answerFor ? el("p", { class: "soft" }, say("The kit is being reckoned anew.")) : null,
      at.asking ? waiting(say("Asking …")) : instead(at.answer) ?? (at.answer && !isGroup(trip().scenario) ? button(here ? say("What would come instead?") : say("What would go for it?"), () => ask(true)) : null),
      at.trouble ? el("p", { class: "soft" }, at.trouble) : null,
      heading(say("On your scale")),
      stepper({ label: say("Mass of one"), name: "why-mass", unit: "g", step: 5, low: 0.1, high: 100000, places: 1, value: mass, hint: weighed(trip().scenario, id) === null ? (item()?.basis ?? "") : say("weighed"), set: (value) => state.change(({ scenario }) => weigh(scenario, id, value)) }),
    ];
  }, () => controller.abort());
  if (!isGroup(trip().scenario)) ask();
}

/** @param {{rider: any, bag: any, item: import("./types.js").Packed}} here */
function inKit({ bag, item }) {
  const costs = item.costs ?? { weight_h: 0, packing_h: 0, money_h: 0 };
  return [
    el("p", null, saying("{mass} in {bag}.", { mass: el("b", null, item.count > 1 ? say("{n} of them, {mass}", { n: item.count, mass: kg(item.mass_g) }) : kg(item.mass_g)), bag: el("bdi", null, bag.name) }), " ", STANDING[item.standing] ? say(STANDING[item.standing]) : `${capital(item.standing)}.`),
    el("dl", { class: "facts" },
      el("dt", null, say("Lost without it")), el("dd", null, hours(item.hours_lost_without)),
      el("dt", null, say("Costs: weight")), el("dd", null, hours(costs.weight_h)),
      el("dt", null, say("Costs: handling")), el("dd", null, hours(costs.packing_h)),
      item.to_buy_in_kit ? [el("dt", null, say("Costs: money")), el("dd", null, hours(costs.money_h))] : null),
    item.purposes?.length ? el("details", { class: "card" }, el("summary", null, el("b", null, several(item.purposes.length, "{n} purpose", "{n} purposes")), el("small", null, item.purposes[0])), el("ul", { class: "dots" }, item.purposes.map((text) => el("li", null, el("bdi", null, text))))) : null,
  ];
}

/** @param {any} answer @param {number} mass */
function notInKit(answer, mass) {
  const reasons = answer?.reasons;
  return [
    el("p", null, saying("{mass}. Not in the kit.", { mass: el("b", null, kg(mass)) })),
    reasons?.hours_saved_on_top !== undefined ? el("dl", { class: "facts" },
      el("dt", null, reasons.hours_saved_on_top < 0 ? say("Would lose, all told") : say("Would win, all told")), el("dd", null, hours(Math.abs(reasons.hours_saved_on_top))),
      el("dt", null, say("Costs: weight")), el("dd", null, hours(reasons.costs?.weight_h ?? 0)),
      el("dt", null, say("Costs: money")), el("dd", null, hours(reasons.costs?.money_h ?? 0))) : null,
    reasons?.price ? el("p", { class: "soft" }, say("New: {price}", { price: cash(reasons.price, answer.currency) })) : null,
  ];
}

/** @param {any} answer */
function instead(answer) {
  const reasons = answer?.reasons;
  const anew = reasons?.packed_anew_without ?? reasons?.packed_anew_with;
  if (!anew) return null;
  const names = (/** @type {any[]} */ list) => list.map((each) => `${each.count > 1 ? `${each.count} × ` : ""}${each.name}`).join(", ");
  const without = Boolean(reasons.packed_anew_without);
  return [heading(without ? say("Packed anew without it") : say("Packed anew with it")),
    el("dl", { class: "facts" },
      anew.hours_lost !== undefined ? [el("dt", null, anew.hours_lost < 0 ? say("Won") : say("Lost")), el("dd", null, hours(Math.abs(anew.hours_lost)))] : null,
      el("dt", null, say("Comes in")), el("dd", null, anew.entering?.length ? names(anew.entering) : say("nothing")),
      el("dt", null, say("Goes out")), el("dd", null, anew.leaving?.length ? names(anew.leaving) : say("nothing")),
      anew.mass_g ? [el("dt", null, say("Kit then")), el("dd", null, kg(anew.mass_g))] : null)];
}

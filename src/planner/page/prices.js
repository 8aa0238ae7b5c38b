/** What a kilogram, an hour or a thing costs on this trip, and in which currency. */

import { el } from "./dom.js";
import { amount, currency, fromCatalogue, rate, settle, shipped } from "./money.js";
import { stepper } from "./parts.js";
import { mark, say } from "./say.js";
import * as state from "./state.js";
import * as units from "./units.js";

/** Prices, in the order of their weight in a kit. @type {[string, string, string, string, number, number, (value: number) => unknown][]} */
const PRICES = [
  ["weight", mark("Weight"), mark("1: hard riding takes longer in proportion"), "", 0.25, 10, (value) => value],
  ["hour", mark("An hour of trouble"), "", "money", 5, 10000, (value) => `${value} ${currency()}`],
  ["thing", mark("Handling one thing"), mark("find it, stow it, put it back"), "min", 0.1, 60, (value) => `${value} min`],
  ["recovery", mark("Being fetched"), "", "money", 10, 100000, (value) => `${value} ${currency()}`],
  ["night", mark("A night's lodging"), mark("where help is far"), "money", 10, 10000, (value) => `${value} ${currency()}`],
  ["rest_of_day", mark("Riding lost on that day"), "", "h", 0.5, 24, (value) => `${value} h`],
  ["dread", mark("Dread of being stranded"), mark("a share for each hour to help"), "", 0.05, 100, (value) => value],
  ["buying", mark("Buying"), mark("1: as the price list has it; 0: counts for nothing"), "", 0.25, 10, (value) => value],
];

/** A price as it is shown: the scenario's own, or else the usual one. @param {string} id @param {string} unit @param {any} own */
function worth(id, unit, own) {
  if (own === undefined || own === null) {
    const usual = /** @type {any} */ (state.view.catalogue).prices ?? {};
    const known = usual[id] ?? usual[`${id}_h`] ?? 1;
    if (unit === "money") return fromCatalogue(known);
    return unit === "min" ? known * 60 : known;
  }
  if (unit === "money") return amount(own);
  if (unit !== "min" && unit !== "h") return Number(own);
  const hours = units.read(own, "time");
  return hours !== null && unit === "min" ? hours * 60 : hours;
}

/** @param {any} scenario */
export function prices(scenario) {
  const own = scenario.prices ?? {};
  return el("div", { class: "grid" }, PRICES.map(([id, label, hint, unit, step, high, write]) => stepper({
    label: say(label), name: `price-${id}`, hint: own[id] !== undefined ? say(hint) : hint ? say("{hint}; usual", { hint: say(hint) }) : say("usual"), unit: unit === "money" ? currency() : unit, step, high,
    value: worth(id, unit, own[id]),
    set: (typed) => state.change(({ scenario: now }) => ((now.prices ??= {})[id] = write(typed))),
  })));
}

/** What answers are in, and what one of the catalogue's is worth. */
export function money() {
  return [
    el("p", { class: "soft" }, say("Shipped prices are in {currency}. Rates are yours to look up; none is guessed.", { currency: shipped() })),
    el("label", { class: "field-line" }, el("span", null, say("Currency, three letters")), el("input", {
      type: "text", maxlength: "3", autocapitalize: "characters", autocomplete: "off", spellcheck: "false", value: currency(), "data-key": "currency",
      on: { change: (/** @type {any} */ event) => {
        const code = event.target.value.trim().toUpperCase();
        if (/^[A-Z]{3}$/.test(code)) settle(code, rate());
        else event.target.value = currency();
      } },
    })),
    currency() === shipped() ? null : stepper({ label: say("One {one} in {other}", { one: shipped(), other: currency() }), name: "rate", hint: state.trip?.scenario.money?.day ?? "", step: 0.01, low: 0.0001, high: 1e6, places: 6, value: rate(), set: (worth) => settle(currency(), worth) }),
  ];
}

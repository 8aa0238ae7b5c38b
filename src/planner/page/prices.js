/** What a kilogram, an hour or a thing costs on this trip, and in which currency. */

import { el } from "./dom.js";
import { amount, currency, fromCatalogue, rate, settle } from "./money.js";
import { stepper } from "./parts.js";
import * as state from "./state.js";
import * as units from "./units.js";

/** Prices, in the order of their weight in a kit. @type {[string, string, string, string, number, number, (value: number) => unknown][]} */
const PRICES = [
  ["weight", "Weight", "1: hard riding takes longer in proportion", "", 0.25, 10, (value) => value],
  ["hour", "An hour of trouble", "", "money", 5, 10000, (value) => `${value} ${currency()}`],
  ["thing", "Handling one thing", "find it, stow it, put it back", "min", 0.1, 60, (value) => `${value} min`],
  ["recovery", "Being fetched", "", "money", 10, 100000, (value) => `${value} ${currency()}`],
  ["night", "A night's lodging", "where help is far", "money", 10, 10000, (value) => `${value} ${currency()}`],
  ["rest_of_day", "Riding lost on that day", "", "h", 0.5, 24, (value) => `${value} h`],
  ["dread", "Dread of being stranded", "a share for each hour to help", "", 0.05, 100, (value) => value],
  ["buying", "Buying", "1: as the price list has it; 0: counts for nothing", "", 0.25, 10, (value) => value],
];

/** @param {any} scenario */
export function prices(scenario) {
  const usual = /** @type {any} */ (state.view.catalogue).prices ?? {};
  const own = scenario.prices ?? {};
  return el("div", { class: "grid" }, PRICES.map(([id, label, hint, unit, step, high, write]) => {
    const asHours = own[id] ?? usual[id] ?? usual[`${id}_h`];
    const raw = own[id] === undefined && usual[id] === undefined && usual[`${id}_h`] !== undefined ? usual[`${id}_h`] : null;
    let value = raw ?? (unit === "money" ? (own[id] === undefined ? fromCatalogue(Number(asHours)) : amount(asHours)) : unit === "min" || unit === "h" ? units.read(asHours, "time") : Number(asHours ?? 1));
    if (unit === "min" && value !== null) value *= 60;
    return stepper({
      label, name: `price-${id}`, hint: own[id] === undefined ? `${hint}${hint ? "; " : ""}usual` : hint, unit: unit === "money" ? currency() : unit, step, high, value,
      set: (typed) => state.change(({ scenario: now }) => ((now.prices ??= {})[id] = write(typed))),
    });
  }));
}

/** What answers are in, and what one of the catalogue's is worth. */
export function money() {
  const shipped = state.view.catalogue?.currency ?? "USD";
  return [
    el("p", { class: "soft" }, `Shipped prices are in ${shipped}. Rates are yours to look up; none is guessed.`),
    el("label", { class: "field-line" }, el("span", null, "Currency, three letters"), el("input", {
      type: "text", maxlength: "3", autocapitalize: "characters", autocomplete: "off", spellcheck: "false", value: currency(), "data-key": "currency",
      on: { change: (/** @type {any} */ event) => {
        const code = event.target.value.trim().toUpperCase();
        if (/^[A-Z]{3}$/.test(code)) settle(code, rate());
        else event.target.value = currency();
      } },
    })),
    currency() === shipped ? null : stepper({ label: `One ${shipped} in ${currency()}`, name: "rate", hint: state.trip?.scenario.money?.day ?? "", step: 0.01, low: 0.0001, high: 1e6, places: 6, value: rate(), set: (worth) => settle(currency(), worth) }),
  ];
}

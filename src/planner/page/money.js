/** The trip's currency, and amounts in it. Shipped prices are in the catalogue's; the rate between them is the rider's. */

import * as state from "./state.js";

/** @typedef {{in?: string, rates?: Record<string, number>, day?: string}} Exchange */

/** What the catalogue's prices are in. */
export const shipped = () => state.view.catalogue?.currency ?? "USD";
/** @returns {Exchange} */
const exchange = () => state.trip?.scenario.money ?? {};

/** What answers are in. */
export const currency = () => exchange().in ?? shipped();

/** What one of a currency is in the trip's. @param {string} code */
const rateOf = (code) => (code === currency() ? 1 : Number(exchange().rates?.[code] ?? 1));

/** What one of the catalogue's currency is in the trip's. */
export const rate = () => rateOf(shipped());

/** An amount of the catalogue in the trip's currency. @param {number} value */
export const fromCatalogue = (value) => value * rate();

/** An amount as a file has it, in the trip's currency; null if there is none. @param {unknown} text */
export function amount(text) {
  const found = /^\s*([\d.]+)\s*([A-Z]{3})?\s*$/.exec(String(text ?? ""));
  return found ? Number(found[1]) * (found[2] ? rateOf(found[2]) : 1) : null;
}

/** As a file has it: enough digits for any rate, and no more. @param {number} value */
const digits = (value) => Number(value.toPrecision(6));

/**
 * Another currency, or another rate. What is written in the one before keeps its worth.
 * @param {string} code @param {number} worth what one of the catalogue's currency is in it
 */
export function settle(code, worth) {
  const [base, before] = [shipped(), currency()];
  /** @type {Record<string, number>} */
  const known = { ...exchange().rates, [before]: 1, [base]: rate() };
  const factor = (code === base ? 1 : worth) / known[base];
  const rates = Object.fromEntries(Object.entries(known).filter(([other]) => other !== code).map(([other, each]) => [other, digits(each * factor)]));
  state.change(({ scenario }) => {
    if (code === base && !Object.keys(rates).length) delete scenario.money;
    else scenario.money = { in: code, rates, day: new Date().toISOString().slice(0, 10) };
  });
}

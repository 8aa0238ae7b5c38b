/** Figures as a rider reads them. */

import { number, say } from "./say.js";

/** @param {number} grams */
export function kg(grams) {
  const size = Math.abs(grams);
  if (size < 995) return `${number(Math.round(grams), 0)} g`;
  return `${number(grams / 1000, size < 99500 ? 2 : 1)} kg`;
}

/** Kilograms with one place. @param {number} grams */
export const kilos = (grams) => number(grams / 1000, 1);

/** @param {number} millilitres */
export const litres = (millilitres) => `${number(millilitres / 1000, 1)} L`;

/** A time. @param {number} value in hours */
export function hours(value) {
  const size = Math.abs(value);
  if (size < 1 / 120) return "0 min";
  if (size < 0.995) {
    const minutes = value * 60;
    return `${number(minutes, size * 60 < 10 ? 1 : 0, 0)} min`;
  }
  return `${number(value, size < 99.5 ? 1 : 0)} h`;
}

/** A chance of a good end, in 100 trips, never rounded up to certain. @param {number} chance */
export function inHundred(chance) {
  const of100 = chance * 100;
  if (of100 >= 99.95) return number(99.9, 1);
  return of100 >= 99 ? number(Math.floor(of100 * 10) / 10, 1) : String(Math.floor(of100));
}

/** How often something happens. @param {number} chance expected times a trip */
export function often(chance) {
  if (chance >= 0.095) return say("{share} % of trips", { share: Math.round(chance * 100) });
  if (chance <= 0) return say("never");
  return say("1 trip in {trips}", { trips: Math.round(1 / chance) });
}

/** @param {number} share */
export const percent = (share) => `${Math.round(share * 100)} %`;

/** @param {number} amount @param {string} currency */
export const cash = (amount, currency) => `${number(Math.round(amount), 0)} ${currency}`;

/** A name whose last short word stays with the one before: `18 L`. @param {string} text */
export const whole = (text) => text.replace(/ (\S{1,2})$/, "\u00a0$1");

/** With a capital letter. @param {string} text */
export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

/** Kilograms, of a limit where there is one. @param {number} grams @param {number | null} [limit] */
export const kilosOf = (grams, limit) => (limit ? say("{mass} of {limit} kg", { mass: kilos(grams), limit: kilos(limit) }) : `${kilos(grams)} kg`);

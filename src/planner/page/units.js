/** Quantities of the files, such as `24 kg`: read to a number in one unit, written back as the files want them. */

/** @type {Record<string, Record<string, number>>} */
const SCALES = {
  mass: { mg: 0.001, g: 1, kg: 1000, oz: 28.349523125, lb: 453.59237 },
  volume: { mL: 1, L: 1000, cm3: 1, in3: 16.387064, "fl oz": 29.5735295625, gal: 3785.411784 },
  length: { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8 },
  time: { min: 1 / 60, h: 1, day: 24, days: 24 },
  distance: { km: 1, mi: 1.609344 },
};

/**
 * The number in the base unit (g, mL, mm, h, km; °C), or null; money is read by `money.js`.
 * @param {unknown} text
 * @param {"mass" | "volume" | "length" | "time" | "distance" | "warmth"} kind
 * @returns {number | null}
 */
export function read(text, kind) {
  if (typeof text === "number") return text;
  const found = /^\s*([+-]?[\d.]+)\s*(.*?)\s*$/.exec(String(text ?? ""));
  if (!found) return null;
  const value = Number(found[1]);
  if (!Number.isFinite(value)) return null;
  if (kind === "warmth") return /F/i.test(found[2]) ? ((value - 32) * 5) / 9 : value;
  const scale = SCALES[kind][found[2]];
  return scale === undefined ? null : value * scale;
}

/** Without zeros at the end. @param {number} value @param {number} [places] */
export const plain = (value, places = 3) => String(Number(value.toFixed(places)));

/** @param {number} grams */
export const mass = (grams) => (grams >= 1000 ? `${plain(grams / 1000)} kg` : `${plain(grams, 1)} g`);
/** @param {number} hours */
export const time = (hours) => `${plain(hours, 2)} h`;
/** @param {number} hours */
export const days = (hours) => `${plain(hours / 24, 2)} days`;
/** @param {number} km */
export const distance = (km) => `${plain(km, 1)} km`;
/** @param {number} degrees */
export const warmth = (degrees) => `${plain(degrees, 0)} °C`;
/** @param {number} amount @param {string} currency */
export const money = (amount, currency) => `${plain(amount, 2)} ${currency}`;
/** @param {number} millilitres */
export const volume = (millilitres) => (millilitres >= 1000 ? `${plain(millilitres / 1000)} L` : `${plain(millilitres, 0)} mL`);
/** @param {number} millimetres */
export const length = (millimetres) => `${plain(millimetres, 0)} mm`;

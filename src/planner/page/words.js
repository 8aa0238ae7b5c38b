/** Figures as a rider reads them. */

/** @param {number} grams */
export function kg(grams) {
  const size = Math.abs(grams);
  if (size < 995) return `${Math.round(grams)} g`;
  return `${(grams / 1000).toFixed(size < 99500 ? 2 : 1)} kg`;
}

/** Kilograms with one place. @param {number} grams */
export const kilos = (grams) => (grams / 1000).toFixed(1);

/** @param {number} millilitres */
export const litres = (millilitres) => `${(millilitres / 1000).toFixed(1)} L`;

/** A time. @param {number} value in hours */
export function hours(value) {
  const size = Math.abs(value);
  if (size < 1 / 120) return "0 min";
  if (size < 0.995) {
    const minutes = value * 60;
    return `${size * 60 < 10 ? Number(minutes.toFixed(1)) : Math.round(minutes)} min`;
  }
  return `${value.toFixed(size < 99.5 ? 1 : 0)} h`;
}

/** A chance of a good end, in 100 trips, never rounded up to certain. @param {number} chance */
export function inHundred(chance) {
  const of100 = chance * 100;
  if (of100 >= 99.95) return "99.9";
  return of100 >= 99 ? (Math.floor(of100 * 10) / 10).toFixed(1) : String(Math.floor(of100));
}

/** How often something happens. @param {number} chance expected times a trip */
export function often(chance) {
  if (chance >= 0.095) return `${Math.round(chance * 100)} % of trips`;
  if (chance <= 0) return "never";
  return `1 trip in ${Math.round(1 / chance)}`;
}

/** @param {number} share */
export const percent = (share) => `${Math.round(share * 100)} %`;

/** @param {number} count @param {string} one @param {string} [many] */
export const plural = (count, one, many = `${one}s`) => `${count} ${count === 1 ? one : many}`;

/** @param {number} amount @param {string} currency */
export const cash = (amount, currency) => `${Math.round(amount)} ${currency}`;

/** A name whose last short word stays with the one before: `18 L`. @param {string} text */
export const whole = (text) => text.replace(/ (\S{1,2})$/, "\u00a0$1");

/** With a capital letter. @param {string} text */
export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

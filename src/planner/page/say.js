/**
 * What the page says, in the language of the rider. The English text is the key; the tables are made of the files
 * `src/words/LANGUAGE/page.po`. What a table lacks is said in English. A text is one whole with holes, such as
 * `{name}`, so that another language can put its words in another order.
 */

import { TABLES } from "./tables.js";

/** Where the browser keeps which language was chosen. */
const PLACE = "fardel-language";
const ENGLISH = "en";
/** In the order of the plural forms of a PO file. */
const CATEGORIES = ["zero", "one", "two", "few", "many", "other"];

/** Languages to choose from: code and own name. @type {[string, string][]} */
export const LANGUAGES = [[ENGLISH, "English"], .../** @type {[string, string][]} */ (Object.entries(TABLES).map(([code, { name }]) => [code, name]))];

/** @param {string | null} code */
const known = (code) => LANGUAGES.some(([each]) => each === code);

/** The language that is spoken. */
export let language = first();
/** @type {Intl.PluralRules} */
let plurals = new Intl.PluralRules(language);
/** @type {Map<string, Intl.NumberFormat>} */
let formats = new Map();

/** @type {Set<() => void>} */
const watchers = new Set();
/** Calls when another language was chosen. @param {() => void} watcher */
export const onLanguage = (watcher) => watchers.add(watcher);

/** The language that was chosen before, else the first of the browser's own that is there, else English. */
function first() {
  try {
    const kept = localStorage.getItem(PLACE);
    if (kept && known(kept)) return kept;
  } catch {
    // A browser that keeps nothing is asked for its own language.
  }
  return navigator.languages.map((each) => each.split("-")[0]).find(known) ?? ENGLISH;
}

/** @param {string} code */
function adopt(code) {
  if (code === language) return;
  language = code;
  plurals = new Intl.PluralRules(code);
  formats = new Map();
  watchers.forEach((watcher) => watcher());
}

/** Speaks another language from now on. @param {string} code */
export function speak(code) {
  try {
    localStorage.setItem(PLACE, code);
  } catch {
    // It then holds until the page is closed.
  }
  adopt(code);
}

// Tabs speak one language: two of them would each ask anew for what the other has just answered.
addEventListener("storage", ({ key, newValue }) => key === PLACE && known(newValue) && adopt(/** @type {string} */ (newValue)));

/** What a question depends on beside what is asked: the words of an answer. English is what is spoken without a word. */
export const spoken = () => (language === ENGLISH ? [] : [language]);

/** @param {string} text @returns {string | string[] | undefined} */
const found = (text) => TABLES[language]?.texts[text];

/** A text that is looked up where it is shown: nothing is done here, but the tables have to hold it. @param {string} text */
export const mark = (text) => text;

/** @param {string} pattern @param {Record<string, any>} holes @returns {any[]} */
const parts = (pattern, holes) => pattern.split(/\{(\w+)\}/).map((part, k) => (k % 2 && part in holes ? shown(holes[part]) : k % 2 ? `{${part}}` : part));

/** @param {any} value */
const shown = (value) => (typeof value === "number" ? number(value, 3, 0) : value);

/** A text as a string. @param {string} text @param {Record<string, string | number>} [holes] */
export const say = (text, holes) => {
  const pattern = /** @type {string} */ (found(text) ?? text);
  return holes ? parts(pattern, holes).join("") : pattern;
};

/** A text with elements in its holes. @param {string} text @param {Record<string, any>} holes @returns {any[]} */
export const saying = (text, holes) => parts(/** @type {string} */ (found(text) ?? text), holes).filter((part) => part !== "");

/** A text that hangs on a count, `{n}`. @param {number} n @param {string} one @param {string} many @param {Record<string, string | number>} [holes] */
export function several(n, one, many, holes) {
  const forms = found(one);
  const category = plurals.select(n);
  if (!Array.isArray(forms)) return parts(category === "one" ? one : many, { n, ...holes }).join("");
  const order = CATEGORIES.filter((each) => plurals.resolvedOptions().pluralCategories.includes(/** @type {any} */ (each)));
  return parts(forms[order.indexOf(category)] ?? forms[forms.length - 1], { n, ...holes }).join("");
}

/** A number as the language writes it, without marks between thousands. @param {number} value @param {number} places @param {number} [least] places that are shown even if nothing is there */
export function number(value, places, least = places) {
  const key = `${places} ${least}`;
  let format = formats.get(key);
  if (!format) formats.set(key, (format = new Intl.NumberFormat(language, { minimumFractionDigits: least, maximumFractionDigits: places, useGrouping: false })));
  // As decimal digits: what is half-way is rounded as the engine does.
  return format.format(/** @type {any} */ (value.toFixed(places)));
}

/** A number that was typed, with a comma or a point; NaN where it is none. @param {string} text */
export const typed = (text) => (text.trim() === "" ? NaN : Number(text.replace(",", ".")));

/** @param {string[]} list */
export const both = (list) => list.reduce((one, other) => say("{one} and {other}", { one, other }));

/** Pieces that several screens use. Each is a function to a fresh node. */

import { el, svg } from "./dom.js";
import { icon } from "./icons.js";
import { number, say, typed } from "./say.js";

/** How long a held button waits and how often it then counts, in milliseconds. */
const HOLD = [450, 90];

/**
 * A number with buttons for less and more; held, they go on.
 * @param {{label: string, value: number | null, unit?: string, step?: number, low?: number, high?: number, places?: number,
 *   quiet?: string, hint?: string, name?: string, set: (value: number) => void}} of
 */
export function stepper(of) {
  const { step = 1, low = 0, high = 99999, places = 2 } = of;
  const clamp = (/** @type {number} */ value) => Math.min(high, Math.max(low, Number(value.toFixed(places))));
  const shown = (/** @type {number} */ value) => number(value, places, 0);
  /** @param {number} by */
  const by = (by) => (/** @type {Event} */ _, /** @type {any} */ button) => {
    const field = button.parentNode.querySelector("input");
    const now = field.value ? typed(field.value) : (of.value ?? low);
    const next = clamp(by > 0 ? Math.floor(now / step + 1e-9) * step + step : Math.ceil(now / step - 1e-9) * step - step);
    field.value = shown(next);
    of.set(next);
  };
  const hold = (/** @type {Event} */ _, /** @type {any} */ button) => {
    let timer = setTimeout(function again() {
      if (!button.isConnected) return;
      button.click();
      timer = setTimeout(again, HOLD[1]);
    }, HOLD[0]);
    for (const end of ["pointerup", "pointercancel", "pointerleave"]) button.addEventListener(end, () => clearTimeout(timer), { once: true });
  };
  const id = `n-${(of.name ?? of.label).replace(/\W+/g, "-")}`;
  return el("div", { class: "stepper", role: "group", "aria-label": of.label },
    el("label", { for: id }, of.label, of.hint ? el("small", null, of.hint) : null),
    el("span", { class: "count" },
      el("button", { type: "button", "aria-label": say("{what}: less", { what: of.label }), on: { click: by(-1), pointerdown: hold } }, icon("less")),
      el("span", { class: "field" },
        el("input", {
          id, type: "text", inputmode: "decimal", autocomplete: "off", value: of.value === null ? "" : shown(of.value), placeholder: of.quiet ?? "",
          on: {
            change: (/** @type {any} */ event) => {
              const value = typed(event.target.value);
              if (Number.isFinite(value)) of.set(clamp(value));
            },
          },
        }),
        of.unit ? el("span", { class: "unit", "aria-hidden": "true" }, of.unit) : null),
      el("button", { type: "button", "aria-label": say("{what}: more", { what: of.label }), on: { click: by(1), pointerdown: hold } }, icon("more"))));
}

/**
 * One of a few, as large buttons.
 * @param {{label: string, value: string, options: [string, string, string?][], hide?: boolean, set: (value: string) => void}} of
 */
export function choice(of) {
  const group = `c-${of.label.replace(/\W+/g, "-")}`;
  return el("fieldset", { class: "choice" },
    el("legend", { class: of.hide ? "unseen" : null }, of.label),
    of.options.map(([value, words, more]) =>
      el("label", { class: "option" },
        el("input", { type: "radio", name: group, value, checked: value === of.value, on: { change: () => of.set(value) } }),
        el("span", null, words, more ? el("small", null, more) : null))));
}

/** A box to tick with words. @param {{words: any, ticked: boolean, set: (ticked: boolean) => void, class?: string, key?: string}} of */
export const tick = (of) =>
  el("label", { class: `tick ${of.class ?? ""}`, "data-key": of.key },
    el("input", { type: "checkbox", checked: of.ticked, on: { change: (/** @type {any} */ event) => of.set(event.target.checked) } }),
    el("span", null, of.words));

/** A button. @param {string} words @param {() => void} act @param {Record<string, any>} [more] */
export const button = (words, act, more = {}) =>
  el("button", { type: "button", ...more, on: { click: act } }, more.icon ? icon(more.icon) : null, el("span", null, words));

/** How full something is. @param {string} label @param {number} share @param {string} [words] */
export function meter(label, share, words = "") {
  const full = Math.max(0, Math.min(1, share || 0));
  return el("span", { class: `meter${share > 0.995 ? " brim" : ""}`, role: "img", "aria-label": `${label}: ${words || `${Math.round(share * 100)} %`}`, vars: { "--full": `${(full * 100).toFixed(1)}%` } });
}

/** A heading with the strap that runs from it. @param {any} words @param {any} [beside] */
export const heading = (words, beside) => el("h2", null, el("span", null, words), beside ?? null);

/** A message that stays. @param {"say" | "warn" | "stop"} sort @param {any} title @param {...any} more */
export const plate = (sort, title, ...more) =>
  el("div", { class: `plate ${sort}`, role: sort === "stop" ? "alert" : null }, icon(sort === "say" ? "told" : "care"),
    el("div", null, el("strong", null, title), more));

/** Waiting for something that has no length. @param {string} words */
export const waiting = (words) => el("p", { class: "waiting", role: "status" }, svg("svg", { viewBox: "0 0 24 24", "aria-hidden": "true", class: "turning" },
  svg("circle", { cx: 12, cy: 12, r: 9 }), svg("path", { d: "M12 3a9 9 0 0 1 9 9" })), el("span", null, words));

/** Words beside a row that are longer go below it, in characters. */
const BRIEF = 11;

/** The click that follows a drag is none. @param {Element} node */
export function noClick(node) {
  const stop = (/** @type {Event} */ click) => click.stopPropagation();
  node.addEventListener("click", stop, { capture: true });
  setTimeout(() => node.removeEventListener("click", stop, { capture: true }), 60);
}

/** Rows that are links to a sheet or a screen. @param {any} words @param {any} beside @param {() => void} act @param {Record<string, any>} [more] */
export const row = (words, beside, act, more = {}) =>
  el("button", { type: "button", class: typeof beside === "string" && beside.length > BRIEF ? "row long" : "row", ...more, on: { click: act } }, el("span", { class: "words" }, words), el("span", { class: "beside" }, beside), icon("into"));

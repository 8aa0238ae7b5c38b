/** A sheet that slides over the screen, and words that pass by at the foot of it. */

import { el, renew } from "./dom.js";
import { button } from "./parts.js";
import { say } from "./say.js";

/** How long something can be undone, in milliseconds. */
export const UNDO = 8000;

/** Where passing words stand: below the page, or in a sheet that is open. */
const place = /** @type {HTMLElement} */ (document.getElementById("said"));

/** @type {(() => any) | null} */
let drawn = null;
/** @type {HTMLDialogElement | null} */
let dialog = null;
/** @type {(() => void) | null} */
let onShut = null;

/** Opens a sheet; what draws it is asked again whenever something changes. @param {string} title @param {() => any} draw @param {() => void} [shutting] */
export function openSheet(title, draw, shutting) {
  dialog ??= make();
  drawn = () => [
    el("header", { class: "sheet-head" }, el("h2", { id: "sheet-title", tabindex: "-1" }, el("bdi", null, title)), button(say("Close"), shutSheet, { class: "plain", icon: "shut" })),
    el("div", { class: "sheet-body" }, draw()),
  ];
  onShut = shutting ?? null;
  dialog.replaceChildren();
  redrawSheet();
  if (!dialog.open) dialog.showModal();
  dialog.querySelector("h2")?.focus();
  dialog.scrollTop = 0;
}

export function shutSheet() {
  dialog?.close();
  wordsOut();
}

/** Passing words are never left in a sheet that is shut. */
function wordsOut() {
  if (place.parentElement !== document.body) document.body.append(place);
}

export function redrawSheet() {
  if (!dialog || !drawn) return;
  const speaking = place.parentElement === dialog;
  renew(dialog, drawn());
  if (speaking) dialog.append(place);
}

function make() {
  const made = /** @type {HTMLDialogElement} */ (el("dialog", { class: "sheet", "aria-labelledby": "sheet-title" }));
  document.body.append(made);
  made.addEventListener("close", () => {
    drawn = null;
    wordsOut();
    onShut?.();
    onShut = null;
  });
  made.addEventListener("pointerdown", (event) => {
    const box = made.getBoundingClientRect();
    if (event.target === made && (event.clientY < box.top || event.clientX < box.left || event.clientX > box.right)) shutSheet();
  });
  return made;
}

/** @type {ReturnType<typeof setTimeout> | undefined} */
let passing;

/** Says something for a while, with a way back where there is one. @param {string} words @param {(() => void) | null} [undo] */
export function notice(words, undo) {
  clearTimeout(passing);
  const hush = () => place.replaceChildren();
  const back = () => {
    hush();
    undo?.();
  };
  place.replaceChildren(el("div", { class: "said" }, el("span", null, words), undo ? button(say("Undo"), back) : null));
  passing = setTimeout(hush, undo ? UNDO : UNDO / 2);
  // A sheet that is open lies above everything else: the words go into it.
  (dialog?.open ? dialog : document.body).append(place);
}

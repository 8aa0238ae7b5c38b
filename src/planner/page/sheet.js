/** A sheet that slides over the screen, and words that pass by at the foot of it. */

import { el, renew } from "./dom.js";
import { button } from "./parts.js";

/** How long something can be undone, in milliseconds. */
export const UNDO = 8000;

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
    el("header", { class: "sheet-head" }, el("h2", { id: "sheet-title", tabindex: "-1" }, el("bdi", null, title)), button("Close", shutSheet, { class: "plain", icon: "shut" })),
    el("div", { class: "sheet-body" }, draw()),
  ];
  onShut = shutting ?? null;
  wordsOut();
  dialog.replaceChildren();
  redrawSheet();
  if (!dialog.open) dialog.showModal();
  wordsIn();
  dialog.querySelector("h2")?.focus();
  dialog.scrollTop = 0;
}

export function shutSheet() {
  dialog?.close();
  wordsOut();
}

/** Where words pass by. @type {HTMLElement | null} */
let place = null;

/** Passing words are never left in a sheet that is shut or drawn anew. */
function wordsOut() {
  if (place && place.parentElement !== document.body) document.body.append(place);
}

/** A sheet that is open lies above everything else: passing words go into it. */
function wordsIn() {
  if (place?.childElementCount && dialog?.open) dialog.append(place);
}

export function redrawSheet() {
  if (!dialog || !drawn) return;
  wordsOut();
  renew(dialog, drawn());
  wordsIn();
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
export function say(words, undo) {
  const passingWords = place ??= /** @type {HTMLElement} */ (document.getElementById("said"));
  clearTimeout(passing);
  const hush = () => passingWords.replaceChildren();
  const back = () => {
    hush();
    undo?.();
  };
  passingWords.replaceChildren(el("div", { class: "said" }, el("span", null, words), undo ? button("Undo", back) : null));
  passing = setTimeout(hush, undo ? UNDO : UNDO / 2);
  wordsOut();
  wordsIn();
}

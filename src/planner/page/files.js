/** Files in and out of the page. */

import { say } from "./say.js";

/** Largest file that is read, in bytes: the limit of the command line. */
export const LARGEST = 4_000_000;
/** Largest track: recorded ones are long. The command line takes larger ones; a phone does not hold them. */
export const LARGEST_TRACK = 64_000_000;

/** Hands a file to the browser's downloads. @param {string} name @param {string | Blob} content @param {string} [type] */
export function download(name, content, type = "text/yaml") {
  const blob = content instanceof Blob ? content : new Blob([content], { type: `${type};charset=utf-8` });
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** Lets the rider choose files, and reads them. @param {string} accept @param {number} [largest] @returns {Promise<{name: string, text: string}[]>} */
export function choose(accept, largest = LARGEST) {
  const field = document.createElement("input");
  field.type = "file";
  field.multiple = true;
  field.accept = accept;
  field.className = "unseen";
  field.tabIndex = -1;
  field.setAttribute("aria-hidden", "true");
  document.body.append(field);
  return new Promise((done, failed) => {
    const end = () => {
      const files = [...(field.files ?? [])];
      field.remove();
      texts(files, largest).then(done, failed);
    };
    field.addEventListener("change", end, { once: true });
    field.addEventListener("cancel", end, { once: true });
    field.click();
  });
}

/** Files as texts. @param {File[]} files @param {number} largest in bytes */
export const texts = (files, largest) =>
  Promise.all(files.map(async (file) => ({ name: file.name, text: file.size > largest ? tooLarge(file.name, largest) : await file.text() })));

/** @param {string} name @param {number} largest @returns {never} */
function tooLarge(name, largest) {
  throw new Error(say("{file} is larger than {size} MB.", { file: name, size: largest / 1e6 }));
}

/** A name for a file out of the name of a trip. @param {string} text @param {string} ending */
export const fileName = (text, ending) => `${(text || say("trip")).normalize("NFKD").toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 60) || "trip"}.${ending}`;

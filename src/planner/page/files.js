/** Files in and out of the page. */

/** Largest file that is read, in bytes: the limit of the command line. */
export const LARGEST = 4_000_000;

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

/** Lets the rider choose files, and reads them. @param {string} accept @returns {Promise<{name: string, text: string}[]>} */
export function choose(accept) {
  const field = document.createElement("input");
  field.type = "file";
  field.multiple = true;
  field.accept = accept;
  field.className = "unseen";
  field.tabIndex = -1;
  field.setAttribute("aria-hidden", "true");
  document.body.append(field);
  return new Promise((done) => {
    const end = async () => {
      const files = [...(field.files ?? [])];
      field.remove();
      done(await Promise.all(files.map(async (file) => ({ name: file.name, text: file.size > LARGEST ? tooLarge(file.name) : await file.text() }))));
    };
    field.addEventListener("change", end, { once: true });
    field.addEventListener("cancel", end, { once: true });
    field.click();
  });
}

/** @param {string} name @returns {never} */
function tooLarge(name) {
  throw new Error(`${name} is larger than 4 MB.`);
}

/** A name for a file out of the name of a trip. @param {string} text @param {string} ending */
export const fileName = (text, ending) => `${(text || "trip").normalize("NFKD").toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 60) || "trip"}.${ending}`;

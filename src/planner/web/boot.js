/** Unpacks the engine that stands in the file itself. The page is drawn meanwhile; calls wait for it. */

/** @param {string} id */
const packed = (id) => Uint8Array.from(atob(document.getElementById(id)?.textContent ?? ""), (letter) => letter.charCodeAt(0));

/** @param {string} id */
const unpacked = (id) => new Response(new Blob([packed(id)]).stream().pipeThrough(new DecompressionStream("gzip")));

globalThis.fardelEngine = unpacked("engine").arrayBuffer().then((bytes) => WebAssembly.compile(bytes));

const worker = new Blob([document.getElementById("worker")?.textContent ?? ""], { type: "text/javascript" });
document.querySelector('meta[name="fardel-worker"]')?.setAttribute("content", URL.createObjectURL(worker));

/**
 * The one interface to the engine. `INTERFACE.md` in the folder above lists the calls. There are two hosts behind it: the
 * program that serves this page, and a worker that holds the engine as WebAssembly.
 */

import { HttpHost } from "./host-http.js";
import { WorkerHost } from "./host-worker.js";
import { language } from "./say.js";

/**
 * @typedef {object} Host
 * @property {(call: string, body: object, tell?: ((part: any) => void) | null, signal?: AbortSignal) => Promise<any>} call
 * @property {string} sort
 */

const worker = document.querySelector('meta[name="fardel-host"]')?.getAttribute("content") === "worker";

/** @type {Host} */
const engine = worker ? new WorkerHost() : new HttpHost();

/** Every call says which language is spoken, unless it asks for another. @type {Host} */
export const host = { sort: engine.sort, call: (call, body, tell, signal) => engine.call(call, { language, ...body }, tell, signal) };

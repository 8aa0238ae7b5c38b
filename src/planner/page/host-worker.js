/**
 * The engine in workers: the calls are messages. One worker searches and is busy as long as it searches; another answers what
 * takes milliseconds. A worker hears nothing while it works: a call that is given up amid a calculation ends it.
 */

import { Broken, Refused } from "./refused.js";
import { say } from "./say.js";

/** How long a worker may take to answer a ping before it counts as busy and is ended, in milliseconds. */
const PATIENCE = 250;
/** Calls that search, or begin where a search ended. */
const SEARCHES = new Set(["plan", "split", "curve", "why"]);

/** @typedef {{call: string, body: object, tell: any, done: (answer: any) => void, failed: (error: any) => void}} Waiting */

/** One worker with the calls that wait for it. */
class Lane {
  /** @type {Worker | null} */
  worker = null;
  next = 1;
  /** @type {Map<number, Waiting>} */
  waiting = new Map();

  start() {
    const meta = document.querySelector('meta[name="fardel-worker"]');
    const address = meta?.getAttribute("content") || "worker.js";
    const worker = new Worker(address, { type: meta?.hasAttribute("data-plain") ? "classic" : "module" });
    worker.onmessage = ({ data }) => this.heard(data);
    worker.onerror = () => this.fell();
    const engine = /** @type {any} */ (globalThis).fardelEngine;
    engine?.then((/** @type {WebAssembly.Module} */ module) => worker.postMessage({ engine: module }), () => this.fell());
    this.worker = worker;
    return worker;
  }

  /** @param {any} data */
  heard(data) {
    const mine = this.waiting.get(data.id);
    if (!mine) return;
    if ("part" in data) return mine.tell?.(data.part);
    this.waiting.delete(data.id);
    if (data.refused) mine.failed(new Refused(data.refused));
    else if (data.defect) mine.failed(new Broken(data.defect));
    else mine.done(data.done);
  }

  fell() {
    this.worker?.terminate();
    this.worker = null;
    for (const mine of this.waiting.values()) mine.failed(new Broken(say("The engine stopped. Your trip is kept; try again.")));
    this.waiting.clear();
  }

  /** @param {string} call @param {object} body @param {((part: any) => void) | null} [tell] @param {AbortSignal} [signal] @returns {Promise<any>} */
  call(call, body, tell, signal) {
    if (signal?.aborted) return Promise.reject(new DOMException("", "AbortError"));
    const worker = this.worker ?? this.start();
    const id = this.next++;
    return new Promise((done, failed) => {
      this.waiting.set(id, { call, body, tell, done, failed });
      signal?.addEventListener("abort", () => this.cancel(id, failed), { once: true });
      worker.postMessage({ id, call, body });
    });
  }

  /** @param {number} id @param {(error: any) => void} failed */
  cancel(id, failed) {
    if (!this.waiting.delete(id)) return;
    failed(new DOMException("", "AbortError"));
    const { worker } = this;
    const probe = this.next++;
    const timer = setTimeout(() => {
      this.waiting.delete(probe);
      if (this.worker === worker) this.anew();
    }, PATIENCE);
    const heard = () => clearTimeout(timer);
    this.waiting.set(probe, { call: "ping", body: {}, tell: null, done: heard, failed: heard });
    worker?.postMessage({ id, cancel: true });
    worker?.postMessage({ id: probe, call: "ping", body: {} });
  }

  /** Ends a worker that does not hear; what else waits is asked of a fresh one. */
  anew() {
    this.worker?.terminate();
    this.worker = null;
    if (!this.waiting.size) return;
    const fresh = this.start();
    for (const [id, { call, body }] of this.waiting) fresh.postMessage({ id, call, body });
  }
}

export class WorkerHost {
  sort = "worker";
  searching = new Lane();
  quick = new Lane();

  /** @param {string} call @param {object} body @param {((part: any) => void) | null} [tell] @param {AbortSignal} [signal] */
  call(call, body, tell, signal) {
    return (SEARCHES.has(call) ? this.searching : this.quick).call(call, body, tell, signal);
  }
}

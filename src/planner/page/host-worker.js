/** The engine in a worker: the calls are messages. A worker that must stop amid a calculation is ended and started anew. */

import { Broken, Refused } from "./refused.js";

/** How long a worker may take to give up a call before it is ended, in milliseconds. */
const PATIENCE = 250;

export class WorkerHost {
  sort = "worker";
  /** @type {Worker | null} */
  worker = null;
  next = 1;
  /** @type {Map<number, {call: string, body: object, tell: any, done: (answer: any) => void, failed: (error: any) => void}>} */
  waiting = new Map();

  start() {
    const address = document.querySelector('meta[name="fardel-worker"]')?.getAttribute("content") ?? "worker.js";
    const worker = new Worker(address, { type: "module" });
    worker.onmessage = ({ data }) => this.heard(data);
    worker.onerror = () => this.fell();
    this.worker = worker;
    // The engine is compiled once for all workers; calls wait in the worker until it is there.
    const engine = /** @type {any} */ (globalThis).fardelEngine;
    Promise.resolve(engine).then((ready) => worker.postMessage({ engine: ready })).catch(() => this.fell());
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
    for (const mine of this.waiting.values()) mine.failed(new Broken("The engine stopped. Your trip is kept; try again."));
    this.waiting.clear();
  }

  /**
   * @param {string} call
   * @param {object} body
   * @param {((part: any) => void) | null} [tell]
   * @param {AbortSignal} [signal]
   * @returns {Promise<any>}
   */
  call(call, body, tell, signal) {
    if (signal?.aborted) return Promise.reject(new DOMException("", "AbortError"));
    const worker = this.worker ?? this.start();
    const id = this.next++;
    return new Promise((done, failed) => {
      this.waiting.set(id, { call, body, tell, done, failed });
      signal?.addEventListener("abort", () => this.cancel(id, failed));
      worker.postMessage({ id, call, body });
    });
  }

  /** @param {number} id @param {(error: any) => void} failed */
  cancel(id, failed) {
    if (!this.waiting.delete(id)) return;
    failed(new DOMException("", "AbortError"));
    const worker = this.worker;
    worker?.postMessage({ id, cancel: true });
    // A call that never yields cannot hear: what else waits is asked again of a fresh worker.
    const probe = this.next++;
    const timer = setTimeout(() => {
      this.waiting.delete(probe);
      if (this.worker !== worker) return;
      worker?.terminate();
      const fresh = this.start();
      for (const [mine, { call, body }] of this.waiting) fresh.postMessage({ id: mine, call, body });
    }, PATIENCE);
    const heard = () => clearTimeout(timer);
    this.waiting.set(probe, { call: "ping", body: {}, tell: null, done: heard, failed: heard });
    worker?.postMessage({ id: probe, call: "ping", body: {} });
  }
}

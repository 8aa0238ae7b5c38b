/** The engine in a worker. The page first sends the compiled module, then calls; see INTERFACE.md in the folder above. */

import init, { call } from "engine";

/** Which call is being answered. */
let current = 0;
/** @type {(module: WebAssembly.Module) => void} */
let take = () => undefined;
const ready = new Promise((done) => (take = done)).then((module) => init({ module_or_path: module }));

globalThis.fardelPart = (/** @type {string} */ part) => postMessage({ id: current, part: JSON.parse(part) });

onmessage = async ({ data }) => {
  if (data.engine) return take(data.engine);
  if (data.cancel) return;
  if (data.call === "ping") return postMessage({ id: data.id, done: null });
  try {
    await ready;
    current = data.id;
    postMessage({ id: data.id, ...JSON.parse(call(data.call, JSON.stringify(data.body))) });
  } catch (error) {
    postMessage({ id: data.id, defect: String(error) });
  }
};

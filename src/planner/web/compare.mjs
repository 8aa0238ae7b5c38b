/** `node compare.mjs ENGINE PROGRAM`: the engine as WebAssembly answers every shipped scenario as the program does, to the byte. */

import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

const [folder, program] = process.argv.slice(2).map((path) => resolve(path));
let parts = [];
globalThis.fardelPart = (part) => parts.push(part);
const { default: init, call } = await import(pathToFileURL(join(folder, "engine.js")));
const began = performance.now();
await init({ module_or_path: await WebAssembly.compile(readFileSync(join(folder, "engine_bg.wasm"))) });

/** The last part of an answer, or the answer. */
function ask(name, body) {
  parts = [];
  const end = JSON.parse(call(name, JSON.stringify(body)));
  if (!("done" in end)) throw new Error(`${name}: ${JSON.stringify(end)}`);
  return parts.length ? parts.at(-1) : end.done;
}

const { samples } = ask("catalogue", {});
console.log(`ready after ${Math.round(performance.now() - began)} ms`);
let different = 0;

for (const { name, text } of samples) {
  const { scenario } = ask("read", { name, text });
  const command = scenario.riders.length === 1 ? "pack" : "split";
  const from = performance.now();
  const last = ask(command === "pack" ? "plan" : "split", { scenario });
  const took = Math.round(performance.now() - from);
  const answer = last.slice(last.indexOf('"answer":') + 9, -1);
  const printed = execFileSync(program, [command, `scenarios/${name}`, "--format", "json"], { encoding: "utf8", maxBuffer: 1 << 28 });
  const plain = printed.replace(/"(?:[^"\\]|\\.)*"|\s+/g, (piece) => (piece.startsWith('"') ? piece : ""));
  console.log(`${name}: ${answer === plain ? "the same" : "DIFFERENT"}, ${took} ms`);
  if (answer !== plain) different += 1;
}
process.exit(different ? 1 : 0);

/**
 * `node compare.mjs ENGINE PROGRAM`: the engine as WebAssembly answers every shipped scenario as the program does: the same names,
 * counts and order, and figures that differ by no more than rounding. Exponentials and powers come from the platform's own
 * library of mathematics, and those differ in the last digit.
 */

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

/** Largest difference of two figures that counts as rounding, as a share of the larger. Sums of such lie well below it. */
const ROUNDING = 1e-9;

/** Where two answers differ by more than rounding. @returns {string[]} */
function apart(mine, theirs, at = "") {
  if (typeof mine === "number" && typeof theirs === "number") {
    return Math.abs(mine - theirs) <= ROUNDING * Math.max(1, Math.abs(mine), Math.abs(theirs)) ? [] : [`${at}: ${mine} for ${theirs}`];
  }
  if (!mine || !theirs || typeof mine !== "object" || typeof theirs !== "object") {
    return mine === theirs ? [] : [`${at}: ${JSON.stringify(mine)} for ${JSON.stringify(theirs)}`];
  }
  const keys = Object.keys(theirs);
  if (Object.keys(mine).join() !== keys.join()) return [`${at}: other keys`];
  return keys.flatMap((key) => apart(mine[key], theirs[key], `${at}/${key}`));
}

for (const { name, text } of samples) {
  const { scenario } = ask("read", { name, text });
  const command = scenario.riders.length === 1 ? "pack" : "split";
  const from = performance.now();
  const last = ask(command === "pack" ? "plan" : "split", { scenario });
  const took = Math.round(performance.now() - from);
  const answer = last.slice(last.indexOf('"answer":') + 9, -1);
  const printed = execFileSync(program, [command, `scenarios/${name}`, "--format", "json"], { encoding: "utf8", maxBuffer: 1 << 28 });
  const plain = printed.replace(/"(?:[^"\\]|\\.)*"|\s+/g, (piece) => (piece.startsWith('"') ? piece : ""));
  const wrong = answer === plain ? [] : apart(JSON.parse(answer), JSON.parse(printed));
  console.log(`${name}: ${answer === plain ? "the same" : wrong.length ? "DIFFERENT" : "the same but for rounding"}, ${took} ms`);
  for (const each of wrong.slice(0, 10)) console.log(`  ${each.slice(0, 200)}`);
  if (wrong.length) different += 1;
}
process.exit(different ? 1 : 0);

/** Words of the files that the page shows: surfaces, kinds, units of needs, sizes of fasteners. In the files they stay English. */

import { mark, say } from "./say.js";

/** Words that are looked up by what the engine gives; here so that the tables hold them. */
export const WORDS = [
  // Surfaces.
  mark("sealed"), mark("gravel"), mark("track"), mark("rough"),
  // Kinds of things.
  mark("tool"), mark("spare"), mark("consumable"), mark("shelter"), mark("sleep"), mark("cooking"), mark("food"), mark("water"), mark("clothing"),
  mark("first aid"), mark("electronics"), mark("papers"), mark("fuel"), mark("hygiene"), mark("comfort"),
  // Units of needs.
  mark("way"), mark("pot"), mark("sleeper"), mark("bag"), mark("layer"), mark("suit"), mark("set"), mark("lamp"), mark("device"), mark("kit"), mark("supply"), mark("purse"),
  // What a bike is built with.
  mark("spoked"), mark("spoked tubeless"), mark("cast"), mark("tubed"), mark("tubeless"), mark("cable"), mark("hydraulic"), mark("brake fluid"), mark("clutch mineral oil"),
  mark("wet"), mark("dry"), mark("disc"), mark("drum"), mark("battery"), mark("carburettor"), mark("injection"), mark("air"), mark("liquid"), mark("electric"), mark("kick"),
  mark("kick and electric"), mark("screw"), mark("shim"), mark("ports"), mark("bulb"), mark("led"), mark("coil and lead"), mark("stick coil"), mark("wire"), mark("screen"),
  mark("chain"), mark("shaft"), mark("belt"), mark("variator"), mark("narrow two-piston"), mark("wide four-piston"), mark("rear single-piston"),
  // Fasteners.
  mark("hex"), mark("tight hex"), mark("hex key"), mark("six-lobe"), mark("cross-point"),
];

/** A value of a bike's attribute: a word, or a sort of fastener with its size. @param {string} value */
export function valueName(value) {
  const inches = /^(\d+) in$/.exec(value);
  if (inches) return say("{n} in", { n: inches[1] });
  const sized = /^([a-z][a-z -]*) (T?\d.*)$/.exec(value);
  return sized ? `${say(sized[1])} ${sized[2]}` : say(value);
}

/**
 * The bike from its left side, drawn for this page, with the bags where the catalogue has them, as large as they are. Bags on
 * the far side are seen behind it in outline. One metre is 142 units.
 */

import { svg } from "./dom.js";

const METRE = 142;
/** Where the front axle and the ground lie. */
const FRONT = 62;
const GROUND = 210;
const WHEEL = 0.32;
/** Wheelbase that the drawing was made at, in metres. */
const DRAWN = 1.45;
/** Numbers keep this far apart. */
const APART = 20;

/** Machine parts in metres behind the front axle and above the ground; drawn for this page. */
const FRAME = [
  // Fork, bar, frame, swing arm, foot peg.
  "M0 .32L.36 1.04M.035 .325L.385 1.02",
  "M.35 1.04L.41 1.14L.53 1.155M.41 1.14l-.02 .045",
  "M.375 .94L.47 .46C.49 .36 .54 .31 .62 .31L.98 .33",
  "M.42 .86L1.02 .52L.98 .33M1.02 .52L1.2 .84M1.05 .62L1.36 .86",
  "M1 .4L1.45 .32M1.02 .47L1.38 .37",
  "M.92 .3h.1",
];
const SOLID = [
  // Header and silencer lie behind the engine.
  "M1.1 .6L1.52 .78L1.56 .7L1.14 .5z",
  // Tank with its shroud, seat, tail.
  "M.4 .99C.48 1.11 .68 1.1 .8 .95L.74 .82L.5 .66L.42 .8z",
  "M.79 .955C.98 .88 1.2 .9 1.36 .935L1.64 1.02L1.62 .955L1.38 .86C1.14 .8 .94 .79 .76 .83z",
  // Number board with its lamp.
  "M.2 1.06L.3 1.13L.4 .9L.31 .84L.24 .9z",
  // Front and rear guards.
  "M-.25 .71C-.1 .84 .15 .82 .31 .69L.27 .66C.12 .76 -.08 .77 -.23 .69z",
  // Cylinder, leaning forward, and crankcase.
  "M.54 .56L.5 .76L.68 .8L.75 .6z",
  "M.5 .38C.48 .5 .56 .58 .68 .58L.86 .56C.98 .54 1 .42 .92 .36C.82 .31 .56 .31 .5 .38z",
];
/** Fins of the cylinder, the clutch cover, the pipe. */
const FINE = [
  "M.535 .61L.735 .65M.525 .66L.72 .7M.515 .71L.7 .75",
  "M.86 .45m-.085 0a.085 .085 0 1 0 .17 0a.085 .085 0 1 0 -.17 0",
  "M.54 .66C.42 .6 .44 .4 .54 .37",
];

/** @typedef {{bag: import("./types.js").Bag, number: number, full: number}} Placed */

/** What a bag looks like, by what its id says. @param {import("./types.js").Bag} bag */
function sort(bag) {
  const id = bag.id;
  if (/case/.test(id)) return "case";
  if (/roll/.test(id)) return "roll";
  if (/tube/.test(id)) return "tube";
  if (/bottle|carrier|bladder|fuel/.test(id)) return "bottle";
  if (/tank/.test(id)) return "wedge";
  if (/hip|back-pack|backpack/.test(id)) return "worn";
  return bag.side === "centre" ? "pack" : "side";
}

/** Width and height seen from the side, in metres: the volume over a usual depth. @param {import("./types.js").Bag} bag */
export function size(bag) {
  const cubic = bag.volume_ml / 1e6;
  const of = (/** @type {number} */ depth, /** @type {number} */ wide) => {
    const height = Math.sqrt(cubic / depth / wide);
    return [height * wide, height];
  };
  switch (sort(bag)) {
    case "case": return of(0.22, 1.15);
    case "roll": return [2 * Math.sqrt(cubic / Math.PI / 0.5), 2 * Math.sqrt(cubic / Math.PI / 0.5)];
    case "tube": return of(0.1, 2.6);
    case "bottle": return of(0.11, 0.62);
    case "wedge": return of(0.2, 1.5);
    case "worn": return of(0.14, 1.1);
    case "pack": return of(0.24, 1.7);
    default: return of(0.2, 1.12);
  }
}

/** The outline of a bag around its middle, in units. @param {import("./types.js").Bag} bag @param {number} x @param {number} y */
function outline(bag, x, y) {
  const [wide, high] = size(bag).map((metres) => metres * METRE);
  const [l, r, t, b] = [x - wide / 2, x + wide / 2, y - high / 2, y + high / 2];
  const n = (/** @type {number} */ value) => value.toFixed(1);
  const path = (/** @type {TemplateStringsArray} */ texts, .../** @type {number[]} */ at) => texts.reduce((all, text, k) => all + n(at[k - 1]) + text);
  switch (sort(bag)) {
    case "case":
      return { shape: path`M${l + 3} ${t}H${r - 3}Q${r} ${t} ${r} ${t + 3}V${b - 8}L${r - 8} ${b}H${l + 8}L${l} ${b - 8}V${t + 3}Q${l} ${t} ${l + 3} ${t}z`, lines: path`M${l} ${t + high * 0.24}H${r}M${x - 4} ${t + high * 0.24}v5h8v-5` };
    case "roll":
      return { shape: path`M${l} ${y}A${wide / 2} ${high / 2} 0 1 1 ${r} ${y}A${wide / 2} ${high / 2} 0 1 1 ${l} ${y}z`, lines: path`M${x} ${y}m${wide * 0.12} 0A${wide * 0.14} ${wide * 0.14} 0 1 1 ${x} ${y - wide * 0.13}A${wide * 0.26} ${wide * 0.26} 0 1 1 ${x - wide * 0.24} ${y + wide * 0.1}` };
    case "tube":
      return { shape: path`M${l + high / 2} ${t}H${r - high / 2}A${high / 2} ${high / 2} 0 0 1 ${r - high / 2} ${b}H${l + high / 2}A${high / 2} ${high / 2} 0 0 1 ${l + high / 2} ${t}z`, lines: path`M${r - high * 0.9} ${t}V${b}` };
    case "bottle":
      return { shape: path`M${x - wide * 0.18} ${t}H${x + wide * 0.18}V${t + high * 0.16}Q${r} ${t + high * 0.2} ${r} ${t + high * 0.38}V${b - 3}Q${r} ${b} ${r - 3} ${b}H${l + 3}Q${l} ${b} ${l} ${b - 3}V${t + high * 0.38}Q${l} ${t + high * 0.2} ${x - wide * 0.18} ${t + high * 0.16}z`, lines: path`M${l} ${t + high * 0.55}H${r}` };
    case "wedge":
      return { shape: path`M${l} ${t + high * 0.3}Q${l} ${t} ${l + wide * 0.3} ${t}H${r - 5}Q${r} ${t} ${r} ${t + high * 0.4}L${r - 2} ${b}Q${x} ${b - high * 0.14} ${l + 4} ${b}z`, lines: path`M${l + 3} ${t + high * 0.42}H${r}` };
    case "side":
      return { shape: path`M${l + wide * 0.04} ${t + high * 0.2}H${r - wide * 0.04}L${r} ${b - 6}Q${r} ${b} ${r - 6} ${b}H${l + 6}Q${l} ${b} ${l} ${b - 6}z`, lines: path`M${l} ${t + high * 0.02}H${r}V${t + high * 0.2}H${l}zM${x - wide * 0.26} ${t + high * 0.02}V${b}M${x + wide * 0.26} ${t + high * 0.02}V${b}` };
    default:
      return { shape: path`M${l} ${b - 4}V${t + high * 0.42}Q${l} ${t} ${l + wide * 0.3} ${t}H${r - wide * 0.3}Q${r} ${t} ${r} ${t + high * 0.42}V${b - 4}Q${r} ${b} ${r - 4} ${b}H${l + 4}Q${l} ${b} ${l} ${b - 4}z`, lines: path`M${l + 2} ${t + high * 0.4}Q${x} ${t + high * 0.62} ${r - 2} ${t + high * 0.4}` };
  }
}

/** Where a bag lies in the picture. @param {import("./types.js").Bag} bag @param {number} wheelbase in millimetres */
export function place(bag, wheelbase) {
  const x = FRONT + ((wheelbase - bag.ahead_mm) / 1000) * METRE;
  const y = GROUND - (bag.height_mm / 1000) * METRE;
  return bag.side === "right" ? [x + 9, y - 12] : [x, y];
}

/** @param {string} d @param {number} stretch */
const metres = (d, stretch) => svg("path", { d, transform: `translate(${FRONT} ${GROUND}) scale(${METRE * stretch} ${-METRE})` });

/** @param {number} x */
const wheel = (x) => svg("g", { class: "wheel" },
  svg("circle", { cx: x, cy: GROUND - WHEEL * METRE, r: WHEEL * METRE - 3, class: "tyre" }),
  svg("circle", { cx: x, cy: GROUND - WHEEL * METRE, r: WHEEL * METRE, class: "knobs" }),
  svg("circle", { cx: x, cy: GROUND - WHEEL * METRE, r: WHEEL * METRE - 10, class: "rim" }),
  svg("circle", { cx: x, cy: GROUND - WHEEL * METRE, r: 7, class: "hub" }));

/**
 * @param {{wheelbase_mm: number, placed: Placed[], axles?: {front: string[], rear: string[]} | null, label: string,
 *   chosen?: string | null, tap?: ((id: string) => void) | null, id?: string}} of
 */
export function picture(of) {
  const wheelbase = of.wheelbase_mm || DRAWN * 1000;
  const stretch = wheelbase / 1000 / DRAWN;
  const rear = FRONT + (wheelbase / 1000) * METRE;
  const width = Math.max(356, rear + 92);
  const far = of.placed.filter(({ bag }) => bag.side === "right");
  const near = of.placed.filter(({ bag }) => bag.side !== "right").sort((a, b) => b.bag.volume_ml - a.bag.volume_ml);
  const draw = (/** @type {Placed} */ each) => bagShape(each, wheelbase, of);
  const top = Math.min(36, ...of.placed.map(({ bag }) => place(bag, wheelbase)[1] - (size(bag)[1] * METRE) / 2 - 12));
  return svg("svg", { viewBox: `0 ${top.toFixed(0)} ${width} ${((of.axles ? 262 : 226) - top).toFixed(0)}`, class: "bike-picture", role: of.tap ? "group" : "img", "aria-label": of.label },
    far.map(draw),
    wheel(FRONT), wheel(rear),
    svg("g", { class: "machine" }, FRAME.map((d) => metres(d, stretch))),
    svg("g", { class: "machine solid" }, SOLID.map((d) => metres(d, stretch))),
    svg("g", { class: "machine fine" }, FINE.map((d) => metres(d, stretch))),
    svg("path", { class: "ground", d: `M0 ${GROUND + 1}H${width}` }),
    near.map(draw),
    numbers(of.placed, wheelbase, top),
    of.axles ? [axle(FRONT, of.axles.front), axle(rear, of.axles.rear)] : null);
}

/** @param {Placed} placed @param {number} wheelbase @param {any} of */
function bagShape({ bag, number, full }, wheelbase, of) {
  const [x, y] = place(bag, wheelbase);
  const { shape, lines } = outline(bag, x, y);
  const high = size(bag)[1] * METRE;
  const filled = Math.max(0, Math.min(1, full)) * high;
  const clip = `in-${of.id ?? "p"}-${bag.id.replace(/\W/g, "-")}`;
  const tap = of.tap;
  return svg("g", {
    class: `bag ${bag.side === "right" ? "far" : ""} ${of.chosen === bag.id ? "chosen" : ""}`, "data-bag": bag.id,
    ...(tap ? { on: { click: () => tap(bag.id) } } : {}),
  },
    svg("clipPath", { id: clip }, svg("path", { d: shape })),
    svg("path", { class: "room", d: shape }),
    svg("rect", { class: "full", "clip-path": `url(#${clip})`, x: x - 80, width: 160, y: y + high / 2 - filled, height: filled }),
    svg("path", { class: "seams", d: lines }),
    svg("path", { class: "edge", d: shape }),
    svg("title", null, `${number}: ${bag.name}`));
}

/** @param {Placed[]} placed @param {number} wheelbase @param {number} top */
function numbers(placed, wheelbase, top) {
  /** @type {number[][]} */
  const taken = [];
  return [...placed].sort((a, b) => b.bag.volume_ml - a.bag.volume_ml).map(({ bag, number }) => {
    let [x, y] = place(bag, wheelbase);
    if (bag.side === "right") [x, y] = [x + size(bag)[0] * METRE * 0.5 - 6, y - size(bag)[1] * METRE * 0.5 + 4];
    for (let tries = 0; tries < 12; tries++) {
      const hit = taken.find(([a, b]) => Math.hypot(a - x, b - y) < APART);
      if (!hit) break;
      y = hit[1] - APART;
    }
    y = Math.max(top + 11, y);
    taken.push([x, y]);
    return svg("g", { class: "number" }, svg("circle", { cx: x, cy: y, r: 9.5 }), svg("text", { x, y: y + 4.5, "text-anchor": "middle" }, String(number)));
  });
}

/** @param {number} x @param {string[]} words */
const axle = (x, words) => svg("g", { class: "axle" }, svg("path", { d: `M${x} ${GROUND + 5}l6 9h-12z` }),
  words.map((text, at) => svg("text", { x, y: GROUND + 29 + at * 16, "text-anchor": "middle", class: at ? "minor" : "" }, text)));

/** Metres behind the front axle and height of a point of the picture. @param {number} x @param {number} y @param {number} wheelbase */
export const spot = (x, y, wheelbase) => ({ ahead_mm: wheelbase - ((x - FRONT) / METRE) * 1000, height_mm: ((GROUND - y) / METRE) * 1000 });

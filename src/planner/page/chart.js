/** A curve of limits: what each costs in hours lost, as steps, with the limit in force and where more stops paying. */

import { svg } from "./dom.js";
import { say } from "./say.js";

const WIDE = 340;
const HIGH = 150;
const [LEFT, RIGHT, TOP, FOOT] = [50, 10, 22, 26];

/**
 * @param {{points: {limit: number, lost: number, net?: number}[], low: number, high: number, now: number | null, worth: number | null,
 *   show: (value: number) => string, hours: (value: number) => string, label: string}} of
 */
export function chart(of) {
  const points = [...of.points].sort((a, b) => a.limit - b.limit);
  if (!points.length) return null;
  const most = Math.max(...points.map((point) => point.lost), 0.01) * 1.08;
  const x = (/** @type {number} */ value) => LEFT + ((value - of.low) / (of.high - of.low || 1)) * (WIDE - LEFT - RIGHT);
  const y = (/** @type {number} */ lost) => TOP + (1 - lost / most) * (HIGH - TOP - FOOT);
  const at = (/** @type {number} */ value) => Math.max(LEFT, Math.min(WIDE - RIGHT, x(value)));
  let d = "";
  points.forEach((point, k) => {
    d += k ? `H${at(point.limit).toFixed(1)}V${y(point.lost).toFixed(1)}` : `M${at(point.limit).toFixed(1)} ${y(point.lost).toFixed(1)}`;
  });
  d += `H${WIDE - RIGHT}`;
  const base = HIGH - FOOT;
  const area = `${d}V${base}H${at(points[0].limit).toFixed(1)}z`;
  const inForce = of.now === null ? null : [...points].reverse().find((point) => point.limit <= /** @type {number} */ (of.now) + 1e-6);
  return svg("svg", { viewBox: `0 0 ${WIDE} ${HIGH}`, class: "chart", role: "img", "aria-label": of.label },
    svg("path", { class: "area", d: area }),
    [0, most / 1.08].map((value) => svg("g", { class: "scale" },
      svg("path", { d: `M${LEFT} ${y(value).toFixed(1)}H${WIDE - RIGHT}` }),
      svg("text", { x: LEFT - 4, y: y(value) + 4, "text-anchor": "end" }, of.hours(value)))),
    of.worth !== null && of.worth > of.low && of.worth < of.high
      ? svg("g", { class: "worth" }, svg("path", { d: `M${at(of.worth)} ${TOP - 4}V${base}` }),
        svg("text", { x: Math.min(at(of.worth), WIDE - RIGHT), y: TOP - 8, "text-anchor": at(of.worth) > WIDE - 60 ? "end" : "middle" }, say("pays up to here"))) : null,
    svg("path", { class: "steps", d }),
    points.map((point) => svg("circle", { class: "known", cx: at(point.limit), cy: y(point.lost), r: 2.6 })),
    of.now === null ? null : svg("g", { class: "now" }, svg("path", { d: `M${at(of.now)} ${TOP}V${base + 5}` }),
      inForce ? svg("circle", { cx: at(of.now), cy: y(inForce.lost), r: 5 }) : null),
    svg("text", { class: "tail", x: LEFT, y: HIGH - 6 }, of.show(of.low)),
    svg("text", { class: "tail", x: WIDE - RIGHT, y: HIGH - 6, "text-anchor": "end" }, of.show(of.high)));
}

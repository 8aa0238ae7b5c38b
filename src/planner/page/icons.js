/** Signs of the page, drawn for it on a grid of 24: strokes of webbing, ends cut square. */

import { svg } from "./dom.js";

/** @type {Record<string, string[]>} */
const DRAWN = {
  // A track that winds to a flag.
  trip: ["M4 21c7 0 9-2 8-5s-7-3-6-7 5-4 8-4", "M16 9V2l5 2.2L16 6.5"],
  // Two wheels and a high bar.
  bike: ["M5.5 20a3.5 3.5 0 1 0 0-7 3.5 3.5 0 0 0 0 7z", "M18.5 20a3.5 3.5 0 1 0 0-7 3.5 3.5 0 0 0 0 7z", "M5.5 16.5L9 6H6.5M8 9.5h6l4.5 7M9 10l3 6h4"],
  // A shelf with things on it.
  have: ["M3 11h18M3 20h18M4 4v16M20 4v16", "M7 11V6h4v5M14 11V8h3v3M8 20v-5h8v5"],
  // A bag with a rolled top and its strap.
  kit: ["M5 9h14v11H5z", "M4 5.5h16V9H4z", "M12 9v6M10 15h4v3h-4z"],
  // A box with its tick.
  pack: ["M4 4h16v16H4z", "M8 12l3 3.5L20 5"],
  less: ["M5 12h14"],
  more: ["M5 12h14M12 5v14"],
  into: ["M9 5l7 7-7 7"],
  back: ["M15 5l-7 7 7 7"],
  shut: ["M5 5l14 14M19 5L5 19"],
  told: ["M12 3.5h0a8.5 8.5 0 1 0 0 17 8.5 8.5 0 0 0 0-17z", "M12 11v6M12 7v1.4"],
  care: ["M12 3L22 20H2z", "M12 9.5v5M12 16.6v1.2"],
  find: ["M10.5 17a6.5 6.5 0 1 0 0-13 6.5 6.5 0 0 0 0 13z", "M15.5 15.5L21 21"],
  away: ["M12 3v11M8 7l4-4 4 4", "M5 12v8h14v-8"],
  open: ["M3 6h7l2 3h9v11H3z"],
  proven: ["M4 12.5l5.5 6L20 6"],
  good: ["M3 14c3-6 6-6 9-2s6 4 9-2"],
  none: ["M5 5l14 14", "M12 3.5h0a8.5 8.5 0 1 0 0 17 8.5 8.5 0 0 0 0-17z"],
  scale: ["M4 20h16M12 20V9M5 9h14", "M5 9l-2.5 6h5zM19 9l-2.5 6h5z", "M12 9V4"],
  home: ["M3 12l9-8 9 8", "M6 10v10h12V10"],
  people: ["M8 11a3.2 3.2 0 1 0 0-6.4A3.2 3.2 0 0 0 8 11zM2 20c0-8 12-8 12 0", "M16 11a2.7 2.7 0 1 0 0-5.4M16.5 13.5c3.6 0 5.5 2.6 5.5 6.5"],
  tool: ["M14 6a4.5 4.5 0 0 1 6-2.6l-3 3 .8 2.8 2.8.8 0-.1a4.5 4.5 0 0 1-5.6 2.2L7 21l-4-4 8.800-8.800A4.500 4.500 0 0 1 14 6z"],
  print: ["M7 8V3h10v5M7 16H4V8h16v8h-3", "M7 13h10v8H7z"],
  grip: ["M9 5v2M15 5v2M9 11v2M15 11v2M9 17v2M15 17v2"],
  gone: ["M4 6h16M9 6V3h6v3M6 6l1 15h10l1-15"],
};

/** A sign. Words beside it carry the meaning. @param {string} name */
export const icon = (name) =>
  svg("svg", { viewBox: "0 0 24 24", class: `icon ${name}`, "aria-hidden": "true", focusable: "false" },
    (DRAWN[name] ?? []).map((d) => svg("path", { d })));

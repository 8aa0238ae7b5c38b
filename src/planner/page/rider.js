/** Which rider is meant, where there are several. */

import { el } from "./dom.js";
import { riders } from "./journey.js";
import { say } from "./say.js";
import * as state from "./state.js";

/** The rider that is shown. @returns {any} */
export function shownRider() {
  const all = riders(state.trip?.scenario ?? {});
  return all.find((rider) => rider.name === state.view.rider) ?? all[0] ?? null;
}

/** A row of names to choose from; nothing for one rider. */
export function riderTabs() {
  const all = riders(state.trip?.scenario ?? {});
  if (all.length < 2) return null;
  const shown = shownRider();
  return el("div", { class: "riders", role: "group", "aria-label": say("Whose") }, all.map((rider) =>
    el("button", { type: "button", "aria-pressed": String(rider === shown), "data-key": rider.name, on: { click: () => { state.view.rider = rider.name; state.show(); } } }, el("bdi", null, rider.name))));
}

/** The kit: verdict, bike, three limits, then the bags with what is in them. A tap on a thing asks why. */

import { el } from "./dom.js";
import { bag as bagNamed, bikeOf, isGroup, riders } from "./journey.js";
import { carriers, home, lost } from "./kit.js";
import { answerState } from "./live.js";
import { button, heading, meter, plate, waiting } from "./parts.js";
import { complete, figures, reckon, work } from "./planner.js";
import { picture } from "./picture.js";
import { riderTabs, shownRider } from "./rider.js";
import * as state from "./state.js";
import { openWhy } from "./why.js";
import { cash, hours, inHundred, kg, kilos, litres, often, percent, whole } from "./words.js";

/** Where there is room, bags are open from the start. */
const WIDE = matchMedia("(min-width: 1100px)");

export function kitScreen() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const now = figures();
  if (!complete(trip)) return plate("say", "Not enough to go by yet", el("p", null, "A kit needs a trip with a leg, and a rider with a bike."), el("p", null, el("a", { href: "#/bike", class: "plain" }, "To the bike")));
  const trouble = ["no kit", "refused", "broken"].includes(work.phase) ? answerState() : null;
  if (!now) return [trouble ?? waiting("Looking for a first kit …"), work.phase === "idle" ? button("Find a kit", () => reckon(true), { class: "main" }) : null];
  const [head, list] = ofRider(trip, now);
  return [el("div", { class: "kit-head" }, trouble, verdict(now), riderTabs(), head), el("div", { class: "kit-list" }, list)];
}

/** @param {{figures: any, totals: any, fresh: boolean}} now */
export function verdict({ figures, fresh }) {
  const left = lost(figures);
  const safe = home(figures);
  const [number, unit] = hours(left).split(" ");
  return el("div", { class: `verdict ${fresh ? "" : "stale"}` },
    el("p", { class: "verdict-say" }, el("strong", null, number, el("small", null, ` ${unit}`)),
      el("span", null, "lost on an average trip, instead of ", el("b", null, hours(figures.hours_lost_empty)), " with nothing aboard.",
        safe === null ? null : [" Rides home ", el("b", null, `${inHundred(safe)} times in 100`), ", at least."])),
    el("div", { class: "two", role: "img", "aria-label": `${hours(left)} of ${hours(figures.hours_lost_empty)}`, vars: { "--left": `${Math.min(100, (left / Math.max(figures.hours_lost_empty, 1e-9)) * 100).toFixed(1)}%` } }),
    fresh ? null : el("p", { class: "soft" }, "Reckoning: the figures are those of the last kit."));
}

/** @param {import("./types.js").State} trip @param {any} now */
function ofRider(trip, now) {
  const all = carriers(trip.answer, trip.moved);
  const rider = shownRider();
  const mine = all.find((one) => one.name === rider?.name) ?? all[0];
  if (!mine) return [waiting("Looking for a kit …"), null];
  const totals = now.totals;
  const head = [
    kitPicture(trip, mine),
    isGroup(trip.scenario) ? limitsOf([["mass", kilos(mine.mass_g), mine.limit_g ? `of ${kilos(mine.limit_g)} kg` : "kg", mine.limit_g ? mine.mass_g / mine.limit_g : 0]])
      : limitsOf([
        ["mass", kilos(totals.mass_g), totals.mass_limit_g ? `of ${kilos(totals.mass_limit_g)} kg` : "kg, no limit", totals.mass_limit_g ? totals.mass_g / totals.mass_limit_g : 0],
        ["room", litres(totals.volume_ml), totals.room_ml ? `of ${litres(totals.room_ml)}` : "", totals.room_ml ? totals.volume_ml / totals.room_ml : 0],
        ["money", String(Math.round(totals.to_buy ?? 0)), totals.budget !== null && totals.budget !== undefined ? `of ${cash(totals.budget, totals.currency)}` : `${totals.currency ?? ""} to buy`, totals.budget ? totals.to_buy / totals.budget : 0],
      ]),
  ];
  return [head, [
    mine.bags.filter((bag) => bag.items.length).map((bag) => bagCard(bag, mine.bags.indexOf(bag) + 1, mine.name)),
    el("p", { class: "soft" }, "* to buy · + asked for, or needed on this trip. Tap a thing to see why it is here."),
    risks(trip.answer),
  ]];
}

/** @param {import("./types.js").State} trip @param {import("./types.js").Carrier} mine */
export function kitPicture(trip, mine) {
  const catalogue = /** @type {any} */ (state.view.catalogue);
  const rider = riders(trip.scenario).find((each) => each.name === mine.name) ?? shownRider();
  const bike = rider && bikeOf(trip.scenario, rider, catalogue);
  if (!bike) return null;
  const placed = mine.bags.map((bag, at) => ({ bag: /** @type {any} */ (bagNamed(trip.scenario, bag.id, catalogue)), number: at + 1, full: bag.filled_ml / bag.usable_ml })).filter((each) => each.bag);
  const loaded = mine.load?.loaded;
  const used = (/** @type {string} */ scale) => {
    const found = mine.load?.limits?.find((/** @type {any} */ limit) => limit.scale === scale);
    return found ? `${percent(found.used)} used` : "";
  };
  return picture({
    wheelbase_mm: bike.wheelbase_mm, placed, id: "kit",
    axles: loaded ? { front: [`front ${kilos(loaded.front_g)} kg`, used("front")], rear: [`rear ${kilos(loaded.rear_g)} kg`, used("rear")] } : null,
    label: `The bike from its left with ${placed.length} bags, numbered as below.`,
    tap: (id) => {
      const card = document.querySelector(`[data-key="bag-${CSS.escape(id)}"]`);
      card?.setAttribute("open", "");
      card?.scrollIntoView({ block: "start", behavior: "auto" });
    },
  });
}

/** @param {[string, string, string, number][]} rows */
const limitsOf = (rows) => el("div", { class: "limits" }, rows.map(([what, number, words, share]) => el("a", { href: "#/limits", class: share > 0.995 ? "hot" : "" },
  el("span", { class: "unseen" }, `${what} `), el("b", null, number), el("span", null, words), share ? el("span", { "aria-hidden": "true" }, meter(what, share)) : null, share > 0.995 ? el("em", null, "full") : null)));

/** @param {import("./types.js").PackedBag} bag @param {number} number @param {string} rider */
function bagCard(bag, number, rider) {
  return el("details", { class: "bag-card", "data-key": `bag-${bag.id}`, open: WIDE.matches },
    el("summary", null, el("span", { class: "no" }, String(number)), el("span", { class: "words" }, el("bdi", null, whole(bag.name)), el("small", null, `${kg(bag.mass_g)} · ${litres(bag.filled_ml)} of ${litres(bag.usable_ml)}`), el("small", { class: "peek", "aria-hidden": "true" }, bag.items.map((item) => shortName(item.id, item.name)).join(" · "))), meter(bag.name, bag.filled_ml / bag.usable_ml, `${percent(bag.filled_ml / bag.usable_ml)} full`)),
    el("ul", { class: "flow" }, bag.items.map((item) => el("li", { "data-key": item.id }, el("button", { type: "button", class: `chip ${item.standing === "earns" ? "" : "asked"}`, on: { click: () => openWhy(item.id, rider) } },
      item.count > 1 ? `${item.count} × ` : "", el("bdi", null, shortName(item.id, item.name)), item.to_buy_in_kit > 0 ? el("i", { "aria-label": "to buy" }, " *") : null, item.standing === "earns" ? null : el("i", { "aria-label": "asked for or needed" }, " +"))))));
}

/** The short name of a thing. @param {string} id @param {string} name */
export function shortName(id, name) {
  return state.view.catalogue?.items.find((item) => item.id === id)?.short ?? name;
}

/** What the kit does not keep away. @param {any} answer */
function risks(answer) {
  const all = [...(answer?.risks ?? [])].sort((a, b) => b.hours_lost_with_kit - a.hours_lost_with_kit).slice(0, 5).filter((risk) => risk.hours_lost_with_kit > 1 / 60);
  if (!all.length) return null;
  return [heading("What can still cost you hours"), el("ul", { class: "risks" }, all.map((risk) => el("li", { "data-key": risk.id },
    el("b", null, hours(risk.hours_lost_with_kit)), el("span", null, el("bdi", null, risk.name), el("small", null, `${often(risk.expected_occurrences)}${risk.remedy ? `; ${risk.remedy.items.map((/** @type {any} */ item) => `${item.count > 1 ? `${item.count} × ` : ""}${item.name}`).join(" and ")} would help (${kg(risk.remedy.mass_g)})` : "; nothing on the road helps"}${risk.skill_wanted ? `; wants ${risk.skill_wanted} hands` : ""}`)))))];
}

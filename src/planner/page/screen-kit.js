/** The kit: verdict, bike, three limits, then the bags with what is in them. A tap on a thing asks why. */

import { el } from "./dom.js";
import { bag as bagNamed, bikeOf, isGroup, riders } from "./journey.js";
import { carriers, home, lost } from "./kit.js";
import { answerState } from "./live.js";
import { button, heading, meter, plate, waiting } from "./parts.js";
import { complete, figures, reckon, work } from "./planner.js";
import { picture } from "./picture.js";
import { riderTabs, shownRider } from "./rider.js";
import { both, mark, say, saying, several } from "./say.js";
import * as state from "./state.js";
import { openWhy } from "./why.js";
import { cash, hours, inHundred, kg, kilos, litres, often, percent, whole } from "./words.js";

/** Where there is room, bags are open from the start. */
const WIDE = matchMedia("(min-width: 1100px)");

export function kitScreen() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const now = figures();
  if (!complete(trip)) return plate("say", say("Not enough to go by yet"), el("p", null, say("A kit needs a trip with a leg, and a rider with a bike.")), el("p", null, el("a", { href: "#/bike", class: "plain" }, say("To the bike"))));
  const trouble = ["no kit", "refused", "broken"].includes(work.phase) ? answerState() : null;
  if (!now) return [trouble ?? waiting(say("Looking for a first kit …")), work.phase === "idle" ? button(say("Find a kit"), () => reckon(true), { class: "main" }) : null];
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
      el("span", null, saying("lost on an average trip, instead of {hours} with nothing aboard.", { hours: el("b", null, hours(figures.hours_lost_empty)) }),
        safe === null ? null : [" ", saying("Rides home {times}, at least.", { times: el("b", null, say("{times} times in 100", { times: inHundred(safe) })) })])),
    el("div", { class: "two", role: "img", "aria-label": say("{part} of {whole}", { part: hours(left), whole: hours(figures.hours_lost_empty) }), vars: { "--left": `${Math.min(100, (left / Math.max(figures.hours_lost_empty, 1e-9)) * 100).toFixed(1)}%` } }),
    fresh ? null : el("p", { class: "soft" }, say("Reckoning: the figures are those of the last kit.")));
}

/** @param {import("./types.js").State} trip @param {any} now */
function ofRider(trip, now) {
  const all = carriers(trip.answer, trip.moved);
  const rider = shownRider();
  const mine = all.find((one) => one.name === rider?.name) ?? all[0];
  if (!mine) return [waiting(say("Looking for a kit …")), null];
  const totals = now.totals;
  const head = [
    kitPicture(trip, mine),
    isGroup(trip.scenario) ? limitsOf([[say("mass"), kilos(mine.mass_g), mine.limit_g ? say("of {limit} kg", { limit: kilos(mine.limit_g) }) : "kg", mine.limit_g ? mine.mass_g / mine.limit_g : 0]])
      : limitsOf([
        [say("mass"), kilos(totals.mass_g), totals.mass_limit_g ? say("of {limit} kg", { limit: kilos(totals.mass_limit_g) }) : say("kg, no limit"), totals.mass_limit_g ? totals.mass_g / totals.mass_limit_g : 0],
        [say("room"), litres(totals.volume_ml), totals.room_ml ? say("of {limit}", { limit: litres(totals.room_ml) }) : "", totals.room_ml ? totals.volume_ml / totals.room_ml : 0],
        [say("money"), String(Math.round(totals.to_buy ?? 0)), totals.budget !== null && totals.budget !== undefined ? say("of {limit}", { limit: cash(totals.budget, totals.currency) }) : say("{currency} to buy", { currency: totals.currency ?? "" }), totals.budget ? totals.to_buy / totals.budget : 0],
      ]),
  ];
  return [head, [
    mine.bags.filter((bag) => bag.items.length).map((bag) => bagCard(bag, mine.bags.indexOf(bag) + 1, mine.name)),
    el("p", { class: "soft" }, say("* to buy · + asked for, or needed on this trip. Tap a thing to see why it is here.")),
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
    return found ? say("{share} used", { share: percent(found.used) }) : "";
  };
  return picture({
    wheelbase_mm: bike.wheelbase_mm, placed, id: "kit",
    axles: loaded ? { front: [say("front {mass} kg", { mass: kilos(loaded.front_g) }), used("front")], rear: [say("rear {mass} kg", { mass: kilos(loaded.rear_g) }), used("rear")] } : null,
    label: several(placed.length, "The bike from its left with {n} bag, numbered as below.", "The bike from its left with {n} bags, numbered as below."),
    tap: (id) => {
      const card = document.querySelector(`[data-key="bag-${CSS.escape(id)}"]`);
      card?.setAttribute("open", "");
      card?.scrollIntoView({ block: "start", behavior: "auto" });
    },
  });
}

/** @param {[string, string, string, number][]} rows */
const limitsOf = (rows) => el("div", { class: "limits" }, rows.map(([what, number, words, share]) => el("a", { href: "#/limits", class: share > 0.995 ? "hot" : "" },
  el("span", { class: "unseen" }, `${what} `), el("b", null, number), el("span", null, words), share ? el("span", { "aria-hidden": "true" }, meter(what, share)) : null, share > 0.995 ? el("em", null, say("full")) : null)));

/** @param {import("./types.js").PackedBag} bag @param {number} number @param {string} rider */
function bagCard(bag, number, rider) {
  return el("details", { class: "bag-card", "data-key": `bag-${bag.id}`, open: WIDE.matches },
    el("summary", null, el("span", { class: "no" }, String(number)), el("span", { class: "words" }, el("bdi", null, whole(bag.name)), el("small", null, `${kg(bag.mass_g)} · ${say("{part} of {whole}", { part: litres(bag.filled_ml), whole: litres(bag.usable_ml) })}`), el("small", { class: "peek", "aria-hidden": "true" }, bag.items.map((item) => shortName(item.id, item.name)).join(" · "))), meter(bag.name, bag.filled_ml / bag.usable_ml, say("{share} full", { share: percent(bag.filled_ml / bag.usable_ml) }))),
    el("ul", { class: "flow" }, bag.items.map((item) => el("li", { "data-key": item.id }, el("button", { type: "button", class: `chip ${item.standing === "earns" ? "" : "asked"}`, on: { click: () => openWhy(item.id, rider) } },
      item.count > 1 ? `${item.count} × ` : "", el("bdi", null, shortName(item.id, item.name)), item.to_buy_in_kit > 0 ? el("i", { "aria-label": say("to buy") }, " *") : null, item.standing === "earns" ? null : el("i", { "aria-label": say("asked for or needed") }, " +"))))));
}

/** The short name of a thing. @param {string} id @param {string} name */
export function shortName(id, name) {
  return state.view.catalogue?.items.find((item) => item.id === id)?.short ?? name;
}

/** What the kit does not keep away. @param {any} answer */
function risks(answer) {
  const all = [...(answer?.risks ?? [])].sort((a, b) => b.hours_lost_with_kit - a.hours_lost_with_kit).slice(0, 5).filter((risk) => risk.hours_lost_with_kit > 1 / 60);
  if (!all.length) return null;
  return [heading(say("What can still cost you hours")), el("ul", { class: "risks" }, all.map((risk) => el("li", { "data-key": risk.id },
    el("b", null, hours(risk.hours_lost_with_kit)), el("span", null, el("bdi", null, risk.name), el("small", null, aboutRisk(risk))))))];
}

/** Hands that a repair wants, by the skill that the engine names. @type {Record<string, string>} */
const HANDS = { handy: mark("wants handy hands"), skilled: mark("wants skilled hands"), expert: mark("wants expert hands") };

/** How often it comes, what would help, and whose hands it wants. @param {any} risk */
function aboutRisk(risk) {
  const things = () => both(risk.remedy.items.map((/** @type {any} */ item) => `${item.count > 1 ? `${item.count} × ` : ""}${item.name}`));
  return [
    often(risk.expected_occurrences),
    risk.remedy ? say("{things} would help ({mass})", { things: things(), mass: kg(risk.remedy.mass_g) }) : say("nothing on the road helps"),
    HANDS[risk.skill_wanted] ? say(HANDS[risk.skill_wanted]) : "",
  ].filter(Boolean).join("; ");
}

/** What stays at home: what a little more would bring in, what would mend most of what is left, and own things not taken. */

import { el } from "./dom.js";
import { things } from "./journey.js";
import { kit } from "./kit.js";
import { owned, standing } from "./mine.js";
import { currency } from "./money.js";
import { heading, plate, row } from "./parts.js";
import { shownRider } from "./rider.js";
import { mark, say, saying, several } from "./say.js";
import * as state from "./state.js";
import { openWhy } from "./why.js";
import { capital, cash, hours, kg, kilos, litres } from "./words.js";

/** Own things shown before the rest is asked for. */
const FIRST = 20;

/** @type {Record<string, (value: number) => string>} */
const SHOW = { mass: (value) => `${kilos(value)} kg`, volume: litres, money: (value) => cash(value, currency()) };

/** What more of a limit brings. @type {Record<string, [string, string]>} */
const MORE = {
  mass: [mark("With more mass"), mark("More mass would bring in nothing that pays.")],
  volume: [mark("With more volume"), mark("More volume would bring in nothing that pays.")],
  money: [mark("With more money"), mark("More money would bring in nothing that pays.")],
};

export function leftScreen() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const { answer } = trip;
  if (!answer) return el("p", { class: "soft" }, say("No kit yet."));
  const all = things(trip.scenario, /** @type {any} */ (state.view.catalogue));
  const carried = kit(answer);
  const mine = Object.keys(owned(shownRider() ?? {})).filter((id) => !carried[id]).sort((a, b) => (all.get(b)?.mass_g ?? 0) - (all.get(a)?.mass_g ?? 0));
  const saved = mine.reduce((sum, id) => sum + (all.get(id)?.mass_g ?? 0), 0);
  const never = Object.keys(Object.fromEntries([...all.keys()].map((id) => [id, standing(trip.scenario, id)]).filter(([, how]) => how === "never")));
  const more = state.view.at.allLeft;
  return [
    nearly(carried),
    remedies(answer, all),
    heading(say("Yours, and staying at home"), el("small", null, mine.length ? `${several(mine.length, "{n} thing", "{n} things")}, ${kg(saved)}` : "")),
    mine.length ? el("div", { class: "rows" }, mine.slice(0, more ? 999 : FIRST).map((id) => row(el("bdi", null, all.get(id)?.name ?? id), kg(all.get(id)?.mass_g ?? 0), () => openWhy(id), { "data-key": id })),
      mine.length > FIRST && !more ? row(say("{n} more", { n: mine.length - FIRST }), "", () => { state.view.at.allLeft = true; state.show(); }) : null) : el("p", { class: "soft" }, say("Everything you own that is of use comes along.")),
    never.length ? [heading(say("Never, you said")), el("div", { class: "rows" }, never.map((id) => row(el("bdi", null, all.get(id)?.name ?? id), "", () => openWhy(id), { "data-key": `never-${id}` })))] : null,
    answer.toolkit_left?.length ? [heading(say("Of the bike's own toolkit")), el("ul", { class: "dots" }, answer.toolkit_left.map((/** @type {any} */ each) => el("li", null, each.name, el("small", null, ` ${kg(each.mass_g)}`))))] : null,
  ];
}

/** What comes in at the next limits, by the curves that were drawn. @param {Record<string, number>} carried */
function nearly(carried) {
  const curves = Object.values(state.view.at.limits?.curves ?? {}).filter((/** @type {any} */ known) => known.whole);
  if (!curves.length) return plate("say", say("What nearly made it"), el("p", null, saying("Draw a curve under {limits}: this list then says at which limit each thing comes in.", { limits: el("a", { href: "#/limits" }, say("Limits")) })));
  return curves.map((/** @type {any} */ known) => {
    const { whole } = known;
    const seen = new Set();
    const steps = [...whole.points].sort((a, b) => a.limit - b.limit).filter((point) => whole.own_limit === null || point.limit > whole.own_limit).map((point) => {
      const entering = point.entering.filter((/** @type {any} */ each) => each.id && !carried[each.id] && !seen.has(each.id));
      entering.forEach((/** @type {any} */ each) => seen.add(each.id));
      return { point, entering };
    }).filter((step) => step.entering.length);
    const show = SHOW[whole.over] ?? String;
    return [heading(say(MORE[whole.over][0])),
      steps.length ? el("ul", { class: "steps-in" }, steps.map(({ point, entering }) => el("li", null, el("b", null, show(point.limit)), el("div", { class: "flow" }, entering.map((/** @type {any} */ each) => el("button", { type: "button", class: "chip", on: { click: () => openWhy(each.id) } }, each.name)))))) : el("p", { class: "soft" }, say(MORE[whole.over][1]))];
  });
}

/** What would deal best with what still costs hours. @param {any} answer @param {Map<string, any>} all */
function remedies(answer, all) {
  const open = [...(answer.risks ?? [])].filter((risk) => risk.remedy && risk.hours_lost_with_kit > 1 / 120).sort((a, b) => b.hours_lost_with_kit - a.hours_lost_with_kit).slice(0, 8);
  if (!open.length) return null;
  const byName = new Map([...all.values()].map((item) => [item.name, item.id]));
  return [heading(say("What would mend most of what is left")), el("div", { class: "rows" }, open.map((risk) => {
    const names = risk.remedy.items.map((/** @type {any} */ item) => {
      const thing = `${item.count > 1 ? `${item.count} × ` : ""}${item.name}`;
      return item.one_aboard ? say("{thing} (one more)", { thing }) : thing;
    });
    return row([el("bdi", null, capital(names.join(", "))), el("small", null, say("for: {failure}, {hours} left", { failure: risk.name, hours: hours(risk.hours_lost_with_kit) }))], kg(risk.remedy.mass_g), () => openWhy(byName.get(risk.remedy.items[0].name) ?? ""), { "data-key": `remedy-${risk.id}` });
  }))];
}

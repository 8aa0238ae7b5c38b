/** What hangs in the garage: found by search, owned with one tap, weighed on the rider's own scale, pasted as a list. */

import { match } from "./calls.js";
import { el } from "./dom.js";
import { choose } from "./files.js";
import { riders, things } from "./journey.js";
import { carriers } from "./kit.js";
import { faults } from "./live.js";
import { lookUp } from "./look-up.js";
import { disown, invent, own, owned, stand, standing, weigh, weighed } from "./mine.js";
import { currency, fromCatalogue } from "./money.js";
import { button, choice, heading, plate, row, stepper } from "./parts.js";
import { riderTabs, shownRider } from "./rider.js";
import { mark, say, saying, several } from "./say.js";
import { openSheet, notice, shutSheet } from "./sheet.js";
import * as state from "./state.js";
import { capital, cash, kg } from "./words.js";

/** Results shown while typing. */
const SHOWN = 30;

export function haveScreen() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const catalogue = /** @type {import("./types.js").Catalogue} */ (state.view.catalogue);
  const rider = shownRider();
  if (!rider) return plate("say", say("Nobody rides yet"));
  const all = things(trip.scenario, catalogue);
  const mine = owned(rider);
  const typed = state.view.at.search ?? "";
  const found = lookUp(all.values(), typed, SHOWN);
  return [
    riderTabs(),
    el("label", { class: "search" }, el("span", null, say("Find a thing")), el("input", {
      type: "search", id: "find-thing", value: typed, autocomplete: "off", enterkeyhint: "search", placeholder: say("tyre lever, tent, puncture …"),
      on: { input: (/** @type {any} */ event) => { state.view.at.search = event.target.value; state.show(); } },
    })),
    typed ? el("div", { class: "results", "aria-live": "polite" },
      found.length ? el("ul", { class: "things" }, found.map((item) => thing(item, mine, rider))) : el("p", { class: "soft" }, say("Nothing by that name.")),
      button(say("Add “{thing}” as a thing of your own", { thing: typed }), () => inventSheet(typed), { icon: "more" })) : suggestions(trip, all, mine, rider),
    gearFile(rider),
    heading(say("Yours"), el("small", null, several(Object.values(mine).reduce((sum, count) => sum + count, 0), "{n} thing", "{n} things"))),
    garage(all, mine, rider),
    el("div", { class: "rows" },
      row(say("Paste or open a list"), say("each line is checked"), listSheet),
      row(say("Add a thing of your own"), "", () => inventSheet(""))),
  ];
}

/** @param {any} rider */
const gearFile = (rider) => (rider.gear ? el("p", { class: "soft" }, state.trip?.files[rider.gear] === undefined ? saying("More stands in the file {file}; open it together with the trip.", { file: el("bdi", null, rider.gear) }) : saying("More stands in the file {file}.", { file: el("bdi", null, rider.gear) })) : null);

/** What the kit would buy: likely one of it is at home. @param {any} trip @param {Map<string, any>} all @param {Record<string, number>} mine @param {any} rider */
function suggestions(trip, all, mine, rider) {
  const bags = carriers(trip.answer).find((one) => one.name === rider.name)?.bags ?? [];
  const bought = bags.flatMap((bag) => bag.items).filter((item) => item.to_buy_in_kit > 0 && !["food", "water", "fuel"].includes(item.kind));
  const list = [...new Set(bought.map((item) => item.id))].map((id) => all.get(id)).filter((item) => item && !mine[item.id]);
  if (!list.length) return null;
  return el("section", { class: "results" }, el("h2", { class: "minor" }, say("The kit would buy these. Is one at home?")),
    el("ul", { class: "things" }, list.slice(0, state.view.at.moreBought ? 200 : 12).map((item) => thing(item, mine, rider))),
    list.length > 12 && !state.view.at.moreBought ? button(say("{n} more", { n: list.length - 12 }), () => { state.view.at.moreBought = true; state.show(); }, { class: "plain" }) : null);
}

/** @param {any} item @param {Record<string, number>} mine @param {any} rider */
function thing(item, mine, rider) {
  const count = mine[item.id] ?? 0;
  const trip = /** @type {any} */ (state.trip);
  return el("li", { "data-key": item.id, class: count ? "owned" : "" },
    el("button", { type: "button", class: "row", on: { click: () => thingSheet(item.id) } },
      el("span", { class: "words" }, el("bdi", null, item.name), el("small", null, weighed(trip.scenario, item.id) !== null ? say("{mass}, weighed", { mass: kg(item.mass_g) }) : kg(item.mass_g)))),
    count > 0
      ? el("span", { class: "count" },
        el("button", { type: "button", "aria-label": say("One less: {thing}", { thing: item.name }), on: { click: () => set(rider, item.id, count - 1) } }, "−"),
        el("b", null, String(count)),
        el("button", { type: "button", "aria-label": say("One more: {thing}", { thing: item.name }), on: { click: () => set(rider, item.id, count + 1) } }, "+"))
      : button(say("Have it"), () => set(rider, item.id, 1), { class: "take", "aria-label": say("Have it: {thing}", { thing: item.name }) }));
}

/** @param {any} rider @param {string} id @param {number} count */
function set(rider, id, count) {
  const marked = state.mark();
  const at = riders(state.trip?.scenario ?? {}).indexOf(rider);
  state.change(({ scenario }) => own(riders(scenario)[at], id, count));
  if (!count) notice(say("Not yours any more."), () => state.back(marked));
}

/** @param {Map<string, any>} all @param {Record<string, number>} mine @param {any} rider */
function garage(all, mine, rider) {
  /** @type {Map<string, any[]>} */
  const kinds = new Map();
  for (const id of Object.keys(mine)) {
    const item = all.get(id) ?? { id, name: id, kind: mark("unknown"), mass_g: 0 };
    kinds.set(item.kind, [...(kinds.get(item.kind) ?? []), item]);
  }
  if (!kinds.size) return el("p", { class: "soft" }, say("Nothing yet. Search above, and tap “Have it”. What is yours costs nothing to take along."));
  return [...kinds].sort(([a], [b]) => a.localeCompare(b)).map(([kind, items]) =>
    el("details", { class: "card", open: true, "data-key": `kind-${kind}` },
      el("summary", null, el("b", null, capital(say(kind))), el("small", null, String(items.length))),
      el("ul", { class: "things" }, items.sort((a, b) => b.mass_g - a.mass_g).map((item) => thing(item, mine, rider)))));
}

/** Everything about one thing that is at home or could be. @param {string} id */
function thingSheet(id) {
  const name = () => things(/** @type {any} */ (state.trip).scenario, /** @type {any} */ (state.view.catalogue)).get(id);
  openSheet(name()?.name ?? id, () => {
    const trip = /** @type {any} */ (state.trip);
    const item = name();
    if (!item) return el("p", null, say("Gone."));
    const rider = shownRider();
    const count = owned(rider)[id] ?? 0;
    const mine = weighed(trip.scenario, id);
    return [
      el("p", { class: "soft" }, mine === null ? say("{kind}. Catalogue: {mass}, {basis}", { kind: capital(say(item.kind)), mass: kg(item.mass_g), basis: item.basis ?? "" }) : say("{kind}. On your scale: {mass}.", { kind: capital(say(item.kind)), mass: kg(mine) })),
      stepper({ label: say("At home"), value: count, high: 999, places: 0, set: (value) => set(rider, id, value) }),
      stepper({ label: say("Mass on your scale, of one"), unit: "g", step: 5, low: 0.1, high: 100000, places: 1, value: item.mass_g, set: (value) => state.change(({ scenario }) => weigh(scenario, id, value)) }),
      mine !== null && trip.scenario.catalogue?.items?.[id]?.like ? button(say("Back to the catalogue's mass"), () => state.change(({ scenario }) => weigh(scenario, id, null)), { class: "plain" }) : null,
      choice({ label: say("On this trip"), value: standing(trip.scenario, id), options: [["free", say("If it earns its place")], ["always", say("Comes along")], ["never", say("Stays at home")]], set: (value) => state.change(({ scenario }) => stand(scenario, id, /** @type {any} */ (value))) }),
      item.mends?.length ? el("p", null, item.mends.length > 8 ? say("Helps when: {list}; and more.", { list: item.mends.slice(0, 8).join("; ") }) : say("Helps when: {list}.", { list: item.mends.join("; ") })) : null,
      item.price ? el("p", { class: "soft" }, say("New: {price}", { price: cash(fromCatalogue(item.price), currency()) })) : null,
      count && item.own ? button(say("Take it out of the list"), () => { const marked = state.mark(); state.change(({ scenario }) => disown(scenario, id)); shutSheet(); notice(say("Taken out."), () => state.back(marked)); }, { class: "plain", icon: "gone" }) : null,
    ];
  });
}

/** @param {string} typed */
function inventSheet(typed) {
  const catalogue = /** @type {any} */ (state.view.catalogue);
  const made = { name: typed, mass_g: 100, volume_l: 0, kind: "comfort", count: 1 };
  openSheet(say("A thing of your own"), () => [
    el("p", { class: "soft" }, say("The engine does not know what it mends, so it comes along because you say so.")),
    el("label", { class: "field-line" }, el("span", null, say("Name")), el("input", { type: "text", maxlength: 80, value: made.name, on: { input: (/** @type {any} */ event) => (made.name = event.target.value) } })),
    el("div", { class: "grid" },
      stepper({ label: say("Mass of one"), unit: "g", step: 10, low: 1, high: 100000, places: 0, value: made.mass_g, set: (value) => { made.mass_g = value; } }),
      stepper({ label: say("Packed size"), unit: "L", hint: say("0: guessed from its kind"), step: 0.1, high: 100, value: made.volume_l, set: (value) => { made.volume_l = value; } }),
      stepper({ label: say("How many"), value: made.count, low: 1, high: 99, places: 0, set: (value) => { made.count = value; } })),
    el("label", { class: "field-line" }, el("span", null, say("Kind")), el("select", { value: made.kind, on: { change: (/** @type {any} */ event) => (made.kind = event.target.value) } },
      (catalogue.kinds ?? []).filter((/** @type {string} */ kind) => kind !== "fuel").map((/** @type {string} */ kind) => el("option", { value: kind, selected: kind === made.kind }, say(kind))))),
    button(say("Take it along"), () => {
      if (!made.name.trim()) return notice(say("It wants a name."));
      const at = riders(state.trip?.scenario ?? {}).indexOf(shownRider());
      state.change(({ scenario }) => {
        const id = invent(scenario, { name: made.name.trim(), mass_g: made.mass_g, volume_ml: made.volume_l * 1000 || undefined, kind: made.kind }, currency());
        own(riders(scenario)[at], id, made.count);
        stand(scenario, id, "always");
      });
      state.view.at.search = "";
      shutSheet();
      notice(say("It comes along."));
    }, { class: "main" }),
  ]);
}

function listSheet() {
  /** @type {{text: string, lines: any[] | null, wrong: any, taken: Map<number, string | null>}} */
  const at = { text: "", lines: null, wrong: null, taken: new Map() };
  const look = async () => {
    at.wrong = null;
    try {
      at.lines = await match(at.text);
      at.taken = new Map(at.lines.map((line, k) => [k, line.how === "guess" ? "" : line.id]));
    } catch (error) {
      at.lines = null;
      at.wrong = error;
    }
    state.show();
  };
  openSheet(say("A list of yours"), () => at.lines ? confirming(at) : [
    el("p", null, saying("One thing a line, as you keep it: {example}. Or a spreadsheet saved as CSV.", { example: el("code", null, say("2 x tyre lever, 105 g")) })),
    el("label", { class: "field-line tall" }, el("span", null, say("Your list")), el("textarea", { rows: 8, spellcheck: "false", value: at.text, on: { input: (/** @type {any} */ event) => (at.text = event.target.value) } })),
    at.wrong ? plate("stop", say("The list cannot be read"), el("p", null, at.wrong.message), faults(at.wrong.refusal?.faults ?? [])) : null,
    el("div", { class: "acts" }, button(say("Look it through"), look, { class: "main" }),
      button(say("Open a file"), async () => { const [file] = await choose(".csv,.txt,.tsv"); if (file) { at.text = file.text; await look(); } }, { icon: "open" })),
  ]);
}

/** Every guess is confirmed or corrected by hand. @param {any} at */
function confirming(at) {
  const all = things(/** @type {any} */ (state.trip).scenario, /** @type {any} */ (state.view.catalogue));
  const open = at.lines.filter((/** @type {any} */ _, /** @type {number} */ k) => at.taken.get(k) === "").length;
  const nameOf = (/** @type {string} */ id) => all.get(id)?.name ?? id;
  return [
    el("p", { role: "status" }, open ? several(open, "{n} guess to confirm.", "{n} guesses to confirm.") : say("Every line is settled.")),
    open ? button(say("All guesses are right"), () => { at.lines.forEach((/** @type {any} */ line, /** @type {number} */ k) => at.taken.get(k) === "" && at.taken.set(k, line.id)); state.show(); }) : null,
    el("ul", { class: "matches" }, at.lines.map((/** @type {any} */ line, /** @type {number} */ k) => {
      const taken = at.taken.get(k);
      const ids = [line.id, ...(line.others ?? []).map((/** @type {any} */ other) => other.id ?? other)].filter(Boolean);
      return el("li", { "data-key": String(k), class: taken === "" ? "open" : "" },
        el("p", null, el("bdi", null, `${line.count > 1 ? `${line.count} × ` : ""}${line.name}`), line.mass_g ? el("small", null, line.weighed ? kg(line.mass_g) : say("{mass} (catalogue)", { mass: kg(line.mass_g) })) : null),
        el("label", { class: "field-line" }, el("span", null, taken === "" ? say("Is it this?") : say("Taken for")),
          el("select", { value: taken === null ? "-own" : taken === "-skip" ? "-skip" : (taken || line.id || "-own"), on: { change: (/** @type {any} */ event) => { const value = event.target.value; at.taken.set(k, value === "-own" ? null : value); state.show(); } } },
            ids.map((id) => el("option", { value: id, selected: id === (taken || line.id) }, nameOf(id))),
            el("option", { value: "-own", selected: taken === null }, say("a thing of its own")), el("option", { value: "-skip", selected: taken === "-skip" }, say("leave it out")))),
        taken === "" ? button(say("Yes"), () => { at.taken.set(k, line.id); state.show(); }, { "aria-label": say("Yes: {line} is {thing}", { line: line.name, thing: nameOf(line.id) }) }) : null);
    })),
    button(open ? say("Confirm the guesses first") : say("Take the list over"), () => takeOver(at), { class: "main", disabled: open > 0 }),
  ];
}

/** @param {any} at */
function takeOver(at) {
  const catalogue = /** @type {any} */ (state.view.catalogue);
  const marked = state.mark();
  const place = riders(state.trip?.scenario ?? {}).indexOf(shownRider());
  let count = 0;
  state.change(({ scenario }) => {
    const rider = riders(scenario)[place];
    at.lines.forEach((/** @type {any} */ line, /** @type {number} */ k) => {
      const taken = at.taken.get(k);
      if (taken === "-skip") return;
      let id = taken;
      if (!id) {
        if (!line.mass_g) return;
        id = invent(scenario, { name: line.name, mass_g: line.mass_g, volume_ml: line.estimated_volume_ml ?? undefined }, currency());
      } else if (line.weighed && line.mass_g) weigh(scenario, id, line.mass_g);
      own(rider, id, line.count);
      count += 1;
    });
  });
  shutSheet();
  notice(several(count, "{n} thing taken over.", "{n} things taken over."), () => state.back(marked));
}

/** Where a plan begins: five questions, a trip kept here, a sample, or a file. */

import * as calls from "./calls.js";
import { el } from "./dom.js";
import { choose } from "./files.js";
import { host } from "./host.js";
import { sums } from "./journey.js";
import { unpackLink } from "./link.js";
import { faults } from "./live.js";
import { button, choice, heading, plate, row, stepper, tick } from "./parts.js";
import { Refused } from "./refused.js";
import { openSheet, say, shutSheet } from "./sheet.js";
import * as state from "./state.js";
import { plural } from "./words.js";

/** Hours to help that the answers stand for. @type {[string, string, string][]} */
const HELP = [["2", "Near", "an hour or two"], ["6", "Some hours", "six or so"], ["12", "Half a day", "twelve hours"], ["24", "A day", "or more"]];
/** @type {[string, string, string][]} */
const ROUGH = [["road", "Road", "mostly sealed"], ["gravel", "Gravel", "well graded"], ["mixed", "Mixed", "gravel and tracks"], ["rough", "Rough", "rocks, ruts, sand, fords"]];
const SETS = [["basics", "Telephone, papers, bottles, rain suit"], ["tools", "Spanners, hex keys, tape, ties"], ["tyres", "Pump, levers, patches, tubes"], ["away", "Spare clothes, wash kit, headlamp"], ["sleeping", "Tent, sleeping bag, mat"], ["cooking", "Stove, pot, lighter, spoon"], ["beacon", "Locator beacon"]];

const answers = () => (state.view.at.start ??= { bike: "", days: 3, rough: "mixed", help_h: "12", camping: "yes", owns: [] });

export function startScreen() {
  const catalogue = /** @type {import("./types.js").Catalogue} */ (state.view.catalogue);
  const { refused } = state.view.at;
  const [last, ...older] = state.view.others;
  return [
    typeof refused === "string" ? plate("stop", "The link was not opened", el("p", null, refused)) : null,
    refused?.faults ? plate("stop", el("span", null, "Not opened: ", el("bdi", null, refused.name)), refused.message && !refused.faults.length ? el("p", null, refused.message) : null, faults(refused.faults)) : null,
    last ? el("section", null, heading("Trips kept here"), el("div", { class: "rows" }, [last, ...older].map(kept))) : null,
    state.view.folder?.some((file) => file.kind === "scenario") ? el("section", null, heading("In the folder"), el("div", { class: "rows" },
      state.view.folder.filter((file) => file.kind === "scenario").map((file) => row(el("bdi", null, file.name), "", () => openFromFolder(file.name), { "data-key": file.name })))) : null,
    el("section", { class: "five" }, heading(last ? "A new trip" : "Five questions"), questions(catalogue)),
    el("section", null, heading("Or begin with"), el("div", { class: "rows" },
      row("A file of yours", "trip, gear list or log", openFiles),
      row("A link that you got", "paste it", pasteLink),
      samples(catalogue).map(([sample, about]) => row(el("bdi", null, sample.title), `sample: ${about}`, () => openSample(sample), { "data-key": sample.name })))),
    el("p", { class: "soft" }, "Nothing leaves this device. No account, no network needed."),
  ];
}

/** Shipped trips to look at first. @type {[RegExp, string][]} */
const SAMPLES = [[/^day-ride/, "a day out"], [/^five-day/, "five days, camping"], [/^three-to/, "three riders, a week"]];

/** @param {import("./types.js").Catalogue} catalogue @returns {[any, string][]} */
function samples({ samples }) {
  const chosen = SAMPLES.map(([name, about]) => /** @type {[any, string]} */ ([samples.find((sample) => name.test(sample.name)), about])).filter(([sample]) => sample);
  return chosen.length ? chosen : samples.slice(0, 3).map((sample) => [sample, ""]);
}

/** @param {import("./types.js").State} trip @param {number} at */
function kept(trip, at) {
  const { days, km } = sums(trip.scenario);
  const open = () => {
    state.take(trip);
    location.hash = "#/kit";
  };
  const away = async () => {
    if (state.trip?.id === trip.id) state.take(null);
    say("Trip forgotten.", await state.forget(trip));
  };
  return el("div", { class: "pair", "data-key": trip.id },
    row(el("bdi", null, trip.scenario.name ?? "A trip without a name"), `${at ? "" : "last · "}${plural(days, "day")}, ${Math.round(km)} km`, open),
    el("button", { type: "button", class: "plain", on: { click: away } }, el("span", null, "Forget"), el("span", { class: "unseen" }, ` ${trip.scenario.name ?? ""}`)));
}

/** @param {import("./types.js").Catalogue} catalogue */
function questions(catalogue) {
  const now = answers();
  const set = (/** @type {any} */ more) => {
    Object.assign(now, more);
    state.show();
  };
  const bike = catalogue.bikes.find((each) => each.id === now.bike);
  return [
    el("div", { class: "question" }, el("h3", null, "1. What do you ride?"),
      row(bike ? bike.name : "Choose the bike most like yours", bike ? "change" : "", () => chooseBike(now.bike, (id) => set({ bike: id })))),
    el("div", { class: "question" }, el("h3", null, "2. For how long?"),
      stepper({ label: "Days", value: now.days, low: 1, high: 60, places: 0, set: (days) => set({ days }) })),
    el("div", { class: "question" }, choice({ label: "3. How rough is it?", value: now.rough, options: ROUGH, set: (rough) => set({ rough }) })),
    el("div", { class: "question" }, choice({ label: "4. How far is help?", value: now.help_h, options: HELP, set: (help_h) => set({ help_h }) }),
      el("p", { class: "soft" }, "From a breakdown until the bike stands at a road head or a workshop.")),
    now.days > 1 ? el("div", { class: "question" }, choice({ label: "5. Do you camp?", value: now.camping, options: [["yes", "Yes", "tent and stove"], ["no", "No", "a roof each night"]], set: (camping) => set({ camping }) }))
      : el("div", { class: "question" }, el("h3", null, "5. A day out"), el("p", { class: "soft" }, "No nights, so no camp.")),
    el("details", { class: "question" }, el("summary", null, `At home already: ${now.owns.length ? plural(now.owns.length, "set") : "say later, thing by thing"}`),
      SETS.map(([id, words]) => tick({ words, ticked: now.owns.includes(id), key: id, set: (on) => set({ owns: on ? [...now.owns, id] : now.owns.filter((/** @type {string} */ each) => each !== id) }) }))),
    state.view.at.starting ? plate("stop", "That did not work", el("p", null, state.view.at.starting)) : null,
    button(now.bike ? "Plan it" : "Choose a bike first", begin, { class: "main", disabled: !now.bike }),
  ];
}

async function begin() {
  const now = answers();
  try {
    const scenario = await calls.start({ ...now, help_h: Number(now.help_h), camping: now.camping === "yes" });
    state.take(state.fresh(scenario));
    location.hash = "#/kit";
  } catch (error) {
    state.view.at.starting = String(/** @type {any} */ (error).message);
    state.show();
  }
}

/** A list of bikes to choose from, in a sheet. @param {string} now @param {(id: string) => void} chosen */
export function chooseBike(now, chosen) {
  const catalogue = /** @type {import("./types.js").Catalogue} */ (state.view.catalogue);
  let word = "";
  openSheet("Bikes", () => [
    el("label", { class: "search" }, el("span", null, "Search"), el("input", { type: "search", value: word, autocomplete: "off", on: { input: (/** @type {any} */ event) => { word = event.target.value; state.show(); } } })),
    el("p", { class: "soft" }, "Classes, not makes. Take the nearest; measure yours later."),
    el("div", { class: "rows" }, catalogue.bikes.filter((bike) => word.toLowerCase().split(/\s+/).every((part) => bike.name.toLowerCase().includes(part))).map((bike) =>
      row(bike.name, bike.id === now ? "chosen" : `${Math.round(bike.mass_g / 1000)} kg`, () => { chosen(bike.id); shutSheet(); }, { "data-key": bike.id }))),
  ]);
}

/** @param {{name: string, title: string, scenario?: any, text?: string}} sample */
async function openSample(sample) {
  const scenario = sample.scenario ?? (await calls.read(`${sample.name}`.replace(/(\.yaml)?$/, ".yaml"), sample.text ?? "")).tree;
  state.take(state.fresh(structuredClone(scenario)));
  location.hash = "#/kit";
}

/** A link made on another machine opens here, whatever its address. */
function pasteLink() {
  const at = { text: "", wrong: "" };
  const open = async () => {
    try {
      const { scenario, files } = await unpackLink(/trip=([\w.-]+)/.exec(at.text)?.[1] ?? at.text.trim());
      shutSheet();
      state.take(state.fresh(scenario, { files }));
      location.hash = "#/trip";
    } catch (error) {
      at.wrong = String(/** @type {any} */ (error).message);
      state.show();
    }
  };
  openSheet("A link that you got", () => [
    el("label", { class: "field-line tall" }, el("span", null, "The link"), el("textarea", { rows: 5, spellcheck: "false", value: at.text, on: { input: (/** @type {any} */ event) => (at.text = event.target.value) } })),
    at.wrong ? plate("stop", "Not opened", el("p", null, at.wrong)) : null,
    button("Open it", open, { class: "main" }),
  ]);
}

/** Opens a trip of the folder that the program was given, with the files that it names. @param {string} name */
async function openFromFolder(name) {
  state.view.at.refused = undefined;
  try {
    const { text } = await host.call("open", { name });
    const { tree } = await calls.read(name, text);
    /** @type {Record<string, string>} */
    const files = {};
    for (const beside of [...(tree.catalogues ?? []), ...(tree.riders ?? []).map((/** @type {any} */ rider) => rider.gear)].filter(Boolean)) files[beside] = (await host.call("open", { name: beside })).text;
    state.take(state.fresh(tree, { files, from: { name, was: text } }));
    location.hash = "#/kit";
  } catch (error) {
    refused(name, error);
  }
}

/** Opens a trip, and the files it names, from the device. */
async function openFiles() {
  state.view.at.refused = undefined;
  let name = "";
  try {
    const chosen = await choose(".yaml,.yml,.json,.csv");
    if (!chosen.length) return;
    /** @type {Record<string, string>} */
    const files = {};
    /** @type {any} */
    let whole = null;
    let book = "";
    for (const file of chosen) {
      name = file.name;
      const { kind, tree } = await calls.read(file.name, file.text);
      if (tree?.fardel_trip) whole = tree;
      else if (kind === "scenario") whole = { scenario: tree };
      else if (kind === "log") book = file.text;
      else files[file.name] = file.text;
    }
    if (!whole) throw new Refused({ message: book ? "That is a book of rides. Open a trip first, then learn from it under After." : "No trip is among these files: a scenario with `trip`, `riders` and `limits` is expected.", faults: [] });
    state.take(whole.fardel_trip ? { ...state.fresh({}), ...whole.fardel_trip, id: state.fresh({}).id } : state.fresh(whole.scenario, { files, book }));
    location.hash = "#/trip";
  } catch (error) {
    refused(name, error);
  }
}

/** @param {string} name @param {any} error */
function refused(name, error) {
  state.view.at.refused = { name, message: error.message, faults: error.refusal?.faults ?? [] };
  state.show();
  scrollTo(0, 0);
}

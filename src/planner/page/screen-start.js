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
import { LANGUAGES, language, mark, say, saying, several, speak } from "./say.js";
import { openSheet, notice, shutSheet } from "./sheet.js";
import * as state from "./state.js";

/** Hours to help that the answers stand for. @type {[string, string, string][]} */
const HELP = [["2", mark("Near"), mark("an hour or two")], ["6", mark("Some hours"), mark("six or so")], ["12", mark("Half a day"), mark("twelve hours")], ["24", mark("A day"), mark("or more")]];
/** @type {[string, string, string][]} */
const ROUGH = [["road", mark("Road"), mark("mostly sealed")], ["gravel", mark("Gravel"), mark("well graded")], ["mixed", mark("Mixed"), mark("gravel and tracks")], ["rough", mark("Rough"), mark("rocks, ruts, sand, fords")]];
const SETS = [["basics", mark("Telephone, papers, bottles, rain suit")], ["tools", mark("Spanners, hex keys, tape, ties")], ["tyres", mark("Pump, levers, patches, tubes")], ["away", mark("Spare clothes, wash kit, headlamp")], ["sleeping", mark("Tent, sleeping bag, mat")], ["cooking", mark("Stove, pot, lighter, spoon")], ["beacon", mark("Locator beacon")]];

const answers = () => (state.view.at.start ??= { bike: "", days: 3, rough: "mixed", help_h: "12", camping: "yes", owns: [] });

export function startScreen() {
  const catalogue = /** @type {import("./types.js").Catalogue} */ (state.view.catalogue);
  const { refused } = state.view.at;
  const [last, ...older] = state.view.others;
  return [
    typeof refused === "string" ? plate("stop", say("The link was not opened"), el("p", null, refused)) : null,
    refused?.faults ? plate("stop", el("span", null, saying("Not opened: {file}", { file: el("bdi", null, refused.name) })), refused.message && !refused.faults.length ? el("p", null, refused.message) : null, faults(refused.faults)) : null,
    last ? el("section", null, heading(say("Trips kept here")), el("div", { class: "rows" }, [last, ...older].map(kept))) : null,
    state.view.folder?.some((file) => file.kind === "scenario") ? el("section", null, heading(say("In the folder")), el("div", { class: "rows" },
      state.view.folder.filter((file) => file.kind === "scenario").map((file) => row(el("bdi", null, file.name), "", () => openFromFolder(file.name), { "data-key": file.name })))) : null,
    el("section", { class: "five" }, heading(last ? say("A new trip") : say("Five questions")), questions(catalogue)),
    el("section", null, heading(say("Or begin with")), el("div", { class: "rows" },
      row(say("A file of yours"), say("trip, gear list or log"), openFiles),
      row(say("A link that you got"), say("paste it"), pasteLink),
      samples(catalogue).map(([sample, about]) => row(el("bdi", null, sample.title), say("sample: {about}", { about: say(about) }), () => openSample(sample), { "data-key": sample.name })))),
    el("p", { class: "soft" }, say("Nothing leaves this device. No account, no network needed.")),
    languages(),
  ];
}

/** Which language to speak, where there are several; each is named in itself. */
const languages = () => (LANGUAGES.length < 2 ? null
  : choice({ label: say("Language"), value: language, options: LANGUAGES.map(([code, own]) => [code, /** @type {any} */ (el("bdi", { lang: code }, own))]), set: speak }));

/** Shipped trips to look at first. @type {[RegExp, string][]} */
const SAMPLES = [[/^day-ride/, mark("a day out")], [/^five-day/, mark("five days, camping")], [/^three-to/, mark("three riders, a week")]];

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
    notice(say("Trip forgotten."), await state.forget(trip));
  };
  return el("div", { class: "pair", "data-key": trip.id },
    row(el("bdi", null, trip.scenario.name ?? say("A trip without a name")), say(at ? mark("{days}, {km} km") : mark("last · {days}, {km} km"), { days: several(days, "{n} day", "{n} days"), km: Math.round(km) }), open),
    el("button", { type: "button", class: "plain", on: { click: away } }, el("span", null, say("Forget")), el("span", { class: "unseen" }, ` ${trip.scenario.name ?? ""}`)));
}

/** @param {[string, string, string]} option @returns {[string, string, string]} */
const translated = ([value, words, more]) => [value, say(words), say(more)];

/** @param {import("./types.js").Catalogue} catalogue */
function questions(catalogue) {
  const now = answers();
  const set = (/** @type {any} */ more) => {
    Object.assign(now, more);
    state.show();
  };
  const bike = catalogue.bikes.find((each) => each.id === now.bike);
  return [
    el("div", { class: "question" }, el("h3", null, say("1. What do you ride?")),
      row(bike ? bike.name : say("Choose the bike most like yours"), bike ? say("change") : "", () => chooseBike(now.bike, (id) => set({ bike: id })))),
    el("div", { class: "question" }, el("h3", null, say("2. For how long?")),
      stepper({ label: say("Days"), value: now.days, low: 1, high: 60, places: 0, set: (days) => set({ days }) })),
    el("div", { class: "question" }, choice({ label: say("3. How rough is it?"), value: now.rough, options: ROUGH.map(translated), set: (rough) => set({ rough }) })),
    el("div", { class: "question" }, choice({ label: say("4. How far is help?"), value: now.help_h, options: HELP.map(translated), set: (help_h) => set({ help_h }) }),
      el("p", { class: "soft" }, say("From a breakdown until the bike stands at a road head or a workshop."))),
    now.days > 1 ? el("div", { class: "question" }, choice({ label: say("5. Do you camp?"), value: now.camping, options: [["yes", say("Yes"), say("tent and stove")], ["no", say("No"), say("a roof each night")]], set: (camping) => set({ camping }) }))
      : el("div", { class: "question" }, el("h3", null, say("5. A day out")), el("p", { class: "soft" }, say("No nights, so no camp."))),
    el("details", { class: "question" }, el("summary", null, say("At home already: {sets}", { sets: now.owns.length ? several(now.owns.length, "{n} set", "{n} sets") : say("say later, thing by thing") })),
      SETS.map(([id, words]) => tick({ words: say(words), ticked: now.owns.includes(id), key: id, set: (on) => set({ owns: on ? [...now.owns, id] : now.owns.filter((/** @type {string} */ each) => each !== id) }) }))),
    state.view.at.starting ? plate("stop", say("That did not work"), el("p", null, state.view.at.starting)) : null,
    button(now.bike ? say("Plan it") : say("Choose a bike first"), begin, { class: "main", disabled: !now.bike }),
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
  openSheet(say("Bikes"), () => [
    el("label", { class: "search" }, el("span", null, say("Search")), el("input", { type: "search", value: word, autocomplete: "off", on: { input: (/** @type {any} */ event) => { word = event.target.value; state.show(); } } })),
    el("p", { class: "soft" }, say("Classes, not makes. Take the nearest; measure yours later.")),
    el("div", { class: "rows" }, catalogue.bikes.filter((bike) => word.toLowerCase().split(/\s+/).every((part) => bike.name.toLowerCase().includes(part))).map((bike) =>
      row(bike.name, bike.id === now ? say("chosen") : `${Math.round(bike.mass_g / 1000)} kg`, () => { chosen(bike.id); shutSheet(); }, { "data-key": bike.id }))),
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
  openSheet(say("A link that you got"), () => [
    el("label", { class: "field-line tall" }, el("span", null, say("The link")), el("textarea", { rows: 5, spellcheck: "false", value: at.text, on: { input: (/** @type {any} */ event) => (at.text = event.target.value) } })),
    at.wrong ? plate("stop", say("Not opened"), el("p", null, at.wrong)) : null,
    button(say("Open it"), open, { class: "main" }),
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
    if (!whole) throw new Refused({ message: book ? say("That is a book of rides. Open a trip first, then learn from it under After.") : say("No trip is among these files: a scenario with `trip`, `riders` and `limits` is expected."), faults: [] });
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

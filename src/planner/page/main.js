/** Starts the page: reads what is kept, draws the screen that is asked for, and draws it anew whenever something changes. */

import { catalogue, folder } from "./calls.js";
import { el, listen, renew } from "./dom.js";
import { icon } from "./icons.js";
import { unpackLink } from "./link.js";
import { liveLine } from "./live.js";
import { paper } from "./paper.js";
import { plate, waiting } from "./parts.js";
import * as planner from "./planner.js";
import { language, mark, onLanguage, say } from "./say.js";
import { afterScreen } from "./screen-after.js";
import { beforeScreen } from "./screen-before.js";
import { bikeScreen } from "./screen-bike.js";
import { groupScreen } from "./screen-group.js";
import { haveScreen } from "./screen-have.js";
import { kitScreen } from "./screen-kit.js";
import { leftScreen } from "./screen-left.js";
import { limitsScreen, redrawLimit } from "./screen-limits.js";
import { packScreen } from "./screen-pack.js";
import { shareScreen, saveFile } from "./screen-share.js";
import { startScreen } from "./screen-start.js";
import { trailScreen } from "./screen-trail.js";
import { tripScreen } from "./screen-trip.js";
import { redrawSheet, notice, shutSheet } from "./sheet.js";
import * as state from "./state.js";
import { dropped } from "./way.js";

/** Screens, each with its tab, its name, and what draws it. @type {Record<string, {tab: string, title: string, draw: () => any}>} */
const SCREENS = {
  start: { tab: "", title: mark("Trips"), draw: startScreen },
  trip: { tab: "trip", title: mark("Trip"), draw: tripScreen },
  group: { tab: "trip", title: mark("Group"), draw: groupScreen },
  share: { tab: "trip", title: mark("Share"), draw: shareScreen },
  bike: { tab: "bike", title: mark("Bike"), draw: bikeScreen },
  have: { tab: "have", title: mark("Have"), draw: haveScreen },
  kit: { tab: "kit", title: mark("Kit"), draw: kitScreen },
  limits: { tab: "kit", title: mark("Limits"), draw: limitsScreen },
  left: { tab: "kit", title: mark("Left at home"), draw: leftScreen },
  pack: { tab: "pack", title: mark("Pack"), draw: packScreen },
  before: { tab: "pack", title: mark("Before"), draw: beforeScreen },
  trail: { tab: "pack", title: mark("Trail"), draw: trailScreen },
  after: { tab: "pack", title: mark("After"), draw: afterScreen },
};
const TABS = ["trip", "bike", "have", "kit", "pack"];

const head = /** @type {HTMLElement} */ (document.getElementById("head"));
const main = /** @type {HTMLElement} */ (document.getElementById("main"));
const foot = /** @type {HTMLElement} */ (document.getElementById("foot"));

/** @param {string} screen */
const address = (screen) => `#/${screen}`;

function headNodes() {
  const { screen } = state.view;
  const here = SCREENS[screen];
  const beside = Object.entries(SCREENS).filter(([, each]) => each.tab && each.tab === here.tab);
  return [
    el("div", { class: "mast" },
      el("p", { class: "trip-name" }, state.trip ? el("bdi", null, state.trip.scenario.name ?? say("A trip without a name")) : "fardel"),
      screen === "start" ? null : el("a", { class: "trips", href: address("start") }, icon("open"), el("span", null, say("Trips")))),
    beside.length > 1 ? el("nav", { class: "beside", "aria-label": say("{part} and what belongs to it", { part: say(SCREENS[here.tab].title) }) }, beside.map(([id, each]) =>
      el("a", { href: address(id), "aria-current": id === screen ? "page" : null }, say(each.title)))) : null,
    state.view.keeping === "denied" ? plate("warn", say("Not saved"), el("p", null, say("This browser keeps nothing here: {why}. Save the trip as a file before you close the page.", { why: state.view.why })),
      state.trip ? el("button", { type: "button", on: { click: saveFile } }, say("Save a file")) : null) : null,
  ];
}

function footNodes() {
  const tab = SCREENS[state.view.screen].tab;
  return [
    liveLine(),
    state.trip && el("nav", { class: "tabs", "aria-label": say("Parts of the plan") }, TABS.map((id) =>
      el("a", { href: address(id), "aria-current": id === tab ? "true" : null}, icon(id), el("span", null, say(SCREENS[id].title))))),
  ];
}

let drawing = false;
let whole = false;
/** Draws at the next frame, once. Under a finger on a slider only what hangs on it. @param {string} [what] */
function draw(what) {
  whole ||= what !== "drag";
  if (drawing) return;
  drawing = true;
  requestAnimationFrame(() => {
    drawing = false;
    if (!whole) {
      redrawLimit();
      return renew(foot, footNodes().filter(Boolean));
    }
    whole = false;
    const { screen, catalogue } = state.view;
    renew(head, headNodes().filter(Boolean));
    const body = catalogue ? SCREENS[screen].draw() : troubled ? plate("stop", say("No answer"), el("p", null, troubled), el("button", { type: "button", on: { click: () => location.reload() } }, say("Try again"))) : waiting(say("Opening the catalogue …"));
    renew(main, [el("div", { class: `screen at-${screen}`, "data-key": `${screen}-${state.trip?.id ?? ""}` }, el("h1", { tabindex: "-1" }, say(TITLES[screen] ?? SCREENS[screen].title)), body)]);
    renew(foot, footNodes().filter(Boolean));
    document.title = state.trip?.scenario.name ? `${say(SCREENS[screen].title)} – ${state.trip.scenario.name}` : "fardel";
    redrawSheet();
  });
}

/** Headings that say more than the tab. @type {Record<string, string>} */
const TITLES = { start: mark("Where to?"), trip: mark("The trip"), bike: mark("The bike"), have: mark("What you have"), limits: mark("Limits and prices"), pack: mark("Pack"), before: mark("Before you leave"), trail: mark("On the trail"), after: mark("After the ride"), share: mark("Share") };

let troubled = "";

function route() {
  const asked = /^#\/(\w+)/.exec(location.hash)?.[1] ?? "";
  let screen = asked in SCREENS ? asked : state.trip ? "kit" : "start";
  if (!state.trip) screen = "start";
  const other = screen !== state.view.screen;
  state.view.screen = screen;
  shutSheet();
  draw();
  if (other) {
    requestAnimationFrame(() => {
      scrollTo(0, 0);
      main.querySelector("h1")?.focus({ preventScroll: true });
    });
  }
}

/** Opens what a link brings, beside what is kept. */
async function openLink() {
  const found = /(?:^#|&)trip=([\w.-]+)/.exec(location.hash);
  if (!found) return;
  history.replaceState(null, "", location.pathname + address("start"));
  try {
    const brought = await unpackLink(found[1]);
    state.take(state.fresh(brought.scenario, { files: brought.files ?? {} }));
    history.replaceState(null, "", location.pathname + address("trip"));
    notice(say("The trip of the link is open. Your own are kept."));
  } catch (error) {
    state.view.at.refused = String(/** @type {any} */ (error).message);
  }
}

/** The document's own words in the language that is spoken. */
function speakHere() {
  document.documentElement.lang = language;
  for (const node of document.querySelectorAll("[data-say]")) node.textContent = say(node.getAttribute("data-say") ?? "");
}

/** Another language was chosen: the words of the page at once, those of the engine as they come. */
async function spokenAnew() {
  speakHere();
  state.view.at = { start: state.view.at.start };
  draw();
  await bring();
  planner.reckon(true);
}

/** What the engine and the folder have to choose from. */
async function bring() {
  try {
    state.view.catalogue = await catalogue();
    state.view.folder = await folder();
  } catch (error) {
    troubled = String(/** @type {any} */ (error).message);
  }
  draw();
}

async function begin() {
  speakHere();
  onLanguage(spokenAnew);
  listen(document);
  state.watch((what) => {
    if (what === "scenario" || what === "trip") planner.reckon(what === "trip");
    draw(what);
  });
  state.follow((what) => notice(what === "taken" ? say("Changed in another tab; this is the newer plan.") : say("Changed in two tabs at once. Both are kept: the other under its name, this one as a second trip.")));
  // A file that misses its place must not take the page's: the browser would open it instead.
  addEventListener("dragover", (event) => event.dataTransfer?.types.includes("Files") && event.preventDefault());
  addEventListener("drop", (event) => {
    if (!event.dataTransfer?.files.length) return;
    event.preventDefault();
    dropped(event.dataTransfer.files);
  });
  addEventListener("hashchange", route);
  addEventListener("beforeprint", () => renew(/** @type {HTMLElement} */ (document.getElementById("paper")), paper()));
  const kept = await state.recall();
  await openLink();
  if (!state.trip && kept.length && /^#\/(?!start)/.test(location.hash)) state.take(kept[0]);
  route();
  await bring();
  if (state.view.catalogue) planner.reckon(true);
  // Only beside the page on a static host; a file has nothing to install, and the program serves it itself.
  if (navigator.serviceWorker && "fardelEngine" in globalThis && document.querySelector('link[rel="manifest"]')) navigator.serviceWorker.register("service.js").catch(() => undefined);
}

begin();

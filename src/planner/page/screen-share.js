/** Taking a trip elsewhere: a file of the command line, a whole copy, a link, a picture, paper. */

import { folder, write } from "./calls.js";
import { el } from "./dom.js";
import { download, fileName } from "./files.js";
import { host } from "./host.js";
import { carriers } from "./kit.js";
import { LONGEST, packLink } from "./link.js";
import { heading, plate, row } from "./parts.js";
import { shownRider } from "./rider.js";
import { say, several } from "./say.js";
import { kitPicture } from "./screen-kit.js";
import { notice } from "./sheet.js";
import * as state from "./state.js";

/** A link longer than this is cut by some messengers, in characters. */
const COMFORTABLE = 8000;
/** Width of the picture, in pixels. */
const PIXELS = 1200;

export function shareScreen() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const at = (state.view.at.share ??= { link: "", rev: -1, trouble: "" });
  if (at.rev !== trip.rev) {
    at.rev = trip.rev;
    packLink(trip).then((text) => {
      at.link = `${location.href.split("#")[0]}#trip=${text}`;
      state.show();
    }, (error) => {
      at.trouble = String(error.message);
      state.show();
    });
  }
  const files = Object.keys(trip.files);
  return [
    el("div", { class: "rows" },
      state.view.folder ? row(say("Save into the folder"), trip.from?.name ?? fileName(trip.scenario.name, "yaml"), saveInFolder) : null,
      row(say("Trip as a file"), say("for fardel and for this page"), saveFile),
      files.map((name) => row(el("bdi", null, name), say("goes with it"), () => download(name, trip.files[name]))),
      row(say("Everything as a file"), say("with ticks, weighings and log"), saveWhole),
      row(say("Picture of the kit"), "PNG", savePicture),
      row(say("On paper"), say("lists with boxes"), () => print())),
    heading(say("A link")),
    at.trouble ? plate("stop", say("No link"), el("p", null, at.trouble)) : null,
    at.link.length > LONGEST ? plate("warn", say("Too long for a link"), el("p", null, say("Send the file."))) : [
      el("label", { class: "field-line tall" }, el("span", null, say("The whole trip stands in it; no server keeps it")), el("textarea", { rows: 4, readonly: true, spellcheck: "false", value: at.link, on: { click: (/** @type {any} */ event) => event.target.select() } })),
      el("p", { class: "soft" }, at.link.length > COMFORTABLE ? several(at.link.length, "{n} letter: some messengers cut so long a link. The file is safer.", "{n} letters: some messengers cut so long a link. The file is safer.") : several(at.link.length, "{n} letter. Ticks and weighings stay here.", "{n} letters. Ticks and weighings stay here.")),
      el("div", { class: "acts" },
        "share" in navigator ? el("button", { type: "button", class: "main", on: { click: () => navigator.share({ title: trip.scenario.name, url: at.link }).catch(() => undefined) } }, say("Send")) : null,
        el("button", { type: "button", class: "share" in navigator ? "" : "main", on: { click: () => copy(at.link) } }, say("Copy the link")))],
    /^(127\.|localhost|\[::1)/.test(location.host) ? el("p", { class: "soft" }, say("The address is that of this machine: whoever gets the link pastes it into a planner of their own, under Trips.")) : null,
    el("p", { class: "soft" }, say("A link holds names and masses of riders. Send it to those who ride along.")),
  ];
}

/** @param {string} text */
async function copy(text) {
  try {
    await navigator.clipboard.writeText(text);
    notice(say("Copied."));
  } catch {
    document.querySelector("textarea")?.select();
    notice(say("Copying is not allowed here: the link is marked, copy it by hand."));
  }
}

/** The scenario as the command line reads it. */
export async function saveFile() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  try {
    download(fileName(trip.scenario.name, "yaml"), await write(trip.scenario));
  } catch {
    // JSON is YAML, too: a file comes out even where the engine does not answer.
    download(fileName(trip.scenario.name, "yaml"), JSON.stringify(trip.scenario, null, 2));
  }
}

/** Into the folder that the program was given; never over what somebody else has changed. */
async function saveInFolder() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const name = trip.from?.name ?? fileName(trip.scenario.name, "yaml");
  try {
    const text = await write(trip.scenario);
    await host.call("save", { name, text, was: trip.from?.was ?? null });
    state.change((now) => (now.from = { name, was: text }), "ticks");
    state.view.folder = await folder();
    notice(say("Saved as {file}.", { file: name }));
  } catch (error) {
    notice(say("Not saved: {why}", { why: /** @type {any} */ (error).message }));
  }
}

function saveWhole() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  download(fileName(trip.scenario.name, "fardel.json"), JSON.stringify({ fardel_trip: trip }, null, 1), "application/json");
}

async function savePicture() {
  const trip = /** @type {import("./types.js").State} */ (state.trip);
  const mine = carriers(trip.answer, trip.moved).find((one) => one.name === shownRider()?.name) ?? carriers(trip.answer)[0];
  const drawn = mine && kitPicture(trip, mine);
  if (!drawn) return notice(say("No kit to draw yet."));
  const copyOf = outsidePage(drawn);
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(new XMLSerializer().serializeToString(copyOf))}`;
  await image.decode();
  const [, , wide, high] = /** @type {string} */ (copyOf.getAttribute("viewBox")).split(" ").map(Number);
  const canvas = document.createElement("canvas");
  canvas.width = PIXELS;
  canvas.height = Math.round((PIXELS * high) / wide);
  const paint = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d"));
  paint.fillStyle = "#f4f1e8";
  paint.fillRect(0, 0, canvas.width, canvas.height);
  paint.drawImage(image, 0, 0, canvas.width, canvas.height);
  canvas.toBlob((blob) => blob && download(fileName(trip.scenario.name, "png"), blob));
}

/** Colours as attributes: outside the page its style sheet is not there. @param {SVGElement} drawn */
function outsidePage(drawn) {
  const place = document.createElement("div");
  place.className = "unseen light";
  place.append(drawn);
  document.body.append(place);
  for (const node of drawn.querySelectorAll("path, circle, rect, text")) {
    const seen = getComputedStyle(node);
    for (const name of ["fill", "stroke", "stroke-width", "stroke-linecap", "stroke-linejoin", "stroke-dasharray", "font-size", "font-weight", "font-family", "opacity", "vector-effect"]) node.setAttribute(name, seen.getPropertyValue(name));
  }
  place.remove();
  drawn.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  drawn.setAttribute("width", String(PIXELS));
  return drawn;
}

/**
 * Legs out of a recorded or drawn track, and its picture. The picture is an image of its own: nothing in it runs or loads.
 */

import { LARGEST_TRACK, choose, texts } from "./files.js";
import { el } from "./dom.js";
import { host } from "./host.js";
import { sums } from "./journey.js";
import { faults } from "./live.js";
import { button, heading, plate } from "./parts.js";
import { say } from "./say.js";
import { notice } from "./sheet.js";
import * as state from "./state.js";

/** Longest picture that is kept with the trip; a longer one is shown until the page is closed. In letters. */
const KEPT = 400_000;

/** The picture that is shown: what it was made of, and its address. */
let shown = { picture: "", address: "" };

/** @param {string} picture */
function address(picture) {
  if (shown.picture === picture) return shown.address;
  if (shown.address) URL.revokeObjectURL(shown.address);
  shown = { picture, address: URL.createObjectURL(new Blob([picture], { type: "image/svg+xml" })) };
  return shown.address;
}

/** The track's picture with a few lines about it, the ways to bring another, and why the last one was not taken. */
export function wayPart() {
  const { at } = state.view;
  const way = at.way ?? state.trip?.way;
  return el("section", { class: "way" },
    at.track ? plate("stop", say("The track was not taken"), el("p", null, at.track.message), faults(at.track.refusal?.faults ?? [])) : null,
    at.reading ? el("p", { class: "soft", role: "status" }, say("Reading the track …")) : null,
    way ? picture(way) : null,
    el("div", { class: "acts" },
      button(way ? say("Another track") : say("Legs from a track"), fromFile, { icon: "open" }),
      way ? button(say("Take the picture away"), without, { class: "plain", icon: "gone" }) : null),
    el("p", { class: "soft" }, say("A track is a GPX, KML or GeoJSON file; you can also drop it here. It is read on this device and sent nowhere.")));
}

/** @param {{name: string, summary: string, picture: string}} way */
function picture(way) {
  const large = Boolean(state.view.at.large);
  return [
    heading(say("The way")),
    el("figure", { class: large ? "way-picture large" : "way-picture" },
      el("div", large ? { class: "across", tabindex: "0", role: "region", "aria-label": say("The way, large") } : { class: "across" },
        el("img", { src: address(way.picture), alt: say("The way as a picture: {summary}", { summary: way.summary.split("\n")[0] }) })),
      el("figcaption", null, el("bdi", null, way.name), button(large ? say("Fit the screen") : say("Show it large"), () => {
        state.view.at.large = !large;
        state.show();
      }, { class: "plain" }))),
    el("p", { class: "way-words" }, way.summary.trim()),
  ];
}

async function fromFile() {
  try {
    const [file] = await choose(".gpx,.kml,.geojson,.json", LARGEST_TRACK);
    if (file) await taken(file);
  } catch (error) {
    refused(error);
  }
}

/** Takes a track that was dropped on the page. @param {FileList} files */
export async function dropped(files) {
  if (!state.trip || state.view.screen !== "trip") return notice(say("Drop a track on the screen Trip of an open trip."));
  try {
    const [file] = await texts([...files].slice(0, 1), LARGEST_TRACK);
    if (file) await taken(file);
  } catch (error) {
    refused(error);
  }
}

/** @param {any} error */
function refused(error) {
  Object.assign(state.view.at, { track: error, reading: false });
  state.show();
}

/** The legs become those of the track; surfaces and help are then the rider's to say. @param {{name: string, text: string}} file */
async function taken(file) {
  const trip = state.trip;
  Object.assign(state.view.at, { track: null, reading: true });
  state.show();
  const days = Math.max(1, Math.round(sums(trip?.scenario ?? {}).days));
  const told = await host.call("route", { name: file.name, text: file.text, days });
  // Another trip was opened meanwhile: the track was meant for the one before.
  if (state.trip?.id !== trip?.id) return;
  const way = { name: file.name, summary: told.summary, picture: told.picture };
  const marked = state.mark();
  const before = state.view.at.way ?? null;
  Object.assign(state.view.at, { way, reading: false, large: false });
  state.change((now) => {
    now.scenario.trip = told.trip;
    now.way = way.picture.length > KEPT ? null : way;
  });
  notice(say("Legs taken from the track. Check surfaces, gaps and hours to help."), () => undone(marked, before));
}

function without() {
  const [marked, before] = [state.mark(), state.view.at.way ?? null];
  state.view.at.way = null;
  state.change((now) => (now.way = null), "ticks");
  notice(say("Picture taken away; the legs stay."), () => undone(marked, before));
}

/** @param {any} marked @param {any} way */
function undone(marked, way) {
  state.view.at.way = way;
  state.back(marked);
}
